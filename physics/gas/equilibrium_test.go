package gas

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// balanced checks that the mixture holds the atoms given.
func balanced(t *rapid.T, q *Equilibrium, e Elements) {
	t.Helper()
	var got Elements
	for sp, n := range q.Moles {
		if !(n >= 0) {
			t.Fatalf("%v: %g mol", Species(sp), n)
		}
		got = got.Plus(Species(sp).Elements(), n)
	}
	var total float64
	for _, b := range e {
		total += b
	}
	for i := range e {
		if math.Abs(got[i]-e[i]) > 1e-8*e[i]+1e-12*total {
			t.Fatalf("element %d: %g mol in the mixture, %g given", i, got[i], e[i])
		}
	}
}

// settled checks that no reaction among the main gases would lower the Gibbs
// energy: the law of mass action with constants from G.
func settled(t *rapid.T, q *Equilibrium) {
	t.Helper()
	type term struct {
		sp Species
		nu float64
	}
	for _, r := range [][]term{
		{{CO, -1}, {H2O, -1}, {CO2, 1}, {H2, 1}},
		{{CO, -1}, {O2, -0.5}, {CO2, 1}},
		{{H2, -1}, {O2, -0.5}, {H2O, 1}},
		{{CO, -1}, {H2, -3}, {CH4, 1}, {H2O, 1}},
		{{N2, -0.5}, {O2, -0.5}, {NO, 1}},
		{{Graphite, -1}, {CO2, -1}, {CO, 2}},
	} {
		var g float64
		trace := false
		for _, s := range r {
			g += s.nu * s.sp.G(q.T) / (R * q.T)
			if s.sp == Graphite {
				trace = trace || q.Moles[Graphite] == 0
				continue
			}
			trace = trace || q.X(s.sp) < 1e-11
			g += s.nu * math.Log(q.X(s.sp)*q.P/P0)
		}
		if !trace && math.Abs(g) > 1e-5 {
			t.Fatalf("reaction %v is off balance by %g RT at %g K, %g Pa", r, g, q.T, q.P)
		}
	}
}

func drawAtoms(t *rapid.T) Elements {
	e := Elements{Nitrogen: rapid.Float64Range(0.01, 8).Draw(t, "N"), Argon: 0.01}
	if rapid.Bool().Draw(t, "carbon") {
		e[Carbon] = rapid.Float64Range(0.001, 2).Draw(t, "C")
	}
	if rapid.Bool().Draw(t, "hydrogen") {
		e[Hydrogen] = rapid.Float64Range(0.001, 4).Draw(t, "H")
	}
	// from almost no oxygen to far too much
	e[Oxygen] = math.Pow(10, rapid.Float64Range(-3, 1).Draw(t, "logO"))
	if rapid.IntRange(0, 3).Draw(t, "exact") == 0 && e[Carbon]+e[Hydrogen] > 0 {
		e[Oxygen] = 2*e[Carbon] + e[Hydrogen]/2
	}
	return e
}

func TestEquilibriumAtNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := drawAtoms(t)
		T := rapid.Float64Range(300, 3500).Draw(t, "T")
		p := math.Pow(10, rapid.Float64Range(3, 7).Draw(t, "logP"))
		// what carbon the oxygen leaves needs hydrogen, or graphite
		solid := rapid.Bool().Draw(t, "graphite") || e[Carbon] >= e[Oxygen]+e[Hydrogen]
		q, err := EquilibriumAt(e, T, p, Options{Graphite: solid})
		if err != nil {
			t.Fatal(err)
		}
		balanced(t, &q, e)
		settled(t, &q)
	})
}

func TestEquilibriumFlameNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Mix{
			CO:  rapid.Float64Range(0, 1).Draw(t, "CO"),
			H2:  rapid.Float64Range(0, 1).Draw(t, "H2"),
			CH4: rapid.Float64Range(0.001, 0.3).Draw(t, "CH4"),
			CO2: rapid.Float64Range(0, 0.5).Draw(t, "CO2"),
			H2O: rapid.Float64Range(0, 0.5).Draw(t, "H2O"),
			N2:  rapid.Float64Range(0, 2).Draw(t, "N2"),
		}
		lambda := math.Pow(10, rapid.Float64Range(-0.7, 0.9).Draw(t, "log lambda"))
		Tfuel := rapid.Float64Range(300, 1200).Draw(t, "Tfuel")
		air := Mix{N2: .780847, O2: .20946, Ar: .009293, CO2: .0004}.Times(lambda * m.OxygenDemand() / .20946)
		f := Feed{}.PlusMix(m, Tfuel).PlusMix(air, 298.15)
		solid := rapid.Bool().Draw(t, "graphite")
		q, err := EquilibriumFlame(f, 101325, Options{Graphite: solid})
		if err != nil {
			t.Fatal(err)
		}
		balanced(t, &q, f.Elements)
		settled(t, &q)
		if d := q.H() - f.H; math.Abs(d) > 1e-6*(math.Abs(f.H)+1000) {
			t.Fatalf("enthalpy is off by %g J of %g", d, f.H)
		}
		if lambda >= 1 {
			frozen, _, err := f.FrozenFlame()
			if err != nil || q.T > frozen+0.01 {
				t.Fatalf("equilibrium %g K above frozen %g K (%v)", q.T, frozen, err)
			}
		}
	})
}

func TestEquilibriumRefuses(t *testing.T) {
	ok := Elements{Hydrogen: 2, Oxygen: 1}
	for name, err := range map[string]error{
		"no atoms":    second(EquilibriumAt(Elements{}, 1000, 1e5, Options{})),
		"negative":    second(EquilibriumAt(Elements{Hydrogen: -1, Oxygen: 1}, 1000, 1e5, Options{})),
		"temperature": second(EquilibriumAt(ok, 100, 1e5, Options{})),
		"pressure":    second(EquilibriumAt(ok, 1000, 0, Options{})),
		"enthalpy":    second(EquilibriumFlame(Feed{Elements: ok, H: math.NaN()}, 1e5, Options{})),
		"species":     second(EquilibriumAt(ok, 1000, 1e5, Options{Only: []Species{H2}})),
		"no place":    second(EquilibriumAt(Elements{Carbon: 1, Oxygen: 0.5}, 1000, 1e5, Options{})),
		"none":        second(EquilibriumAt(ok, 1000, 1e5, Options{Only: []Species{CO}})),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	// a flame with less enthalpy than the mixture can hold
	var stuck *NoEquilibrium
	if err := second(EquilibriumFlame(Feed{Elements: ok, H: -1e9}, 1e5, Options{})); !errors.As(err, &stuck) || stuck.Iterations == 0 {
		t.Errorf("impossible enthalpy: %v", err)
	}
}

func second(_ Equilibrium, err error) error { return err }

func ExampleEquilibriumFlame() {
	// Methane and the air it needs, 21 % oxygen, both at 25 °C.
	f := Feed{}.Plus(CH4, 1, T0).Plus(O2, 2, T0).Plus(N2, 2*79./21, T0)
	q, err := EquilibriumFlame(f, 101325, Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f K, CO %.4f\n", q.T, q.X(CO))
	// Output: 2224 K, CO 0.0089
}

func ExampleMix_EnergyPerOxygen() {
	m := Mix{CO: 1}
	fmt.Printf("%.1f MJ/kg\n", m.EnergyPerOxygen()/1e6)
	// Output: 17.7 MJ/kg
}

func BenchmarkEquilibriumFlame(b *testing.B) {
	f := Feed{}.Plus(CH4, 1, T0).Plus(O2, 2, T0).Plus(N2, 7.5, T0)
	for b.Loop() {
		q, _ := EquilibriumFlame(f, 101325, Options{})
		sink = q.T
	}
}
