package numeric

import "math"

// The stiff test problems of the Test Set for IVP Solvers (F. Mazzia and
// C. Magherini, release 2.4, University of Bari, 2008), with Jacobians.

type rober struct{}

func (rober) Dim() int { return 3 }
func (rober) Rate(_ float64, y, d []float64) {
	_ = d[2]
	a, b, c := 0.04*y[0], 1e4*y[1]*y[2], 3e7*y[1]*y[1]
	d[0] = -a + b
	d[1] = a - b - c
	d[2] = c
}
func (rober) Jacobian(_ float64, y, _, j []float64) {
	_ = j[8]
	j[0], j[1], j[2] = -0.04, 1e4*y[2], 1e4*y[1]
	j[3], j[4], j[5] = 0.04, -1e4*y[2]-6e7*y[1], -1e4*y[1]
	j[7] = 6e7 * y[1]
}

type hires struct{}

func (hires) Dim() int { return 8 }
func (hires) Rate(_ float64, y, d []float64) {
	_, _ = y[7], d[7]
	d[0] = -1.71*y[0] + 0.43*y[1] + 8.32*y[2] + 0.0007
	d[1] = 1.71*y[0] - 8.75*y[1]
	d[2] = -10.03*y[2] + 0.43*y[3] + 0.035*y[4]
	d[3] = 8.32*y[1] + 1.71*y[2] - 1.12*y[3]
	d[4] = -1.745*y[4] + 0.43*(y[5]+y[6])
	r := 280 * y[5] * y[7]
	d[5] = -r + 0.69*y[3] + 1.71*y[4] - 0.43*y[5] + 0.69*y[6]
	d[6] = r - 1.81*y[6]
	d[7] = -d[6]
}
func (hires) Jacobian(_ float64, y, _, j []float64) {
	_ = j[63]
	j[0], j[1], j[2] = -1.71, 0.43, 8.32
	j[8], j[9] = 1.71, -8.75
	j[18], j[19], j[20] = -10.03, 0.43, 0.035
	j[25], j[26], j[27] = 8.32, 1.71, -1.12
	j[36], j[37], j[38] = -1.745, 0.43, 0.43
	a, b := 280*y[7], 280*y[5]
	j[43], j[44], j[45], j[46], j[47] = 0.69, 1.71, -a-0.43, 0.69, -b
	j[53], j[54], j[55] = a, -1.81, b
	j[61], j[62], j[63] = -a, 1.81, -b
}

type orego struct{}

func (orego) Dim() int { return 3 }
func (orego) Rate(_ float64, y, d []float64) {
	_ = d[2]
	d[0] = 77.27 * (y[1] + y[0]*(1-8.375e-6*y[0]-y[1]))
	d[1] = (y[2] - (1+y[0])*y[1]) / 77.27
	d[2] = 0.161 * (y[0] - y[2])
}
func (orego) Jacobian(_ float64, y, _, j []float64) {
	_ = j[8]
	j[0], j[1] = 77.27*(1-2*8.375e-6*y[0]-y[1]), 77.27*(1-y[0])
	j[3], j[4], j[5] = -y[1]/77.27, -(1+y[0])/77.27, 1/77.27
	j[6], j[8] = 0.161, -0.161
}

// vdpol is Van der Pol's equation in the unscaled form.
type vdpol struct{ mu float64 }

func (vdpol) Dim() int { return 2 }
func (p vdpol) Rate(_ float64, y, d []float64) {
	_ = d[1]
	d[0] = y[1]
	d[1] = p.mu*(1-y[0]*y[0])*y[1] - y[0]
}
func (p vdpol) Jacobian(_ float64, y, _, j []float64) {
	_ = j[3]
	j[1] = 1
	j[2], j[3] = -2*p.mu*y[0]*y[1]-1, p.mu*(1-y[0]*y[0])
}

// problem is a test problem with its reference end values.
type problem struct {
	name string
	sys  JacobianSystem
	y0   []float64
	end  float64
	ref  []float64
	atol float64 // of rtol, for the scale of the smallest component
}

func problems() []problem {
	return []problem{
		{"ROBER", rober{}, []float64{1, 0, 0}, 1e11, []float64{0.2083340149701255e-7, 0.8333360770334713e-13, 0.9999999791665050}, 1e-14},
		{"HIRES", hires{}, []float64{1, 0, 0, 0, 0, 0, 0, 0.0057}, 321.8122, []float64{
			0.7371312573325668e-3, 0.1442485726316185e-3, 0.5888729740967575e-4, 0.1175651343283149e-2,
			0.2386356198831331e-2, 0.6238968252742796e-2, 0.2849998395185769e-2, 0.2850001604814231e-2}, 1e-4},
		{"OREGO", orego{}, []float64{1, 2, 3}, 360, []float64{1.000814870318523, 1228.178521549917, 132.0554942846706}, 1e-2},
		{"VDPOL", vdpol{1000}, []float64{2, 0}, 2000, []float64{1.706167732170469, -0.8928097010248125e-3}, 1e-4},
	}
}

// worstRel is the largest relative difference of two vectors.
func worstRel(a, b []float64) float64 {
	var w float64
	for i := range a {
		w = max(w, math.Abs(a[i]/b[i]-1))
	}
	return w
}

// plain hides the Jacobian of a system.
type plain struct{ System }
