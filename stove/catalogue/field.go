package catalogue

import "math"

// OpenStaggered is the open fraction of a sheet filled with round holes whose
// centres lie on equilateral triangles: π/(2√3)·(d/p)², hole diameter over
// pitch. Plain geometry; holes must not touch (d < p).
func OpenStaggered(diameter, pitch float64) float64 {
	r := diameter / pitch
	return math.Pi / (2 * math.Sqrt(3)) * r * r
}

// OpenSquare is the open fraction of a sheet filled with round holes whose
// centres lie on squares: π/4·(d/p)².
func OpenSquare(diameter, pitch float64) float64 {
	r := diameter / pitch
	return math.Pi / 4 * r * r
}
