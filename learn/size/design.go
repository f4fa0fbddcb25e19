package size

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"toplit/firing"
	"toplit/sim"
	"toplit/stove"
)

// Result is a design with what is to be said of it.
type Result struct {
	Firing       *firing.Firing    // complete; its Assumed lists what nobody gave and nobody sized
	Reasons      map[string]string // by key of the design file: why this size, one or two sentences with numbers
	Prediction   *sim.Prediction   // of Firing, with its band
	Shares       Shares
	Boil         *Boil // nil when nothing is cooked
	Targets      []Target
	Alternatives []Alternative
	Warnings     []string // what the checks found and what is out of reach
	Notes        []string // worth knowing
	Tried        int      // designs the search tried
	Burns        int      // burns computed for it all
}

// Target is a wish beside what is predicted.
type Target struct {
	What     string // "boil" or "flame"
	Wished   float64
	Got      sim.Quantiles // over the band [s]
	Chance   float64       // share of samples in which the wish is met
	Met      bool          // at least half of the samples meet it, within 5 %
	Sentence string
}

// Alternative is the design with one thing changed.
type Alternative struct {
	Name       string // "faster" or "hotter", "slower"; "more secondary air" and "less secondary air" where nothing else can be built
	Change     string // what is changed, in words
	Firing     *firing.Firing
	Prediction *sim.Prediction
	Shares     Shares
	Trade      string // what it gains and costs

	o *outcome
}

// Design sizes a stove and its firing for a wish. The error says what is wrong
// with the wish or why nothing can be built; a wish that cannot be met is no
// error: the result is the nearest found and its Targets and Warnings say what
// holds it back. The same wish and options give the same result.
func Design(ctx context.Context, w Wish, opt Options) (*Result, error) {
	opt = opt.filled()
	if err := w.check(opt); err != nil {
		return nil, err
	}
	s, err := newSpace(w, opt.Units)
	if err != nil {
		return nil, err
	}
	say := func(stage string, share float64) {
		if opt.Progress != nil {
			opt.Progress(stage, min(share, 1))
		}
	}
	tried := 0
	q := newSearcher(ctx, s, opt, func() {
		tried++
		say("trying designs", float64(tried)/float64(opt.effort().trials+opt.effort().more))
	})

	start := s.first()
	first := q.get(start)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := hopeless(first); err != nil {
		return nil, err
	}
	best := q.descend(start, freedom{primary: true, jets: true, top: true, charge: !s.given}, q.effort.trials)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if err := buildable(best); err != nil {
		return nil, err
	}
	best, h, err := q.load(best, opt, say)
	if err != nil {
		return nil, err
	}
	say("prediction", 0)
	best, p, err := q.sure(best, h, opt)
	if err != nil {
		return nil, err
	}
	say("alternatives", 0)
	list, err := q.alternatives(best, p, opt)
	if err != nil {
		return nil, err
	}
	if a, ok := q.promoted(p, list); ok {
		x := q.get(a.o.c) // with inlets of its own
		if buildable(x) == nil {
			b, err := q.predict(x.f, opt.Samples, opt)
			if err != nil {
				return nil, err
			}
			if q.shares(b).Boils >= chance {
				best, p = x, b
				if list, err = q.alternatives(best, p, opt); err != nil {
					return nil, err
				}
			}
		}
	}
	r := &Result{Firing: best.f, Prediction: p, Shares: q.shares(p), Alternatives: list, Notes: slices.Clone(s.notes)}
	say("alternatives", 1)
	t := &teller{searcher: q, o: best, r: r}
	if s.boils() {
		if h == nil {
			h = &charger{searcher: q}
		}
		b := h.boil(best.f, r.Shares.Boils, s.given)
		b.Sentence = t.boil(b)
		r.Boil = &b
	}
	t.spare()
	r.Tried = len(q.seen)
	r.Burns = int(q.burned.Load())
	r.Reasons = t.reasons()
	r.Targets = t.targets()
	r.Warnings = t.warnings()
	for i := range r.Alternatives {
		r.Alternatives[i].Trade = t.trade(r.Alternatives[i])
	}
	return r, nil
}

// buildable refuses what the search ended at when it must not be lit or cannot
// be burned.
func buildable(o *outcome) error {
	if o == nil {
		return fmt.Errorf("no pattern of holes fits these cans and drills")
	}
	if o.why != nil {
		return o.why
	}
	var list []string
	for _, x := range o.findings {
		if x.Severity == stove.Error {
			list = append(list, x.String())
		}
	}
	if len(list) > 0 {
		return fmt.Errorf("nothing that may be lit comes of this: %s", strings.Join(list, "; "))
	}
	return nil
}

// hopeless refuses what no size of hole or stand can mend: a can of zinc or
// aluminium, wet fuel, a pot too small for its water.
func hopeless(o *outcome) error {
	if o == nil || o.why != nil {
		return buildable(o)
	}
	var list []string
	for _, x := range o.findings {
		table, _, _ := strings.Cut(x.Key, ".")
		table, _, _ = strings.Cut(table, "[")
		switch table {
		case "row", "ring", "riser", "stand", "standoff":
			continue
		}
		if x.Severity == stove.Error {
			list = append(list, x.String())
		}
	}
	if len(list) > 0 {
		return fmt.Errorf("nothing that may be lit comes of this: %s", strings.Join(list, "; "))
	}
	return nil
}

// load settles on a design and finds its charge. The median burn that guided
// the search is not the median of the band, and what boils in the one may be no
// sure boil in the other: so the band corrects what the search aims at, and the
// holes are fitted once more to the charge.
func (q *searcher) load(o *outcome, opt Options, say func(string, float64)) (*outcome, *charger, error) {
	free := freedom{primary: true, jets: true, top: true, charge: !q.given}
	o, p, err := q.settle(o, opt)
	if err != nil {
		return o, nil, err
	}
	if q.correct(o, p) {
		q.again()
	}
	if next := q.descend(q.roughly(o).c, free, q.effort.more); buildable(next) == nil {
		o = q.roughly(next)
	}
	say("finding the charge", 0.3)
	if o, p, err = q.settle(o, opt); err != nil {
		return o, nil, err
	}
	if q.effort.polish && q.poor(p) {
		if o, err = q.polish(o, opt); err != nil {
			return o, nil, err
		}
	}
	say("finding the charge", 0.6)
	o, h, err := q.charged(o, opt)
	if err != nil {
		return o, h, err
	}
	if q.effort.polish && h != nil && !q.given && h.short() {
		say("finding the charge", 0.8)
		if o, h, err = q.hurried(o, h, opt); err != nil {
			return o, h, err
		}
	}
	say("finding the charge", 1)
	return o, h, q.ctx.Err()
}

// charged is a design with the charge the band asks for.
func (q *searcher) charged(o *outcome, opt Options) (*outcome, *charger, error) {
	mass, h, err := q.charge(o, opt)
	if err != nil {
		return o, h, err
	}
	if c := q.withCharge(o, mass); c != nil && buildable(c) == nil {
		o = c
	}
	return o, h, nil
}

// hurried tries a hotter design where no charge boils the water surely enough:
// what a small fire loses on the way is lost less by a quick one. The first
// design stays unless that helps.
func (q *searcher) hurried(o *outcome, h *charger, opt Options) (*outcome, *charger, error) {
	const quicker, worth = 0.75, 0.02
	t := o.fig[sim.FTimeToBoil]
	if !isThere(t) {
		t = q.heatNeeded() / math.Max(o.fig[sim.FCookingPower], 10)
	}
	old := q.aim
	if q.aim.boil == 0 || q.aim.boil > quicker*t {
		q.aim.boil = quicker * t
	}
	q.again()
	next := q.descend(o.c, freedom{primary: true, jets: true, top: true, charge: true}, q.effort.more)
	if buildable(next) == nil {
		n, _, err := q.settle(next, opt)
		if err != nil {
			return o, h, err
		}
		n, g, err := q.charged(n, opt)
		if err != nil {
			return o, h, err
		}
		if g != nil && (!g.short() || g.seen[g.most()].boils > h.seen[h.most()].boils+worth) {
			o, h = n, g
		}
	}
	q.aim = old
	q.again()
	return o, h, q.ctx.Err()
}

// correct sets what the search aims at by how the band's medians differ from
// the median burn; true when that moves it by more than 3 %.
func (q *searcher) correct(o *outcome, p *sim.Prediction) bool {
	old := q.aim
	shift := func(wish, single, mid float64) float64 {
		if !isThere(single) || !isThere(mid) || mid <= 0 {
			return wish
		}
		return wish * math.Min(math.Max(single/mid, 0.6), 1.6)
	}
	q.aim.boil = shift(q.wish.BoilIn, o.fig[sim.FTimeToBoil], p.Figures[sim.FTimeToBoil].P50)
	q.aim.flame = shift(q.wish.FlameFor, gasFlame(o.fig[sim.FFlameTime], o.fig[sim.FFrontAtGrate]), came(flames(p), 0.5))
	far := func(a, b float64) bool { return math.Abs(a-b) > 0.03*math.Abs(b) }
	return far(q.aim.boil, old.boil) || far(q.aim.flame, old.flame)
}

// withCharge is a design with the charge of the grid nearest to a mass, nil
// when it does not fit.
func (q *searcher) withCharge(o *outcome, mass float64) *outcome {
	if q.given {
		return o
	}
	c := o.c
	c.charge = nearest(q.charges, mass)
	return q.get(c)
}

// sure predicts the design with all samples and, where those find the boil less
// likely than the few did, adds a little fuel if that is enough.
func (q *searcher) sure(o *outcome, h *charger, opt Options) (*outcome, *sim.Prediction, error) {
	band, err := q.predict(o.f, opt.Samples, opt)
	if err != nil {
		return nil, nil, err
	}
	if q.given || !q.boils() || h == nil || h.short() {
		return o, band, nil
	}
	more, p := o, band
	for range 2 {
		if q.shares(p).Boils >= chance {
			return more, p, nil
		}
		x := q.withCharge(o, 1.06*more.f.Load().Mass)
		if x == nil || x == more || buildable(x) != nil {
			break
		}
		more = x
		if p, err = q.predict(more.f, opt.Samples, opt); err != nil {
			return nil, nil, err
		}
	}
	if q.shares(p).Boils >= chance {
		return more, p, nil
	}
	return o, band, nil
}
