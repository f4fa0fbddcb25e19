package catalogue

import "math"

// WrapLength is the length of a strip of paper that just meets round a body of
// the outside diameter: π(D + t), the paper's own middle line [m].
func WrapLength(diameter, paper float64) float64 { return math.Pi * (diameter + paper) }

// FromStrip is the outside diameter of a body from the length of a strip of
// paper wrapped once round it and the paper's thickness: C/π − t [m]. A strip
// read to 0.5 mm gives the diameter to 0.16 mm.
func FromStrip(circumference, paper float64) float64 { return circumference/math.Pi - paper }
