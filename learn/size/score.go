package size

import (
	"math"

	"toplit/firing"
	"toplit/sim"
	"toplit/stove"
)

// outcome is one tried design.
type outcome struct {
	c        choice
	f        *firing.Firing
	fig      figures // of the median burn
	hard     figures // of the burn with the odds against it, where pressed
	pressed  bool
	limits   []sim.Limit
	findings []stove.Finding
	score    float64 // lower is better
	why      error   // the design could not be written or burned
}

// figures of a burn in the order of sim.Figures.
type figures [sim.FGroundMax + 1]float64

// beyond is what it costs to be past a bound, in steps of a factor: the square
// up to one step and a straight line from there, so that a wish out of reach
// does not drive everything else to its end.
func beyond(ratio, factor float64) float64 {
	if !(ratio > 1) {
		return 0
	}
	x := math.Log(ratio) / math.Log(factor)
	if x < 1 {
		return x * x
	}
	return 2*x - 1
}

// The weights of the score. A penalty of one is a fault that a maker would
// change the design for: a boil 10 % late, the
// air a third off the middle of its range. All are judgement; what they do is
// shown in docs/model/sizing.md.
const (
	lateStep   = 1.1  // factor a wished time is missed by for a penalty of 1
	airStep    = 1.35 // factor off the middle of the excess air's range
	ruleWeight = 0.4  // per rule left by half its width
	heedWeight = 0.5  // per warning of a check
	thrift     = 0.15 // per e-fold of charge
	keepStep   = 1.2  // factor that is missed by for a penalty of 1
)

// aim is what the search goes for: the wishes, moved by how the band's medians
// differ from the median burn.
type aim struct{ boil, flame float64 }

// judge scores a burn's figures, those of the median burn or the medians of a
// band, by what is aimed at.
func (s *space) judge(o *outcome, fig *figures, w aim) float64 {
	load := o.f.Load().Mass
	p := s.shop(o)
	for _, x := range o.findings {
		switch x.Severity {
		case stove.Error:
			p += 100
		case stove.Warning:
			p += heedWeight
		}
	}
	// A way back from a stove that tips.
	tip := o.f.Stability().Angle
	p += 3 * math.Max(0, stove.FairAngle-tip) / (math.Pi / 180)
	if !isThere(fig[sim.FJetsLit]) || !isThere(fig[sim.FFirepower]) {
		return p + 60
	}
	end := fig[sim.FFrontAtGrate]
	if out := fig[sim.FFlameOut]; isThere(out) && (!isThere(end) || out < end) {
		if isThere(end) {
			p += beyond(0.95*end/out, keepStep)
		}
		end = out
	}
	if !isThere(end) {
		end = 4 * 3600
	}

	// Air: neither starved nor cooled.
	air := rule(ruleAir)
	lambda := math.Max(fig[sim.FExcessAir], 0.05)
	p += 0.5 * (beyond(lambda/air.Mid(), airStep) + beyond(air.Mid()/lambda, airStep))
	if b := fig[sim.FBurnOut]; isThere(b) {
		p += 0.5 * beyond(3/math.Max(b, 1e-3), 3)
	}
	if r := fig[sim.FJetReach]; isThere(r) {
		p += 0.3*beyond(0.8/math.Max(r, 1e-3), 1.5) + 0.1*beyond(r/1.6, 1.5)
	}
	for _, l := range o.limits {
		switch l.Condition {
		case "quenched on the pot", "ring chokes", "pot gap chokes", "primary holes choke":
			p += 0.3 * (math.Min(l.Weight, 5) - 1)
		}
	}

	// Wishes.
	if w.flame > 0 {
		if t := gasFlame(fig[sim.FFlameTime], fig[sim.FFrontAtGrate]); isThere(t) {
			p += beyond(w.flame/t, lateStep) + 0.1*beyond(t/w.flame, lateStep)
		}
	}
	if !s.given {
		p += thrift * math.Log(load/0.1)
	}
	if !s.boils() {
		return p
	}
	need := s.heatNeeded()
	cook := math.Max(fig[sim.FCookingPower], 1)
	boil := fig[sim.FTimeToBoil]
	if !isThere(boil) { // how far from it, so that the search finds its way
		p += 8 + 4*math.Max(0, math.Log(need/(cook*end)))
		boil = need / cook
	}
	if w.boil > 0 {
		p += beyond(boil/w.boil, lateStep) + 0.05*beyond(w.boil/boil, lateStep)
	} else {
		p += 0.3 * math.Log(boil/600)
	}
	if e := fig[sim.FEfficiency]; e > 0 {
		p -= 0.4 * math.Log(e/0.15)
	}
	return p
}

// gasFlame is how long the flame of wood gas lasts: to flame-out, but not long
// after the front is at the grate. The CO flame over the char that may follow
// comes and goes with what nobody knows, so nothing is sized by it.
func gasFlame(out, front float64) float64 {
	if isThere(front) && !(out < 1.1*front) {
		return 1.1 * front
	}
	return out
}

// against puts the parameters where about one sample in ten fares worse: 1.28
// standard deviations along the direction in which burns fail to boil. The
// direction is the correlation of that failure with each parameter in bands of
// 512 samples of four unlike stoves (two food cans, a paint quart, chips in a
// No. 10), which agreed: a front that needs more air and leaves more char, a
// char layer that resists more, a flame that goes out hotter. Searching with
// this one burn beside the median's is the first-order reliability method; the
// band has the last word.
func against(_ int, p sim.Prior) float64 {
	switch p.Name {
	case "air_need":
		return p.Median + 0.74*p.Spread
	case "char_offset":
		return p.Median + 0.87*p.Spread
	case "char_bed":
		return p.Median * math.Pow(p.Spread, 0.52)
	case "critical_flame":
		return p.Median + 0.28*p.Spread
	}
	return p.Median
}

// withstand is what it costs when the burn with the odds against it fails: up to
// three for a flame that goes out early, up to three for water that does not
// boil, by how far it got, so that the search finds its way and no failure that
// nothing can mend outweighs all else.
func (s *space) withstand(o *outcome) float64 {
	h := &o.hard
	if !isThere(h[sim.FJetsLit]) || !isThere(h[sim.FFirepower]) {
		return 6
	}
	p := 0.0
	const long = 4 * 3600 // the model follows a burn no longer [s]
	end := h[sim.FFrontAtGrate]
	if !isThere(end) {
		end = long
	}
	if out := h[sim.FFlameOut]; isThere(out) && out < 0.95*end {
		p += 1 + 2*(1-out/end)
		end = out
	}
	if s.boils() && !isThere(h[sim.FBoil]) {
		got := math.Max(h[sim.FCookingPower], 0) * end / s.heatNeeded()
		p += 1 + 2*math.Max(0, 1-got)
		if math.IsNaN(got) {
			p = 6
		}
	}
	return p
}

// boils: there is water to bring to its end temperature.
func (s *space) boils() bool { return s.pot && s.base.Conditions.Water.Mass > 0 }

// heatNeeded is the heat into water and pot up to the end temperature, steam
// left out [J]. The boiling point's fall with altitude is the model's business;
// here a guess is enough.
func (s *space) heatNeeded() float64 {
	c := s.base.Conditions
	end := 372.0
	if c.Water.Target > 0 {
		end = c.Water.Target
	}
	return (c.Water.Mass*4186 + c.Pot.Mass*700) * math.Max(end-c.Water.Temperature, 1)
}

// shop is what leaving the shop rules costs.
func (s *space) shop(o *outcome) float64 {
	c, d := o.c, o.f.Design
	bore := d.FuelCan.Area()
	p, j := s.primaryArea(c), s.jetArea(c)
	sum := 0.0
	for _, x := range []struct {
		name string
		v    float64
	}{
		{rulePrimary, p / bore}, {ruleSecondary, j / bore}, {ruleSecondaryPrimary, j / p},
		{ruleRing, s.rings[c.ring] / d.FuelCan.Bore()},
	} {
		sum += rule(x.name).leaving(x.v)
	}
	if s.pot {
		sum += rule(rulePot).leaving(s.heights[c.top]+s.gaps[c.gap]) + rule(ruleGap).leaving(s.gaps[c.gap])
	} else {
		sum += rule(ruleRiser).leaving(s.heights[c.top])
	}
	// Many holes are work, few do not serve the whole bed or mix the gas, and
	// hair-fine ones clog.
	primary, jets := s.counts[c.pc], s.counts[c.jc]
	sum += 0.01 * float64(max(0, primary-12)+max(0, jets-24))
	sum += 0.2*beyond(8/float64(primary), 1.5) + 0.4*beyond(12/float64(jets), 1.5)
	sum += 0.2 * beyond(4e-3/s.primaryDrills[c.pd].Diameter, 1.5)
	return sum
}
