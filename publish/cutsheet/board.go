package cutsheet

import (
	"cmp"
	"math"
	"slices"

	"toplit/drawing"
)

// Pens by what a line means, two widths as ISO 128-2 asks of a drawing. What a
// line means is also said by its layer and its words, never by colour.
const (
	cutPen  = 0.35 // [mm]
	thinPen = 0.18 // [mm]
)

// board is a drawing being made. Its shapes lie on four layers: CUT for what is
// cut through (edges, slots, windows), DRILL for round holes, FOLD for lines to
// bend at, NOTE for all that stays paper.
type board struct {
	at                     drawing.Point // where the part's origin lies
	cut, drill, fold, note []drawing.Shape
	taken                  []drawing.Box // no words here
	left                   []string      // words of rows that found no room beside them
}

func (b *board) p(x, y float64) drawing.Point {
	return drawing.Point{X: b.at.X + x, Y: b.at.Y + y}
}

// sheet is the board as a drawing of a size, its layers in the order of work.
func (b *board) sheet(title, note string, width, height float64) *drawing.Sheet {
	return &drawing.Sheet{Title: title, Note: note, Width: width, Height: height, Layers: []drawing.Layer{
		{Name: "NOTE", Pen: drawing.Pen{Width: thinPen}, Shapes: b.note},
		{Name: "FOLD", Pen: drawing.Pen{Width: thinPen, Dash: []float64{6, 1.2, 0.6, 1.2, 0.6, 1.2}}, Shapes: b.fold},
		{Name: "DRILL", Pen: drawing.Pen{Width: thinPen}, Shapes: b.drill},
		{Name: "CUT", Pen: drawing.Pen{Width: cutPen}, Shapes: b.cut},
	}}
}

// bounds is the box round everything drawn, pens included.
func (b *board) bounds() drawing.Box {
	box := drawing.NoBox()
	for _, layer := range [][]drawing.Shape{b.cut, b.drill, b.fold, b.note} {
		for _, s := range layer {
			box = box.Union(s.Bounds())
		}
	}
	return box.Grow(cutPen)
}

func (b *board) line(x0, y0, x1, y1 float64) {
	b.note = append(b.note, drawing.Line{From: b.p(x0, y0), To: b.p(x1, y1)})
}

func (b *board) circle(x, y, r float64) drawing.Circle {
	return drawing.Circle{Center: b.p(x, y), Radius: r}
}

// dotted is a circle of short arcs, so that it is dotted on every device and
// stays on the layer of notes. It leaves room round holes.
func (b *board) dotted(x, y, r float64, holes ...Hole) {
	n := math.Max(8, math.Round(2*math.Pi*r/2))
	for k := range int(n) {
		a := 2 * math.Pi * float64(k) / n
		s, c := math.Sincos(a + math.Pi/n/2)
		if nearHole(x+r*c, y+r*s, 1.3, holes) {
			continue
		}
		b.note = append(b.note, drawing.Arc{Center: b.p(x, y), Radius: r, Start: a, End: a + math.Pi/n})
	}
}

// nearHole: a place lies on a hole or nearer to one than so far.
func nearHole(x, y, far float64, holes []Hole) bool {
	for _, h := range holes {
		if math.Hypot(h.X-x, h.Y-y) < h.reach()+far {
			return true
		}
	}
	return false
}

// clearOf is the pieces of a line from one place to another that keep so far
// off holes.
func clearOf(x0, y0, x1, y1, far float64, holes []Hole) [][4]float64 {
	long := math.Hypot(x1-x0, y1-y0)
	type span struct{ from, to float64 }
	var blocked []span
	for _, h := range holes {
		// Along and beside the line.
		t := ((h.X-x0)*(x1-x0) + (h.Y-y0)*(y1-y0)) / long
		off := math.Abs((h.X-x0)*(y1-y0)-(h.Y-y0)*(x1-x0)) / long
		if r := h.reach() + far; off < r {
			half := math.Sqrt(r*r - off*off)
			blocked = append(blocked, span{t - half, t + half})
		}
	}
	slices.SortFunc(blocked, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var out [][4]float64
	at := 0.0
	put := func(to float64) {
		if to-at > 0.5 {
			f, g := at/long, to/long
			out = append(out, [4]float64{x0 + (x1-x0)*f, y0 + (y1-y0)*f, x0 + (x1-x0)*g, y0 + (y1-y0)*g})
		}
	}
	for _, s := range blocked {
		put(math.Min(s.from, long))
		at = math.Max(at, s.to)
	}
	put(long)
	return out
}

// words writes one line of text and keeps its place.
func (b *board) words(x, y, size float64, anchor drawing.Anchor, bold bool, s string) {
	t := drawing.Text{At: b.p(x, y), Size: size, Anchor: anchor, Bold: bold, Content: s}
	b.note = append(b.note, t)
	b.taken = append(b.taken, t.Bounds())
}

// keep marks a box as taken, in the part's coordinates.
func (b *board) keep(x0, y0, x1, y1 float64) {
	b.taken = append(b.taken, drawing.Box{Min: b.p(x0, y0), Max: b.p(x1, y1)})
}

// free: nothing has been put in a box yet.
func (b *board) free(box drawing.Box) bool {
	for _, t := range b.taken {
		if t.Overlaps(box) {
			return false
		}
	}
	return true
}

// textBox is the room a line of text takes.
func (b *board) textBox(x, y, size float64, anchor drawing.Anchor, bold bool, s string) drawing.Box {
	return drawing.Text{At: b.p(x, y), Size: size, Anchor: anchor, Bold: bold, Content: s}.Bounds()
}

// tryWords writes a line where it covers nothing and lies inside a box of the
// part; false when it does not.
func (b *board) tryWords(in drawing.Box, x, y, size float64, anchor drawing.Anchor, bold bool, s string) bool {
	box := b.textBox(x, y, size, anchor, bold, s)
	in = drawing.Box{Min: b.p(in.Min.X, in.Min.Y), Max: b.p(in.Max.X, in.Max.Y)}
	if !box.Inside(in) || !b.free(box) {
		return false
	}
	b.words(x, y, size, anchor, bold, s)
	return true
}

// outline draws the edge of a hole about its middle.
func (b *board) outline(h Hole) drawing.Shape {
	if h.round() {
		return b.circle(h.X, h.Y, h.Width/2)
	}
	points, r := h.hull()
	if len(points) == 2 { // a slot: two straight sides and two half circles
		p, q := points[0], points[1]
		far := math.Hypot(q.X-p.X, q.Y-p.Y)
		if far < 1e-9 {
			return b.circle(h.X, h.Y, r)
		}
		nx, ny := -(q.Y-p.Y)/far*r, (q.X-p.X)/far*r
		return drawing.Polyline{Closed: true, Vertices: []drawing.Vertex{
			{Point: b.p(p.X-nx, p.Y-ny)}, {Point: b.p(q.X-nx, q.Y-ny), Bulge: 1},
			{Point: b.p(q.X+nx, q.Y+ny)}, {Point: b.p(p.X+nx, p.Y+ny), Bulge: 1},
		}}
	}
	poly := drawing.Polyline{Closed: true}
	for _, p := range points {
		poly.Vertices = append(poly.Vertices, drawing.Vertex{Point: b.p(p.X, p.Y)})
	}
	return poly
}

// arrow is a line with a head at its end.
func (b *board) arrow(x0, y0, x1, y1 float64) {
	b.line(x0, y0, x1, y1)
	b.note = append(b.note, drawing.Arrow(b.p(x1, y1), math.Atan2(y1-y0, x1-x0), 2.4, 1.6, 0))
}

// cross is two lines through a middle, each arm so long.
func (b *board) cross(x, y, arm float64) {
	b.line(x-arm, y, x+arm, y)
	b.line(x, y-arm, x, y+arm)
}
