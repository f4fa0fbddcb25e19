package numeric

import "math"

// elimination is the order and the pattern of a sparse LU factorization of
// I/(γh) − J with pivots taken from the diagonal, made once for a Pattern. The
// order is the one of least local fill, after H. M. Markowitz, Management
// Science 3 (1957) 255–269. Row k below means the row of the k-th pivot; columns
// are numbered likewise.
//
// Diagonal pivots are safe for most of these matrices because I/(γh) grows as
// the step shrinks, but not for all: the solver checks the residual of the
// first solve of every step and falls back to dense pivoting where it is poor.
type elimination struct {
	perm []int32 // perm[k]: component of pivot k
	// Row k of L and of U without the diagonal, columns ascending.
	lptr, uptr []int32
	lidx, uidx []int32
	// Entries of J in row k: their column in the order of pivots and their place
	// in the row-major Jacobian.
	jptr []int32
	jcol []int32
	jpos []int32
	// Entries of J in the quadrature rows.
	qptr []int32
	qcol []int32
	ops  int // multiplications of one factorization
}

// eliminate works out the elimination of a pattern of n active components.
func eliminate(rows [][]int32, n, dim int) *elimination {
	full := make([][]bool, n) // full[i][j]: entry of the active matrix, with fill
	for i := range full {
		full[i] = make([]bool, n)
		full[i][i] = true
	}
	for j, col := range rows {
		for _, i := range col {
			if int(i) < n {
				full[i][j] = true
			}
		}
	}
	orig := make([][]bool, n)
	for i := range orig {
		orig[i] = append([]bool(nil), full[i]...)
	}
	e := &elimination{perm: make([]int32, n)}
	place := make([]int32, n) // place[i]: pivot number of component i
	done := make([]bool, n)
	for k := range n {
		best, least := -1, math.MaxInt
		for i := range n {
			if done[i] {
				continue
			}
			r, c := 0, 0
			for j := range n {
				if !done[j] && j != i {
					if full[i][j] {
						r++
					}
					if full[j][i] {
						c++
					}
				}
			}
			if r*c < least {
				best, least = i, r*c
			}
		}
		e.perm[k], place[best] = int32(best), int32(k)
		done[best] = true
		for i := range n {
			if done[i] || !full[i][best] {
				continue
			}
			e.ops++
			for j := range n {
				if !done[j] && full[best][j] {
					full[i][j] = true
					e.ops++
				}
			}
		}
	}
	e.lptr, e.uptr, e.jptr = []int32{0}, []int32{0}, []int32{0}
	for k := range n {
		i := e.perm[k]
		for c := range n {
			j := e.perm[c]
			if full[i][j] && c < k {
				e.lidx = append(e.lidx, int32(c))
			}
			if full[i][j] && c > k {
				e.uidx = append(e.uidx, int32(c))
			}
			if orig[i][j] {
				e.jcol = append(e.jcol, int32(c))
				e.jpos = append(e.jpos, i*int32(n)+j)
			}
		}
		e.lptr = append(e.lptr, int32(len(e.lidx)))
		e.uptr = append(e.uptr, int32(len(e.uidx)))
		e.jptr = append(e.jptr, int32(len(e.jcol)))
	}
	e.qptr = []int32{0}
	for i := n; i < dim; i++ {
		for j, col := range rows {
			for _, r := range col {
				if int(r) == i {
					e.qcol = append(e.qcol, int32(j))
				}
			}
		}
		e.qptr = append(e.qptr, int32(len(e.qcol)))
	}
	return e
}

// worthwhile says whether the sparse factorization beats the dense one of the
// same size: an operation costs about twice as much when its place is looked
// up (BenchmarkSparse).
func (e *elimination) worthwhile() bool {
	n := len(e.perm)
	return 3*2*e.ops < n*n*n
}

// factor forms g·I − J and factors it. w holds, in this order, the entries of L,
// of U, the inverted diagonal and a row of scratch: at most n² + n.
func (e *elimination) factor(g float64, jac, w []float64) bool {
	n := len(e.perm)
	l, u, d, x := e.split(w)
	for k := range n {
		l0, l1 := e.lptr[k], e.lptr[k+1]
		lcols := e.lidx[l0:l1]
		ucols := e.uidx[e.uptr[k]:e.uptr[k+1]]
		for _, c := range lcols {
			x[c] = 0
		}
		for _, c := range ucols {
			x[c] = 0
		}
		pos := e.jpos[e.jptr[k]:e.jptr[k+1]]
		x[k] = 0
		for i, c := range e.jcol[e.jptr[k]:e.jptr[k+1]] {
			x[c] = -jac[pos[i]]
		}
		x[k] += g
		lk := l[l0:l1]
		for i, c := range lcols {
			m := x[c] * d[c]
			lk[i] = m
			if m == 0 {
				continue
			}
			a, b := e.uptr[c], e.uptr[c+1]
			uc := u[a:b]
			for r, j := range e.uidx[a:b] {
				x[j] -= m * uc[r]
			}
		}
		v := x[k]
		if v == 0 || v-v != 0 {
			return false
		}
		d[k] = 1 / v
		uk := u[e.uptr[k]:e.uptr[k+1]]
		for i, c := range ucols {
			uk[i] = x[c]
		}
	}
	return true
}

// solve solves for b in place with the factors in w.
func (e *elimination) solve(w, b []float64) {
	l, u, d, x := e.split(w)
	for k, i := range e.perm {
		v := b[i]
		a, z := e.lptr[k], e.lptr[k+1]
		lk := l[a:z]
		for i, c := range e.lidx[a:z] {
			v -= lk[i] * x[c]
		}
		x[k] = v
	}
	for k := len(e.perm) - 1; k >= 0; k-- {
		v := x[k]
		a, z := e.uptr[k], e.uptr[k+1]
		uk := u[a:z]
		for i, c := range e.uidx[a:z] {
			v -= uk[i] * x[c]
		}
		v *= d[k]
		x[k] = v
		b[e.perm[k]] = v
	}
}

func (e *elimination) split(w []float64) (l, u, d, x []float64) {
	n := len(e.perm)
	l, w = w[:len(e.lidx)], w[len(e.lidx):]
	u, w = w[:len(e.uidx)], w[len(e.uidx):]
	return l, u, w[:n], w[n : 2*n]
}

// good reports whether x solves (g·I − J) x = b to a componentwise relative
// residual of 1e-9, which leaves the error of the solution far below that of
// the step.
func (e *elimination) good(g float64, jac, x, b []float64) bool {
	for k, i := range e.perm {
		r := g*x[i] - b[i]
		size := math.Abs(g*x[i]) + math.Abs(b[i])
		pos := e.jpos[e.jptr[k]:e.jptr[k+1]]
		for t, c := range e.jcol[e.jptr[k]:e.jptr[k+1]] {
			v := jac[pos[t]] * x[e.perm[c]]
			r -= v
			size += math.Abs(v)
		}
		if !(math.Abs(r) <= 1e-9*size) {
			return false
		}
	}
	return true
}

// substitute is Solver.substitute along the pattern of the quadrature rows.
func (e *elimination) substitute(gh float64, jac, k []float64) {
	n := len(e.perm)
	for i := n; i < len(k); i++ {
		row := jac[i*n : i*n+n]
		var v float64
		for _, c := range e.qcol[e.qptr[i-n]:e.qptr[i-n+1]] {
			v += row[c] * k[c]
		}
		k[i] = gh * (k[i] + v)
	}
}
