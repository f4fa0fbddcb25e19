package stats

import (
	"math"
	"slices"
)

// Median returns the middle value of x, or the mean of the middle two, in the
// unit of x; NaN without data. Half of the data may be wild without moving it
// beyond the rest.
func Median(x []float64) float64 { return Quantile(x, 0.5) }

// toSigma is 1/Φ⁻¹(3/4): the median absolute deviation of a normal population
// times this is its standard deviation.
const toSigma = 1.482602218505602

// Spread returns the robust counterpart of SD: the median absolute deviation
// from the median times 1.4826, which for normal data estimates the standard
// deviation (Rousseeuw & Croux 1993, JASA 88:1273), in the unit of x.
// NaN without data. For normal data its own scatter is that of an SD from 37 %
// as many values; use SD where nothing is wild.
func Spread(x []float64) float64 {
	m := Median(x)
	if math.IsNaN(m) || math.IsInf(m, 0) {
		return math.NaN()
	}
	d := make([]float64, len(x))
	for i, v := range x {
		d[i] = math.Abs(v - m)
	}
	return toSigma * Median(d)
}

// sorted is x in rising order, or nothing when a value is not a number.
func sorted(x []float64) []float64 {
	for _, v := range x {
		if math.IsNaN(v) {
			return nil
		}
	}
	s := slices.Clone(x)
	slices.Sort(s)
	return s
}
