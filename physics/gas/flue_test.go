package gas

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// fitQuartic is the least-squares quartic in √(T/1000) of relative error.
func fitQuartic(T, y []float64) (q quartic) {
	a, b := mat.NewDense(len(T), len(q), nil), mat.NewVecDense(len(T), nil)
	for i := range T {
		s, p := math.Sqrt(T[i]/1000), 1.0
		for j := range q {
			a.Set(i, j, p/y[i])
			p *= s
		}
		b.SetVec(i, 1)
	}
	var qr mat.QR
	qr.Factorize(a)
	var x mat.VecDense
	if err := qr.SolveVecTo(&x, false, b); err != nil {
		panic(err)
	}
	copy(q[:], x.RawVector().Data)
	return q
}

// airPoint is one line of testdata/air_lemmon_jacobsen.csv.
type airPoint struct {
	T, mu, k float64 // [K], [µPa s], [mW/m K]
	used     bool
}

func airPoints(t *testing.T) (out []airPoint) {
	f, err := os.Open("testdata/air_lemmon_jacobsen.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(r[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, airPoint{v[0], v[1], v[2], r[3] == "fit"})
	}
	return out
}

// The constants of the fits are what their points give.
func TestFitsAreReproduced(t *testing.T) {
	var T, mu, k []float64
	for _, p := range airPoints(t) {
		if p.used {
			T, mu, k = append(T, p.T), append(mu, p.mu), append(k, p.k)
		}
	}
	same := func(name string, T []float64, got, want quartic) {
		t.Helper()
		for _, x := range T {
			if g, w := got.at(x), want.at(x); math.Abs(g/w-1) > 2e-6 {
				t.Errorf("%s: the constants give %g at %g K, a new fit %g: %.7g", name, g, x, w, want)
				return
			}
		}
	}
	same("air viscosity", T, airViscosity, fitQuartic(T, mu))
	same("air conductivity", T, airConductivity, fitQuartic(T, k))

	flue := ReferenceFlue()
	T, mu, k = nil, nil, nil
	for x := 250.0; x <= 2000; x += 50 {
		T, mu, k = append(T, x), append(mu, 1e6*flue.Viscosity(x)), append(k, 1e3*flue.Conductivity(x))
	}
	same("flue viscosity", T, flueViscosity, fitQuartic(T, mu))
	same("flue conductivity", T, flueConductivity, fitQuartic(T, k))
	for i, x := range T {
		if e := ViscosityFlue(x)*1e6/mu[i] - 1; math.Abs(e) > 0.0005 {
			t.Errorf("flue viscosity is off by %.2g at %g K", e, x)
		}
		if e := ConductivityFlue(x)*1e3/k[i] - 1; math.Abs(e) > 0.0005 {
			t.Errorf("flue conductivity is off by %.2g at %g K", e, x)
		}
	}
}

// wood is dry wood of 50.3 % C, 6.1 % H, 43.2 % O with water, burned with
// lambda times the air it needs; moisture is on wet basis.
func woodFlue(lambda, moisture float64) Mix {
	c, h, o := 0.503/12.0107e-3, 0.061/1.00794e-3, 0.432/15.9994e-3
	need := c + h/4 - o/2
	m := Mix{N2: .780847, O2: .20946, Ar: .009293, CO2: .0004}.Times(lambda * need / .20946)
	m[O2] -= need
	m[CO2] += c
	m[H2O] += h/2 + moisture/(1-moisture)/18.01528e-3
	return m.Fractions()
}

// The quick forms keep the errors their comments state.
func TestQuickTransportErrors(t *testing.T) {
	ref := ReferenceFlue()
	real := woodFlue(1.5, 0.1)
	for i := range ref {
		if math.Abs(ref[i]-real[i]) > 0.002 {
			t.Errorf("reference flue gas: %v %g, wood gives %g", Species(i), ref[i], real[i])
		}
	}
	type span struct{ lo, hi float64 }
	widen := func(s *span, e float64) { s.lo, s.hi = min(s.lo, e), max(s.hi, e) }
	cold := span{math.Inf(1), math.Inf(-1)}
	hot, k, fast, fastK := cold, cold, cold, cold
	gasMu, gasK, gasFast, gasFastK := cold, cold, cold, cold
	for _, lambda := range []float64{1, 1.2, 1.5, 2, 3} {
		for _, w := range []float64{0, 0.1, 0.2, 0.3} {
			m := woodFlue(lambda, w)
			for T := 300.0; T <= 1800; T += 100 {
				mu, lam := m.Viscosity(T), m.Conductivity(T)
				if T >= 900 {
					widen(&hot, ViscosityFlue(T)/mu-1)
				} else {
					widen(&cold, ViscosityFlue(T)/mu-1)
				}
				widen(&k, ConductivityFlue(T)/lam-1)
				widen(&fast, m.FastViscosity(T)/mu-1)
				widen(&fastK, m.FastConductivity(T)/lam-1)
			}
		}
	}
	for _, m := range []Mix{
		{.46, 0, .005, .16, .13, .10, .12, .02},
		{.40, 0, .005, .20, .09, .18, .10, .025},
		{.50, 0, .006, .14, .12, .05, .18, .02},
	} {
		for T := 300.0; T <= 1800; T += 100 {
			mu, lam := m.Viscosity(T), m.Conductivity(T)
			widen(&gasMu, ViscosityFlue(T)/mu-1)
			widen(&gasK, lam/ConductivityFlue(T)-1)
			widen(&gasFast, m.FastViscosity(T)/mu-1)
			widen(&gasFastK, m.FastConductivity(T)/lam-1)
		}
	}
	for _, c := range []struct {
		name   string
		got    span
		lo, hi float64
	}{
		{"flue viscosity below 900 K", cold, -.05, .0705},
		{"flue viscosity above 900 K", hot, -.021, .021},
		{"flue conductivity", k, -.08, .08},
		{"fast viscosity of flue", fast, -.02, .02},
		{"fast conductivity of flue", fastK, -.012, .01},
		{"flue viscosity for wood gas", gasMu, .01, .06},
		{"conductivity of wood gas over flue", gasK, .15, .80},
		{"fast viscosity of wood gas", gasFast, -.03, .02},
		{"fast conductivity of wood gas", gasFastK, -.035, .02},
	} {
		t.Logf("%s: %+.2f to %+.2f %%", c.name, 100*c.got.lo, 100*c.got.hi)
		if c.got.lo < c.lo || c.got.hi > c.hi {
			t.Errorf("%s: %+.4f to %+.4f, stated %+.3f to %+.3f", c.name, c.got.lo, c.got.hi, c.lo, c.hi)
		}
	}
}

func BenchmarkViscosityFlue(b *testing.B) {
	T := 300.0
	for b.Loop() {
		sink = ViscosityFlue(T)
		T += 0.1
	}
}

func BenchmarkMixFastViscosity(b *testing.B) {
	m := ReferenceFlue()
	for b.Loop() {
		sink = m.FastViscosity(1234)
	}
}

func BenchmarkMixFastConductivity(b *testing.B) {
	m := ReferenceFlue()
	for b.Loop() {
		sink = m.FastConductivity(1234)
	}
}

func BenchmarkMixViscosity(b *testing.B) {
	m := ReferenceFlue()
	for b.Loop() {
		sink = m.Viscosity(1234)
	}
}
