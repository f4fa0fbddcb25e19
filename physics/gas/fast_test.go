package gas

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The table keeps its promises: 0.01 J/mol in h, 0.002 J/mol K in cp.
func TestFastIsClose(t *testing.T) {
	var h, hOnly, cp [NCore]float64
	var worstH, worstCp float64
	for T := fastLow; T <= fastHigh; T += 0.37 {
		FastHCp(T, &h, &cp)
		FastH(T, &hOnly)
		if h != hOnly {
			t.Fatalf("at %g K FastH and FastHCp differ: %v, %v", T, hOnly, h)
		}
		for i := range h {
			worstH = math.Max(worstH, math.Abs(h[i]-Species(i).H(T)))
			worstCp = math.Max(worstCp, math.Abs(cp[i]-Species(i).Cp(T)))
		}
	}
	t.Logf("worst: %.3g J/mol, %.3g J/mol K", worstH, worstCp)
	if worstH > 0.01 || worstCp > 0.002 {
		t.Errorf("worst difference %.3g J/mol in h, %.3g J/mol K in cp", worstH, worstCp)
	}
}

func TestFastOutside(t *testing.T) {
	var h, cp, hEnd, cpEnd [NCore]float64
	for _, c := range []struct{ T, end float64 }{{-500, fastLow}, {0, fastLow}, {199, fastLow}, {3001, fastHigh}, {1e6, fastHigh}} {
		FastHCp(c.T, &h, &cp)
		FastHCp(c.end, &hEnd, &cpEnd)
		for i := range h {
			if want := hEnd[i] + cpEnd[i]*(c.T-c.end); math.Abs(h[i]-want) > 1e-9*math.Abs(want)+1e-6 || math.Abs(cp[i]-cpEnd[i]) > 1e-9 {
				t.Errorf("%v at %g K: h %g, want %g; cp %g, want %g", Species(i), c.T, h[i], want, cp[i], cpEnd[i])
			}
		}
	}
}

func drawMix(t *rapid.T) (m Mix) {
	for i := range m {
		m[i] = rapid.Float64Range(0, 3).Draw(t, Species(i).String())
	}
	m[N2] += 0.01
	return m
}

func TestFastTInvertsFastH(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		T := rapid.Float64Range(50, 5000).Draw(t, "T")
		guess := rapid.Float64Range(-100, 20000).Draw(t, "guess")
		if got := m.FastT(m.FastH(T), guess); math.Abs(got-T) > 1e-8*T {
			t.Fatalf("FastT gives %g K for %g K", got, T)
		}
	})
}

// cp is the slope of h everywhere, the nodes included.
func TestFastCpIsSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMix(t)
		T := rapid.Float64Range(150, 3100).Draw(t, "T")
		const d = 1e-3
		_, cp := m.FastHCp(T)
		if got := (m.FastH(T+d) - m.FastH(T-d)) / (2 * d); math.Abs(got-cp) > 1e-5*cp {
			t.Fatalf("at %g K the slope is %g, cp %g", T, got, cp)
		}
	})
}

func TestFastTEmpty(t *testing.T) {
	if got := (&Mix{}).FastT(1, 400); got != 400 {
		t.Errorf("an empty mix gives %g K, want the guess", got)
	}
}

var sink float64

func BenchmarkFastH(b *testing.B) {
	var h [NCore]float64
	T := 300.0
	for b.Loop() {
		FastH(T, &h)
		T += 1.7
		if T > 2400 {
			T = 300
		}
	}
	sink = h[0]
}

func BenchmarkFastHCp(b *testing.B) {
	var h, cp [NCore]float64
	T := 300.0
	for b.Loop() {
		FastHCp(T, &h, &cp)
		T += 1.7
		if T > 2400 {
			T = 300
		}
	}
	sink = h[0] + cp[0]
}

func BenchmarkMixFastHCp(b *testing.B) {
	m := Mix{.7, .1, .01, .02, .1, .02, .1, .01}
	T := 300.0
	for b.Loop() {
		h, _ := m.FastHCp(T)
		sink = h
		T += 1.7
		if T > 2400 {
			T = 300
		}
	}
}

func BenchmarkFastT(b *testing.B) {
	m := Mix{.7, .1, .01, .02, .1, .02, .1, .01}
	H := m.FastH(1234)
	for b.Loop() {
		sink = m.FastT(H, 1200)
	}
}

func BenchmarkSpeciesH(b *testing.B) {
	T := 300.0
	for b.Loop() {
		sink = CO2.H(T)
		T += 0.1
	}
}
