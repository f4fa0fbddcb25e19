package numeric

import "math"

// SoftMin is the lesser of two non-negative numbers with a rounded corner of
// the relative width w: exact where they differ by more than w times their
// mean, continuous slope, never above either and never negative.
func SoftMin(a, b, w float64) float64 {
	m, d, h := min(a, b), math.Abs(a-b), w*(a+b)/2
	if d >= h {
		return m
	}
	return m - (h-d)*(h-d)/(4*h)
}

// SoftPlus is max(x, 0) with a rounded corner of the absolute width w: exact
// outside ±w, parabolic between, continuous slope, never negative.
func SoftPlus(x, w float64) float64 {
	switch {
	case x >= w:
		return x
	case x <= -w:
		return 0
	}
	return (x + w) * (x + w) / (4 * w)
}
