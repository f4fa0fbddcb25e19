package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestChannelsAndLossesAreElements(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Float64Range(1e-3, 1).Draw(t, "length")
		gap := rapid.Float64Range(1e-3, 0.05).Draw(t, "gap")
		annulus, err := Annulus(0.1, 0.1+2*gap, length, rapid.Float64Range(0, 1).Draw(t, "eccentricity"))
		if err != nil {
			t.Fatal(err)
		}
		annulus.K = rapid.Float64Range(0, 3).Draw(t, "k")
		for _, c := range []Channel{annulus, Tube(gap, length), Slot(gap, 0.2, length)} {
			x, err := NewChannel(c)
			if err != nil {
				t.Fatal(err)
			}
			checkElement(t, x, c.Area, c.Wet)
		}
		fit, err := Fitting(1e-3, 0.03, 1.2)
		if err != nil {
			t.Fatal(err)
		}
		checkElement(t, fit, fit.Area, fit.Diameter)
		pot, err := PotGap(0.04, 0.04+length, gap)
		if err != nil {
			t.Fatal(err)
		}
		checkElement(t, pot, pot.Area, pot.Diameter)
	})
}

func TestPotGapIsPlanePoiseuilleWhenNarrowAndShort(t *testing.T) {
	// A short rim of a wide disc is a slot of length outer-inner.
	g, err := PotGap(1, 1.001, 1e-3)
	if err != nil {
		t.Fatal(err)
	}
	if want := 96 * 0.001 / (2 * 1e-3); math.Abs(g.Laminar-want) > 1e-3*want {
		t.Errorf("zeta Re %g, slot %g", g.Laminar, want)
	}
}

// Parallel openings add cd A; openings in series add 1/(cd A)^2.
func TestNetworkClosedForms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(1e-5, 1e-2).Draw(t, "a")
		b := rapid.Float64Range(1e-5, 1e-2).Draw(t, "b")
		head := rapid.Float64Range(-5, 5).Draw(t, "head")
		if math.Abs(head) < 1e-3 {
			return
		}
		const rho, mu = 1.2, 1.8e-5
		flow := func(area float64) float64 { return math.Copysign(area*math.Sqrt(2*rho*math.Abs(head)), head) }

		series := Network{Loops: 1, Passages: []Passage{
			{Element: FixedCd(a, 1), Rho: rho, Mu: mu, Head: head, Loop: [MaxLoops]float64{1}},
			{Element: FixedCd(b, 1), Rho: rho, Mu: mu, Loop: [MaxLoops]float64{1}},
		}}
		x := []float64{0}
		if _, err := series.Solve(x); err != nil {
			t.Fatal(err)
		}
		if want := flow(1 / math.Hypot(1/a, 1/b)); math.Abs(x[0]-want) > 1e-9*math.Abs(want) {
			t.Fatalf("series: %g, want %g", x[0], want)
		}
		parallel := Network{Loops: 2, Passages: []Passage{
			{Element: FixedCd(a, 1), Rho: rho, Mu: mu, Head: head, Loop: [MaxLoops]float64{1}},
			{Element: FixedCd(b, 1), Rho: rho, Mu: mu, Head: head, Loop: [MaxLoops]float64{0, 1}},
		}}
		y := []float64{0, 0}
		if _, err := parallel.Solve(y); err != nil {
			t.Fatal(err)
		}
		if want := flow(a + b); math.Abs(y[0]+y[1]-want) > 1e-9*math.Abs(want) {
			t.Fatalf("parallel: %g, want %g", y[0]+y[1], want)
		}
	})
}

// More open area or a weaker ring never lowers the flow.
func TestFlowRisesWithArea(t *testing.T) {
	last := 0.0
	for n := 4; n <= 60; n += 4 {
		net := reference(101325, 0.06, n, 6e-3)
		net.Passages[0].Element = must(t, Holes{Count: n, Diameter: 6e-3, Thickness: 0.25e-3})
		x := []float64{0}
		if _, err := net.Solve(x); err != nil {
			t.Fatal(err)
		}
		if x[0] <= last {
			t.Errorf("%d holes: %g kg/s after %g", n, x[0], last)
		}
		last = x[0]
	}
}

func TestScaledIsTheFactor(t *testing.T) {
	a := must(t, Holes{Count: 3, Diameter: 5e-3, Factor: 0.9})
	b := must(t, Holes{Count: 3, Diameter: 5e-3}).Scaled(0.9)
	pa, sa := a.Drop(1e-4, 1.2, 1.8e-5)
	pb, sb := b.Drop(1e-4, 1.2, 1.8e-5)
	if math.Abs(pa-pb) > 1e-14*pa || math.Abs(sa-sb) > 1e-14*sa || math.Abs(a.Cd(100)-b.Cd(100)) > 1e-14 {
		t.Errorf("factor 0.9 built %g Pa, scaled %g Pa", pa, pb)
	}
}

func TestBadElementsAreRefused(t *testing.T) {
	good := Holes{Count: 1, Diameter: 1e-3}
	for name, change := range map[string]func(*Holes){
		"no holes":    func(h *Holes) { h.Count = 0 },
		"no diameter": func(h *Holes) { h.Diameter = 0 },
		"NaN":         func(h *Holes) { h.Diameter = math.NaN() },
		"long bore":   func(h *Holes) { h.Thickness = 0.02 },
		"filled":      func(h *Holes) { h.Before = 0.95 },
		"factor":      func(h *Holes) { h.Factor = -1 },
	} {
		h := good
		change(&h)
		if _, err := NewHoles(h); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, err := Annulus(0.1, 0.1, 0.1, 0); err == nil {
		t.Error("annulus without a gap: no error")
	}
	if _, err := NewChannel(Tube(0, 0.1)); err == nil {
		t.Error("tube without a bore: no error")
	}
	if _, err := PotGap(0.05, 0.06, 0); err == nil {
		t.Error("pot gap of nothing: no error")
	}
}
