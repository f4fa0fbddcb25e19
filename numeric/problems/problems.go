// Package problems holds published stiff initial-value problems with their
// Jacobians, start values and reference end values, for the tests, the
// benchmarks and the comparison with other integrators of package numeric.
//
// All four are from F. Mazzia and C. Magherini, Test Set for Initial Value
// Problem Solvers, release 2.4, Department of Mathematics, University of Bari,
// 2008, chapters ROBER, HIRES, OREGO and VDPOL; the reference values are those
// of its reference solutions. Van der Pol's equation is used in its unscaled
// form with μ = 1000, as in Hairer and Wanner II.
package problems

import "math"

// Problem is one initial-value problem.
type Problem struct {
	Name  string
	Sys   System
	Start []float64
	End   float64
	Ref   []float64 // the solution at End
	Scale float64   // absolute tolerance over relative one, well below the smallest component
}

// System is a right-hand side with its Jacobian, row-major.
type System interface {
	Dim() int
	Rate(t float64, y, dydt []float64)
	Jacobian(t float64, y, f, jac []float64)
}

// All returns the four problems. They are autonomous.
func All() []Problem {
	return []Problem{
		{"ROBER", Rober{}, []float64{1, 0, 0}, 1e11,
			[]float64{0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050}, 1e-14},
		{"HIRES", Hires{}, []float64{1, 0, 0, 0, 0, 0, 0, 0.0057}, 321.8122,
			[]float64{0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2,
				0.2386356198831331e-2, 0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2}, 1e-4},
		{"OREGO", Orego{}, []float64{1, 2, 3}, 360,
			[]float64{1.000814870318523, 1228.178521549917, 132.0554942846706}, 1e-2},
		{"VDPOL", VanDerPol{1000}, []float64{2, 0}, 2000,
			[]float64{1.706167732170469, -0.8928097010248125e-3}, 1e-4},
	}
}

// Error is the largest relative difference between y and the reference.
func (p *Problem) Error(y []float64) float64 {
	var w float64
	for i, r := range p.Ref {
		w = max(w, math.Abs(y[i]/r-1))
	}
	return w
}

// Rober is Robertson's chemical reaction of 1966.
type Rober struct{}

func (Rober) Dim() int { return 3 }

func (Rober) Rate(_ float64, y, d []float64) {
	_, _ = y[2], d[2]
	a, b, c := 0.04*y[0], 1e4*y[1]*y[2], 3e7*y[1]*y[1]
	d[0] = -a + b
	d[1] = a - b - c
	d[2] = c
}

func (Rober) Jacobian(_ float64, y, _, j []float64) {
	_, _ = y[2], j[8]
	j[0], j[1], j[2] = -0.04, 1e4*y[2], 1e4*y[1]
	j[3], j[4], j[5] = 0.04, -1e4*y[2]-6e7*y[1], -1e4*y[1]
	j[7] = 6e7 * y[1]
}

// Hires is the high irradiance response of photomorphogenesis (Schäfer 1975).
type Hires struct{}

func (Hires) Dim() int { return 8 }

func (Hires) Rate(_ float64, y, d []float64) {
	_, _ = y[7], d[7]
	r := 280 * y[5] * y[7]
	d[0] = -1.71*y[0] + 0.43*y[1] + 8.32*y[2] + 0.0007
	d[1] = 1.71*y[0] - 8.75*y[1]
	d[2] = -10.03*y[2] + 0.43*y[3] + 0.035*y[4]
	d[3] = 8.32*y[1] + 1.71*y[2] - 1.12*y[3]
	d[4] = -1.745*y[4] + 0.43*(y[5]+y[6])
	d[5] = -r + 0.69*y[3] + 1.71*y[4] - 0.43*y[5] + 0.69*y[6]
	d[6] = r - 1.81*y[6]
	d[7] = -d[6]
}

func (Hires) Jacobian(_ float64, y, _, j []float64) {
	_, _ = y[7], j[63]
	a, b := 280*y[7], 280*y[5]
	j[0], j[1], j[2] = -1.71, 0.43, 8.32
	j[8], j[9] = 1.71, -8.75
	j[18], j[19], j[20] = -10.03, 0.43, 0.035
	j[25], j[26], j[27] = 8.32, 1.71, -1.12
	j[36], j[37], j[38] = -1.745, 0.43, 0.43
	j[43], j[44], j[45], j[46], j[47] = 0.69, 1.71, -a-0.43, 0.69, -b
	j[53], j[54], j[55] = a, -1.81, b
	j[61], j[62], j[63] = -a, 1.81, -b
}

// Orego is the Oregonator, a model of the Belousov–Zhabotinskii reaction
// (Field and Noyes 1974).
type Orego struct{}

func (Orego) Dim() int { return 3 }

func (Orego) Rate(_ float64, y, d []float64) {
	_, _ = y[2], d[2]
	d[0] = 77.27 * (y[1] + y[0]*(1-8.375e-6*y[0]-y[1]))
	d[1] = (y[2] - (1+y[0])*y[1]) / 77.27
	d[2] = 0.161 * (y[0] - y[2])
}

func (Orego) Jacobian(_ float64, y, _, j []float64) {
	_, _ = y[2], j[8]
	j[0], j[1] = 77.27*(1-2*8.375e-6*y[0]-y[1]), 77.27*(1-y[0])
	j[3], j[4], j[5] = -y[1]/77.27, -(1+y[0])/77.27, 1/77.27
	j[6], j[8] = 0.161, -0.161
}

// VanDerPol is Van der Pol's equation y” = μ(1−y²)y' − y.
type VanDerPol struct{ Mu float64 }

func (VanDerPol) Dim() int { return 2 }

func (p VanDerPol) Rate(_ float64, y, d []float64) {
	_, _ = y[1], d[1]
	d[0] = y[1]
	d[1] = p.Mu*(1-y[0]*y[0])*y[1] - y[0]
}

func (p VanDerPol) Jacobian(_ float64, y, _, j []float64) {
	_, _ = y[1], j[3]
	j[1] = 1
	j[2], j[3] = -2*p.Mu*y[0]*y[1]-1, p.Mu*(1-y[0]*y[0])
}
