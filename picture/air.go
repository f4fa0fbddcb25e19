package picture

import (
	"math"

	"toplit/drawing"
	"toplit/stove"
)

// The air paths show which ways are open: from outside through the outer can's
// inlet, under the fuel can and through its base, up the annulus and in at the
// rows of the body; out through the ring. They are drawn from the geometry
// alone. Whether air flows there, and which way, is for a prediction to say.

const (
	reachOut = 6.0 // how far an air path begins outside the stove [mm of sheet]
	bend     = 1.6 // radius of its corners [mm of sheet]
	overhead = 8.0 // room above a stove without a pot, for the way out [mm of sheet]
)

// inlet is where air comes into the outer can: a height and whether it is the
// slot at the top of the annulus.
type inlet struct {
	h   float64
	top bool
}

// outerInlet finds the lowest way into the outer can; false when there is none.
func (s *scene) outerInlet() (in inlet, ok bool) {
	in.h = math.Inf(1)
	for _, r := range s.d.Rows {
		if r.On == stove.OuterBody && s.cut(r) {
			in.h, ok = math.Min(in.h, s.outerBase+r.Height), true
		}
	}
	if !ok && s.d.Annulus > 0 && s.annulus() > 0 {
		return inlet{math.Min(s.fuelRim, s.outerRim), true}, true
	}
	return in, ok
}

// cut reports whether a row of a body really opens its wall.
func (s *scene) cut(r stove.Row) bool {
	_, tall, ok := s.d.Wall(r.On)
	return ok && r.Count > 0 && r.Hole.Width > 0 && r.Height > 0 && r.Height < tall && r.Hole.Tall() <= tall
}

// annulus is the free width between the two cans [m].
func (s *scene) annulus() float64 {
	if s.d.OuterCan == nil {
		return 0
	}
	return (s.d.OuterCan.Bore() - s.d.FuelCan.Diameter) / 2
}

func (s *scene) air() {
	s.begin("air")
	defer s.begin("")
	s.bodyAir()
	s.baseAir()
}

func (s *scene) draw(points ...drawing.Point) { s.path(onAir, slate, bend, points...) }

// bodyAir leads air to the lowest and the highest row of the fuel can's body,
// on the left.
func (s *scene) bodyAir() {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range s.d.Rows {
		if r.On == stove.FuelBody && s.cut(r) {
			h := s.fuelBase + r.Height
			low, high = math.Min(low, h), math.Max(high, h)
		}
	}
	if high < low {
		return
	}
	rows := []float64{high}
	if high-low > 6/s.k {
		rows = append(rows, low)
	}
	inside := math.Max(0, s.d.FuelCan.Diameter/2-5/s.k)
	wall := s.d.FuelCan.Diameter / 2
	if s.d.OuterCan == nil {
		for _, h := range rows {
			from := s.at(-wall, h)
			from.X -= reachOut
			s.draw(from, s.at(-inside, h))
		}
		return
	}
	gap := s.annulus()
	in, ok := s.outerInlet()
	if !ok || gap*s.k < 0.6 {
		return
	}
	mid := -(wall + gap/2)
	for i, h := range rows {
		if i == 1 {
			// The second path branches off the first one's way up.
			s.draw(s.at(mid, h), s.at(-inside, h))
			continue
		}
		s.draw(append(s.inlet(in, mid), s.at(mid, h), s.at(-inside, h))...)
	}
}

// inlet is the way in to a radius inside the outer can.
func (s *scene) inlet(in inlet, mid float64) []drawing.Point {
	if in.top {
		p := s.at(mid, in.h)
		p.Y += reachOut
		return []drawing.Point{p}
	}
	from := s.at(math.Copysign(s.d.OuterCan.Diameter/2, mid), in.h)
	from.X += math.Copysign(reachOut, mid)
	return []drawing.Point{from, s.at(mid, in.h)}
}

// baseAir leads air up through the fuel can's base, on the right.
func (s *scene) baseAir() {
	cuts := s.baseCuts(stove.FuelBase, s.d.FuelCan.Bore())
	wall := s.d.FuelCan.Diameter / 2
	if s.d.FuelCan.OpenBase {
		cuts = []span{{wall / 2, wall / 2}}
	}
	hole := math.Inf(-1)
	for _, c := range cuts {
		// The outermost hole but one third in: clear of wall and leaders.
		if m := (c.lo + c.hi) / 2; m > hole && math.Abs(m) < 0.8*wall {
			hole = m
		}
	}
	if math.IsInf(hole, 0) {
		return
	}
	floor := s.plateTop
	if s.d.OuterCan != nil {
		floor = s.outerFloor
	}
	room := s.fuelBase - floor
	if room*s.k < 1 {
		return
	}
	under := s.fuelBase - math.Min(room/2, 6/s.k)
	tip := s.at(hole, s.fuelFloor)
	tip.Y += 4
	up := []drawing.Point{s.at(hole, under), tip}
	if s.d.OuterCan == nil {
		from := s.at(wall, under)
		from.X += reachOut
		s.draw(append([]drawing.Point{from}, up...)...)
		return
	}
	gap := s.annulus()
	in, ok := s.outerInlet()
	if !ok || gap*s.k < 0.6 {
		return
	}
	way := s.inlet(in, wall+gap/2)
	if h := in.h; !in.top && h > floor && (s.fuelBase-h)*s.k > 1 {
		// An inlet below the base leads straight in.
		s.draw(way[0], s.at(hole, h), tip)
		return
	}
	s.draw(append(append(way, s.at(wall+gap/2, under)), up...)...)
}

// gas leads hot gas out of the top: up, or round the pot's base where one
// stands over it.
func (s *scene) gas() {
	s.begin("hot gas")
	defer s.begin("")
	d := s.d
	bore := d.FuelCan.Bore()
	if d.FuelCan.Mouth > 0 {
		bore = math.Min(bore, d.FuelCan.Mouth)
	}
	from := s.fuelRim
	if d.Ring != nil && d.Ring.Bore > 0 {
		bore = math.Min(bore, d.Ring.Bore)
	}
	top := s.riserTop
	if d.Ring != nil {
		top = math.Max(top, s.ring+d.Ring.Wall)
	}
	if d.Riser != nil {
		bore = math.Min(bore, d.Riser.Bore)
	}
	// From well inside the can, but above the fuel.
	start := s.y(from - math.Max(0, math.Min((s.fuelRim-s.fuelFloor)/4, s.fuelRim-s.fuelFloor-s.level)/1.5))
	draw := func(points ...drawing.Point) { s.path(onGas, ember, bend, points...) }
	if s.c.Pot == nil || s.c.Pot.Diameter == 0 {
		high := s.y(s.top) + overhead - 1
		draw(drawing.Point{X: s.cx, Y: start}, drawing.Point{X: s.cx, Y: high})
		return
	}
	room := s.potBase - top
	exit := s.potBase
	edge := s.c.Pot.Diameter / 2
	switch st := d.Stand; {
	case st == nil:
		return // the pot closes the top: no way out is drawn
	case st.Closed && st.Gap > 0:
		exit -= st.Gap / 2
		edge = math.Max(edge, st.Diameter/2)
	case st.Closed:
		return
	default:
		exit -= math.Min(room/3, 6/s.k)
	}
	if room*s.k < 1.5 {
		return
	}
	if d.Skirt != nil {
		// Up between skirt and pot.
		if d.Skirt.Gap*s.k < 0.8 {
			return
		}
		mid := s.c.Pot.Diameter/2 + d.Skirt.Gap/2
		high := math.Min(s.y(s.potBase+d.Skirt.Height)+4, s.y(s.potTop)+2)
		for _, side := range []float64{-1, 1} {
			draw(drawing.Point{X: s.cx + side*bore/4*s.k, Y: start}, s.at(side*bore/4, exit), s.at(side*mid, exit), drawing.Point{X: s.x(side * mid), Y: high})
		}
		return
	}
	for _, side := range []float64{-1, 1} {
		end := s.at(side*edge, exit)
		end.X += side * 0.8 * reachOut
		draw(drawing.Point{X: s.cx + side*bore/4*s.k, Y: start}, s.at(side*bore/4, exit), end)
	}
}
