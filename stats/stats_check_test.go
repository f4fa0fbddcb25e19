package stats

import (
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"toplit/internal/outside"
)

// data reads a sample of testdata: numbers between blanks, # before a comment.
func data(t testing.TB, name string) []float64 {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	var x []float64
	for _, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		for _, f := range strings.Fields(line) {
			v, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			x = append(x, v)
		}
	}
	return x
}

// pairs is NIST's NumAcc construction: one middle value, then 500 times a low
// and a high one.
func pairs(middle, low, high float64) []float64 {
	x := []float64{middle}
	for range 500 {
		x = append(x, low, high)
	}
	return x
}

func TestCheckSummary(t *testing.T) {
	// Values as certified, with the place of their last digit.
	for _, c := range []struct {
		name               string
		x                  []float64
		mean, s, r         float64
		meanAt, sAt, rAt   float64
		numbersAreDecimals bool
	}{
		{"Mavro", data(t, "mavro"), 2.00185600000000, 0.000429123454003053, 0.937989183438248, 1e-14, 1e-18, 1e-15, true},
		{"Michelso", data(t, "michelso"), 299.852400000000, 0.0790105478190518, 0.535199668621283, 1e-12, 1e-16, 1e-15, true},
		{"NumAcc4", pairs(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, 0, 0, 0, true},
		{"NumAcc3", pairs(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 0, 0, 0, true},
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, -0.5, 0, 0, 0, false},
		{"NumAcc2", pairs(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, 0, 0, 0, true},
		{"Lew", data(t, "lew"), -177.435000000000, 277.332168044316, -0.307304800605679, 1e-12, 1e-12, 1e-15, false},
		{"Lottery", data(t, "lottery"), 518.958715596330, 291.699727470969, -0.120948622967393, 1e-12, 1e-12, 1e-15, false},
	} {
		// Decimal data cannot be held in binary: each value is off by up to half
		// a unit in its last place, which moves the mean and s by as much and r
		// by up to four times that over s. On top comes the rounding of the
		// result itself, one unit in its last place.
		off := 0.0
		if c.numbersAreDecimals {
			for _, v := range c.x {
				off = max(off, ulp(v)/2)
			}
		}
		source := "NIST StRD, " + c.name + ".dat, certified"
		outside.Check(t,
			outside.Row{Law: "statistics", Name: c.name + " mean", Source: source, Unit: "1", Published: c.mean, Ours: Mean(c.x), Tol: c.meanAt + off + ulp(c.mean)},
			outside.Row{Law: "statistics", Name: c.name + " standard deviation", Source: source, Unit: "1", Published: c.s, Ours: SD(c.x), Tol: c.sAt + off + ulp(c.s)},
			outside.Row{Law: "statistics", Name: c.name + " lag-1 correlation", Source: source, Unit: "1", Published: c.r, Ours: Lag1(c.x), Tol: c.rAt + 4*off/c.s + 4*ulp(c.r)},
		)
	}
}

func ulp(v float64) float64 { return math.Nextafter(math.Abs(v), math.Inf(1)) - math.Abs(v) }

func TestCheckQuantiles(t *testing.T) {
	precip := data(t, "precip")
	wafers := []float64{95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682}
	const r = "R, summary(precip), as published in course notes"
	const scipy = "numpy quantile, method linear, precip of R"
	equal := make([]float64, len(precip))
	for i := range equal {
		equal[i] = 3
	}
	outside.Check(t,
		outside.Row{Law: "quantiles", Name: "silicon wafers 0.9", Source: "NIST/SEMATECH e-Handbook 7.2.6.2, R7", Unit: "1", Published: 95.1957, Ours: Quantile(wafers, 0.9), Tol: 5e-5},
		outside.Row{Law: "quantiles", Name: "precip lower quartile", Source: r, Unit: "in", Published: 29.38, Ours: Quantile(precip, 0.25), Tol: 0.01},
		outside.Row{Law: "quantiles", Name: "precip median", Source: r, Unit: "in", Published: 36.60, Ours: Median(precip), Tol: 0.005},
		outside.Row{Law: "quantiles", Name: "precip upper quartile", Source: r, Unit: "in", Published: 42.77, Ours: Quantile(precip, 0.75), Tol: 0.01},
		outside.Row{Law: "quantiles", Name: "precip 0.1", Source: scipy, Unit: "in", Published: 14.54, Ours: Quantile(precip, 0.1), Tol: 1e-9},
		outside.Row{Law: "quantiles", Name: "precip 0.9, equal weights", Source: scipy, Unit: "in", Published: 49.11, Ours: WeightedQuantile(precip, equal, 0.9), Tol: 1e-9},
		outside.Row{Law: "quantiles", Name: "spread of 1 to 9", Source: "R, mad(c(1:9)), help page of mad", Unit: "1", Published: 2.9652, Ours: Spread([]float64{1, 2, 3, 4, 5, 6, 7, 8, 9}), Tol: 5e-5},
		outside.Row{Law: "quantiles", Name: "precip spread", Source: "scipy 1.10.1 median_abs_deviation, scale normal", Unit: "in", Published: 9.562784309361135, Ours: Spread(precip), Tol: 1e-12},
	)
}

func TestCheckBinomialLimits(t *testing.T) {
	const newcombe = "Newcombe 1998, Stat. Med. 17:857, table I, Clopper-Pearson"
	const nist = "NIST/SEMATECH e-Handbook 7.2.4.1, exact 90 % interval"
	const conover = "Conover 1999, table of binomial limits"
	const scipy = "scipy 1.10.1, beta.ppf"
	for _, c := range []struct {
		k, n         int
		confidence   float64
		lower, upper float64
		tol          float64
		source       string
	}{
		{81, 263, 0.975, 0.2527, 0.3676, 5e-5, newcombe},
		{15, 148, 0.975, 0.0578, 0.1617, 5e-5, newcombe},
		{0, 20, 0.975, 0, 0.1684, 5e-5, newcombe},
		{1, 29, 0.975, 0.0009, 0.1776, 5e-5, newcombe},
		{4, 20, 0.95, 0.071354, 0.401029, 1e-6, nist}, // the handbook's root search is good to its last digit only
		{5, 25, 0.975, 0.068, 0.407, 5e-4, conover},
		{7, 10, 0.95, 0.3933757838945877, 0.9127355660858496, 1e-12, scipy},
		{195, 200, 0.99, 0.9357759520614254, 0.9935604914354421, 1e-12, scipy},
	} {
		name := func(side string) string { return fmt.Sprintf("%s limit of %d in %d", side, c.k, c.n) }
		outside.Check(t, outside.Row{Law: "binomial limits", Name: name("upper"), Source: c.source, Unit: "1", Published: c.upper, Ours: UpperLimit(c.k, c.n, c.confidence), Tol: c.tol})
		if c.k > 0 {
			outside.Check(t, outside.Row{Law: "binomial limits", Name: name("lower"), Source: c.source, Unit: "1", Published: c.lower, Ours: LowerLimit(c.k, c.n, c.confidence), Tol: c.tol})
		}
	}
}

func TestCheckForecasts(t *testing.T) {
	precip := data(t, "precip")
	const scipy = "scipy 1.10.1 gaussian_kde, bandwidth of bw.nrd, precip of R"
	outside.Check(t,
		outside.Row{Law: "forecast score", Name: "bandwidth of precip", Source: "R, bw.nrd(precip), as published in course notes", Unit: "in", Published: 4.531962, Ours: Bandwidth(precip), Tol: 5e-7},
		outside.Row{Law: "forecast score", Name: "log score in the middle", Source: scipy, Unit: "nat", Published: 3.3943488217263815, Ours: LogScore(precip, 36.6, 0), Tol: 1e-12},
		outside.Row{Law: "forecast score", Name: "log score on the shoulder", Source: scipy, Unit: "nat", Published: 4.536233074733711, Ours: LogScore(precip, 10, 0), Tol: 1e-12},
		outside.Row{Law: "forecast score", Name: "log score at the end", Source: scipy, Unit: "nat", Published: 6.184563650459297, Ours: LogScore(precip, 67, 0), Tol: 1e-12},
		outside.Row{Law: "forecast score", Name: "log score of a far miss", Source: scipy, Unit: "nat", Published: 19.556602641676374, Ours: LogScore(precip, 90, 0), Tol: 1e-12},
		outside.Row{Law: "forecast score", Name: "log score in the middle, measured to 5", Source: scipy, Unit: "nat", Published: 3.5255630677201593, Ours: LogScore(precip, 36.6, 5), Tol: 1e-12},
		outside.Row{Law: "forecast score", Name: "log score of a far miss, measured to 5", Source: scipy, Unit: "nat", Published: 12.857879171077803, Ours: LogScore(precip, 90, 5), Tol: 1e-12},
	)
}

// sample is a Korobov lattice of n points in d dimensions, evenly spread so that
// the sums converge fast.
func sample(n, d int) [][]float64 {
	x := make([][]float64, d)
	g := 1
	for j := range x {
		x[j] = make([]float64, n)
		for i := range n {
			x[j][i] = float64((i*g)%n)/float64(n) + 0.5/float64(n)
		}
		g = g * 5801 % n
	}
	return x
}

func TestCheckSensitivity(t *testing.T) {
	// Ishigami & Homma 1990 with a = 7, b = 0.1; indices in closed form.
	const n = 1 << 14
	u := sample(n, 3)
	y := make([]float64, n)
	for i := range y {
		x1, x2, x3 := math.Pi*(2*u[0][i]-1), math.Pi*(2*u[1][i]-1), math.Pi*(2*u[2][i]-1)
		y[i] = math.Sin(x1) + 7*math.Pow(math.Sin(x2), 2) + 0.1*math.Pow(x3, 4)*math.Sin(x1)
	}
	// The estimator's own error: √(S/n) and what lies beyond the sixth cosine.
	const tol = 0.01
	const source = "Ishigami & Homma 1990, a 7, b 0.1, closed form (Saltelli et al. 2008)"
	// Sobol's g-function with a = 0, 1, 9: S_i = V_i/V, V_i = 1/(3(1+a_i)²).
	g := make([]float64, n)
	for i := range g {
		g[i] = 1
		for j, a := range []float64{0, 1, 9} {
			g[i] *= (math.Abs(4*u[j][i]-2) + a) / (1 + a)
		}
	}
	v := func(a float64) float64 { return 1 / (3 * (1 + a) * (1 + a)) }
	all := (1+v(0))*(1+v(1))*(1+v(9)) - 1
	const sobol = "Sobol g-function, closed form (Saltelli & Sobol 1995)"
	outside.Check(t,
		outside.Row{Law: "sensitivity", Name: "Ishigami first", Source: source, Unit: "1", Published: 0.3139, Ours: FirstOrder(u[0], y), Tol: tol},
		outside.Row{Law: "sensitivity", Name: "Ishigami second", Source: source, Unit: "1", Published: 0.4424, Ours: FirstOrder(u[1], y), Tol: tol},
		outside.Row{Law: "sensitivity", Name: "Ishigami third", Source: source, Unit: "1", Published: 0, Ours: FirstOrder(u[2], y), Tol: tol},
		outside.Row{Law: "sensitivity", Name: "g-function, a 0", Source: sobol, Unit: "1", Published: v(0) / all, Ours: FirstOrder(u[0], g), Tol: 2 * tol},
		outside.Row{Law: "sensitivity", Name: "g-function, a 1", Source: sobol, Unit: "1", Published: v(1) / all, Ours: FirstOrder(u[1], g), Tol: tol},
		outside.Row{Law: "sensitivity", Name: "g-function, a 9", Source: sobol, Unit: "1", Published: v(9) / all, Ours: FirstOrder(u[2], g), Tol: tol},
		outside.Row{Law: "sensitivity", Name: "rank correlation with ties", Source: "scipy, spearmanr documentation example", Unit: "1", Published: 0.8207826816681233, Ours: RankCorrelation([]float64{1, 2, 3, 4, 5}, []float64{5, 6, 7, 8, 7}), Tol: 1e-15},
	)
}
