package size

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"toplit/firing"
	"toplit/sim"
)

// searcher tries designs and remembers them.
type searcher struct {
	*space
	ctx     context.Context
	workers int
	effort  effort
	seen    map[choice]*outcome
	tick    func()       // one more design tried
	burned  atomic.Int64 // single burns, for the record
}

func newSearcher(ctx context.Context, s *space, o Options, tick func()) *searcher {
	workers := o.Workers
	if workers < 1 {
		workers = runtime.GOMAXPROCS(0)
	}
	return &searcher{space: s, ctx: ctx, workers: workers, effort: o.effort(), seen: map[choice]*outcome{}, tick: tick}
}

// try burns one design with the median burn.
func (q *searcher) try(c choice) *outcome {
	o := &outcome{c: c, score: math.Inf(1)}
	if o.f, o.why = q.sized(c).read(); o.why != nil {
		return o
	}
	o.findings = firing.Check(*o.f)
	v, limits, err := sim.Median(o.f)
	q.burned.Add(1)
	if err != nil {
		o.why = err
		return o
	}
	copy(o.fig[:], v[:])
	o.limits = limits
	o.score = q.judge(o, &o.fig, q.aim)
	return o
}

// press burns a design once more with the odds against it.
func (q *searcher) press(o *outcome) {
	v, _, err := sim.Single(o.f, against)
	q.burned.Add(1)
	if err != nil {
		o.why, o.score = err, math.Inf(1)
		return
	}
	copy(o.hard[:], v[:])
	o.pressed = true
	o.score += q.withstand(o)
}

// all tries designs side by side. One whose median burn scores worse than bound
// is not pressed: what that adds is never negative. Which are tried does not
// depend on how many go at once, so neither does the outcome.
func (q *searcher) all(list []choice, bound float64) {
	var todo []choice
	for _, c := range list {
		o, ok := q.seen[c]
		if !ok && q.valid(c) || ok && o.why == nil && !o.pressed && o.score < bound {
			if !slices.Contains(todo, c) {
				todo = append(todo, c)
			}
		}
	}
	results := make([]*outcome, len(todo))
	var wg sync.WaitGroup
	next := make(chan int)
	for range min(q.workers, len(todo)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range next {
				o := q.seen[todo[i]] // nobody writes the map now
				if o == nil {
					o = q.try(todo[i])
				}
				if o.why == nil && o.score < bound {
					q.press(o)
				}
				results[i] = o
			}
		}()
	}
	for i := range todo {
		if q.ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	for i, c := range todo {
		if results[i] != nil {
			q.seen[c] = results[i]
			q.tick()
		}
	}
}

// again scores everything tried so far anew, after what is aimed at has moved.
func (q *searcher) again() {
	for _, o := range q.seen {
		if o.why == nil {
			o.score = q.judge(o, &o.fig, q.aim)
			if o.pressed {
				o.score += q.withstand(o)
			}
		}
	}
}

// get is the outcome of a choice, nil for one that cannot be built.
func (q *searcher) get(c choice) *outcome {
	q.all([]choice{c}, math.Inf(1))
	return q.seen[c]
}

// freedom is which sizes the search may move.
type freedom struct{ primary, jets, top, charge bool }

// groups are the steps that are tried together: a size, or sizes that work on
// the same air.
func groups(free freedom, step int) [][]choice {
	var list [][]choice
	both := func(steps ...choice) {
		var g []choice
		for _, d := range steps {
			g = append(g, d.times(step), d.times(-step))
		}
		list = append(list, g)
	}
	if free.charge {
		both(choice{charge: 2})
	}
	if free.primary {
		both(choice{pd: 1}, choice{pc: 1}, choice{pd: 1, pc: -1})
	}
	if free.jets {
		both(choice{jd: 1}, choice{jc: 1}, choice{jd: 1, jc: -1})
	}
	if free.primary && free.jets {
		both(choice{pd: 1, jd: 1}, choice{pc: 1, jc: 1})
	}
	if free.top {
		both(choice{ring: 1})
		both(choice{top: 1}, choice{top: 1, gap: -1})
		both(choice{gap: 1})
	}
	return list
}

// descend walks downhill: group by group the best step is taken and gone on
// with while it helps, with strides of two sizes first, then of one, until a
// whole round brings nothing or a number of trials is used up.
func (q *searcher) descend(from choice, free freedom, trials int) *outcome {
	best := q.get(from)
	if best == nil {
		return nil
	}
	start := len(q.seen)
	spent := func() bool { return q.ctx.Err() != nil || len(q.seen)-start > trials }
	for step := 2; step >= 1 && !spent(); {
		before := best
		for _, g := range groups(free, step) {
			if spent() {
				break
			}
			next, dir := best, choice{}
			q.all(around(best.c, g), best.score)
			for _, d := range g {
				if o := q.seen[plus(best.c, d)]; o != nil && o.pressed && better(o, next) {
					next, dir = o, d
				}
			}
			for next != best {
				best = next
				on := plus(best.c, dir)
				q.all([]choice{on}, best.score)
				if o := q.seen[on]; o != nil && o.pressed && better(o, best) {
					next = o
				}
			}
		}
		if best == before {
			step--
		}
	}
	return best
}

func around(c choice, steps []choice) []choice {
	list := make([]choice, len(steps))
	for i, d := range steps {
		list[i] = plus(c, d)
	}
	return list
}

// better compares scores; ties go to the choice that comes first, so that the
// order of trying does not matter.
func better(a, b *outcome) bool {
	if math.Abs(a.score-b.score) > 1e-9 || math.IsInf(a.score, 0) != math.IsInf(b.score, 0) {
		return a.score < b.score
	}
	return before(a.c, b.c)
}

func (c choice) list() [8]int {
	return [8]int{c.pd, c.pc, c.jd, c.jc, c.ring, c.top, c.gap, c.charge}
}

func listed(v [8]int) choice { return choice{v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]} }

func before(a, b choice) bool {
	x, y := a.list(), b.list()
	for i := range x {
		if x[i] != y[i] {
			return x[i] < y[i]
		}
	}
	return false
}

func (c choice) times(k int) choice {
	v := c.list()
	for i := range v {
		v[i] *= k
	}
	return listed(v)
}

func plus(a, b choice) choice {
	x, y := a.list(), b.list()
	for i := range x {
		x[i] += y[i]
	}
	return listed(x)
}
