package numeric

import (
	"fmt"
	"math"
	"slices"
)

// Monotone is a function of one variable given at rising points, interpolated
// by cubics that rise and fall only where the values do, so that it never
// overshoots them. It never changes after it is made. Beyond its ends it goes
// on along the end's tangent.
type Monotone struct {
	x, y, m []float64
}

// NewMonotone returns the monotone interpolant of F. N. Fritsch and J. Butland,
// SIAM J. Sci. Stat. Comput. 5 (1984) 300–304: slopes are weighted harmonic
// means of the neighbouring differences, those at the ends three-point
// differences held to the sign of the nearest. Order 2 at extrema, else near 3.
// It keeps x and y.
func NewMonotone(x, y []float64) (*Monotone, error) {
	if len(x) != len(y) || len(x) < 2 {
		return nil, fmt.Errorf("interpolation of %d values at %d points, want two or more of each", len(y), len(x))
	}
	for i := range x {
		if x[i]-x[i] != 0 || y[i]-y[i] != 0 {
			return nil, fmt.Errorf("point %d at (%g, %g), want finite numbers", i, x[i], y[i])
		}
		if i > 0 && !(x[i] > x[i-1]) {
			return nil, fmt.Errorf("point %d at %g after %g, want rising points", i, x[i], x[i-1])
		}
	}
	return &Monotone{x, y, monotoneSlopes(x, y)}, nil
}

func monotoneSlopes(x, y []float64) []float64 {
	n := len(x)
	m := make([]float64, n)
	h := func(i int) float64 { return x[i+1] - x[i] }
	d := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	if n == 2 {
		m[0], m[1] = d(0), d(0)
		return m
	}
	for i := 1; i < n-1; i++ {
		a, b := d(i-1), d(i)
		if a*b > 0 {
			w1, w2 := 2*h(i)+h(i-1), h(i)+2*h(i-1)
			m[i] = (w1 + w2) / (w1/a + w2/b)
		}
	}
	m[0] = endSlope(h(0), h(1), d(0), d(1))
	m[n-1] = endSlope(h(n-2), h(n-3), d(n-2), d(n-3))
	return m
}

func endSlope(h0, h1, d0, d1 float64) float64 {
	m := ((2*h0+h1)*d0 - h0*d1) / (h0 + h1)
	switch {
	case m*d0 <= 0:
		return 0
	case d0*d1 <= 0 && math.Abs(m) > 3*math.Abs(d0):
		return 3 * d0
	}
	return m
}

// At is the value at x.
func (p *Monotone) At(x float64) float64 {
	y, _ := p.AtSlope(x)
	return y
}

// AtSlope is the value at x and the derivative there.
func (p *Monotone) AtSlope(x float64) (y, slope float64) {
	n := len(p.x)
	switch {
	case x <= p.x[0]:
		return p.y[0] + (x-p.x[0])*p.m[0], p.m[0]
	case x >= p.x[n-1]:
		return p.y[n-1] + (x-p.x[n-1])*p.m[n-1], p.m[n-1]
	case math.IsNaN(x):
		return x, x
	}
	i, hit := slices.BinarySearch(p.x, x)
	if hit {
		return p.y[i], p.m[i]
	}
	i--
	h := p.x[i+1] - p.x[i]
	u := (x - p.x[i]) / h
	d, a, b := p.y[i+1]-p.y[i], p.m[i]*h, p.m[i+1]*h
	c2, c3 := 3*d-2*a-b, a+b-2*d
	return p.y[i] + u*(a+u*(c2+u*c3)), (a + u*(2*c2+u*3*c3)) / h
}
