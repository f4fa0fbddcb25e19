package numeric

import "math"

// elimination is the order and the pattern of a sparse LU factorization of
// I/(γh) − J, made once for a Pattern. The first pivots are taken from the
// diagonal in the order of least local fill, after H. M. Markowitz, Management
// Science 3 (1957) 255–269; what remains, where fill has closed the gaps, is
// factored as a dense block with row pivoting. Row k below means the row of the
// k-th pivot; columns are numbered likewise.
//
// Diagonal pivots are safe for most of these matrices because I/(γh) grows as
// the step shrinks, but not for all: the solver checks the residual of the
// first solve of every step and falls back to dense pivoting where it is poor.
type elimination struct {
	perm  []int32 // perm[k]: component of pivot k
	first int     // pivots before the dense block
	// Row k of L left of the block and, for the first pivots, of U right of the
	// diagonal, columns ascending.
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
	cost int // of a factorization and eight solves, in multiplications of the dense kind
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
	ops := make([]int, n)     // multiplications of eliminating pivot k
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
			ops[k]++
			for j := range n {
				if !done[j] && full[best][j] {
					full[i][j] = true
					ops[k]++
				}
			}
		}
	}
	e.split(full, ops)
	e.lptr, e.uptr, e.jptr = []int32{0}, []int32{0}, []int32{0}
	for k := range n {
		i := e.perm[k]
		for c := range n {
			j := e.perm[c]
			if full[i][j] && c < k && c < e.first {
				e.lidx = append(e.lidx, int32(c))
			}
			if full[i][j] && c > k && k < e.first {
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

// An operation whose place is looked up costs about twice one in a dense row
// (BenchmarkSparse); a step makes eight solves.
const (
	sparseCost = 2
	solves     = 8
)

// split chooses where the dense block begins, by the cost of a step.
func (e *elimination) split(full [][]bool, ops []int) {
	n := len(e.perm)
	spent, entries := 0, 0 // by the pivots before k
	for k := 0; k <= n; k++ {
		m := n - k
		cost := sparseCost*(spent+solves*entries) + m*m*m/3 + solves*m*m
		if k == 0 || cost < e.cost {
			e.first, e.cost = k, cost
		}
		if k == n {
			break
		}
		spent += ops[k]
		for c := k + 1; c < n; c++ {
			if full[e.perm[k]][e.perm[c]] {
				entries++
			}
			if full[e.perm[c]][e.perm[k]] {
				entries++
			}
		}
	}
}

// worthwhile says whether any pivot is taken out of the dense block.
func (e *elimination) worthwhile() bool { return e.first > 0 }

// factor forms g·I − J and factors it into w, which holds, in this order, the
// entries of L and U, the dense block, the inverted diagonal of the first
// pivots and a row of scratch: at most n² + n numbers.
func (e *elimination) factor(g float64, jac, w []float64, piv []int32) bool {
	n := len(e.perm)
	l, u, block, d, x := e.parts(w)
	m := n - e.first
	for k := range n {
		l0, l1 := e.lptr[k], e.lptr[k+1]
		lcols := e.lidx[l0:l1]
		ucols := e.uidx[e.uptr[k]:e.uptr[k+1]]
		for _, c := range lcols {
			x[c] = 0
		}
		if k < e.first {
			for _, c := range ucols {
				x[c] = 0
			}
		} else {
			clear(x[e.first:])
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
		if k >= e.first {
			copy(block[(k-e.first)*m:(k-e.first+1)*m], x[e.first:])
			continue
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
	return m == 0 || luFactor(block, piv[:m], m)
}

// solve solves for b in place with the factors in w.
func (e *elimination) solve(w []float64, piv []int32, b []float64) {
	l, u, block, d, x := e.parts(w)
	for k, i := range e.perm {
		v := b[i]
		a, z := e.lptr[k], e.lptr[k+1]
		lk := l[a:z]
		for i, c := range e.lidx[a:z] {
			v -= lk[i] * x[c]
		}
		x[k] = v
	}
	if m := len(x) - e.first; m > 0 {
		luSolve(block, piv[:m], m, x[e.first:])
	}
	for k := e.first - 1; k >= 0; k-- {
		v := x[k]
		a, z := e.uptr[k], e.uptr[k+1]
		uk := u[a:z]
		for i, c := range e.uidx[a:z] {
			v -= uk[i] * x[c]
		}
		x[k] = v * d[k]
	}
	for k, i := range e.perm {
		b[i] = x[k]
	}
}

func (e *elimination) parts(w []float64) (l, u, block, d, x []float64) {
	n := len(e.perm)
	m := n - e.first
	cut := func(k int) []float64 {
		v := w[:k:k]
		w = w[k:]
		return v
	}
	return cut(len(e.lidx)), cut(len(e.uidx)), cut(m * m), cut(e.first), cut(n)
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
