package picture

import (
	"math"

	"toplit/drawing"
)

// axis maps values to the sheet along one direction.
type axis struct {
	lo, hi   float64 // values at the ends
	from, to float64 // places of the ends [mm]
	step     float64 // between ticks
}

// at is the place of a value [mm].
func (a axis) at(v float64) float64 {
	return a.from + (v-a.lo)/(a.hi-a.lo)*(a.to-a.from)
}

// ticks are the round values on the axis.
func (a axis) ticks() []float64 {
	var out []float64
	for i := math.Ceil(a.lo/a.step - 1e-9); i*a.step <= a.hi+1e-9*a.step; i++ {
		out = append(out, i*a.step)
	}
	return out
}

// label writes a tick with as many decimals as its step needs.
func (a axis) label(v float64) string {
	places := int(math.Max(0, math.Ceil(-math.Log10(a.step)-1e-9)))
	if r := a.step * math.Pow(10, float64(places)); math.Abs(r-math.Round(r)) > 1e-9 {
		places++
	}
	return decimal(v, places)
}

// roundStep is the smallest of 1, 2, 2.5 and 5 times a power of ten that
// divides a span into at most n steps.
func roundStep(span float64, n int) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	p := math.Pow(10, math.Floor(math.Log10(span/float64(n))))
	for _, m := range []float64{1, 2, 2.5, 5, 10} {
		if span/(m*p) <= float64(n)+1e-9 {
			return m * p
		}
	}
	return 10 * p
}

// minuteStep is the step of a time axis of at most n steps: what a clock
// divides well [min].
func minuteStep(span float64, n int) float64 {
	for _, m := range []float64{0.25, 0.5, 1, 2, 5, 10, 15, 30, 60, 120} {
		if span/m <= float64(n)+1e-9 {
			return m
		}
	}
	return roundStep(span, n)
}

// above is an axis from lo to a round value at or over hi.
func above(lo, hi float64, n int, from, to float64) axis {
	if !(hi > lo) || math.IsInf(hi, 0) {
		hi = lo + 1
	}
	step := roundStep(hi-lo, n)
	return axis{lo: lo, hi: lo + math.Ceil((hi-lo)/step-1e-9)*step, from: from, to: to, step: step}
}

// runs are the finite stretches of a curve on the sheet, thinned to steps that
// can be seen.
func runs(t, v []float64, x, y axis, scaleT, scaleV func(float64) float64) [][]drawing.Point {
	var out [][]drawing.Point
	var run []drawing.Point
	flush := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	n := min(len(t), len(v))
	for i := range n {
		p := drawing.Point{X: x.at(scaleT(t[i])), Y: y.at(scaleV(v[i]))}
		if math.IsNaN(p.X+p.Y) || math.IsInf(p.X+p.Y, 0) {
			flush()
			continue
		}
		if k := len(run); k > 0 && i < n-1 && math.Abs(p.X-run[k-1].X) < 0.25 && math.Abs(p.Y-run[k-1].Y) < 0.25 {
			continue
		}
		p.Y = math.Max(y.from, math.Min(y.to, p.Y))
		run = append(run, p)
	}
	flush()
	return out
}
