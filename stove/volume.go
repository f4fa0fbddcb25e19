package stove

import "math"

// Brimful is the volume inside the fuel can from base to rim [m3].
func (d Design) Brimful() float64 { return d.VolumeTo(d.FuelCan.Depth()) }

// ToJets is the volume of fuel that comes up to the jets' lower edge [m3], or
// to the brim when there are no jets.
func (d Design) ToJets() float64 { return d.VolumeTo(d.FillLevel()) }

// VolumeTo is the volume inside the fuel can up to a height above its base,
// not beyond the rim [m3].
func (d Design) VolumeTo(level float64) float64 {
	return d.FuelCan.Area() * math.Max(0, math.Min(level, d.FuelCan.Depth()))
}

// DepthOf is the height above the base a volume fills [m]; it may lie beyond
// the rim.
func (d Design) DepthOf(volume float64) float64 {
	if a := d.FuelCan.Area(); a > 0 {
		return volume / a
	}
	return 0
}

// Stack is where the parts stand, as heights above the surface the stove
// stands on [m]. A part that is not there has the height of the part below.
type Stack struct {
	OuterFloor float64 // top face of the outer can's base
	FuelBase   float64 // lower face of the fuel can's base
	FuelRim    float64
	OuterRim   float64
	Ring       float64 // lower face of the ring
	RiserTop   float64
	StandTop   float64
	PotBase    float64
}

// Stack places the parts. Ring and stand heights count from the fuel can's
// rim as the design says; a riser stands on the ring, or on the rim.
func (d Design) Stack() Stack {
	var s Stack
	if o := d.OuterCan; o != nil {
		if !o.OpenBase {
			s.OuterFloor = o.Wall
		}
		s.OuterRim = o.Height
	}
	s.FuelBase = s.OuterFloor + d.Standoff
	s.FuelRim = s.FuelBase + d.FuelCan.Height
	s.Ring = s.FuelRim
	if d.Ring != nil {
		s.Ring += d.Ring.Height
	}
	s.RiserTop = s.Ring
	if d.Riser != nil {
		s.RiserTop += d.Riser.Height
	}
	s.StandTop = s.RiserTop
	s.PotBase = s.RiserTop
	if d.Stand != nil {
		s.StandTop += d.Stand.Height
		s.PotBase = s.StandTop + d.Stand.Gap
	}
	return s
}

// Height is the height of the whole stove without a pot [m].
func (d Design) Height() float64 {
	s := d.Stack()
	return math.Max(s.StandTop, s.OuterRim)
}

// Diameter is the widest diameter of the stove without plate and skirt [m].
func (d Design) Diameter() float64 {
	w := d.FuelCan.Diameter
	if d.OuterCan != nil {
		w = math.Max(w, d.OuterCan.Diameter)
	}
	if d.Riser != nil {
		w = math.Max(w, d.Riser.Bore+2*d.Riser.Wall)
	}
	if d.Stand != nil {
		w = math.Max(w, d.Stand.Diameter)
	}
	return w
}
