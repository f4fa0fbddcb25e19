package cutsheet

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"toplit/internal/designs"
	"toplit/stove"
)

// TestFromParent: only new work is shown; holes that are there stay where they
// are.
func TestFromParent(t *testing.T) {
	parent := tea()
	old := plan(t, parent, Options{})
	d := changed(func(d *stove.Design) {
		d.Rows[0].Hole.Width = 7e-3 // bigger
		d.Rows[2].Count = 16        // as it was
		d.Ring.Bore = 70e-3         // wider
		d.Rows = append(d.Rows, stove.Row{Name: "low jets", On: stove.FuelBody, Count: 12, Hole: stove.Hole{Width: 4e-3}, Height: 98e-3})
	})
	s := plan(t, d, Options{Parent: &parent})
	if got := strings.Join(s.Done, ", "); got != "outer can body, pot stand" {
		t.Errorf("nothing left to do on %s", got)
	}
	base, body := partOf(t, s, "fuel can base"), partOf(t, s, "fuel can body")
	for k, h := range base.Holes {
		was := partOf(t, old, "fuel can base").Holes[k]
		if h.State != Bigger || h.Was.Width != 6 || h.Width != 7 || math.Hypot(h.X-was.X, h.Y-was.Y) > 1e-9 {
			t.Errorf("hole %d: %+v, was at %g %g", h.Number, h, was.X, was.Y)
		}
	}
	if n, m := body.count(There), body.count(New); n != 20 || m != 12 {
		t.Errorf("%d jets there and %d new, want 20 and 12", n, m)
	}
	if r := partOf(t, s, "ring").Ring; r.Was != 66 || r.Bore != 70 {
		t.Errorf("ring %+v", r)
	}
	if marks, _ := Marks(body); len(marks) != 12 {
		t.Errorf("%d marks to make, want 12", len(marks))
	}
	// A cutter is told of the holes to make alone.
	var b bytes.Buffer
	if err := s.WriteSVG(&b); err != nil {
		t.Fatal(err)
	}
	rounds, shapes := readSVG(t, b.Bytes())
	_, at := s.Drawing()
	compare(t, "from parent", s, at, rounds, shapes)
	if len(rounds) != 24+12 {
		t.Errorf("%d circles to drill, want 36", len(rounds))
	}
}

// TestFromParentKeeps: three times as many holes keep the old ones; a fuller
// base keeps its field.
func TestFromParentKeeps(t *testing.T) {
	parent := changed(func(d *stove.Design) { d.Rows[1].Count, d.Rows[1].Hole.Width = 10, 5e-3 })
	d := changed(func(d *stove.Design) { d.Rows[1].Count, d.Rows[1].Hole.Width = 30, 5e-3; d.Rows[0].Count = 31 })
	s := plan(t, d, Options{Parent: &parent})
	body, base := partOf(t, s, "fuel can body"), partOf(t, s, "fuel can base")
	if body.count(There) != 10 || body.count(New) != 20 || base.count(There) != 24 || base.count(New) != 7 {
		t.Errorf("body %d there, %d new; base %d there, %d new", body.count(There), body.count(New), base.count(There), base.count(New))
	}
	checkApart(t, 0, s, base)
	checkStrip(t, 0, s, body)
}

// TestVanishing: a hole that would have to vanish or shrink is refused with
// the nearest design that keeps it.
func TestVanishing(t *testing.T) {
	low := func(d *stove.Design) {
		d.Rows = append(d.Rows, stove.Row{Name: "low jets", On: stove.FuelBody, Count: 8, Hole: stove.Hole{Width: 5e-3}, Height: 60e-3})
	}
	parent := changed(low)
	for name, c := range map[string]struct {
		change func(d *stove.Design)
		want   string
		near   string
	}{
		"fewer": {func(d *stove.Design) { d.Rows[1].Count = 12 }, "16 of the 20 holes of 6 mm drilled in the fuel can body (secondary row) would have to vanish", "secondary row: 12 → 20 holes"},
		"more, between": {func(d *stove.Design) { d.Rows[1].Count = 30 }, "would have to vanish",
			"secondary row: 30 → 20 holes; secondary row hole: 6 mm → 7.3 mm"},
		"smaller": {func(d *stove.Design) { d.Rows[1].Hole.Width = 5e-3 }, "a hole cannot get smaller", "secondary row hole: 5 mm → 6 mm"},
		"moved":   {func(d *stove.Design) { d.Rows[1].Height = 102e-3 }, "would have to vanish", "secondary row height: 102 mm → 112 mm"},
		"gone":    {func(d *stove.Design) { d.Rows = append(d.Rows[:2], d.Rows[3]); d.OuterCan.OpenBase = true }, "16 of the 16 holes of 12 mm drilled in the outer can body", "inlet row added, 16 holes of 12 mm on the outer can body"},
		"twice as many, one on the seam": {func(d *stove.Design) { d.Rows[3].Count = 16 }, "a hole would come within 0 mm of the seam",
			"low jets row: 16 → 8 holes; low jets row hole: 5 mm → 7 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			r := refusedPlan(t, changed(func(d *stove.Design) { low(d); c.change(d) }), Options{Parent: &parent})
			if !strings.Contains(r.Error(), c.want) {
				t.Errorf("no %q in %s", c.want, r)
			}
			var got []string
			for _, x := range r.Changes {
				got = append(got, x.Text)
			}
			if strings.Join(got, "; ") != c.near {
				t.Errorf("nearest %q, want %q", got, c.near)
			}
			if r.Nearest == nil {
				t.Fatal("no nearest")
			}
			plan(t, *r.Nearest, Options{Parent: &parent})
		})
	}
}

// TestAnotherCan: on another can nothing is there, so nothing can vanish.
func TestAnotherCan(t *testing.T) {
	parent := tea()
	d := changed(func(d *stove.Design) { d.FuelCan.Diameter, d.Rows[1].Count = 99e-3, 12 })
	s := plan(t, d, Options{Parent: &parent})
	if b := partOf(t, s, "fuel can body"); b.count(New) != 12 {
		t.Errorf("%d new holes in a new can, want 12", b.count(New))
	}
}

// TestSameAsParent: nothing is left to do.
func TestSameAsParent(t *testing.T) {
	for seed := range uint64(40) {
		d := designs.For(t, seed).Design
		parent := d.Clone()
		s, err := Plan(d, Options{Parent: &parent})
		if err != nil {
			if strings.Contains(err.Error(), "vanish") || strings.Contains(err.Error(), "smaller") {
				t.Errorf("seed %d: against itself: %v", seed, err)
			}
			continue
		}
		for _, p := range s.Parts {
			if len(p.Holes) > 0 {
				t.Errorf("seed %d: %s has holes left to do against itself", seed, p.Name)
			}
		}
	}
}

// TestParentsOfRandomDesigns: random changes of random designs either keep
// every old hole or are refused, and then the nearest design keeps them.
func TestParentsOfRandomDesigns(t *testing.T) {
	kept, refused := 0, 0
	for seed := range uint64(48) {
		s, _ := planned(t, seed, Options{})
		parent := s.Design
		d := parent.Clone()
		if len(d.Rows) == 0 {
			continue
		}
		r := &d.Rows[int(seed)%len(d.Rows)]
		switch seed % 4 {
		case 0:
			r.Hole.Width *= 1.15
			r.Hole.Height *= 1.15
		case 1:
			r.Count = max(1, r.Count-2)
		case 2:
			r.Count += 3
		case 3:
			r.Hole.Width *= 0.8
		}
		o := Options{Parent: &parent}
		n, err := Plan(d, o)
		if err != nil {
			ref := refusedPlan(t, d, o)
			refused++
			if ref.Nearest == nil {
				t.Errorf("seed %d: no nearest: %v", seed, err)
				continue
			}
			d = *ref.Nearest
			n = plan(t, d, o)
		} else {
			kept++
		}
		everyHoleKept(t, fmt.Sprintf("seed %d", seed), s, n)
	}
	if kept == 0 || refused == 0 {
		t.Errorf("%d kept, %d refused: one of the two is not tried", kept, refused)
	}
}

// everyHoleKept: each hole of the parent is in the new set at its place, as
// wide or wider.
func everyHoleKept(t *testing.T, name string, old, n *Set) {
	t.Helper()
	for _, p := range old.Parts {
		if len(p.Holes) == 0 {
			continue
		}
		var now []Hole
		for _, q := range n.Parts {
			if q.Place == p.Place {
				now = append(now, q.Holes...)
			}
		}
		if now == nil {
			continue // nothing to do there
		}
		for _, h := range p.Holes {
			found := false
			for _, g := range now {
				found = found || math.Hypot(h.X-g.X, h.Y-g.Y) < 0.3 && g.Width > h.Width-0.06
			}
			if !found {
				t.Errorf("%s: %s: the hole at %.2f %.2f is gone", name, p.Name, h.X, h.Y)
				return
			}
		}
	}
}
