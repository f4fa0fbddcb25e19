package sim

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"toplit/firing"
	"toplit/numeric"
	"toplit/physics/flame"
)

// Moments of one burn [s after lighting]; NaN where a moment never came.
type Moments struct {
	JetsLit, FrontAtGrate, YellowGone, FlameOut, GlowEnd, Boil, PotOn float64
}

// tolerances of one run.
type tolerances struct {
	rtol float64
	max  float64 // longest step [s]
}

var shippedTol = tolerances{rtol: 3e-4, max: 240}

// burner integrates models one after another and keeps its storage.
type burner struct {
	model
	solver numeric.Solver
	y      []float64
	atol   []float64
	seen   watch
	track  track
}

const (
	longest  = 4 * 3600.0          // no burn is followed longer [s]
	glowEnd  = 773.0               // [K]
	coldBed  = 600.0               // the burn is over when the bed has cooled to this [K]
	frontEnd = 0.03                // raw share at which the front is said to be at the grate
	yellow   = flame.SootThreshold // share of hydrocarbons in the burning gas below which no yellow is seen
)

// watch finds the moments step by step.
type watch struct {
	m                             Moments
	flame, raw, soot, bed, hot    float64 // last values of the watched functions
	everHot                       bool
	baseMax, groundMax            float64
	atJets, atOut, atGrate, atPot []float64 // states at those moments
	begun                         bool
}

func (w *watch) reset() {
	n := math.NaN()
	*w = watch{m: Moments{n, n, n, n, n, n, n}, atJets: w.atJets, atOut: w.atOut, atGrate: w.atGrate, atPot: w.atPot}
}

var errRun = errors.New("burn could not be computed")

// run integrates one sample to the end of its burn.
func (b *burner) run(s *site, p Params, w widths, tol tolerances, grid float64) error {
	if err := b.reset(s, p, w); err != nil {
		return err
	}
	if len(b.y) != b.dim {
		b.y = make([]float64, b.dim)
		b.atol = make([]float64, b.dim)
	}
	for i := range b.atol {
		b.atol[i] = math.Inf(1)
	}
	for i := 0; i < b.active; i++ {
		b.atol[i] = tol.rtol * b.scale[i]
	}
	for _, i := range []int{iTBed, iTGas, iTFlame, iTAir} {
		b.atol[i] = tol.rtol * 100
	}
	for _, i := range []int{iRaw, iStart, b.mass} { // stocks that run out
		b.atol[i] *= 1e-3
	}
	for i := b.quad; i < b.dim; i++ {
		b.atol[i] = 1
	}
	b.model.start(b.y)
	b.seen.reset()
	b.track.reset(grid, b.dim)
	opt := numeric.Options{RTol: tol.rtol, ATols: b.atol, MaxStep: tol.max, Quadratures: nQuads, Autonomous: b.gusts == 0, Pattern: b.pattern, FirstStep: 0.1, MaxSteps: 20000}
	plan := newPlan(b.cond.Schedule, b.cond.Pot != nil)
	acts := plan.now(0)
	b.apply(acts)
	if err := b.solver.Reset(&b.model, 0, b.y, opt); err != nil {
		return err
	}
	b.track.add(b, 0)
	if b.on.pot {
		b.seen.m.PotOn = 0
		keep(&b.seen.atPot, b.y)
	}
	for b.solver.T() < longest {
		next := min(plan.next(&b.seen.m), longest)
		if next > b.solver.T() {
			status, err := b.solver.Step(next)
			if err != nil {
				return fmt.Errorf("%w: %w", errRun, err)
			}
			before := b.seen
			b.watch()
			if due := plan.next(&b.seen.m); due >= b.solver.Prev() && due < b.solver.T() {
				b.back(before, due)
				status = numeric.Running
			}
			b.track.fill(b)
			if b.over() {
				break
			}
			if status != numeric.Reached && !(plan.next(&b.seen.m) <= b.solver.T()) {
				continue
			}
		}
		acts := plan.take(b.solver.T(), &b.seen.m)
		if len(acts) == 0 {
			continue
		}
		for _, a := range acts {
			if a == firing.PotOn {
				b.seen.m.PotOn = b.solver.T()
				keep(&b.seen.atPot, b.solver.Y())
			}
			if a == firing.End {
				b.finish()
				return nil
			}
		}
		b.apply(acts)
		if err := b.solver.Restart(nil, 0.3); err != nil {
			return err
		}
	}
	b.finish()
	return nil
}

// back ends the last step where an act tied to a moment within it came due, so
// that the act is not done late by what was left of the step. A hair later than
// due: the moment itself has to be behind.
func (b *burner) back(before watch, due float64) {
	t := min(due+1e-5*(1+due), b.solver.T())
	b.solver.Cut(t)
	b.Rate(t, b.solver.Y(), b.track.work)
	now := b.seen
	b.seen = before
	b.seen.atJets, b.seen.atOut, b.seen.atGrate, b.seen.atPot = now.atJets, now.atOut, now.atGrate, now.atPot
	b.watch()
}

// over says that nothing more will happen.
func (b *burner) over() bool {
	y, t := b.solver.Y(), b.solver.T()
	if b.seen.everHot {
		return y[iTBed] < coldBed && y[iFlame] < 0.1
	}
	return t > 300 && y[iStart] < 1e-3*b.start0+1e-9 && y[iTBed] < coldBed && y[iLit] < 0.01
}

// watch looks at the last step for crossings and finds each on the dense
// output.
func (b *burner) watch() {
	y := b.solver.Y()
	w := &b.seen
	t0, t1 := b.solver.Prev(), b.solver.T()
	find := func(g func(y []float64) float64) float64 { return b.root(t0, t1, g) }
	burning := func(y []float64) float64 { return y[iFlame] - 0.5 }
	raw := func(y []float64) float64 { return y[iRaw] - frontEnd*b.dry0 }
	bedT := func(y []float64) float64 { return y[iTBed] - glowEnd }
	water := func(y []float64) float64 { return b.tBoil + y[b.water] - (b.tSat - b.boilMargin()) }
	f, r, g, h := burning(y), raw(y), bedT(y), water(y)
	if !w.begun {
		w.begun = true
		w.flame, w.raw, w.bed, w.hot = -0.5, 1, -1, -1
	}
	if w.flame < 0 && f >= 0 && math.IsNaN(w.m.JetsLit) {
		w.m.JetsLit = find(burning)
		keep(&w.atJets, b.track.work)
	}
	if w.flame >= 0 && f < 0 {
		w.m.FlameOut = find(burning)
		keep(&w.atOut, b.track.work)
	}
	if w.flame < 0 && f >= 0 {
		w.m.FlameOut = math.NaN()
	}
	if w.raw >= 0 && r < 0 {
		w.m.FrontAtGrate = find(raw)
		keep(&w.atGrate, b.track.work)
	}
	if w.bed >= 0 && g < 0 {
		w.m.GlowEnd = find(bedT)
	}
	if w.bed < 0 && g >= 0 {
		w.m.GlowEnd = math.NaN()
		w.everHot = true
	}
	if b.cond.Pot != nil && w.hot < 0 && h >= 0 && math.IsNaN(w.m.Boil) && b.on.pot {
		w.m.Boil = find(water)
	}
	w.flame, w.raw, w.bed, w.hot = f, r, g, h
	s := b.soot()
	if w.soot >= yellow && s < yellow {
		w.m.YellowGone = t1 // refined below by linear interpolation
		w.m.YellowGone = t0 + (t1-t0)*(w.soot-yellow)/(w.soot-s)
	}
	w.soot = s
	w.baseMax = max(w.baseMax, y[b.base])
	w.groundMax = max(w.groundMax, y[b.ground])
}

func keep(to *[]float64, y []float64) { *to = append((*to)[:0], y...) }

func (b *burner) boilMargin() float64 {
	if b.tSat < b.tBoil {
		return 0
	}
	return b.w.boil / 2
}

// soot is the share of tar and methane in what burns, with the flame: the
// yellow that is seen.
func (b *burner) soot() float64 { return b.yellow * step(b.solver.Y()[iFlame]-0.5, 0.8) }

// root finds where g passes zero on the dense output of the last step.
func (b *burner) root(t0, t1 float64, g func([]float64) float64) float64 {
	y := b.track.work
	at := func(t float64) float64 { b.solver.At(t, y); return g(y) }
	g0, g1 := at(t0), at(t1)
	if g0*g1 > 0 {
		return t1
	}
	for range 60 {
		t := t0 + (t1-t0)*0.5
		if t1-t0 < 1e-6*(1+t1) {
			return t
		}
		v := at(t)
		if v*g0 > 0 {
			t0, g0 = t, v
		} else {
			t1 = t
		}
	}
	return t1
}

func (b *burner) finish() {
	if b.solver.Y()[iFlame] >= 0.5 {
		b.seen.m.FlameOut = math.NaN()
	}
	if b.solver.Y()[iTBed] >= glowEnd {
		b.seen.m.GlowEnd = math.NaN()
	}
}

// plan is the schedule in the order it comes due.
type plan struct {
	todo []firing.Action
}

func newPlan(actions []firing.Action, pot bool) *plan {
	p := &plan{todo: append([]firing.Action(nil), actions...)}
	sort.SliceStable(p.todo, func(i, j int) bool { return p.todo[i].At < p.todo[j].At })
	has := false
	for _, a := range actions {
		has = has || a.Do == firing.PotOn
	}
	if pot && !has {
		p.todo = append(p.todo, firing.Action{Do: firing.PotOn})
	}
	return p
}

func (p *plan) due(a firing.Action, m *Moments) float64 {
	base := 0.0
	switch a.After {
	case firing.JetsLit:
		base = m.JetsLit
	case firing.FrontBottom:
		base = m.FrontAtGrate
	case firing.YellowGone:
		base = m.YellowGone
	case firing.FlameOut:
		base = m.FlameOut
	case firing.Boil:
		base = m.Boil
	case firing.GlowEnd:
		base = m.GlowEnd
	}
	if math.IsNaN(base) {
		return math.Inf(1)
	}
	return base + a.At
}

// next is when the next act comes due, as far as is known now.
func (p *plan) next(m *Moments) float64 {
	t := math.Inf(1)
	for _, a := range p.todo {
		t = min(t, p.due(a, m))
	}
	return t
}

// take removes and returns what is due by t.
func (p *plan) take(t float64, m *Moments) []firing.Act {
	var acts []firing.Act
	rest := p.todo[:0]
	for _, a := range p.todo {
		if p.due(a, m) <= t {
			acts = append(acts, a.Do)
		} else {
			rest = append(rest, a)
		}
	}
	p.todo = rest
	return acts
}

func (p *plan) now(t float64) []firing.Act {
	n := math.NaN()
	acts := p.take(t, &Moments{n, n, n, n, n, n, n})
	// A part that is put on later is not there at lighting.
	for _, a := range p.todo {
		switch a.Do {
		case firing.RingOn:
			acts = append(acts, firing.RingOff)
		case firing.RiserOn:
			acts = append(acts, firing.RiserOff)
		case firing.StandOn:
			acts = append(acts, firing.StandOff)
		}
	}
	return acts
}

// with sets what stands on the stove.
func (m *model) with(on parts) {
	if m.on != on {
		m.on = on
		m.setTop()
	}
}

// apply puts parts on or takes them off.
func (m *model) apply(acts []firing.Act) {
	for _, a := range acts {
		switch a {
		case firing.PotOn:
			m.on.pot = true
		case firing.PotOff:
			m.on.pot = false
		case firing.RingOn:
			m.on.ring = true
		case firing.RingOff:
			m.on.ring = false
		case firing.RiserOn:
			m.on.riser = true
		case firing.RiserOff:
			m.on.riser = false
		case firing.StandOn:
			m.on.stand = true
		case firing.StandOff:
			m.on.stand = false
		case firing.Snuff:
			m.on.snuffed = true
		}
	}
	m.setTop()
}

// track keeps the state on a regular grid of times.
type track struct {
	grid float64
	t    []float64
	y    [][]float64
	on   []parts // what stood on the stove then
	work []float64
}

func (k *track) reset(grid float64, dim int) {
	k.grid = grid
	k.t = k.t[:0]
	k.y = k.y[:0]
	k.on = k.on[:0]
	if len(k.work) != dim {
		k.work = make([]float64, dim)
	}
}

func (k *track) add(b *burner, t float64) {
	n := len(k.y)
	if n < cap(k.y) {
		k.y = k.y[:n+1]
	} else {
		k.y = append(k.y, nil)
	}
	if len(k.y[n]) != b.dim {
		k.y[n] = make([]float64, b.dim)
	}
	b.solver.At(t, k.y[n])
	k.t = append(k.t, t)
	k.on = append(k.on, b.on)
}

func (k *track) fill(b *burner) {
	if k.grid <= 0 {
		return
	}
	for {
		t := float64(len(k.t)) * k.grid
		if t > b.solver.T() {
			return
		}
		k.add(b, t)
	}
}
