package drawing

import (
	"fmt"
	"math"
	"sort"
)

// maxHatchLines bounds one hatch: more lines than this is a spacing in the
// wrong unit, not a picture.
const maxHatchLines = 20000

func (h Hatch) check() error {
	if !finite(h.Angle, h.Spacing) || h.Spacing <= 0 {
		return fmt.Errorf("hatch spaced %g mm at %g rad; need a spacing above 0", h.Spacing, h.Angle)
	}
	for _, l := range h.Loops {
		for _, p := range l {
			if !finite(p.X, p.Y) {
				return fmt.Errorf("hatch corner at %v; coordinates must be finite", p)
			}
		}
	}
	if b := h.Bounds(); !b.Empty() && math.Hypot(b.Max.X-b.Min.X, b.Max.Y-b.Min.Y)/h.Spacing > maxHatchLines {
		return fmt.Errorf("hatch spaced %g mm over an area of %g × %g mm; at most %d lines are drawn",
			h.Spacing, b.Max.X-b.Min.X, b.Max.Y-b.Min.Y, maxHatchLines)
	}
	return nil
}

// Lines is the hatch as lines. They lie on one grid through the sheet's
// corner, so that areas hatched alike meet without a seam. The shape must be
// one that Check accepts.
func (h Hatch) Lines() []Line {
	s, k := math.Sincos(h.Angle)
	turned := make([][]Point, len(h.Loops)) // rotated so that the lines lie level
	lo, hi := math.Inf(1), math.Inf(-1)
	for i, l := range h.Loops {
		turned[i] = make([]Point, len(l))
		for j, p := range l {
			q := Point{p.X*k + p.Y*s, p.Y*k - p.X*s}
			turned[i][j] = q
			lo, hi = math.Min(lo, q.Y), math.Max(hi, q.Y)
		}
	}
	var out []Line
	var cuts []float64
	for n := math.Ceil(lo / h.Spacing); n*h.Spacing < hi; n++ {
		y := n * h.Spacing
		cuts = cuts[:0]
		for _, l := range turned {
			for j, a := range l {
				b := l[(j+1)%len(l)]
				// Half open, so that a corner on the line is counted once.
				if (a.Y <= y) != (b.Y <= y) {
					cuts = append(cuts, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
				}
			}
		}
		sort.Float64s(cuts)
		for j := 0; j+1 < len(cuts); j += 2 {
			if cuts[j+1]-cuts[j] < 1e-3 {
				continue
			}
			back := func(x float64) Point { return Point{x*k - y*s, x*s + y*k} }
			out = append(out, Line{back(cuts[j]), back(cuts[j+1])})
		}
	}
	return out
}
