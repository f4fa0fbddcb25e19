package stove

import "math"

// Area is the open area of one hole as drawn [m2]: round πd²/4, triangle
// ½·base·height, slot (long − short)·short + π·short²/4 (round ends),
// rectangle width·height. A can punch that leaves its tongue in the opening
// passes less; the drawing knows nothing of tongues and burrs.
func (h Hole) Area() float64 {
	switch h.Shape {
	case Triangle:
		return h.Width * h.Height / 2
	case Rectangle:
		return h.Width * h.Height
	case Slot:
		long, short := math.Max(h.Width, h.Height), math.Min(h.Width, h.Height)
		return (long-short)*short + math.Pi/4*short*short
	default:
		return math.Pi / 4 * h.Width * h.Width
	}
}

// Perimeter is the length of the hole's edge [m]. A triangle is taken as
// isosceles.
func (h Hole) Perimeter() float64 {
	switch h.Shape {
	case Triangle:
		return h.Width + 2*math.Hypot(h.Width/2, h.Height)
	case Rectangle:
		return 2 * (h.Width + h.Height)
	case Slot:
		long, short := math.Max(h.Width, h.Height), math.Min(h.Width, h.Height)
		return 2*(long-short) + math.Pi*short
	default:
		return math.Pi * h.Width
	}
}

// Hydraulic is the hydraulic diameter 4·area/perimeter [m]: of a round hole
// its diameter, of any other the size that stands for it in a Reynolds number.
func (h Hole) Hydraulic() float64 {
	if p := h.Perimeter(); p > 0 {
		return 4 * h.Area() / p
	}
	return 0
}

// Tall is the extent of the hole up the wall [m].
func (h Hole) Tall() float64 {
	if h.Shape == Round || h.Shape == "" {
		return h.Width
	}
	return h.Height
}

// Narrow is the smaller extent of the hole [m].
func (h Hole) Narrow() float64 { return math.Min(h.Width, h.Tall()) }

// Area is the open area of the whole row as drawn [m2].
func (r Row) Area() float64 { return float64(r.Count) * r.Hole.Area() }

// OnBase says whether the row is cut in a base rather than in a wall.
func (r Row) OnBase() bool { return r.On == FuelBase || r.On == OuterBase }

// Bottom is the height of the row's lower edge above its part's base [m]; 0
// for a row in a base.
func (r Row) Bottom() float64 {
	if r.OnBase() {
		return 0
	}
	return r.Height - r.Hole.Tall()/2
}

// Top is the height of the row's upper edge above its part's base [m].
func (r Row) Top() float64 {
	if r.OnBase() {
		return 0
	}
	return r.Height + r.Hole.Tall()/2
}

// Places lists the sheets that may carry holes, in the order tables show them.
func Places() []Place {
	return []Place{FuelBase, FuelBody, OuterBase, OuterBody, RiserWall, StandWall}
}

// RowsOn are the indices into Rows of the rows cut in one sheet.
func (d Design) RowsOn(p Place) []int {
	var rows []int
	for i, r := range d.Rows {
		if r.On == p {
			rows = append(rows, i)
		}
	}
	return rows
}

// Area is the open area of all rows in one sheet as drawn [m2].
func (d Design) Area(p Place) float64 {
	sum := 0.0
	for _, r := range d.Rows {
		if r.On == p {
			sum += r.Area()
		}
	}
	return sum
}

// Holes is the number of holes in one sheet.
func (d Design) Holes(p Place) int {
	n := 0
	for _, r := range d.Rows {
		if r.On == p {
			n += r.Count
		}
	}
	return n
}
