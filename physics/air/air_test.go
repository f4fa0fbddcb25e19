package air

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"toplit/physics/gas"
)

func drawState(t *rapid.T) State {
	return State{
		T:  rapid.Float64Range(253, 323).Draw(t, "T"),
		P:  rapid.Float64Range(60e3, 110e3).Draw(t, "P"),
		RH: rapid.Float64Range(0, 1).Draw(t, "RH"),
	}
}

func TestMoistAirHoldsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawState(t)
		m := s.Mix()
		if math.Abs(m.Moles()-1) > 1e-12 {
			t.Fatalf("a mole of air holds %g mol", m.Moles())
		}
		if f := s.Flow(0.003); math.Abs(f.Mass()-0.003) > 1e-15 {
			t.Fatalf("flow of 0.003 kg/s weighs %g", f.Mass())
		}
		x, w := s.VapourFraction(), s.HumidityRatio()
		dry := Dry()
		mv, md := gas.H2O.MolarMass()*x, dry.MolarMass()*(1-x)
		if math.Abs(w-mv/md) > 1e-15 {
			t.Fatalf("humidity ratio %g, want %g", w, mv/md)
		}
		if wet, dry := s.Density(), (State{T: s.T, P: s.P}).Density(); wet > dry {
			t.Fatalf("moist air %g is denser than dry %g", wet, dry)
		}
		if math.Abs(s.DensityAt(s.T)-s.Density()) > 1e-15 || s.DensityAt(600) >= s.Density() {
			t.Fatal("density at another temperature")
		}
	})
}

func TestStandardAtmosphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		H := rapid.Float64Range(lowest, highest-1).Draw(t, "H")
		if got := PressureAltitude(StandardPressure(H)); math.Abs(got-H) > 1e-6 {
			t.Fatalf("%g m comes back as %g m", H, got)
		}
		// the weight of the air: dp/dH = −ρ·g
		const d = 0.5
		if got, want := (StandardPressure(H+d)-StandardPressure(H))/d, -StandardDensity(H+d/2)*gravity; math.Abs(got-want) > 1e-4*math.Abs(want) {
			t.Fatalf("at %g m dp/dH = %g, −ρg = %g", H, got, want)
		}
		if BoilingPointAt(H+1) >= BoilingPointAt(H) {
			t.Fatalf("water boils no lower above %g m", H)
		}
	})
	if StandardPressure(20000) != StandardPressure(highest) || PressureAltitude(-1) != highest || PressureAltitude(1e9) != lowest {
		t.Error("not held outside the range")
	}
	if s := Standard(500); s.RH != 0 || s.P != StandardPressure(500) || s.BoilingPoint() != BoilingPointAt(500) {
		t.Error("standard state")
	}
}

func TestVapourHeld(t *testing.T) {
	for _, s := range []State{{T: 400, P: 1e5, RH: 1}, {T: 300, P: 1e5, RH: -0.2}} {
		if x := s.VapourFraction(); x < 0 || x > 1 {
			t.Errorf("%+v: vapour fraction %g", s, x)
		}
	}
}

func ExampleState_Density() {
	s := State{T: 293.15, P: 101325, RH: 0.5}
	fmt.Printf("%.4f kg/m³, vapour %.2f %% by volume\n", s.Density(), 100*s.VapourFraction())
	// Output: 1.1989 kg/m³, vapour 1.16 % by volume
}

func ExampleDryAirNeed() {
	// One kilogram of dry wood, 50.3 % C, 6.1 % H, 43.2 % O.
	o2 := 0.503/0.012011 + 0.061/(4*0.001008) - 0.432/0.031998
	fmt.Printf("%.2f kg\n", DryAirNeed(o2))
	// Output: 6.02 kg
}

var sink float64

func BenchmarkStateMix(b *testing.B) {
	s := State{T: 293.15, P: 101325, RH: 0.5}
	for b.Loop() {
		m := s.Mix()
		sink = m[0]
	}
}
