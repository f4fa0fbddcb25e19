package numeric

import (
	"errors"
	"fmt"
	"math"
)

// Solver integrates y' = f(t, y) from t0 forwards, one adaptive step at a time.
// The zero value is ready for Reset. After the first Reset for a size it
// allocates nothing, so that a Solver may be kept in a sync.Pool; it is not for
// use by two goroutines at once.
type Solver struct {
	sys    System
	jsys   JacobianSystem
	tsys   TimeDerivativeSystem
	opt    Options
	rtol   float64
	diff   float64 // relative increment of differences
	limit  int
	n      int  // active components
	nc     int  // components in the error of a step
	still  bool // f does not depend on t
	full   bool // the system supplies its whole Jacobian
	stats  Stats
	t, h   float64   // end of the last step and its length
	told   float64   // start of the last step
	hnext  float64   // next step to try
	hacc   float64   // last accepted step, 0 before the first
	eacc   float64   // its error
	f0ok   bool      // f0 is f(t, y)
	jacok  bool      // jac and ft belong to (t, y)
	dense  bool      // the vectors d belong to the last step
	signs  []float64 // last value of each event function
	hit    int       // event that ended the last step, -1 none
	y      []float64 // solution at t
	yold   []float64 // at told
	yend   []float64 // at told+h; y unless an event cut the step short
	ynew   []float64
	spare  []float64
	u, f   []float64 // trial point and its rate; k is summed in place
	f0, f1 []float64 // rate at (t, y) and at the trial end
	ft     []float64
	k      [8][]float64
	d      [3][]float64
	yj     []float64    // perturbed point of a differenced Jacobian
	del    []float64    // its perturbations
	jac    []float64    // (n+q)×n
	w      []float64    // n×n, factored, and n of scratch
	sparse *elimination // nil: dense, with pivoting
	piv    []int32
	atols  []float64
	store  []float64
}

// Reset starts an integration of sys from y0 at t0. Storage is kept from
// earlier runs where it fits; y0 is copied.
func (s *Solver) Reset(sys System, t0 float64, y0 []float64, opt Options) error {
	if sys == nil {
		return errors.New("no system to integrate")
	}
	dim := sys.Dim()
	if err := opt.check(dim); err != nil {
		return err
	}
	if len(y0) != dim {
		return fmt.Errorf("%d start values for %d components, want one each", len(y0), dim)
	}
	if math.IsNaN(t0) || math.IsInf(t0, 0) {
		return fmt.Errorf("start time %g, want a finite number", t0)
	}
	for i, v := range y0 {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("start value %g of component %d, want a finite number", v, i)
		}
	}
	s.sys, s.opt = sys, opt
	s.jsys, _ = sys.(JacobianSystem)
	s.tsys, _ = sys.(TimeDerivativeSystem)
	s.still = opt.Autonomous
	s.full = s.jsys != nil && (opt.Pattern == nil || !opt.Pattern.analytic)
	s.rtol, s.limit = opt.RTol, opt.MaxSteps
	if s.rtol == 0 {
		s.rtol = defaultRTol
	}
	s.diff = opt.DiffStep
	if s.diff == 0 {
		s.diff = min(max(1e-3*s.rtol, diffLeast), diffMost)
	}
	if s.limit == 0 {
		s.limit = defaultMaxSteps
	}
	n := dim - opt.Quadratures
	s.nc = n
	if opt.ControlQuadratures {
		s.nc = dim
	}
	s.size(n, dim)
	if opt.ATols != nil {
		copy(s.atols, opt.ATols)
	} else {
		a := opt.ATol
		if a == 0 {
			a = defaultATol
		}
		for i := range s.atols {
			s.atols[i] = a
		}
	}
	copy(s.y, y0)
	s.t, s.told, s.h = t0, t0, 0
	s.yend = s.y
	copy(s.yold, y0)
	s.hnext, s.hacc, s.eacc = opt.FirstStep, 0, 0
	s.f0ok, s.jacok = false, false
	for i := range s.d {
		clear(s.d[i])
	}
	s.dense = true // a polynomial of degree 0 until the first step
	s.stats = Stats{}
	s.hit = -1
	return nil
}

// size cuts the work vectors from one block.
func (s *Solver) size(n, dim int) {
	if s.n == n && len(s.y) == dim {
		return
	}
	s.n = n
	vectors := 12 + len(s.k) + len(s.d)
	need := vectors*dim + dim*n + n*n + n
	if cap(s.store) < need {
		s.store = make([]float64, need)
	}
	rest := s.store[:need]
	cut := func(m int) []float64 {
		v := rest[:m:m]
		rest = rest[m:]
		return v
	}
	for _, p := range []*[]float64{&s.y, &s.yold, &s.ynew, &s.spare, &s.u, &s.f, &s.f0, &s.f1, &s.ft, &s.yj, &s.del, &s.atols} {
		*p = cut(dim)
	}
	for i := range s.k {
		s.k[i] = cut(dim)
	}
	for i := range s.d {
		s.d[i] = cut(dim)
	}
	s.jac = cut(dim * n)
	s.w = cut(n*n + n)
	if cap(s.piv) < n {
		s.piv = make([]int32, n)
	}
	s.piv = s.piv[:n]
}

// Restart says that f or y changed abruptly at T(): a schedule change, a root
// event acted upon. y replaces the solution, nil keeps it. step is the next
// step to try, 0 keeps the current guess. Everything else goes on: counters,
// tolerances, the limit on steps.
func (s *Solver) Restart(y []float64, step float64) error {
	if s.sys == nil {
		return errors.New("restart of a solver that was never reset")
	}
	if y != nil {
		if len(y) != len(s.y) {
			return fmt.Errorf("%d values for %d components, want one each", len(y), len(s.y))
		}
		for i, v := range y {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("restart value %g of component %d, want a finite number", v, i)
			}
		}
		s.detach()
		copy(s.y, y)
	}
	if step < 0 || math.IsNaN(step) {
		return fmt.Errorf("step %g after a restart, want 0 (keep) or more", step)
	}
	if step > 0 {
		s.hnext = step
	}
	s.f0ok, s.jacok = false, false
	s.hacc = 0
	return nil
}

// detach moves y to a slice of its own, so that the dense output of the last
// step outlives a change of y.
func (s *Solver) detach() {
	if &s.yend[0] == &s.y[0] {
		s.y, s.spare = s.spare, s.y
		copy(s.y, s.yend)
	}
}

// T is the time reached.
func (s *Solver) T() float64 { return s.t }

// Prev is the time at which the last step began.
func (s *Solver) Prev() float64 { return s.told }

// Y is the solution at T(). It may be read until the next call of a method
// that moves the solver; it must not be changed.
func (s *Solver) Y() []float64 { return s.y }

// NextStep is the step the solver would try next, 0 before the first.
func (s *Solver) NextStep() float64 { return s.hnext }

// Stats is the work since Reset.
func (s *Solver) Stats() Stats { return s.stats }

// Status says why a solver returned.
type Status int

const (
	Running Status = iota // a step was taken, the end is not reached
	Reached               // T() is the end asked for
	Stopped               // onStep asked to stop
	AtEvent               // a terminal event; T() is its time
	Failed                // see the error
)

func (s Status) String() string {
	switch s {
	case Running:
		return "running"
	case Reached:
		return "reached"
	case Stopped:
		return "stopped"
	case AtEvent:
		return "at event"
	case Failed:
		return "failed"
	}
	return fmt.Sprintf("status %d", int(s))
}

// Step takes one accepted step that does not pass end. At a discontinuity of
// f in t, step to it, change the system, and Restart: f is evaluated at end
// itself and, for differences in t, a little beyond the start of a step.
func (s *Solver) Step(end float64) (Status, error) {
	if s.sys == nil {
		return Failed, errors.New("step of a solver that was never reset")
	}
	if math.IsInf(end, 1) {
		return Failed, fmt.Errorf("step from t = %g without an end, want a finite one", s.t)
	}
	if !(end > s.t) {
		if end == s.t {
			return Reached, nil
		}
		return Failed, fmt.Errorf("step from t = %g to %g, want an end after it", s.t, end)
	}
	if !s.f0ok {
		s.sys.Rate(s.t, s.y, s.f0)
		s.stats.Rates++
		if i := notFinite(s.f0); i >= 0 {
			return Failed, s.fail(0, "rate is not finite", i)
		}
		s.f0ok = true
	}
	if s.hnext == 0 {
		s.hnext = s.firstStep(end - s.t)
	}
	if !s.jacok {
		s.differentiate(end)
	}
	for shrunk := false; ; shrunk = true {
		if s.stats.Steps+s.stats.Rejected >= s.limit {
			return Failed, s.fail(s.hnext, fmt.Sprintf("%d steps are not enough", s.limit), -1)
		}
		h, last := s.choose(end)
		if !last && s.t+h*0.125 == s.t {
			return Failed, s.fail(h, "step too small for the time", s.worst())
		}
		e := s.try(h)
		if e < 1 {
			t1 := s.t + h
			if last {
				t1 = end
			}
			s.sys.Rate(t1, s.ynew, s.f1)
			s.stats.Rates++
			if notFinite(s.f1) < 0 {
				s.accept(h, t1, e, shrunk)
				if last {
					return Reached, nil
				}
				return Running, nil
			}
			e = math.Inf(1)
		}
		s.stats.Rejected++
		s.hnext = h * shrink(e)
	}
}

// choose returns the next step and whether it ends exactly at end. A rest
// shorter than two steps is halved rather than leaving a sliver.
func (s *Solver) choose(end float64) (h float64, last bool) {
	h = s.hnext
	if m := s.opt.MaxStep; m > 0 && h > m {
		h = m
	}
	rest := end - s.t
	switch {
	case h >= rest*(1-1e-12):
		return rest, true
	case h > 0.55*rest:
		return 0.5 * rest, false
	}
	return h, false
}

// try computes a trial step of length h and returns the norm of its error,
// +Inf when it went wrong.
func (s *Solver) try(h float64) float64 {
	s.dense = false
	if !s.factor(h) {
		return math.Inf(1)
	}
	s.stages(h)
	e := s.norm(s.k[7], s.y, s.ynew)
	if !(e <= math.MaxFloat64) {
		return math.Inf(1)
	}
	return e
}

// factor forms and factors I/(γh) − J.
func (s *Solver) factor(h float64) bool {
	g := 1 / (rodasGamma * h)
	s.stats.Factorizations++
	s.sparse = nil
	if p := s.opt.Pattern; p != nil && p.lu != nil {
		if p.lu.factor(g, s.jac, s.w, s.piv) && s.sound(p.lu, g, h) {
			s.sparse = p.lu
			return true
		}
		s.stats.Factorizations++
	}
	n := s.n
	w := s.w[:n*n]
	jac := s.jac[:len(w)]
	for i, v := range jac {
		w[i] = -v
	}
	for i := 0; i < len(w); i += n + 1 {
		w[i] += g
	}
	return luFactor(w, s.piv, n)
}

// sound tries the sparse factors on the first stage.
func (s *Solver) sound(e *elimination, g, h float64) bool {
	u, k1 := s.u[:s.n], s.k[0][:s.n]
	copy(u, s.f0)
	s.addTime(h*rd1, u)
	copy(k1, u)
	e.solve(s.w, s.piv, k1)
	return e.good(g, s.jac, k1, u)
}

// norm is the root mean square of e over the tolerance of each component.
func (s *Solver) norm(e, y0, y1 []float64) float64 {
	n := s.nc
	e, y0, y1 = e[:n], y0[:n], y1[:n]
	at := s.atols[:n]
	var sum float64
	for i, v := range e {
		r := v / (at[i] + s.rtol*max(math.Abs(y0[i]), math.Abs(y1[i])))
		sum += r * r
	}
	return math.Sqrt(sum / float64(n))
}

// accept moves the solver to the end of a trial step and sets the next.
func (s *Solver) accept(h, t1, e float64, shrunk bool) {
	s.stats.Steps++
	guess := s.hnext
	q := s.quotient(h, e)
	s.hnext = h / q
	switch {
	case shrunk:
		s.hnext = min(s.hnext, h)
	case h < guess && q <= 1/growMost:
		// The step was cut to end on time and went easily: what it would have
		// been still stands.
		s.hnext = max(s.hnext, guess)
	}
	s.hnext = min(s.hnext, 1e300) // an infinity would spoil the differences
	s.hacc, s.eacc = h, max(e, leastError)
	s.told, s.t, s.h = s.t, t1, t1-s.t
	s.yold, s.y, s.ynew = s.y, s.ynew, s.yold
	s.yend = s.y
	s.f0, s.f1 = s.f1, s.f0
	s.f0ok, s.jacok = true, false
}

func (s *Solver) firstStep(rest float64) float64 {
	d0 := s.norm(s.y, s.y, s.y)
	d1 := s.norm(s.f0, s.y, s.y)
	h := 1e-3 * rest
	if d0 > 1e-5 && d1 > 1e-5 {
		h = 0.01 * d0 / d1
	}
	return min(h, rest)
}

// worst is the component with the largest error of the last trial step, or
// one that is not finite.
func (s *Solver) worst() int {
	if i := notFinite(s.ynew); i >= 0 {
		return i
	}
	if i := notFinite(s.f1); i >= 0 {
		return i
	}
	w, big := -1, 0.0
	for i := range s.nc {
		r := math.Abs(s.k[7][i]) / (s.atols[i] + s.rtol*math.Abs(s.y[i]))
		if math.IsNaN(r) {
			return i
		}
		if r > big {
			w, big = i, r
		}
	}
	return w
}

func (s *Solver) fail(h float64, reason string, i int) error {
	e := &StepError{Reason: reason, T: s.t, H: h, Component: i}
	if i >= 0 {
		e.Value = s.y[i]
	}
	return e
}

func notFinite(v []float64) int {
	for i, x := range v {
		if x-x != 0 {
			return i
		}
	}
	return -1
}
