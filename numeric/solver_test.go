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

func TestNoAllocations(t *testing.T) {
	var s Solver
	p := problems.All()[1]
	run := func() {
		if err := s.Reset(p.Sys, 0, p.Start, Options{RTol: 1e-5, ATol: 1e-9}); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Integrate(p.End, nil, nil); err != nil {
			t.Fatal(err)
		}
	}
	run()
	if n := testing.AllocsPerRun(5, run); n != 0 {
		t.Errorf("%g allocations in a run on a used solver", n)
	}
}
