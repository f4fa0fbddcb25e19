package flame

import "math"

// softMin is the lesser of two non-negative numbers with a rounded corner of
// relative width w; exact outside it.
func softMin(a, b, w float64) float64 {
	m, d, h := min(a, b), math.Abs(a-b), w*(a+b)/2
	if d >= h {
		return m
	}
	return m - (h-d)*(h-d)/(4*h)
}

// softPlus is max(x, 0) with a rounded corner of absolute width w.
func softPlus(x, w float64) float64 {
	switch {
	case x >= w:
		return x
	case x <= -w:
		return 0
	}
	return (x + w) * (x + w) / (4 * w)
}
