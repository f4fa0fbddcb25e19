package cutsheet

import (
	"math"

	"toplit/drawing"
	"toplit/stove"
)

// Outline is the edge of a hole: Width along the circumference (for a round
// hole its diameter), Height across it [mm].
type Outline struct {
	Shape         stove.Shape
	Width, Height float64
}

// State says what is to be done to a hole.
type State string

// The states. On a can that is not drilled yet every hole is New.
const (
	New    State = "new"
	Bigger State = "enlarge"
	There  State = "there" // drilled already and kept
)

// Hole is one opening on a sheet.
type Hole struct {
	Number int
	Row    int     // index into the rows of the design
	X, Y   float64 // on a strip from the seam and above the part's base; on a disc from its middle [mm]
	Turn   float64 // of the outline about the middle, 0 when its width lies level [rad]
	Outline
	State State
	Was   Outline // of a hole to enlarge, as it is now
}

func outline(h stove.Hole) Outline {
	o := Outline{h.Shape, h.Width * 1e3, h.Height * 1e3}
	if o.Shape == "" {
		o.Shape = stove.Round
	}
	if o.Shape == stove.Round {
		o.Height = o.Width
	}
	return o
}

func (o Outline) round() bool { return o.Shape == stove.Round }

// reach is how far the outline extends from its middle at most [mm].
func (o Outline) reach() float64 {
	switch o.Shape {
	case stove.Round:
		return o.Width / 2
	case stove.Slot:
		return math.Max(o.Width, o.Height) / 2
	}
	return math.Hypot(o.Width, o.Height) / 2
}

// narrow is the smaller extent [mm].
func (o Outline) narrow() float64 { return math.Min(o.Width, o.Height) }

// hull is the outline as points with a disc of radius r round each and all
// that lies between: a round hole is one point, a slot two, the others the
// corners with no radius.
func (h Hole) hull() (points []drawing.Point, r float64) {
	w, t := h.Width/2, h.Height/2
	switch h.Shape {
	case stove.Round:
		points, r = []drawing.Point{{}}, w
	case stove.Slot:
		if w >= t {
			points, r = []drawing.Point{{X: t - w}, {X: w - t}}, t
		} else {
			points, r = []drawing.Point{{Y: w - t}, {Y: t - w}}, w
		}
	case stove.Triangle: // its base below, as seen with Turn 0
		points = []drawing.Point{{X: -w, Y: -t}, {X: w, Y: -t}, {Y: t}}
	default:
		points = []drawing.Point{{X: -w, Y: -t}, {X: w, Y: -t}, {X: w, Y: t}, {X: -w, Y: t}}
	}
	s, c := math.Sincos(h.Turn)
	for i, p := range points {
		points[i] = drawing.Point{X: h.X + p.X*c - p.Y*s, Y: h.Y + p.X*s + p.Y*c}
	}
	return points, r
}

// gap is the metal between the edges of two holes [mm]; negative where they
// overlap (then by how much only for round holes and slots).
func gap(a, b Hole) float64 {
	if a.round() && b.round() {
		return math.Hypot(a.X-b.X, a.Y-b.Y) - a.Width/2 - b.Width/2
	}
	p, r := a.hull()
	q, s := b.hull()
	return apart(p, q) - r - s
}

// apart is the distance of two convex sets given by their corners, 0 where
// they share a point.
func apart(p, q []drawing.Point) float64 {
	if inside(p[0], q) || inside(q[0], p) {
		return 0
	}
	best := math.Inf(1)
	for i := range p {
		a, b := p[i], p[(i+1)%len(p)]
		for j := range q {
			c, d := q[j], q[(j+1)%len(q)]
			if crosses(a, b, c, d) {
				return 0
			}
			for _, v := range []float64{toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b)} {
				best = math.Min(best, v)
			}
		}
	}
	return best
}

func cross(o, a, b drawing.Point) float64 { return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X) }

func crosses(a, b, c, d drawing.Point) bool {
	return cross(a, b, c)*cross(a, b, d) < 0 && cross(c, d, a)*cross(c, d, b) < 0
}

// inside: the point lies in a polygon of three corners or more, which runs
// counter-clockwise.
func inside(p drawing.Point, q []drawing.Point) bool {
	if len(q) < 3 {
		return false
	}
	for i := range q {
		if cross(q[i], q[(i+1)%len(q)], p) < 0 {
			return false
		}
	}
	return true
}

// toSegment is the distance of a point from a piece of a line.
func toSegment(p, a, b drawing.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if n := dx*dx + dy*dy; n > 0 {
		t = math.Max(0, math.Min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/n))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// extent is how far a hole reaches from its middle to either side and up and
// down [mm].
func (h Hole) extent() (left, right, down, up float64) {
	p, r := h.hull()
	for _, q := range p {
		left, right = math.Max(left, h.X-q.X), math.Max(right, q.X-h.X)
		down, up = math.Max(down, h.Y-q.Y), math.Max(up, q.Y-h.Y)
	}
	return left + r, right + r, down + r, up + r
}

// farthest is how far from the origin the edge of a hole lies [mm].
func (h Hole) farthest() float64 {
	p, r := h.hull()
	far := 0.0
	for _, q := range p {
		far = math.Max(far, math.Hypot(q.X, q.Y))
	}
	return far + r
}

// nearestToMiddle is how near to the origin the edge of a hole comes [mm].
func (h Hole) nearestToMiddle() float64 {
	p, r := h.hull()
	return math.Max(0, apart(p, []drawing.Point{{}})-r)
}
