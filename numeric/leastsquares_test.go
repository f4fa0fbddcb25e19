package numeric

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// A linear fit is solved in closed form: y = a + b·x with normal equations.
func TestLinearFit(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4}
	y := []float64{1, 3, 2, 5, 4}
	res := Residuals{N: 5,
		At: func(p, r []float64) {
			for i := range x {
				r[i] = p[0] + p[1]*x[i] - y[i]
			}
		},
		Jacobian: func(_, j []float64) {
			for i := range x {
				j[2*i], j[2*i+1] = 1, x[i]
			}
		}}
	f, err := LeastSquares(res, []float64{10, -10}, FitOptions{})
	if err != nil {
		t.Fatal(err)
	}
	// Means 2 and 3, Sxx = 10, Sxy = 8: b = 0.8, a = 1.4, RSS = 10 − 6.4 = 3.6.
	s2 := 3.6 / 3
	cov := []float64{s2 * (1./5 + 4./10), -s2 * 2 / 10, -s2 * 2 / 10, s2 / 10}
	if math.Abs(f.P[0]-1.4) > 1e-14 || math.Abs(f.P[1]-0.8) > 1e-14 || math.Abs(f.RSS-3.6) > 1e-14 || f.DOF != 3 || !f.Converged {
		t.Errorf("fit %+v", f)
	}
	for i, c := range cov {
		if math.Abs(f.Covariance[i]-c) > 1e-14 {
			t.Errorf("covariance %v, want %v", f.Covariance, cov)
		}
	}
	// With b held at most 0.5 the best a is the mean of y − 0.5 x = 2.
	f, err = LeastSquares(res, []float64{0, 0}, FitOptions{Upper: []float64{math.Inf(1), 0.5}})
	if err != nil || !f.Converged || !f.AtBound[1] || f.AtBound[0] || math.Abs(f.P[0]-2) > 1e-14 || f.P[1] != 0.5 || f.DOF != 4 {
		t.Errorf("bounded fit %+v, %v", f, err)
	}
	if f.StdErr[1] != 0 || math.Abs(f.StdErr[0]-math.Sqrt(f.RSS/4/5)) > 1e-14 {
		t.Errorf("deviations %v", f.StdErr)
	}
}

// At the end of any bounded fit the conditions of a minimum hold: no slope in
// the free parameters, outward slopes in the held ones, all within bounds.
func TestBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(t, "n")
		m := n + rapid.IntRange(1, 10).Draw(t, "more")
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		a := make([]float64, m*n)
		b := make([]float64, m)
		for i := range a {
			a[i] = rng.NormFloat64()
		}
		for i := range b {
			b[i] = 2 * rng.NormFloat64()
		}
		lo, hi, p := make([]float64, n), make([]float64, n), make([]float64, n)
		for j := range n {
			lo[j] = -rng.Float64()
			hi[j] = rng.Float64()
			p[j] = 4 * rng.NormFloat64()
		}
		// Mildly nonlinear: the argument of each residual is bent.
		res := Residuals{N: m, At: func(p, r []float64) {
			for i := range r {
				v := dot(a[i*n:(i+1)*n], p)
				r[i] = v + 0.1*math.Sin(v) - b[i]
			}
		}}
		f, err := LeastSquares(res, p, FitOptions{Lower: lo, Upper: hi, Central: true})
		if err != nil {
			t.Fatal(err)
		}
		if !f.Converged {
			t.Fatalf("not converged: %s", f.Reason)
		}
		r := make([]float64, m)
		res.At(f.P, r)
		for j := range n {
			var g, norm float64
			for i := range m {
				v := dot(a[i*n:(i+1)*n], f.P)
				d := a[i*n+j] * (1 + 0.1*math.Cos(v))
				g += d * r[i]
				norm += d * d
			}
			g /= math.Sqrt(norm * f.RSS)
			if f.P[j] < lo[j] || f.P[j] > hi[j] {
				t.Errorf("parameter %d at %g outside %g to %g", j, f.P[j], lo[j], hi[j])
			}
			switch {
			case f.P[j] == lo[j] && g >= -1e-5, f.P[j] == hi[j] && g <= 1e-5:
			case math.Abs(g) > 1e-5:
				t.Errorf("slope %g of parameter %d at %g, bounds %g to %g: %s", g, j, f.P[j], lo[j], hi[j], f.Reason)
			}
		}
	})
}

// Where the model is not defined the step shortens.
func TestUndefinedModel(t *testing.T) {
	res := Residuals{N: 3, At: func(p, r []float64) {
		for i := range r {
			r[i] = math.Log(p[0]) - 1 + 0.1*float64(i-1)
		}
	}}
	f, err := LeastSquares(res, []float64{40}, FitOptions{})
	if err != nil || !f.Converged || math.Abs(f.P[0]-math.E) > 1e-7 {
		t.Errorf("%+v, %v", f, err)
	}
	if _, err := LeastSquares(res, []float64{-1}, FitOptions{}); !errors.Is(err, ErrFit) {
		t.Errorf("start outside the domain: %v", err)
	}
	// A parameter without effect leaves no covariance but does no harm.
	res.At = func(p, r []float64) {
		for i := range r {
			r[i] = p[0] - float64(i)
		}
	}
	f, err = LeastSquares(res, []float64{5, 7}, FitOptions{})
	if err != nil || math.Abs(f.P[0]-1) > 1e-8 || f.P[1] != 7 || f.Covariance != nil {
		t.Errorf("%+v, %v", f, err)
	}
}

func TestFitRefusals(t *testing.T) {
	at := func(p, r []float64) { r[0] = p[0] }
	for i, c := range []struct {
		res Residuals
		p   []float64
		opt FitOptions
	}{
		{Residuals{N: 1, At: at}, nil, FitOptions{}},
		{Residuals{N: 0, At: at}, []float64{1}, FitOptions{}},
		{Residuals{N: 1}, []float64{1}, FitOptions{}},
		{Residuals{N: 1, At: at}, []float64{math.NaN()}, FitOptions{}},
		{Residuals{N: 1, At: at}, []float64{1}, FitOptions{Lower: []float64{1}, Upper: []float64{1}}},
		{Residuals{N: 1, At: at}, []float64{1}, FitOptions{Lower: []float64{1, 2}}},
		{Residuals{N: 1, At: at}, []float64{1}, FitOptions{Size: []float64{1, 2}}},
	} {
		if _, err := LeastSquares(c.res, c.p, c.opt); !errors.Is(err, ErrFit) {
			t.Errorf("case %d: %v", i, err)
		}
	}
}
