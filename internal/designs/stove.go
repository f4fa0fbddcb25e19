package designs

import (
	"math"

	"toplit/stove"
)

// drawStove draws a geometry. Most drawings pass stove.Check as they are; the
// rest are thrown away and drawn anew.
func drawStove(d dice, s *stove.Design) {
	s.FuelCan = drawCan(d, d.length(0.060, 0.250), 0.8, 1.9)
	kind := d.Float64()
	switch {
	case kind < 0.06:
		drawReactor(d, s)
	case kind < 0.10:
		drawFanStove(d, s)
	default:
		if d.chance(0.58) {
			drawOuter(d, s)
		} else {
			s.Standoff = d.length(0.004, 0.05)
			if d.chance(0.3) {
				s.Lift = d.length(0.003, 0.05)
			}
		}
		drawPrimary(d, s)
		drawBody(d, s)
	}
	drawTop(d, s)
	drawBelow(d, s)
}

func drawCan(d dice, diameter, low, high float64) stove.Can {
	c := stove.Can{Diameter: diameter, Height: tenth(diameter * d.between(low, high)), Wall: tenth(d.between(0.19e-3, 0.30e-3))}
	c.Metal = stove.Tinplate
	c.Surface = pick(d, stove.Bright, stove.Melted, stove.Melted, stove.Oxidised)
	if d.chance(0.2) {
		c.Metal = pick(d, stove.MildSteel, stove.Stainless)
		c.Wall = tenth(d.between(0.4e-3, 1.0e-3))
		c.Surface = pick(d, stove.Bright, stove.Oxidised, stove.Painted)
	}
	c.Wall = max(c.Wall, 0.2e-3)
	return c
}

// drawReactor: a bore, a depth and measured air, as on a laboratory bench.
func drawReactor(d dice, s *stove.Design) {
	s.FuelCan.Wall = tenth(d.between(0.5e-3, 2e-3))
	s.FuelCan.Metal = pick(d, stove.MildSteel, stove.Stainless)
	s.FuelCan.Surface = stove.Oxidised
	s.Standoff = d.length(0.01, 0.05)
	s.Fan.Primary = d.between(0.02, 0.18) * s.FuelCan.Area()
	if d.chance(0.6) {
		s.Fan.Secondary = s.Fan.Primary * d.spread(0.7, 5)
	}
}

// drawFanStove: one of the two flows blown, the other drawn.
func drawFanStove(d dice, s *stove.Design) {
	s.Standoff = d.length(0.005, 0.03)
	if d.chance(0.5) {
		s.Fan.Primary = d.between(0.02, 0.12) * s.FuelCan.Area()
		drawBody(d, s)
		return
	}
	drawPrimary(d, s)
	s.Fan.Secondary = d.between(0.03, 0.3) * s.FuelCan.Area()
}

// drawOuter puts a can round the fuel can and lets air into it.
func drawOuter(d dice, s *stove.Design) {
	f := s.FuelCan
	wall := 0.25e-3
	gap := d.length(0.002, 0.025)
	o := stove.Can{Diameter: tenth(f.Diameter + 2*(gap+wall)), Wall: wall, Metal: stove.Tinplate}
	o.Surface = pick(d, stove.Bright, stove.Melted, stove.Oxidised)
	s.Standoff = d.length(0.004, 0.05)
	o.Height = tenth(f.Height + s.Standoff + wall)
	if d.chance(0.3) {
		o.Height = tenth(o.Height * d.between(0.6, 1.1))
	}
	s.OuterCan = &o
	if d.chance(0.12) {
		s.Annulus = tenth(min(gap, d.between(0.5e-3, 6e-3)))
	}
	if d.chance(0.3) {
		s.Lift = d.length(0.002, 0.04)
	}
	if d.chance(0.45) {
		s.OuterCan.OpenBase = true
		if d.chance(0.5) {
			if s.Lift == 0 {
				s.Lift = d.length(0.002, 0.04)
			}
			return // air comes in under the edge
		}
	} else if d.chance(0.2) && s.Lift > 0 {
		s.Rows = append(s.Rows, baseRow(d, o, stove.OuterBase, d.between(0.03, 0.2)))
		return
	}
	s.Rows = append(s.Rows, wallRow(d, o.Diameter, stove.OuterBody, d.spread(0.015, 0.25)*f.Area(), d.between(0.006, 0.35*o.Height)))
	if d.chance(0.2) {
		s.Rows = append(s.Rows, wallRow(d, o.Diameter, stove.OuterBody, d.spread(0.01, 0.05)*f.Area(), d.between(0.4, 0.8)*o.Height))
	}
}

// drawPrimary lets air into the fuel from below.
func drawPrimary(d dice, s *stove.Design) {
	if d.chance(0.08) {
		s.FuelCan.OpenBase = true // a grate or mesh
		return
	}
	if d.chance(0.10) { // low holes in the body in place of the base
		s.Rows = append(s.Rows, wallRow(d, s.FuelCan.Diameter, stove.FuelBody, d.spread(0.005, 0.04)*s.FuelCan.Area(), d.between(0.008, 0.02)))
		return
	}
	s.Rows = append(s.Rows, baseRow(d, s.FuelCan, stove.FuelBase, d.spread(0.006, 0.10)))
	if d.chance(0.15) {
		s.Rows = append(s.Rows, baseRow(d, s.FuelCan, stove.FuelBase, d.spread(0.004, 0.03)))
	}
}

// drawBody cuts none to four rows in the fuel can's body: mostly jets below
// the rim, sometimes holes half way up that the fuel covers at first.
func drawBody(d dice, s *stove.Design) {
	n := pick(d, 0, 1, 1, 1, 2, 2, 3, 4)
	h := s.FuelCan.Height
	for i := range n {
		z := h - d.length(0.009, 0.03)
		if i > 0 {
			z = d.between(0.15, 0.92) * h
		}
		s.Rows = append(s.Rows, wallRow(d, s.FuelCan.Diameter, stove.FuelBody, d.spread(0.012, 0.16)*s.FuelCan.Area()/float64(n), z))
	}
}

// wallRow is a row of about the area, at most as many holes as go round.
func wallRow(d dice, diameter float64, on stove.Place, area, height float64) stove.Row {
	r := stove.Row{Name: string(on), On: on, Height: tenth(height), Hole: drawHole(d, area), Edge: drawEdge(d)}
	metal := max(3e-3, r.Hole.Narrow()/2)
	most := int(math.Pi * diameter / (r.Hole.Width + metal))
	r.Count = max(1, min(int(math.Round(area/r.Hole.Area())), most))
	if d.chance(0.12) {
		r.Slant = d.between(-0.9, 0.9)
	}
	return r
}

func baseRow(d dice, c stove.Can, on stove.Place, share float64) stove.Row {
	area := share * c.Area()
	r := stove.Row{Name: string(on), On: on, Hole: drawHole(d, area), Edge: drawEdge(d)}
	r.Count = max(1, int(math.Round(area/r.Hole.Area())))
	if d.chance(0.4) {
		r.Circle = tenth(c.Bore() * d.between(0.3, 0.8))
	}
	return r
}

func drawHole(d dice, area float64) stove.Hole {
	w := d.length(0.002, 0.014)
	for w > 0.003 && math.Pi/4*w*w > area/3 { // at least about three holes
		w = tenth(w * 0.7)
	}
	switch {
	case d.chance(0.06):
		return stove.Hole{Shape: stove.Slot, Width: tenth(w * 1.5), Height: w}
	case d.chance(0.06):
		return stove.Hole{Shape: stove.Triangle, Width: w, Height: tenth(w * 1.2)}
	case d.chance(0.04):
		return stove.Hole{Shape: stove.Rectangle, Width: w, Height: tenth(w * d.between(0.5, 2))}
	}
	return stove.Hole{Shape: stove.Round, Width: w}
}

func drawEdge(d dice) stove.Edge {
	return pick(d, stove.Drilled, stove.Drilled, stove.Drilled, stove.PunchedIn, stove.PunchedOut)
}

// drawTop puts ring, riser, stand and skirt on. Every design gets a stand, so
// that a pot may stand on it.
func drawTop(d dice, s *stove.Design) {
	bore := s.FuelCan.Bore()
	sheet := func() float64 { return tenth(d.between(0.2e-3, 0.6e-3)) }
	if d.chance(0.5) {
		r := &stove.Ring{Bore: tenth(bore * d.between(0.4, 0.95)), Wall: sheet(), Metal: stove.Tinplate}
		if d.chance(0.25) {
			r.Slits = 4 + d.IntN(16)
			r.Slit = tenth(d.between(0.2, 0.9) * (bore - r.Bore) / 2)
			r.Twist = d.between(-1.2, 1.2)
		}
		if d.chance(0.2) {
			r.Height = d.length(0.001, 0.02)
		}
		s.Ring = r
	}
	if d.chance(0.15) {
		s.Riser = &stove.Riser{Bore: tenth(bore * d.between(0.5, 1.2)), Height: d.length(0.03, 0.35), Wall: sheet(), Metal: stove.Tinplate}
	}
	st := &stove.Stand{Diameter: tenth(bore * d.between(0.7, 1.2)), Height: d.length(0.02, 0.13), Wall: sheet(), Metal: pick(d, stove.Tinplate, stove.Stainless)}
	st.Closed = d.chance(0.6)
	st.Gap = d.length(0.003, 0.03)
	if !st.Closed {
		st.Gap = pick(d, 0, st.Gap)
	} else if d.chance(0.3) {
		st.Gap = pick(d, 0, st.Gap)
		s.Rows = append(s.Rows, wallRow(d, st.Diameter, stove.StandWall, d.spread(0.05, 0.4)*s.FuelCan.Area(), d.between(0.4, 0.8)*st.Height))
	}
	s.Stand = st
	if d.chance(0.15) {
		s.Skirt = &stove.Skirt{Gap: d.length(0.003, 0.02), Height: d.length(0.02, 0.12)}
	}
}

// drawBelow puts plate and shields under and round the stove.
func drawBelow(d dice, s *stove.Design) {
	if d.chance(0.35) {
		s.Plate = &stove.Plate{
			Material: pick(d, "steel plate", "tile", "brick", "dry packed sand"), Thickness: d.length(0.5e-3, 0.04),
			Gap: pick(d, 0, d.length(0.001, 0.03)), Diameter: tenth(s.Diameter() * d.between(0.8, 2)),
		}
	}
	for range pick(d, 0, 0, 0, 0, 1, 2) {
		s.Shields = append(s.Shields, stove.Shield{Under: d.chance(0.6), Gap: d.length(0.003, 0.03)})
	}
}
