package numeric

import (
	"errors"
	"fmt"
	"math"
)

// ErrRoot is wrapped by every failure of Root, FindBracket and Newton.
var ErrRoot = errors.New("numeric: no root found")

// Root returns a zero of f between a and b, where f must have opposite signs
// (or be zero), to within tol or two rounding units, whichever is more. It uses
// Chandrupatla's method (see bracket), which never leaves the interval and takes
// about ten evaluations for a smooth function.
func Root(f func(x float64) float64, a, b, tol float64) (float64, error) {
	fa := f(a)
	if fa == 0 {
		return a, nil
	}
	fb := f(b)
	if fb == 0 {
		return b, nil
	}
	if math.IsNaN(fa) || math.IsNaN(fb) || (fa < 0) == (fb < 0) {
		return math.NaN(), fmt.Errorf("%w: f(%g) = %g and f(%g) = %g, want opposite signs", ErrRoot, a, fa, b, fb)
	}
	k := newBracket(a, fa, b, fb)
	for !k.done(tol) {
		x := k.next()
		fx := f(x)
		if math.IsNaN(fx) {
			return math.NaN(), fmt.Errorf("%w: f(%g) is not a number", ErrRoot, x)
		}
		k.set(x, fx)
	}
	return k.best(), nil
}

// FindBracket widens the interval from x on both sides, doubling step each
// time, until f changes sign in it or both limits are reached.
func FindBracket(f func(x float64) float64, x, step, lower, upper float64) (a, b float64, err error) {
	if !(lower <= x && x <= upper) || !(step > 0) {
		return 0, 0, fmt.Errorf("%w: start %g with step %g, want a start within %g and %g and a step above 0", ErrRoot, x, step, lower, upper)
	}
	f0 := f(x)
	a, b = x, x
	fa, fb := f0, f0
	for a > lower || b < upper {
		na, nb := max(a-step, lower), min(b+step, upper)
		va, vb := fa, fb
		if nb > b {
			vb = f(nb)
			if vb == 0 || (vb < 0) != (fb < 0) && !math.IsNaN(vb) && !math.IsNaN(fb) {
				return b, nb, nil
			}
		}
		if na < a {
			va = f(na)
			if va == 0 || (va < 0) != (fa < 0) && !math.IsNaN(va) && !math.IsNaN(fa) {
				return na, a, nil
			}
		}
		a, fa, b, fb = na, va, nb, vb
		step *= 2
	}
	return 0, 0, fmt.Errorf("%w: no change of sign between %g and %g, f there %g and %g", ErrRoot, lower, upper, fa, fb)
}
