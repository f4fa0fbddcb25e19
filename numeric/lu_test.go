package numeric

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func BenchmarkLU(b *testing.B) {
	for _, n := range []int{2, 3, 8, 28} {
		r := rand.New(rand.NewPCG(1, 2))
		a := make([]float64, n*n)
		for i := range a {
			a[i] = r.NormFloat64()
		}
		for i := range n {
			a[i*n+i] += 5
		}
		w := make([]float64, n*n)
		piv := make([]int32, n)
		x := make([]float64, n)
		b.Run(fmt.Sprintf("factor/%d", n), func(b *testing.B) {
			for b.Loop() {
				copy(w, a)
				luFactor(w, piv, n)
			}
		})
		b.Run(fmt.Sprintf("solve/%d", n), func(b *testing.B) {
			for b.Loop() {
				for i := range x {
					x[i] = math.Pi
				}
				luSolve(w, piv, n, x)
			}
		})
	}
}

// The factors reproduce the solution of systems of every size for which the
// blocks differ, pivoting needed and zeros included.
func TestLU(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for n := 1; n <= 40; n++ {
		for range 20 {
			a := make([]float64, n*n)
			for i := range a {
				if r.Float64() < 0.6 {
					a[i] = r.NormFloat64()
				}
			}
			for i := range n {
				a[i*n+(i*7+3)%n] += 3 // large entries away from the diagonal
				a[i*n+i] += 0.1
			}
			x := make([]float64, n)
			b := make([]float64, n)
			for i := range x {
				x[i] = r.NormFloat64()
			}
			var size float64
			for i := range n {
				for j := range n {
					b[i] += a[i*n+j] * x[j]
				}
				size = max(size, math.Abs(b[i]))
			}
			w := append([]float64(nil), a...)
			piv := make([]int32, n)
			got := append([]float64(nil), b...)
			if !luFactor(w, piv, n) {
				continue // a singular draw
			}
			luSolve(w, piv, n, got)
			// The residual is small whatever the condition of the matrix.
			for i := range n {
				res, mag := -b[i], size
				for j := range n {
					res += a[i*n+j] * got[j]
					mag = max(mag, math.Abs(a[i*n+j]*got[j]))
				}
				if math.Abs(res) > 1e-12*mag {
					t.Fatalf("n = %d: residual %g of %g in row %d", n, res, mag, i)
				}
			}
		}
	}
	if luFactor([]float64{1, 2, 2, 4}, make([]int32, 2), 2) {
		t.Error("a singular matrix was factored")
	}
}
