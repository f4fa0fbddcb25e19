package numeric

import (
	"errors"
	"fmt"
	"math"
)

// System is the right-hand side of y' = f(t, y).
type System interface {
	// Dim is the number of components of y, quadratures included.
	Dim() int
	// Rate writes f(t, y) to dydt. It must be a pure function of (t, y): it is
	// called at trial points that may be rejected, in no particular order. A NaN
	// or infinity in dydt says "not defined here": the step is rejected and a
	// shorter one tried. It must keep neither slice and must not change y.
	Rate(t float64, y, dydt []float64)
}

// JacobianSystem is a System that supplies partial derivatives of its own.
type JacobianSystem interface {
	System
	// Jacobian writes ∂f_i/∂y_j to jac[i*n+j], where n is the number of active
	// components and i runs over all components, quadratures included. f is
	// f(t, y). jac arrives zeroed. With Options.Pattern naming analytic columns
	// only those columns need to be written, the others are differenced.
	Jacobian(t float64, y, f, jac []float64)
}

// TimeDerivativeSystem is a System that knows its explicit time derivative.
type TimeDerivativeSystem interface {
	System
	// TimeDerivative writes ∂f/∂t at fixed y to dfdt.
	TimeDerivative(t float64, y, f, dfdt []float64)
}

// Options says how a System is integrated. The zero value of a field means its
// default.
type Options struct {
	RTol      float64   // relative tolerance of each component, default 1e-4
	ATol      float64   // absolute tolerance of each component, default 1e-8
	ATols     []float64 // absolute tolerance by component instead of ATol; kept, not copied
	FirstStep float64   // first step, default from the size of y and f
	MaxStep   float64   // longest step, default none
	MaxSteps  int       // accepted and rejected steps between Reset and giving up, default 100 000

	// Quadratures is the number q of components at the end of y that do not
	// feed back: f does not depend on them. They are integrated by the same
	// formula as the others but take no part in the linear system, so they are
	// almost free, and a linear conservation law that links them with the other
	// components holds as well as the Jacobian satisfies it.
	Quadratures int
	// ControlQuadratures makes quadratures count in the error of a step.
	ControlQuadratures bool

	// Autonomous says that f does not depend on t, which saves one Rate call per
	// step.
	Autonomous bool
	// DiffStep is the relative increment of differences, default a thousandth of
	// RTol but 1.5e-8 to 1e-6.
	DiffStep float64
	// Pattern is the sparsity of the Jacobian, nil when dense.
	Pattern *Pattern
}

const (
	defaultRTol     = 1e-4
	defaultATol     = 1e-8
	defaultMaxSteps = 100_000
)

// Stats counts the work since Reset.
type Stats struct {
	Steps          int // accepted steps
	Rejected       int // steps tried and rejected
	Rates          int // calls of Rate, those for differences included
	Jacobians      int // Jacobians formed
	Factorizations int // LU factorizations
}

// ErrStep is what every failed integration wraps.
var ErrStep = errors.New("numeric: integration failed")

// StepError says where an integration gave up and on which component.
type StepError struct {
	Reason    string
	T         float64 // time of the last accepted step
	H         float64 // step that failed
	Component int     // worst component, -1 if none stands out
	Value     float64 // its value at T
}

func (e *StepError) Error() string {
	if e.Component < 0 {
		return fmt.Sprintf("integration stopped at t = %g, step %g: %s", e.T, e.H, e.Reason)
	}
	return fmt.Sprintf("integration stopped at t = %g, step %g, component %d = %g: %s", e.T, e.H, e.Component, e.Value, e.Reason)
}

// Unwrap makes errors.Is(err, ErrStep) true.
func (e *StepError) Unwrap() error { return ErrStep }

func (o *Options) check(dim int) error {
	switch {
	case dim < 1:
		return fmt.Errorf("system of dimension %d, want 1 or more", dim)
	case o.Quadratures < 0 || o.Quadratures >= dim:
		return fmt.Errorf("%d quadratures in a system of dimension %d, want 0 to %d", o.Quadratures, dim, dim-1)
	case o.RTol < 0 || math.IsNaN(o.RTol) || o.RTol > 0.1:
		return fmt.Errorf("relative tolerance %g, want 0 (default) to 0.1", o.RTol)
	case o.ATol < 0 || math.IsNaN(o.ATol):
		return fmt.Errorf("absolute tolerance %g, want 0 (default) or more", o.ATol)
	case o.ATols != nil && len(o.ATols) != dim:
		return fmt.Errorf("%d absolute tolerances for %d components, want one each", len(o.ATols), dim)
	case o.FirstStep < 0 || math.IsNaN(o.FirstStep):
		return fmt.Errorf("first step %g, want 0 (default) or more", o.FirstStep)
	case o.MaxStep < 0 || math.IsNaN(o.MaxStep):
		return fmt.Errorf("longest step %g, want 0 (none) or more", o.MaxStep)
	case o.DiffStep < 0 || o.DiffStep > 0.01 || math.IsNaN(o.DiffStep):
		return fmt.Errorf("relative increment %g of differences, want 0 (default) to 0.01", o.DiffStep)
	case o.MaxSteps < 0:
		return fmt.Errorf("at most %d steps, want 0 (default) or more", o.MaxSteps)
	}
	for i, a := range o.ATols {
		if !(a >= 0) {
			return fmt.Errorf("absolute tolerance %g of component %d, want 0 or more", a, i)
		}
	}
	if p := o.Pattern; p != nil && (p.active != dim-o.Quadratures || p.dim != dim) {
		return fmt.Errorf("pattern for %d components of which %d active, system has %d of which %d active", p.dim, p.active, dim, dim-o.Quadratures)
	}
	return nil
}
