package draft

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func must(t testing.TB, h Holes) *Discharge {
	t.Helper()
	x, err := NewHoles(h)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestHolesDropIsOddIncreasingSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Holes{
			Count:     rapid.IntRange(1, 200).Draw(t, "count"),
			Diameter:  rapid.Float64Range(0.5e-3, 60e-3).Draw(t, "diameter"),
			Thickness: rapid.Float64Range(0, 5e-3).Draw(t, "thickness"),
			Edge:      Edge(rapid.IntRange(0, 2).Draw(t, "edge")),
			Before:    rapid.Float64Range(0, 0.9).Draw(t, "before"),
			After:     rapid.Float64Range(0, 0.9).Draw(t, "after"),
		}
		x, err := NewHoles(h)
		if err != nil {
			t.Fatal(err)
		}
		checkElement(t, x, x.Area(), h.Diameter)
	})
}

// checkElement is what every element must hold: odd, strictly increasing, a
// positive slope at zero, and a slope that is the derivative.
func checkElement(t *rapid.T, x Element, area, d float64) {
	rho := rapid.Float64Range(0.1, 1.5).Draw(t, "rho")
	mu := rapid.Float64Range(1e-5, 6e-5).Draw(t, "mu")
	lnRe := rapid.Float64Range(math.Log(1e-3), math.Log(1e6)).Draw(t, "ln re")
	m := math.Exp(lnRe) * mu * area / d
	dp, s := x.Drop(m, rho, mu)
	back, sb := x.Drop(-m, rho, mu)
	if back != -dp || sb != s {
		t.Fatalf("not odd: %g and %g, slopes %g and %g", dp, back, s, sb)
	}
	if !(dp > 0) || !(s > 0) {
		t.Fatalf("drop %g, slope %g at m %g", dp, s, m)
	}
	const e = 1e-5
	hi, _ := x.Drop(m*(1+e), rho, mu)
	lo, _ := x.Drop(m*(1-e), rho, mu)
	if !(lo < dp && dp < hi) {
		t.Fatalf("not increasing: %g %g %g", lo, dp, hi)
	}
	if num := (hi - lo) / (2 * e * m); math.Abs(num-s) > 3e-4*s {
		t.Fatalf("slope %g, difference quotient %g at m %g", s, num, m)
	}
	if z, s0 := x.Drop(0, rho, mu); z != 0 || !(s0 > 0) || math.IsInf(s0, 0) {
		t.Fatalf("at zero flow: drop %g, slope %g", z, s0)
	}
}

func BenchmarkHolesDrop(b *testing.B) {
	x := must(b, Holes{Count: 24, Diameter: 6e-3, Thickness: 0.25e-3})
	m := 0.0
	for b.Loop() {
		m += 1e-9
		x.Drop(m, 1.1, 1.9e-5)
	}
}

func BenchmarkNewHoles(b *testing.B) {
	for b.Loop() {
		must(b, Holes{Count: 24, Diameter: 6e-3, Thickness: 0.25e-3})
	}
}
