package stove

import "math"

// The developed lengths of a double seam, the folded joint between a can's
// body and its end. Seam length about 3 mm, depth of the end panel below the
// rim about 3.1 mm, hooks about 2 mm, seam thickness about 1.1 mm [memory:
// common seam data of three-piece food cans], so an end reaches
// 3.1 + 1.1 + 3.0 + 2.0 mm, less 0.3 mm, beyond the body's radius; and the
// body is folded over by a hook less half the height lost in the bend.
const (
	seamEnd  = 8.9e-3  // extra radius of the end's blank [m]
	seamBody = 1.75e-3 // extra height of the body's blank per seam [m]
)

// Load is a mass at a height above the surface the stove stands on.
type Load struct {
	Name   string
	Mass   float64 // [kg]
	Height float64 // of its centre of gravity [m]
}

// Weight is the empty stove's mass by parts.
type Weight struct {
	Parts      []Load
	NotCounted []string // parts whose sheet the drawing does not give
}

// Mass is the sum of the parts [kg].
func (w Weight) Mass() float64 {
	m, _ := Centre(w.Parts...)
	return m
}

// Centre is the total mass of loads and the height of their common centre of
// gravity [kg, m].
func Centre(loads ...Load) (mass, height float64) {
	moment := 0.0
	for _, l := range loads {
		mass += l.Mass
		moment += l.Mass * l.Height
	}
	if mass == 0 {
		return 0, 0
	}
	return mass, moment / mass
}

// Weigh is the empty stove's mass from the drawing: sheet area × thickness ×
// density, holes taken out, double seams of tinplate cans put in with both
// rims left on. Good to about 5 % where the thickness is known (tinplate is
// sold to ±5 % or worse [memory]); lacquer, side-seam overlap, screws and
// tabs are not in it.
func (d Design) Weigh() Weight {
	var w Weight
	s := d.Stack()
	w.can("fuel can", d.FuelCan, s.FuelBase, d, FuelBody, FuelBase)
	if d.OuterCan != nil {
		w.can("outer can", *d.OuterCan, 0, d, OuterBody, OuterBase)
	}
	if r := d.Ring; r != nil {
		rim := d.FuelCan.Diameter
		if d.OuterCan != nil {
			rim = math.Max(rim, d.OuterCan.Diameter)
		}
		w.add("ring", math.Max(0, disc(rim)-disc(r.Bore))*r.Wall*r.Metal.Density(), s.Ring)
	}
	if r := d.Riser; r != nil {
		side := math.Pi*(r.Bore+r.Wall)*r.Height - d.Area(RiserWall)
		w.add("riser", side*r.Wall*r.Metal.Density(), s.Ring+r.Height/2)
	}
	if st := d.Stand; st != nil {
		if st.Closed {
			side := math.Pi*(st.Diameter-st.Wall)*st.Height - d.Area(StandWall)
			w.add("stand", side*st.Wall*st.Metal.Density(), s.RiserTop+st.Height/2)
		} else {
			w.NotCounted = append(w.NotCounted, "stand (legs are not drawn)")
		}
	}
	if d.Skirt != nil {
		w.NotCounted = append(w.NotCounted, "skirt (sheet not given)")
	}
	if len(d.Shields) > 0 {
		w.NotCounted = append(w.NotCounted, "shields (sheet not given)")
	}
	return w
}

func (w *Weight) add(name string, mass, height float64) {
	w.Parts = append(w.Parts, Load{name, mass, height})
}

// can adds a can standing with its base at a height.
func (w *Weight) can(name string, c Can, at float64, d Design, body, base Place) {
	seamed := c.Metal == Tinplate
	side, end, rim := sheets(c, seamed)
	t := c.Wall * c.Metal.Density()
	w.add(name+" body", (side-d.Area(body))*t, at+c.Height/2)
	if seamed {
		w.add(name+" rim", rim*t, at+c.Height)
	}
	switch {
	case !c.OpenBase:
		w.add(name+" base", (end-d.Area(base))*t, at)
	case seamed:
		w.add(name+" lower rim", rim*t, at)
	}
}

// sheets are the areas of a can's body, of one end, and of what of an end
// stays in the seam when its panel is cut out [m2].
func sheets(c Can, seamed bool) (body, end, rim float64) {
	mid := c.Diameter - c.Wall
	if !seamed {
		return math.Pi * mid * c.Height, disc(c.Diameter), 0
	}
	end = disc(c.Diameter + 2*seamEnd)
	return math.Pi * mid * (c.Height + 2*seamBody), end, end - disc(c.Diameter)
}
