package numeric_test

import (
	"fmt"
	"math"
	"testing"

	"toplit/internal/outside"
	"toplit/numeric"
	"toplit/numeric/problems"
)

// End values of the test set, and Robertson's problem on the way. The tolerance
// is a hundred times that asked of the integrator, well above the last digit of
// the source: the check is of the integrator, not of the arithmetic.
func TestStiffIntegratorOutside(t *testing.T) {
	const law, bari = "stiff integrator", "Mazzia and Magherini, Test Set for IVP Solvers, rel. 2.4, Univ. Bari 2008, ch. "
	const rtol, tol = 1e-11, 1e-9
	components := map[string][]int{"ROBER": {0, 1, 2}, "HIRES": {0, 2, 5, 7}, "OREGO": {0, 1, 2}, "VDPOL": {0, 1}}
	var s numeric.Solver
	var rows []outside.Row
	for _, p := range problems.All() {
		opt := numeric.Options{RTol: rtol, ATol: rtol * p.Scale, Autonomous: true}
		if err := s.Reset(p.Sys, 0, p.Start, opt); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Integrate(p.End, nil, nil); err != nil {
			t.Fatal(err)
		}
		for _, i := range components[p.Name] {
			rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("%s y%d at t = %g", p.Name, i+1, p.End), Source: bari + p.Name,
				Unit: "1", Published: p.Ref[i], Ours: s.Y()[i], Tol: outside.Rel(p.Ref[i], tol)})
		}
	}
	// On the way, by dense output, against another method.
	p := problems.All()[0]
	if err := s.Reset(p.Sys, 0, p.Start, numeric.Options{RTol: rtol, ATol: rtol * p.Scale, Autonomous: true}); err != nil {
		t.Fatal(err)
	}
	want := []struct {
		t, y2 float64
	}{{40, 9.1855347646e-06}, {4e5, 1.9849940880e-08}}
	var y [3]float64
	if _, err := s.Integrate(p.End, nil, func(s *numeric.Solver) bool {
		for len(want) > 0 && want[0].t <= s.T() {
			s.At(want[0].t, y[:])
			rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("ROBER y2 at t = %g", want[0].t), Source: "SciPy 1.10.1, Radau at relative tolerance 1e-10",
				Unit: "1", Published: want[0].y2, Ours: y[1], Tol: outside.Rel(want[0].y2, tol)})
			want = want[1:]
		}
		return len(want) > 0
	}); err != nil {
		t.Fatal(err)
	}
	if err := s.Reset(robinson{}, 0, []float64{1}, numeric.Options{RTol: rtol, ATol: rtol}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Integrate(10, nil, nil); err != nil {
		t.Fatal(err)
	}
	rows = append(rows, outside.Row{Law: law, Name: "Prothero-Robinson, λ = 1e4, y at t = 10", Source: "cos t; Prothero and Robinson, Math. Comp. 28 (1974) 145",
		Unit: "1", Published: math.Cos(10), Ours: s.Y()[0], Tol: tol})
	outside.Check(t, rows...)
}

// robinson is y' = −10⁴(y − cos t) − sin t with differenced derivatives.
type robinson struct{}

func (robinson) Dim() int { return 1 }
func (robinson) Rate(t float64, y, d []float64) {
	d[0] = -1e4*(y[0]-math.Cos(t)) - math.Sin(t)
}

// Published roots.
func TestRootsOutside(t *testing.T) {
	const law = "roots"
	const mgh = "Moré, Garbow and Hillstrom, ACM Trans. Math. Softw. 7 (1981) 17-41, "
	root := func(f func(float64) float64, a, b float64) float64 {
		x, err := numeric.Root(f, a, b, 0)
		if err != nil {
			t.Error(err)
		}
		return x
	}
	var s numeric.Newton
	solve := func(eq equations, x ...float64) []float64 {
		if err := s.Solve(eq, x); err != nil {
			t.Error(err)
		}
		return x
	}
	bad := solve(func(x, f, j []float64) {
		f[0], f[1] = 1e4*x[0]*x[1]-1, math.Exp(-x[0])+math.Exp(-x[1])-1.0001
		if j != nil {
			j[0], j[1], j[2], j[3] = 1e4*x[1], 1e4*x[0], -math.Exp(-x[0]), -math.Exp(-x[1])
		}
	}, 0, 1)
	// Problem 27 with n = 10: x = (α, …, α, α^(1−n)).
	brown := solve(func(x, f, j []float64) {
		n := len(x)
		sum, prod := 0.0, 1.0
		for _, v := range x {
			sum += v
			prod *= v
		}
		for i := range n - 1 {
			f[i] = x[i] + sum - float64(n+1)
		}
		f[n-1] = prod - 1
		for i := range n {
			for k := range n {
				if j == nil {
					break
				}
				switch {
				case i == n-1:
					j[i*n+k] = prod / x[k]
				case i == k:
					j[i*n+k] = 2
				default:
					j[i*n+k] = 1
				}
			}
		}
	}, 0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 2)
	// Problem 2.
	freudenstein := solve(func(x, f, j []float64) {
		y := x[1]
		f[0] = -13 + x[0] + ((5-y)*y-2)*y
		f[1] = -29 + x[0] + ((y+1)*y-14)*y
		if j != nil {
			j[0], j[1], j[2], j[3] = 1, (10-3*y)*y-2, 1, (3*y+2)*y-14
		}
	}, 6, 5)
	outside.Check(t,
		outside.Row{Law: law, Name: "x³ − 2x − 5 = 0 (Wallis)", Source: "OEIS A007493", Unit: "1", Published: 2.094551481542326,
			Ours: root(func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3), Tol: 1e-15},
		outside.Row{Law: law, Name: "cos x = x", Source: "OEIS A003957", Unit: "1", Published: 0.739085133215160,
			Ours: root(func(x float64) float64 { return math.Cos(x) - x }, 0, 1), Tol: 1e-15},
		outside.Row{Law: law, Name: "x·exp x = 1", Source: "OEIS A030178 [memory]", Unit: "1", Published: 0.567143290409783,
			Ours: root(func(x float64) float64 { return x*math.Exp(x) - 1 }, 0, 1), Tol: 1e-15},
		outside.Row{Law: law, Name: "tan x = x, first root", Source: "[memory]; tabulated in Abramowitz and Stegun 1964, chapter 4", Unit: "1", Published: 4.49341,
			Ours: root(func(x float64) float64 { return math.Sin(x) - x*math.Cos(x) }, 4, 4.7), Tol: 1e-5},
		outside.Row{Law: law, Name: "Powell badly scaled x1", Source: mgh + "problem 3; digits of the GNU Scientific Library's test", Unit: "1", Published: 1.09815932969976e-5, Ours: bad[0], Tol: 1e-18},
		outside.Row{Law: law, Name: "Powell badly scaled x2", Source: mgh + "problem 3; digits of the GNU Scientific Library's test", Unit: "1", Published: 9.106146739867, Ours: bad[1], Tol: 1e-12},
		outside.Row{Law: law, Name: "Freudenstein and Roth x1", Source: mgh + "problem 2", Unit: "1", Published: 5, Ours: freudenstein[0], Tol: 1e-12},
		outside.Row{Law: law, Name: "Freudenstein and Roth x2", Source: mgh + "problem 2", Unit: "1", Published: 4, Ours: freudenstein[1], Tol: 1e-12},
		outside.Row{Law: law, Name: "Brown almost-linear, n = 10, product", Source: mgh + "problem 27", Unit: "1", Published: 1,
			Ours: math.Pow(brown[0], 9) * brown[9], Tol: 1e-12},
		outside.Row{Law: law, Name: "Brown almost-linear, n = 10: n·αⁿ − (n+1)·αⁿ⁻¹", Source: mgh + "problem 27", Unit: "1", Published: -1,
			Ours: 10*math.Pow(brown[0], 10) - 11*math.Pow(brown[0], 9), Tol: 1e-12},
	)
}

// equations is a square system given by a function.
type equations func(x, f, jac []float64)

func (e equations) Evaluate(x, f, jac []float64) { e(x, f, jac) }

// The sequence is an exact one: the tolerance is rounding.
func TestPointsOutside(t *testing.T) {
	const law = "low-discrepancy points"
	const scipy = "SciPy 1.10.1, scipy.stats.qmc.Sobol(64, scramble=False)"
	p, err := numeric.NewSobol(64)
	if err != nil {
		t.Fatal(err)
	}
	x := make([]float64, 64)
	at := func(i uint32, d int) float64 {
		p.At(i, x)
		return x[d-1]
	}
	var rows []outside.Row
	for _, c := range []struct {
		i    uint32
		d    int
		want float64
	}{{9, 10, 0.8125}, {100, 21, 0.7578125}, {777, 41, 0.7216796875}, {1000, 50, 0.4794921875}, {1023, 64, 0.0400390625}, {4095, 64, 0.553466796875}, {2500, 56, 0.112060546875}} {
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("point %d, axis %d", c.i, c.d), Source: scipy,
			Unit: "1", Published: c.want, Ours: at(c.i, c.d), Tol: 1e-15})
	}
	// The first axis is van der Corput's sequence in Gray-code order: the binary
	// digits of i xor i/2 mirrored at the point. 13 → 1011 → 0.1101.
	rows = append(rows, outside.Row{Law: law, Name: "point 13, axis 1", Source: "van der Corput 1935, by hand: 1011 mirrored",
		Unit: "1", Published: 13. / 16, Ours: at(13, 1), Tol: 1e-15})
	// Integrals known in closed form, over scrambled points; the tolerance is three
	// standard deviations of such means, 0.00019 for the product over forty seeds
	// here as with SciPy.
	q, err := numeric.NewPoints(5, 1)
	if err != nil {
		t.Fatal(err)
	}
	const n = 1 << 16
	var product, ball float64
	u := make([]float64, 5)
	for i := range uint32(n) {
		q.At(i, u)
		v, r := 1.0, 0.0
		for k, c := range u {
			v *= math.Abs(4*c - 2)
			if k < 3 {
				r += c * c
			}
		}
		product += v / n
		if r <= 1 {
			ball += 1. / n
		}
	}
	rows = append(rows,
		outside.Row{Law: law, Name: "mean of Π abs(4x−2) in five dimensions, 65 536 points", Source: "closed form; Bratley and Fox, ACM Trans. Math. Softw. 14 (1988) 88",
			Unit: "1", Published: 1, Ours: product, Tol: 3 * 0.00019},
		outside.Row{Law: law, Name: "eighth of the unit ball, 65 536 points", Source: "closed form π/6; tolerance of independent random points over 10",
			Unit: "1", Published: math.Pi / 6, Ours: ball, Tol: 3 * math.Sqrt(0.25/n) / 10})
	outside.Check(t, rows...)
}
