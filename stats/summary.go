package stats

import "math"

// Mean returns the arithmetic mean of x, in the unit of x; NaN without data.
//
// The sum is compensated (Neumaier 1974, ZAMM 54:39) and the mean corrected
// once by the mean of what is left, so that it is right to the last digits
// even where every value begins with the same ones (NIST StRD NumAcc1 to 4).
func Mean(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	n := float64(len(x))
	m := sum(x) / n
	if math.IsInf(m, 0) || math.IsNaN(m) {
		return m
	}
	return m + shifted(x, m)/n
}

// SD returns the sample standard deviation of x, divisor n − 1, in the unit of
// x; NaN for fewer than two values.
//
// Two passes with the correction of what the rounded mean leaves (Chan, Golub
// & LeVeque 1983, Am. Stat. 37:242).
func SD(x []float64) float64 {
	if len(x) < 2 {
		return math.NaN()
	}
	n := float64(len(x))
	m := Mean(x)
	var square, rest total
	for _, v := range x {
		d := v - m
		square.add(d * d)
		rest.add(d)
	}
	r := rest.value()
	return math.Sqrt((square.value() - r*r/n) / (n - 1))
}

// Lag1 returns the lag-1 autocorrelation of x [1]: the sum of products of
// neighbouring deviations over the sum of squared deviations (NIST StRD,
// univariate). NaN for fewer than two values or values that are all the same.
//
// Readings one second apart are no independent readings: at 0.9 only about one
// in twenty counts towards the scatter of a mean.
func Lag1(x []float64) float64 {
	if len(x) < 2 {
		return math.NaN()
	}
	m := Mean(x)
	var square, product total
	for i, v := range x {
		d := v - m
		square.add(d * d)
		if i > 0 {
			product.add(d * (x[i-1] - m))
		}
	}
	return product.value() / square.value()
}

// total is a compensated sum (Neumaier 1974).
type total struct{ s, c float64 }

func (t *total) add(v float64) {
	s := t.s + v
	if math.Abs(t.s) >= math.Abs(v) {
		t.c += (t.s - s) + v
	} else {
		t.c += (v - s) + t.s
	}
	t.s = s
}

func (t *total) value() float64 {
	if math.IsInf(t.s, 0) {
		return t.s // the compensation of an infinite sum is not a number
	}
	return t.s + t.c
}

func sum(x []float64) float64 {
	var t total
	for _, v := range x {
		t.add(v)
	}
	return t.value()
}

// shifted is the sum of x − m.
func shifted(x []float64, m float64) float64 {
	var t total
	for _, v := range x {
		t.add(v - m)
	}
	return t.value()
}
