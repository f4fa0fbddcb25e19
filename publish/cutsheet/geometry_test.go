package cutsheet

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"toplit/internal/designs"
	"toplit/stove"
)

// planned is the cut sheets of a random design; where it is refused, those of
// the nearest that can be cut.
func planned(t testing.TB, seed uint64, o Options) (*Set, bool) {
	t.Helper()
	f := designs.For(t, seed)
	if f.Conditions.Pot != nil {
		o.PotAcross = f.Conditions.Pot.Diameter
	}
	s, err := Plan(f.Design, o)
	if err == nil {
		return s, false
	}
	var r *Refused
	if !errors.As(err, &r) {
		t.Fatalf("seed %d: %v", seed, err)
	}
	if r.Nearest == nil {
		t.Fatalf("seed %d: no near design: %v", seed, err)
	}
	if s, err = Plan(*r.Nearest, o); err != nil {
		t.Fatalf("seed %d: the nearest design is refused: %v", seed, err)
	}
	if len(r.Changes) == 0 {
		t.Fatalf("seed %d: refused (%v), yet the nearest design is the same", seed, r)
	}
	return s, true
}

const manyDesigns = 500

// TestGeometry: on every random design the holes are where the design says
// (heights, circles, counts, equal pitch), a strip closes at the seam as it is
// everywhere else, and no rule of spacing is broken, each worked out here
// again from the design.
func TestGeometry(t *testing.T) {
	changed, holes := 0, 0
	for seed := range uint64(manyDesigns) {
		s, fitted := planned(t, seed, Options{})
		if fitted {
			changed++
		}
		got := map[int]int{}
		for _, p := range s.Parts {
			for _, h := range p.Holes {
				got[h.Row]++
			}
			holes += len(p.Holes)
			switch p.Kind {
			case Wrap:
				checkStrip(t, seed, s, p)
			case Disc:
				checkDisc(t, seed, s, p)
			}
			checkApart(t, seed, s, p)
		}
		for i, r := range s.Design.Rows {
			if got[i] != r.Count {
				t.Errorf("seed %d: row %d has %d holes on paper, %d in the design", seed, i+1, got[i], r.Count)
			}
		}
	}
	t.Logf("%d designs, %d of them brought near first, %d holes", manyDesigns, changed, holes)
	if changed < 20 || changed > manyDesigns/2 {
		t.Errorf("%d of %d designs were refused: the draws miss one side of the rules", changed, manyDesigns)
	}
}

func checkStrip(t *testing.T, seed uint64, s *Set, p Part) {
	t.Helper()
	across, _, ok := s.Design.Wall(p.Place)
	if !ok {
		t.Fatalf("seed %d: strip for %s, which is not there", seed, p.Place)
	}
	// The paper's middle runs half its thickness outside the wall.
	if around := math.Pi * (across*1e3 + 0.1); math.Abs(p.Around-around) > 1e-9 {
		t.Errorf("seed %d: %s: strip of %g mm, want %g", seed, p.Name, p.Around, around)
	}
	rows := map[int][]Hole{}
	for _, h := range p.Holes {
		rows[h.Row] = append(rows[h.Row], h)
		if want := s.Design.Rows[h.Row].Height * 1e3; math.Abs(h.Y-want) > 1e-9 {
			t.Errorf("seed %d: row %d lies %g mm high, want %g", seed, h.Row+1, h.Y, want)
		}
		if h.Y-h.Height/2 < p.From || h.Y+h.Height/2 > p.To {
			t.Errorf("seed %d: hole %d of %s is not on its strip", seed, h.Number, p.Name)
		}
	}
	for i, holes := range rows {
		for k := 1; k < len(holes); k++ {
			if step := holes[k].X - holes[k-1].X; math.Abs(step-p.Around/float64(len(holes))) > 1e-6 {
				t.Errorf("seed %d: row %d: pitch %g mm between holes %d and %d, want %g", seed, i+1, step, k, k+1, p.Around/float64(len(holes)))
			}
		}
		last := len(holes) - 1
		if over := p.Around - holes[last].X + holes[0].X; math.Abs(over-p.Around/float64(len(holes))) > 0.05 {
			t.Errorf("seed %d: row %d: pitch %g mm across the seam, want %g", seed, i+1, over, p.Around/float64(len(holes)))
		}
		if near := math.Min(holes[0].X, p.Around-holes[last].X) - holes[0].Width/2; near < 1.49 {
			t.Errorf("seed %d: row %d comes within %g mm of the seam", seed, i+1, near)
		}
	}
}

func checkDisc(t *testing.T, seed uint64, s *Set, p Part) {
	t.Helper()
	can, _ := s.Design.Base(p.Place)
	for _, h := range p.Holes {
		r := s.Design.Rows[h.Row]
		far := math.Hypot(h.X, h.Y)
		if r.Circle > 0 && math.Abs(far-r.Circle*500) > 1e-9 {
			t.Errorf("seed %d: row %d: hole on a circle of %g mm, want %g", seed, h.Row+1, 2*far, r.Circle*1e3)
		}
		if far+h.narrow()/2 > can.Bore()*500-4.99 {
			t.Errorf("seed %d: row %d: hole %g mm from the edge", seed, h.Row+1, can.Bore()*500-far-h.narrow()/2)
		}
	}
}

// checkApart: no two holes come nearer than the rule, on the metal.
func checkApart(t *testing.T, seed uint64, s *Set, p Part) {
	t.Helper()
	for i, a := range p.Holes {
		for _, b := range p.Holes[i+1:] {
			dx := a.X - b.X
			if p.Kind == Wrap {
				dx = math.Remainder(dx, p.Around)
			}
			// Round each outline: exact for round holes, too small a gap for
			// the rest.
			free := math.Hypot(dx, a.Y-b.Y) - a.reach() - b.reach()
			if !a.round() || !b.round() {
				if free += a.reach() + b.reach() - (a.narrow()+b.narrow())/2; free < 0 {
					t.Fatalf("seed %d: %s: holes %d and %d overlap", seed, p.Name, a.Number, b.Number)
				}
				continue
			}
			if least := math.Max(3, math.Max(a.Width, b.Width)/2); free < least*(1-1e-3)-0.01 {
				t.Fatalf("seed %d: %s: holes %d and %d leave %g mm, want %g", seed, p.Name, a.Number, b.Number, free, least)
			}
		}
	}
}

// TestGap: the distance of two outlines agrees with that of many points along
// their edges.
func TestGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hole := func(name string) Hole {
			return Hole{
				X: rapid.Float64Range(-15, 15).Draw(t, name+"x"), Y: rapid.Float64Range(-15, 15).Draw(t, name+"y"),
				Turn: rapid.Float64Range(-4, 4).Draw(t, name+"turn"),
				Outline: outline(stove.Hole{Shape: rapid.SampledFrom([]stove.Shape{stove.Round, stove.Slot, stove.Rectangle, stove.Triangle}).Draw(t, name+"shape"),
					Width: rapid.Float64Range(1e-3, 10e-3).Draw(t, name+"w"), Height: rapid.Float64Range(1e-3, 10e-3).Draw(t, name+"h")}),
			}
		}
		a, b := hole("a"), hole("b")
		ea, eb := trace(a, 0.05), trace(b, 0.05)
		least := math.Inf(1)
		for _, p := range ea {
			for _, q := range eb {
				least = math.Min(least, math.Hypot(p.x-q.x, p.y-q.y))
			}
		}
		got := gap(a, b)
		if got > 0 && math.Abs(got-least) > 0.06 {
			t.Fatalf("gap %g, along the edges %g", got, least)
		}
		if got < -1e-9 && least > 0.1 {
			inside := func(h, of Hole) bool {
				return gap(Hole{X: h.X, Y: h.Y, Outline: Outline{stove.Round, 1e-9, 1e-9}}, of) <= 0
			}
			if !inside(a, b) && !inside(b, a) {
				t.Fatalf("overlap of %g, yet the edges are %g apart and neither lies in the other", got, least)
			}
		}
		if math.Abs(gap(b, a)-got) > 1e-9 {
			t.Fatalf("gap %g one way, %g the other", got, gap(b, a))
		}
	})
}
