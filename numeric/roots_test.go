package numeric

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRoot(t *testing.T) {
	calls := 0
	count := func(f func(float64) float64) func(float64) float64 {
		calls = 0
		return func(x float64) float64 { calls++; return f(x) }
	}
	for _, c := range []struct {
		name string
		f    func(float64) float64
		a, b float64
		want float64
		most int
	}{
		{"cubic", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265, 12},
		{"cosine", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607, 12},
		{"flat", func(x float64) float64 { return math.Pow(x-1, 9) }, 0, 2.5, 1, 90},
		{"pole", func(x float64) float64 { return 1 / (x - 0.3) }, 0, 1, 0.3, 120},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7, 70},
		{"tiny", func(x float64) float64 { return x - 1e-200 }, -1, 1, 1e-200, 12},
		{"reversed", func(x float64) float64 { return x*x - 2 }, 2, 0, math.Sqrt2, 14},
	} {
		x, err := Root(count(c.f), c.a, c.b, 0)
		if err != nil || math.Abs(x-c.want) > 1e-15*max(1, math.Abs(c.want))*2 && c.name != "flat" || calls > c.most {
			t.Errorf("%s: %.17g after %d calls, want %.17g after at most %d: %v", c.name, x, calls, c.want, c.most, err)
		}
	}
	for _, f := range []func(float64) float64{
		func(x float64) float64 { return 1 + x*x },
		func(x float64) float64 { return math.Log(x) },
	} {
		if _, err := Root(f, -1, 3, 0); !errors.Is(err, ErrRoot) {
			t.Errorf("no root: %v", err)
		}
	}
}

// A root is found in every interval with a change of sign, and lies in it.
func TestRootProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := rapid.Float64Range(-100, 100).Draw(t, "root")
		k := rapid.Float64Range(-8, 8).Draw(t, "steepness")
		a := root - rapid.Float64Range(0, 1000).Draw(t, "left")
		b := root + rapid.Float64Range(0, 1000).Draw(t, "right")
		f := func(x float64) float64 { return math.Atan(math.Exp(k) * (x - root)) }
		x, err := Root(f, a, b, 0)
		if err != nil || math.Abs(x-root) > 1e-14*(1+math.Abs(root)) || x < a || x > b {
			t.Errorf("root %g for %g in %g to %g: %v", x, root, a, b, err)
		}
		c, d, err := FindBracket(f, a, 0.01, -2000, 2000)
		if err != nil || f(c)*f(d) > 0 || !(c <= root && root <= d) {
			t.Errorf("bracket %g to %g for %g: %v", c, d, root, err)
		}
	})
	if _, _, err := FindBracket(func(x float64) float64 { return 1 }, 0, 1, -5, 5); !errors.Is(err, ErrRoot) {
		t.Errorf("a bracket for a constant: %v", err)
	}
}

// system is a square system given by a function.
type system func(x, f, jac []float64)

func (s system) Evaluate(x, f, jac []float64) { s(x, f, jac) }

// powell is the singular function of M. J. D. Powell (1962), problem 13 of
// Moré, Garbow and Hillstrom, ACM Trans. Math. Softw. 7 (1981) 17–41, as a
// square system; its Jacobian is singular at the root.
func powell(x, f, j []float64) {
	a, b := x[1]-2*x[2], x[0]-x[3]
	f[0], f[1] = x[0]+10*x[1], math.Sqrt(5)*(x[2]-x[3])
	f[2], f[3] = a*a, math.Sqrt(10)*b*b
	if j != nil {
		clear(j)
		j[0], j[1] = 1, 10
		j[6], j[7] = math.Sqrt(5), -math.Sqrt(5)
		j[9], j[10] = 2*a, -4*a
		j[12], j[15] = 2*math.Sqrt(10)*b, -2*math.Sqrt(10)*b
	}
}

// rosenbrock's function as a square system, problem 1 of the same paper.
func rosenbrock(x, f, j []float64) {
	f[0], f[1] = 10*(x[1]-x[0]*x[0]), 1-x[0]
	if j != nil {
		j[0], j[1], j[2], j[3] = -20*x[0], 10, -1, 0
	}
}

// badlyScaled is Powell's badly scaled function, problem 3.
func badlyScaled(x, f, j []float64) {
	f[0], f[1] = 1e4*x[0]*x[1]-1, math.Exp(-x[0])+math.Exp(-x[1])-1.0001
	if j != nil {
		j[0], j[1], j[2], j[3] = 1e4*x[1], 1e4*x[0], -math.Exp(-x[0]), -math.Exp(-x[1])
	}
}

// flows is a network: loops with turbulent and laminar losses and a buoyant
// drive, the shape of the systems that the program solves.
func flows(x, f, j []float64) {
	n := len(x)
	for i := range x {
		f[i] = 0.1*x[i] + 3*x[i]*math.Abs(x[i]) - 2
		if j != nil {
			j[i*n+i] = 0.1 + 6*math.Abs(x[i])
		}
		for k := range x {
			if k != i {
				f[i] += 0.5 * x[k]
				if j != nil {
					j[i*n+k] = 0.5
				}
			}
		}
	}
}

func TestNewton(t *testing.T) {
	var s Newton
	for _, c := range []struct {
		name string
		eq   system
		x    []float64
		want []float64
		tol  float64
	}{
		{"Rosenbrock", rosenbrock, []float64{-1.2, 1}, []float64{1, 1}, 1e-14},
		{"badly scaled", badlyScaled, []float64{0, 1}, []float64{1.098159e-5, 9.106146}, 1e-6},
		{"flows from rest", flows, make([]float64, 8), nil, 0},
		{"flows from far", flows, []float64{1e3, -1e3, 50, 0, 0, 3, 1, -7}, nil, 0},
	} {
		if err := s.Solve(c.eq, c.x); err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for i, w := range c.want {
			if math.Abs(c.x[i]/w-1) > c.tol {
				t.Errorf("%s: x[%d] = %.10g, want %.10g", c.name, i, c.x[i], w)
			}
		}
		f := make([]float64, len(c.x))
		c.eq(c.x, f, nil)
		for _, v := range f {
			if math.Abs(v) > 1e-11 {
				t.Errorf("%s: residual %g after %d iterations", c.name, v, s.Iterations)
			}
		}
	}
	// At a singular root convergence is linear; with a tolerance on the residual
	// it ends.
	x := []float64{3, -1, 0, 1}
	s.FTol = 1e-14
	if err := s.Solve(system(powell), x); err != nil || math.Abs(x[0]) > 1e-6 {
		t.Errorf("singular: %v, %v", x, err)
	}
	// No root: x² + 1.
	if err := s.Solve(system(func(x, f, j []float64) {
		f[0] = x[0]*x[0] + 1
		if j != nil {
			j[0] = 2 * x[0]
		}
	}), []float64{3}); !errors.Is(err, ErrRoot) {
		t.Errorf("no root: %v", err)
	}
	// Not defined below zero, bounds respected.
	s = Newton{Lower: []float64{1e-9}}
	x = []float64{100}
	if err := s.Solve(system(func(x, f, j []float64) {
		f[0] = math.Log(x[0]) - 1
		if j != nil {
			j[0] = 1 / x[0]
		}
	}), x); err != nil || math.Abs(x[0]-math.E) > 1e-12 {
		t.Errorf("logarithm: %v, %v", x, err)
	}
}

func TestNewtonAllocations(t *testing.T) {
	var s Newton
	x := make([]float64, 8)
	var eq Equations = system(flows)
	run := func() {
		clear(x)
		if err := s.Solve(eq, x); err != nil {
			t.Fatal(err)
		}
	}
	run()
	if n := testing.AllocsPerRun(10, run); n != 0 {
		t.Errorf("%g allocations on a used Newton", n)
	}
}

func BenchmarkNewton8(b *testing.B) {
	var s Newton
	x := make([]float64, 8)
	var eq Equations = system(flows)
	for b.Loop() {
		for i := range x {
			x[i] = 0.3
		}
		if err := s.Solve(eq, x); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.Iterations), "iterations")
}
