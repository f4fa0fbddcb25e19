package numeric

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// chains is an invented system of the shape of a burn: a dense core with
// sharp transitions, two chains of heat nodes hung on it, and quadratures of
// the flows at the boundary. The sum of all heat is conserved.
type chains struct {
	core, chain, quad int
	calls             int
}

func (c *chains) Dim() int { return c.active() + c.quad }

func (c *chains) active() int { return c.core + 2*c.chain }

func (c *chains) Rate(t float64, y, d []float64) {
	c.calls++
	n := c.core
	clear(d)
	// The core: fuel y[0] burns once the gate y[1] is hot; the rest relax to
	// means with rates spread over four decades.
	hot := 1 / (1 + math.Exp(-40*(y[1]-0.5)))
	burn := 0.02 * hot * y[0] / (y[0] + 0.01)
	d[0] = -burn
	d[1] = 0.05*(1-y[1]) + burn
	gas := 1 / (1 + math.Exp(-60*(y[0]-0.4)))
	var sum float64
	for i := 2; i < n; i++ {
		sum += y[i]
	}
	mean := sum / float64(n-2)
	for i := 2; i < n; i++ {
		rate := math.Exp(float64(i-2) * 0.9)
		d[i] = rate * (0.5*mean + 0.3*gas*y[1]*math.Exp(-y[i]) - y[i])
	}
	// The chains conduct; what leaves their ends is integrated.
	for k := range 2 {
		z := y[n+k*c.chain : n+(k+1)*c.chain]
		dz := d[n+k*c.chain : n+(k+1)*c.chain]
		in := 5 * (y[2+k] - z[0])
		d[2+k] -= in
		for i := range z {
			next := 0.0
			if i+1 < len(z) {
				next = z[i+1]
			}
			out := 2 * (z[i] - next)
			dz[i] = in - out
			in = out
		}
		d[c.active()+k] = in
	}
	for k := 2; k < c.quad; k++ {
		d[c.active()+k] = burn * y[k]
	}
}

func (c *chains) start() []float64 {
	y := make([]float64, c.Dim())
	y[0] = 1
	return y
}

func (c *chains) pattern(t testing.TB) *Pattern {
	n := c.active()
	cols := make([][]int, n)
	quads := []int{}
	for k := 2; k < c.quad; k++ {
		quads = append(quads, n+k)
	}
	for j := range c.core {
		for i := range c.core {
			cols[j] = append(cols[j], i)
		}
		if j < 2 {
			cols[j] = append(cols[j], quads...)
		} else if j < c.quad {
			cols[j] = append(cols[j], n+j)
		}
		if j == 2 || j == 3 {
			cols[j] = append(cols[j], c.core+(j-2)*c.chain)
		}
	}
	for k := range 2 {
		for i := range c.chain {
			j := c.core + k*c.chain + i
			cols[j] = []int{j}
			if i > 0 {
				cols[j] = append(cols[j], j-1)
			} else {
				cols[j] = append(cols[j], 2+k)
			}
			if i+1 < c.chain {
				cols[j] = append(cols[j], j+1)
			} else {
				cols[j] = append(cols[j], n+k)
			}
		}
	}
	p, err := NewPattern(c.Dim(), c.quad, cols, nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A solution along a pattern is the dense one to far below the tolerance.
func TestPattern(t *testing.T) {
	sys := &chains{core: 12, chain: 8, quad: 12}
	p := sys.pattern(t)
	if !p.Sparse() {
		t.Error("the sparse elimination is not used")
	}
	if g := p.Groups(); g > sys.core+3 {
		t.Errorf("%d groups of columns, want at most %d", g, sys.core+3)
	}
	run := func(p *Pattern) []float64 {
		var s Solver
		opt := Options{RTol: 1e-6, ATol: 1e-9, Quadratures: sys.quad, Pattern: p}
		if err := s.Reset(sys, 0, sys.start(), opt); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Integrate(200, nil, nil); err != nil {
			t.Fatal(err)
		}
		return slices.Clone(s.Y())
	}
	a, b := run(nil), run(p)
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-6*(1e-3+math.Abs(a[i])) {
			t.Errorf("component %d: %g dense, %g along the pattern", i, a[i], b[i])
		}
	}
}

// The sparse factors solve random systems, or say that they cannot.
func TestElimination(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	sound := 0
	for range 400 {
		n := 1 + r.IntN(20)
		rows := make([][]int32, n)
		jac := make([]float64, n*n)
		for j := range n {
			for i := range n {
				if r.Float64() < 0.25 {
					rows[j] = append(rows[j], int32(i))
					jac[i*n+j] = r.NormFloat64() * math.Exp(3*r.NormFloat64())
				}
			}
		}
		e := eliminate(rows, n, n)
		w := make([]float64, n*n+n)
		piv := make([]int32, n)
		b := make([]float64, n)
		for i := range b {
			b[i] = r.NormFloat64()
		}
		g := math.Exp(2 * r.NormFloat64())
		if !e.factor(g, jac, w, piv) {
			continue
		}
		x := slices.Clone(b)
		e.solve(w, piv, x)
		if !e.good(g, jac, x, b) {
			continue
		}
		sound++
		m := make([]float64, n*n)
		for i, v := range jac {
			m[i] = -v
		}
		for i := range n {
			m[i*n+i] += g
		}
		for i := range n {
			res, size := -b[i], math.Abs(b[i])
			for j := range n {
				res += m[i*n+j] * x[j]
				size += math.Abs(m[i*n+j] * x[j])
			}
			if math.Abs(res) > 1.1e-9*size {
				t.Fatalf("residual %g of %g called good", res, size)
			}
		}
	}
	if sound < 350 {
		t.Errorf("%d of 400 random systems solved", sound)
	}
}

// swing needs pivoting: its diagonal is lost beside the rest.
type swing struct{}

func (swing) Dim() int { return 6 }
func (swing) Rate(_ float64, y, d []float64) {
	for i := 0; i < 6; i += 2 {
		d[i] = 1e9 * (y[i+1] - y[i]*1e-9)
		d[i+1] = -1e9*(y[i]-1) - y[i+1]
	}
}

func TestPoorPivots(t *testing.T) {
	cols := [][]int{{0, 1}, {0, 1}, {2, 3}, {2, 3}, {4, 5}, {4, 5}}
	p, err := NewPattern(6, 0, cols, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !p.Sparse() || p.Groups() != 2 {
		t.Fatalf("sparse %v, %d groups", p.Sparse(), p.Groups())
	}
	for _, pat := range []*Pattern{nil, p} {
		var s Solver
		if err := s.Reset(swing{}, 0, make([]float64, 6), Options{Pattern: pat, ATol: 1e-6}); err != nil {
			t.Fatal(err)
		}
		if _, err := s.Integrate(1000, nil, nil); err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Y()[0]-1) > 1e-4 {
			t.Errorf("pattern %v: ends at %g, want 1", pat != nil, s.Y()[0])
		}
	}
}

func TestPatternRefusals(t *testing.T) {
	for _, c := range []struct {
		dim, quad int
		cols      [][]int
		own       []int
	}{
		{0, 0, nil, nil}, {2, 2, nil, nil}, {2, 0, [][]int{nil}, nil},
		{2, 0, [][]int{{2}, nil}, nil}, {2, 0, [][]int{{-1}, nil}, nil}, {2, 0, [][]int{nil, nil}, []int{2}},
	} {
		if _, err := NewPattern(c.dim, c.quad, c.cols, c.own); err == nil {
			t.Errorf("pattern %+v accepted", c)
		}
	}
}

// BenchmarkChains is a run of the size of a burn: 28 active components, 12
// quadratures, differenced Jacobian.
func BenchmarkChains(b *testing.B) {
	sys := &chains{core: 12, chain: 8, quad: 12}
	for _, c := range []struct {
		name string
		p    *Pattern
	}{{"dense", nil}, {"pattern", sys.pattern(b)}} {
		for _, tol := range []float64{1e-3, 1e-4, 1e-5} {
			b.Run(c.name+"/"+map[float64]string{1e-3: "1e-3", 1e-4: "1e-4", 1e-5: "1e-5"}[tol], func(b *testing.B) {
				var s Solver
				y := sys.start()
				b.ReportAllocs()
				for b.Loop() {
					if err := s.Reset(sys, 0, y, Options{RTol: tol, ATol: tol * 1e-2, Quadratures: sys.quad, Pattern: c.p}); err != nil {
						b.Fatal(err)
					}
					if _, err := s.Integrate(200, nil, nil); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(s.Stats().Steps), "steps")
				b.ReportMetric(float64(s.Stats().Rates), "rates")
			})
		}
	}
}

// BenchmarkSparse sets one factorization with nine solves of the two kinds
// side by side.
func BenchmarkSparse(b *testing.B) {
	sys := &chains{core: 12, chain: 8, quad: 12}
	p := sys.pattern(b)
	n := sys.active()
	r := rand.New(rand.NewPCG(7, 8))
	jac := make([]float64, n*n)
	for j, rows := range p.rows {
		for _, i := range rows {
			if int(i) < n {
				jac[int(i)*n+j] = r.NormFloat64()
			}
		}
	}
	w := make([]float64, n*n+n)
	x := make([]float64, n)
	piv := make([]int32, n)
	b.Run("sparse", func(b *testing.B) {
		for b.Loop() {
			p.lu.factor(10, jac, w, piv)
			for range 9 {
				x[3] = 1
				p.lu.solve(w, piv, x)
			}
		}
		b.ReportMetric(float64(p.lu.cost), "mults")
		b.ReportMetric(float64(p.lu.first), "first")
	})
	b.Run("dense", func(b *testing.B) {
		for b.Loop() {
			for i, v := range jac {
				w[i] = -v
			}
			for i := range n {
				w[i*n+i] += 10
			}
			luFactor(w[:n*n], piv, n)
			for range 9 {
				x[3] = 1
				luSolve(w[:n*n], piv, n, x)
			}
		}
	})
	y, d := sys.start(), make([]float64, sys.Dim())
	b.Run("rate", func(b *testing.B) {
		for b.Loop() {
			sys.Rate(0, y, d)
		}
	})
}
