package heat

import (
	"math"
	"sort"
	"testing"

	"pgregory.net/rapid"
)

func quantile(x []float64, p float64) float64 {
	s := append([]float64(nil), x...)
	sort.Float64s(s)
	return s[int(p*float64(len(s)-1)+0.5)]
}

// surfaceAfter is the rise of store 0 after t seconds of flux q from rest, by
// the trapezoidal rule in steps of a thousandth of the time.
func surfaceAfter(g Grid, q, t float64) float64 {
	n := len(g.C)
	rise := make([]float64, n)
	a, b, c, d := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for now := 0.0; now < t; {
		dt := math.Min(math.Max(now*2e-3, 1e-3), t-now)
		for i := range n {
			var left, below, above float64
			if i > 0 {
				left, above = g.G[i-1], rise[i-1]
			}
			if i < n-1 {
				below = rise[i+1]
			}
			right := g.G[i]
			a[i], c[i] = -0.5*left, -0.5*right
			b[i] = g.C[i]/dt + 0.5*(left+right)
			d[i] = g.C[i]/dt*rise[i] + 0.5*(left*(above-rise[i])+right*(below-rise[i]))
		}
		d[0] += q
		for i := 1; i < n; i++ {
			w := a[i] / b[i-1]
			b[i] -= w * c[i-1]
			d[i] -= w * d[i-1]
		}
		rise[n-1] = d[n-1] / b[n-1]
		for i := n - 2; i >= 0; i-- {
			rise[i] = (d[i] - c[i]*rise[i+1]) / b[i]
		}
		now += dt
	}
	return rise[0]
}

func TestGridAnswersAsAHalfSpace(t *testing.T) {
	for n, within := range map[int]float64{5: 0.011, 6: 0.004, 8: 0.002} {
		g, err := NewGrid([]Layer{{K: 0.24, C: 1.28e6}}, n, 60, 7200)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range []float64{60, 200, 600, 1800, 3600, 7200} {
			want := SteadyFlux(0.24, 1.28e6, 1000, at)
			if got := surfaceAfter(g, 1000, at); math.Abs(got-want) > within*want {
				t.Errorf("%d stores after %g s: %.2f K, half space %.2f K", n, at, got, want)
			}
		}
	}
}

func TestGridOfLayers(t *testing.T) {
	// Tile on litter, and litter on moist sand: eight stores against forty.
	for name, layers := range map[string][]Layer{
		"tile on litter":       {{0.012, 1.1, 1.7e6}, {0, 0.05, 0.2e6}},
		"litter on moist sand": {{0.02, 0.05, 0.2e6}, {0, 2.1, 2.12e6}},
		"steel on dry sand":    {{0.001, 45, 3.7e6}, {0, 0.24, 1.28e6}},
	} {
		few, err := NewGrid(layers, 8, 60, 7200)
		if err != nil {
			t.Fatal(err)
		}
		many, err := NewGrid(layers, 40, 1, 1e5)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range []float64{300, 1800, 3600} {
			a, b := surfaceAfter(few, 1000, at), surfaceAfter(many, 1000, at)
			t.Logf("%s after %g s: %.1f K with 8 stores, %.1f K with 40", name, at, a, b)
			if math.Abs(a-b) > 0.015*b {
				t.Errorf("%s after %g s: %.1f K with 8 stores, %.1f K with 40", name, at, a, b)
			}
		}
	}
}

func TestGridStaysPositive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var layers []Layer
		for range rapid.IntRange(1, 4).Draw(t, "layers") {
			layers = append(layers, Layer{
				Thickness: rapid.Float64Range(1e-4, 0.2).Draw(t, "thickness"),
				K:         rapid.Float64Range(0.03, 50).Draw(t, "k"), C: rapid.Float64Range(1e5, 4e6).Draw(t, "c"),
			})
		}
		short := rapid.Float64Range(1, 100).Draw(t, "short")
		g, err := NewGrid(layers, rapid.IntRange(2, 20).Draw(t, "n"), short, short*rapid.Float64Range(10, 1e4).Draw(t, "range"))
		if err != nil {
			t.Fatal(err)
		}
		for i := range g.C {
			if !(g.C[i] > 0) || !(g.G[i] > 0) || math.IsInf(g.C[i]+g.G[i], 0) || (i > 0 && !(g.Z[i] > g.Z[i-1])) {
				t.Fatalf("store %d: C %g, G %g, depth %g", i, g.C[i], g.G[i], g.Z[i])
			}
		}
	})
}

// smooth fails unless f has no jump in value and none in slope at x.
func smooth(t *rapid.T, name string, f func(x float64) float64, x, scale float64) {
	h := 1e-6 * scale
	a, b, c := f(x-h), f(x), f(x+h)
	left, right := (b-a)/h, (c-b)/h
	if math.IsNaN(a+b+c) || math.Abs(left-right) > 0.02*(math.Abs(left)+math.Abs(right))+1e-9 {
		t.Fatalf("%s: slopes %g and %g about %g", name, left, right, x)
	}
}

func TestHeatFlowsAreSmoothThroughZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := AirFilm(rapid.Float64Range(280, 1500).Draw(t, "film"), rapid.Float64Range(6e4, 1.05e5).Draw(t, "p"))
		d := rapid.Float64Range(0.03, 0.3).Draw(t, "d")
		u := rapid.Float64Range(0, 5).Draw(t, "u")
		// Ra^(1/6) turns fast at zero: the flow has a slope there, which the
		// difference quotient of a millionth of a kelvin sees to 2 %.
		smooth(t, "disc", func(x float64) float64 { return Disc(f, d, x) * x }, 0, 1e-3)
		smooth(t, "wall", func(x float64) float64 { return WallInWind(f, d, d, x, u+0.1) * x }, 0, 1)
		smooth(t, "base", func(x float64) float64 {
			return Passing(BaseCoefficient(f, 0.05, 1+u, 0.02, d, BaseFactor, x), d*d, 1, 400+x, 400)
		}, 0, 1e-3)
		at := rapid.Float64Range(-500, 500).Draw(t, "dt")
		smooth(t, "disc off zero", func(x float64) float64 { return Disc(f, d, x) * x }, at, math.Abs(at)+1)
		smooth(t, "base in width", func(x float64) float64 { return BaseCoefficient(f, x, 1+u, 0.02, d, BaseFactor, 500) }, d, d)
		side := Side{Diameter: d, Height: d, Flow: rapid.Float64Range(0, 3e-3).Draw(t, "flow"), Cp: 1200, Rho: 0.4, RhoAir: 1.2, Speed: u}
		smooth(t, "side", func(x float64) float64 { return side.Heat(10, 300+x, 350, 300) }, 0, 1)
	})
}

func TestSideNeitherMakesNorKeepsHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Side{
			Diameter: rapid.Float64Range(0.05, 0.3).Draw(t, "d"), Height: rapid.Float64Range(0, 0.2).Draw(t, "h"),
			Flow: rapid.Float64Range(0, 5e-3).Draw(t, "flow"), Cp: 1200, Rho: 0.4, RhoAir: 1.2, Speed: rapid.Float64Range(0, 3).Draw(t, "u"),
		}
		h := rapid.Float64Range(0, 80).Draw(t, "coefficient")
		gas := rapid.Float64Range(300, 1500).Draw(t, "gas")
		if q := s.Heat(h, gas, 300, 300); q < 0 || q > s.Flow*s.Cp*(gas-300)*(1+1e-12) {
			t.Fatalf("side takes %g W of %g", q, s.Flow*s.Cp*(gas-300))
		}
		if q := s.Heat(h, 300, 350, 300); q > 0 {
			t.Fatalf("cold gas warms the side by %g W", q)
		}
	})
}

func TestPassingIsBounded(t *testing.T) {
	for _, mcp := range []float64{0, 1e-12, 1e-3, 1, 1e6} {
		q := Passing(30, 0.01, mcp, 1000, 300)
		if !(q >= 0) || q > math.Min(mcp, 0.3)*700*(1+1e-12) {
			t.Errorf("capacity flow %g W/K: %g W", mcp, q)
		}
	}
}

func TestMartinRefusesWhatItDoesNotKnow(t *testing.T) {
	for _, c := range [][3]float64{{500, 4, 4}, {1e4, 0.5, 4}, {1e4, 4, 1}, {1e4, 4, 20}, {math.NaN(), 4, 4}} {
		if nu, err := Martin(c[0], 0.7, c[1], c[2]); err == nil {
			t.Errorf("Re %g, H/D %g, r/D %g: Nu %g, want an error", c[0], c[1], c[2], nu)
		}
	}
}

func TestDiscsObeyReciprocityAndLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(1e-3, 1).Draw(t, "a")
		b := rapid.Float64Range(1e-3, 1).Draw(t, "b")
		l := rapid.Float64Range(1e-4, 10).Draw(t, "l")
		f, g := Discs(a, b, l), Discs(b, a, l)
		if math.Abs(f*a*a-g*b*b) > 1e-12*a*b || f < 0 || f > 1 {
			t.Fatalf("view factors %g and %g", f, g)
		}
	})
	if f := Discs(0.05, 0.5, 1e-6); math.Abs(f-1) > 1e-9 {
		t.Errorf("touching wide disc: %g, want 1", f)
	}
}

func TestTablesHaveSources(t *testing.T) {
	s, err := Surfaces()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range s {
		if r.Source == "" || !(r.Low <= r.Emissivity && r.Emissivity <= r.High && r.Low > 0 && r.High < 1) {
			t.Errorf("surface %s %s: %+v", r.State, r.Material, r)
		}
	}
	for _, m := range []string{"tinplate", "steel", "stainless", "aluminium", "galvanised", "copper", "titanium"} {
		for _, state := range []string{"bright", "melted", "oxidised"} {
			if _, err := SurfaceOf(state, m); err != nil {
				t.Error(err)
			}
		}
		metal, err := MetalOf(m)
		if err != nil {
			t.Error(err)
		}
		for k := 250.0; k < 1600; k += 50 {
			if c := metal.Cp(k); !(c > 300 && c < 1300) || !(metal.Conductivity(k) > 5) {
				t.Errorf("%s at %g K: %g J/kg K, %g W/m K", m, k, c, metal.Conductivity(k))
			}
		}
	}
	g, err := Grounds()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range g {
		if r.Source == "" || !(r.K > 0 && r.C > 0) {
			t.Errorf("ground %+v", r)
		}
	}
	l, err := Limits()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range l {
		if r.Source == "" || !(r.Low <= r.Value && r.Value <= r.High) {
			t.Errorf("limit %+v", r)
		}
	}
	if _, err := GroundOf("lava"); err == nil {
		t.Error("lava: no error")
	}
}

func TestBurnThreshold(t *testing.T) {
	last := math.Inf(1)
	for _, s := range []float64{0.1, 1, 3, 10, 60, 600, 1e5} {
		v, err := BurnThreshold(s)
		if err != nil || v > last || v < 43+273 {
			t.Errorf("%g s: %g K, %v", s, v, err)
		}
		last = v
	}
}

func TestSolidFlameStaysInRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := CylinderToGround(rapid.Float64Range(0, 2).Draw(t, "l"), 0.1, rapid.Float64Range(0.01, 3).Draw(t, "x"))
		if !(f >= 0 && f <= 1) {
			t.Fatalf("view factor %g", f)
		}
	})
}

func BenchmarkBase(b *testing.B) {
	f := FlueFilm(900, 101325)
	for b.Loop() {
		BaseCoefficient(f, 0.05, 2, 0.02, 0.12, BaseFactor, 800)
	}
}

func BenchmarkWallInWind(b *testing.B) {
	for b.Loop() {
		WallInWind(AirFilm(450, 101325), 0.13, 0.1, 300, 1)
	}
}

func BenchmarkSide(b *testing.B) {
	s := Side{Diameter: 0.12, Height: 0.08, Flow: 1e-3, Cp: 1200, Rho: 0.4, RhoAir: 1.2, Speed: 2}
	for b.Loop() {
		s.Heat(15, 900, 350, 293)
	}
}

func TestWaterComesToSaturationAndStops(t *testing.T) {
	const sat, surplus, capacity = 373.0, 500.0, 2000.0
	temp := 370.0
	for range 200000 {
		temp += 1e-3 * surplus * (1 - BoilShare(temp, sat, 0.2)) / capacity
	}
	if temp > sat || temp < sat-0.02 {
		t.Errorf("water at %g K, saturation %g K", temp, sat)
	}
}
