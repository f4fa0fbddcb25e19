package numeric_test

import (
	"fmt"
	"math"

	"toplit/numeric"
)

// cooling is Newton's law with the heat given off as a quadrature.
type cooling struct{}

func (cooling) Dim() int { return 2 }
func (cooling) Rate(_ float64, y, d []float64) {
	flow := 0.1 * (y[0] - 20)
	d[0] = -flow
	d[1] = flow
}

// From 100 to 40 above surroundings of 20 by T = 20 + 80·exp(−0.1 t): t = 10·ln 4.
func ExampleSolver_Integrate() {
	var s numeric.Solver
	err := s.Reset(cooling{}, 0, []float64{100, 0}, numeric.Options{RTol: 1e-8, Quadratures: 1, Autonomous: true})
	if err != nil {
		fmt.Println(err)
		return
	}
	status, err := s.Integrate(60, []numeric.Event{{
		G:        func(_ float64, y []float64) float64 { return y[0] - 40 },
		Terminal: true,
	}}, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: t = %.5f (10·ln 4 = %.5f), given off %.5f\n", status, s.T(), 10*math.Log(4), s.Y()[1])
	// Output: at event: t = 13.86294 (10·ln 4 = 13.86294), given off 60.00000
}

// A straight line through five readings, its slope held at 0.5 or less.
func ExampleLeastSquares() {
	x := []float64{0, 1, 2, 3, 4}
	y := []float64{1, 3, 2, 5, 4}
	fit, err := numeric.LeastSquares(numeric.Residuals{N: 5, At: func(p, r []float64) {
		for i := range x {
			r[i] = p[0] + p[1]*x[i] - y[i]
		}
	}}, []float64{0, 0}, numeric.FitOptions{Upper: []float64{math.Inf(1), 0.5}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.4f ± %.4f and %.4f, held: %v\n", fit.P[0], fit.StdErr[0], fit.P[1], fit.AtBound[1])
	// Output: 2.0000 ± 0.4743 and 0.5000, held: true
}

func ExamplePoints() {
	p, err := numeric.NewSobol(3)
	if err != nil {
		fmt.Println(err)
		return
	}
	x := make([]float64, 3)
	for i := range uint32(4) {
		p.At(i, x)
		fmt.Println(x)
	}
	// Output:
	// [0 0 0]
	// [0.5 0.5 0.5]
	// [0.75 0.25 0.25]
	// [0.25 0.75 0.75]
}
