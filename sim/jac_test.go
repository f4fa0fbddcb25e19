package sim

import (
	"math"
	"testing"
)

// TestJacobianGroups holds the Jacobian by groups against differences of the
// whole right-hand side.
func TestJacobianGroups(t *testing.T) {
	s, err := newSite(demo(), nodes{4, 2, 6})
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		t.Fatal(err)
	}
	n := b.active
	f, g := make([]float64, b.dim), make([]float64, b.dim)
	jac := make([]float64, b.dim*n)
	for _, k := range []int{1, 4, 8, 16, 25, 40} {
		if k >= len(b.track.t) {
			continue
		}
		y := append([]float64(nil), b.track.y[k]...)
		b.Rate(b.track.t[k], y, f)
		clear(jac)
		b.Jacobian(b.track.t[k], y, f, jac)
		for j := range n {
			if j == iStart && y[j] < 1e-6*b.start0 {
				continue // a starter burned out keeps its own decay only
			}
			old := y[j]
			d := b.increment(j, old)
			y[j] += d
			b.Rate(b.track.t[k], y, g)
			d = y[j] - old
			y[j] = old
			for i := range f {
				want, got := (g[i]-f[i])/d, jac[i*n+j]
				noise := 1e-15 * (math.Abs(f[i]) + 2) / d * 50
				if math.Abs(want-got) > 1e-5*math.Max(math.Abs(want), math.Abs(got))+noise+1e-12/d*1e-3 {
					t.Errorf("t %.0f: d f[%d]/d y[%d] by groups %.8g, by differences %.8g", b.track.t[k], i, j, got, want)
				}
			}
		}
	}
}
