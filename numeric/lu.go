package numeric

import "math"

// luFactor overwrites the row-major n×n matrix a by its factors P·A = L·U with
// partial pivoting (Golub and Van Loan, Matrix Computations, 4th ed. 2013,
// section 3.4). L has a unit diagonal; the rows of U are stored over their
// diagonal and the diagonal inverted, so that in a solve each unknown waits for
// one product and one difference only. It reports false when a pivot is zero or
// not finite.
//
// Four columns are eliminated together, because for the small matrices meant
// here the time goes into loading and storing rows: one pass then does four
// times the arithmetic. Rows whose multipliers are all zero are passed over.
func luFactor(a []float64, piv []int32, n int) bool {
	a = a[:n*n]
	piv = piv[:n]
	k := 0
	for ; n-k >= 8; k += 4 {
		for c := k; c < k+4; c++ {
			if !pivot(a, piv, n, c) {
				return false
			}
			// Within the panel, one column at a time.
			rc := a[c*n : c*n+k+4]
			inv := rc[c]
			for i := c + 1; i < n; i++ {
				ri := a[i*n : i*n+k+4]
				ri = ri[:len(rc)]
				m := ri[c]
				if m == 0 {
					continue
				}
				m *= inv
				ri[c] = m
				for j := c + 1; j < len(rc); j++ {
					ri[j] -= m * rc[j]
				}
			}
		}
		r0 := a[k*n : k*n+n]
		r1 := a[(k+1)*n : (k+1)*n+n]
		r2 := a[(k+2)*n : (k+2)*n+n]
		r3 := a[(k+3)*n : (k+3)*n+n]
		t0, t1, t2, t3 := r0[k+4:], r1[k+4:], r2[k+4:], r3[k+4:]
		t1, t2, t3 = t1[:len(t0)], t2[:len(t0)], t3[:len(t0)]
		m10, m20, m21 := r1[k], r2[k], r2[k+1]
		m30, m31, m32 := r3[k], r3[k+1], r3[k+2]
		for j, v0 := range t0 {
			v1 := t1[j] - m10*v0
			v2 := t2[j] - m20*v0 - m21*v1
			t1[j], t2[j] = v1, v2
			t3[j] -= m30*v0 + m31*v1 + m32*v2
		}
		for i := k + 4; i < n; i++ {
			ri := a[i*n+k : i*n+n]
			m0, m1, m2, m3 := ri[0], ri[1], ri[2], ri[3]
			if m0 == 0 && m1 == 0 && m2 == 0 && m3 == 0 {
				continue
			}
			t := ri[4:]
			t = t[:len(t0)]
			for j := range t {
				t[j] -= (m0*t0[j] + m1*t1[j]) + (m2*t2[j] + m3*t3[j])
			}
		}
	}
	for ; k < n; k++ {
		if !pivot(a, piv, n, k) {
			return false
		}
		rk := a[k*n+k : k*n+n]
		inv := rk[0]
		for i := k + 1; i < n; i++ {
			ri := a[i*n+k : i*n+n]
			ri = ri[:len(rk)]
			m := ri[0]
			if m == 0 {
				continue
			}
			m *= inv
			ri[0] = m
			for j := 1; j < len(rk); j++ {
				ri[j] -= m * rk[j]
			}
		}
	}
	// The last pivot is never moved; its place tells whether any other was.
	piv[n-1] = -1
	for i, p := range piv[:n-1] {
		if int(p) != i {
			piv[n-1] = int32(n - 1)
		}
		row := a[i*n+i : i*n+n]
		inv := row[0]
		for j := 1; j < len(row); j++ {
			row[j] *= inv
		}
	}
	return true
}

// pivot brings the largest entry of column c at or below the diagonal to it by
// a swap of rows, and inverts it.
func pivot(a []float64, piv []int32, n, c int) bool {
	p, big := c, math.Abs(a[c*n+c])
	for i, at := c+1, (c+1)*n+c; i < n; i++ {
		if v := math.Abs(a[at]); v > big {
			p, big = i, v
		}
		at += n
	}
	piv[c] = int32(p)
	if !(big > 0) || big > math.MaxFloat64 {
		return false
	}
	rc := a[c*n : c*n+n]
	if p != c {
		rp := a[p*n : p*n+n]
		rp = rp[:len(rc)]
		for j, v := range rc {
			rc[j], rp[j] = rp[j], v
		}
	}
	rc[c] = 1 / rc[c]
	return true
}

// luSolve solves A·x = b in place with the factors of luFactor, four rows at a
// time.
func luSolve(a []float64, piv []int32, n int, b []float64) {
	a = a[:n*n]
	b = b[:n]
	if piv = piv[:n]; piv[n-1] >= 0 {
		for k, p := range piv {
			if int(p) != k {
				b[k], b[p] = b[p], b[k]
			}
		}
	}
	i := 0
	for ; n-i >= 4; i += 4 {
		p0 := i * n
		p1, p2, p3 := p0+n, p0+2*n, p0+3*n
		x := (*[4]float64)(b[i:])
		x0, x1, x2, x3 := x[0], x[1], x[2], x[3]
		if i > 0 {
			s0, s1, s2, s3 := dot4(b[:i], a[p0:], a[p1:], a[p2:], a[p3:])
			x0, x1, x2, x3 = x0-s0, x1-s1, x2-s2, x3-s3
		}
		r1, r2, r3 := (*[4]float64)(a[p1+i:]), (*[4]float64)(a[p2+i:]), (*[4]float64)(a[p3+i:])
		x1 -= r1[0] * x0
		x2 = x2 - r2[0]*x0 - r2[1]*x1
		x3 = x3 - r3[0]*x0 - r3[1]*x1 - r3[2]*x2
		x[0], x[1], x[2], x[3] = x0, x1, x2, x3
	}
	for ; i < n; i++ {
		b[i] -= dot(b[:i], a[i*n:i*n+i])
	}
	for i, at := 0, 0; i < n; i++ {
		b[i] *= a[at]
		at += n + 1
	}
	i = n
	for ; i >= 4; i -= 4 {
		p3 := (i - 1) * n
		p2, p1, p0 := p3-n, p3-2*n, p3-3*n
		x := (*[4]float64)(b[i-4:])
		x0, x1, x2, x3 := x[0], x[1], x[2], x[3]
		if i < n {
			s0, s1, s2, s3 := dot4(b[i:], a[p0+i:], a[p1+i:], a[p2+i:], a[p3+i:])
			x0, x1, x2, x3 = x0-s0, x1-s1, x2-s2, x3-s3
		}
		r0, r1, r2 := (*[4]float64)(a[p0+i-4:]), (*[4]float64)(a[p1+i-4:]), (*[4]float64)(a[p2+i-4:])
		x2 -= r2[3] * x3
		x1 = x1 - r1[3]*x3 - r1[2]*x2
		x0 = x0 - r0[3]*x3 - r0[2]*x2 - r0[1]*x1
		x[0], x[1], x[2], x[3] = x0, x1, x2, x3
	}
	for i--; i >= 0; i-- {
		b[i] -= dot(b[i+1:], a[i*n+i+1:i*n+n])
	}
}

// dot4 returns the scalar products of x with the heads of four rows.
func dot4(x, r0, r1, r2, r3 []float64) (s0, s1, s2, s3 float64) {
	r0, r1, r2, r3 = r0[:len(x)], r1[:len(x)], r2[:len(x)], r3[:len(x)]
	for j, v := range x {
		s0 += v * r0[j]
		s1 += v * r1[j]
		s2 += v * r2[j]
		s3 += v * r3[j]
	}
	return
}

// dot returns the scalar product of x and the head of y.
func dot(x, y []float64) float64 {
	var s0, s1 float64
	y = y[:len(x)]
	for len(x) >= 2 && len(y) >= 2 {
		s0 += x[0] * y[0]
		s1 += x[1] * y[1]
		x, y = x[2:], y[2:]
	}
	for i, v := range x {
		if i < len(y) {
			s0 += v * y[i]
		}
	}
	return s0 + s1
}
