package numeric

import "math"

// luFactor overwrites the row-major n×n matrix a by its factors P·A = L·U with
// partial pivoting (Golub and Van Loan, Matrix Computations, 4th ed. 2013,
// algorithm 3.4.1). L has a unit diagonal; the diagonal of U is stored
// inverted, so that a solve does not divide. It reports false when a pivot is
// zero or not finite.
//
// Rows whose multiplier is zero are skipped, which is where a sparse Jacobian
// gains.
func luFactor(a []float64, piv []int32, n int) bool {
	a = a[:n*n]
	piv = piv[:n]
	for k := range n {
		p, big := k, math.Abs(a[k*n+k])
		for i := k + 1; i < n; i++ {
			if v := math.Abs(a[i*n+k]); v > big {
				p, big = i, v
			}
		}
		piv[k] = int32(p)
		if !(big > 0) || big > math.MaxFloat64 {
			return false
		}
		rk := a[k*n : k*n+n]
		if p != k {
			rp := a[p*n : p*n+n]
			rp = rp[:len(rk)]
			for j, v := range rk {
				rk[j], rp[j] = rp[j], v
			}
		}
		inv := 1 / rk[k]
		rk[k] = inv
		tail := rk[k+1:]
		for i := k + 1; i < n; i++ {
			ri := a[i*n+k : i*n+n]
			m := ri[0]
			if m == 0 {
				continue
			}
			m *= inv
			ri[0] = m
			axpy(-m, tail, ri[1:])
		}
	}
	return true
}

// axpy adds m·x to y.
func axpy(m float64, x, y []float64) {
	y = y[:len(x)]
	for len(x) >= 4 && len(y) >= 4 {
		y[0] += m * x[0]
		y[1] += m * x[1]
		y[2] += m * x[2]
		y[3] += m * x[3]
		x, y = x[4:], y[4:]
	}
	for i, v := range x {
		if i < len(y) {
			y[i] += m * v
		}
	}
}

// dot returns the scalar product of x and the first len(x) entries of y.
func dot(x, y []float64) float64 {
	var s0, s1, s2, s3 float64
	y = y[:len(x)]
	for len(x) >= 4 && len(y) >= 4 {
		s0 += x[0] * y[0]
		s1 += x[1] * y[1]
		s2 += x[2] * y[2]
		s3 += x[3] * y[3]
		x, y = x[4:], y[4:]
	}
	for i, v := range x {
		if i < len(y) {
			s0 += v * y[i]
		}
	}
	return (s0 + s1) + (s2 + s3)
}

// luSolve solves A·x = b in place with the factors of luFactor.
func luSolve(a []float64, piv []int32, n int, b []float64) {
	a = a[:n*n]
	b = b[:n]
	for k, p := range piv[:n] {
		if int(p) != k {
			b[k], b[p] = b[p], b[k]
		}
	}
	for i := 1; i < n; i++ {
		b[i] -= dot(a[i*n:i*n+i], b)
	}
	for i := n - 1; i >= 0; i-- {
		row := a[i*n+i : i*n+n]
		b[i] = (b[i] - dot(row[1:], b[i+1:])) * row[0]
	}
}
