package size

import (
	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/firing"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// TestWhateverIsValidCanBeBuilt: over random cans, drills, fuels and units every
// choice the space calls valid passes the checks of geometry, whatever it would
// burn like.
func TestWhateverIsValidCanBeBuilt(t *testing.T) {
	fuels := []string{"softwood pellets", "softwood chips", "twigs", "nut shells", "rice husk"}
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.06, 0.2).Draw(t, "diameter")
		h := d * rapid.Float64Range(0.8, 2.2).Draw(t, "height over diameter")
		w := Wish{FuelCan: Can{Diameter: round5(d), Height: round5(h)}, Fuel: firing.Fuel{Species: rapid.SampledFrom(fuels).Draw(t, "fuel")}}
		if rapid.Bool().Draw(t, "pot") {
			w.Pot = &Pot{}
		}
		if rapid.Bool().Draw(t, "outer") {
			w.Outer = Can{
				Diameter: round5(d + rapid.Float64Range(0.008, 0.06).Draw(t, "wider")),
				Height:   round5(h + rapid.Float64Range(-0.01, 0.08).Draw(t, "taller")),
			}
		}
		for i := range rapid.IntRange(0, 12).Draw(t, "drills") {
			w.Drills = append(w.Drills, catalogue.Drill{Diameter: round5(rapid.Float64Range(1e-3, 16e-3).Draw(t, "drill"))})
			_ = i
		}
		units := quantity.Metric
		if rapid.Bool().Draw(t, "inches") {
			units = quantity.US
		}
		s, err := newSpace(w, units)
		if err != nil {
			if !strings.Contains(err.Error(), "bed of 30 mm") && !strings.Contains(err.Error(), "at least 3 mm") && !strings.Contains(err.Error(), "no air would be led") {
				t.Fatalf("refused: %v", err)
			}
			return
		}
		if len(w.Drills) > 0 && len(s.primaryDrills)+len(s.jetDrills)+len(s.inletDrills) < 3 {
			t.Fatalf("no drill is of use")
		}
		try := []choice{s.first()}
		for range 12 {
			try = append(try, choice{
				pd: rapid.IntRange(-1, len(s.primaryDrills)).Draw(t, "pd"), pc: rapid.IntRange(-1, len(s.counts)).Draw(t, "pc"),
				jd: rapid.IntRange(-1, len(s.jetDrills)).Draw(t, "jd"), jc: rapid.IntRange(-1, len(s.counts)).Draw(t, "jc"),
				ring: rapid.IntRange(0, len(s.rings)-1).Draw(t, "ring"), top: rapid.IntRange(0, len(s.heights)-1).Draw(t, "top"),
				gap: rapid.IntRange(0, len(s.gaps)-1).Draw(t, "gap"), charge: rapid.IntRange(0, len(s.charges)-1).Draw(t, "charge"),
			})
		}
		for _, c := range try {
			if !s.valid(c) {
				continue
			}
			f, err := s.sized(c).read()
			if err != nil {
				t.Fatalf("%+v: %v", c, err)
			}
			for _, x := range stove.Check(f.Design) {
				if x.Severity == stove.Error || x.Severity == stove.Warning && strings.HasPrefix(x.Key, "row[") {
					t.Fatalf("%+v: %s", c, x)
				}
			}
			jets, _ := f.Design.JetLevel()
			if l := f.Load(); l.Depth > jets-rule(ruleFuel).Low+1e-6 {
				t.Fatalf("%+v: charge %.1f mm deep under jets at %.1f mm", c, l.Depth*1e3, jets*1e3)
			}
			if got := f.Design.Area(stove.FuelBase); math.Abs(got-s.primaryArea(c)) > 1e-9 {
				t.Fatalf("primary area %g, want %g", got, s.primaryArea(c))
			}
		}
	})
}

func round5(v float64) float64 { return math.Round(v*1e5) / 1e5 }

func TestRulesAreRead(t *testing.T) {
	if _, err := rules(); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{rulePrimary, ruleSecondary, ruleSecondaryPrimary, ruleRing, ruleRim, ruleFuel, ruleAnnulus, rulePot, ruleGap, ruleRiser, ruleInlet, ruleAir} {
		if r := rule(name); r.Source == "" || r.What == "" {
			t.Errorf("rule %q is not in rules.csv", name)
		}
	}
	if n := len(Rules()); n != 12 {
		t.Errorf("%d rules, some without a name here", n)
	}
	r := rule(ruleRing)
	if r.Off(r.Mid()) != 0 || r.Off(r.Low) != 0 || math.Abs(r.Off(r.High*r.High/r.Mid())-1) > 1e-12 || r.Off(-1) < 5 {
		t.Errorf("off: %g %g %g", r.Off(r.Mid()), r.Off(r.Low), r.Off(r.High*r.High/r.Mid()))
	}
}

// TestAnOuterCanThatFits: seam, annulus and height are heeded, and a can no
// other takes is sized as a single wall with a note.
func TestAnOuterCanThatFits(t *testing.T) {
	for _, c := range []string{"No. 300", "No. 2 1/2", "404x414", "404x700", "paint pint"} {
		s, err := newSpace(Wish{FuelCan: Can{Name: c}, AnyOuter: true, Fuel: firing.Fuel{Species: "nut shells"}}, quantity.Metric)
		if err != nil {
			t.Fatal(err)
		}
		d := s.base.Design
		if !s.chosenOuter || d.OuterCan == nil || d.OuterCan.Opening() < d.FuelCan.Diameter+seamOver || d.AnnulusGap() < 0.005 || s.standoff < leastUnder {
			t.Errorf("%s: %+v, gap %.1f mm, under %.1f mm", c, d.OuterCan, d.AnnulusGap()*1e3, s.standoff*1e3)
		}
	}
	s, err := newSpace(Wish{FuelCan: Can{Name: "paint gallon"}, AnyOuter: true}, quantity.Metric)
	if err != nil || s.double || !strings.Contains(strings.Join(s.notes, " "), "single wall") {
		t.Errorf("%v %v", err, s.notes)
	}
}

// TestStridesAndHalves: the search for the smallest finds it wherever the edge
// is and wherever it starts.
func TestStridesAndHalves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "n")
		edge := rapid.IntRange(0, n).Draw(t, "edge") // n: never enough
		asked := 0
		i, ok, err := smallest(n, rapid.IntRange(-3, 70).Draw(t, "from"), func(i int) (bool, error) {
			if i < 0 || i >= n {
				t.Fatalf("asked for %d of %d", i, n)
			}
			asked++
			return i >= edge, nil
		})
		if err != nil || ok != (edge < n) || ok && i != edge {
			t.Fatalf("%d %v %v, want %d", i, ok, err, edge)
		}
		if asked > 16 {
			t.Fatalf("asked %d times", asked)
		}
	})
}

// TestPolish: the last step by the band never makes a design worse by the
// band's own score.
func TestPolish(t *testing.T) {
	s, err := newSpace(Wish{FuelCan: Can{Name: "No. 300"}, Outer: Can{Name: "404x414"}, Pot: &Pot{Diameter: 0.1, Height: 0.09}, Water: firing.Water{Mass: 0.25}}, quantity.Metric)
	if err != nil {
		t.Fatal(err)
	}
	o := Options{}.filled()
	q := newSearcher(context.Background(), s, o, func() {})
	q.effort.coarse = 4
	score := func(x *outcome) float64 {
		p, err := q.predict(x.f, 4, o)
		if err != nil {
			t.Fatal(err)
		}
		return q.robust(x, p)
	}
	from := q.get(s.first())
	to, err := q.polish(from, o)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := score(from), score(to); b > a+1e-9 {
		t.Errorf("from %g to %g", a, b)
	}
}
