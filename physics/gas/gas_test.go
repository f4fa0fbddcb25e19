package gas

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The coefficients give the enthalpy of formation printed with them.
func TestFormationEnthalpies(t *testing.T) {
	for sp := range Species(NSpecies) {
		if d := sp.H(T0) - nasa[sp].formation; math.Abs(d) > 5 {
			t.Errorf("%v: H(298.15 K) = %.1f J/mol, the table's heat of formation is %.1f", sp, sp.H(T0), nasa[sp].formation)
		}
	}
}

// cp is the slope of H, cp/T that of S, −S that of G.
func TestThermodynamicIdentities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sp := Species(rapid.IntRange(0, NSpecies-1).Draw(t, "species"))
		lo, hi := sp.Range()
		T := rapid.Float64Range(max(lo, 299), hi-1).Draw(t, "T")
		const d = 0.01
		slope := func(f func(float64) float64) float64 { return (f(T+d) - f(T-d)) / (2 * d) }
		if math.Abs(T-1000) < 1 || math.Abs(T-600) < 1 || math.Abs(T-373.15) < 1 || math.Abs(T-2000) < 1 {
			return // the ranges join with a small step
		}
		cp, s := sp.Cp(T), sp.S(T)
		if got := slope(sp.H); math.Abs(got-cp) > 1e-4*cp {
			t.Fatalf("%v at %g K: dH/dT %g, cp %g", sp, T, got, cp)
		}
		if got := slope(sp.S) * T; math.Abs(got-cp) > 1e-4*cp {
			t.Fatalf("%v at %g K: T·dS/dT %g, cp %g", sp, T, got, cp)
		}
		if got := -slope(sp.G); math.Abs(got-s) > 1e-4*s {
			t.Fatalf("%v at %g K: −dG/dT %g, S %g", sp, T, got, s)
		}
		h, c, g := nasa[sp].reduced(T, math.Log(T))
		if math.Abs(h*R*T-sp.H(T)) > 1e-6*R*T || math.Abs(c*R-cp) > 1e-9*cp || math.Abs(g*R*T-sp.G(T)) > 1e-6*R*T {
			t.Fatalf("%v at %g K: reduced form differs", sp, T)
		}
	})
}

// Where two ranges meet, and beyond the ends, nothing jumps.
func TestRangesJoin(t *testing.T) {
	for sp := range Species(NSpecies) {
		s := &nasa[sp]
		for i := range s.parts {
			T := s.part[i].high
			if d := sp.H(T*(1+1e-9)) - sp.H(T); math.Abs(d) > 10 {
				t.Errorf("%v: H steps by %g J/mol at %g K", sp, d, T)
			}
			if d := sp.S(T*(1+1e-9)) - sp.S(T); math.Abs(d) > 0.02 {
				t.Errorf("%v: S steps by %g J/mol K at %g K", sp, d, T)
			}
		}
		for _, T := range []float64{50, 100, 7000, 1e5} {
			if h, g := sp.H(T), sp.G(T); math.IsNaN(h+g) || math.IsInf(h+g, 0) || sp.Cp(T) <= 0 {
				t.Errorf("%v at %g K: H %g, G %g, cp %g", sp, T, h, g, sp.Cp(T))
			}
		}
	}
}

func TestReadersReportDamage(t *testing.T) {
	if _, err := readNASA(strings.Replace(nasaCSV, "28.0134", "28.0135", 1)); err == nil || !strings.Contains(err.Error(), "molar mass") {
		t.Errorf("wrong molar mass: %v", err)
	}
	if _, err := readNASA(strings.Replace(nasaCSV, "22103.71497", "22103.x", 1)); err == nil {
		t.Error("no error for a number that is none")
	}
	if _, err := readNASA(nasaCSV[:strings.LastIndex(nasaCSV, "Air,")]); err != nil {
		t.Errorf("one range of air less: %v", err)
	}
	if _, err := readNASA(nasaCSV[:strings.Index(nasaCSV, "Air,")]); err == nil {
		t.Error("no error for a missing species")
	}
	if _, err := readTransport(strings.Replace(transportCSV, "CH4,C,1000", "CH4,X,1000", 1)); err == nil {
		t.Error("no error for an unknown property")
	}
	if _, err := readTransport(strings.TrimSuffix(transportCSV[:strings.LastIndex(transportCSV, "CH4")], "\n")); err == nil {
		t.Error("no error for a missing range")
	}
}

// Burning keeps the atoms, and what it gives off at 298.15 K is the LHV.
func TestBurnedKeepsAtomsAndEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		b := m.Burned(share)
		before, after := m.Elements(), b.Elements()
		for i := range before {
			if math.Abs(before[i]-after[i]) > 1e-12*(1+before[i]) {
				t.Fatalf("element %d: %g before, %g after", i, before[i], after[i])
			}
		}
		for i, n := range b {
			if n < -1e-12 {
				t.Fatalf("%v: %g mol", Species(i), n)
			}
		}
		if got, want := m.H(T0)-b.H(T0), m.LHV()-b.LHV(); math.Abs(got-want) > 1e-6*(1+m.LHV()) {
			t.Fatalf("released %g J, heating value fell by %g J", got, want)
		}
		if math.Abs(m.Mass()-m.Elements().Mass()) > 1e-12 {
			t.Fatalf("mass %g kg, atoms %g kg", m.Mass(), m.Elements().Mass())
		}
	})
}

func TestMixOfNothing(t *testing.T) {
	var m Mix
	if m.MolarMass() != 0 || m.EnergyPerOxygen() != 0 || m.Viscosity(300) != 0 || m.T(1, 321) != 321 || m.Fractions() != m || m.Burned(1) != m {
		t.Error("an empty mix is not all zero")
	}
	if !math.IsNaN(Viscosity(OH, 300)) || !math.IsNaN(Conductivity(OH, 300)) {
		t.Error("transport of a species outside the core is not NaN")
	}
	if Species(-1).String() != "unknown species" || CO2.String() != "CO2" {
		t.Error("names")
	}
}

func TestMixTInvertsH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		T := rapid.Float64Range(200, 4000).Draw(t, "T")
		if got := m.T(m.H(T), 1000); math.Abs(got-T) > 1e-4 { // the ranges join with steps of a few J/mol
			t.Fatalf("T gives %g K for %g K", got, T)
		}
	})
}

// A pure gas mixes to itself, and mixtures lie between sensible bounds.
func TestMixingRules(t *testing.T) {
	for sp := range Species(NCore) {
		var m Mix
		m[sp] = 2.5
		for _, T := range []float64{300, 1000, 1800} {
			mu, k := Viscosity(sp, T), Conductivity(sp, T)
			for name, e := range map[string]float64{
				"Viscosity": m.Viscosity(T)/mu - 1, "Conductivity": m.Conductivity(T)/k - 1,
			} {
				if math.Abs(e) > 1e-12 {
					t.Errorf("%s of pure %v at %g K is off by %g", name, sp, T, e)
				}
			}
			for name, e := range map[string]float64{
				"FastViscosity": m.FastViscosity(T)/mu - 1, "FastConductivity": m.FastConductivity(T)/k - 1,
			} {
				if math.Abs(e) > 2e-4 {
					t.Errorf("%s of pure %v at %g K is off by %g", name, sp, T, e)
				}
			}
		}
	}
}

func TestCompleteRefuses(t *testing.T) {
	if _, _, err := (Feed{}).Plus(CH4, 1, T0).Plus(O2, 1.9, T0).FrozenFlame(); err == nil {
		t.Error("short of oxygen: no error")
	}
	if _, _, err := (Feed{}).Plus(KOH, 1, T0).Plus(O2, 2, T0).FrozenFlame(); err == nil {
		t.Error("potassium: no error")
	}
	if _, _, err := (Feed{}).FrozenFlame(); err == nil {
		t.Error("nothing: no error")
	}
}

func ExampleSpecies_LHV() {
	for _, sp := range []Species{CO, H2, CH4} {
		fmt.Printf("%v %.2f MJ/kg\n", sp, sp.LHV()/sp.MolarMass()/1e6)
	}
	// Output:
	// CO 10.10 MJ/kg
	// H2 119.96 MJ/kg
	// CH4 50.03 MJ/kg
}

func ExampleMix_FastT() {
	// Cold wood gas burns completely with the air it needs, no heat lost.
	gas := Mix{CO: 0.20, H2: 0.18, CH4: 0.02, CO2: 0.12, N2: 0.48}
	air := Mix{O2: 0.21, N2: 0.79}.Times(gas.OxygenDemand() / 0.21)
	cold := gas.Plus(air, 1)
	hot := cold.Burned(1)
	fmt.Printf("%.0f K\n", hot.FastT(cold.FastH(T0), 1800))
	// Output: 1919 K
}
