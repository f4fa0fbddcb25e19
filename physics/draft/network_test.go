package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// gas densities of the reference network: air of R = 287.05 J/kg K.
func density(p, t float64) float64 { return p / 287.05 / t }

// reference is the network R1: holes of N x d fed from a warm annulus, ring,
// a flame column and a gas flow that is given.
func reference(pressure, ring float64, count int, d float64) *Network {
	ra, rf := density(pressure, 293.15), density(pressure, 1150)
	ran, rh := density(pressure, 350), density(pressure, 400)
	return &Network{Loops: 1, Passages: []Passage{
		{Element: FixedCd(float64(count)*math.Pi/4*d*d, 0.595), Rho: rh, Mu: 2.3e-5, Head: Head(0.12, ra, ran), Loop: [MaxLoops]float64{1}},
		{Element: Loss{Area: math.Pi / 4 * ring * ring, K: 2.85}, Rho: rf, Mu: 4.5e-5, Head: Head(0.12, ra, rf), Made: 0.35e-3, Loop: [MaxLoops]float64{1}},
	}}
}

func TestNetworkAlwaysBalances(t *testing.T) {
	worst := 0
	rapid.Check(t, func(t *rapid.T) {
		n, x := randomNetwork(t)
		it, err := n.Solve(x)
		if err != nil {
			t.Fatal(err)
		}
		worst = max(worst, it)
		// from another start: the same flows
		y := make([]float64, len(x))
		for i := range y {
			y[i] = rapid.Float64Range(-0.1, 0.1).Draw(t, "start")
		}
		if _, err := n.Solve(y); err != nil {
			t.Fatal(err)
		}
		var scale float64
		for i := range x {
			scale = math.Max(scale, math.Abs(x[i]))
		}
		for i := range x {
			if math.Abs(x[i]-y[i]) > 1e-9*math.Max(scale, 1e-6) {
				t.Fatalf("flows %v from rest, %v from elsewhere", x, y)
			}
		}
	})
	t.Logf("at most %d steps from rest", worst)
}

// randomNetwork is a stove-like network: every loop has its own passages and
// all meet in a common one, heads of either sign.
func randomNetwork(t *rapid.T) (*Network, []float64) {
	loops := rapid.IntRange(1, 5).Draw(t, "loops")
	n := &Network{Loops: loops}
	rho := rapid.Float64Range(0.2, 1.3)
	head := rapid.Float64Range(-3, 3)
	var all [MaxLoops]float64
	for i := range loops {
		all[i] = 1
		var own [MaxLoops]float64
		own[i] = 1
		h, err := NewHoles(Holes{Count: rapid.IntRange(1, 100).Draw(t, "count"), Diameter: rapid.Float64Range(1e-3, 12e-3).Draw(t, "d"), Thickness: 0.25e-3})
		if err != nil {
			t.Fatal(err)
		}
		n.Passages = append(n.Passages, Passage{Element: h, Rho: rho.Draw(t, "rho"), Mu: 2e-5, Head: head.Draw(t, "head"), Loop: own})
		if rapid.Bool().Draw(t, "channel") {
			c, err := Annulus(0.1, 0.1+rapid.Float64Range(2e-3, 40e-3).Draw(t, "gap"), 0.12, 0)
			if err != nil {
				t.Fatal(err)
			}
			ch, err := NewChannel(c)
			if err != nil {
				t.Fatal(err)
			}
			n.Passages = append(n.Passages, Passage{Element: ch, Rho: rho.Draw(t, "rho"), Mu: 2e-5, Head: head.Draw(t, "head"), Loop: own})
		}
	}
	area := rapid.Float64Range(1e-4, 1e-2).Draw(t, "ring")
	n.Passages = append(n.Passages, Passage{Element: Loss{Area: area, K: 2.85}, Rho: rho.Draw(t, "rho"), Mu: 4e-5, Head: head.Draw(t, "head"), Made: rapid.Float64Range(0, 1e-3).Draw(t, "made"), Loop: all})
	if rapid.Bool().Draw(t, "wood gas") { // loop 0 feeds a fire before the common passage
		n.Passages[len(n.Passages)-1].Gain[0] = rapid.Float64Range(0, 1).Draw(t, "gain")
	}
	return n, make([]float64, loops)
}

func TestFanFlowIsKept(t *testing.T) {
	n := reference(101325, 0.06, 24, 0.006)
	n.Loops = 2
	n.Passages[1].Loop[1] = 1
	n.Passages[1].Made = 0
	n.Passages = append(n.Passages, Passage{Element: Loss{Area: 1e-4, Diameter: 1e-2, K: 1, Laminar: 10}, Rho: 1.2, Mu: 1.8e-5, Loop: [MaxLoops]float64{0, 1}})
	n.Fixed[1] = true
	x := []float64{0, 0.35e-3}
	if _, err := n.Solve(x); err != nil {
		t.Fatal(err)
	}
	if x[1] != 0.35e-3 || math.Abs(x[0]-4.994e-4) > 1e-7 {
		t.Fatalf("flows %v, want the fan's kept and 4.994e-4 in the other", x)
	}
}

func TestNetworkSaysWhatIsWrong(t *testing.T) {
	n := reference(101325, 0.06, 24, 0.006)
	for name, bad := range map[string]func() error{
		"two flows for one loop": func() error { _, err := n.Solve([]float64{0, 0}); return err },
		"NaN start":              func() error { _, err := n.Solve([]float64{math.NaN()}); return err },
		"NaN head": func() error {
			m := reference(101325, 0.06, 24, 0.006)
			m.Passages[0].Head = math.NaN()
			_, err := m.Solve([]float64{0})
			return err
		},
		"loop without passages": func() error { m := Network{Loops: 1}; _, err := m.Solve([]float64{0}); return err },
	} {
		if bad() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkNetworkWarm(b *testing.B) {
	n := reference(101325, 0.06, 24, 0.006)
	x := []float64{0}
	if _, err := n.Solve(x); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		x[0] *= 1.001
		if _, err := n.Solve(x); err != nil {
			b.Fatal(err)
		}
	}
}
