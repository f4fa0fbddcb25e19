package numeric

import "math"

// triangle factors the free columns of the Jacobian by Householder reflections
// and applies them to the residuals: the columns of R stand in a, Qᵀr in qtr.
func (k *marquardt) triangle() {
	m, nf := k.m, len(k.free)
	for c, j := range k.free {
		col := k.a[c*m : (c+1)*m]
		for i := range col {
			col[i] = k.jac[i*k.n+j]
		}
		k.d[c] = k.scale[j]
	}
	// rtrial is free here and serves as the right-hand side.
	b := k.rtrial
	copy(b, k.reff)
	for c := range nf {
		if c >= m {
			break
		}
		col := k.a[c*m+c : (c+1)*m]
		norm := length(col)
		if norm == 0 {
			continue
		}
		if col[0] > 0 {
			norm = -norm
		}
		// v = col − norm·e1, scaled so that v[0] = 1 is implied by beta.
		v0 := col[0] - norm
		beta := -1 / (norm * v0)
		col[0] = v0
		for o := c + 1; o < nf; o++ {
			reflect(col, k.a[o*m+c:(o+1)*m], beta)
		}
		reflect(col, b[c:], beta)
		col[0] = norm
	}
	for c := range nf {
		k.qtr[c] = 0
		if c < m {
			k.qtr[c] = b[c]
		}
	}
}

// reflect applies I − beta·v·vᵀ to x.
func reflect(v, x []float64, beta float64) {
	t := beta * dot(v, x)
	x = x[:len(v)]
	for i, vi := range v {
		x[i] -= t * vi
	}
}

// length is the Euclidean norm, safe from overflow.
func length(v []float64) float64 {
	var big float64
	for _, x := range v {
		big = max(big, math.Abs(x))
	}
	if big == 0 || math.IsInf(big, 0) {
		return big
	}
	var sum float64
	for _, x := range v {
		x /= big
		sum += x * x
	}
	return big * math.Sqrt(sum)
}

// r is entry (i, j) of R, i ≤ j.
func (k *marquardt) rAt(i, j int) float64 {
	if i >= k.m {
		return 0
	}
	return k.a[j*k.m+i]
}

// marquardtStep puts into x the step that minimises |R·x + Qᵀr|² with
// |D·x| within a tenth of the radius or, when the free minimum lies inside,
// that minimum, and returns the parameter λ that does it (Moré 1978, section 5).
func (k *marquardt) marquardtStep() float64 {
	nf := len(k.free)
	const dwarf = 0x1p-1022
	regular := true
	for i := range nf {
		if math.Abs(k.rAt(i, i)) <= 1e-14*length(k.a[i*k.m:i*k.m+min(i+1, k.m)]) {
			regular = false
		}
	}
	var lower float64
	if regular {
		for i := nf - 1; i >= 0; i-- {
			v := -k.qtr[i]
			for j := i + 1; j < nf; j++ {
				v -= k.rAt(i, j) * k.x[j]
			}
			k.x[i] = v / k.rAt(i, i)
		}
		norm := k.scaled()
		over := norm - k.radius
		if over <= 0.1*k.radius {
			return 0
		}
		// Rᵀ w = D² x / norm
		for i := range nf {
			v := k.d[i] * k.d[i] * k.x[i] / norm
			for j := range i {
				v -= k.rAt(j, i) * k.w[j]
			}
			k.w[i] = v / k.rAt(i, i)
		}
		w := length(k.w[:nf])
		lower = over / k.radius / w / w
	}
	for i := range nf {
		var v float64
		for j := 0; j <= i; j++ {
			v += k.rAt(j, i) * k.qtr[j]
		}
		k.w[i] = v / k.d[i]
	}
	g := length(k.w[:nf])
	upper := g / k.radius
	if upper == 0 {
		upper = dwarf / min(k.radius, 0.1)
	}
	lambda := min(max(k.lambda, lower), upper)
	if lambda == 0 {
		lambda = max(dwarf, 1e-3*upper)
	}
	over := math.Inf(1)
	for iter := 1; ; iter++ {
		if lambda == 0 {
			lambda = max(dwarf, 1e-3*upper)
		}
		k.damped(math.Sqrt(lambda))
		norm := k.scaled()
		last := over
		over = norm - k.radius
		if math.Abs(over) <= 0.1*k.radius || lower == 0 && over <= last && last < 0 || iter == 20 {
			return lambda
		}
		// Newton correction from the factor S of the damped system.
		for i := range nf {
			v := k.d[i] * k.d[i] * k.x[i] / norm
			for j := range i {
				v -= k.s[j*nf+i] * k.w[j]
			}
			k.w[i] = v / k.s[i*nf+i]
		}
		w := length(k.w[:nf])
		more := over / k.radius / w / w
		if over > 0 {
			lower = max(lower, lambda)
		} else {
			upper = min(upper, lambda)
		}
		lambda = max(lower, lambda+more)
	}
}

// scaled is |D·x| over the free components.
func (k *marquardt) scaled() float64 {
	nf := len(k.free)
	for i := range nf {
		k.z[i] = k.d[i] * k.x[i]
	}
	return length(k.z[:nf])
}

// damped solves the least squares system of R over √λ·D for x with Givens
// rotations, leaving its triangle in s.
func (k *marquardt) damped(root float64) {
	nf := len(k.free)
	for i := range nf {
		for j := i; j < nf; j++ {
			k.s[i*nf+j] = k.rAt(i, j)
		}
		k.x[i] = -k.qtr[i]
	}
	row := k.z
	for l := range nf {
		clear(row[:nf])
		row[l] = root * k.d[l]
		b := 0.0
		for j := l; j < nf; j++ {
			if row[j] == 0 {
				continue
			}
			h := math.Hypot(k.s[j*nf+j], row[j])
			c, t := k.s[j*nf+j]/h, row[j]/h
			for i := j; i < nf; i++ {
				u, v := k.s[j*nf+i], row[i]
				k.s[j*nf+i], row[i] = c*u+t*v, c*v-t*u
			}
			k.x[j], b = c*k.x[j]+t*b, c*b-t*k.x[j]
		}
	}
	for i := nf - 1; i >= 0; i-- {
		v := k.x[i]
		for j := i + 1; j < nf; j++ {
			v -= k.s[i*nf+j] * k.x[j]
		}
		k.x[i] = v / k.s[i*nf+i]
	}
}

// finish works out what belongs to the solution.
func (k *marquardt) finish() *Fit {
	f := &k.fit
	f.P = append([]float64(nil), k.p...)
	f.RSS = k.rss
	f.AtBound = make([]bool, k.n)
	k.differentiate()
	k.free = k.free[:0]
	for j := range k.n {
		var g float64
		for i := range k.m {
			g += k.jac[i*k.n+j] * k.r[i]
		}
		k.grad[j] = g
		if f.AtBound[j] = k.held(j); !f.AtBound[j] {
			k.free = append(k.free, j)
		}
	}
	nf := len(k.free)
	f.DOF = k.m - nf
	if f.DOF > 0 {
		k.covariance(f)
	}
	return f
}

// covariance inverts R: (JᵀJ)⁻¹ = R⁻¹R⁻ᵀ.
func (k *marquardt) covariance(f *Fit) {
	nf := len(k.free)
	copy(k.reff, k.r)
	k.triangle()
	inv := make([]float64, nf*nf)
	for c := range nf {
		if math.Abs(k.rAt(c, c)) <= 1e-15*length(k.a[c*k.m:c*k.m+c+1]) {
			return
		}
		inv[c*nf+c] = 1 / k.rAt(c, c)
		for i := c - 1; i >= 0; i-- {
			var v float64
			for j := i + 1; j <= c; j++ {
				v -= k.rAt(i, j) * inv[j*nf+c]
			}
			inv[i*nf+c] = v / k.rAt(i, i)
		}
	}
	s2 := f.RSS / float64(f.DOF)
	f.Covariance = make([]float64, k.n*k.n)
	f.StdErr = make([]float64, k.n)
	for a, i := range k.free {
		for b, j := range k.free {
			var v float64
			for c := max(a, b); c < nf; c++ {
				v += inv[a*nf+c] * inv[b*nf+c]
			}
			f.Covariance[i*k.n+j] = s2 * v
		}
		f.StdErr[i] = math.Sqrt(f.Covariance[i*k.n+i])
	}
}
