package numeric

import "math"

// bracket holds an interval over which a function changes sign and narrows it
// by Chandrupatla's method: inverse quadratic interpolation where it is safe,
// else bisection (T. R. Chandrupatla, Advances in Engineering Software 28
// (1997) 145–149). The caller evaluates the function, so no closure is needed.
type bracket struct {
	a, fa float64 // latest point
	b, fb float64 // other side of the zero
	c, fc float64 // point before
	t     float64 // fraction from a to b to try
	count int
}

func newBracket(a, fa, b, fb float64) bracket {
	return bracket{a: b, fa: fb, b: a, fb: fa, c: a, fc: fa, t: 0.5}
}

// next is the point to evaluate.
func (k *bracket) next() float64 {
	x := k.a + k.t*(k.b-k.a)
	// Rounding may put it on an end, or beyond the end that is much smaller.
	if !(min(k.a, k.b) < x && x < max(k.a, k.b)) {
		x = 0.5*k.a + 0.5*k.b
	}
	return x
}

// set takes the value at the point that next gave.
func (k *bracket) set(x, fx float64) {
	k.count++
	if (fx < 0) == (k.fa < 0) {
		k.c, k.fc = k.a, k.fa
	} else {
		k.c, k.fc = k.b, k.fb
		k.b, k.fb = k.a, k.fa
	}
	k.a, k.fa = x, fx
	k.t = 0.5
	// After 60 points something is discontinuous: halve from there on.
	if k.count < 60 {
		xi := (k.a - k.b) / (k.c - k.b)
		phi := (k.fa - k.fb) / (k.fc - k.fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t := k.fa/(k.fb-k.fa)*k.fc/(k.fb-k.fc) + (k.c-k.a)/(k.b-k.a)*k.fa/(k.fc-k.fa)*k.fb/(k.fc-k.fb)
			if t == t {
				k.t = t
			}
		}
	}
	// Stay off the ends by a rounding error, so that the other side moves too.
	if w := math.Abs(k.b - k.a); w > 0 {
		edge := min(0.5, 2*ulp(k.best())/w)
		k.t = min(max(k.t, edge), 1-edge)
	}
}

// done reports that the zero is hit or the interval is shorter than tol, or
// than two rounding units.
func (k *bracket) done(tol float64) bool {
	if k.fa == 0 || k.fb == 0 {
		return true
	}
	m := k.best()
	return math.Abs(k.b-k.a) <= max(tol, 2*ulp(m)) || k.count > 200
}

// best is the end with the smaller value.
func (k *bracket) best() float64 {
	if math.Abs(k.fb) < math.Abs(k.fa) {
		return k.b
	}
	return k.a
}

// side is the end whose value has the sign of g, or the zero itself.
func (k *bracket) side(g float64) float64 {
	switch {
	case k.fa == 0:
		return k.a
	case k.fb == 0:
		return k.b
	case (k.fa < 0) == (g < 0) && g != 0:
		return k.a
	}
	return k.b
}

// ulp is the spacing of numbers of the size of x.
func ulp(x float64) float64 {
	return math.Abs(x)*0x1p-52 + 0x1p-1074
}
