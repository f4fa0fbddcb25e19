package drawing

import "math"

// Box is an upright box [mm]. The zero value is empty only by convention of
// Empty: use NoBox to start a union.
type Box struct{ Min, Max Point }

// NoBox is the box that holds nothing.
func NoBox() Box {
	inf := math.Inf(1)
	return Box{Point{inf, inf}, Point{-inf, -inf}}
}

// Empty reports whether the box holds nothing.
func (b Box) Empty() bool { return b.Min.X > b.Max.X || b.Min.Y > b.Max.Y }

// Union is the smallest box that holds both.
func (b Box) Union(c Box) Box {
	return Box{
		Point{math.Min(b.Min.X, c.Min.X), math.Min(b.Min.Y, c.Min.Y)},
		Point{math.Max(b.Max.X, c.Max.X), math.Max(b.Max.Y, c.Max.Y)},
	}
}

// Grow is the box moved outwards by d on every side.
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Overlaps reports whether the two share an area; touching is not sharing.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// Inside reports whether the box lies in c.
func (b Box) Inside(c Box) bool {
	return b.Min.X >= c.Min.X && b.Max.X <= c.Max.X && b.Min.Y >= c.Min.Y && b.Max.Y <= c.Max.Y
}

func boxOf(points ...Point) Box {
	b := NoBox()
	for _, p := range points {
		b = b.Union(Box{p, p})
	}
	return b
}

// Bounds is the box round the line.
func (l Line) Bounds() Box { return boxOf(l.From, l.To) }

// Bounds is the box round the circle.
func (c Circle) Bounds() Box { return Box{c.Center, c.Center}.Grow(c.Radius) }

// Bounds is the box round the arc.
func (a Arc) Bounds() Box { return arcBounds(a.Center, a.Radius, a.Start, a.sweep()) }

// sweep is the arc's angle, above 0 and at most a full turn [rad].
func (a Arc) sweep() float64 {
	s := math.Mod(a.End-a.Start, 2*math.Pi)
	if s <= 0 {
		s += 2 * math.Pi
	}
	return s
}

// arcBounds takes the ends and those of the four extreme points that the arc
// passes through.
func arcBounds(c Point, r, start, sweep float64) Box {
	if sweep < 0 {
		start, sweep = start+sweep, -sweep
	}
	at := func(t float64) Point {
		s, k := math.Sincos(t)
		return Point{c.X + r*k, c.Y + r*s}
	}
	b := boxOf(at(start), at(start+sweep))
	for q := math.Ceil(start / (math.Pi / 2)); q*math.Pi/2 < start+sweep; q++ {
		b = b.Union(boxOf(at(q * math.Pi / 2)))
	}
	return b
}

// Bounds is the box round the polyline, arcs included.
func (p Polyline) Bounds() Box {
	b := NoBox()
	for _, v := range p.Vertices {
		b = b.Union(boxOf(v.Point))
	}
	for i := range p.segments() {
		from, to, bulge := p.segment(i)
		if bulge != 0 && from != to {
			b = b.Union(arcBounds(bulgeArc(from, to, bulge)))
		}
	}
	return b
}

// Bounds is the box round the hatched area.
func (h Hatch) Bounds() Box {
	b := NoBox()
	for _, l := range h.Loops {
		b = b.Union(boxOf(l...))
	}
	return b
}

// Bounds is the box round everything in the part.
func (p Part) Bounds() Box {
	b := NoBox()
	for _, s := range p.Shapes {
		b = b.Union(s.Bounds())
	}
	return b
}

// Bounds is the box round everything drawn on the sheet.
func (s *Sheet) Bounds() Box {
	b := NoBox()
	for _, l := range s.Layers {
		for _, sh := range l.Shapes {
			b = b.Union(sh.Bounds())
		}
	}
	return b
}
