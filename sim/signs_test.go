package sim

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"sync"
	"testing"

	"toplit/firing"
	"toplit/internal/designs"
	"toplit/physics/bed"
	"toplit/stove"
)

// Signs: what one change does to a burn, weakly, between two runs in the same
// regime. A pair is in one regime when the same moments come in both, no cap
// of the front is active in either, and the same condition is named first.

// signTol are the tolerances of the pairs: tighter than shipped, so that a
// tenth of a per cent is not the solver's own scatter.
var signTol = tolerances{rtol: 1e-6, max: 60}

const signSlack = 1e-3

// outcome is what a pair is compared by.
type outcome struct {
	fig        figures
	regime     string
	capped     bool
	outward    bool         // gas leaves by the holes in the base, as where a warm annulus feeds holes higher up
	ring       float64      // share of the draft that the throat takes, mean
	start, end float64      // of the wood-gas phase [s]
	whole      bool         // the front came to the grate
	track      [][4]float64 // dry fuel turned, char, primary and secondary air [kg] every signGrid
	lhv, char  float64      // [J/kg dry]
	holes      float64      // area of all holes [m2]
	steam      float64      // up to the boil, or to the end without one [kg]
}

const signGrid = 10.0 // [s]

// at is the amounts at a time, between stored ones by straight lines.
func (o *outcome) at(t float64) (v [4]float64) {
	x := t / signGrid
	j := min(max(int(x), 0), len(o.track)-2)
	u := min(x-float64(j), 1)
	for i := range v {
		v[i] = o.track[j][i]*(1-u) + o.track[j+1][i]*u
	}
	return v
}

// means are mean rates over a stretch of time.
type means struct{ power, dry, primary, secondary float64 }

func (o *outcome) means(t0, t1 float64) means {
	a, b := o.at(t0), o.at(t1)
	dt := t1 - t0
	dry := (b[0] - a[0]) / dt
	return means{dry*o.lhv - (b[1]-a[1])/dt*o.char, dry, (b[2] - a[2]) / dt, (b[3] - a[3]) / dt}
}

// compared are the mean rates of a pair: over the wood-gas phase of each when
// both fronts come to the grate, else while both burn gas, because a mean over
// unequal parts of a charge compares two depths of char.
func compared(a, b *outcome) (x, y means, ok bool) {
	if a.whole && b.whole {
		return a.means(a.start, a.end), b.means(b.start, b.end), true
	}
	t0, t1 := max(a.start, b.start), min(a.end, b.end)
	if !(t1 > t0+30) {
		return x, y, false
	}
	return a.means(t0, t1), b.means(t0, t1), true
}

// outcomeOf runs a firing. leaks, when given, is the area of holes that
// the leaks go with, which the prior ties to the area of all holes: they are of the seams and do
// not grow with a wider hole.
func outcomeOf(b *burner, f *firing.Firing, leaks float64) (outcome, error) {
	var o outcome
	s, err := newSite(f, shippedNodes)
	if err != nil {
		return o, err
	}
	b.phases = [4]float64{}
	p := MedianParams()
	if leaks > 0 {
		p[pLeaks] *= leaks / s.holesArea
	}
	o.holes = s.holesArea
	if err := b.run(s, p, shippedWidths, signTol, signGrid); err != nil {
		return o, err
	}
	o.fig = b.figures()
	m := b.seen.m
	var r strings.Builder
	for _, x := range []struct {
		name string
		at   float64
	}{{"jets lit", m.JetsLit}, {"front at grate", m.FrontAtGrate}, {"flame-out", m.FlameOut}, {"glow end", m.GlowEnd}, {"boil", m.Boil}} {
		if math.IsNaN(x.at) {
			r.WriteString("no ")
		}
		r.WriteString(x.name + ", ")
	}
	if m.FlameOut < m.FrontAtGrate {
		r.WriteString("flame-out before the grate, ")
	}
	cond := "no condition"
	if l := b.limits(&o.fig); len(l) > 0 {
		cond = l[0].Condition
	}
	o.regime = r.String() + cond
	o.start, o.end, o.whole = m.JetsLit, m.FrontAtGrate, !math.IsNaN(m.FrontAtGrate)
	if !o.whole {
		o.end = m.FlameOut
	}
	if !o.whole { // a front that goes out is compared while it burns all over
		lit := 0.0
		for j, t := range b.track.t {
			if lit = max(lit, b.track.y[j][iLit]); t > o.start && b.track.y[j][iLit] < 0.9*lit {
				o.end = min(o.end, t)
				break
			}
		}
	}
	o.lhv, o.char = b.lhvDry-b.x*2.443e6, b.char.solid.lhv
	for _, y := range b.track.y {
		q := y[b.quad:]
		o.track = append(o.track, [4]float64{q[qDry], y[iChar], q[qPrimary], q[qSecondary]})
	}
	o.steam = steamTo(b, m.Boil)
	o.capped = cappedShare(b, o.start, o.end) > 0.05
	n, out := 0, 0
	for j, t := range b.track.t {
		if t >= o.start && t <= o.end {
			n++
			b.with(b.track.on[j])
			b.stageOne(t, b.track.y[j])
			o.ring += math.Abs(b.lossRing) / max(b.head, 1e-6)
			if b.track.y[j][iFlow] < 0 {
				out++
			}
		}
	}
	o.ring /= float64(max(n, 1))
	o.outward = float64(out) > 0.05*float64(n)
	return o, nil
}

// steamTo is the steam made up to the time, or to the end of the track.
func steamTo(b *burner, t float64) float64 {
	k := &b.track
	j := len(k.t) - 1
	if !math.IsNaN(t) {
		j = min(int(t/k.grid), j)
	}
	return k.y[0][b.mass] - k.y[j][b.mass]
}

// cappedShare is the share of the wood-gas phase in which heat, not air, sets
// the pace of the front.
func cappedShare(b *burner, t0, t1 float64) float64 {
	n, c := 0, 0
	for j, t := range b.track.t {
		if t < t0 || t > t1 {
			continue
		}
		b.with(b.track.on[j])
		b.stageOne(t, b.track.y[j])
		byAir := b.lit * positive(b.mPrim, b.w.reversal) / bed.AirFuel(b.p[pAirNeed], b.x) * b.there
		n++
		if b.rate < 0.99*byAir {
			c++
		}
	}
	if n == 0 {
		return 0
	}
	return float64(c) / float64(n)
}

// sign is one change and what it must do. below and above list quantities
// that must fall or rise (not fall).
type sign struct {
	name   string
	change func(f *firing.Firing) bool // false where it does not apply
	rises  []quantityOf
	falls  []quantityOf
	inward bool // only where air enters by the base
	ring   bool // only where the throat takes 5 % of the draft: less, and what a narrow ring does is keep the bed warm
}

// quantityOf is one quantity in both runs of a pair.
type quantityOf struct {
	name string
	of   func(a, b *outcome) (x, y float64)
}

func figure(f Figure) quantityOf {
	return quantityOf{figureInfo[f].Name, func(a, b *outcome) (x, y float64) { return a.fig[f], b.fig[f] }}
}

func mean(name string, of func(m *means) float64) quantityOf {
	return quantityOf{name, func(a, b *outcome) (x, y float64) {
		p, q, ok := compared(a, b)
		if !ok {
			return math.NaN(), math.NaN()
		}
		return of(&p), of(&q)
	}}
}

// unlessDew leaves out pots so cold that dew forms on the water: there a lid
// keeps warmth out.
func unlessDew(q quantityOf) quantityOf {
	return quantityOf{q.name, func(a, b *outcome) (x, y float64) {
		if a.steam <= 0 {
			return math.NaN(), math.NaN()
		}
		return q.of(a, b)
	}}
}

func signs() []sign {
	power := mean("power", func(m *means) float64 { return m.power })
	secondary := mean("secondary air", func(m *means) float64 { return m.secondary })
	through := mean("air through all holes", func(m *means) float64 { return m.primary + m.secondary })
	dry := mean("dry fuel turned per second", func(m *means) float64 { return m.dry })
	steam := quantityOf{"steam up to the boil", func(a, b *outcome) (x, y float64) { return a.steam, b.steam }}
	grow := func(f *firing.Firing, by float64) bool {
		rows := f.Design.RowsOn(stove.FuelBase)
		for _, i := range rows {
			f.Design.Rows[i].Hole.Width *= by
			f.Design.Rows[i].Hole.Height *= by
		}
		return len(rows) > 0 && f.Design.Fan.Primary == 0
	}
	return []sign{
		{
			name:   "more primary area",
			change: func(f *firing.Firing) bool { return grow(f, 1.118) },
			rises:  []quantityOf{power}, falls: []quantityOf{figure(FFrontAtGrate)}, inward: true,
		}, {
			name: "wetter, same dry mass",
			change: func(f *firing.Firing) bool {
				c := &f.Conditions
				m0, m1 := c.Fuel.Moisture, c.Fuel.Moisture+0.03
				k := (1 - m0) / (1 - m1)
				c.Fuel.Moisture = m1
				c.Fuel.BulkDensity *= k
				c.Charge.Mass *= k
				return true
			},
			falls: []quantityOf{dry, power},
		}, {
			name: "taller closed stand",
			change: func(f *firing.Firing) bool {
				if s := f.Design.Stand; s.Closed && f.Design.Fan == (stove.Fan{}) {
					s.Height *= 1.3
					return true
				}
				return false
			},
			rises: []quantityOf{secondary},
		}, {
			name: "smaller ring",
			change: func(f *firing.Firing) bool {
				if f.Design.Ring == nil || f.Design.Fan != (stove.Fan{}) {
					return false
				}
				f.Design.Ring.Bore *= 0.75
				return true
			},
			falls: []quantityOf{through}, inward: true, ring: true,
		}, {
			name: "higher altitude",
			change: func(f *firing.Firing) bool {
				f.Conditions.Air.Pressure *= 0.9
				return f.Design.Fan == (stove.Fan{})
			},
			falls: []quantityOf{power},
		}, {
			name: "more water",
			change: func(f *firing.Firing) bool {
				f.Conditions.Water.Mass *= 1.2
				return f.Conditions.Pot != nil
			},
			rises: []quantityOf{figure(FTimeToBoil)},
		}, {
			name: "colder water",
			change: func(f *firing.Firing) bool {
				f.Conditions.Water.Temperature = max(f.Conditions.Water.Temperature-8, 273.2)
				return f.Conditions.Pot != nil
			},
			rises: []quantityOf{figure(FTimeToBoil)},
		}, {
			name: "lid on",
			change: func(f *firing.Firing) bool {
				if f.Conditions.Pot == nil || f.Conditions.Pot.Lid {
					return false
				}
				f.Conditions.Pot.Lid = true
				return true
			},
			falls: []quantityOf{unlessDew(figure(FTimeToBoil)), unlessDew(steam)},
		},
	}
}

// pairs is what became of the pairs of one change.
type pairs struct {
	mu                           sync.Mutex
	all, compared, capped, aside int
	moments, condition           int
	wrong                        []string
	changed                      []string
	looks                        int
}

func testSigns(t *testing.T, n int) {
	list := signs()
	out := make([]pairs, len(list))
	inParallel(n, func(b *burner, i int) {
		seed := uint64(i + 1)
		f, err := designs.Random(seed)
		if err != nil {
			t.Error(err)
			return
		}
		if f.Conditions.Fuel.Species == "charcoal" {
			return // no wood gas: the signs are about wood gas
		}
		f.Conditions.Schedule = undisturbed(f.Conditions.Schedule)
		base, err := outcomeOf(b, f, 0)
		if err != nil {
			t.Errorf("design %d: %v", seed, err)
			return
		}
		for k, s := range list {
			g := designs.Clone(f)
			if !s.change(g) || !designs.Valid(g) {
				continue
			}
			o, err := outcomeOf(b, g, base.holes)
			if err != nil {
				t.Errorf("design %d, %s: %v", seed, s.name, err)
				continue
			}
			out[k].add(seed, &s, &base, &o)
		}
	})
	all, changed := 0, 0
	for k, s := range list {
		p := &out[k]
		all += p.all
		changed += p.moments + p.condition
		t.Logf("%-22s %4d pairs: %4d compared; front capped %3d; set aside %3d; other moments %3d, other condition %3d; wrong sign %d of %d", s.name, p.all, p.compared, p.capped, p.aside, p.moments, p.condition, len(p.wrong), p.looks)
	}
	t.Logf("%d of %d pairs change regime (%.0f %%)", changed, all, 100*float64(changed)/float64(max(all, 1)))
	for k, s := range list { // pairs set aside: base blows out, or the ring takes too little to count
		p := &out[k]
		sort.Strings(p.changed)
		for _, c := range p.changed[:min(2, len(p.changed))] {
			t.Logf("  changes regime: %s: %s", s.name, c)
		}
		if len(p.wrong) > p.looks/300 {
			sort.Strings(p.wrong)
			t.Errorf("%s has the wrong sign in %d of %d looks:\n  %s", s.name, len(p.wrong), p.looks, strings.Join(p.wrong[:min(12, len(p.wrong))], "\n  "))
		}
		if p.compared == 0 {
			t.Errorf("%s: no pair was compared", s.name)
		}
	}
	if float64(changed) > 0.4*float64(all) {
		t.Errorf("%d of %d pairs change regime, more than 40 %%", changed, all)
	}
}

// undisturbed keeps the pot's coming on and leaves the fire alone: parts put on
// at a moment of the burn, a pot taken off at the boil or a snuffed fire would
// compare two schedules.
func undisturbed(list []firing.Action) []firing.Action {
	for _, a := range list {
		if a.Do == firing.PotOn {
			return []firing.Action{a}
		}
	}
	return nil
}

func (p *pairs) add(seed uint64, s *sign, a, b *outcome) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.all++
	if a.regime != b.regime {
		before, after := a.regime, b.regime
		i, j := strings.LastIndex(before, ", "), strings.LastIndex(after, ", ")
		if before[:i] != after[:j] {
			p.moments++
		} else {
			p.condition++
			before, after = before[i+2:], after[j+2:]
		}
		p.changed = append(p.changed, fmt.Sprintf("design %4d: %s → %s", seed, before, after))
		return
	}
	if a.capped || b.capped {
		p.capped++
		return
	}
	if s.inward && (a.outward || b.outward) || s.ring && b.ring < 0.05 {
		p.aside++
		return
	}
	p.compared++
	look := func(q quantityOf, up float64) {
		x, y := q.of(a, b)
		if math.IsNaN(x) || math.IsNaN(y) {
			return
		}
		p.looks++
		if up*(y-x) < -signSlack*math.Abs(x) {
			p.wrong = append(p.wrong, fmt.Sprintf("design %4d: %s %.6g → %.6g (%+.2f %%), %s", seed, q.name, x, y, 100*(y/x-1), a.regime))
		}
	}
	for _, q := range s.rises {
		look(q, 1)
	}
	for _, q := range s.falls {
		look(q, -1)
	}
}
