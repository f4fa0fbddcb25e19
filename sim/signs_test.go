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
	fig                        figures
	regime                     string
	capped                     bool
	primary, secondary         float64 // mean flows of the wood-gas phase [kg/s]
	dryRate                    float64 // dry fuel turned, mean of the same [kg/s]
	steam                      float64 // up to the boil, or to the end without one [kg]
	potOn, jetsLit, frontGrate float64
}

func outcomeOf(b *burner, f *firing.Firing) (outcome, error) {
	var o outcome
	s, err := newSite(f, shippedNodes)
	if err != nil {
		return o, err
	}
	b.phases = [4]float64{}
	if err := b.run(s, MedianParams(), shippedWidths, signTol, 10); err != nil {
		return o, err
	}
	o.fig = b.figures()
	m := b.seen.m
	o.potOn, o.jetsLit, o.frontGrate = m.PotOn, m.JetsLit, m.FrontAtGrate
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
	t0, t1 := m.JetsLit, m.FrontAtGrate
	y0, y1 := b.seen.atJets, b.seen.atGrate
	if math.IsNaN(t1) {
		t1, y1 = m.FlameOut, b.seen.atOut
	}
	o.primary, o.secondary, o.dryRate = math.NaN(), math.NaN(), math.NaN()
	if t1 > t0+1 && len(y0) == b.dim && len(y1) == b.dim {
		mean := func(i int) float64 { return (y1[b.quad+i] - y0[b.quad+i]) / (t1 - t0) }
		o.primary, o.secondary, o.dryRate = mean(qPrimary), mean(qSecondary), mean(qDry)
	}
	o.steam = steamTo(b, m.Boil)
	o.capped = cappedShare(b, t0, t1) > 0.05
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
	snuff := snuffedAt(b)
	for j, t := range b.track.t {
		if t < t0 || t > t1 || t >= snuff {
			continue
		}
		b.on.snuffed = false
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
}

type quantityOf struct {
	name string
	of   func(o *outcome) float64
}

func figure(f Figure) quantityOf {
	return quantityOf{figureInfo[f].Name, func(o *outcome) float64 { return o.fig[f] }}
}

func signs() []sign {
	secondary := quantityOf{"secondary air", func(o *outcome) float64 { return o.secondary }}
	through := quantityOf{"air through all holes", func(o *outcome) float64 { return o.primary + o.secondary }}
	dry := quantityOf{"dry fuel turned per second", func(o *outcome) float64 { return o.dryRate }}
	steam := quantityOf{"steam up to the boil", func(o *outcome) float64 { return o.steam }}
	grow := func(f *firing.Firing, by float64) bool {
		rows := f.Design.RowsOn(stove.FuelBase)
		for _, i := range rows {
			f.Design.Rows[i].Hole.Width *= by
			f.Design.Rows[i].Hole.Height *= by
		}
		return len(rows) > 0 && f.Design.Fan.Primary == 0
	}
	return []sign{
		{"more primary area", func(f *firing.Firing) bool { return grow(f, 1.118) }, []quantityOf{figure(FFirepower)}, []quantityOf{figure(FFrontAtGrate)}},
		{"wetter, same dry mass", func(f *firing.Firing) bool {
			c := &f.Conditions
			m0, m1 := c.Fuel.Moisture, c.Fuel.Moisture+0.03
			k := (1 - m0) / (1 - m1)
			c.Fuel.Moisture = m1
			c.Fuel.BulkDensity *= k
			c.Charge.Mass *= k
			return true
		}, nil, []quantityOf{dry, figure(FFirepower)}},
		{"taller closed stand", func(f *firing.Firing) bool {
			if s := f.Design.Stand; s.Closed && f.Design.Fan == (stove.Fan{}) {
				s.Height *= 1.3
				return true
			}
			return false
		}, []quantityOf{secondary}, nil},
		{"smaller ring", func(f *firing.Firing) bool {
			if f.Design.Ring == nil || f.Design.Fan != (stove.Fan{}) {
				return false
			}
			f.Design.Ring.Bore *= 0.85
			return true
		}, nil, []quantityOf{through}},
		{"higher altitude", func(f *firing.Firing) bool {
			f.Conditions.Air.Pressure *= 0.9
			return f.Design.Fan == (stove.Fan{})
		}, nil, []quantityOf{figure(FFirepower)}},
		{"more water", func(f *firing.Firing) bool {
			f.Conditions.Water.Mass *= 1.2
			return f.Conditions.Pot != nil
		}, []quantityOf{figure(FTimeToBoil)}, nil},
		{"colder water", func(f *firing.Firing) bool {
			f.Conditions.Water.Temperature = max(f.Conditions.Water.Temperature-8, 273.2)
			return f.Conditions.Pot != nil
		}, []quantityOf{figure(FTimeToBoil)}, nil},
		{"lid on", func(f *firing.Firing) bool {
			if f.Conditions.Pot == nil || f.Conditions.Pot.Lid {
				return false
			}
			f.Conditions.Pot.Lid = true
			return true
		}, nil, []quantityOf{figure(FTimeToBoil), steam}},
	}
}

// pairs is what became of the pairs of one change.
type pairs struct {
	mu                    sync.Mutex
	all, compared, capped int
	moments, condition    int
	wrong                 []string
	changed               []string
	looks                 int
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
		f.Conditions.Schedule = undisturbed(f.Conditions.Schedule)
		base, err := outcomeOf(b, f)
		if err != nil {
			t.Errorf("design %d: %v", seed, err)
			return
		}
		for k, s := range list {
			g := designs.Clone(f)
			if !s.change(g) || !designs.Valid(g) {
				continue
			}
			o, err := outcomeOf(b, g)
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
		t.Logf("%-22s %4d pairs: %4d compared; front capped %3d; other moments %3d, other condition %3d; wrong sign %d of %d", s.name, p.all, p.compared, p.capped, p.moments, p.condition, len(p.wrong), p.looks)
	}
	t.Logf("%d of %d pairs change regime (%.0f %%)", changed, all, 100*float64(changed)/float64(max(all, 1)))
	for k, s := range list {
		p := &out[k]
		sort.Strings(p.changed)
		for _, c := range p.changed[:min(2, len(p.changed))] {
			t.Logf("  changes regime: %s: %s", s.name, c)
		}
		if len(p.wrong) > 0 {
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

// undisturbed leaves the pot where it is put and the fire alone: a lid taken
// off at the boil or a snuffed fire would compare two schedules.
func undisturbed(list []firing.Action) []firing.Action {
	var out []firing.Action
	for _, a := range list {
		switch a.Do {
		case firing.PotOff, firing.Snuff, firing.End:
			continue
		}
		out = append(out, a)
	}
	return out
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
	p.compared++
	look := func(q quantityOf, up float64) {
		x, y := q.of(a), q.of(b)
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
