package numeric

import (
	"errors"
	"fmt"
	"math"
)

// Residuals is a model to fit: the differences between it and the readings,
// each divided by its standard deviation where those differ.
type Residuals struct {
	// N is the number of residuals.
	N int
	// At writes the residuals at the parameters p to r. A NaN or infinity says
	// "not defined here" and shortens the step. It must not keep or change p.
	At func(p, r []float64)
	// Jacobian writes ∂r_i/∂p_j to jac[i*len(p)+j]; nil takes differences of At.
	Jacobian func(p, jac []float64)
}

// FitOptions says how a fit is made. The zero value of a field means its
// default.
type FitOptions struct {
	Lower, Upper []float64 // bounds, nil or ±Inf for none
	FTol         float64   // smallest relative fall of the sum of squares, default 1e-14
	XTol         float64   // smallest relative step, default 1e-12
	MaxIter      int       // iterations, default 1000
	Trust        float64   // first trust radius over the scaled size of p, default 10
	Central      bool      // central differences: twice the calls, some digits more
	// DiffStep is the relative increment of a difference, default 6e-6 when
	// central, else 1.5e-8; take the cube or square root of the noise of At.
	DiffStep float64
	// Size is the typical size of each parameter for increments near zero,
	// default 1.
	Size []float64
}

// Fit is the outcome of LeastSquares.
type Fit struct {
	P          []float64 // parameters
	RSS        float64   // sum of squared residuals
	DOF        int       // residuals less free parameters
	AtBound    []bool    // parameters held by a bound
	Covariance []float64 // row-major, RSS/DOF·(JᵀJ)⁻¹; zero in rows and columns held by a bound, nil when JᵀJ is singular or DOF is 0
	StdErr     []float64 // square roots of its diagonal, nil likewise
	Converged  bool
	Reason     string // why it stopped, in words
	Iterations int
	Calls      int // of At, those for differences included
	Jacobians  int
}

// ErrFit is what LeastSquares returns, with details, when it cannot start.
var ErrFit = errors.New("numeric: least squares cannot start")

// LeastSquares minimises the sum of squared residuals over the parameters
// within bounds, from p0, by the Levenberg–Marquardt method in the trust-region
// form of J. J. Moré, "The Levenberg–Marquardt algorithm: implementation and
// theory", Lecture Notes in Mathematics 630 (1978) 105–116. Changed: bounds are
// kept by an active set (a parameter on a bound that the gradient pushes
// outwards is held; a step that would cross bounds is cut there and solved
// again for the others), and the reduction predicted is that of the cut step.
//
// It finds a local minimum. Not converging is not an error: see Converged.
func LeastSquares(res Residuals, p0 []float64, opt FitOptions) (*Fit, error) {
	m, err := newMarquardt(res, p0, opt)
	if err != nil {
		return nil, err
	}
	m.run()
	return m.finish(), nil
}

// marquardt is the state of one fit.
type marquardt struct {
	res       Residuals
	opt       FitOptions
	m, n      int
	lo, hi    []float64
	p, trial  []float64
	r, rtrial []float64
	jac       []float64 // m×n, row-major
	scale     []float64 // D: largest column norms so far
	rss       float64
	radius    float64
	lambda    float64
	step      []float64
	grad      []float64 // Jᵀr
	free      []int     // columns in the present subproblem
	reff      []float64 // residuals with the cut components moved
	a         []float64 // free columns, column-major, QR in place
	qtr       []float64
	s         []float64 // triangle of the damped system
	x         []float64 // step of the free columns
	z, w, d   []float64
	fit       Fit
}

func newMarquardt(res Residuals, p0 []float64, opt FitOptions) (*marquardt, error) {
	n := len(p0)
	switch {
	case n == 0:
		return nil, fmt.Errorf("%w: no parameters", ErrFit)
	case res.N < 1 || res.At == nil:
		return nil, fmt.Errorf("%w: no residuals", ErrFit)
	case opt.Lower != nil && len(opt.Lower) != n, opt.Upper != nil && len(opt.Upper) != n:
		return nil, fmt.Errorf("%w: %d lower and %d upper bounds for %d parameters, want one each or none", ErrFit, len(opt.Lower), len(opt.Upper), n)
	case opt.Size != nil && len(opt.Size) != n:
		return nil, fmt.Errorf("%w: %d typical sizes for %d parameters, want one each or none", ErrFit, len(opt.Size), n)
	}
	if opt.FTol == 0 {
		opt.FTol = 1e-14
	}
	if opt.XTol == 0 {
		opt.XTol = 1e-12
	}
	if opt.MaxIter == 0 {
		opt.MaxIter = 1000
	}
	if opt.Trust == 0 {
		opt.Trust = 10
	}
	if opt.DiffStep == 0 {
		opt.DiffStep = 1.4901161193847656e-08
		if opt.Central {
			opt.DiffStep = 6.055454452393343e-06
		}
	}
	k := &marquardt{res: res, opt: opt, m: res.N, n: n}
	k.lo, k.hi = make([]float64, n), make([]float64, n)
	k.p = append([]float64(nil), p0...)
	for i, v := range p0 {
		k.lo[i], k.hi[i] = math.Inf(-1), math.Inf(1)
		if opt.Lower != nil {
			k.lo[i] = opt.Lower[i]
		}
		if opt.Upper != nil {
			k.hi[i] = opt.Upper[i]
		}
		if !(k.lo[i] < k.hi[i]) {
			return nil, fmt.Errorf("%w: bounds %g and %g of parameter %d, want the lower one below the upper", ErrFit, k.lo[i], k.hi[i], i)
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("%w: parameter %d starts at %g, want a finite number", ErrFit, i, v)
		}
		k.p[i] = min(max(v, k.lo[i]), k.hi[i])
	}
	m := res.N
	k.trial, k.step, k.grad = make([]float64, n), make([]float64, n), make([]float64, n)
	k.r, k.rtrial, k.reff = make([]float64, m), make([]float64, m), make([]float64, m)
	k.jac, k.a = make([]float64, m*n), make([]float64, m*n)
	k.scale, k.qtr, k.x, k.w, k.z, k.d = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	k.s = make([]float64, n*n)
	k.free = make([]int, 0, n)
	k.rss = k.evaluate(k.p, k.r)
	if math.IsInf(k.rss, 1) {
		return nil, fmt.Errorf("%w: a residual is not finite at the start %v", ErrFit, k.p)
	}
	return k, nil
}

// evaluate returns the sum of squares at p, +Inf where it is not defined.
func (k *marquardt) evaluate(p, r []float64) float64 {
	k.fit.Calls++
	k.res.At(p, r)
	var sum float64
	for _, v := range r {
		sum += v * v
	}
	if !(sum <= math.MaxFloat64) {
		return math.Inf(1)
	}
	return sum
}

func (k *marquardt) run() {
	for k.fit.Iterations < k.opt.MaxIter {
		k.fit.Iterations++
		k.differentiate()
		if k.rescale() {
			k.fit.Converged, k.fit.Reason = true, "gradient is zero"
			return
		}
		for {
			done, accepted := k.attempt()
			if done {
				return
			}
			if accepted {
				break
			}
		}
	}
	k.fit.Reason = fmt.Sprintf("%d iterations are not enough", k.opt.MaxIter)
}

// rescale updates the scales and the gradient, sets the first radius, and
// reports a gradient that is zero to rounding.
func (k *marquardt) rescale() bool {
	worst := 0.0
	size := 0.0
	rn := math.Sqrt(k.rss)
	for j := range k.n {
		var sq, g float64
		for i := range k.m {
			v := k.jac[i*k.n+j]
			sq += v * v
			g += v * k.r[i]
		}
		norm := math.Sqrt(sq)
		k.grad[j] = g
		k.scale[j] = max(k.scale[j], norm)
		if k.scale[j] == 0 {
			k.scale[j] = 1
		}
		if norm > 0 && rn > 0 && !k.held(j) {
			worst = max(worst, math.Abs(g)/(norm*rn))
		}
		size += k.scale[j] * k.p[j] * k.scale[j] * k.p[j]
	}
	if k.radius == 0 {
		k.radius = k.opt.Trust * math.Sqrt(size)
		if k.radius == 0 {
			k.radius = k.opt.Trust
		}
	}
	return rn == 0 || worst < 1e-15
}

// held reports that parameter j sits on a bound and the gradient holds it
// there.
func (k *marquardt) held(j int) bool {
	return k.p[j] <= k.lo[j] && k.grad[j] >= 0 || k.p[j] >= k.hi[j] && k.grad[j] <= 0
}

// attempt tries one step. done ends the fit, accepted moves to the next
// iteration, neither means the radius shrank.
func (k *marquardt) attempt() (done, accepted bool) {
	if !k.propose() {
		k.fit.Converged, k.fit.Reason = true, "every parameter is held by a bound"
		return true, false
	}
	var norm, size float64
	moved := false
	for j := range k.n {
		t := k.clamp(j, k.p[j]+k.step[j])
		k.step[j] = t - k.p[j]
		k.trial[j] = t
		moved = moved || t != k.p[j]
		norm += sq(k.scale[j] * k.step[j])
		size += sq(k.scale[j] * k.p[j])
	}
	norm, size = math.Sqrt(norm), math.Sqrt(size)
	if !moved {
		k.fit.Converged, k.fit.Reason = true, "step is below rounding"
		return true, false
	}
	if k.fit.Iterations == 1 {
		k.radius = min(k.radius, norm)
	}
	// Fall of the sum of squares the linear model predicts, and its slope.
	var slope, js float64
	for i := range k.m {
		row := k.jac[i*k.n : (i+1)*k.n]
		var v float64
		for j, d := range k.step {
			v += row[j] * d
		}
		slope += v * k.r[i]
		js += v * v
	}
	predicted := -2*slope - js
	now := k.evaluate(k.trial, k.rtrial)
	actual := k.rss - now
	ratio := 0.0
	if predicted > 0 {
		ratio = actual / predicted
	}
	// Radius after Moré.
	if !(ratio > 0.25) {
		f := 0.1
		if !math.IsInf(now, 1) {
			f = 0.5
			if actual < 0 && slope < 0 {
				f = min(max(slope/(2*slope+actual), 0.1), 0.5)
			}
		}
		k.radius = f * min(k.radius, norm/0.1)
		k.lambda /= f
	} else if k.lambda == 0 || ratio >= 0.75 {
		k.radius = 2 * norm
		k.lambda *= 0.5
	}
	before := k.rss
	if ratio >= 1e-4 && actual > 0 {
		accepted = true
		copy(k.p, k.trial)
		k.r, k.rtrial = k.rtrial, k.r
		k.rss = now
	}
	switch {
	case math.Abs(actual) <= k.opt.FTol*before && predicted <= k.opt.FTol*before && ratio <= 2:
		k.fit.Converged, k.fit.Reason = true, "sum of squares no longer falls"
		done = true
	case k.radius <= k.opt.XTol*size:
		k.fit.Converged, k.fit.Reason = true, "step is below the tolerance"
		done = true
	case predicted <= 0x1p-52*before && math.Abs(actual) <= 0x1p-52*before:
		k.fit.Converged, k.fit.Reason = true, "sum of squares is at rounding"
		done = true
	case k.radius <= 0x1p-52*size:
		k.fit.Reason = "no shorter step helps"
		done = true
	}
	return done, accepted
}

// clamp moves a value of parameter j into its bounds, and onto a bound from
// which only rounding keeps it.
func (k *marquardt) clamp(j int, t float64) float64 {
	near := 0x1p-50 * max(math.Abs(k.p[j]), math.Abs(t))
	switch {
	case t <= k.lo[j]+near:
		return k.lo[j]
	case t >= k.hi[j]-near:
		return k.hi[j]
	}
	return t
}

// propose fills step with the minimiser of the linear model within the trust
// region and the bounds, and reports whether any parameter is free to move.
func (k *marquardt) propose() bool {
	clear(k.step)
	copy(k.reff, k.r)
	k.free = k.free[:0]
	for j := range k.n {
		if !k.held(j) {
			k.free = append(k.free, j)
		}
	}
	if len(k.free) == 0 {
		return false
	}
	for len(k.free) > 0 {
		k.triangle()
		k.lambda = k.marquardtStep()
		// Cut what crosses a bound, keep it there, and solve for the rest.
		kept := k.free[:0]
		for i, j := range k.free {
			to := k.p[j] + k.x[i]
			switch {
			case to < k.lo[j]:
				k.move(j, k.lo[j]-k.p[j])
			case to > k.hi[j]:
				k.move(j, k.hi[j]-k.p[j])
			default:
				k.step[j] = k.x[i]
				kept = append(kept, j)
			}
		}
		if len(kept) == len(k.free) {
			break
		}
		k.free = kept
	}
	return true
}

// move fixes component j of the step at d.
func (k *marquardt) move(j int, d float64) {
	k.step[j] = d
	for i := range k.m {
		k.reff[i] += k.jac[i*k.n+j] * d
	}
}

func sq(x float64) float64 { return x * x }

// differentiate fills jac at p.
func (k *marquardt) differentiate() {
	k.fit.Jacobians++
	if k.res.Jacobian != nil {
		k.res.Jacobian(k.p, k.jac)
		return
	}
	copy(k.trial, k.p)
	for j := range k.n {
		size := 1.0
		if k.opt.Size != nil {
			size = k.opt.Size[j]
		}
		h := k.opt.DiffStep * math.Abs(k.p[j])
		if h == 0 {
			h = k.opt.DiffStep * size
		}
		up, down := min(k.p[j]+h, k.hi[j]), k.p[j]
		if up == k.p[j] || k.opt.Central {
			down = max(k.p[j]-h, k.lo[j])
		}
		k.column(j, down, up)
		k.trial[j] = k.p[j]
	}
}

// column differences between two values of parameter j, of which one may be
// the present one. Where the model is not defined at an end, the present value
// or a step to the other side replaces it.
func (k *marquardt) column(j int, down, up float64) {
	hi, lo := k.r, k.r
	if up != k.p[j] {
		k.trial[j] = up
		if math.IsInf(k.evaluate(k.trial, k.rtrial), 1) {
			if down == k.p[j] {
				down = max(2*k.p[j]-up, k.lo[j])
			}
			up = k.p[j]
		} else {
			hi = k.rtrial
		}
	}
	if down != k.p[j] {
		k.trial[j] = down
		if math.IsInf(k.evaluate(k.trial, k.reff), 1) {
			down = k.p[j]
		} else {
			lo = k.reff
		}
	}
	inv := 0.0
	if up != down {
		inv = 1 / (up - down)
	}
	for i := range k.m {
		k.jac[i*k.n+j] = (hi[i] - lo[i]) * inv
	}
}
