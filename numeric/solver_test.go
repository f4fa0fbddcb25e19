package numeric

import (
	"errors"
	"math"
	"testing"

	"toplit/numeric/problems"
)

// Every test problem ends within a hundred tolerances of its reference, with
// and without a Jacobian of its own.
func TestProblems(t *testing.T) {
	var s Solver
	for _, p := range problems.All() {
		for _, sys := range []System{p.Sys, plain{p.Sys}} {
			for _, tol := range []float64{1e-4, 1e-6, 1e-8} {
				if err := s.Reset(sys, 0, p.Start, Options{RTol: tol, ATol: tol * p.Scale, Autonomous: true}); err != nil {
					t.Fatal(err)
				}
				status, err := s.Integrate(p.End, nil, nil)
				if err != nil || status != Reached || s.T() != p.End {
					t.Fatalf("%s: %v at %g: %v", p.Name, status, s.T(), err)
				}
				if e := p.Error(s.Y()); e > 100*tol {
					t.Errorf("%s at %g: relative error %.3g", p.Name, tol, e)
				}
			}
		}
	}
}

// plain hides the Jacobian of a system.
type plain struct{ System }

// falling is a body dropped from rest with its distance integrated twice: as a
// state and as a quadrature.
type falling struct{ kick float64 }

func (falling) Dim() int { return 3 }
func (p falling) Rate(t float64, y, d []float64) {
	d[0] = -p.kick
	d[1] = y[0]
	d[2] = y[0]
}

func TestEvents(t *testing.T) {
	var s Solver
	p := falling{kick: 2}
	opt := Options{RTol: 1e-6, ATol: 1e-12, Quadratures: 1}
	if err := s.Reset(&p, 0, []float64{1, 0, 0}, opt); err != nil {
		t.Fatal(err)
	}
	var top float64
	events := []Event{
		{G: func(_ float64, y []float64) float64 { return y[0] }, Direction: -1, On: func(t float64, _ []float64) { top = t }},
		{G: func(_ float64, y []float64) float64 { return y[1] + 2 }, Terminal: true},
	}
	status, err := s.Integrate(10, events, nil)
	if err != nil || status != AtEvent || s.Event() != 1 {
		t.Fatalf("%v, event %d: %v", status, s.Event(), err)
	}
	// t − t² = −2 at t = 2; v = 1 − 2t = 0 at 1/2.
	if math.Abs(top-0.5) > 1e-12 || math.Abs(s.T()-2) > 1e-12 || math.Abs(s.Y()[1]+2) > 1e-12 {
		t.Errorf("top at %.17g, end at %.17g with %v", top, s.T(), s.Y())
	}
	if s.Y()[1] != s.Y()[2] {
		t.Errorf("state %v and quadrature %v differ", s.Y()[1], s.Y()[2])
	}
	// The dense output of the cut step is still that of the whole step.
	if v := s.AtOne(1, 1); math.Abs(v) > 1e-12 && s.Prev() <= 1 {
		t.Errorf("distance at 1: %g, want 0", v)
	}
	// Turn round and go on: the event does not fire twice.
	p.kick = -2
	guess := s.NextStep()
	if err := s.Restart(nil, 0); err != nil || s.NextStep() != guess {
		t.Fatal(err, guess, s.NextStep())
	}
	status, err = s.Integrate(10, events, nil)
	// From y = −2, v = −3 with acceleration 2: back at −2 after 3.
	if err != nil || status != AtEvent || math.Abs(s.T()-5) > 1e-11 {
		t.Errorf("%v at %.17g: %v", status, s.T(), err)
	}
}

// hole is not defined below 1/2.
type hole struct{}

func (hole) Dim() int { return 1 }
func (hole) Rate(_ float64, y, d []float64) {
	d[0] = -1
	if y[0] < 0.5 {
		d[0] = math.NaN()
	}
}

func TestNotFinite(t *testing.T) {
	var s Solver
	if err := s.Reset(hole{}, 0, []float64{1}, Options{}); err != nil {
		t.Fatal(err)
	}
	status, err := s.Integrate(1, nil, nil)
	var e *StepError
	if status != Failed || !errors.As(err, &e) || !errors.Is(err, ErrStep) {
		t.Fatalf("%v: %v", status, err)
	}
	if math.Abs(e.T-0.5) > 1e-6 || e.Component != 0 || e.H <= 0 {
		t.Errorf("gave up with %+v, want t just before 0.5", e)
	}
}

// A used solver allocates nothing: with differences along a pattern, events,
// dense output and restarts.
func TestNoAllocations(t *testing.T) {
	var s Solver
	sys := &chains{core: 12, chain: 8, quad: 12}
	p := sys.pattern(t)
	y0, mid := sys.start(), make([]float64, 3)
	hot := 0.0
	events := []Event{
		{G: func(_ float64, y []float64) float64 { return y[1] - 0.5 }, On: func(t float64, _ []float64) { hot = t }},
		{G: func(_ float64, y []float64) float64 { return y[0] - 0.4 }, Terminal: true},
	}
	each := func(s *Solver) bool { s.At(0.5*(s.Prev()+s.T()), mid); return true }
	run := func() {
		if err := s.Reset(sys, 0, y0, Options{RTol: 1e-5, ATol: 1e-9, Quadratures: 12, Pattern: p}); err != nil {
			t.Fatal(err)
		}
		if status, err := s.Integrate(200, events, each); status != AtEvent || err != nil {
			t.Fatal(status, err)
		}
		if err := s.Restart(nil, 0); err != nil {
			t.Fatal(err)
		}
		if status, err := s.Integrate(200, events, each); status != Reached || err != nil {
			t.Fatal(status, err)
		}
	}
	run()
	if n := testing.AllocsPerRun(5, run); n != 0 || hot == 0 {
		t.Errorf("%g allocations in a run on a used solver", n)
	}
}

// With nothing happening steps grow without limit and nothing overflows.
func TestStandstill(t *testing.T) {
	var s Solver
	if err := s.Reset(pulseless{}, 0, []float64{0}, Options{FirstStep: 1e-300, ATol: 1e-300}); err != nil {
		t.Fatal(err)
	}
	for end := 1e-290; end < 1e290; end *= 1e10 {
		if status, err := s.Integrate(end, nil, nil); status != Reached || err != nil || s.Y()[0] != 0 {
			t.Fatal(status, err, s.Y())
		}
	}
}

// closed is Robertson's reaction with its product as a quadrature.
type closed struct{ problems.Rober }

func (p closed) Jacobian(t float64, y, _, j []float64) {
	var full [9]float64
	p.Rober.Jacobian(t, y, nil, full[:])
	for i := range 3 {
		j[2*i], j[2*i+1] = full[3*i], full[3*i+1]
	}
}

// open is a reaction chain whose losses are quadratures: a, b, c react, what
// leaves is counted.
type open struct{}

func (open) Dim() int { return 5 }
func (open) Rate(t float64, y, d []float64) {
	r, s := 40*y[0]*y[1], 1e3*y[2]*y[2]
	in, out := 1+math.Sin(t), 0.3*y[2]
	d[0] = in - r
	d[1] = s - 0.5*r
	d[2] = 1.5*r - s - out
	d[3], d[4] = in, out
}

// A linear conservation law that links states and quadratures holds to
// rounding with an analytic Jacobian and to the accuracy of the differences,
// some 1e-9 of what flowed, with a differenced one.
func TestConservation(t *testing.T) {
	var s Solver
	run := func(sys System, y0 []float64, end float64, quad int) float64 {
		if err := s.Reset(sys, 0, y0, Options{RTol: 1e-4, ATol: 1e-10, Quadratures: quad, FirstStep: 1e-3}); err != nil {
			t.Fatal(err)
		}
		total := func(y []float64) float64 {
			if len(y) == 3 {
				return y[0] + y[1] + y[2]
			}
			return y[0] + y[1] + y[2] - y[3] + y[4]
		}
		start, worst := total(y0), 0.0
		mid := make([]float64, len(y0))
		if _, err := s.Integrate(end, nil, func(s *Solver) bool {
			s.At(0.5*s.Prev()+0.5*s.T(), mid)
			worst = max(worst, math.Abs(total(s.Y())-start), math.Abs(total(mid)-start))
			return true
		}); err != nil {
			t.Fatal(err)
		}
		return worst
	}
	if d := run(closed{}, []float64{1, 0, 0}, 1e6, 1); d > 1e-13 {
		t.Errorf("analytic Jacobian: drift %g", d)
	}
	if d := run(plain{closed{}}, []float64{1, 0, 0}, 1e6, 1); d > 1e-9 {
		t.Errorf("differenced Jacobian: drift %g", d)
	}
	if d := run(open{}, []float64{1, 1, 0, 0, 0}, 100, 2); d > 1e-7 {
		t.Errorf("chain with 100 flowing through: drift %g", d)
	}
}

// A quadrature is the state it would have been, and takes no part in the error
// unless told to.
func TestQuadratures(t *testing.T) {
	var a, b Solver
	y0 := []float64{1, 1, 0, 0, 0}
	opt := Options{RTol: 1e-7, ATol: 1e-9, FirstStep: 1e-3}
	if err := a.Reset(open{}, 0, y0, opt); err != nil {
		t.Fatal(err)
	}
	opt.Quadratures, opt.ControlQuadratures = 2, true
	if err := b.Reset(open{}, 0, y0, opt); err != nil {
		t.Fatal(err)
	}
	for _, s := range []*Solver{&a, &b} {
		if _, err := s.Integrate(20, nil, nil); err != nil {
			t.Fatal(err)
		}
	}
	for i, v := range a.Y() {
		if math.Abs(v-b.Y()[i]) > 1e-6*(1+math.Abs(v)) {
			t.Errorf("component %d: %g as a state, %g as a quadrature", i, v, b.Y()[i])
		}
	}
	if math.Abs(b.Y()[3]-(20+1-math.Cos(20))) > 1e-5 {
		t.Errorf("inflow %g", b.Y()[3])
	}
}

// pulse is y' = 1 within a gate and 0 outside, its edges known to the caller.
type pulse struct{ on bool }

func (pulse) Dim() int { return 1 }
func (p *pulse) Rate(_ float64, y, d []float64) {
	d[0] = -1e3 * y[0]
	if p.on {
		d[0] += 1e3
	}
}

// After a discontinuity the step guess is kept or set, and the solution is
// exact on both sides.
func TestRestart(t *testing.T) {
	var s Solver
	p := &pulse{}
	if err := s.Restart(nil, 0); err == nil {
		t.Error("restart before reset")
	}
	if err := s.Reset(p, 0, []float64{0}, Options{RTol: 1e-6, ATol: 1e-9, Autonomous: true}); err != nil {
		t.Fatal(err)
	}
	for k := range 10 {
		if status, err := s.Integrate(float64(k+1), nil, nil); status != Reached || err != nil {
			t.Fatal(status, err)
		}
		want := 0.0
		if p.on {
			want = 1
		}
		if math.Abs(s.Y()[0]-want) > 1e-6 {
			t.Errorf("%g at %g, want %g", s.Y()[0], s.T(), want)
		}
		p.on = !p.on
		if err := s.Restart(nil, 1e-5); err != nil || s.NextStep() != 1e-5 {
			t.Fatal(err, s.NextStep())
		}
	}
	if st := s.Stats(); st.Steps > 400 {
		t.Errorf("%d steps for ten edges", st.Steps)
	}
	// A changed state leaves the dense output of the step before it alone.
	before := s.AtOne(s.T(), 0)
	if err := s.Restart([]float64{0.25}, 0); err != nil {
		t.Fatal(err)
	}
	if s.Y()[0] != 0.25 || s.AtOne(s.T(), 0) != before {
		t.Errorf("state %g, dense output %g, want 0.25 and %g", s.Y()[0], s.AtOne(s.T(), 0), before)
	}
	for _, bad := range [][]float64{{1, 2}, {math.NaN()}} {
		if err := s.Restart(bad, 0); err == nil {
			t.Errorf("restart with %v accepted", bad)
		}
	}
	if err := s.Restart(nil, -1); err == nil {
		t.Error("negative step accepted")
	}
}

// orbit is y” = −y.
type orbit struct{}

func (orbit) Dim() int                       { return 2 }
func (orbit) Rate(_ float64, y, d []float64) { d[0], d[1] = y[1], -y[0] }

func TestEventChoices(t *testing.T) {
	var s Solver
	sine := func(_ float64, y []float64) float64 { return y[0] }
	start := func() {
		if err := s.Reset(orbit{}, 0, []float64{0, 1}, Options{RTol: 1e-9, ATol: 1e-12}); err != nil {
			t.Fatal(err)
		}
	}
	var up, down, both []float64
	note := func(to *[]float64) func(float64, []float64) {
		return func(t float64, _ []float64) { *to = append(*to, t/math.Pi) }
	}
	start()
	if _, err := s.Integrate(20, []Event{
		{G: sine, Direction: 1, On: note(&up)},
		{G: sine, Direction: -1, On: note(&down)},
		{G: sine, On: note(&both)},
	}, nil); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		got, want []float64
	}{{up, []float64{2, 4, 6}}, {down, []float64{1, 3, 5}}, {both, []float64{1, 2, 3, 4, 5, 6}}} {
		if len(c.got) != len(c.want) {
			t.Fatalf("zeros at %v π, want %v", c.got, c.want)
		}
		for i, w := range c.want {
			if math.Abs(c.got[i]-w) > 1e-7 {
				t.Errorf("zeros at %v π, want %v", c.got, c.want)
			}
		}
	}
	// Two zeros within one step are seen with points between.
	bump := func(t float64, _ []float64) float64 { return (t - 1.5) * (t - 1.6) }
	for _, c := range []struct{ interior, want int }{{0, 0}, {200, 1}} {
		found := 0
		if err := s.Reset(pulseless{}, 0, []float64{1}, Options{FirstStep: 10}); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Integrate(10, []Event{{G: bump, Interior: c.interior, On: func(t float64, _ []float64) {
			found++
			if math.Abs(t-1.5) > 1e-12 {
				t = 0
			}
		}}}, nil); err != nil {
			t.Fatal(err)
		}
		if found != c.want {
			t.Errorf("%d interior points: %d zeros", c.interior, found)
		}
	}
	// The earliest of two terminal events stops; what lies behind it is not told.
	start()
	var late []float64
	status, err := s.Integrate(20, []Event{
		{G: func(t float64, _ []float64) float64 { return t - 3.0001 }, Terminal: true},
		{G: func(t float64, _ []float64) float64 { return t - 3 }, Terminal: true},
		{G: func(t float64, _ []float64) float64 { return t - 3.00005 }, On: note(&late)},
	}, nil)
	if err != nil || status != AtEvent || s.Event() != 1 || math.Abs(s.T()-3) > 1e-14 || len(late) != 0 {
		t.Errorf("%v, event %d at %.17g, later ones %v: %v", status, s.Event(), s.T(), late, err)
	}
	// Stopping by hand.
	start()
	n := 0
	status, err = s.Integrate(20, nil, func(*Solver) bool { n++; return n < 5 })
	if err != nil || status != Stopped || s.Stats().Steps != 5 {
		t.Errorf("%v after %d steps: %v", status, s.Stats().Steps, err)
	}
}

// pulseless is y' = 0.
type pulseless struct{}

func (pulseless) Dim() int                       { return 1 }
func (pulseless) Rate(_ float64, _, d []float64) { d[0] = 0 }

// A solver changes size between runs.
func TestReuse(t *testing.T) {
	var s Solver
	for range 2 {
		for _, p := range problems.All() {
			if err := s.Reset(p.Sys, 0, p.Start, Options{RTol: 1e-6, ATol: 1e-6 * p.Scale}); err != nil {
				t.Fatal(err)
			}
			if _, err := s.Integrate(p.End, nil, nil); err != nil {
				t.Fatal(err)
			}
			if e := p.Error(s.Y()); e > 1e-5 {
				t.Errorf("%s: error %g", p.Name, e)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	var s Solver
	if _, err := s.Step(1); err == nil {
		t.Error("step before reset")
	}
	if _, err := s.Integrate(1, nil, nil); err == nil {
		t.Error("integration before reset")
	}
	p, err := NewPattern(3, 0, [][]int{nil, nil, nil}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range []Options{
		{RTol: -1}, {RTol: math.NaN()}, {RTol: 1}, {ATol: -1}, {ATols: []float64{1}}, {ATols: []float64{1, -1}},
		{FirstStep: -1}, {MaxStep: -1}, {MaxSteps: -1}, {Quadratures: 2}, {Quadratures: -1}, {Pattern: p},
	} {
		if err := s.Reset(orbit{}, 0, []float64{1, 0}, o); err == nil {
			t.Errorf("options %d accepted: %+v", i, o)
		}
	}
	if err := s.Reset(nil, 0, nil, Options{}); err == nil {
		t.Error("no system accepted")
	}
	for _, y := range [][]float64{{1}, {1, math.Inf(1)}} {
		if err := s.Reset(orbit{}, 0, y, Options{}); err == nil {
			t.Errorf("start %v accepted", y)
		}
	}
	if err := s.Reset(orbit{}, math.NaN(), []float64{1, 0}, Options{}); err == nil {
		t.Error("start at NaN accepted")
	}
	if err := s.Reset(orbit{}, 0, []float64{1, 0}, Options{MaxSteps: 3, MaxStep: 0.1, ATols: []float64{1, 1}}); err != nil {
		t.Fatal(err)
	}
	for _, end := range []float64{math.Inf(1), math.NaN()} {
		if _, err := s.Step(end); err == nil {
			t.Errorf("step to %g accepted", end)
		}
	}
	if _, err := s.Step(-1); err == nil {
		t.Error("step backwards accepted")
	}
	if _, err := s.Integrate(1, []Event{{}}, nil); err == nil {
		t.Error("event without a function accepted")
	}
	var e *StepError
	if _, err := s.Integrate(1, nil, nil); !errors.As(err, &e) || e.Component != -1 || s.Stats().Steps != 3 {
		t.Errorf("limit on steps: %v after %d", err, s.Stats().Steps)
	}
}
