package water

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

type point struct {
	t, v float64
	used bool
}

func points(t *testing.T, property string) (out []point) {
	f, err := os.Open("testdata/if97.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		if r[0] != property {
			continue
		}
		x, e1 := strconv.ParseFloat(r[2], 64)
		v, e2 := strconv.ParseFloat(r[3], 64)
		if e1 != nil || e2 != nil {
			t.Fatal(r, e1, e2)
		}
		out = append(out, point{x, v, r[4] == "fit"})
	}
	if len(out) == 0 {
		t.Fatalf("no points of %s", property)
	}
	return out
}

// The constants of the fits are what their points give, and all points, used
// or left out, lie within the stated error.
func TestFitsAreReproduced(t *testing.T) {
	for _, c := range []struct {
		property string
		got      []float64
		scale    float64 // unit of the table in SI
		within   float64 // stated, in SI
	}{
		{"latent", latent[:], 1000, 20},
		{"density", density[:], 1, 0.01},
		{"cp", heat[:], 1000, 0.6},
	} {
		var used []point
		for _, p := range points(t, c.property) {
			if p.used {
				used = append(used, p)
			}
			if d := horner(c.got, p.t/100) - p.v*c.scale; math.Abs(d) > c.within {
				t.Errorf("%s at %g °C is off by %g", c.property, p.t, d)
			}
		}
		n := len(c.got)
		a, b := mat.NewDense(len(used), n, nil), mat.NewVecDense(len(used), nil)
		for i, p := range used {
			for j := range n {
				a.Set(i, j, math.Pow(p.t/100, float64(j)))
			}
			b.SetVec(i, p.v*c.scale)
		}
		var qr mat.QR
		qr.Factorize(a)
		var x mat.VecDense
		if err := qr.SolveVecTo(&x, false, b); err != nil {
			t.Fatal(err)
		}
		for _, p := range used {
			old, fresh := horner(c.got, p.t/100), horner(x.RawVector().Data, p.t/100)
			if math.Abs(old/fresh-1) > 1e-7 {
				t.Errorf("%s: the constants give %g at %g °C, a new fit %g: %.9g", c.property, old, p.t, fresh, x.RawVector().Data)
				break
			}
		}
	}
	for _, p := range points(t, "enthalpy") {
		if d := Enthalpy(zeroC+p.t) - p.v*1e3; math.Abs(d) > 10 {
			t.Errorf("enthalpy at %g °C is off by %g J/kg", p.t, d)
		}
	}
	for _, p := range points(t, "boiling") {
		if d := SaturationTemperature(p.v*1e3) - zeroC - p.t; math.Abs(d) > 6e-6 {
			t.Errorf("boiling point at %g kPa is off by %g K", p.v, d)
		}
	}
}

func TestSaturationInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(254, 647).Draw(t, "T")
		p, slope := SaturationPressureSlope(T)
		if back := SaturationTemperature(p); math.Abs(back-T) > 2e-6 {
			t.Fatalf("%g K → %g Pa → %g K", T, p, back)
		}
		const d = 1e-3
		if got := (SaturationPressure(T+d) - SaturationPressure(T-d)) / (2 * d); math.Abs(got-slope) > 1e-5*slope {
			t.Fatalf("slope at %g K: %g, by difference %g", T, slope, got)
		}
	})
}

// Clausius and Clapeyron: the slope of the line gives the latent heat when the
// vapour is nearly ideal, so two independent forms agree within 2 %.
func TestClausiusClapeyron(t *testing.T) {
	for T := 274.0; T < 380; T += 5 {
		p, slope := SaturationPressureSlope(T)
		ideal := slope * 8.314462618 / MolarMass * T * T / p
		if e := ideal/LatentHeat(T) - 1; e < 0 || e > 0.02 {
			t.Errorf("at %g K the slope gives %g J/kg, the fit %g", T, ideal, LatentHeat(T))
		}
	}
}

func TestCpIsSlopeOfEnthalpy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(200, 500).Draw(t, "T")
		const d = 1e-3
		if got := (Enthalpy(T+d) - Enthalpy(T-d)) / (2 * d); math.Abs(got-Cp(T)) > 1e-3*Cp(T) {
			t.Fatalf("at %g K: slope %g, cp %g", T, got, Cp(T))
		}
	})
}

func TestHeldOutside(t *testing.T) {
	for _, T := range []float64{-1e9, 0, 200, 700, 1e9} {
		for name, v := range map[string]float64{
			"pressure": SaturationPressure(T), "latent": LatentHeat(T), "density": Density(T), "cp": Cp(T),
		} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Errorf("%s at %g K is %g", name, T, v)
			}
		}
	}
	for _, p := range []float64{-1, 0, 1, 1e9} {
		if T := SaturationTemperature(p); !(T >= lowestT-0.01 && T <= CriticalT+0.01) {
			t.Errorf("boiling point at %g Pa: %g K", p, T)
		}
	}
	if p, s := SaturationPressureSlope(700); s != 0 || math.Abs(p/CriticalP-1) > 1e-4 {
		t.Errorf("above the critical point: %g Pa, slope %g", p, s)
	}
}

func ExampleSaturationTemperature() {
	// Where a barometer at the stove shows 845.6 hPa (1500 m, standard day).
	fmt.Printf("%.2f °C\n", SaturationTemperature(84560)-273.15)
	// Output: 94.98 °C
}

func ExampleHeatToWarm() {
	fmt.Printf("%.1f kJ/kg\n", HeatToWarm(293.15, 373.12)/1000)
	// Output: 335.0 kJ/kg
}

var sink float64

func BenchmarkSaturationPressure(b *testing.B) {
	T := 300.0
	for b.Loop() {
		sink = SaturationPressure(T)
		T += 1e-6
	}
}

func BenchmarkSaturationTemperature(b *testing.B) {
	p := 1e5
	for b.Loop() {
		sink = SaturationTemperature(p)
		p += 1e-3
	}
}

func BenchmarkLatentHeat(b *testing.B) {
	T := 300.0
	for b.Loop() {
		sink = LatentHeat(T)
		T += 1e-6
	}
}
