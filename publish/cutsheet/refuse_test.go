package cutsheet

import (
	"strings"
	"testing"

	"toplit/quantity"
	"toplit/stove"
)

// TestRefusals: what cannot be cut is refused with the numbers, and the
// nearest design that can be differs in little.
func TestRefusals(t *testing.T) {
	slits := func(n int, long float64) func(d *stove.Design) {
		return func(d *stove.Design) { d.Ring.Slits, d.Ring.Slit, d.Ring.Twist = n, long, 0.5 }
	}
	for name, c := range map[string]struct {
		change func(d *stove.Design)
		o      Options
		want   []string // in the refusal
		near   []string // in the changes, all of them; nil when there is no nearest
	}{
		"holes overlap": {
			change: func(d *stove.Design) { d.Rows[1].Count = 60 },
			want:   []string{"row[2].count = 60", "60 holes of 6 mm round 329.87 mm overlap", "up to 36 of this size"},
			near:   []string{"secondary row: 60 → 22 holes", "secondary row hole: 6 mm → 9.9 mm"},
		},
		"ligament": {
			change: func(d *stove.Design) { d.Rows[1].Count = 38 },
			want:   []string{"row[2].count = 38", "leave only 2.68 mm of metal between them, less than 3 mm", "up to 36"},
			near:   []string{"secondary row: 38 → 36 holes", "secondary row hole: 6 mm → 6.1 mm"},
		},
		"ligament in a base": {
			change: func(d *stove.Design) { d.Rows[0].Count = 150 },
			want:   []string{"row[1].count = 150", "150 holes of 6 mm do not go into an end of 104.5 mm", "up to 88 in all"},
		},
		"seam of 12 mm": {
			change: func(d *stove.Design) {},
			o:      Options{Seam: 12e-3},
			want:   []string{"row[2].count = 20", "leave it 5.25 mm on either side, less than half of its 12 mm"},
		},
		"rim": {
			change: func(d *stove.Design) { d.Rows[1].Height = 119e-3 },
			want:   []string{"row[2].height = 119 mm", "only 2 mm from the rim", "8 mm to 116 mm"},
			near:   []string{"secondary row height: 119 mm → 116 mm"},
		},
		"foot": {
			change: func(d *stove.Design) { d.Rows[2].Height = 7e-3 },
			want:   []string{"row[3].height = 7 mm", "only 1 mm from the base", "11 mm to 149 mm"},
			near:   []string{"inlet row height: 7 mm → 11 mm"},
		},
		"bead in a wall": {
			change: func(d *stove.Design) {},
			o:      Options{Beads: []Bead{{stove.FuelBody, 108e-3, 113e-3}}},
			want:   []string{"row[2].height = 112 mm", "bead from 108 mm to 113 mm", "up to 100 mm, or from 121 mm"},
			near:   []string{"secondary row height: 112 mm → 100 mm"},
		},
		"bead in an end": {
			change: func(d *stove.Design) { d.Rows[0].Circle, d.Rows[0].Count = 70e-3, 12 },
			o:      Options{Beads: []Bead{{stove.FuelBase, 30e-3, 33e-3}}},
			want:   []string{"row[1].circle = 70 mm", "bead from 30 mm to 33 mm of the middle"},
			near:   []string{"primary row circle: 70 mm → 82 mm"},
		},
		"edge of an end": {
			change: func(d *stove.Design) { d.Rows[0].Circle, d.Rows[0].Count = 95e-3, 12 },
			want:   []string{"row[1].circle = 95 mm", "only 1.75 mm from the edge", "up to 88.5 mm"},
			near:   []string{"primary row circle: 95 mm → 88.5 mm"},
		},
		"two rows too near": {
			change: func(d *stove.Design) {
				d.Rows = append(d.Rows, stove.Row{Name: "low jets", On: stove.FuelBody, Count: 31, Hole: stove.Hole{Width: 5e-3}, Height: 106e-3})
			},
			want: []string{"row[4].height = 106 mm", "the holes of row 2 and row 4", "8.5 mm or more from row 2 at 112 mm"},
			near: []string{"low jets row height: 106 mm → 103.5 mm"},
		},
		"slits that meet": {
			change: slits(320, 10e-3),
			want:   []string{"ring.slits = 320", "slits meet at the bore of 66 mm: they leave tongues 0.65 mm wide", "up to 69"},
			near:   []string{"slits in the ring: 320 → 69"},
		},
		"slits into the rim": {
			change: slits(12, 40e-3),
			want:   []string{"ring.slit = 40 mm", "only 3.5 mm of a ring of 153 mm", "up to 38.5 mm"},
			near:   []string{"length of the ring's slits: 40 mm → 38.5 mm"},
		},
		"ring larger than its sheet": {
			change: func(d *stove.Design) {},
			o:      Options{Sheet: Sheet{140e-3, 300e-3}},
			want:   []string{"ring = 153 mm × 153 mm", "larger than the sheet of 300 mm × 140 mm", "a sheet of 153 mm × 153 mm or more"},
		},
		"skirt larger than its sheet": {
			change: func(d *stove.Design) { d.Skirt = &stove.Skirt{Gap: 7e-3, Height: 120e-3}; d.Ring = nil },
			o:      Options{Sheet: Sheet{500e-3, 100e-3}, PotAcross: 130e-3},
			want:   []string{"skirt = 465.17 mm × 120 mm", "or a height of up to 100 mm"},
			near:   []string{"skirt height: 120 mm → 100 mm"},
		},
		"punched narrower than thick": {
			change: func(d *stove.Design) { d.Rows[1].Hole.Width, d.Rows[1].Edge = 0.8e-3, stove.PunchedIn },
			want:   []string{"row[2].hole = 0.8 mm", "too narrow to punch in a sheet of 0.25 mm"},
			near:   []string{"secondary row edge: punched in → drilled"},
		},
		"too wide for its wall": {
			change: func(d *stove.Design) { d.Rows[1].Count, d.Rows[1].Hole.Width, d.Rows[1].Height = 2, 60e-3, 60e-3 },
			want:   []string{"row[2].hole = 60 mm", "too wide to cut in a wall of 105 mm"},
			near:   []string{"secondary row hole: 60 mm → 52.5 mm"},
		},
		"zinc": {
			change: func(d *stove.Design) { d.Ring.Metal = stove.Galvanised },
			want:   []string{"ring.metal = galvanised", "metal fume fever"},
		},
		"no such sheet": {
			change: func(d *stove.Design) { d.OuterCan = nil },
			want:   []string{"row[3].on = outer can body", "no such sheet"},
		},
		"no length": {
			change: func(d *stove.Design) { d.Rows[1].Hole.Width = -1 },
			want:   []string{"row[2].hole", "not a length"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			d := changed(c.change)
			r := refusedPlan(t, d, c.o)
			text := r.Error()
			for _, w := range c.want {
				if !strings.Contains(text, w) {
					t.Errorf("no %q in\n%s", w, text)
				}
			}
			if r.Nearest != nil {
				if _, err := Plan(*r.Nearest, c.o); err != nil {
					t.Errorf("the nearest design is refused: %v", err)
				}
			}
			if c.near == nil {
				return
			}
			var got []string
			for _, x := range r.Changes {
				got = append(got, x.Text)
			}
			if strings.Join(got, "\n") != strings.Join(c.near, "\n") {
				t.Errorf("nearest %q, want %q", got, c.near)
			}
		})
	}
}

// TestRefusedInInches: numbers come in the maker's units.
func TestRefusedInInches(t *testing.T) {
	r := refusedPlan(t, changed(func(d *stove.Design) { d.Rows[1].Height = 4.7 * 0.0254 }), Options{Units: quantity.US})
	if text := r.Error(); !strings.Contains(text, "only 0.064 in from the rim") || !strings.Contains(text, "to 4.567 in") {
		t.Error(text)
	}
}

// TestAcceptedFiguresAreAccepted: a height given as the bound, to the digits
// shown, passes.
func TestAcceptedFiguresAreAccepted(t *testing.T) {
	for _, h := range []float64{8e-3, 116e-3} {
		plan(t, changed(func(d *stove.Design) { d.Rows[1].Height = h }), Options{})
	}
	plan(t, changed(func(d *stove.Design) { d.Rows[1].Count = 36 }), Options{})
	plan(t, changed(func(d *stove.Design) { d.Ring.Slits, d.Ring.Slit = 69, 10e-3 }), Options{})
	plan(t, changed(func(d *stove.Design) { d.Rows[0].Circle, d.Rows[0].Count = 88.5e-3, 12 }), Options{})
}

// TestNearestWithDrills: the nearest design uses drills on hand.
func TestNearestWithDrills(t *testing.T) {
	o := Options{Drills: drillsOnHand(t, "3 mm, 5 mm, 6 mm, 8 mm, 12 mm")}
	r := refusedPlan(t, changed(func(d *stove.Design) { d.Rows[1].Count = 60 }), o)
	if r.Nearest == nil {
		t.Fatal(r)
	}
	if w := r.Nearest.Rows[1].Hole.Width * 1e3; w != 3 && w != 5 && w != 6 && w != 8 {
		t.Errorf("nearest hole of %g mm, which no drill on hand makes", w)
	}
	if _, err := Plan(*r.Nearest, o); err != nil {
		t.Error(err)
	}
}
