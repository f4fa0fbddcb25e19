package sim

import (
	"math"

	"toplit/numeric"
)

// Smooth switches. All are C1 and exact outside their width, so that halving a
// width only moves what happens inside it.

// step rises from 0 to 1 as x goes from -w/2 to w/2.
func step(x, w float64) float64 {
	u := x/w + 0.5
	if u <= 0 {
		return 0
	}
	if u >= 1 {
		return 1
	}
	return u * u * (3 - 2*u)
}

// ramp is the integral of step: 0 below -w, x above w, parabolic between.
func ramp(x, w float64) float64 { return numeric.SoftPlus(x, w) }

// positive is the part of x above zero, rounded over about w.
func positive(x, w float64) float64 { return 0.5 * (x + math.Sqrt(x*x+w*w)) }

// least is the smaller of a and b (both >= 0), rounded where they
// are within the fraction w of each other; zero when either is.
func least(a, b, w float64) float64 {
	d := a - b
	return 0.5 * (a + b - math.Sqrt(d*d+4*w*w*a*b))
}

func quarter(x float64) float64 { return math.Sqrt(math.Sqrt(x)) }

// rounded is |x|^½ rounded at zero; c²·rounded(dT) is the square of a film of
// natural convection, and the film times dT has a continuous slope.
func rounded(x float64) float64 { return math.Sqrt(math.Abs(x) + 0.1) }
