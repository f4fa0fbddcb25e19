package cutsheet

import (
	"fmt"
	"math"

	"toplit/drawing"
	"toplit/stove"
)

// end lays the rows of a can's end out: circles first, then what fills the
// rest.
func (l *layout) end(p stove.Place) {
	can, ok := l.d.Base(p)
	if !ok {
		for _, i := range l.d.RowsOn(p) {
			l.add(rowKey(i, "on"), string(p), "the design has no such sheet", "another sheet", nil)
		}
		return
	}
	part := Part{Name: partName(p), Kind: Disc, Place: p, Across: can.Bore() * 1e3, Edge: toEdge(sheetOf(l.d, p))}
	before := l.holesBefore(p)
	var fields []int
	for _, i := range l.d.RowsOn(p) {
		if l.d.Rows[i].Circle == 0 {
			fields = append(fields, i)
			continue
		}
		if l.circleFits(i, part) {
			l.circle(&part, i, before)
		}
	}
	l.field(&part, fields, before)
	l.number(&part)
	l.against(&part, before)
	l.check(p, part.Holes, 0)
	l.parts = append(l.parts, part)
}

// circleFits checks a row on a circle by itself.
func (l *layout) circleFits(i int, part Part) bool {
	if l.kept(i) {
		return true
	}
	r, o := l.d.Rows[i], l.rows[i].Cut
	sys := l.o.Units
	t := sheetOf(l.d, r.On)
	l.small(i, t)
	across, room := r.Circle*1e3, part.Across/2-part.Edge
	out := Hole{X: 0, Y: across / 2, Outline: o}.farthest()
	if out > room+slack {
		text := fmt.Sprintf("only %s from the edge of an end of %s", length(part.Across/2-out, sys), length(part.Across, sys))
		if out >= part.Across/2 {
			text = fmt.Sprintf("the holes run into the edge of an end of %s", length(part.Across, sys))
		}
		l.add(rowKey(i, "circle"), length(across, sys), text, "up to "+length(math.Max(0, 2*(room-(out-across/2))), sys), func(d *stove.Design) { l.move(d, i) })
		l.at(position)
	}
	for _, b := range l.o.Beads {
		if b.On != r.On {
			continue
		}
		in := Hole{X: 0, Y: across / 2, Outline: o}.nearestToMiddle()
		if out > b.From*1e3-part.Edge+slack && in < b.To*1e3+part.Edge-slack {
			l.add(rowKey(i, "circle"), length(across, sys), fmt.Sprintf("the holes run into the bead from %s to %s of the middle", length(b.From*1e3, sys), length(b.To*1e3, sys)), "a circle clear of it", func(d *stove.Design) { l.move(d, i) })
			l.at(position)
		}
	}
	if r.Count < 2 {
		return true
	}
	least := between(o, o, t)
	if metal := Chord(across, r.Count) - o.Width; metal < least-slack {
		most := 1
		if step := o.Width + least - slack; step < across {
			most = max(1, int(math.Pi/math.Asin(step/across)))
		}
		l.add(rowKey(i, "count"), fmt.Sprint(r.Count), l.closeness(metal, fmt.Sprintf("%d holes of %s on a circle of %s", r.Count, o.text(sys), length(across, sys)), least), fmt.Sprintf("up to %d of this size", most), func(d *stove.Design) { l.fewer(d, i) })
	}
	return true
}

// onCircle is a row's holes on a circle, the first at an angle clockwise from
// the seam.
func onCircle(i int, r stove.Row, o Outline, first float64) []Hole {
	holes := make([]Hole, r.Count)
	for k := range holes {
		a := first + 2*math.Pi*float64(k)/float64(r.Count)
		s, c := math.Sincos(a)
		holes[k] = Hole{Row: i, X: r.Circle * 500 * s, Y: r.Circle * 500 * c, Turn: -a, Outline: o, State: New}
	}
	return holes
}

// circle puts a row on its circle, turned so that it keeps furthest from
// circles beside it.
func (l *layout) circle(part *Part, i int, before []Hole) {
	r, o := l.d.Rows[i], l.rows[i].Cut
	pitch := 2 * math.Pi / float64(r.Count)
	t := sheetOf(l.d, r.On)
	first := pitch / 2
	if old, ok := turnBefore(before, r, pitch); ok {
		first = old
	} else if len(part.Holes) > 0 {
		const steps = 120
		best := math.Inf(-1)
		for s := 0; s < steps; s++ {
			k := (s + 1) / 2
			if s%2 == 0 {
				k = -k
			}
			try := pitch/2 + float64(k)*pitch/steps
			free := math.Inf(1)
			for _, h := range onCircle(i, r, o, try) {
				for _, g := range part.Holes {
					if free > best {
						free = math.Min(free, gap(h, g)-between(h.Outline, g.Outline, t))
					}
				}
			}
			if free > best+1e-9 {
				best, first = free, try
			}
			if best > 0 {
				break // clear as it stands
			}
		}
	}
	part.Holes = append(part.Holes, onCircle(i, r, o, first)...)
}

// field fills an end with the rows that have no circle of their own, all on
// one lattice, so that they mix evenly.
func (l *layout) field(part *Part, rows []int, before []Hole) {
	if len(rows) == 0 {
		return
	}
	n := 0
	var widest Outline
	for _, i := range rows {
		l.small(i, sheetOf(l.d, part.Place))
		n += l.d.Rows[i].Count
		if o := l.rows[i].Cut; 2*o.reach() > widest.Width {
			widest = Outline{stove.Round, 2 * o.reach(), 2 * o.reach()}
		}
	}
	if l.fieldBefore(part, rows, before) {
		return
	}
	points, most := l.fill(*part, n, widest)
	if most < n {
		l.add(rowKey(rows[0], "count"), fmt.Sprint(l.d.Rows[rows[0]].Count), fmt.Sprintf("%d holes of %s do not go into an end of %s with %s of metal between them and %s at its edge", n, widest.text(l.o.Units),
			length(part.Across, l.o.Units), length(between(widest, widest, sheetOf(l.d, part.Place)), l.o.Units), length(part.Edge, l.o.Units)), fmt.Sprintf("up to %d in all", most),
			func(d *stove.Design) { l.fewer(d, l.most(rows)) })
	}
	// Rows take turns along the spiral of shells, each by its share.
	given := make([]int, len(rows))
	for k, q := range points {
		pick, behind := -1, math.Inf(-1)
		for j, i := range rows {
			if given[j] >= l.d.Rows[i].Count {
				continue
			}
			if late := float64(l.d.Rows[i].Count)*float64(k+1)/float64(n) - float64(given[j]); late > behind+1e-12 {
				pick, behind = j, late
			}
		}
		if pick < 0 {
			break
		}
		given[pick]++
		i := rows[pick]
		part.Holes = append(part.Holes, Hole{Row: i, X: q.X, Y: q.Y, Outline: l.rows[i].Cut, State: New})
	}
}

// most is the row with the most holes.
func (l *layout) most(rows []int) int {
	best := rows[0]
	for _, i := range rows {
		if l.d.Rows[i].Count > l.d.Rows[best].Count {
			best = i
		}
	}
	return best
}

// fill finds places for n holes of a size in the free part of an end. The
// second result is how many go in at the least spacing, or n where they do.
func (l *layout) fill(part Part, n int, o Outline) ([]drawing.Point, int) {
	t := sheetOf(l.d, part.Place)
	least := between(o, o, t)
	clear := func(p drawing.Point) bool {
		h := Hole{X: p.X, Y: p.Y, Outline: o}
		for _, g := range part.Holes {
			if gap(h, g) < between(h.Outline, g.Outline, t) {
				return false
			}
		}
		return l.offBeads(h, part)
	}
	if len(part.Holes) == 0 && !l.beaded(part.Place) {
		clear = nil
	}
	points, _ := spread(n, part.Across/2-part.Edge-o.reach(), o.Width+least, clear)
	return points, len(points)
}

func (l *layout) beaded(p stove.Place) bool {
	for _, b := range l.o.Beads {
		if b.On == p {
			return true
		}
	}
	return false
}

// offBeads: a hole in an end keeps off its beads.
func (l *layout) offBeads(h Hole, part Part) bool {
	for _, b := range l.o.Beads {
		if b.On == part.Place && h.farthest() > b.From*1e3-part.Edge && h.nearestToMiddle() < b.To*1e3+part.Edge {
			return false
		}
	}
	return true
}
