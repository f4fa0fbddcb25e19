package bed

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// drawFeed is any raw fuel of the catalogue's kind.
func drawFeed(t *rapid.T) (Feed, fuel.Analysis) {
	fuels := fuel.Catalogue()
	a := fuels[rapid.IntRange(0, len(fuels)-1).Draw(t, "fuel")].Analysis
	a.Carbon += rapid.Float64Range(-0.02, 0.02).Draw(t, "carbon")
	a.Hydrogen += rapid.Float64Range(-0.005, 0.005).Draw(t, "hydrogen")
	return NewFeed(a, fuel.Analysis{}), a
}

func drawGas(t *rapid.T) GasIn {
	return GasIn{
		Moisture: rapid.Float64Range(0, 1).Draw(t, "moisture"),
		Oxygen:   rapid.Float64Range(0, 80).Draw(t, "oxygen"),
		Char:     rapid.Float64Range(0, 0.9).Draw(t, "char"),
		Tar:      rapid.Float64Range(0, 0.6).Draw(t, "tar"),
		Methane:  rapid.Float64Range(0, 0.2).Draw(t, "methane"),
		Shift:    rapid.Float64Range(0.05, 5).Draw(t, "shift"),
	}
}

// Whatever is asked for, every element that goes in comes out, nothing is
// negative, and the heat is the difference of the enthalpies.
func TestGasCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, _ := drawFeed(t)
		in := drawGas(t)
		out := f.Gas(in)
		want := f.Fuel
		want[gas.Hydrogen] += 2 * in.Moisture / gas.H2O.MolarMass()
		want[gas.Oxygen] += in.Moisture/gas.H2O.MolarMass() + 2*in.Oxygen
		got := f.Elements(out)
		for el := range want {
			if math.Abs(got[el]-want[el]) > 1e-12*max(want[el], 1) {
				t.Fatalf("element %d: %.15g in, %.15g out", el, want[el], got[el])
			}
		}
		for i, n := range out.Gas {
			if n < 0 || math.IsNaN(n) {
				t.Fatalf("%v: %g mol", gas.Species(i), n)
			}
		}
		if out.Tar < 0 || out.Char < 0 || out.Carbon < 0 {
			t.Fatalf("negative product: %+v", out)
		}
	})
}

// With nothing short the shift ratio is met, and what was asked for is made.
func TestGasShift(t *testing.T) {
	f := NewFeed(fuel.Catalogue()[0].Analysis, fuel.Analysis{})
	for _, K := range []float64{0.1, 0.35, 1, 1.0000001, 3} {
		in := GasIn{Moisture: 0.1, Oxygen: 11, Char: 0.2, Tar: 0.1, Methane: 0.02, Shift: K}
		out := f.Gas(in)
		g := out.Gas
		if got := g[gas.CO2] * g[gas.H2] / (g[gas.CO] * g[gas.H2O]); math.Abs(got-K) > 1e-9*K {
			t.Errorf("water-gas ratio %g, asked for %g", got, K)
		}
		if out.Char != in.Char || out.Tar != in.Tar || out.Carbon != 0 || g[gas.O2] != 0 {
			t.Errorf("not what was asked for: %+v", out)
		}
	}
}

// Heat and the gas's heating value together are the heating value of what was
// gasified: an enthalpy balance by another road.
func TestGasHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, dry := drawFeed(t)
		in := drawGas(t)
		out := f.Gas(in)
		full := dry.Formation() - f.Fuel[gas.Carbon]*gas.CO2.H(gas.T0) - f.Fuel[gas.Hydrogen]/2*gas.H2O.H(gas.T0)
		evaporation := in.Moisture * (gas.H2O.H(gas.T0)/gas.H2O.MolarMass() - fuel.LiquidWater())
		char := f.CharFormation - f.Char[gas.Carbon]*gas.CO2.H(gas.T0) - f.Char[gas.Hydrogen]/2*gas.H2O.H(gas.T0)
		carbon := -gas.CO2.H(gas.T0) / gas.AtomicMass(gas.Carbon)
		want := full - evaporation - out.LHV() - out.Char*char - out.Carbon*carbon
		if math.Abs(out.Heat-want) > 1 {
			t.Fatalf("heat %g J/kg, by heating values %g", out.Heat, want)
		}
	})
}

// Over the natural range of a stove the gas needs 12.5 to 17 MJ per kg of O2.
func TestGasEnergyPerOxygen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fuels := fuel.Catalogue()
		fl := fuels[rapid.IntRange(0, len(fuels)-1).Draw(t, "fuel")]
		f := NewFeed(fl.Analysis, fuel.Analysis{})
		u := rapid.Float64Range(0.01, 0.12).Draw(t, "u")
		X := rapid.Float64Range(0, 0.33).Draw(t, "X")
		need := rapid.Float64Range(1.1, 1.8).Draw(t, "need")
		y := Yield(YieldIn{Velocity: u, Size: fl.Size, Density: fl.Density, Moisture: X, Charred: fl.Charred()})
		out := f.Gas(GasIn{
			Moisture: X,
			Oxygen:   AirFuel(need, X) * 0.20946 / 28.9655e-3,
			Char:     y * (1 - fl.Analysis.Ash),
			Tar:      TarPrior(u, fl.Size),
			Methane:  Methane * (1 - y),
			Shift:    rapid.Float64Range(0.2, 1).Draw(t, "shift"),
		})
		if e := out.EnergyPerOxygen(); e < 12.5e6 || e > 17e6 {
			t.Fatalf("%s: %.2f MJ per kg of O2", fl.Name, e/1e6)
		}
	})
}

func BenchmarkGas(b *testing.B) {
	f := NewFeed(fuel.Catalogue()[0].Analysis, fuel.Analysis{})
	in := GasIn{Moisture: 0.1, Oxygen: 11, Char: 0.2, Tar: 0.1, Methane: 0.02}
	for b.Loop() {
		f.Gas(in)
	}
}
