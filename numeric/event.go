package numeric

import (
	"errors"
	"fmt"
	"math"
)

// Event is a continuous function of (t, y) whose zero matters. It is looked
// for between the ends of every step; two zeros within one step are seen only
// when Interior asks for a look between.
type Event struct {
	G         func(t float64, y []float64) float64
	Direction int  // +1 rising only, -1 falling only, 0 both
	Terminal  bool // stop there
	// Interior is how many points within a step are looked at besides its ends.
	Interior int
	// On, if set, is told of every zero: its time and the solution there.
	On func(t float64, y []float64)
}

// Integrate steps to end. Events may be nil. onStep, if set, is called after
// every step (events of that step first) and stops the integration by
// returning false. After a terminal event T() and Y() are at its zero, on the
// far side of it by a rounding error, Event() is its index, and the step guess
// is kept: change the system or the state and Restart, or simply go on.
func (s *Solver) Integrate(end float64, events []Event, onStep func(s *Solver) bool) (Status, error) {
	s.hit = -1
	for i := range events {
		if events[i].G == nil {
			return Failed, fmt.Errorf("event %d has no function", i)
		}
	}
	if s.sys == nil {
		return Failed, errors.New("integration with a solver that was never reset")
	}
	if cap(s.signs) < len(events) {
		s.signs = make([]float64, len(events))
	}
	s.signs = s.signs[:len(events)]
	for i := range events {
		s.signs[i] = events[i].G(s.t, s.y)
	}
	for {
		status, err := s.Step(end)
		if err != nil {
			return status, err
		}
		if len(events) > 0 {
			if s.look(events) {
				status = AtEvent
			}
		}
		if onStep != nil && !onStep(s) {
			return Stopped, nil
		}
		if status != Running {
			return status, nil
		}
	}
}

// Event is the index of the terminal event at which Integrate stopped, -1 if
// it did not.
func (s *Solver) Event() int { return s.hit }

// look finds the zeros within the last step in the order of their index, cuts
// the step at the earliest terminal one and reports whether there was one.
func (s *Solver) look(events []Event) bool {
	s.hit = -1
	stop := s.t
	// Terminal events first: what lies behind the earliest did not happen.
	for i := range events {
		if e := &events[i]; e.Terminal {
			if t, ok := s.zero(e, s.signs[i], stop); ok && (t < stop || s.hit < 0) {
				stop, s.hit = t, i
			}
		}
	}
	for i := range events {
		e := &events[i]
		if !e.Terminal {
			if t, ok := s.zero(e, s.signs[i], stop); ok && e.On != nil {
				s.At(t, s.u)
				e.On(t, s.u)
			}
		}
	}
	if s.hit >= 0 {
		s.Cut(stop)
		if on := events[s.hit].On; on != nil {
			on(s.t, s.y)
		}
	}
	for i := range events {
		g := events[i].G(s.t, s.y)
		if g != 0 || i == s.hit {
			s.signs[i] = g
		}
	}
	return s.hit >= 0
}

// zero looks for the first zero of e between the start of the last step, where
// it was g0, and the time stop. The answer is the far end of the last bracket.
func (s *Solver) zero(e *Event, g0, stop float64) (float64, bool) {
	if g0 == 0 || math.IsNaN(g0) {
		return 0, false
	}
	a, ga := s.told, g0
	for k := 1; k <= e.Interior+1; k++ {
		b := stop
		if k <= e.Interior {
			b = s.told + (stop-s.told)*float64(k)/float64(e.Interior+1)
		}
		gb := s.value(e, b)
		if ga != 0 && (gb == 0 || (ga < 0) != (gb < 0)) && !math.IsNaN(gb) &&
			(e.Direction == 0 || (e.Direction > 0) == (ga < 0)) {
			br := newBracket(a, ga, b, gb)
			for !br.done(0x1p-52 * s.h) {
				x := br.next()
				br.set(x, s.value(e, x))
			}
			// The end of the bracket on the side of b.
			return br.side(gb), true
		}
		a = b
		if gb != 0 {
			ga = gb
		}
	}
	return 0, false
}

func (s *Solver) value(e *Event, t float64) float64 {
	if t == s.t {
		return e.G(t, s.y)
	}
	s.At(t, s.u)
	return e.G(t, s.u)
}

// Cut ends the last step at t within it, on the dense output: something that
// turned out to happen there changes what follows.
func (s *Solver) Cut(t float64) {
	if t == s.t {
		return
	}
	full := s.h
	s.prepare()
	s.detach()
	s.At(t, s.y)
	s.t = t
	s.hnext = max(s.hnext, full)
	s.f0ok, s.jacok = false, false
	s.hacc = 0
}
