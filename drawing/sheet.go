package drawing

import (
	"fmt"
	"math"
)

// Sheet is one drawing.
type Sheet struct {
	Title  string  // accessible name of the drawing
	Note   string  // longer description in words, may be empty
	Width  float64 // [mm]
	Height float64 // [mm]
	Ground Paint   // colour of the paper, none by default
	Layers []Layer
}

// Layer is a set of shapes drawn with one pen.
type Layer struct {
	Name   string
	Pen    Pen
	Shapes []Shape
}

// Pen draws outlines and gives text its colour. A pen of zero width draws no
// outlines: its layer shows fills and text only.
type Pen struct {
	Width float64 // [mm]
	Color Color
	Dash  []float64 // lengths of line and gap in turn, solid when empty [mm]
}

// Color is 0xRRGGBB; the zero value is black.
type Color uint32

// Paint fills an outline; the zero value fills nothing.
type Paint struct {
	Color   Color
	Opacity float64 // 0 for none, 1 for solid
}

// Solid is a paint that covers.
func Solid(c Color) Paint { return Paint{Color: c, Opacity: 1} }

// Point is a place on the sheet [mm].
type Point struct{ X, Y float64 }

// Shape is one of Line, Circle, Arc, Polyline, Hatch, Text and Part.
type Shape interface {
	// Bounds is the smallest upright box round the shape, pen width left out.
	Bounds() Box
	check() error
}

// Line is a straight line.
type Line struct{ From, To Point }

// Circle is a full circle.
type Circle struct {
	Center Point
	Radius float64 // [mm]
	Fill   Paint
}

// Arc runs counter-clockwise from angle Start to angle End.
type Arc struct {
	Center     Point
	Radius     float64 // [mm]
	Start, End float64 // [rad]
}

// Vertex is a corner of a polyline. Bulge bends the segment that leaves it
// into an arc: the tangent of a quarter of the arc's angle, positive when the
// arc runs counter-clockwise, 0 for a straight segment.
type Vertex struct {
	Point
	Bulge float64
}

// Polyline is a chain of straight and bulged segments.
type Polyline struct {
	Vertices []Vertex
	Closed   bool
	Fill     Paint // of a closed polyline
}

// Hatch is a set of parallel lines inside an area. The area is what lies in
// an odd number of the loops, so that a loop inside another is a hole.
type Hatch struct {
	Loops   [][]Point
	Angle   float64 // of the lines [rad]
	Spacing float64 // between the lines [mm]
}

// Part is a group of shapes under one name, so that a page can find what a
// shape stands for. Its shapes lie on the layer the part lies on.
type Part struct {
	Name   string
	Shapes []Shape
}

// Poly joins points by straight segments.
func Poly(points ...Point) Polyline {
	p := Polyline{Vertices: make([]Vertex, len(points))}
	for i, q := range points {
		p.Vertices[i].Point = q
	}
	return p
}

// Rect is the upright closed rectangle between two opposite corners.
func Rect(a, b Point) Polyline {
	p := Poly(a, Point{b.X, a.Y}, b, Point{a.X, b.Y})
	p.Closed = true
	return p
}

// Filled is the polyline closed and filled.
func (p Polyline) Filled(f Paint) Polyline {
	p.Closed, p.Fill = true, f
	return p
}

// Arrow is a filled arrow head with its tip at tip, pointing along angle
// [rad]; length and width in mm.
func Arrow(tip Point, angle, length, width float64, c Color) Polyline {
	s, k := math.Sincos(angle)
	at := func(back, side float64) Point {
		return Point{tip.X - back*k - side*s, tip.Y - back*s + side*k}
	}
	return Poly(tip, at(length, width/2), at(length, -width/2)).Filled(Solid(c))
}

// segments is how many segments the polyline has.
func (p Polyline) segments() int {
	if n := len(p.Vertices); p.Closed || n == 0 {
		return n
	}
	return len(p.Vertices) - 1
}

// segment is the i-th segment: its ends and its bulge. A bow of less than a
// billionth of its chord is straight: the circle it belongs to has no centre
// that a number can hold.
func (p Polyline) segment(i int) (a, b Point, bulge float64) {
	v := p.Vertices[i]
	if bulge = v.Bulge; math.Abs(bulge) < 1e-9 {
		bulge = 0
	}
	return v.Point, p.Vertices[(i+1)%len(p.Vertices)].Point, bulge
}

// bulgeArc is the circle of a bulged segment and its angles; a negative sweep
// runs clockwise. The bulge must not be zero.
func bulgeArc(a, b Point, bulge float64) (c Point, r, start, sweep float64) {
	sweep = 4 * math.Atan(bulge)
	dx, dy := b.X-a.X, b.Y-a.Y
	chord := math.Hypot(dx, dy)
	r = chord * (1 + bulge*bulge) / (4 * math.Abs(bulge))
	// The centre lies off the chord's middle by (1-b²)/(4b) chords, to the
	// left of the direction of travel for a positive bulge under a half circle.
	k := (1 - bulge*bulge) / (4 * bulge)
	c = Point{(a.X+b.X)/2 - dy*k, (a.Y+b.Y)/2 + dx*k}
	return c, r, math.Atan2(a.Y-c.Y, a.X-c.X), sweep
}

// Points is the polyline with its arcs turned into chords that stray from them
// by at most tol [mm]. A closed polyline does not repeat its first point.
func (p Polyline) Points(tol float64) []Point {
	var out []Point
	for i := range p.segments() {
		a, b, bulge := p.segment(i)
		out = append(out, a)
		if bulge == 0 || a == b {
			continue
		}
		c, r, start, sweep := bulgeArc(a, b, bulge)
		n := 8.0
		if tol > 0 && r > tol {
			n = math.Ceil(math.Abs(sweep) / (2 * math.Acos(1-tol/r)))
		}
		n = math.Min(math.Max(n, 1), 720)
		for k := 1.0; k < n; k++ {
			s, co := math.Sincos(start + sweep*k/n)
			out = append(out, Point{c.X + r*co, c.Y + r*s})
		}
	}
	if !p.Closed && len(p.Vertices) > 0 {
		out = append(out, p.Vertices[len(p.Vertices)-1].Point)
	}
	return out
}

// Check reports why the sheet cannot be drawn, or nil.
func (s *Sheet) Check() error {
	if !(s.Width > 0 && s.Height > 0) || !finite(s.Width, s.Height) {
		return fmt.Errorf("sheet %q: size %g × %g mm; both must be above 0", s.Title, s.Width, s.Height)
	}
	if err := s.Ground.check(); err != nil {
		return fmt.Errorf("sheet %q: ground: %w", s.Title, err)
	}
	seen := make(map[string]bool, len(s.Layers))
	for i, l := range s.Layers {
		if l.Name == "" || seen[l.Name] {
			return fmt.Errorf("sheet %q: layer %d has the name %q; every layer needs a name of its own", s.Title, i+1, l.Name)
		}
		seen[l.Name] = true
		if err := l.Pen.check(); err != nil {
			return fmt.Errorf("sheet %q: layer %q: pen: %w", s.Title, l.Name, err)
		}
		for k, sh := range l.Shapes {
			if sh == nil {
				return fmt.Errorf("sheet %q: layer %q: shape %d is missing", s.Title, l.Name, k+1)
			}
			if err := sh.check(); err != nil {
				return fmt.Errorf("sheet %q: layer %q: shape %d: %w", s.Title, l.Name, k+1, err)
			}
		}
	}
	return nil
}

func (p Pen) check() error {
	if !finite(p.Width) || p.Width < 0 || p.Color > 0xffffff {
		return fmt.Errorf("width %g mm, colour %#x; need a width of 0 or more and a colour up to 0xffffff", p.Width, p.Color)
	}
	sum := 0.0
	for _, d := range p.Dash {
		if !finite(d) || d < 0 {
			return fmt.Errorf("dash of %g mm; need 0 or more", d)
		}
		sum += d
	}
	if len(p.Dash) > 0 && sum == 0 {
		return fmt.Errorf("dashes that are all 0 mm; leave the dash empty for a solid line")
	}
	return nil
}

func (f Paint) check() error {
	if !(f.Opacity >= 0 && f.Opacity <= 1) || f.Color > 0xffffff {
		return fmt.Errorf("fill of opacity %g, colour %#x; need 0 to 1 and a colour up to 0xffffff", f.Opacity, f.Color)
	}
	return nil
}

func (l Line) check() error {
	if !finite(l.From.X, l.From.Y, l.To.X, l.To.Y) {
		return fmt.Errorf("line %v to %v; coordinates must be finite", l.From, l.To)
	}
	return nil
}

func (c Circle) check() error {
	if !finite(c.Center.X, c.Center.Y, c.Radius) || c.Radius <= 0 {
		return fmt.Errorf("circle at %v of radius %g mm; need finite coordinates and a radius above 0", c.Center, c.Radius)
	}
	return c.Fill.check()
}

func (a Arc) check() error {
	if !finite(a.Center.X, a.Center.Y, a.Radius, a.Start, a.End) || a.Radius <= 0 {
		return fmt.Errorf("arc at %v of radius %g mm from %g to %g rad; need finite values and a radius above 0", a.Center, a.Radius, a.Start, a.End)
	}
	return nil
}

func (p Polyline) check() error {
	if len(p.Vertices) < 2 {
		return fmt.Errorf("polyline of %d vertices; need 2 or more", len(p.Vertices))
	}
	for i, v := range p.Vertices {
		if !finite(v.X, v.Y, v.Bulge) {
			return fmt.Errorf("polyline vertex %d at %v, bulge %g; values must be finite", i+1, v.Point, v.Bulge)
		}
	}
	return p.Fill.check()
}

func (p Part) check() error {
	for i, s := range p.Shapes {
		if s == nil {
			return fmt.Errorf("part %q: shape %d is missing", p.Name, i+1)
		}
		if err := s.check(); err != nil {
			return fmt.Errorf("part %q: shape %d: %w", p.Name, i+1, err)
		}
	}
	return nil
}

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
