package numeric

import (
	"fmt"
	"math"
)

// Equations is a square system f(x) = 0.
type Equations interface {
	// Evaluate writes f(x) to f and, unless jac is nil, ∂f_i/∂x_j to
	// jac[i*len(x)+j]. A NaN or infinity in f says "not defined here" and
	// shortens the step. It must not keep or change x.
	Evaluate(x, f, jac []float64)
}

// Newton solves small square systems (up to some ten unknowns). The zero value
// is ready; it keeps its storage between calls and then allocates nothing. It is
// not for use by two goroutines at once.
//
// Each step is Newton's, halved until the scaled residual falls; where that
// fails, as it may near a singular Jacobian, steps of Levenberg and Marquardt of
// growing damping are tried (J. E. Dennis and R. B. Schnabel, Numerical Methods
// for Unconstrained Optimization and Nonlinear Equations, 1996, chapter 6). It
// converges quadratically near a regular root and stops, with an error, at a
// point from which no step lowers the residual.
type Newton struct {
	XTol    float64   // relative size of the last step, default 1e-12
	FTol    float64   // residual that is as good as zero, over Scale, default 0
	XSize   []float64 // size of each unknown below which XTol counts absolutely, default 1
	Scale   []float64 // size of each equation, default 1
	Lower   []float64 // bounds of the unknowns, nil for none: steps are cut there
	Upper   []float64
	MaxIter int // default 100

	// Iterations and Residual describe the last solve; Residual is the root mean
	// square of f over Scale before the last, converged step.
	Iterations int
	Residual   float64

	n                      int
	f, ft, xt, dx, jac, jw []float64
	jt, g                  []float64
	piv                    []int32
}

// Solve improves x to a root of eq. On failure x is the best point found.
func (s *Newton) Solve(eq Equations, x []float64) error {
	n := len(x)
	if err := s.check(n); err != nil {
		return err
	}
	s.size(n)
	xtol, limit := s.XTol, s.MaxIter
	if xtol == 0 {
		xtol = 1e-12
	}
	if limit == 0 {
		limit = 100
	}
	s.clampInto(x)
	eq.Evaluate(x, s.f, s.jac)
	s.Residual = s.norm(s.f)
	if math.IsInf(s.Residual, 1) {
		return fmt.Errorf("%w: a residual is not finite at the start %v", ErrRoot, x)
	}
	for s.Iterations = 0; s.Iterations < limit; s.Iterations++ {
		if s.Residual <= s.FTol {
			return nil
		}
		regular := s.newton()
		if regular && s.relative(x) <= xtol {
			// Quadratic convergence: after this step there is nothing to gain.
			for i := range x {
				x[i] -= s.dx[i]
			}
			s.clampInto(x)
			return nil
		}
		if regular && s.attempt(eq, x, 1) {
			eq.Evaluate(x, s.f, s.jac)
			continue
		}
		if regular && s.relative(x) <= 1e-6 && s.tiny(x) {
			return nil // the residual is rounding
		}
		if !(regular && s.shorten(eq, x)) && !s.damp(eq, x) {
			return fmt.Errorf("%w: no step lowers the residual %.3g at %v", ErrRoot, s.Residual, x)
		}
		eq.Evaluate(x, s.f, s.jac)
	}
	return fmt.Errorf("%w: %d iterations are not enough, residual %.3g at %v", ErrRoot, limit, s.Residual, x)
}

func (s *Newton) check(n int) error {
	if n == 0 {
		return fmt.Errorf("%w: no unknowns", ErrRoot)
	}
	for _, v := range [][]float64{s.XSize, s.Scale, s.Lower, s.Upper} {
		if v != nil && len(v) != n {
			return fmt.Errorf("%w: %d sizes, scales or bounds for %d unknowns, want one each or none", ErrRoot, len(v), n)
		}
	}
	return nil
}

func (s *Newton) size(n int) {
	if s.n == n {
		return
	}
	s.n = n
	s.f, s.ft, s.xt, s.dx, s.g = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	s.jac, s.jw, s.jt = make([]float64, n*n), make([]float64, n*n), make([]float64, n*n)
	s.piv = make([]int32, n)
}

// newton puts Newton's step into dx, false where the Jacobian is singular.
func (s *Newton) newton() bool {
	copy(s.jw, s.jac)
	copy(s.dx, s.f)
	if !luFactor(s.jw, s.piv, s.n) {
		return false
	}
	luSolve(s.jw, s.piv, s.n, s.dx)
	return notFinite(s.dx) < 0
}

// shorten tries halves of the step in dx.
func (s *Newton) shorten(eq Equations, x []float64) bool {
	for t := 0.5; t > 1e-3; t *= 0.5 {
		if s.attempt(eq, x, t) {
			return true
		}
	}
	return false
}

// damp tries the steps (JᵀJ + λ·diag(JᵀJ)) dx = Jᵀf, equations over their
// scale, with growing λ.
func (s *Newton) damp(eq Equations, x []float64) bool {
	n := s.n
	for i := range n {
		s.g[i] = 0
		for k := range n {
			s.g[i] += s.jac[k*n+i] * s.f[k] / sq(s.scaleOf(k))
		}
		for j := range n {
			var v float64
			for k := range n {
				v += s.jac[k*n+i] * s.jac[k*n+j] / sq(s.scaleOf(k))
			}
			s.jt[i*n+j] = v
		}
	}
	for lambda := 1e-6; lambda < 1e14; lambda *= 10 {
		copy(s.jw, s.jt)
		for i := range n {
			d := s.jt[i*n+i]
			if d == 0 {
				d = 1
			}
			s.jw[i*n+i] += lambda * d
		}
		copy(s.dx, s.g)
		if !luFactor(s.jw, s.piv, n) {
			continue
		}
		luSolve(s.jw, s.piv, n, s.dx)
		if s.attempt(eq, x, 1) {
			return true
		}
	}
	return false
}

// attempt tries x − t·dx and moves there if the residual falls.
func (s *Newton) attempt(eq Equations, x []float64, t float64) bool {
	for i := range x {
		s.xt[i] = x[i] - t*s.dx[i]
	}
	s.clampInto(s.xt)
	eq.Evaluate(s.xt, s.ft, nil)
	r := s.norm(s.ft)
	if !(r < s.Residual*(1-1e-4*t)) {
		return false
	}
	copy(x, s.xt)
	s.f, s.ft = s.ft, s.f
	s.Residual = r
	return true
}

// relative is the largest component of dx over its unknown.
func (s *Newton) relative(x []float64) float64 {
	var w float64
	for i, d := range s.dx {
		size := 1.0
		if s.XSize != nil {
			size = s.XSize[i]
		}
		w = max(w, math.Abs(d)/max(math.Abs(x[i]), size))
	}
	return w
}

// tiny reports that every residual is rounding: below 1e-12 of the terms that
// the Jacobian and the unknowns suggest.
func (s *Newton) tiny(x []float64) bool {
	for i, f := range s.f {
		var size float64
		for j, v := range x {
			least := 1.0
			if s.XSize != nil {
				least = s.XSize[j]
			}
			size += math.Abs(s.jac[i*s.n+j]) * max(least, math.Abs(v))
		}
		if !(math.Abs(f) <= 1e-12*size) {
			return false
		}
	}
	return true
}

func (s *Newton) scaleOf(i int) float64 {
	if s.Scale == nil {
		return 1
	}
	return s.Scale[i]
}

func (s *Newton) clampInto(x []float64) {
	for i := range x {
		if s.Lower != nil {
			x[i] = max(x[i], s.Lower[i])
		}
		if s.Upper != nil {
			x[i] = min(x[i], s.Upper[i])
		}
	}
}

// norm is the root mean square of f over Scale, +Inf where f is not finite.
func (s *Newton) norm(f []float64) float64 {
	var sum float64
	for i, v := range f {
		v /= s.scaleOf(i)
		sum += v * v
	}
	if !(sum <= math.MaxFloat64) {
		return math.Inf(1)
	}
	return math.Sqrt(sum / float64(len(f)))
}
