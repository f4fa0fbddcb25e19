package bed

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"toplit/physics/fuel"
)

//go:embed resistance.csv
var resistanceCSV string

// Packing is one row of the resistance table: the two constants of the Ergun
// form for one family of pieces.
type Packing struct {
	Family   fuel.Family
	Viscous  float64 // A
	Inertial float64 // B
	Spread   float64 // multiply or divide the pressure drop by this for one standard uncertainty
	Source   string
}

var packings = sync.OnceValues(func() (map[fuel.Family]Packing, error) {
	rows, err := csv.NewReader(strings.NewReader(resistanceCSV)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("bed resistance table: %w", err)
	}
	out := make(map[fuel.Family]Packing)
	for i, r := range rows[1:] {
		p := Packing{Family: fuel.Family(r[0]), Source: r[4]}
		for j, to := range []*float64{&p.Viscous, &p.Inertial, &p.Spread} {
			if *to, err = strconv.ParseFloat(r[1+j], 64); err != nil {
				return nil, fmt.Errorf("bed resistance table: line %d: %w", i+2, err)
			}
		}
		out[p.Family] = p
	}
	return out, nil
})

// PackingOf is the resistance row of a family; the spheres of Ergun for a
// family the table does not hold.
func PackingOf(f fuel.Family) Packing {
	m, _ := packings() // the embedded table is checked by a test
	if p, ok := m[f]; ok {
		return p
	}
	return Packing{Family: f, Viscous: 150, Inertial: 1.75, Spread: 2.5, Source: "Ergun 1952, spheres"}
}

// Layer is a bed or a part of one that gas flows through.
type Layer struct {
	Depth    float64 // [m]
	Area     float64 // of the bore [m²]
	Void     float64 // gas share of the volume
	Size     float64 // of the pieces for flow, see Surface [m]
	Viscous  float64 // A of the packing
	Inertial float64 // B of the packing
	Fines    float64 // mass fraction of fines, 0 to 0.3
	Factor   float64 // learned from burns, multiplies the pressure drop; 0 for 1
}

// NewLayer is a raw layer of a fuel in a bore of the given diameter [m], with
// the void raised at the wall.
func NewLayer(f fuel.Fuel, depth, bore float64) Layer {
	p := PackingOf(f.Family)
	return Layer{
		Depth:    depth,
		Area:     math.Pi / 4 * bore * bore,
		Void:     Void(f.Void(), bore, f.Size),
		Size:     Surface(f),
		Viscous:  p.Viscous,
		Inertial: p.Inertial,
	}
}

// Surface is the size that sets the resistance [m]: six times volume over
// surface, 3·d·l/(d + 2·l) for pellets, sticks and lumps taken as cylinders and
// 3·t/(1 + 2·t/l) for plates: chips a quarter as thick as their sieve size, husks
// 0.25 mm thick [memory], shells as thick as their size.
func Surface(f fuel.Fuel) float64 {
	d, l := f.Size, f.Length
	if l <= 0 {
		l = d
	}
	switch f.Family {
	case fuel.Chips:
		return plate(d/4, d)
	case fuel.Husk:
		return plate(0.25e-3, l)
	case fuel.Shells:
		return plate(d, l)
	}
	if d <= 0 {
		return 0
	}
	return 3 * d * l / (d + 2*l)
}

func plate(thick, long float64) float64 {
	if !(long > 0) {
		return 3 * thick
	}
	return 3 * thick / (1 + 2*thick/long)
}

// Void raises the void of a wide bed to that in a bore of diameter D [m] with
// pieces of size d [m], by the wall term of Benyahia, O'Neill 2005 (Part. Sci.
// Technol. 23:169) for cylinders:
//
//	ε = 0.373 + 1.703/(D/d + 0.611)²,  1.7 < D/d < 26
//
// of which we use the difference to D/d = 26. Accuracy ± 1.6 % of the void for
// cylinders; other shapes by analogy.
func Void(wide, D, d float64) float64 {
	if !(d > 0) || !(D > 0) {
		return wide
	}
	r := min(max(D/d, 1.7), 26)
	v := wide + cylinderVoid(r) - cylinderVoid(26)
	return min(max(v, 0.05), 0.98)
}

// CylinderVoid is the void of a bed of equal cylinders, Benyahia, O'Neill 2005,
// at the ratio of bore to diameter, held between 1.7 and 26.
func CylinderVoid(ratio float64) float64 { return cylinderVoid(min(max(ratio, 1.7), 26)) }

func cylinderVoid(r float64) float64 { return 0.373 + 1.703/((r+0.611)*(r+0.611)) }

// GeneralVoid is the void of a bed of pieces of sphericity s, Benyahia, O'Neill
// 2005: 0.1504 + 0.2024/s + 1.0814/(D/d + 0.1226)², ± 5 %.
func GeneralVoid(s, ratio float64) float64 {
	return 0.1504 + 0.2024/s + 1.0814/((ratio+0.1226)*(ratio+0.1226))
}

// Coefficients are a and b in Δp = a·ṁ + b·ṁ·|ṁ| [Pa, kg/s] for gas of
// viscosity mu [Pa s] and density rho [kg/m³] at the layer's temperature:
//
//	Δp/L = A·μ·(1−ε)²/(ε³·d²)·u + B·ρ·(1−ε)/(ε³·d)·u²,  u = ṁ/(ρ·area)
//
// the form of Ergun 1952 with A and B of the packing (resistance.csv): refitted
// to measured pellet and chip beds, because the constants for spheres miss
// pellets by up to a factor 2. Fines multiply the terms by 1 + 15.5·w and 1 +
// 52·w, fitted to 10 and 20 % of fines in pellets (Bioresour. Technol. 101
// (2010) 5565, abstract): about fourfold at 10 %.
//
// Range: superficial velocity to 0.4 m/s, fines to 0.2. Accuracy: a factor 1.6
// for clean pellets, 2.5 for fuels without a measurement.
func (l Layer) Coefficients(mu, rho float64) (a, b float64) {
	if !(l.Depth > 0 && l.Area > 0 && l.Size > 0 && rho > 0) {
		return 0, 0
	}
	e := min(max(l.Void, 0.05), 0.98)
	w := min(max(l.Fines, 0), 0.3)
	k := l.Depth * (1 - e) / (e * e * e * l.Size) / (rho * l.Area)
	if l.Factor > 0 {
		k *= l.Factor
	}
	a = k * l.Viscous * mu * (1 - e) / l.Size * (1 + 15.5*w)
	b = k * l.Inertial / l.Area * (1 + 52*w)
	return a, b
}

// What charring does to a layer.
const (
	// CharHeight is the height of the char layer per height of raw bed it came
	// from. Pieces lose 39 % of their volume in pyrolysis (open particle codes);
	// builders' beds sink by a third to a half.
	CharHeight = 0.6
	// CharVoid is how much the void rises, our judgement: pieces shrink a little
	// more than the bed settles.
	CharVoid = 0.04
	charSize = 0.85 // linear shrinkage, (1 − 0.39)^(1/3)
)

// CharLayer is the char left by the upper part of a raw layer of the depth
// eaten [m].
func CharLayer(raw Layer, eaten float64) Layer {
	c := raw
	c.Depth = max(eaten, 0) * CharHeight
	c.Void = min(raw.Void+CharVoid, 0.98)
	c.Size = raw.Size * charSize
	return c
}
