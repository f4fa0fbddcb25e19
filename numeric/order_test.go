package numeric

import (
	"math"
	"math/cmplx"
	"testing"
)

// march integrates to end with n equal steps and returns the largest error of
// component 0 at the ends of steps and within them.
func march(t testing.TB, sys System, y0 []float64, end float64, n int, exact func(float64) float64) (at, within float64) {
	t.Helper()
	var s Solver
	if err := s.Reset(sys, 0, y0, Options{RTol: 0.1, ATol: 1e30}); err != nil {
		t.Fatal(err)
	}
	h := end / float64(n)
	for i := range n {
		s.hnext = h
		if _, err := s.Step(float64(i+1) * h); err != nil {
			t.Fatal(err)
		}
		at = max(at, math.Abs(s.Y()[0]-exact(s.T())))
		for _, x := range []float64{0.2, 0.4, 0.6, 0.8} {
			tx := s.Prev() + x*(s.T()-s.Prev())
			within = max(within, math.Abs(s.AtOne(tx, 0)-exact(tx)))
		}
	}
	if st := s.Stats(); st.Steps != n || st.Rejected != 0 {
		t.Fatalf("%+v for %d equal steps", st, n)
	}
	return at, within
}

// waltz is a nonlinear system that depends on t and has the solution
// (sin t, cos t), with its exact derivatives.
type waltz struct{}

func (waltz) Dim() int { return 2 }
func (waltz) Rate(t float64, y, d []float64) {
	r := y[0]*y[0] + y[1]*y[1]
	d[0] = y[1] + (r-1)*y[0]*math.Exp(-t)
	d[1] = -y[0]*r + math.Sin(2*t)/2 - y[0]*y[1]
}
func (waltz) Jacobian(t float64, y, _, j []float64) {
	r := y[0]*y[0] + y[1]*y[1]
	e := math.Exp(-t)
	j[0], j[1] = e*((r-1)+2*y[0]*y[0]), 1+2*e*y[0]*y[1]
	j[2], j[3] = -r-2*y[0]*y[0]-y[1], -2*y[0]*y[1]-y[0]
}
func (waltz) TimeDerivative(t float64, y, _, d []float64) {
	r := y[0]*y[0] + y[1]*y[1]
	d[0] = -(r - 1) * y[0] * math.Exp(-t)
	d[1] = math.Cos(2 * t)
}

func TestOrder(t *testing.T) {
	var last, lastIn float64
	for n := 16; n <= 128; n *= 2 {
		e, in := march(t, waltz{}, []float64{0, 1}, 2, n, math.Sin)
		t.Logf("%3d steps: %.3g at steps, %.3g within", n, e, in)
		if last > 0 {
			if p := math.Log2(last / e); p < 4.8 || p > 5.6 {
				t.Errorf("%d steps: order %.2f at steps, want 5", n, p)
			}
			if p := math.Log2(lastIn / in); p < 3.8 || p > 5.4 {
				t.Errorf("%d steps: order %.2f within, want 4 or more", n, p)
			}
		}
		last, lastIn = e, in
	}
}

// prothero is the problem of A. Prothero and A. Robinson, Math. Comp. 28 (1974)
// 145–162: y' = −λ(y − cos t) − sin t.
type prothero struct{ lambda float64 }

func (prothero) Dim() int { return 1 }
func (p prothero) Rate(t float64, y, d []float64) {
	d[0] = -p.lambda*(y[0]-math.Cos(t)) - math.Sin(t)
}
func (p prothero) Jacobian(_ float64, _, _, j []float64) { j[0] = -p.lambda }
func (p prothero) TimeDerivative(t float64, _, _, d []float64) {
	d[0] = -p.lambda*math.Sin(t) - math.Cos(t)
}

// However stiff the problem, the error is bounded by C·h⁴ with the same C.
func TestOrderStiff(t *testing.T) {
	var last, lastIn float64
	for n := 8; n <= 64; n *= 2 {
		var e, in float64
		for k := -1.0; k <= 9; k += 0.25 {
			a, b := march(t, prothero{math.Pow(10, k)}, []float64{1}, 2, n, math.Cos)
			e, in = max(e, a), max(in, b)
		}
		t.Logf("%3d steps: %.3g at steps, %.3g within", n, e, in)
		if last > 0 {
			if p := math.Log2(last / e); p < 3.8 {
				t.Errorf("%d steps: order %.2f at steps, want 4", n, p)
			}
			if p := math.Log2(lastIn / in); p < 3.5 {
				t.Errorf("%d steps: order %.2f within, want nearly 4", n, p)
			}
		}
		last, lastIn = e, in
	}
}

// spiral is y' = λy for complex λ.
type spiral struct{ re, im float64 }

func (spiral) Dim() int { return 2 }
func (p spiral) Rate(_ float64, y, d []float64) {
	d[0], d[1] = p.re*y[0]-p.im*y[1], p.im*y[0]+p.re*y[1]
}
func (p spiral) Jacobian(_ float64, _, _, j []float64) {
	j[0], j[1], j[2], j[3] = p.re, -p.im, p.im, p.re
}

// growth is the stability function R(z) of the method, from one step.
func growth(t testing.TB, z complex128) (r, embedded complex128) {
	t.Helper()
	var s Solver
	if err := s.Reset(spiral{real(z), imag(z)}, 0, []float64{1, 0}, Options{Autonomous: true}); err != nil {
		t.Fatal(err)
	}
	s.sys.Rate(0, s.y, s.f0)
	s.differentiate(1)
	s.try(1)
	e := complex(s.k[7][0], s.k[7][1])
	r = complex(s.ynew[0], s.ynew[1])
	return r, r - e
}

// The method is A-stable and R vanishes at infinity: L-stable. So does its
// embedded method, whose last stage is stiffly accurate too.
func TestStability(t *testing.T) {
	if r, _ := growth(t, -0.1); cmplx.Abs(r-cmplx.Exp(-0.1)) > 1e-8 {
		t.Errorf("R(−0.1) = %v", r)
	}
	for k := -3.0; k <= 7; k += 0.01 {
		y := math.Pow(10, k)
		if r, _ := growth(t, complex(0, y)); cmplx.Abs(r) > 1+1e-11 {
			t.Errorf("|R(%gi)| = 1 + %.3g", y, cmplx.Abs(r)-1)
		}
	}
	for _, z := range []complex128{-1e7, -1e10, 1e7i, 1e10i, -1e8 + 1e9i} {
		r, e := growth(t, z)
		if cmplx.Abs(r) > 20/cmplx.Abs(z)+1e-8 || cmplx.Abs(e) > 20/cmplx.Abs(z)+1e-8 {
			t.Errorf("R(%v) = %v, embedded %v, want 0", z, r, e)
		}
	}
}
