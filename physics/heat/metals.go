package heat

import (
	_ "embed"
	"fmt"
	"math"
	"sync"
)

//go:embed metals.csv
var metalsCSV string

// SteelCp returns the specific heat [J/kg K] of carbon steel (and of tinplate,
// whose tin is 1 % of it) at t [K]:
//
//	425 + 0.773 C - 1.69e-3 C^2 + 2.22e-6 C^3, C in °C, 20 to 600 °C
//
// Source: EN 1993-1-2, 3.4.1.2. Above 600 °C the standard has a spike of 5000
// at 735 °C; it is replaced by a smooth hump of the same heat, 600 to 900 °C
// (integral of the standard's pieces, 296 kJ/kg [memory of the pieces]), then
// 650. The steel stores the same; it only passes 735 °C less abruptly.
func SteelCp(t float64) float64 {
	c := math.Max(t-273.15, 0)
	if c <= 600 {
		return 425 + c*(0.773+c*(-1.69e-3+c*2.22e-6))
	}
	const start, end, over = 759.92, 650.0, 282.8 // ends [J/kg K]; mean height of the hump over their line
	if c >= 900 {
		return end
	}
	x := (c - 600) / 300
	hump := x * (1 - x)
	return start + (end-start)*x + over*30*hump*hump
}

// SteelConductivity returns the conductivity [W/m K] of carbon steel at t [K]:
// 54 - 0.0333 C to 800 °C, 27.3 above. Source: EN 1993-1-2, 3.4.1.3.
func SteelConductivity(t float64) float64 {
	return math.Max(54-0.0333*math.Max(t-273.15, 0), 27.3)
}

// StainlessCp returns the specific heat [J/kg K] of austenitic stainless steel
// at t [K]: 450 + 0.28 C - 2.91e-4 C^2 + 1.34e-7 C^3 (EN 1993-1-2 annex C
// [memory]), held above 1200 °C.
func StainlessCp(t float64) float64 {
	c := math.Min(math.Max(t-273.15, 0), 1200)
	return 450 + c*(0.28+c*(-2.91e-4+c*1.34e-7))
}

// StainlessConductivity returns the conductivity [W/m K] of austenitic
// stainless steel at t [K]: 14.6 + 0.0127 C (EN 1993-1-2 annex C [memory]).
func StainlessConductivity(t float64) float64 {
	return 14.6 + 0.0127*math.Min(math.Max(t-273.15, 0), 1200)
}

// Metal is what a wall or pot is made of.
type Metal struct {
	Name    string
	Density float64 // [kg/m3]
	steel   bool
	stain   bool
	t       [4]float64
	cp, k   [4]float64
}

// Densities of the steels [kg/m3]: EN 1993-1-2 (carbon), Incropera 6e table
// A.1 (AISI 304 [memory]).
const (
	steelDensity     = 7850
	stainlessDensity = 7900
)

var metals = sync.OnceValues(func() (map[string]Metal, error) {
	out := map[string]Metal{
		"tinplate":   {Name: "tinplate", Density: steelDensity, steel: true},
		"steel":      {Name: "steel", Density: steelDensity, steel: true},
		"galvanised": {Name: "galvanised", Density: steelDensity, steel: true},
		"stainless":  {Name: "stainless", Density: stainlessDensity, stain: true},
	}
	count := map[string]int{}
	err := eachRow(metalsCSV, func(r map[string]string, num func(string) float64) {
		n := r["metal"]
		m := out[n]
		i := count[n]
		if i >= len(m.t) {
			return
		}
		m.Name, m.Density = n, num("density")
		m.t[i], m.cp[i], m.k[i] = num("temp_k"), num("cp"), num("k")
		count[n]++
		out[n] = m
	})
	for n, c := range count {
		if c != len(Metal{}.t) && err == nil {
			err = fmt.Errorf("embedded table: %d rows of %s, want %d", c, n, len(Metal{}.t))
		}
	}
	return out, err
})

// MetalOf returns a metal by name: tinplate, steel, galvanised, stainless,
// aluminium, copper, titanium.
func MetalOf(name string) (Metal, error) {
	all, err := metals()
	if err != nil {
		return Metal{}, err
	}
	m, ok := all[name]
	if !ok {
		return Metal{}, fmt.Errorf("metal: %q, want tinplate, steel, galvanised, stainless, aluminium, copper or titanium", name)
	}
	return m, nil
}

// Cp returns the specific heat [J/kg K] at t [K].
func (m *Metal) Cp(t float64) float64 {
	switch {
	case m.steel:
		return SteelCp(t)
	case m.stain:
		return StainlessCp(t)
	}
	return line(&m.t, &m.cp, t)
}

// Conductivity returns the conductivity [W/m K] at t [K].
func (m *Metal) Conductivity(t float64) float64 {
	switch {
	case m.steel:
		return SteelConductivity(t)
	case m.stain:
		return StainlessConductivity(t)
	}
	return line(&m.t, &m.k, t)
}

// Areal returns the heat capacity [J/m2 K] of a sheet of a thickness [m] at t.
func (m *Metal) Areal(thickness, t float64) float64 { return m.Density * thickness * m.Cp(t) }

// line reads y at t between the points, held beyond the ends.
func line(x, y *[4]float64, t float64) float64 {
	if t <= x[0] {
		return y[0]
	}
	for i := 1; i < len(x); i++ {
		if t <= x[i] {
			return y[i-1] + (y[i]-y[i-1])*(t-x[i-1])/(x[i]-x[i-1])
		}
	}
	return y[3]
}
