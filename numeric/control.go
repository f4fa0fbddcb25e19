package numeric

import "math"

// Step-size control: the predictive controller of K. Gustafsson, ACM Trans.
// Math. Softw. 20 (1994) 496–517, in the form of Hairer and Wanner, Solving
// Ordinary Differential Equations II, 2nd ed. 1996, IV.8 eq. (8.25), with their
// safety factor 0.9 and limits 1/5 and 6 of a step's change.
const (
	safety     = 0.9
	growMost   = 6.0
	shrinkMost = 5.0
	leastError = 1e-2
)

// quotient is the accepted step over the next one.
func (s *Solver) quotient(h, e float64) float64 {
	q := fifthRoot(e) / safety
	if s.hacc > 0 {
		q = max(q, s.hacc/h*fifthRoot(e*e/s.eacc)/safety)
	}
	return min(max(q, 1/growMost), shrinkMost)
}

// shrink is the factor on a step rejected with error e; +Inf stands for a step
// that could not be computed.
func shrink(e float64) float64 {
	if e > 1e10 {
		return 0.25
	}
	return max(safety/fifthRoot(e), 1/shrinkMost)
}

// fifthRoot is x^(1/5) to about 1e-4, which is ample for choosing a step and
// ten times faster than math.Pow. It is 0 below 1e-12.
func fifthRoot(x float64) float64 {
	if !(x > 1e-12) {
		return 0
	}
	// The exponent bits divided by five give a start within a few per cent.
	r := math.Float64frombits(math.Float64bits(x)/5 + 0x3326_6666_6666_6667)
	for range 2 {
		r2 := r * r
		r = 0.8*r + 0.2*x/(r2*r2)
	}
	return r
}
