package sim

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"toplit/firing"
	"toplit/internal/designs"
)

// tinStove is a family of stoves as makers begin with: one can, a few jets, a
// ring, a low closed stand, half a litre on it from the start.
func tinStove() *firing.Firing {
	f := demo()
	d := &f.Design
	d.OuterCan = nil
	d.Standoff = 0.02
	d.Rows = d.Rows[:2]
	d.Rows[1].Count, d.Rows[1].Hole.Width = 8, 0.004
	d.Stand.Height = 0.04
	f.Conditions.Schedule = []firing.Action{{Do: firing.PotOn}}
	return f
}

// TestInteriorOptimum: practice reports a best primary area, a best ring and a
// best pot gap, with worse on either side; so does the model. What never boils
// counts as worse than anything that does.
func TestInteriorOptimum(t *testing.T) {
	for _, c := range []struct {
		name   string
		figure Figure
		best   float64 // +1 the most, -1 the least
		values []float64
		set    func(f *firing.Firing, v float64)
	}{
		{
			"primary hole [mm]", FEfficiency, 1, []float64{2, 2.5, 3, 3.5, 4, 5, 6, 8, 10, 13},
			func(f *firing.Firing, v float64) { f.Design.Rows[0].Hole.Width = v / 1e3 },
		}, {
			"ring bore [mm]", FTimeToBoil, -1, []float64{25, 35, 45, 55, 65, 75, 85, 95, 105},
			func(f *firing.Firing, v float64) { f.Design.Ring.Bore = v / 1e3 },
		}, {
			"pot gap [mm]", FTimeToBoil, -1, []float64{1.5, 3, 5, 8, 12, 20, 30, 45, 60, 80},
			func(f *firing.Firing, v float64) { f.Design.Stand.Gap = v / 1e3 },
		},
	} {
		t.Run(strings.Fields(c.name)[0], func(t *testing.T) {
			b := new(burner)
			var line strings.Builder
			score := make([]float64, len(c.values))
			at := 0
			for i, v := range c.values {
				f := designs.Clone(tinStove())
				c.set(f, v)
				s, err := newSite(f, shippedNodes)
				if err != nil {
					t.Fatal(err)
				}
				b.phases = [4]float64{}
				if err := b.run(s, MedianParams(), shippedWidths, signTol, 20); err != nil {
					t.Fatalf("%s %g: %v", c.name, v, err)
				}
				x := b.figures()[c.figure]
				fmt.Fprintf(&line, "\n  %6g: %.4g", v, x)
				score[i] = c.best * x
				if math.IsNaN(x) {
					score[i] = math.Inf(-1)
				}
				if score[i] > score[at] {
					at = i
				}
			}
			t.Logf("%s against %s: best at %g%s", c.name, c.figure, c.values[at], line.String())
			if math.IsInf(score[at], -1) {
				t.Fatal("none of them gives a figure")
			}
			for _, end := range []int{0, len(score) - 1} {
				if loss := (score[at] - score[end]) / math.Abs(score[at]); !(loss > 0.02) {
					t.Errorf("%g is no worse than the best, %g: %.1f %% apart", c.values[end], c.values[at], 100*loss)
				}
			}
		})
	}
}
