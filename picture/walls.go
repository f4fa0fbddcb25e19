package picture

import (
	"fmt"
	"math"
	"sort"

	"toplit/drawing"
	"toplit/stove"
)

// scene draws a placed stove on a board. Positions on the sheet are
// x = cx + r·k, y = y0 + h·k for a radius r and a height h above the ground.
type scene struct {
	*place
	*board
	k       float64 // mm of sheet per metre of stove
	cx, y0  float64 // [mm]
	changed keys
	assumed keys
	guessed bool // a label is marked as assumed
	aside   bool // the water's label stands beside the pot
	plain   bool // no hidden outlines, fuel pieces or arrows: the small picture
}

func (s *scene) x(r float64) float64 { return s.cx + r*s.k }
func (s *scene) y(h float64) float64 { return s.y0 + h*s.k }
func (s *scene) at(r, h float64) drawing.Point {
	return drawing.Point{X: s.x(r), Y: s.y(h)}
}

// metal is the layer a cut part belongs on: ember for a changed part, or for
// the ring where nothing is marked as changed.
func (s *scene) metal(key string) (layer string, c drawing.Color) {
	if s.changed.has(key) || len(s.changed) == 0 && key == "ring" {
		return onEmber, ember
	}
	return onWall, ink
}

// span is a stretch of a wall or base [m].
type span struct{ lo, hi float64 }

// without is what is left of a stretch when the cuts are taken out.
func (s span) without(cuts []span) []span {
	sort.Slice(cuts, func(i, j int) bool { return cuts[i].lo < cuts[j].lo })
	var out []span
	at := s.lo
	for _, c := range cuts {
		if c.lo > at {
			out = append(out, span{at, math.Min(c.lo, s.hi)})
		}
		at = math.Max(at, c.hi)
		if at >= s.hi {
			return out
		}
	}
	if at < s.hi {
		out = append(out, span{at, s.hi})
	}
	return out
}

// wallCuts are the holes of a wall whose foot is at a height.
func (s *scene) wallCuts(on stove.Place, foot float64) (cuts []span) {
	for _, r := range s.d.Rows {
		if r.On == on && r.Count > 0 {
			half := r.Hole.Tall() / 2
			cuts = append(cuts, span{foot + r.Height - half, foot + r.Height + half})
		}
	}
	return cuts
}

// baseCuts are the holes of a base in the plane of the section.
func (s *scene) baseCuts(on stove.Place, bore float64) (cuts []span) {
	for _, r := range s.d.Rows {
		if r.On == on {
			cuts = append(cuts, rowCuts(r, bore)...)
		}
	}
	return cuts
}

// rowCuts are one base row's holes in the plane of the section, from left to
// right. A row on a circle shows one hole on either side, a field as many as a
// square field of that count has on its middle line, evenly spread.
func rowCuts(r stove.Row, bore float64) (cuts []span) {
	if r.Count <= 0 {
		return nil
	}
	half := r.Hole.Tall() / 2 // the width lies along the circumference
	switch {
	case r.Count == 1 && r.Circle == 0:
		return []span{{-half, half}}
	case r.Circle > 0:
		c := r.Circle / 2
		if r.Count > 1 {
			cuts = append(cuts, span{-c - half, -c + half})
		}
		return append(cuts, span{c - half, c + half})
	}
	n := math.Max(1, math.Min(60, math.Round(math.Sqrt(4*float64(r.Count)/math.Pi))))
	for i := 0.0; i < n; i++ {
		c := bore * ((i+0.5)/n - 0.5)
		cuts = append(cuts, span{c - half, c + half})
	}
	return cuts
}

// wall draws both sides of a round wall as the section cuts them.
func (s *scene) wall(key string, outside, sheet, foot, top float64, cuts []span) {
	layer, c := s.metal(key)
	for _, w := range (span{foot, top}).without(cuts) {
		s.solid(layer, s.x(-outside), s.y(w.lo), s.x(-outside+sheet), s.y(w.hi), c)
		s.solid(layer, s.x(outside-sheet), s.y(w.lo), s.x(outside), s.y(w.hi), c)
	}
}

// disc draws a flat round sheet as the section cuts it.
func (s *scene) disc(key string, outside, foot, sheet float64, cuts []span) {
	layer, c := s.metal(key)
	for _, w := range (span{-outside, outside}).without(cuts) {
		s.solid(layer, s.x(w.lo), s.y(foot), s.x(w.hi), s.y(foot+sheet), c)
	}
}

func (s *scene) can(key string, c stove.Can, base float64, body, floor stove.Place) {
	if c.Diameter == 0 || c.Height == 0 {
		return
	}
	s.begin(key)
	s.wall(key, c.Diameter/2, c.Wall, base, base+c.Height, s.wallCuts(body, base))
	if !c.OpenBase {
		s.disc(key, c.Diameter/2, base, c.Wall, s.baseCuts(floor, c.Bore()))
	}
	if c.Mouth > 0 && c.Mouth < c.Bore() {
		s.disc(key, c.Diameter/2, base+c.Height-c.Wall, c.Wall, []span{{-c.Mouth / 2, c.Mouth / 2}})
	}
	s.begin("")
}

// stoveParts draws every sheet of metal.
func (s *scene) stoveParts() {
	d := s.d
	if d.OuterCan != nil {
		s.can("outer_can", *d.OuterCan, s.outerBase, stove.OuterBody, stove.OuterBase)
		s.closure()
	}
	s.can("fuel_can", d.FuelCan, s.fuelBase, stove.FuelBody, stove.FuelBase)
	if r := d.Riser; r != nil && r.Bore > 0 && r.Height > 0 {
		s.begin("riser")
		s.wall("riser", r.Bore/2+r.Wall, r.Wall, s.onRing, s.riserTop, s.wallCuts(stove.RiserWall, s.onRing))
		s.begin("")
	}
	if st := d.Stand; st != nil && st.Diameter > 0 && st.Height > 0 {
		s.begin("stand")
		s.stand(st)
		s.begin("")
	}
	if r := d.Ring; r != nil {
		s.begin("ring")
		out := s.ringEdge()
		s.disc("ring", out, s.ring, r.Wall, []span{{-r.Bore / 2, r.Bore / 2}})
		s.begin("")
	}
	if d.Skirt != nil && s.c.Pot != nil && d.Skirt.Height > 0 {
		s.begin("skirt")
		s.wall("skirt", s.c.Pot.Diameter/2+d.Skirt.Gap, 0, s.potBase, s.potBase+d.Skirt.Height, nil)
		s.begin("")
	}
	for i, sh := range d.Shields {
		key := fmt.Sprintf("shield[%d]", i+1)
		s.begin(key)
		if foot, top := s.shieldSpan(); !sh.Under && s.shields[i] > 0 && top > foot {
			s.wall(key, s.shields[i], 0, foot, top, nil)
		} else if h, r, ok := s.underShield(sh); ok {
			s.disc(key, r, h, 0, nil)
		}
		s.begin("")
	}
}

// closure is the sheet that closes the annulus at the top, up to its open slot.
func (s *scene) closure() {
	o, f := s.d.OuterCan, s.d.FuelCan
	in, out := f.Diameter/2+s.d.Annulus, o.Bore()/2
	if in >= out || f.Diameter == 0 {
		return
	}
	h := math.Min(s.fuelRim, s.outerRim)
	s.begin("annulus")
	s.disc("annulus", out, h-math.Min(f.Wall, o.Wall), math.Min(f.Wall, o.Wall), []span{{-in, in}})
	s.begin("")
}

// ringEdge is the ring's outside, which a design does not give: to the edge
// of the can it lies on.
func (s *scene) ringEdge() float64 {
	r := s.d.FuelCan.Diameter / 2
	if o := s.d.OuterCan; o != nil && s.d.Annulus == 0 {
		if s.ring >= s.outerRim-1e-9 {
			r = math.Max(r, o.Diameter/2)
		}
	}
	return r
}

func (s *scene) stand(st *stove.Stand) {
	if st.Closed {
		s.wall("stand", st.Diameter/2, st.Wall, s.riserTop, s.standTop, s.wallCuts(stove.StandWall, s.riserTop))
		return
	}
	layer := onHidden
	if s.changed.has("stand") {
		layer = onEmber
	}
	// Legs: their number and form are not part of the design, so dotted lines
	// on the circle they stand on and a line for what the pot rests on.
	for _, r := range []float64{-st.Diameter / 2, st.Diameter / 2} {
		s.line(layer, s.x(r), s.y(s.riserTop), s.x(r), s.y(s.standTop))
	}
	s.line(layer, s.x(-st.Diameter/2), s.y(s.standTop), s.x(st.Diameter/2), s.y(s.standTop))
}

// shieldSpan is the height a shield round the body covers: the wall it shields.
func (s *scene) shieldSpan() (foot, top float64) {
	if s.d.OuterCan != nil {
		return s.outerBase, s.outerRim
	}
	return s.fuelBase, s.fuelRim
}

// underShield is where a shield under the base lies; false when there is no
// room for it above the ground or plate.
func (s *scene) underShield(sh stove.Shield) (h, r float64, ok bool) {
	base, r := s.fuelBase, s.d.FuelCan.Diameter/2
	if s.d.OuterCan != nil {
		base, r = s.outerBase, s.d.OuterCan.Diameter/2
	}
	h = base - sh.Gap
	return h, r, sh.Under && r > 0 && h >= s.plateTop
}

// hiddenHoles outlines the holes that lie behind the cut, where the section
// sees them: those of the fuel can inside it, those of the outer can where the
// fuel can does not stand before them.
func (s *scene) hiddenHoles() {
	for i, r := range s.d.Rows {
		if r.OnBase() || !s.cut(r) {
			continue
		}
		radius, foot := 0.0, 0.0
		_, tall, _ := s.d.Wall(r.On)
		switch r.On {
		case stove.FuelBody:
			radius, foot = s.d.FuelCan.Diameter/2, s.fuelBase
		case stove.OuterBody:
			if s.d.OuterCan != nil {
				radius, foot = s.d.OuterCan.Diameter/2, s.outerBase
			}
		case stove.RiserWall:
			if s.d.Riser != nil {
				radius, foot = s.d.Riser.Bore/2+s.d.Riser.Wall, s.onRing
			}
		case stove.StandWall:
			if s.d.Stand != nil && s.d.Stand.Closed {
				radius, foot = s.d.Stand.Diameter/2, s.riserTop
			}
		}
		// Holes that would run into each other on paper say nothing.
		pitch := 2 * math.Pi * radius / float64(r.Count) * s.k
		if radius == 0 || r.Hole.Width > radius || r.Count > 400 || r.Hole.Width*s.k < 0.8 || pitch < 1.2 {
			continue
		}
		s.begin(fmt.Sprintf("row[%d]", i+1))
		h := foot + r.Height
		for n := range r.Count {
			// One hole lies in the plane of the section; those behind it are seen.
			angle := 2 * math.Pi * float64(n) / float64(r.Count)
			if math.Sin(angle) < 0.35 {
				continue // seen so much from the side that it only clutters the cut
			}
			c := radius * math.Cos(angle)
			if r.On == stove.OuterBody && s.behindFuelCan(c, r.Hole.Width/2, h, r.Hole.Tall()/2) {
				continue
			}
			s.put(onHidden, s.outline(r.Hole, radius, angle, h, span{foot, foot + tall}))
		}
		s.begin("")
	}
}

func (s *scene) behindFuelCan(r, halfW, h, halfH float64) bool {
	return math.Abs(r)-halfW < s.d.FuelCan.Diameter/2 && h+halfH > s.fuelBase && h-halfH < s.fuelRim
}

// outline is a hole on a round wall seen from the axis's side, held within the
// wall: its points laid
// on the cylinder and looked at squarely.
func (s *scene) outline(o stove.Hole, radius, angle, h float64, wall span) drawing.Polyline {
	w, t := o.Width/2, o.Tall()/2
	var flat [][2]float64 // along the wall, up
	switch o.Shape {
	case stove.Rectangle:
		flat = [][2]float64{{-w, -t}, {w, -t}, {w, t}, {-w, t}}
	case stove.Triangle:
		flat = [][2]float64{{-w, -t}, {w, -t}, {0, t}}
	case stove.Slot:
		r := math.Min(w, t)
		for i := range 16 {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / 16)
			flat = append(flat, [2]float64{math.Copysign(w-r, cos) + r*cos, math.Copysign(t-r, sin) + r*sin})
		}
	default:
		for i := range 16 {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 16)
			flat = append(flat, [2]float64{w * cos, w * sin})
		}
	}
	p := drawing.Polyline{Closed: true}
	for _, f := range flat {
		p.Vertices = append(p.Vertices, drawing.Vertex{Point: s.at(radius*math.Cos(angle+f[0]/radius), math.Max(wall.lo, math.Min(wall.hi, h+f[1])))})
	}
	return p
}
