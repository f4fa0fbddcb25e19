package stats

import (
	"cmp"
	"math"
	"slices"
)

// Quantile returns the p-quantile of x, 0 ≤ p ≤ 1, in the unit of x: linear
// between order statistics at position 1 + (n − 1) p, type 7 of Hyndman & Fan
// 1996, Am. Stat. 50:361. NaN without data, for a p outside 0 to 1 or when a
// value is not a number. Between a finite value and +Inf ("never") it is +Inf.
func Quantile(x []float64, p float64) float64 {
	return SortedQuantile(sorted(x), p)
}

// Quantiles returns the quantile of x at each of ps, sorting once.
func Quantiles(x []float64, ps ...float64) []float64 {
	s := sorted(x)
	q := make([]float64, len(ps))
	for i, p := range ps {
		q[i] = SortedQuantile(s, p)
	}
	return q
}

// SortedQuantile is Quantile of values already in rising order; it allocates
// nothing. In a band of curves it is called for every instant.
func SortedQuantile(s []float64, p float64) float64 {
	if len(s) == 0 || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	at := p * float64(len(s)-1)
	i := min(int(at), len(s)-1)
	return between(s, i, at-float64(i))
}

// WeightedQuantile returns the p-quantile of x whose values carry weights w, in
// the unit of x. Each value stands at the middle of its weight, the first at 0
// and the last at 1, and between them it is linear; with equal weights that is
// Quantile. A value without weight is not there. NaN as Quantile, and when a
// weight is negative or not finite, the lengths differ, or no weight is left.
//
// A weight is how much a value counts, not how often it was seen: four values of
// weight one are more than one value of weight four, because between values it
// interpolates.
func WeightedQuantile(x, w []float64, p float64) float64 {
	if len(x) != len(w) || !(p >= 0 && p <= 1) {
		return math.NaN()
	}
	type point struct{ v, w float64 }
	var points []point
	for i, v := range x {
		switch {
		case math.IsNaN(v) || !(w[i] >= 0) || math.IsInf(w[i], 1):
			return math.NaN()
		case w[i] > 0:
			points = append(points, point{v, w[i]})
		}
	}
	if len(points) == 0 {
		return math.NaN()
	}
	slices.SortFunc(points, func(a, b point) int { return cmp.Compare(a.v, b.v) })

	s, at := make([]float64, len(points)), make([]float64, len(points))
	for i, q := range points {
		s[i] = q.v
		if i > 0 {
			at[i] = at[i-1] + (points[i-1].w+q.w)/2
		}
	}
	want := p * at[len(at)-1]
	i, found := slices.BinarySearch(at, want)
	switch {
	case found || i == 0:
		return s[i]
	case i == len(at):
		return s[i-1]
	}
	return between(s, i-1, (want-at[i-1])/(at[i]-at[i-1]))
}

// between is the value a share f of the way from s[i] to s[i+1].
func between(s []float64, i int, f float64) float64 {
	if f == 0 || i+1 >= len(s) || s[i] == s[i+1] {
		return s[i]
	}
	if math.IsInf(s[i], -1) {
		return s[i]
	}
	return s[i] + f*(s[i+1]-s[i])
}
