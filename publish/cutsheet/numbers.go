package cutsheet

import (
	"fmt"
	"math"
	"sort"

	"toplit/quantity"
)

// Mark is one hole of a strip as numbers, for those without a printer.
type Mark struct {
	Hole Hole
	Seam float64 // from the seam to the right along a strip laid round the body [mm]
	Inch string  // the same to the nearest 1/32 in
	Off  float64 // how much the inches are too far [mm]
}

// Marks lists the holes of a strip that are to be made, from the seam to the
// right, and by how much the worst mark in inches is off [mm].
func Marks(p Part) (marks []Mark, worst float64) {
	for _, h := range p.Holes {
		if h.State == There {
			continue
		}
		text, off := quantity.FormatNear(h.X/1e3, 32)
		marks = append(marks, Mark{h, h.X, text, off * 1e3})
		worst = math.Max(worst, math.Abs(off*1e3))
	}
	sort.SliceStable(marks, func(i, j int) bool {
		if marks[i].Hole.Row != marks[j].Hole.Row {
			return marks[i].Hole.Row < marks[j].Hole.Row
		}
		return marks[i].Seam < marks[j].Seam
	})
	return marks, worst
}

// Folds is how often a strip is folded in half to mark n holes, for 4, 8, 16
// and 32; false for other counts, which cannot be folded.
func Folds(n int) (times int, ok bool) {
	switch n {
	case 4, 8, 16, 32:
		return int(math.Round(math.Log2(float64(n)))), true
	}
	return 0, false
}

// folding says how to mark a row by folding a strip in place of measuring;
// "" for rows that cannot be.
func (s *Set) folding(p Part, row int) string {
	n := 0
	x := math.Inf(1)
	var y float64
	for _, h := range p.Holes {
		if h.Row != row {
			continue
		}
		if h.State != New {
			return ""
		}
		n++
		if h.X < x {
			x, y = h.X, h.Y
		}
	}
	times, ok := Folds(n)
	if !ok {
		return ""
	}
	sys := s.options.Units
	return fmt.Sprintf("%d holes by folding: cut a strip that just goes round (%s), fold it in half %d times, unfold. Draw an upright line %s to the right of the seam; both ends of the strip meet there. One hole there and one at every crease, %s above the base.",
		n, length(p.Around, sys), times, place(x, sys), place(y, sys))
}

// polar is a hole of a disc as numbers.
type polar struct {
	radius, angle float64 // from the middle [mm]; clockwise from the seam mark [°]
	right, up     float64 // from the middle [mm]
}

func polarOf(h Hole) polar {
	a := math.Atan2(h.X, h.Y) * 180 / math.Pi
	if a < -1e-9 {
		a += 360
	}
	return polar{math.Hypot(h.X, h.Y), math.Abs(a), h.X, h.Y}
}
