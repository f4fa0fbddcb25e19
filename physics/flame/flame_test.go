package flame

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/physics/gas"
)

var air = gas.Mix{gas.N2: 0.7808, gas.O2: 0.2095, gas.Ar: 0.0093, gas.CO2: 0.0004}

func drawFuel(t *rapid.T) gas.Mix {
	f := rapid.Float64Range(0, 0.3)
	g := gas.Mix{gas.CO: f.Draw(t, "CO"), gas.H2: f.Draw(t, "H2"), gas.CH4: f.Draw(t, "CH4") / 6, gas.CO2: f.Draw(t, "CO2"), gas.H2O: f.Draw(t, "H2O")}
	g[gas.N2] = 0.5
	return g
}

// The enthalpy of the products at the undissociated temperature is that of what
// went in, less the loss; and no atom is lost, tar included.
func TestProductsClose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Burning{
			Fuel: drawFuel(t), FuelT: rapid.Float64Range(290, 1200).Draw(t, "fuel T"), Tar: rapid.Float64Range(0, 0.01).Draw(t, "tar"),
			Air: air, AirT: rapid.Float64Range(260, 700).Draw(t, "air T"), Lambda: rapid.Float64Range(0.3, 4).Draw(t, "lambda"), Loss: rapid.Float64Range(0, 0.5).Draw(t, "loss"),
		}
		out, _, lambda := b.Products()
		need := b.Fuel.OxygenDemand() + b.Tar*tarOxygen
		k := lambda * need / air[gas.O2]
		want := b.Fuel.Elements().Plus(air.Elements(), k).Plus(tarElements, b.Tar)
		got := out.Elements()
		for el := range want {
			if math.Abs(got[el]-want[el]) > 1e-12*max(want[el], 1) {
				t.Fatalf("element %d: %g in, %g out", el, want[el], got[el])
			}
		}
		for i, n := range out {
			if n < -1e-15 || math.IsNaN(n) {
				t.Fatalf("%v: %g", gas.Species(i), n)
			}
		}
		if b.Lambda >= 1 && out.OxygenDemand() > 1e-9 {
			t.Fatalf("unburned gas at λ %g", b.Lambda)
		}
	})
}

func TestTemperatureSigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Burning{Fuel: drawFuel(t), FuelT: 700, Air: air, AirT: 300, Lambda: rapid.Float64Range(1, 3).Draw(t, "lambda"), Loss: 0.1}
		T := b.Temperature()
		if math.IsNaN(T) || T < 250 || T > 3000 {
			t.Fatalf("%g K", T)
		}
		leaner, hotter, lossy := b, b, b
		leaner.Lambda += 0.2
		hotter.FuelT += 100
		lossy.Loss += 0.1
		if b.Fuel.LHV() > 2e4 && leaner.Temperature() > T+2 {
			t.Fatalf("more excess air is hotter: %g over %g", leaner.Temperature(), T)
		}
		if hotter.Temperature() < T || lossy.Temperature() > T+1e-6 {
			t.Fatalf("signs: %g, hotter gas %g, more loss %g", T, hotter.Temperature(), lossy.Temperature())
		}
	})
	if T := (Burning{Fuel: gas.Mix{gas.N2: 1}, FuelT: 500, Air: air, AirT: 300}).Temperature(); math.Abs(T-500) > 0.5 {
		t.Errorf("a gas that does not burn is at %g K, went in with 500", T)
	}
	if T := (Burning{}).Temperature(); math.IsNaN(T) {
		t.Error("nothing at all gives NaN")
	}
}

// The estimate stays beside the equilibrium of package gas.
func TestTemperatureBesideEquilibrium(t *testing.T) {
	for _, g := range []gas.Mix{
		{gas.CO: 0.16, gas.H2: 0.10, gas.CH4: 0.02, gas.CO2: 0.12, gas.N2: 0.5, gas.H2O: 0.1},
		{gas.CO: 0.25, gas.CO2: 0.05, gas.N2: 0.68, gas.H2: 0.02},
	} {
		for _, lambda := range []float64{1, 1.5, 2.5} {
			k := lambda * g.OxygenDemand() / air[gas.O2]
			eq, err := gas.EquilibriumFlame(gas.Feed{}.PlusMix(g, 800).PlusMix(air.Times(k), 300), 101325, gas.Options{})
			if err != nil {
				t.Fatal(err)
			}
			want := eq.T
			got := Burning{Fuel: g, FuelT: 800, Air: air, AirT: 300, Lambda: lambda}.Temperature()
			if math.Abs(got-want) > 20 {
				t.Errorf("λ %g: %g K, equilibrium %g K", lambda, got, want)
			}
		}
	}
}

func TestHolds(t *testing.T) {
	if h := Holds(Critical, 0, 0); h != 0.5 {
		t.Errorf("at the critical temperature %g", h)
	}
	if Holds(1200, 0, 0) > 1e-3 || Holds(1700, 0, 0) < 0.999 {
		t.Error("far from it the answer must be sure")
	}
}

func TestJetReach(t *testing.T) {
	j := Jet{Diameter: 5e-3, Cd: 0.66, Count: 20, Density: 0.9, Speed: 1.4, Flow: 4e-4}
	still := Cross{Density: 0.35, Area: 5e-3}
	moving := still
	moving.Flow = 4e-4
	if r := j.Reach(still); !(r > 0) || math.IsInf(r, 0) {
		t.Errorf("into still gas %g m", r)
	}
	if j.Reach(moving) >= j.Reach(still) {
		t.Error("a cross-flow must shorten the reach")
	}
	// With J and the flow split it is the published form.
	U := moving.Flow / moving.Density / moving.Area
	J := MomentumRatio(j.Density, j.Speed, moving.Density, U)
	want := 1.25 * j.Effective() * math.Sqrt(J) * moving.Flow / (moving.Flow + j.Flow)
	if got := j.Reach(moving); math.Abs(got/want-1) > 1e-12 {
		t.Errorf("reach %g, by J %g", got, want)
	}
	if (Jet{}).Reach(Cross{}) != 0 || (Jet{}).ReachRatio(Cross{}, 0) != 0 || (Jet{}).Reynolds(0) != 0 {
		t.Error("nothing reaches somewhere")
	}
	if j.ReachRatio(moving, 0.02) <= j.ReachRatio(moving, 0) {
		t.Error("a ring brings the middle nearer")
	}
	if Entrained(0.001, 0.005, 1, 1) != 0 || Entrained(0.1, 0.005, 1.2, 0.9) <= 0 {
		t.Error("entrainment")
	}
}

// Slanted holes of which all are tangential have the geometric swirl number.
func TestSwirlBothWays(t *testing.T) {
	const mj, m, rho, At, rj, R = 4e-4, 7e-4, 0.4, 3e-4, 0.05, 0.03
	U := mj / (rho * At)
	got, want := Swirl(mj, U, math.Pi/2, rj, m, rho, R), SwirlTangential(rj, R, At, mj/m)
	if math.Abs(got/want-1) > 1e-12 {
		t.Errorf("swirl %g, geometric %g", got, want)
	}
	for S, word := range map[float64]string{0: "none", -0.2: "weak", 0.5: "depends on the geometry", 0.8: "central recirculation"} {
		if Strength(S) != word {
			t.Errorf("%g is %q", S, Strength(S))
		}
	}
	if math.Abs(SwirlVanes(1, 0.3)-SwirlVanes(1-1e-9, 0.3)) > 1e-6 {
		t.Error("vanes: the limit of a thin ring is not met")
	}
}

func TestMixing(t *testing.T) {
	best := Mixing(1, 1.5, 0)
	for _, worse := range []float64{Mixing(0, 1.5, 0), Mixing(0.3, 1.5, 0), Mixing(4, 1.5, 0), Mixing(1, 0.3, 0)} {
		if worse >= best || worse < 0.87 {
			t.Errorf("%g against %g with jets that reach the middle", worse, best)
		}
	}
	if Mixing(0.3, 1, 0.6) <= Mixing(0.3, 1, 0) {
		t.Error("swirl must help where jets fall short")
	}
}

func TestBurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(300, 2200).Draw(t, "T")
		o2 := rapid.Float64Range(0, 0.21).Draw(t, "O2")
		s := Burned(T, 0.1, o2, 101325, 0.1)
		if !(s >= 0 && s <= 1) {
			t.Fatalf("%g", s)
		}
		if Burned(T+50, 0.1, o2, 101325, 0.1) < s || Burned(T, 0.1, o2+0.01, 101325, 0.1) < s {
			t.Fatal("hotter or with more oxygen less burns")
		}
	})
	if Burned(1100, 0.1, 0, 101325, 1) != 0 || Burned(0, 0.1, 0.1, 101325, 1) != 0 {
		t.Error("CO burns without oxygen or at zero kelvin")
	}
	tau := BurnoutTime(1100, 0.1, 0.05, 101325)
	if got := Burned(1100, 0.1, 0.05, 101325, tau); math.Abs(got-0.99) > 0.003 {
		t.Errorf("after the 99 %% time %g is burned", got)
	}
	if BurnoutRatio(0.1, math.Inf(1)) != 0 || !math.IsInf(Residence(1, 1, 0), 1) || math.Abs(BurnoutRatio(0.3, 0.1)-3) > 1e-12 {
		t.Error("ratios at the ends")
	}
}

func TestHeightIsPositive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		Q := rapid.Float64Range(0, 5000).Draw(t, "Q")
		D := rapid.Float64Range(0.02, 0.2).Draw(t, "D")
		h := Height(Q, D)
		if !(h >= 0) || h < Heskestad(Q, D)-1e-12 || h > max(Heskestad(Q, D), 0)+D/16+1e-12 {
			t.Fatalf("height %g, Heskestad %g", h, Heskestad(Q, D))
		}
	})
	if Height(0, 0.1) != 0 || !math.IsInf(GapRatio(0.1, 0), 1) {
		t.Error("ends")
	}
	if z := Zukoski(1, 0.1); math.Abs(z-0.33) > 1e-12 || math.Abs(Zukoski(1-1e-9, 0.1)-z) > 1e-6 {
		t.Error("Zukoski's branches do not meet")
	}
	if Thomas(0.02, 0.1, 1.2) <= 0 || Thomas(0, 0.1, 1.2) != 0 {
		t.Error("Thomas")
	}
}

func TestSoot(t *testing.T) {
	wood := gas.Mix{gas.CO: 6, gas.H2: 4, gas.CH4: 1.5}
	char := gas.Mix{gas.CO: 6, gas.H2: 0.3}
	if y := Soot(wood, 0.09, 0); y < 2*SootThreshold {
		t.Errorf("wood gas is blue: %g", y)
	}
	if y := Soot(char, 0, 0); y > SootThreshold/2 {
		t.Errorf("char gas is yellow: %g", y)
	}
	if Soot(gas.Mix{}, 0, 0) != 0 || Soot(wood, 0.09, 1) != 0 {
		t.Error("ends")
	}
}

func TestConditions(t *testing.T) {
	fine := State{Lit: 1, Firepower: 1500, Lambda: 1.5, MixedT: 1250, Height: 0.04, PotGap: 0.06, Draft: 1.2, RingLoss: 0.3, PotGapLoss: 0.1, CharLoss: 0.4, WindPush: 0.1}
	if c := Conditions(fine, Limits{}); len(c) != 0 {
		t.Errorf("a good fire is called %v", c)
	}
	for name, change := range map[Name]func(*State){
		TooRich:     func(s *State) { s.Lambda = 0.8 },
		Starved:     func(s *State) { s.Lambda = 1.1 },
		OverAired:   func(s *State) { s.Lambda, s.MixedT = 3, 900 },
		Quenched:    func(s *State) { s.Height = 0.09 },
		RingChokes:  func(s *State) { s.RingLoss = 0.7 },
		GapChokes:   func(s *State) { s.PotGapLoss = 0.5 },
		CharChokes:  func(s *State) { s.CharLoss = 0.8 },
		WindDriven:  func(s *State) { s.WindPush = -0.8 },
		FlameAbsent: func(s *State) { s.Lit = 0 },
	} {
		s := fine
		change(&s)
		c := Conditions(s, Limits{})
		if len(c) != 1 || c[0].Name != name {
			t.Errorf("%s: found %v", name, c)
			continue
		}
		if !strings.ContainsAny(c[0].Sentence, "0123456789") || !strings.HasSuffix(c[0].Sentence, ".") {
			t.Errorf("%s: %q has no number or no end", name, c[0].Sentence)
		}
	}
	if c := Conditions(State{}, Limits{}); len(c) != 0 {
		t.Errorf("an empty state is called %v", c)
	}
}

func ExampleConditions() {
	for _, c := range Conditions(State{Lit: 1, Firepower: 1500, Lambda: 1.1, MixedT: 1300, Height: 0.19, PotGap: 0.06, Draft: 1.2}, Limits{}) {
		fmt.Println(c.Sentence)
	}
	// Output:
	// Starved of secondary air: 1.10 times the air needed, below 1.2 carbon monoxide climbs. More or larger secondary holes, a wider ring, more draft height.
	// The flame is quenched on the pot: 190 mm of flame in a gap of 60 mm; expect carbon monoxide and soot. Raise the pot or burn less.
}

// Twenty holes of 5 mm and one pascal into the gas of a 1.5 kW fire.
func ExampleJet_ReachRatio() {
	j := Jet{Diameter: 5e-3, Cd: 0.66, Count: 20, Density: 1.0, Speed: 1.34, Flow: 3.5e-4}
	c := Cross{Density: 0.33, Area: 7.85e-3, Flow: 3.5e-4}
	J := MomentumRatio(j.Density, j.Speed, c.Density, c.Flow/c.Density/c.Area)
	fmt.Printf("reach %.0f mm, %.2f of the radius; best count %.0f\n", j.Reach(c)*1000, j.ReachRatio(c, 0), BestCount(J, 0))
	// Output:
	// reach 44 mm, 0.88 of the radius; best count 31
}

func BenchmarkTemperature(b *testing.B) {
	f := Burning{Fuel: gas.Mix{gas.CO: 0.2, gas.H2: 0.1, gas.N2: 0.5, gas.CO2: 0.1, gas.H2O: 0.1}, FuelT: 900, Tar: 1e-3, Air: air, AirT: 300}
	for b.Loop() {
		f.Temperature()
	}
}

func BenchmarkBurned(b *testing.B) {
	for b.Loop() {
		Burned(1100, 0.1, 0.05, 101325, 0.1)
	}
}
