package stats

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// LowerLimit returns the exact one-sided lower limit [1] of a proportion, of
// which k of n trials were seen: with the given confidence the true proportion
// is not smaller. It is the p at which k or more are seen with probability
// 1 − confidence (Clopper & Pearson 1934, Biometrika 26:404), the
// 1 − confidence quantile of the beta distribution (k, n − k + 1).
//
// The limit never promises too much and, counts being whole, mostly promises
// too little. Good to 1e-13 relative. A two-sided interval of 90 % is LowerLimit and UpperLimit at 95 %.
// NaN unless 0 ≤ k ≤ n, n > 0 and 0 < confidence < 1.
func LowerLimit(k, n int, confidence float64) float64 {
	if !countsMakeSense(k, n, confidence) {
		return math.NaN()
	}
	if k == 0 {
		return 0
	}
	return mathext.InvRegIncBeta(float64(k), float64(n-k+1), 1-confidence)
}

// UpperLimit is the other side: with the given confidence the true proportion
// is not larger. The confidence quantile of the beta distribution
// (k + 1, n − k); for k = 0 it is 1 − (1 − confidence)^(1/n), about 3/n at 95 %.
func UpperLimit(k, n int, confidence float64) float64 {
	if !countsMakeSense(k, n, confidence) {
		return math.NaN()
	}
	if k == n {
		return 1
	}
	return mathext.InvRegIncBeta(float64(k+1), float64(n-k), confidence)
}

func countsMakeSense(k, n int, confidence float64) bool {
	return n > 0 && k >= 0 && k <= n && confidence > 0 && confidence < 1
}
