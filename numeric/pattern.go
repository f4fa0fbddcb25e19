package numeric

import "fmt"

// Pattern is the sparsity of a Jacobian with its columns coloured: columns of
// one colour share no row and are differenced with one Rate call
// (Curtis, Powell and Reid, J. Inst. Maths Applics 13 (1974) 117–119). Where
// enough entries are zero it also holds a sparse elimination. It is made once,
// never changes, and may be shared by solvers on several goroutines.
type Pattern struct {
	dim, active int
	rows        [][]int32 // rows[j]: rows of column j that may differ from zero
	groups      [][]int32 // columns of one colour
	analytic    bool      // some columns come from the system itself
	lu          *elimination
}

// NewPattern returns the pattern of a system with dim components of which the
// last quadratures ones do not feed back. columns[j] lists the rows of column j
// (active components only) that may differ from zero; nil means all of them.
// analytic lists the columns the system's Jacobian method writes itself.
func NewPattern(dim, quadratures int, columns [][]int, analytic []int) (*Pattern, error) {
	n := dim - quadratures
	if n < 1 || quadratures < 0 {
		return nil, fmt.Errorf("pattern of %d components with %d quadratures, want at least one active component", dim, quadratures)
	}
	if len(columns) != n {
		return nil, fmt.Errorf("pattern with %d columns, want one for each of %d active components", len(columns), n)
	}
	p := &Pattern{dim: dim, active: n, rows: make([][]int32, n), analytic: len(analytic) > 0}
	own := make([]bool, n)
	for _, j := range analytic {
		if j < 0 || j >= n {
			return nil, fmt.Errorf("analytic column %d, want 0 to %d", j, n-1)
		}
		own[j] = true
	}
	for j, rows := range columns {
		if rows == nil {
			for i := range dim {
				p.rows[j] = append(p.rows[j], int32(i))
			}
			continue
		}
		seen := make([]bool, dim)
		for _, i := range rows {
			if i < 0 || i >= dim {
				return nil, fmt.Errorf("row %d in column %d of a pattern, want 0 to %d", i, j, dim-1)
			}
			if !seen[i] {
				seen[i] = true
				p.rows[j] = append(p.rows[j], int32(i))
			}
		}
	}
	p.colour(own)
	if e := eliminate(p.rows, n, dim); e.worthwhile() {
		p.lu = e
	}
	return p, nil
}

// Sparse reports whether steps use the sparse elimination.
func (p *Pattern) Sparse() bool { return p.lu != nil }

// Groups is the number of Rate calls one differenced Jacobian takes.
func (p *Pattern) Groups() int { return len(p.groups) }

// colour packs the columns greedily, fullest first, which is close to the
// least number of colours for the small systems meant here.
func (p *Pattern) colour(own []bool) {
	order := make([]int32, 0, p.active)
	for size := p.dim; size >= 0; size-- {
		for j := range p.active {
			if len(p.rows[j]) == size && !own[j] {
				order = append(order, int32(j))
			}
		}
	}
	var taken [][]bool
	for _, j := range order {
		g := 0
	search:
		for ; g < len(taken); g++ {
			for _, i := range p.rows[j] {
				if taken[g][i] {
					continue search
				}
			}
			break
		}
		if g == len(taken) {
			taken = append(taken, make([]bool, p.dim))
			p.groups = append(p.groups, nil)
		}
		for _, i := range p.rows[j] {
			taken[g][i] = true
		}
		p.groups[g] = append(p.groups[g], j)
	}
}
