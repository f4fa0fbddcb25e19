package stove

import (
	"fmt"
	"math"
)

// Spacing rules [judgement; tables of sheet-metal practice give thickness
// rules that do not bind at 0.2 mm sheet].
const (
	ligamentLeast = 3e-3 // metal left between two holes, or half the hole if that is more [m]
	marginLeast   = 5e-3 // from a hole to a seam, bead, rim or base [m]
	gapTight      = 3e-3 // annulus or standoff below this chokes or clogs [m]
	gapWide       = 2e-2 // annulus wider than this lets cold air through [m]
)

// Check looks for what would keep the drawn stove from working or make it
// unsafe, whatever it is fired with. The zero value of a part is "not there".
// An empty result does not mean that a stove is safe: burn outdoors only and
// follow local fire rules.
func Check(d Design) []Finding {
	c := &checker{d: d}
	if c.sizes() {
		c.fit()
		c.rows()
		c.ways()
		c.top()
	}
	c.metals()
	return c.out
}

type checker struct {
	d   Design
	out []Finding
}

func (c *checker) add(s Severity, key, value, text, accept string) {
	c.out = append(c.out, Finding{s, key, value, text, accept})
}

// sizes reports lengths that are no lengths; false when the rest of the
// checks would make no sense.
func (c *checker) sizes() bool {
	d := c.d
	before := len(c.out)
	positive := func(key string, v float64) {
		if !(v > 0) || math.IsInf(v, 0) {
			c.add(Error, key, mm(v), "not a length", "more than 0 mm")
		}
	}
	notNegative := func(key string, v float64) {
		if !(v >= 0) || math.IsInf(v, 0) {
			c.add(Error, key, mm(v), "not a length", "0 mm or more")
		}
	}
	can := func(key string, k Can) {
		positive(key+".diameter", k.Diameter)
		positive(key+".height", k.Height)
		positive(key+".wall", k.Wall)
		notNegative(key+".mouth", k.Mouth)
		if k.Bore() <= 0 && k.Diameter > 0 {
			c.add(Error, key+".wall", mm(k.Wall), fmt.Sprintf("leaves no bore in a can of %s", mm(k.Diameter)), "0.1 mm to 2 mm")
		}
		if k.Mouth > k.Diameter {
			c.add(Error, key+".mouth", mm(k.Mouth), "wider than the can", "up to "+mm(k.Diameter))
		}
	}
	can("fuel_can", d.FuelCan)
	if d.OuterCan != nil {
		can("outer_can", *d.OuterCan)
	}
	notNegative("standoff", d.Standoff)
	notNegative("lift", d.Lift)
	notNegative("annulus", d.Annulus)
	if r := d.Ring; r != nil {
		positive("ring.bore", r.Bore)
		positive("ring.wall", r.Wall)
		notNegative("ring.height", r.Height)
		notNegative("ring.slit", r.Slit)
		if r.Slits < 0 {
			c.add(Error, "ring.slits", fmt.Sprint(r.Slits), "not a number of slits", "0 or more")
		}
	}
	if r := d.Riser; r != nil {
		positive("riser.bore", r.Bore)
		positive("riser.height", r.Height)
		positive("riser.wall", r.Wall)
	}
	if s := d.Stand; s != nil {
		positive("stand.diameter", s.Diameter)
		positive("stand.height", s.Height)
		notNegative("stand.gap", s.Gap)
		if s.Closed {
			positive("stand.wall", s.Wall)
		}
	}
	if s := d.Skirt; s != nil {
		notNegative("skirt.gap", s.Gap)
		positive("skirt.height", s.Height)
	}
	for i, s := range d.Shields {
		notNegative(fmt.Sprintf("shield[%d].gap", i+1), s.Gap)
	}
	if p := d.Plate; p != nil {
		positive("plate.thickness", p.Thickness)
		notNegative("plate.gap", p.Gap)
		positive("plate.diameter", p.Diameter)
	}
	for i, r := range d.Rows {
		key := fmt.Sprintf("row[%d]", i+1)
		if r.Count <= 0 {
			c.add(Error, key+".count", fmt.Sprint(r.Count), "not a number of holes", "1 or more")
		}
		positive(key+".hole", r.Hole.Width)
		if r.Hole.Shape != Round && r.Hole.Shape != "" {
			positive(key+".hole", r.Hole.Height)
		}
		if !r.OnBase() {
			positive(key+".height", r.Height)
		}
		notNegative(key+".circle", r.Circle)
		if !(math.Abs(r.Slant) < math.Pi/2) {
			c.add(Error, key+".slant", decimal(r.Slant*180/math.Pi, 1)+"°", "not a slant from radial", "-80° to 80°")
		}
	}
	flow := func(key string, v float64) {
		if !(v >= 0) || math.IsInf(v, 0) {
			c.add(Error, key, decimal(v*1e3, 3)+" g/s", "not an air flow", "0 g/s or more")
		}
	}
	flow("fan.primary", d.Fan.Primary)
	flow("fan.secondary", d.Fan.Secondary)
	return len(c.out) == before
}

// fit checks that the cans go into one another and that the gaps work.
func (c *checker) fit() {
	d := c.d
	if o := d.OuterCan; o != nil {
		gap := d.AnnulusGap()
		switch {
		case gap <= 0:
			c.add(Error, "fuel_can.diameter", mm(d.FuelCan.Diameter), fmt.Sprintf("the fuel can does not fit in the outer can, whose bore is %s", mm(o.Bore())), "less than "+mm(o.Bore()-2*gapTight))
		case gap < gapTight:
			c.add(Warning, "outer_can.diameter", mm(o.Diameter), fmt.Sprintf("the annulus is only %s wide and throttles the secondary air", mm(gap)), "a gap of 5 mm to 13 mm is common practice")
		case gap > gapWide:
			c.add(Note, "outer_can.diameter", mm(o.Diameter), fmt.Sprintf("the annulus is %s wide: part of the air passes through it without being warmed", mm(gap)), "")
		}
		if gap > 0 && o.Opening() < d.FuelCan.Diameter {
			c.add(Error, "outer_can.mouth", mm(o.Opening()), fmt.Sprintf("the fuel can of %s does not pass the outer can's opening", mm(d.FuelCan.Diameter)), "at least "+mm(d.FuelCan.Diameter))
		}
		if s := d.Stack(); s.FuelRim < s.OuterRim-d.FuelCan.Height/2 {
			c.add(Warning, "standoff", mm(d.Standoff), fmt.Sprintf("the fuel can's rim stands %s below the outer can's rim", mm(s.OuterRim-s.FuelRim)), fmt.Sprintf("%s puts the rims level", mm(math.Max(0, o.Height-s.OuterFloor-d.FuelCan.Height))))
		}
		if d.Annulus > 0 && d.Annulus > gap+1e-9 {
			c.add(Error, "annulus", mm(d.Annulus), fmt.Sprintf("the open slot is wider than the space between the cans, %s", mm(math.Max(gap, 0))), "0 mm to "+mm(math.Max(gap, 0)))
		}
	} else if d.Annulus > 0 {
		c.add(Error, "annulus", mm(d.Annulus), "there is no outer can to leave a slot to", "0 mm, or an [outer_can]")
	}
	holes := d.Area(FuelBase)
	if d.FuelCan.OpenBase {
		holes = d.FuelCan.Area()
	}
	if holes > 0 && d.Fan.Primary == 0 {
		switch {
		case d.Standoff == 0:
			c.add(Error, "standoff", mm(0), "the can stands flat and closes the holes in its base", "5 mm or more")
		case d.Curtain() < holes:
			c.add(Warning, "standoff", mm(d.Standoff), fmt.Sprintf("the gap under the can opens %s, less than the %s of holes above it", mm2(d.Curtain()), mm2(holes)), "more than "+mm(holes/(math.Pi*d.FuelCan.Diameter)))
		case d.Standoff < gapTight:
			c.add(Warning, "standoff", mm(d.Standoff), "a gap this small clogs with ash and grit", mm(gapTight)+" or more")
		}
	}
	if !d.FuelCan.OpenBase {
		return
	}
	if n := d.Holes(FuelBase); n > 0 {
		c.add(Error, "fuel_can.open_base", "true", fmt.Sprintf("the base is cut out but %d holes are drawn in it", n), "false, or no rows on the fuel can base")
	}
}

// ways checks that primary air gets in and that the area ratio is no slip.
func (c *checker) ways() {
	d := c.d
	level := d.FillLevel()
	primary := d.Primary(level)
	if primary == 0 && d.Fan.Primary == 0 {
		c.add(Error, "row", "", "no path for primary air: no hole in the fuel can's base or low in its body, and no fan", `a [[row]] on = "fuel can base", fuel_can.open_base = true, or fan.primary`)
	}
	if d.OuterCan != nil && d.Fan == (Fan{}) {
		in, out := d.Inlet(), primary+d.Secondary(level)
		switch {
		case in == 0 && d.Annulus == 0 && out > 0:
			c.add(Error, "outer_can", "", "closed: no air reaches the holes of the fuel can inside it", `a [[row]] on = "outer can body" or "outer can base", or outer_can.open_base = true`)
		case in > 0 && in < out/2:
			c.add(Warning, "outer_can", mm2(in), fmt.Sprintf("its inlets are less than half of the %s of holes in the fuel can, so they throttle the fire", mm2(out)), "about as much inlet as holes, or more")
		}
		if o := d.OuterCan; o.OpenBase && d.Holes(OuterBase) > 0 {
			c.add(Error, "outer_can.open_base", "true", fmt.Sprintf("the base is cut out but %d holes are drawn in it", d.Holes(OuterBase)), "false, or no rows on the outer can base")
		}
	}
	if r, ok := d.SecondaryToPrimary(level); ok && (r < 0.3 || r > 30) {
		c.add(Warning, "row", decimal(r, 3), fmt.Sprintf("secondary to primary hole area (%s to %s) looks like a slipped decimal in a hole size or count", mm2(d.Secondary(level)), mm2(primary)), "0.3 to 30; can stoves in print have 0.5 to 5")
	}
}

// top checks ring, riser and stand: what the gas leaves through.
func (c *checker) top() {
	d := c.d
	bore := d.FuelCan.Bore()
	if r := d.Ring; r != nil {
		rim := d.FuelCan.Diameter
		if d.OuterCan != nil {
			rim = math.Max(rim, d.OuterCan.Diameter)
		}
		switch {
		case r.Bore >= rim:
			c.add(Error, "ring.bore", mm(r.Bore), fmt.Sprintf("the opening is wider than the can of %s it lies on", mm(rim)), "less than "+mm(bore))
		case r.Bore >= bore:
			c.add(Warning, "ring.bore", mm(r.Bore), fmt.Sprintf("no smaller than the fuel can's bore of %s, so it narrows nothing", mm(bore)), fmt.Sprintf("0.6 to 0.75 of the bore is common practice: %s to %s", mm(0.6*bore), mm(0.75*bore)))
		case r.Bore < 0.3*bore:
			c.add(Warning, "ring.bore", mm(r.Bore), "so small that it may put the flame out", fmt.Sprintf("0.6 to 0.75 of the bore is common practice: %s to %s", mm(0.6*bore), mm(0.75*bore)))
		}
		if r.Slits > 0 && r.Bore/2+r.Slit > rim/2-marginLeast {
			c.add(Error, "ring.slit", mm(r.Slit), "the slits run into the ring's edge", "up to "+mm(math.Max(0, rim/2-marginLeast-r.Bore/2)))
		}
	}
	if r := d.Riser; r != nil && r.Bore < 0.3*bore {
		c.add(Warning, "riser.bore", mm(r.Bore), "so narrow that it may choke the fire", "at least the ring's bore")
	}
	if m := d.FuelCan.Mouth; m > 0 && m < 0.3*bore {
		c.add(Warning, "fuel_can.mouth", mm(m), "so small that gas, flame and fuel hardly pass", "0.6 of the bore or more: "+mm(0.6*bore))
	}
	if s := d.Stand; s != nil {
		windows := d.Area(StandWall)
		if s.Closed && s.Gap == 0 && windows == 0 {
			c.add(Error, "stand.gap", mm(0), "no way out for the gas: a closed stand with no gap under the pot and no holes in its wall", `10 mm or more, or a [[row]] on = "stand wall"`)
		}
		if s.Closed && s.Gap > 0 && windows == 0 {
			if out, need := math.Pi*s.Diameter*s.Gap, d.outlet(); out < need/2 {
				c.add(Warning, "stand.gap", mm(s.Gap), fmt.Sprintf("the slot under the pot opens %s, less than half of the %s below it", mm2(out), mm2(need)), "more than "+mm(need/(math.Pi*s.Diameter)))
			}
		}
		if !s.Closed && s.Height < 5e-3 {
			c.add(Error, "stand.height", mm(s.Height), "no way out for the gas under a pot", "10 mm or more")
		}
	}
	for _, p := range []struct {
		place Place
		there bool
		part  string
	}{
		{OuterBody, d.OuterCan != nil, "[outer_can]"}, {OuterBase, d.OuterCan != nil, "[outer_can]"},
		{RiserWall, d.Riser != nil, "[riser]"}, {StandWall, d.Stand != nil && d.Stand.Closed, "closed [stand]"},
	} {
		if p.there {
			continue
		}
		for _, i := range d.RowsOn(p.place) {
			c.add(Error, fmt.Sprintf("row[%d].on", i+1), string(p.place), "the design has no such sheet", "a "+p.part+", or another sheet")
		}
	}
}

// outlet is the smallest opening the gas passes below the stand [m2].
func (d Design) outlet() float64 {
	a := disc(d.FuelCan.Opening())
	if d.Ring != nil {
		a = math.Min(a, d.Ring.Open())
	}
	if d.Riser != nil {
		a = math.Min(a, disc(d.Riser.Bore))
	}
	return a
}
