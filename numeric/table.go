package numeric

import (
	"fmt"
	"math"
)

// Table is a function of one variable given on an even grid, interpolated by
// cubics. A look-up takes a few nanoseconds and allocates nothing. It never
// changes after it is made. Beyond its ends it goes on along the end's tangent.
type Table struct {
	x0, inv, h float64
	c          [][4]float64 // y = c0 + c1·u + c2·u² + c3·u³, u from 0 to 1 in the interval
	top        float64      // number of intervals
}

// NewTable returns the cubic spline through y on an even grid from x0 to x1,
// with the third derivative continuous at the first and last inner point
// (not-a-knot; C. de Boor, A Practical Guide to Splines, 1978, chapter IV). Its
// error is of order 4. It needs four values or more.
func NewTable(x0, x1 float64, y []float64) (*Table, error) {
	if len(y) < 4 {
		return nil, fmt.Errorf("cubic table of %d values, want 4 or more", len(y))
	}
	if err := checkTable(x0, x1, y); err != nil {
		return nil, err
	}
	return newTable(x0, x1, y, splineSlopes(y)), nil
}

// NewMonotoneTable returns the cubics through y on an even grid from x0 to x1
// that rise and fall only where y does (see NewMonotone). Its error is of order
// 2 to 3. It needs two values or more.
func NewMonotoneTable(x0, x1 float64, y []float64) (*Table, error) {
	if len(y) < 2 {
		return nil, fmt.Errorf("monotone table of %d values, want 2 or more", len(y))
	}
	if err := checkTable(x0, x1, y); err != nil {
		return nil, err
	}
	x := make([]float64, len(y))
	for i := range x {
		x[i] = float64(i)
	}
	return newTable(x0, x1, y, monotoneSlopes(x, y)), nil
}

// TableOf samples f at n+1 points from x0 to x1 and returns the cubic spline
// through them.
func TableOf(f func(x float64) float64, x0, x1 float64, n int) (*Table, error) {
	if n < 3 {
		return nil, fmt.Errorf("cubic table of %d intervals, want 3 or more", n)
	}
	y := make([]float64, n+1)
	for i := range y {
		y[i] = f(x0 + (x1-x0)*float64(i)/float64(n))
	}
	return NewTable(x0, x1, y)
}

func checkTable(x0, x1 float64, y []float64) error {
	if !(x0 < x1) || math.IsInf(x1-x0, 0) {
		return fmt.Errorf("table from %g to %g, want finite ends in rising order", x0, x1)
	}
	if i := notFinite(y); i >= 0 {
		return fmt.Errorf("value %g at point %d of a table, want finite numbers", y[i], i)
	}
	return nil
}

// newTable takes the slopes by interval.
func newTable(x0, x1 float64, y, slope []float64) *Table {
	n := len(y) - 1
	t := &Table{x0: x0, h: (x1 - x0) / float64(n), inv: float64(n) / (x1 - x0), c: make([][4]float64, n), top: float64(n)}
	for i := range t.c {
		d := y[i+1] - y[i]
		a, b := slope[i], slope[i+1]
		t.c[i] = [4]float64{y[i], a, 3*d - 2*a - b, a + b - 2*d}
	}
	return t
}

// splineSlopes solves for the slopes of the not-a-knot spline with unit
// spacing.
func splineSlopes(y []float64) []float64 {
	n := len(y) - 1
	m := make([]float64, n+1)
	// Inner rows: m[i-1] + 4 m[i] + m[i+1] = 3 (y[i+1] − y[i-1]).
	// First row: m[0] + 2 m[1] = (5 δ0 + δ1)/2, δ the differences; last likewise.
	cp := make([]float64, n+1)
	cp[0] = 2
	m[0] = (5*(y[1]-y[0]) + (y[2] - y[1])) / 2
	for i := 1; i < n; i++ {
		d := 1 / (4 - cp[i-1])
		cp[i] = d
		m[i] = (3*(y[i+1]-y[i-1]) - m[i-1]) * d
	}
	last := (5*(y[n]-y[n-1]) + (y[n-1] - y[n-2])) / 2
	m[n] = (last - 2*m[n-1]) / (1 - 2*cp[n-1])
	for i := n - 1; i >= 0; i-- {
		m[i] -= cp[i] * m[i+1]
	}
	return m
}

// At is the value at x.
func (t *Table) At(x float64) float64 {
	u := (x - t.x0) * t.inv
	if u >= 0 && u < t.top {
		i := int(u)
		c := &t.c[i]
		u -= float64(i)
		return c[0] + u*(c[1]+u*(c[2]+u*c[3]))
	}
	y, _ := t.beyond(u)
	return y
}

// AtSlope is the value at x and the derivative there.
func (t *Table) AtSlope(x float64) (y, slope float64) {
	u := (x - t.x0) * t.inv
	if u >= 0 && u < t.top {
		i := int(u)
		c := &t.c[i]
		u -= float64(i)
		return c[0] + u*(c[1]+u*(c[2]+u*c[3])), (c[1] + u*(2*c[2]+u*3*c[3])) * t.inv
	}
	return t.beyond(u)
}

// beyond is the tangent at the nearer end; the last point itself belongs here.
func (t *Table) beyond(u float64) (y, slope float64) {
	if u < 0 {
		c := &t.c[0]
		return c[0] + u*c[1], c[1] * t.inv
	}
	// NaN falls through to here and stays NaN.
	c := &t.c[len(t.c)-1]
	s := c[1] + 2*c[2] + 3*c[3]
	return c[0] + c[1] + c[2] + c[3] + (u-t.top)*s, s * t.inv
}

// Range is where the table has values.
func (t *Table) Range() (x0, x1 float64) { return t.x0, t.x0 + t.h*t.top }
