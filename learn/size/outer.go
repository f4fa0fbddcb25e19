package size

import (
	"math"

	"toplit/firing"
	"toplit/stove/catalogue"
)

// seamOver is how much the double seam stands out beyond a food can's body on
// both sides together [m]: 3.4 mm code to bore, less the sheet. What goes into
// another can is the seam, not the body.
const seamOver = 3e-3

// leastUnder is the least gap left under a fuel can in an outer can [m].
const leastUnder = 8e-3

// fits are the cans of the catalogue that take the fuel can with room for air
// round and below it, narrowest first.
func fits(f *firing.Firing) []catalogue.CanSize {
	c := f.Design.FuelCan
	var list []catalogue.CanSize
	for _, o := range catalogue.Cans() {
		opening := o.BodyInside
		if o.Mouth > 0 {
			opening = o.Mouth
		}
		if opening >= c.Diameter+seamOver && (o.BodyInside-c.Diameter)/2 >= rule(ruleAnnulus).Low && o.HeightOverall-o.Wall-c.Height >= leastUnder {
			list = append(list, o)
		}
	}
	return list
}

// under is the gap left under the fuel can [m] and how far its rim stands above
// the outer can's [m]: both rims level where the outer can is tall enough.
func under(f *firing.Firing) (standoff, proud float64) {
	o := f.Design.OuterCan
	if o == nil {
		return 0, 0
	}
	floor := o.Wall
	if o.OpenBase {
		floor = 0
	}
	level := math.Round((o.Height-floor-f.Design.FuelCan.Height)*1e4) / 1e4
	standoff = math.Max(level, 0.010)
	if level >= leastUnder {
		standoff = level
	}
	return standoff, math.Max(0, standoff-level)
}
