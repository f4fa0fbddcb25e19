package picture

import (
	"math"
	"strings"

	"toplit/drawing"
)

// ground draws the surface, the plate and the hatch of the earth.
func (s *scene) ground(reach float64) {
	left, right, y := s.cx-reach, s.cx+reach, s.y(0)
	s.begin("ground")
	s.line(onWall, left, y, right, y)
	const deep, step = 3.2, 2.4
	for x := left; x < right-deep+1e-9; x += step {
		s.line(onHatch, x, y-deep, x+deep, y)
	}
	s.begin("")
	if p := s.d.Plate; p != nil && p.Thickness > 0 {
		s.begin("plate")
		layer := onThin
		if s.changed.has("plate") {
			layer = onEmber
		}
		var outline drawing.Polyline
		if r := p.Diameter / 2; r > 0 && r <= s.halfWide+1e-9 {
			outline = drawing.Rect(s.at(-r, 0), s.at(r, p.Thickness))
			s.put(layer, outline)
		} else {
			// Wider than is worth the paper, or not known: broken off on both
			// sides, the ends left open and crooked.
			r, t, j := s.halfWide, p.Thickness, 1/s.k
			outline = drawing.Poly(s.at(-r, 0), s.at(r, 0), s.at(r-j, t/2), s.at(r+j, t/2), s.at(r, t), s.at(-r, t), s.at(-r-j, t/2), s.at(-r+j, t/2))
			s.put(layer, drawing.Line{From: s.at(-r, 0), To: s.at(r, 0)}, drawing.Line{From: s.at(-r, t), To: s.at(r, t)})
			for _, side := range []float64{-1, 1} {
				s.put(onThin, drawing.Poly(s.at(side*r, -0.8/s.k), s.at(side*r, t*0.3), s.at(side*r-j, t/2), s.at(side*r+j, t/2), s.at(side*r, t*0.7), s.at(side*r, t+0.8/s.k)))
			}
		}
		s.put(onHatch, drawing.Hatch{Loops: [][]drawing.Point{outline.Points(0.1)}, Angle: -math.Pi / 4, Spacing: 1.2})
		s.begin("")
	}
}

// pot draws the pot, its water and its lid.
func (s *scene) pot() {
	p := s.c.Pot
	if p == nil || p.Diameter == 0 || p.Height == 0 {
		return
	}
	sheet := math.Min(potSheet, math.Min(p.Diameter/2, p.Height))
	s.begin("pot")
	s.wall("pot", p.Diameter/2, sheet, s.potBase, s.potTop, nil)
	s.disc("pot", p.Diameter/2, s.potBase, sheet, nil)
	if p.Lid {
		r := p.Diameter / 2 * lidReach
		s.disc("pot", r, s.potTop, sheet, nil)
		knob := 0.05 * p.Diameter
		s.put(onThin, drawing.Rect(s.at(-knob, s.potTop+sheet), s.at(knob, s.potTop+sheet+0.06*p.Diameter)))
	}
	s.begin("")
	if s.water <= 0 {
		return
	}
	s.begin("water")
	r := p.Diameter/2 - sheet
	floor := s.potBase + sheet
	x1, x2, y1, y2 := s.x(-r), s.x(r), s.y(floor), s.y(floor+s.water)
	s.wash(x1, y1, x2, y2, slate, 0.13)
	s.line(onThin, x1, y2, x2, y2)
	if s.assumed.has("water.mass") {
		s.hatched(x1, y1, x2, y2, 2)
	}
	if !s.plain && x2-x1 > 12 {
		// The sign of a free surface: a triangle standing on its point.
		m := x1 + 0.82*(x2-x1)
		s.put(onThin, drawing.Polyline{Closed: true, Vertices: []drawing.Vertex{
			{Point: drawing.Point{X: m, Y: y2}}, {Point: drawing.Point{X: m + 1.1, Y: y2 + 1.9}}, {Point: drawing.Point{X: m - 1.1, Y: y2 + 1.9}}}})
	}
	s.begin("")
}

// fuel draws the charge up to its level.
func (s *scene) fuel() {
	r := s.d.FuelCan.Bore() / 2
	if s.level <= 0 || r <= 0 {
		return
	}
	x1, x2, y1, y2 := s.x(-r), s.x(r), s.y(s.fuelFloor), s.y(s.fuelFloor+s.level)
	s.begin("fuel")
	s.wash(x1, y1, x2, y2, husk, 0.14)
	if s.assumed.has("charge") {
		s.hatched(x1, y1, x2, y2, 1.6)
	} else if !s.plain {
		s.put(onFuel, pieces(s.pieceForm(), x1, y1, x2, y2)...)
	}
	s.line(onHidden, x1, y2, x2, y2)
	s.begin("")
}

// form is how a piece of fuel is drawn [mm on the sheet].
type form struct {
	length, width float64
	pellet        bool // with round ends, else a chip with crooked corners
}

// pieceForm is the size of a piece to scale, made larger where it would be
// too small to see or too many to draw: the pattern says what is in the can,
// its dimensions stand in the design.
func (s *scene) pieceForm() form {
	f := s.c.Fuel
	pellet := strings.Contains(strings.ToLower(f.Species), "pellet")
	w, l := length(f.Size), length(f.Length)
	if w == 0 {
		w = 6e-3 // as common wood pellets and small chips
	}
	if l == 0 {
		l = 2 * w
	}
	out := form{length: math.Max(l, w) * s.k, width: math.Min(l, w) * s.k, pellet: pellet}
	out.width = math.Max(1.2, math.Min(out.width, 5))
	out.length = math.Max(1.6*out.width, math.Min(out.length, 4*out.width))
	const most = 260
	area := s.d.FuelCan.Bore() * s.k * s.level * s.k
	if n := area / (2 * out.length * out.width); n > most {
		grow := math.Sqrt(n / most)
		out.length, out.width = out.length*grow, out.width*grow
	}
	return out
}

// capsule is a piece's place: centre, half axis, half width [mm].
type capsule struct{ x, y, ux, uy, r float64 }

// pieces strews pieces over a rectangle without overlap, the same way every
// time: whole ones first, then shorter ones and ends into what is left.
func pieces(f form, x1, y1, x2, y2 float64) []drawing.Shape {
	const margin, gap = 0.3, 0.22
	w, h := x2-x1-2*margin, y2-y1-2*margin
	rad := f.width / 2
	if w < f.width || h < f.width {
		return nil
	}
	// Only pieces in the same or a neighbouring cell can touch.
	cell := f.length + gap
	across, up := int(w/cell)+1, int(h/cell)+1
	cells := make([][]capsule, across*up)
	var placed []capsule
	try := func(n, long float64) {
		// Steps of the powers of the plastic number fill a square evenly.
		const a1, a2, a3 = 0.7548776662466927, 0.5698402909980532, 0.6180339887498949
		_, u := math.Modf(n * a1)
		_, v := math.Modf(n * a2)
		_, t := math.Modf(n * a3)
		half := (long - f.width) / 2
		s, c := math.Sincos((t - 0.5) * math.Pi)
		q := capsule{x1 + margin + u*w, y1 + margin + v*h, half * c, half * s, rad}
		if q.x-math.Abs(q.ux)-rad < x1+margin || q.x+math.Abs(q.ux)+rad > x2-margin ||
			q.y-math.Abs(q.uy)-rad < y1+margin || q.y+math.Abs(q.uy)+rad > y2-margin {
			return
		}
		i, j := int((q.x-x1-margin)/cell), int((q.y-y1-margin)/cell)
		for di := max(0, i-1); di <= min(across-1, i+1); di++ {
			for dj := max(0, j-1); dj <= min(up-1, j+1); dj++ {
				for _, o := range cells[dj*across+di] {
					if dx, dy := q.x-o.x, q.y-o.y; dx*dx+dy*dy < cell*cell && apart(q, o) < f.width+gap {
						return
					}
				}
			}
		}
		cells[j*across+i] = append(cells[j*across+i], q)
		placed = append(placed, q)
	}
	tries := math.Min(5000, 60*w*h/(f.length*f.width))
	n := 0.0
	for _, long := range []float64{f.length, 0.55*f.length + 0.45*f.width, f.width} {
		for range int(tries) {
			n++
			try(n, long)
		}
	}
	out := make([]drawing.Shape, 0, len(placed))
	for i, q := range placed {
		out = append(out, q.shape(f.pellet, i))
	}
	return out
}

// shape is the outline of the n-th piece.
func (q capsule) shape(pellet bool, n int) drawing.Shape {
	l := math.Hypot(q.ux, q.uy)
	if l < 1e-9 && pellet {
		return drawing.Circle{Center: drawing.Point{X: q.x, Y: q.y}, Radius: q.r}
	}
	ax, ay := 1.0, 0.0 // along
	if l > 1e-9 {
		ax, ay = q.ux/l, q.uy/l
	}
	corner := func(along, across float64) drawing.Point {
		return drawing.Point{X: q.x + along*ax - across*ay, Y: q.y + along*ay + across*ax}
	}
	if pellet {
		return drawing.Polyline{Closed: true, Vertices: []drawing.Vertex{
			{Point: corner(-l, -q.r)}, {Point: corner(l, -q.r), Bulge: 1}, {Point: corner(l, q.r)}, {Point: corner(-l, q.r), Bulge: 1}}}
	}
	// A chip: a crooked four-sided piece.
	k := func(j int) float64 { return [...]float64{1, 0.72, 0.9, 0.8, 0.97}[(2*n+j)%5] }
	a, c := l+0.75*q.r, 0.85*q.r
	p := drawing.Poly(corner(-a*k(0), -c*k(1)), corner(a*k(2), -c*k(3)), corner(a*k(4), c*k(0)), corner(-a*k(1), c*k(2)))
	p.Closed = true
	return p
}

// apart is the least distance between the axes of two capsules, found over a
// few points along each: close enough to keep outlines from touching.
func apart(a, b capsule) float64 {
	return math.Min(axisTo(a, b), axisTo(b, a))
}

func axisTo(a, b capsule) float64 {
	best := math.Inf(1)
	l2 := b.ux*b.ux + b.uy*b.uy
	for _, t := range [...]float64{-1, -0.5, 0, 0.5, 1} {
		px, py := a.x+t*a.ux-b.x, a.y+t*a.uy-b.y
		s := 0.0
		if l2 > 0 {
			s = math.Max(-1, math.Min(1, (px*b.ux+py*b.uy)/l2))
		}
		dx, dy := px-s*b.ux, py-s*b.uy
		best = math.Min(best, dx*dx+dy*dy)
	}
	return math.Sqrt(best)
}
