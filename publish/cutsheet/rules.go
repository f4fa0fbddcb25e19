package cutsheet

import "math"

// The metal to leave. Published rules for punched and cut sheet count in
// thicknesses; at the 0.2 to 0.3 mm of a can they ask for less than a hand with
// a drill needs, so the millimetres decide there and the thicknesses where
// the sheet is thick. Millimetres: as package stove has them [judgement].
const (
	metalLeast = 3.0   // between two holes; half of the larger hole's narrow side if that is more [mm]
	edgeLeast  = 5.0   // from a hole to a rim, a base, a bead or the edge of an end [mm]
	slack      = 0.006 // so that a figure shown to 0.01 mm is accepted when it is given back [mm]
)

// LeastHole is the smallest hole to punch in a sheet of a thickness: as wide
// as the sheet is thick, and not below 1 mm [mm].
//
// Source: design rules of sheet-metal shops (hole diameter not below the
// thickness or 1 mm). Range: low-carbon steel. A drill may go below.
func LeastHole(thickness float64) float64 { return math.Max(thickness, 1) }

// LeastToEdge is the least metal between a hole and the edge of a part by the
// thickness alone: one thickness; nearer, the edge bulges or tears [mm].
//
// Source: design tips of a die maker, tip 1.
func LeastToEdge(thickness float64) float64 { return thickness }

// LeastToForm is the least metal between a hole and a formed groove, such as
// a bead or the fold of a seam, of inside radius r: 3t + r [mm].
//
// Source: design rules of sheet-metal shops (2t + r from a plain bend).
func LeastToForm(thickness, r float64) float64 { return 3*thickness + r }

// between is the metal to leave between two holes in a sheet: the millimetres
// above, or two thicknesses (common practice, no source) [mm].
func between(a, b Outline, thickness float64) float64 {
	wide := math.Max(a.narrow(), b.narrow()) / 2
	return math.Max(math.Max(metalLeast, wide), 2*thickness)
}

// toEdge is the metal to leave between a hole and a rim, base, bead or edge
// in a sheet [mm]. A double seam or a bead is taken as a bend of 1 mm inside
// radius [judgement].
func toEdge(thickness float64) float64 {
	const radius = 1
	return math.Max(math.Max(edgeLeast, LeastToEdge(thickness)), LeastToForm(thickness, radius))
}

// Chord is the distance between neighbours of n holes on a circle of a
// diameter, to step off with dividers: D·sin(π/n). Plane geometry.
func Chord(diameter float64, n int) float64 { return diameter * math.Sin(math.Pi/float64(n)) }
