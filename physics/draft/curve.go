package draft

import "math"

// A curve is the dimensionless pressure G(Re) = zeta Re^2 of an element, where
// dp = zeta rho v^2/2 = mu^2/(2 rho d^2) G and Re = rho v d/mu. It is kept as
// cubics that share value and slope at their ends (C1), in cells that get
// wider with Re by quarters of an octave of 1+Re, so that finding the cell is
// reading the exponent and two bits of the mantissa. It starts as a line
// through 0 (creeping flow) and goes on beyond its last cell as a parabola
// with fixed zeta.
type curve struct {
	cell  []cubic
	last  float64 // Re where the cells end
	value float64 // G there
	slope float64 // dG/dRe there
}

type cubic struct{ x, a, b, c, d float64 }

const (
	cellBits   = 2  // four cells an octave
	octaves    = 20 // to Re 2^20 - 1
	mantissa   = 52
	exponentAt = 1023 << cellBits // where 1+Re = 1 falls
)

// newCurve tabulates G, given atZero = dG/dRe at Re = 0; the other slopes are
// difference quotients, good to 1e-7.
func newCurve(atZero float64, g func(re float64) float64) *curve {
	n := octaves << cellBits
	c := &curve{cell: make([]cubic, n)}
	edge := func(i int) float64 { return math.Float64frombits(uint64(i+exponentAt)<<(mantissa-cellBits)) - 1 }
	x0, g0, s0 := 0.0, 0.0, atZero
	for i := range c.cell {
		x1 := edge(i + 1)
		const h = 1e-4
		g1, s1 := g(x1), (g(x1*(1+h))-g(x1*(1-h)))/(2*h*x1)
		w := x1 - x0
		mean := (g1 - g0) / w
		c.cell[i] = cubic{x: x0, a: g0, b: s0, c: (3*mean - 2*s0 - s1) / w, d: (s0 + s1 - 2*mean) / (w * w)}
		x0, g0, s0 = x1, g1, s1
	}
	c.last, c.value, c.slope = x0, g0, s0
	return c
}

// at returns G and dG/dRe at re >= 0.
func (c *curve) at(re float64) (g, slope float64) {
	i := int(math.Float64bits(1+re)>>(mantissa-cellBits)) - exponentAt
	if uint(i) < uint(len(c.cell)) {
		p := &c.cell[i]
		t := re - p.x
		return p.a + t*(p.b+t*(p.c+t*p.d)), p.b + t*(2*p.c+3*t*p.d)
	}
	// Same value and slope at the end, then G'' = slope/last as a pure
	// parabola has; also what infinite and NaN flows fall into.
	t := re - c.last
	return c.value + t*(c.slope+t*c.slope/(2*c.last)), c.slope * (1 + t/c.last)
}

// law is a curve scaled to one element.
type law struct {
	g       *curve
	perFlow float64 // Re mu/m = d/A [1/m]
	unit    float64 // dp rho/(mu^2 G) = factor/(2 d^2) [1/m2]
}

func (c *curve) scaled(area, d, factor float64) law {
	return law{g: c, perFlow: d / area, unit: factor / (2 * d * d)}
}

// Drop returns the pressure lost [Pa] and its slope [Pa s/kg]; see [Element].
func (x *law) Drop(m, rho, mu float64) (dp, slope float64) {
	per := x.perFlow / mu
	g, s := x.g.at(math.Abs(m) * per)
	unit := x.unit * mu * mu / rho
	return math.Copysign(unit*g, m), unit * s * per
}
