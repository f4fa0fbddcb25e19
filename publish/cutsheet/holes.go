package cutsheet

import (
	"fmt"
	"math"

	"toplit/drawing"
	"toplit/quantity"
)

// Sizes of type on sheets [mm].
const (
	titleSize = 3.6
	wordSize  = 2.8
	smallSize = 2.2 // hole numbers where there is room
	tinySize  = 1.6 // where there is little
)

// drawHoles draws every hole of a part with its cross, number and drill.
func (s *Set) drawHoles(b *board, p Part) {
	free := closest(p)
	for _, h := range p.Holes {
		s.drawHole(b, h, free)
	}
	for _, h := range p.Holes {
		l, r, d, u := h.marked(free)
		b.keep(h.X-l-0.3, h.Y-d-0.3, h.X+r+0.3, h.Y+u+0.3)
	}
	for _, h := range p.Holes {
		s.label(b, h, free)
	}
}

// closest is the metal between a hole and its nearest neighbour, for every
// hole; large where it has none.
func closest(p Part) map[int]float64 {
	free := map[int]float64{}
	for i, h := range p.Holes {
		m := 30.0
		for j, g := range p.Holes {
			if i == j || math.Abs(h.Y-g.Y) > 60 {
				continue
			}
			if p.Kind == Wrap {
				m = math.Min(m, nearer(h, g, p.Around))
			} else {
				m = math.Min(m, gap(h, g))
			}
		}
		free[h.Number] = math.Max(m, 0)
	}
	return free
}

// drawHole: a hole to make is a full outline with a cross that runs 2 to 3 mm
// past it (ISO 128 centre lines), one that is there is dotted, one to
// enlarge shows both and a ring round them.
func (s *Set) drawHole(b *board, h Hole, free map[int]float64) {
	arm := func(extra float64) {
		l, r, d, u := h.extent()
		more := math.Min(extra, 0.42*free[h.Number])
		b.line(h.X-l-more, h.Y, h.X+r+more, h.Y)
		b.line(h.X, h.Y-d-more, h.X, h.Y+u+more)
	}
	was := h
	was.Outline = h.Was
	switch h.State {
	case There:
		b.dottedOutline(h)
		return
	case Bigger:
		b.dottedOutline(was)
		b.note = append(b.note, b.circle(h.X, h.Y, h.ringed(free)))
	}
	shape := b.outline(h)
	if h.round() {
		b.drill = append(b.drill, shape)
		arm(2.5)
		return
	}
	b.cut = append(b.cut, shape)
	points, r := h.hull()
	if len(points) == 2 { // a slot is drilled at both ends
		for _, q := range points {
			b.cross(q.X, q.Y, math.Min(r+0.5, r*1.3))
		}
		return
	}
	arm(1.5)
}

// ringed is the radius of the ring round a hole to enlarge, which lies between
// it and what is next to it.
func (h Hole) ringed(free map[int]float64) float64 {
	return h.reach() + math.Min(1.2, 0.4*free[h.Number])
}

// marked is extent with the ring of a hole to enlarge.
func (h Hole) marked(free map[int]float64) (left, right, down, up float64) {
	if h.State == Bigger {
		r := h.ringed(free)
		return r, r, r, r
	}
	return h.extent()
}

// dottedOutline draws a hole that is there.
func (b *board) dottedOutline(h Hole) {
	if h.round() {
		b.dotted(h.X, h.Y, h.Width/2)
		return
	}
	// Dots along straight edges: every other piece of 1 mm.
	shape, ok := b.outline(h).(drawing.Polyline)
	if !ok {
		b.dotted(h.X, h.Y, h.reach())
		return
	}
	points := shape.Points(0.05)
	for i := range points {
		from, to := points[i], points[(i+1)%len(points)]
		long := math.Hypot(to.X-from.X, to.Y-from.Y)
		n := math.Max(1, math.Round(long/2))
		for k := range int(n) {
			a, e := float64(k)/n, (float64(k)+0.5)/n
			b.note = append(b.note, drawing.Line{
				From: drawing.Point{X: from.X + (to.X-from.X)*a, Y: from.Y + (to.Y-from.Y)*a},
				To:   drawing.Point{X: from.X + (to.X-from.X)*e, Y: from.Y + (to.Y-from.Y)*e},
			})
		}
	}
}

// drillWord is what is written at a hole: its drill, or its size where it is
// not drilled.
func (s *Set) drillWord(h Hole) string {
	row := s.Rows[h.Row]
	word := row.Drill
	if word == "" || !h.round() {
		word = h.Outline.text(s.options.Units)
		if !h.round() {
			word = fmt.Sprintf("%s × %s", trim(h.Width, 1), trim(h.Height, 1))
			if s.options.Units == quantity.US {
				word = fmt.Sprintf("%s × %s", place(h.Width, quantity.US), place(h.Height, quantity.US))
			}
		}
	}
	if h.State == Bigger {
		return h.Was.text(s.options.Units) + " → " + word
	}
	return word
}

// label writes a hole's number and its drill beside it where there is room:
// number above or upper right and drill below, both in one line, or the
// number alone, smaller and smaller. The words of the row say the drill too.
func (s *Set) label(b *board, h Hole, free map[int]float64) {
	number := fmt.Sprint(h.Number)
	if h.State == There {
		return
	}
	drill := s.drillWord(h)
	_, r, d, u := h.marked(free)
	try := func(x, y, size float64, anchor drawing.Anchor, bold bool, word string) bool {
		box := b.textBox(x, y, size, anchor, bold, word)
		if !b.free(box) {
			return false
		}
		b.words(x, y, size, anchor, bold, word)
		return true
	}
	const capital, under = 0.72, 0.22 // of the type, above and below its line
	numbered := false
	for _, size := range []float64{smallSize, 1.9, tinySize, 1.3} {
		numbered = try(h.X+0.5, h.Y+u+0.6+under*size, size, drawing.Start, true, number) ||
			try(h.X-0.5, h.Y+u+0.6+under*size, size, drawing.End, true, number) ||
			try(h.X+0.5, h.Y-d-0.7-capital*size, size, drawing.Start, true, number) ||
			try(h.X+r*0.75+0.4, h.Y+u*0.75+0.3, size, drawing.Start, true, number)
		if numbered {
			break
		}
	}
	if !numbered { // over something rather than not at all
		const size = 1.3
		b.words(h.X+0.4, h.Y+u+0.5+under*size, size, drawing.Start, true, number)
	}
	for _, size := range []float64{1.9, tinySize} {
		if try(h.X+0.5, h.Y-d-0.7-capital*size, size, drawing.Start, false, drill) ||
			try(h.X-0.5, h.Y-d-0.7-capital*size, size, drawing.End, false, drill) {
			break
		}
	}
}
