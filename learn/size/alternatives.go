package size

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"toplit/firing"
	"toplit/sim"
	"toplit/stove"
)

// alternatives are two designs with one thing changed: the one of the single
// changes that comes nearest to a third faster (to the boil, or hotter where
// nothing is boiled), and the one that comes nearest to lasting a third longer.
// Where nothing does, other jets stand in.
func (q *searcher) alternatives(o *outcome, p *sim.Prediction, opt Options) ([]Alternative, error) {
	n := min(q.effort.medium, opt.Samples)
	power := func(f *figures) float64 { return f[sim.FFirepower] }
	name, fast := "hotter", power
	powerOf := func(p *sim.Prediction) float64 { return came(p.Values(sim.FFirepower)[:n], 0.5) }
	fastOf := powerOf
	if q.boils() && isThere(o.fig[sim.FTimeToBoil]) {
		name, fast = "faster", func(f *figures) float64 { return 1 / f[sim.FTimeToBoil] }
		fastOf = func(p *sim.Prediction) float64 { return 1 / came(p.Values(sim.FTimeToBoil)[:n], 0.5) }
	}
	long := func(f *figures) float64 { return gasFlame(f[sim.FFlameTime], f[sim.FFrontAtGrate]) }
	longOf := func(p *sim.Prediction) float64 { return came(flames(p)[:n], 0.5) }

	var out []Alternative
	for i, x := range []struct {
		name string
		list []*outcome
		over func(*sim.Prediction) float64
	}{
		{name, q.ranked(o, q.changes(o, 1), fast), fastOf},
		{"slower", q.ranked(o, q.changes(o, -1), long), longOf},
	} {
		var found *Alternative
		// The median burn proposes, the band of equal samples decides.
		for _, a := range x.list[:min(len(x.list), 3)] {
			b, err := q.predict(a.f, n, opt)
			if err != nil {
				return nil, err
			}
			if x.over(b) > 1.02*x.over(p) {
				found = &Alternative{Name: x.name, Prediction: b, o: a}
				break
			}
		}
		if found == nil {
			name, a := q.otherJets(o, i == 0)
			if a == nil {
				continue
			}
			b, err := q.predict(a.f, n, opt)
			if err != nil {
				return nil, err
			}
			found = &Alternative{Name: name, Prediction: b, o: a}
		}
		found.Firing, found.Change, found.Shares = found.o.f, change(o.f, found.o.f), q.shares(found.Prediction)
		out = append(out, *found)
	}
	return out, nil
}

// promoted is an alternative that boils the water surely enough where the design
// does not, and comes as near to every wish, or within it.
func (q *searcher) promoted(p *sim.Prediction, list []Alternative) (Alternative, bool) {
	if q.shares(p).Boils >= chance {
		return Alternative{}, false
	}
	const less = 1.02
	w := q.wish
	for _, a := range list {
		boil := w.BoilIn == 0 || a.Prediction.Figures[sim.FTimeToBoil].P50 <= math.Max(slack*w.BoilIn, less*p.Figures[sim.FTimeToBoil].P50)
		flame := w.FlameFor == 0 || came(flames(a.Prediction), 0.5) >= math.Min(w.FlameFor/slack, came(flames(p), 0.5)/less)
		if a.Shares.Boils >= chance && boil && flame {
			return a, true
		}
	}
	return Alternative{}, false
}

// ranked are the changes that gain at least 3 %, that nearest to a third more
// first. One that loses the boil counts as far off.
func (q *searcher) ranked(o *outcome, list []*outcome, gain func(*figures) float64) []*outcome {
	now := gain(&o.fig)
	off := func(a *outcome) float64 {
		far := math.Abs(gain(&a.fig)/now - 1.33)
		if q.boils() && isThere(o.fig[sim.FBoil]) && !isThere(a.fig[sim.FBoil]) {
			far++
		}
		return far
	}
	list = slices.DeleteFunc(list, func(a *outcome) bool { return !(gain(&a.fig) > 1.03*now) })
	slices.SortStableFunc(list, func(a, b *outcome) int { return cmp.Compare(off(a), off(b)) })
	return list
}

// otherJets is the design with the next larger or smaller secondary holes.
func (q *searcher) otherJets(o *outcome, more bool) (string, *outcome) {
	steps := []choice{{jd: 1}, {jc: 1}, {jd: 2}}
	name := "more secondary air"
	if !more {
		name = "less secondary air"
		for i := range steps {
			steps[i] = steps[i].times(-1)
		}
	}
	for _, d := range steps {
		c := plus(o.c, d)
		if !q.valid(c) {
			continue
		}
		if a := q.alike(o, c); a.why == nil && len(worse(o.findings, a.findings)) == 0 && isThere(a.fig[sim.FJetsLit]) {
			return name, a
		}
	}
	return "", nil
}

// change is what differs, in words.
func change(a, b *firing.Firing) string {
	var list []string
	for _, c := range firing.Difference(*a, *b) {
		list = append(list, c.Text)
	}
	return strings.Join(list, "; ")
}

// changes are the designs with one size moved, in the direction of more air
// through the fuel (1) or less (-1), that stay as safe to light as the design.
func (q *searcher) changes(o *outcome, dir int) []*outcome {
	var list []choice
	now := q.primaryArea(o.c)
	for pd := range q.primaryDrills {
		for pc := range q.counts {
			c := o.c
			c.pd, c.pc = pd, pc
			ratio := q.primaryArea(c) / now
			if dir < 0 {
				ratio = 1 / ratio
			}
			sameDrill, sameCount := pd == o.c.pd, pc == o.c.pc
			if q.valid(c) && (sameDrill || sameCount) && ratio > 1.08 && ratio < 2.3 && len(q.circles(c)) == len(q.circles(o.c)) {
				list = append(list, c)
			}
		}
	}
	// Of the many hole patterns those about half as much again.
	far := func(c choice) float64 { return math.Abs(math.Abs(math.Log(q.primaryArea(c)/now)) - math.Log(1.5)) }
	slices.SortStableFunc(list, func(a, b choice) int { return cmp.Compare(far(a), far(b)) })
	list = list[:min(len(list), 6)]
	for k := 1; k <= 4; k++ {
		c := o.c
		c.top += k * dir
		list = append(list, c)
		if c = o.c; k <= 2 {
			c.ring += k * dir
			list = append(list, c)
		}
	}
	var out []*outcome
	for _, c := range list {
		if !q.valid(c) {
			continue
		}
		a := q.alike(o, c)
		if a.why == nil && len(worse(o.findings, a.findings)) == 0 {
			out = append(out, a)
		}
	}
	return out
}

// alike burns a choice with everything that follows from the sizes (inlets, gap
// under the can) kept as in the design, so that one thing only is changed.
func (q *searcher) alike(o *outcome, c choice) *outcome {
	a := &outcome{c: c}
	if a.f, a.why = q.sized(c).read(); a.why != nil {
		return a
	}
	d := &a.f.Design
	d.Standoff = o.f.Design.Standoff
	if q.double {
		d.Rows[len(d.Rows)-1] = o.f.Design.Rows[len(o.f.Design.Rows)-1]
	}
	for i := range d.Rows {
		if d.Rows[i].On == stove.FuelBase && i < len(o.f.Design.Rows) {
			d.Rows[i].Circle = o.f.Design.Rows[i].Circle
		}
	}
	a.findings = firing.Check(*a.f)
	v, limits, err := sim.Median(a.f)
	q.burned.Add(1)
	if err != nil {
		a.why = err
		return a
	}
	copy(a.fig[:], v[:])
	a.limits = limits
	return a
}

// worse are the warnings and errors of b on keys a had none on.
func worse(a, b []stove.Finding) []stove.Finding {
	had := map[string]bool{}
	for _, x := range a {
		if x.Severity != stove.Note {
			had[x.Key] = true
		}
	}
	var out []stove.Finding
	for _, x := range b {
		if x.Severity == stove.Error || x.Severity == stove.Warning && !had[x.Key] {
			out = append(out, x)
		}
	}
	return out
}
