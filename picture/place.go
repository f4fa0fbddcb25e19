package picture

import (
	"math"

	"toplit/firing"
	"toplit/stove"
)

// Density of water at 20 °C, for the level in the pot (998.2 kg/m3; common
// handbook value) [kg/m3].
const waterDensity = 998.2

// potSheet is the thickness a pot is drawn with, which no design gives [m].
const potSheet = 0.8e-3

// plateReach is how far beyond the stove's half width a plate is drawn.
const plateReach = 1.2

// place is where everything stands: heights above the ground and half widths
// of the section [m]. Lengths a design cannot mean (not finite, negative) are
// taken as not given.
type place struct {
	d stove.Design
	c firing.Conditions

	plateTop   float64 // 0 without a plate
	support    float64 // what the stove's own heights count from
	outerBase  float64 // lower edge of the outer can
	outerRim   float64
	outerFloor float64 // upper face of the outer can's base
	fuelBase   float64 // lower face of the fuel can's base
	fuelFloor  float64 // its upper face
	fuelRim    float64
	ring       float64 // lower face
	onRing     float64 // where a riser or stand begins
	riserTop   float64
	standTop   float64
	potBase    float64
	potTop     float64
	top        float64 // of everything

	level      float64 // of the fuel, from the fuel can's floor; 0 for none
	levelKnown bool    // the charge's depth can be worked out
	heaped     bool    // more than the can holds
	water      float64 // depth in the pot
	overfull   bool    // more than the pot holds

	half     float64   // half the widest part, ground and plate left out
	halfWide float64   // the same with the plate
	shields  []float64 // half width of each shield, 0 for one under the base
}

// length is v as a length: 0 when it cannot be one.
func length(v float64) float64 {
	if v > 0 && v < 1e3 {
		return v
	}
	return 0
}

func cleanCan(c stove.Can) stove.Can {
	c.Diameter, c.Height = length(c.Diameter), length(c.Height)
	c.Wall = math.Min(length(c.Wall), math.Min(c.Diameter/2, c.Height))
	c.Mouth = math.Min(length(c.Mouth), c.Diameter)
	return c
}

// clean copies the design with every length usable.
func clean(d stove.Design) stove.Design {
	d.FuelCan = cleanCan(d.FuelCan)
	if d.OuterCan != nil {
		o := cleanCan(*d.OuterCan)
		d.OuterCan = &o
	}
	d.Standoff, d.Annulus, d.Lift = length(d.Standoff), length(d.Annulus), length(d.Lift)
	rows := make([]stove.Row, 0, len(d.Rows))
	for _, r := range d.Rows {
		r.Height, r.Circle = length(r.Height), length(r.Circle)
		r.Hole.Width, r.Hole.Height = length(r.Hole.Width), length(r.Hole.Height)
		r.Count = max(r.Count, 0)
		rows = append(rows, r)
	}
	d.Rows = rows
	if d.Ring != nil {
		r := *d.Ring
		r.Bore, r.Wall, r.Height, r.Slit = length(r.Bore), length(r.Wall), length(r.Height), length(r.Slit)
		if !isNumber(r.Twist) {
			r.Twist = 0
		}
		d.Ring = &r
	}
	if d.Riser != nil {
		r := *d.Riser
		r.Bore, r.Wall, r.Height = length(r.Bore), length(r.Wall), length(r.Height)
		d.Riser = &r
	}
	if d.Stand != nil {
		s := *d.Stand
		s.Diameter, s.Height, s.Gap = length(s.Diameter), length(s.Height), length(s.Gap)
		s.Wall = math.Min(length(s.Wall), s.Diameter/2)
		d.Stand = &s
	}
	if d.Skirt != nil {
		s := stove.Skirt{Gap: length(d.Skirt.Gap), Height: length(d.Skirt.Height)}
		d.Skirt = &s
	}
	shields := make([]stove.Shield, 0, len(d.Shields))
	for _, s := range d.Shields {
		s.Gap = length(s.Gap)
		shields = append(shields, s)
	}
	d.Shields = shields
	if d.Plate != nil {
		p := *d.Plate
		p.Thickness, p.Gap, p.Diameter = length(p.Thickness), length(p.Gap), length(p.Diameter)
		d.Plate = &p
	}
	return d
}

func cleanConditions(c firing.Conditions) firing.Conditions {
	if c.Pot != nil {
		p := *c.Pot
		p.Diameter, p.Height = length(p.Diameter), length(p.Height)
		c.Pot = &p
	}
	if !(c.Water.Mass > 0) || math.IsInf(c.Water.Mass, 0) {
		c.Water.Mass = 0
	}
	return c
}

// locate places the parts.
func locate(d stove.Design, c firing.Conditions) *place {
	d, c = clean(d), cleanConditions(c)
	p := &place{d: d, c: c}
	if d.Plate != nil {
		p.plateTop = d.Plate.Thickness
		p.support = p.plateTop + d.Plate.Gap
	}
	s := d.Stack()
	p.support += d.Lift
	at := func(h float64) float64 { return p.support + h }
	p.fuelBase, p.fuelRim = at(s.FuelBase), at(s.FuelRim)
	p.fuelFloor = p.fuelBase
	if !d.FuelCan.OpenBase {
		p.fuelFloor += d.FuelCan.Wall
	}
	if o := d.OuterCan; o != nil {
		p.outerRim, p.outerFloor = at(s.OuterRim), at(s.OuterFloor)
		p.outerBase = p.outerRim - o.Height
	}
	p.ring, p.riserTop, p.standTop, p.potBase = at(s.Ring), at(s.RiserTop), at(s.StandTop), at(s.PotBase)
	p.onRing = p.ring
	p.top = math.Max(math.Max(p.standTop, p.fuelRim), p.outerRim)
	if d.Ring != nil {
		p.top = math.Max(p.top, p.ring+d.Ring.Wall)
	}
	p.half = d.Diameter() / 2
	if c.Pot != nil {
		p.potTop = p.potBase + c.Pot.Height
		p.top = math.Max(p.top, p.potTop+lidRoom(c.Pot))
		p.half = math.Max(p.half, lidReach*c.Pot.Diameter/2)
		if d.Skirt != nil {
			p.half = math.Max(p.half, c.Pot.Diameter/2+d.Skirt.Gap)
			p.top = math.Max(p.top, p.potBase+d.Skirt.Height)
		}
		p.fillPot()
	}
	p.fillFuel()
	body := d.FuelCan.Diameter / 2
	if d.OuterCan != nil {
		body = math.Max(body, d.OuterCan.Diameter/2)
	}
	for _, sh := range d.Shields {
		r := 0.0
		if !sh.Under {
			r = body + sh.Gap
			p.half = math.Max(p.half, r)
		}
		p.shields = append(p.shields, r)
	}
	p.halfWide = p.half
	if d.Plate != nil {
		// A plate much wider than the stove is drawn broken off.
		wide := plateReach * p.half
		if r := d.Plate.Diameter / 2; r > 0 && r < 1.15*wide {
			wide = r
		}
		p.halfWide = math.Max(p.halfWide, wide)
	}
	return p
}

func (p *place) fillFuel() {
	c, can := p.c, p.d.FuelCan
	area := math.Pi / 4 * can.Bore() * can.Bore()
	if area <= 0 {
		return
	}
	switch {
	case length(c.Charge.Depth) > 0:
		p.level = c.Charge.Depth
	case c.Charge.Volume > 0:
		p.level = c.Charge.Volume / area
	case c.Charge.Mass > 0 && c.Fuel.BulkDensity > 0:
		p.level = c.Charge.Mass / c.Fuel.BulkDensity / area
	default:
		p.levelKnown = c.Charge.Mass == 0
		return
	}
	p.levelKnown = true
	room := math.Max(0, p.fuelRim-p.fuelFloor)
	if !(p.level <= room) { // also when not a number
		p.level, p.heaped = room, true
	}
}

func (p *place) fillPot() {
	pot, m := p.c.Pot, p.c.Water.Mass
	inside := pot.Diameter - 2*potSheet
	if m <= 0 || inside <= 0 {
		return
	}
	p.water = m / waterDensity / (math.Pi / 4 * inside * inside)
	if room := math.Max(0, pot.Height-potSheet); p.water > room {
		p.water, p.overfull = room, true
	}
}

// lidReach is how far a lid reaches over the pot as drawn.
const lidReach = 1.03

// lidRoom is how far a lid's knob stands above the pot as drawn [m].
func lidRoom(p *firing.Pot) float64 {
	if p.Lid {
		return 0.08 * p.Diameter
	}
	return 0
}
