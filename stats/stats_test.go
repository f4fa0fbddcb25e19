package stats

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

var someFloats = rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), 1, 60)

func ExampleUpperLimit() {
	// Nothing went wrong in 20 burns: how often may it still go wrong?
	fmt.Printf("at most %.0f %%, with 95 %% confidence\n", 100*UpperLimit(0, 20, 0.95))
	// Output: at most 14 %, with 95 % confidence
}

func ExampleQuantiles() {
	boil := []float64{312, 298, 341, math.Inf(1), 305} // seconds; one never boiled
	q := Quantiles(boil, 0.1, 0.5, 0.9)
	fmt.Println(q)
	// Output: [300.8 312 +Inf]
}

func TestQuantileIsWhatSortingSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := someFloats.Draw(t, "x")
		kept := slices.Clone(x)
		p, q := rapid.Float64Range(0, 1).Draw(t, "p"), rapid.Float64Range(0, 1).Draw(t, "q")
		if p > q {
			p, q = q, p
		}
		a, b := Quantile(x, p), Quantile(x, q)
		if a > b {
			t.Fatalf("quantile %g is %g, above %g at %g", p, a, b, q)
		}
		if Quantile(x, 0) != slices.Min(x) || Quantile(x, 1) != slices.Max(x) {
			t.Fatal("the ends are not the least and the greatest")
		}
		if !slices.Equal(x, kept) {
			t.Fatal("the sample was changed")
		}
		w := make([]float64, len(x))
		for i := range w {
			w[i] = 0.7
		}
		if got := WeightedQuantile(x, w, p); math.Abs(got-a) > 1e-9*(1+math.Abs(a)) {
			t.Fatalf("equal weights: %g, without weights %g", got, a)
		}
	})
}

func TestWeightedQuantile(t *testing.T) {
	x := []float64{3, 1, 2, 99}
	for _, c := range []struct {
		w       []float64
		p, want float64
	}{
		{[]float64{1, 1, 1, 0}, 0.5, 2},   // no weight, not there
		{[]float64{1, 2, 1, 0}, 0, 1},     // ends
		{[]float64{1, 2, 1, 0}, 1, 3},     //
		{[]float64{1, 2, 1, 0}, 0.6, 2},   // places 0, 1.5, 2.5
		{[]float64{1, 2, 1, 0}, 0.3, 1.5}, // half way between the first two
		{[]float64{0, 0, 5, 0}, 0.9, 2},   // one value
		{[]float64{1, 1, 1, -1}, 0.5, math.NaN()},
		{[]float64{1, 1, 1}, 0.5, math.NaN()},
		{[]float64{0, 0, 0, 0}, 0.5, math.NaN()},
	} {
		got := WeightedQuantile(x, c.w, c.p)
		if !(math.Abs(got-c.want) < 1e-12) && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("weights %v at %g: got %g, want %g", c.w, c.p, got, c.want)
		}
	}
}

func TestNeverIsAnOutcome(t *testing.T) {
	inf := math.Inf(1)
	x := []float64{1, 2, 3, inf, inf}
	for p, want := range map[float64]float64{0: 1, 0.25: 2, 0.5: 3, 0.51: inf, 0.9: inf, 1: inf} {
		if got := Quantile(x, p); got != want {
			t.Errorf("quantile %g: got %g, want %g", p, got, want)
		}
	}
	if got, want := LogScore(x, inf, 0), -math.Log(0.4); math.Abs(got-want) > 1e-15 {
		t.Errorf("score of never: %g, want %g", got, want)
	}
	// The finite part of the density loses the share that never gets there.
	if got, want := LogScore(x, 2, 0), LogScore(x[:3], 2, 0)-math.Log(0.6); math.Abs(got-want) > 1e-12 {
		t.Errorf("score of 2: %g, want %g", got, want)
	}
	if got := LogScore(x[3:], 2, 0); got != inf {
		t.Errorf("never was foretold, 2 came: score %g, want +Inf", got)
	}
	if got := LogScore(x[:3], inf, 0); got != inf {
		t.Errorf("never was not foretold and came: score %g, want +Inf", got)
	}
	if Position(x, inf) <= Position(x, 3) {
		t.Error("never does not rank above the rest")
	}
	params := make([][]float64, 1)
	figure := make([]float64, 200)
	for i := range figure {
		v := float64(i*89%200) / 200
		params[0] = append(params[0], v)
		figure[i] = v
		if v > 0.7 {
			figure[i] = inf
		}
	}
	if d := Drivers(params, figure); len(d) != 1 || d[0].Share < 0.95 {
		t.Errorf("a figure that hangs on one parameter, with never in it: %+v", d)
	}
}

func TestSummaryIsSteadyUnderShift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), 3, 60).Draw(t, "x")
		by := rapid.Float64Range(-1e6, 1e6).Draw(t, "by")
		y := make([]float64, len(x))
		for i, v := range x {
			y[i] = v + by
		}
		if d := Mean(y) - Mean(x) - by; math.Abs(d) > 1e-9 {
			t.Fatalf("mean moved by %g more than the shift", d)
		}
		if d := SD(y) - SD(x); math.Abs(d) > 1e-8 {
			t.Fatalf("standard deviation moved by %g", d)
		}
		if d := Spread(y) - Spread(x); math.Abs(d) > 1e-8 {
			t.Fatalf("spread moved by %g", d)
		}
		if m := Mean(x); m < slices.Min(x)-1e-9 || m > slices.Max(x)+1e-9 {
			t.Fatalf("mean %g outside its data", m)
		}
	})
}

func TestSpreadShrugsOffWildValues(t *testing.T) {
	x := data(t, "michelso")
	wild := slices.Clone(x)
	for i := range 20 {
		wild[i] = 1e6
	}
	if r := Spread(wild) / SD(x); r < 0.5 || r > 2 {
		t.Errorf("with a fifth of the data wild the spread is %g times the standard deviation of the rest", r)
	}
	if r := SD(wild) / SD(x); r < 1e3 {
		t.Errorf("the test itself is tame: standard deviation grew by %g only", r)
	}
}

// The limit is exact when the chance of what was seen or worse, at the limit,
// is what confidence leaves. Summed term by term, by no beta function.
func TestLimitsAreExact(t *testing.T) {
	atMost := func(k, n int, p float64) float64 {
		lg := func(v int) float64 { g, _ := math.Lgamma(float64(v) + 1); return g }
		s := 0.0
		for i := range k + 1 {
			s += math.Exp(lg(n) - lg(i) - lg(n-i) + float64(i)*math.Log(p) + float64(n-i)*math.Log1p(-p))
		}
		return s
	}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 400).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		c := rapid.Float64Range(0.5, 0.999).Draw(t, "confidence")
		lo, hi := LowerLimit(k, n, c), UpperLimit(k, n, c)
		if !(0 <= lo && lo <= float64(k)/float64(n)+1e-12 && float64(k)/float64(n) <= hi+1e-12 && hi <= 1) {
			t.Fatalf("%d of %d: limits %g and %g do not hold %g between them", k, n, lo, hi, float64(k)/float64(n))
		}
		if k < n {
			if got := atMost(k, n, hi); math.Abs(got-(1-c)) > 1e-9 {
				t.Fatalf("upper limit %g: chance %g, want %g", hi, got, 1-c)
			}
		}
		if k > 0 {
			if got := 1 - atMost(k-1, n, lo); math.Abs(got-(1-c)) > 1e-9 {
				t.Fatalf("lower limit %g: chance %g, want %g", lo, got, 1-c)
			}
		}
		if mirror := 1 - UpperLimit(n-k, n, c); math.Abs(mirror-lo) > 1e-12 {
			t.Fatalf("lower limit %g, mirrored upper limit %g", lo, mirror)
		}
	})
	if got, want := UpperLimit(0, 59, 0.95), 1-math.Pow(0.05, 1.0/59); math.Abs(got-want) > 1e-14 {
		t.Errorf("none of 59: %g, closed form %g", got, want)
	}
}

func TestHonestForecastScoresBest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	normal := func(m, s float64, n int) []float64 {
		x := make([]float64, n)
		for i := range x {
			x[i] = m + s*r.NormFloat64()
		}
		return x
	}
	honest, biased, sure, vague := normal(10, 2, 400), normal(13, 2, 400), normal(10, 0.7, 400), normal(10, 6, 400)
	var h, b, s, v float64
	const n = 2000
	in := 0
	for _, y := range normal(10, 2, n) {
		h += LogScore(honest, y, 0) / n
		b += LogScore(biased, y, 0) / n
		s += LogScore(sure, y, 0) / n
		v += LogScore(vague, y, 0) / n
		if p := Position(honest, y); p > 0.1 && p < 0.9 {
			in++
		}
	}
	entropy := math.Log(2*math.Sqrt(2*math.Pi)) + 0.5
	if math.Abs(h-entropy) > 0.1 {
		t.Errorf("honest forecast scores %g, the distribution itself %g", h, entropy)
	}
	if h >= b || h >= s || h >= v {
		t.Errorf("honest %g, biased %g, too sure %g, too vague %g: the first must be least", h, b, s, v)
	}
	if share := float64(in) / n; math.Abs(share-0.8) > 0.05 {
		t.Errorf("%g of outcomes in the middle eight tenths of an honest forecast", share)
	}
}

func TestDriversFindWhatMatters(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const n = 256
	params := make([][]float64, 12)
	for j := range params {
		params[j] = make([]float64, n)
		for i := range n {
			params[j][i] = r.Float64()
		}
	}
	params[11] = make([]float64, n) // held fixed
	figure := make([]float64, n)
	for i := range figure {
		figure[i] = 3*params[4][i] + 4*math.Pow(params[7][i]-0.5, 2) - params[2][i]
	}
	d := Drivers(params, figure)
	if len(d) != 12 {
		t.Fatalf("%d drivers, want 12", len(d))
	}
	// Variances 9/12, 16/180 and 1/12: shares 0.81, 0.10, 0.09.
	if d[0].Index != 4 || math.Abs(d[0].Share-0.81) > 0.08 || d[0].Rank < 0.8 {
		t.Errorf("first driver %+v, want parameter 4 with a share of 0.81, rising", d[0])
	}
	found := map[int]bool{d[1].Index: true, d[2].Index: true}
	if !found[7] || !found[2] {
		t.Errorf("next drivers %+v and %+v, want the humped parameter 7 and the falling parameter 2", d[1], d[2])
	}
	for _, e := range d[3:] {
		if e.Share > 4*e.Noise {
			t.Errorf("a parameter that does nothing: %+v", e)
		}
	}
	if d := Drivers(params, make([]float64, n)); d != nil {
		t.Errorf("a figure that does not vary has drivers %+v", d)
	}
	if d := Drivers(params, figure[:200]); d != nil {
		t.Errorf("unequal lengths gave %+v", d)
	}
}

func TestNothingToSayIsNaN(t *testing.T) {
	nan := math.NaN()
	for name, v := range map[string]float64{
		"mean of nothing": Mean(nil), "sd of one": SD([]float64{1}), "lag of one": Lag1([]float64{1}),
		"lag of the same": Lag1([]float64{2, 2, 2}), "median of nothing": Median(nil), "spread of nothing": Spread(nil),
		"quantile past the end": Quantile([]float64{1}, 1.1), "quantile of no number": Quantile([]float64{1, nan}, 0.5),
		"limit of no trial": UpperLimit(0, 0, 0.9), "limit past all": LowerLimit(3, 2, 0.9), "full confidence": UpperLimit(1, 2, 1),
		"score of nothing": LogScore(nil, 1, 0), "score without width": LogScore([]float64{1, 1}, 1, 0), "negative sd": LogScore([]float64{1, 2}, 1, -1),
		"position in nothing": Position(nil, 1), "effect of a few": FirstOrder([]float64{1, 2}, []float64{1, 2}),
		"bandwidth of one": Bandwidth([]float64{1}), "correlation of one": RankCorrelation([]float64{1}, []float64{1}),
	} {
		if !math.IsNaN(v) {
			t.Errorf("%s: %g, want not a number", name, v)
		}
	}
	if Ranks([]float64{1, nan}) != nil {
		t.Error("ranks of what is no number")
	}
}

func TestRanksShareTies(t *testing.T) {
	if got := Ranks([]float64{5, 1, 5, 9, 5}); !slices.Equal(got, []float64{3, 1, 3, 5, 3}) {
		t.Errorf("ranks %v", got)
	}
	if below, equal := Rank([]float64{5, 1, 5, 9}, 5); below != 1 || equal != 2 {
		t.Errorf("rank of 5: %d below, %d equal", below, equal)
	}
}

func BenchmarkSortedQuantile(b *testing.B) {
	x := make([]float64, 512)
	for i := range x {
		x[i] = float64(i)
	}
	b.ReportAllocs()
	for b.Loop() {
		_ = SortedQuantile(x, 0.9)
	}
}

func BenchmarkDrivers(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	params := make([][]float64, 25)
	figure := make([]float64, 512)
	for j := range params {
		params[j] = make([]float64, 512)
		for i := range params[j] {
			params[j][i] = r.Float64()
			figure[i] += params[j][i]
		}
	}
	for b.Loop() {
		_ = Drivers(params, figure)
	}
}
