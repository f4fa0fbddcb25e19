package stove

import "math"

// Area is the area inside the can's body [m2].
func (c Can) Area() float64 { return disc(c.Bore()) }

// Opening is the diameter of the can's open top: its mouth when the top is
// narrower than the body, else the bore [m].
func (c Can) Opening() float64 {
	if c.Mouth > 0 {
		return c.Mouth
	}
	return c.Bore()
}

// Depth is the height inside from the base sheet to the rim [m]. The base of
// a seamed can lies a few millimetres above its lowest edge, which the
// drawing leaves out: a measured brim-full volume is 2–4 % smaller.
func (c Can) Depth() float64 {
	if c.OpenBase {
		return c.Height
	}
	return c.Height - c.Wall
}

// AnnulusGap is the width of the space between the two cans [m], 0 without an
// outer can; negative when the fuel can does not fit.
func (d Design) AnnulusGap() float64 {
	if d.OuterCan == nil {
		return 0
	}
	return (d.OuterCan.Bore() - d.FuelCan.Diameter) / 2
}

// AnnulusArea is the cross-section of that space [m2].
func (d Design) AnnulusArea() float64 {
	if d.OuterCan == nil || d.AnnulusGap() <= 0 {
		return 0
	}
	return disc(d.OuterCan.Bore()) - disc(d.FuelCan.Diameter)
}

// TopSlotArea is the area of the open slot of width Annulus round the fuel
// can's rim [m2].
func (d Design) TopSlotArea() float64 {
	if d.Annulus <= 0 {
		return 0
	}
	return disc(d.FuelCan.Diameter+2*d.Annulus) - disc(d.FuelCan.Diameter)
}

// Area is the area of the ring's central opening [m2].
func (r Ring) Area() float64 { return disc(r.Bore) }

// Open is the ring's open area with its slits: the bore plus what the tongues
// between the slits leave free when each is turned by Twist about its radial
// mid-line, (1 − cos twist) of the ring-shaped strip they fill [m2].
func (r Ring) Open() float64 {
	if r.Slits <= 0 || r.Slit <= 0 {
		return r.Area()
	}
	return r.Area() + (1-math.Cos(r.Twist))*(disc(r.Bore+2*r.Slit)-r.Area())
}

// RingToBore is the ring's bore over the fuel can's, by diameter and by area;
// 1 and 1 without a ring.
func (d Design) RingToBore() (diameter, area float64) {
	bore := d.FuelCan.Bore()
	if d.Ring == nil || bore <= 0 {
		return 1, 1
	}
	r := d.Ring.Bore / bore
	return r, r * r
}

// RowToBore is the open area of one row over the area of the fuel can's bore.
func (d Design) RowToBore(r Row) float64 {
	if a := d.FuelCan.Area(); a > 0 {
		return r.Area() / a
	}
	return 0
}

// JetLevel is the height above the fuel can's base of the lower edge of the
// jets [m]: the lowest row in the upper third of the fuel can's body, else
// the highest row in its upper half. This names the jets on a drawing only;
// what a row does in a burn follows from the burn. False when there is none.
func (d Design) JetLevel() (float64, bool) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range d.Rows {
		if r.On != FuelBody || r.Count <= 0 {
			continue
		}
		if r.Height > d.FuelCan.Height*2/3 {
			low = math.Min(low, r.Bottom())
		}
		if r.Height > d.FuelCan.Height/2 {
			high = math.Max(high, r.Bottom())
		}
	}
	switch {
	case !math.IsInf(low, 1):
		return low, true
	case !math.IsInf(high, -1):
		return high, true
	}
	return 0, false
}

// FillLevel is the height the fuel is drawn to when no charge is known [m]:
// the jets' lower edge, else the brim.
func (d Design) FillLevel() float64 {
	if level, ok := d.JetLevel(); ok {
		return level
	}
	return d.FuelCan.Depth()
}

// Primary is the open area as drawn of the holes into the fuel can below a
// fuel level [m2]: its base and the body rows whose centre is not above the
// level. An open base counts by its whole bore.
func (d Design) Primary(level float64) float64 {
	sum := d.Area(FuelBase)
	if d.FuelCan.OpenBase {
		sum = d.FuelCan.Area()
	}
	for _, r := range d.Rows {
		if r.On == FuelBody && r.Height <= level {
			sum += r.Area()
		}
	}
	return sum
}

// Secondary is the open area as drawn of the holes into the fuel can above a
// fuel level, and of the slot round its rim [m2].
func (d Design) Secondary(level float64) float64 {
	sum := d.TopSlotArea()
	for _, r := range d.Rows {
		if r.On == FuelBody && r.Height > level {
			sum += r.Area()
		}
	}
	return sum
}

// SecondaryToPrimary is the ratio of those two areas; false when either is
// missing or a fan sets the flow.
func (d Design) SecondaryToPrimary(level float64) (float64, bool) {
	p, s := d.Primary(level), d.Secondary(level)
	if p <= 0 || s <= 0 || d.Fan != (Fan{}) {
		return 0, false
	}
	return s / p, true
}

// Inlet is the open area of the outer can for air as drawn [m2]: its rows and
// an open base.
func (d Design) Inlet() float64 {
	if d.OuterCan == nil {
		return 0
	}
	sum := d.Area(OuterBody) + d.Area(OuterBase)
	if d.OuterCan.OpenBase {
		sum = d.Area(OuterBody) + d.OuterCan.Area()
	}
	return sum
}

// Curtain is the area of the gap under the fuel can through which air reaches
// its base, π·diameter·standoff [m2].
func (d Design) Curtain() float64 { return math.Pi * d.FuelCan.Diameter * d.Standoff }

func disc(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
