package cutsheet

import (
	"math"
	"slices"

	"toplit/drawing"
)

// origin is where a triangular lattice of pitch 1 is centred: on a hole, on
// the middle of three holes, or halfway between two.
type origin struct{ x, y float64 }

func origins() []origin {
	return []origin{{0, 0}, {0.5, 0.5 / math.Sqrt(3)}, {0.5, 0}}
}

// lattice lists the points of a triangular lattice within a radius of its
// centre, row by row from below, that a test accepts.
func lattice(pitch, radius float64, o origin, accept func(drawing.Point) bool) []drawing.Point {
	var out []drawing.Point
	if !(pitch > 0) || radius < 0 {
		return nil
	}
	const roundOff = 1e-9 // a point on the rim counts
	tall := pitch * math.Sqrt(3) / 2
	room := radius*radius + roundOff
	rows := int(radius/tall) + 2
	cols := int(radius/pitch) + 2
	for j := -rows; j <= rows; j++ {
		y := float64(j)*tall - o.y*pitch
		if y*y > room {
			continue
		}
		half := float64(j&1) / 2
		for i := -cols; i <= cols; i++ {
			p := drawing.Point{X: (float64(i)+half)*pitch - o.x*pitch, Y: y}
			if p.X*p.X+y*y <= room && (accept == nil || accept(p)) {
				out = append(out, p)
			}
		}
	}
	return out
}

// spread finds the widest triangular lattice, not below a least pitch, that
// has n accepted points within a radius, and picks n of them evenly: whole
// shells from the middle outwards, of the last shell as many as are missing,
// evenly spread. Where even the least pitch has too few it returns those it
// has.
func spread(n int, radius, least float64, accept func(drawing.Point) bool) ([]drawing.Point, float64) {
	if n <= 0 || radius < 0 {
		return nil, 0
	}
	// No lattice with n points in the disc is wider than this: the lattice's
	// own density with a shell of one pitch added round the disc.
	wide := 2 * (radius + least) * math.Sqrt(math.Pi/(2*math.Sqrt(3)*float64(n)))
	wide = math.Max(wide*2, least)
	const step = 0.995
	var most []drawing.Point
	mostPitch := least
	for pitch := wide; ; pitch = math.Max(pitch*step, least) {
		for _, o := range origins() {
			if points := lattice(pitch, radius, o, accept); len(points) >= n {
				return inner(points, n), pitch
			} else if len(points) > len(most) {
				most, mostPitch = points, pitch
			}
		}
		if pitch <= least {
			return inner(most, len(most)), mostPitch
		}
	}
}

// inner picks n points shell by shell.
func inner(points []drawing.Point, n int) []drawing.Point {
	far := func(p drawing.Point) float64 { return math.Round(math.Hypot(p.X, p.Y)*1e6) / 1e6 }
	turn := func(p drawing.Point) float64 { return math.Atan2(p.Y, p.X) }
	all := slices.Clone(points)
	slices.SortStableFunc(all, func(a, b drawing.Point) int {
		switch fa, fb := far(a), far(b); {
		case fa < fb:
			return -1
		case fa > fb:
			return 1
		case turn(a) < turn(b):
			return -1
		case turn(a) > turn(b):
			return 1
		}
		return 0
	})
	var out []drawing.Point
	for len(out) < n {
		shell := 1
		for shell < len(all) && far(all[shell]) == far(all[0]) {
			shell++
		}
		if left := n - len(out); left < shell {
			for i := range left {
				out = append(out, all[(2*i+1)*shell/(2*left)])
			}
			return out
		}
		out = append(out, all[:shell]...)
		all = all[shell:]
	}
	return out
}
