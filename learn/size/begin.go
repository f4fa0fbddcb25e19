package size

import (
	"math"

	"toplit/physics/air"
	"toplit/physics/bed"
	"toplit/physics/fuel"
)

// first is where the search begins: the middle of the shop rules, the primary
// area by the trade's formula where a boil time is wished, the jets by the
// excess air that is wanted.
func (s *space) first() choice {
	d, w := s.base.Design, s.wish
	bore := d.FuelCan.Area()
	r := rule(rulePrimary)
	primary := 0.035 * bore
	a := s.base.Conditions.Air
	rho := air.State{T: a.Temperature, P: a.Pressure, RH: a.Humidity}.Density()
	if s.boils() && w.BoilIn > 0 {
		primary = math.Min(math.Max(guess(s.heatNeeded()/w.BoilIn, s.fuel, rho), r.Low*bore), r.High*bore)
	}
	x := fuel.DryBasis(s.fuel.Moisture)
	const yield = 0.2
	need := s.fuel.Analysis.AirDemand() - yield*fuel.StoveChar().AirDemand()
	jets := primary * SecondaryRatio(rule(ruleAir).Mid(), bed.AirFuel(bed.AirNeed, x), need)
	jets = math.Max(jets, rule(ruleSecondary).Low*bore)

	c := choice{ring: nearest(s.rings, rule(ruleRing).Mid()*d.FuelCan.Bore())}
	if s.pot {
		c.gap = nearest(s.gaps, 0.012)
		c.top = nearest(s.heights, 0.06)
	} else {
		c.top = nearest(s.heights, 0.12)
	}
	if !s.given {
		c.charge = nearest(s.charges, s.chargeGuess())
	}
	best := math.Inf(1)
	for pd := range s.primaryDrills {
		for pc := range s.counts {
			n := c
			n.pd, n.pc = pd, pc
			off := math.Abs(math.Log(s.primaryArea(n)/primary)) + 0.02*math.Abs(float64(s.counts[pc])-12)
			if off >= best {
				continue
			}
			if j, ok := s.jetsFor(n, jets); ok {
				best, c.pd, c.pc, c.jd, c.jc = off, pd, pc, j.jd, j.jc
			}
		}
	}
	return s.lowered(c)
}

// chargeGuess is a charge by the trade's round figures: a sixth of the fuel's
// heat reaches the water and half as much again is kept in hand; 10 g/m2 s of
// fuel over the bore for a flame time; two thirds of the can without a wish.
// All [judgement]: only where the search starts.
func (s *space) chargeGuess() float64 {
	m := 0.0
	if s.boils() {
		m = s.heatNeeded() / 0.16 / s.fuel.Analysis.WetLHV(s.fuel.Moisture) * 1.5
	}
	if t := s.wish.FlameFor; t > 0 {
		m = math.Max(m, 0.010*s.base.Design.FuelCan.Area()*t)
	}
	if m == 0 {
		m = s.charges[len(s.charges)-1] * 2 / 3
	}
	return m
}

// jetsFor gives a choice the jets nearest to an area: a dozen to two dozen of
// them where drills allow.
func (s *space) jetsFor(c choice, area float64) (choice, bool) {
	best, found := math.Inf(1), false
	out := c
	for jd := range s.jetDrills {
		for jc := range s.counts {
			n := c
			n.jd, n.jc = jd, jc
			off := math.Abs(math.Log(s.jetArea(n)/area)) + 0.02*math.Abs(float64(s.counts[jc])-18)
			if off < best && s.valid(s.lowered(n)) {
				best, found, out = off, true, n
			}
		}
	}
	return s.lowered(out), found
}

// lowered reduces the charge to what fits below the jets.
func (s *space) lowered(c choice) choice {
	for c.charge > 0 && !s.valid(c) {
		c.charge--
	}
	return c
}

func nearest(list []float64, v float64) int {
	best := 0
	for i, x := range list {
		if math.Abs(x-v) < math.Abs(list[best]-v) {
			best = i
		}
	}
	return best
}
