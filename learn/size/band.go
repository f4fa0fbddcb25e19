package size

import (
	"fmt"
	"math"
	"slices"

	"toplit/firing"
	"toplit/sim"
	"toplit/stats"
)

// Shares are parts of the samples of a band.
type Shares struct {
	Lights float64 // the jets light
	Holds  float64 // and the flame holds until the front is at the grate
	Air    float64 // excess air between 1.4 and 2.5
	Boils  float64 // the water reaches its end temperature; 1 when nothing is cooked
}

// The excess air between which a burn counts as well aired: below it CO is left
// for want of oxygen, above it for want of heat.
const (
	airLeast = 1.4
	airMost  = 2.5
)

// predict is a band of a firing.
func (q *searcher) predict(f *firing.Firing, samples int, o Options) (*sim.Prediction, error) {
	grid := 20.0
	if samples < min(q.effort.medium, o.Samples) {
		grid = 60 // nobody sees its curves
	}
	q.burned.Add(int64(samples) + 1)
	return sim.Predict(q.ctx, f, sim.Options{Samples: samples, Seed: o.Seed, Workers: q.workers, Grid: grid})
}

// shares reads the good outcomes off a band.
func (s *space) shares(p *sim.Prediction) Shares {
	var r Shares
	jets, out, front, air, boil := p.Values(sim.FJetsLit), p.Values(sim.FFlameOut), p.Values(sim.FFrontAtGrate), p.Values(sim.FExcessAir), p.Values(sim.FBoil)
	for i := range jets {
		if isThere(jets[i]) {
			r.Lights++
			if !(out[i] < 0.9*front[i]) && isThere(front[i]) {
				r.Holds++
			}
		}
		if air[i] >= airLeast && air[i] <= airMost {
			r.Air++
		}
		if !s.boils() || isThere(boil[i]) {
			r.Boils++
		}
	}
	n := float64(len(jets))
	return Shares{r.Lights / n, r.Holds / n, r.Air / n, r.Boils / n}
}

// robust scores a design over the band: its medians as judge does, and what
// share of the samples turns out badly.
func (s *space) robust(o *outcome, p *sim.Prediction) float64 {
	var mid figures
	for i := range mid {
		mid[i] = p.Figures[i].P50
		if p.Figures[i].Never > 0.5 {
			mid[i] = math.NaN()
		}
	}
	r := s.shares(p)
	score := s.judge(o, &mid, aim{s.wish.BoilIn, s.wish.FlameFor}) + 5*(1-r.Holds) + 2*(1-r.Air)
	if s.boils() {
		score += 15 * math.Max(0, chance-r.Boils)
	}
	return score
}

// settle takes the best designs the median burn found, of the same charge and
// of different holes, and keeps the one that does best over the band.
func (q *searcher) settle(best *outcome, o Options) (*outcome, *sim.Prediction, error) {
	const margin, apart = 1.0, 0.15
	var list []*outcome
	for _, x := range q.seen {
		if x.pressed && x.score <= best.score+margin && x.c.charge == best.c.charge {
			list = append(list, x)
		}
	}
	slices.SortFunc(list, func(a, b *outcome) int {
		switch {
		case a == b:
			return 0
		case better(a, b):
			return -1
		}
		return 1
	})
	var tried []*outcome
	var winner *outcome
	var band *sim.Prediction
	low := math.Inf(1)
	for _, x := range list {
		like := func(y *outcome) bool {
			return math.Abs(math.Log(q.primaryArea(x.c)/q.primaryArea(y.c))) < apart && math.Abs(math.Log(q.jetArea(x.c)/q.jetArea(y.c))) < apart
		}
		if len(tried) == q.effort.field || slices.ContainsFunc(tried, like) {
			continue
		}
		tried = append(tried, x)
		p, err := q.predict(x.f, q.effort.coarse, o)
		if err != nil {
			return nil, nil, err
		}
		if v := q.robust(x, p); v < low-1e-9 {
			low, winner, band = v, x, p
		}
	}
	if winner == nil {
		return nil, nil, fmt.Errorf("no design of this wish could be burned")
	}
	return winner, band, nil
}

// poor says that a band has too many bad outcomes to be content with.
func (s *space) poor(p *sim.Prediction) bool {
	r := s.shares(p)
	return r.Holds < 0.85 || r.Air < 0.55 || r.Boils < chance
}

// polish takes the best single step from a design by the band itself. It costs
// a band for each step and is kept for designs that the median burn and the
// burn against the odds have left poor.
func (q *searcher) polish(o *outcome, opt Options) (*outcome, error) {
	p, err := q.predict(o.f, q.effort.coarse, opt)
	if err != nil {
		return o, err
	}
	best, low := o, q.robust(o, p)
	for _, d := range []choice{{pd: 1}, {jd: 1}, {jc: 1}, {top: 1}, {pd: 1, jd: 1}} {
		for _, k := range [2]int{1, -1} {
			x := q.get(plus(o.c, d.times(k)))
			if buildable(x) != nil {
				continue
			}
			if p, err = q.predict(x.f, q.effort.coarse, opt); err != nil {
				return o, err
			}
			if v := q.robust(x, p); v < low-1e-9 {
				low, best = v, x
			}
		}
	}
	return best, nil
}

// flames is how long wood gas burns in each sample, 0 where it never lit [s].
func flames(p *sim.Prediction) []float64 {
	out, front := p.Values(sim.FFlameOut), p.Values(sim.FFrontAtGrate)
	for i := range out {
		if out[i] = gasFlame(out[i], front[i]); !isThere(out[i]) {
			out[i] = 0
		}
	}
	return out
}

// quantile of the samples of a figure in which it came.
func came(v []float64, u float64) float64 {
	var list []float64
	for _, x := range v {
		if isThere(x) {
			list = append(list, x)
		}
	}
	if len(list) == 0 {
		return math.NaN()
	}
	slices.Sort(list)
	return stats.SortedQuantile(list, u)
}
