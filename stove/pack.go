package stove

import (
	"fmt"
	"math"
)

// Vessel is a round hollow thing to be packed: a can, a riser, a pot. Bore
// and Depth are of the room inside it; zero when nothing goes inside.
type Vessel struct {
	Name     string
	Diameter float64 // outside [m]
	Height   float64 // [m]
	Bore     float64 // of its narrowest opening [m]
	Depth    float64 // [m]
}

// Fit is one vessel that goes inside another.
type Fit struct {
	Inner, Outer string
	Clearance    float64 // left over in diameter [m]
	Proud        float64 // how far the inner stands out of the outer, 0 when it is swallowed [m]
}

// Packing is the smallest bundle found.
type Packing struct {
	Diameter float64  // [m]
	Height   float64  // [m]
	Inside   []string // "fuel can in outer can", one for each nesting
	Fits     []Fit    // every pair that fits
}

// clearance is the play in diameter a part needs to slip into another; two
// can sizes that differ by less jam on the side seam [judgement].
const clearance = 1e-3

// Vessels are the loose parts of the stove. The fuel can counts apart from
// the outer can even where a maker fixes one to the other.
func (d Design) Vessels() []Vessel {
	can := func(name string, c Can) Vessel {
		return Vessel{name, c.Diameter, c.Height, c.Opening(), c.Depth()}
	}
	v := []Vessel{can("fuel can", d.FuelCan)}
	if d.OuterCan != nil {
		v = append(v, can("outer can", *d.OuterCan))
	}
	if r := d.Ring; r != nil {
		rim := d.FuelCan.Diameter
		if d.OuterCan != nil {
			rim = math.Max(rim, d.OuterCan.Diameter)
		}
		v = append(v, Vessel{Name: "ring", Diameter: rim, Height: r.Wall})
	}
	if r := d.Riser; r != nil {
		v = append(v, Vessel{"riser", r.Bore + 2*r.Wall, r.Height, r.Bore, r.Height})
	}
	if s := d.Stand; s != nil && s.Closed {
		v = append(v, Vessel{"stand", s.Diameter, s.Height, s.Diameter - 2*s.Wall, s.Height})
	}
	return v
}

// Pack finds the smallest cylinder that holds the vessels, trying every way of
// putting one inside another (several may share one, end to end). Others lie
// end to end. Meant for a handful of parts: beyond seven it nests none.
func Pack(vessels ...Vessel) Packing {
	p := Packing{Fits: fits(vessels)}
	n := len(vessels)
	in := make([]int, n) // index of what holds it, -1 for none
	for i := range in {
		in[i] = -1
	}
	best := append([]int(nil), in...)
	p.Diameter, p.Height = bundle(vessels, best)
	if n > 7 {
		return p
	}
	var try func(i int)
	try = func(i int) {
		if i == n {
			if dia, h := bundle(vessels, in); h > 0 && dia*dia*h < p.Diameter*p.Diameter*p.Height*(1-1e-12) {
				p.Diameter, p.Height = dia, h
				copy(best, in)
			}
			return
		}
		for j := -1; j < n; j++ {
			if j >= 0 && !goes(vessels[i], vessels[j]) {
				continue
			}
			in[i] = j
			try(i + 1)
		}
		in[i] = -1
	}
	try(0)
	for i, j := range best {
		if j >= 0 {
			p.Inside = append(p.Inside, fmt.Sprintf("%s in %s", vessels[i].Name, vessels[j].Name))
		}
	}
	return p
}

func goes(inner, outer Vessel) bool {
	return outer.Depth > 0 && inner.Diameter < outer.Diameter && inner.Diameter+clearance <= outer.Bore
}

func fits(v []Vessel) []Fit {
	var out []Fit
	for i := range v {
		for j := range v {
			if i != j && goes(v[i], v[j]) {
				out = append(out, Fit{v[i].Name, v[j].Name, v[j].Bore - v[i].Diameter, math.Max(0, v[i].Height-v[j].Depth)})
			}
		}
	}
	return out
}

// bundle is the size of the whole when each vessel stands in what holds it.
// A vessel that goes inside is narrower than what holds it, so there are no
// circles.
func bundle(v []Vessel, in []int) (diameter, height float64) {
	var tall func(i int) float64
	tall = func(i int) float64 {
		inside := 0.0
		for j := range v {
			if in[j] == i {
				inside += tall(j)
			}
		}
		return math.Max(v[i].Height, v[i].Height-v[i].Depth+inside)
	}
	for i := range v {
		diameter = math.Max(diameter, v[i].Diameter)
		if in[i] < 0 {
			height += tall(i)
		}
	}
	return diameter, height
}
