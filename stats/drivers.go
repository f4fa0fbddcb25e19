package stats

import (
	"cmp"
	"math"
	"slices"
)

// Driver is how much of the scatter of a figure one parameter explains.
type Driver struct {
	Index int     // which parameter
	Share float64 // of the variance of the figure's rank that the parameter alone explains [1]
	Noise float64 // standard error of Share if the parameter did nothing [1]
	Rank  float64 // rank correlation of parameter and figure: its sign says which way [1]
}

// harmonics is how fine an effect FirstOrder can follow: up to three waves of
// up and down over a parameter's range. Plischke 2010 uses 6; more would
// take noise for effect in a few hundred draws.
const harmonics = 6

// FirstOrder returns the share of the variance of y that x alone explains [1],
// the first-order sensitivity index: 1 when y is a smooth function of x, 0 when
// knowing x says nothing about the mean of y. Any shape counts, rising, falling
// or humped; what x does only together with others does not.
//
// Estimated from any sample of pairs: y in the order of x is projected on the
// first six cosines, and the share these explain is corrected for what they would
// explain of pure noise, S − λ(1 − S)/(1 − λ), λ = 6/n (Plischke 2010, Reliab.
// Eng. Syst. Saf. 95:354; correction Tissot & Prieur 2012, same journal 107:205).
// It can come out slightly below 0. Standard error √12/n for no effect, about
// 0.75/√n for a middling one. Of a straight effect six cosines see 99.9 % when x is
// uniform and 97 % when it is normal.
//
// NaN for fewer than 16 pairs, unequal lengths, values that are not finite, or a
// y that does not vary; 0 for an x that does not vary.
func FirstOrder(x, y []float64) float64 {
	n := len(x)
	if n != len(y) || n < 16 {
		return math.NaN()
	}
	for i := range x {
		if !finite(x[i]) || !finite(y[i]) {
			return math.NaN()
		}
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	if x[order[0]] == x[order[n-1]] {
		if SD(y) == 0 {
			return math.NaN()
		}
		return 0
	}
	return explained(order, y)
}

// explained projects y, taken in the given order, on the cosines.
func explained(order []int, y []float64) float64 {
	n := float64(len(order))
	m := Mean(y)
	var part [harmonics]float64
	all := 0.0
	for i, j := range order {
		d := y[j] - m
		all += d * d
		// cos(kθ) for all k from the one at θ (Chebyshev's recurrence).
		c1 := math.Cos(math.Pi * (float64(i) + 0.5) / n)
		before, now := 1.0, c1
		for k := range part {
			part[k] += d * now
			before, now = now, 2*c1*now-before
		}
	}
	if all == 0 {
		return math.NaN()
	}
	s := 0.0
	for _, p := range part {
		s += p * p
	}
	s *= 2 / n / all
	l := harmonics / n
	return s - l/(1-l)*(1-s)
}

// Drivers says which parameters drive a figure: params[j] holds the draws of
// parameter j, figure the outcome of each draw; the greatest share comes first.
// Shares are of the variance of the figure's rank, so that neither a long tail nor
// draws that never get there (+Inf) rule the answer. They add to less than 1 by
// what parameters do only together, and to more where parameters go together by
// themselves: then what is one's share is the other's too. A share below twice its
// Noise is no finding.
//
// Nothing comes back (nil) with fewer than 16 draws, unequal lengths, values
// that are not numbers, or a figure that does not vary.
func Drivers(params [][]float64, figure []float64) []Driver {
	y := Ranks(figure)
	if len(y) < 16 || SD(y) == 0 {
		return nil
	}
	var all []Driver
	for j, x := range params {
		if len(x) != len(y) {
			return nil
		}
		d := Driver{Index: j, Share: FirstOrder(x, y), Noise: math.Sqrt(2*harmonics) / float64(len(y)), Rank: correlation(Ranks(x), y)}
		if math.IsNaN(d.Share) {
			return nil
		}
		d.Share = min(max(d.Share, 0), 1)
		if math.IsNaN(d.Rank) {
			d.Rank = 0 // the parameter was held fixed
		}
		all = append(all, d)
	}
	slices.SortStableFunc(all, func(a, b Driver) int { return cmp.Compare(b.Share, a.Share) })
	return all
}

// Ranks returns the rank of every value of x, 1 for the least; values that are
// equal share the mean of their ranks. Nothing (nil) when one is not a number.
func Ranks(x []float64) []float64 {
	for _, v := range x {
		if math.IsNaN(v) {
			return nil
		}
	}
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	r := make([]float64, len(x))
	for i := 0; i < len(order); {
		j := i
		for j < len(order) && x[order[j]] == x[order[i]] {
			j++
		}
		for _, k := range order[i:j] {
			r[k] = float64(i+j+1) / 2
		}
		i = j
	}
	return r
}

// RankCorrelation returns Spearman's coefficient of x and y [1], −1 to 1: the
// correlation of their ranks. NaN for fewer than two pairs, unequal lengths,
// values that are not numbers, or one that does not vary.
func RankCorrelation(x, y []float64) float64 {
	a, b := Ranks(x), Ranks(y)
	if len(a) != len(b) || len(a) < 2 {
		return math.NaN()
	}
	return correlation(a, b)
}

// correlation is that of two lists of ranks, whose means are known.
func correlation(a, b []float64) float64 {
	m := float64(len(a)+1) / 2
	var aa, bb, ab float64
	for i := range a {
		da, db := a[i]-m, b[i]-m
		aa += da * da
		bb += db * db
		ab += da * db
	}
	return ab / math.Sqrt(aa*bb)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
