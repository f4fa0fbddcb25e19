package numeric

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A cubic is its own spline.
func TestTableCubic(t *testing.T) {
	f := func(x float64) float64 { return 2 - x + 3*x*x - 0.5*x*x*x }
	g := func(x float64) float64 { return -1 + 6*x - 1.5*x*x }
	for n := 3; n < 12; n++ {
		p, err := TableOf(f, -1, 4, n)
		if err != nil {
			t.Fatal(err)
		}
		for x := -1.0; x <= 4; x += 0.01 {
			y, s := p.AtSlope(x)
			if math.Abs(y-f(x)) > 1e-12 || math.Abs(s-g(x)) > 1e-11 || math.Abs(p.At(x)-y) > 1e-14 {
				t.Fatalf("%d intervals: %g with slope %g at %g, want %g and %g", n, y, s, x, f(x), g(x))
			}
		}
	}
}

// The error falls by 16 when the spacing is halved.
func TestTableOrder(t *testing.T) {
	last := 0.0
	for n := 16; n <= 256; n *= 2 {
		p, err := TableOf(math.Exp, 0, 2, n)
		if err != nil {
			t.Fatal(err)
		}
		var worst float64
		for x := 0.0; x <= 2; x += 1e-3 {
			worst = max(worst, math.Abs(p.At(x)-math.Exp(x)))
		}
		if last > 0 && math.Log2(last/worst) < 3.7 {
			t.Errorf("%d intervals: error %g after %g", n, worst, last)
		}
		last = worst
	}
}

func TestTableEnds(t *testing.T) {
	p, err := TableOf(math.Sin, 0, 1, 20)
	if err != nil {
		t.Fatal(err)
	}
	a, b := p.Range()
	if a != 0 || b != 1 || p.At(0) != 0 || p.At(1) != math.Sin(1) {
		t.Errorf("range %g to %g, ends %g and %g", a, b, p.At(0), p.At(1))
	}
	for _, x := range []float64{-2, -0.1, 1.1, 3} {
		y, s := p.AtSlope(x)
		end := math.Min(math.Max(x, 0), 1)
		y0, s0 := p.AtSlope(end)
		if math.Abs(y-(y0+s0*(x-end))) > 1e-12 || s != s0 || y != p.At(x) {
			t.Errorf("%g with slope %g at %g", y, s, x)
		}
	}
	if !math.IsNaN(p.At(math.NaN())) {
		t.Error("a value at NaN")
	}
	for _, c := range []struct {
		x0, x1 float64
		y      []float64
	}{{0, 1, []float64{1, 2, 3}}, {1, 1, make([]float64, 5)}, {0, 1, []float64{1, math.NaN(), 1, 1}}, {0, math.Inf(1), make([]float64, 5)}} {
		if _, err := NewTable(c.x0, c.x1, c.y); err == nil {
			t.Errorf("table %+v accepted", c)
		}
	}
}

// A monotone interpolant passes through its points, stays between neighbours
// and keeps the sign of their difference in its slope.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "n")
		x, y := make([]float64, n), make([]float64, n)
		at := 0.0
		for i := range x {
			at += math.Exp(rapid.Float64Range(-5, 5).Draw(t, "dx"))
			x[i] = at
			y[i] = rapid.Float64Range(-10, 10).Draw(t, "y")
			if i > 0 && rapid.Bool().Draw(t, "level") {
				y[i] = y[i-1]
			}
		}
		p, err := NewMonotone(x, y)
		if err != nil {
			t.Fatal(err)
		}
		even, err := NewMonotoneTable(0, 1, y)
		if err != nil {
			t.Fatal(err)
		}
		check := func(v, s, a, b float64) {
			if v < math.Min(a, b)-1e-12 || v > math.Max(a, b)+1e-12 || s*(b-a) < -1e-9 {
				t.Fatalf("%g with slope %g between %g and %g", v, s, a, b)
			}
		}
		for i := range n {
			if p.At(x[i]) != y[i] {
				t.Fatalf("%g at point %d, want %g", p.At(x[i]), i, y[i])
			}
			if i == 0 {
				continue
			}
			for k := 0; k <= 20; k++ {
				u := float64(k) / 20
				v, s := p.AtSlope(x[i-1] + u*(x[i]-x[i-1]))
				check(v, s, y[i-1], y[i])
				v, s = even.AtSlope((float64(i-1) + u) / float64(n-1))
				if k > 0 && k < 20 {
					check(v, s, y[i-1], y[i])
				}
			}
		}
	})
	for _, c := range [][2][]float64{{{1}, {1}}, {{1, 2}, {1}}, {{1, 1}, {1, 2}}, {{2, 1}, {1, 2}}, {{1, 2}, {1, math.Inf(1)}}} {
		if _, err := NewMonotone(c[0], c[1]); err == nil {
			t.Errorf("points %v accepted", c)
		}
	}
}

func BenchmarkTable(b *testing.B) {
	p, err := TableOf(math.Exp, 0, 2, 500)
	if err != nil {
		b.Fatal(err)
	}
	x, sum := 0.0, 0.0
	for b.Loop() {
		sum += p.At(x)
		x += 0.618
		if x > 2 {
			x -= 2
		}
	}
	_ = sum
}
