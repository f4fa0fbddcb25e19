package bed

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/numeric"
	"toplit/physics/fuel"
)

func TestSoftCorners(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 10).Draw(t, "a")
		b := rapid.Float64Range(0, 10).Draw(t, "b")
		w := rapid.Float64Range(0.01, 1).Draw(t, "w")
		m := numeric.SoftMin(a, b, w)
		if m > min(a, b) || m < 0 || m < min(a, b)-w*(a+b)/8-1e-12 {
			t.Fatalf("numeric.SoftMin(%g, %g, %g) = %g", a, b, w, m)
		}
		p := numeric.SoftPlus(a-b, w)
		if p < max(a-b, 0)-1e-12 || p > max(a-b, 0)+w/4+1e-12 {
			t.Fatalf("numeric.SoftPlus(%g, %g) = %g", a-b, w, p)
		}
	})
}

// slopes checks that f has no corner on [lo, hi]: one-sided slopes agree to the
// size of the step times the largest curvature seen.
func slopes(t *testing.T, name string, f func(float64) float64, lo, hi float64) {
	t.Helper()
	const n = 4000
	h := (hi - lo) / n
	largest, jump, at := 0.0, 0.0, 0.0
	for i := 2; i < n-1; i++ {
		x := lo + float64(i)*h
		left, right := (f(x)-f(x-h))/h, (f(x+h)-f(x))/h
		largest = max(largest, math.Abs(left))
		if j := math.Abs(right - left); j > jump {
			jump, at = j, x
		}
	}
	if jump > 0.05*largest+1e-12 {
		t.Errorf("%s: slope jumps by %g of %g at %g", name, jump, largest, at)
	}
}

func TestNoCorners(t *testing.T) {
	slopes(t, "front by air", func(G float64) float64 {
		return Front(FrontIn{Air: G, Layer: 1100, Fuel: 293, Moisture: 0.1}).Flux
	}, 1e-4, 0.4)
	slopes(t, "front by layer temperature", func(T float64) float64 {
		return Front(FrontIn{Air: 0.03, Layer: T, Fuel: 293, Moisture: 0.1}).Flux
	}, 400, 1400)
	slopes(t, "yield by velocity", func(u float64) float64 {
		return Yield(YieldIn{Velocity: u, Size: 10e-3, Density: 450, Moisture: 0.1})
	}, 0, 0.3)
	slopes(t, "lighting by share", func(s float64) float64 {
		return Lighting(LightIn{Share: s, Cover: 0.6, Heat: 5e4, Moisture: 0.1, Layer: 2, Fuel: 293, Bore: 0.1})
	}, 0, 1)
	slopes(t, "lighting by heat", func(q float64) float64 {
		return Lighting(LightIn{Share: 0.2, Cover: 0.6, Heat: q, Moisture: 0.1, Layer: 2, Fuel: 293, Bore: 0.1})
	}, 0, 5e4)
	slopes(t, "char by flux", func(G float64) float64 {
		return Char(CharIn{Flux: G, Oxygen: 0.21, Temp: 900, Pressure: 101325, Depth: 0.03, Size: 6e-3, Void: 0.5}).Carbon
	}, 1e-4, 0.1)
	f := NewFeed(fuel.Catalogue()[0].Analysis, fuel.Analysis{})
	for name, get := range map[string]func(GasOut) float64{"CO": func(g GasOut) float64 { return g.Gas[3] }, "heat": func(g GasOut) float64 { return g.Heat }, "tar": func(g GasOut) float64 { return g.Tar }, "carbon": func(g GasOut) float64 { return g.Carbon }} {
		slopes(t, name+" by oxygen", func(x float64) float64 {
			return get(f.Gas(GasIn{Moisture: 0.02, Oxygen: x, Char: 0.15, Tar: 0.3, Methane: 0.03}))
		}, 0, 60)
	}
}

func TestFrontSigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := FrontIn{
			Air:      rapid.Float64Range(0, 0.5).Draw(t, "air"),
			Moisture: rapid.Float64Range(0, 1).Draw(t, "X"),
			Layer:    rapid.Float64Range(290, 1500).Draw(t, "layer"),
			Fuel:     rapid.Float64Range(250, 350).Draw(t, "fuel"),
			Loss:     rapid.Float64Range(0, 2e4).Draw(t, "loss"),
		}
		out := Front(in)
		if !(out.Flux >= 0) || out.Flux > out.ByOxygen || out.Flux > out.ByHeat {
			t.Fatalf("%+v", out)
		}
		wetter, hotter := in, in
		wetter.Moisture += 0.1
		hotter.Layer += 50
		if Front(wetter).Flux > out.Flux*(1+1e-9) {
			t.Fatalf("wetter fuel burns faster: %g over %g", Front(wetter).Flux, out.Flux)
		}
		if Front(hotter).Flux < out.Flux*(1-1e-9) {
			t.Fatalf("a hotter layer burns slower: %g under %g", Front(hotter).Flux, out.Flux)
		}
	})
	// On the branch of natural draft more air is more fuel, in proportion.
	a, b := Front(FrontIn{Air: 0.02, Layer: 1200, Fuel: 293}), Front(FrontIn{Air: 0.04, Layer: 1200, Fuel: 293})
	if a.Capped() || b.Capped() || math.Abs(b.Flux-2*a.Flux) > 1e-12 {
		t.Errorf("twice the air is not twice the fuel: %+v, %+v", a, b)
	}
	if f := Front(FrontIn{Air: -0.1, Layer: 1200, Fuel: 293}); f.Flux != 0 {
		t.Errorf("reverse flow burns %g", f.Flux)
	}
}

func TestYieldSigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := YieldIn{
			Velocity: rapid.Float64Range(-0.3, 0.3).Draw(t, "u"),
			Size:     rapid.Float64Range(0, 0.05).Draw(t, "d"),
			Density:  rapid.Float64Range(0, 1300).Draw(t, "rho"),
			Moisture: rapid.Float64Range(0, 1).Draw(t, "X"),
			Charred:  rapid.Float64Range(0, 1).Draw(t, "charred"),
			Offset:   rapid.Float64Range(-0.12, 0.12).Draw(t, "offset"),
		}
		y := Yield(in)
		if !(y >= yieldFloor) || y > 1 || (in.Charred == 0 && y > yieldTop) {
			t.Fatalf("yield %g", y)
		}
		faster, wetter, larger := in, in, in
		faster.Velocity = math.Abs(in.Velocity) + 0.01
		wetter.Moisture += 0.05
		larger.Size = max(in.Size, 1e-3) * 1.2
		in.Size = max(in.Size, 1e-3)
		if in.Charred < 1 && Yield(faster) > y+1e-12 && in.Size == larger.Size/1.2 && in.Size > 1e-3 {
			t.Fatalf("faster air leaves more char: %g over %g", Yield(faster), y)
		}
		if Yield(wetter) > Yield(in)+1e-12 || Yield(larger) < Yield(in)-1e-12 {
			t.Fatalf("signs: %g, wetter %g, larger %g", Yield(in), Yield(wetter), Yield(larger))
		}
	})
	if y := Yield(YieldIn{}); math.Abs(y-0.30) > 0.01 {
		t.Errorf("at rest %g, ceiling 0.30", y)
	}
}

func TestLayer(t *testing.T) {
	f, _ := fuel.ByName("softwood pellets")
	l := NewLayer(f, 0.1, 0.1)
	a, b := l.Coefficients(1.81e-5, 1.2)
	if !(a > 0 && b > 0) {
		t.Fatalf("no resistance: %g, %g", a, b)
	}
	twice := l
	twice.Depth *= 2
	if a2, b2 := twice.Coefficients(1.81e-5, 1.2); math.Abs(a2/a-2) > 1e-12 || math.Abs(b2/b-2) > 1e-12 {
		t.Error("twice the depth is not twice the resistance")
	}
	// Twice the density at the same velocity and viscosity: by mass flow the
	// viscous coefficient halves and the inertial one too.
	if a2, b2 := l.Coefficients(1.81e-5, 2.4); math.Abs(a2/a-0.5) > 1e-12 || math.Abs(b2/b-0.5) > 1e-12 {
		t.Error("density does not scale as it must")
	}
	for _, empty := range []Layer{{}, {Depth: 1}, {Depth: 1, Area: 1}} {
		if a, b := empty.Coefficients(1.8e-5, 1.2); a != 0 || b != 0 {
			t.Errorf("an empty layer resists: %g, %g", a, b)
		}
	}
	// The hot char of a bed takes 12 to 16 times the draft of the cold raw bed
	// it lies on, per height: viscosity and the gas made on the way.
	c := CharLayer(l, 0.1)
	ca, cb := c.Coefficients(4.2e-5, 0.33)
	m := 0.02 * 1.2 * l.Area
	ratio := (ca*1.7*m + cb*1.7*1.7*m*m) / (a*m + b*m*m) / CharHeight
	if ratio < 8 || ratio > 20 {
		t.Errorf("hot char over cold raw bed per height: %g", ratio)
	}
	for _, fam := range []fuel.Family{fuel.Pellets, fuel.Chips, fuel.Sticks, fuel.Lumps, fuel.Husk, fuel.Shells} {
		p := PackingOf(fam)
		if p.Family != fam || p.Viscous <= 0 || p.Inertial <= 0 || p.Spread < 1 || p.Source == "" {
			t.Errorf("%s: %+v", fam, p)
		}
	}
	if p := PackingOf("marbles"); p.Viscous != 150 {
		t.Errorf("unknown family: %+v", p)
	}
}

func TestStarters(t *testing.T) {
	for _, s := range Starters() {
		if s.Kind == "" || s.LHV <= 0 || s.Flux <= 0 || s.Cover <= 0 || s.Share <= 0 || s.Share > 1 || s.Source == "" {
			t.Errorf("incomplete: %+v", s)
		}
		if (s.Refused == "") != (s.Note != "") {
			t.Errorf("%s: a starter has either a note or a reason to refuse it", s.Kind)
		}
	}
	for _, kind := range []string{"petrol", "gasoline", "Petrol", "white gas"} {
		if _, err := StarterByName(kind); err == nil || !strings.Contains(err.Error(), "refused") {
			t.Errorf("%s: %v", kind, err)
		}
	}
	if _, err := StarterByName("kindlings"); err == nil || !strings.Contains(err.Error(), `"kindling"`) {
		t.Errorf("no hint: %v", err)
	}
	s, err := StarterByName("alcohol")
	if err != nil {
		t.Fatal(err)
	}
	A := 7.85e-3
	m := s.Dose(A)
	if c := s.Covered(m, A); math.Abs(c-1) > 1e-12 {
		t.Errorf("the dose covers %g", c)
	}
	if half := s.Duration(m/2, A); math.Abs(half-s.Duration(m, A)) > 1e-9 {
		t.Error("half a dose must cover half the top for the same time")
	}
	if s.Duration(2*m, A) <= s.Duration(m, A) || s.Duration(0, A) != 0 || s.Covered(1, 0) != 0 {
		t.Error("durations")
	}
}

// burn lights a top for an hour and gives the share alight.
func burn(f fuel.Fuel, doses, M float64) float64 {
	s, _ := StarterByName("alcohol")
	const A, bore = 7.85e-3, 0.1
	m := doses * s.Dose(A)
	in := LightIn{Cover: s.Covered(m, A), Moisture: fuel.DryBasis(M), Layer: TopLayer(f), Fuel: 293, Bore: bore}
	for i := range 7200 {
		in.Heat = 0
		if float64(i)*0.5 < s.Duration(m, A) {
			in.Heat = s.Heat()
		}
		in.Share += 0.5 * Lighting(in)
		if in.Share < 0 || in.Share > 1 {
			return math.NaN()
		}
	}
	return in.Share
}

func TestLighting(t *testing.T) {
	f, _ := fuel.ByName("softwood pellets")
	if s := burn(f, 1, 0.08); s < 0.99 {
		t.Errorf("dry pellets with a dose: %g alight", s)
	}
	if s := burn(f, 0, 0.08); s != 0 {
		t.Errorf("without a starter %g alight", s)
	}
	if s := burn(f, 1, 0.35); !(s < 0.01) {
		t.Errorf("wet pellets: %g alight", s)
	}
	if s := burn(f, 0.2, 0.08); s < 0.9 { // a patch that spreads
		t.Errorf("a small dose on dry pellets: %g alight after an hour", s)
	}
	if d := Lighting(LightIn{}); d != 0 {
		t.Errorf("nothing lights at %g", d)
	}
}

func TestCharLimits(t *testing.T) {
	in := CharIn{Flux: 0.03, Oxygen: 0.2095, Temp: 1200, Pressure: 101325, Depth: 0.05, Size: 6e-3, Void: 0.5, Blend: 0.5}
	out := Char(in)
	if out.Share < 0.9999 {
		t.Errorf("a hot deep layer lets oxygen through: %g", out.Share)
	}
	if d := out.CO/2 + out.CO2 - out.Oxygen; math.Abs(d) > 1e-12 {
		t.Errorf("oxygen does not close by %g", d)
	}
	if d := out.CO + out.CO2 - out.Carbon; math.Abs(d) > 1e-12 {
		t.Errorf("carbon does not close by %g", d)
	}
	cold := in
	cold.Temp = 450
	if c := Char(cold); c.Carbon > 0.01*out.Carbon {
		t.Errorf("char burns at 450 K with %g", c.Carbon)
	}
	for _, none := range []func(*CharIn){func(c *CharIn) { c.Flux = 0 }, func(c *CharIn) { c.Flux = -1 }, func(c *CharIn) { c.Depth = 0 }, func(c *CharIn) { c.Oxygen = 0 }, func(c *CharIn) { *c = CharIn{} }} {
		c := in
		none(&c)
		if o := Char(c); o.Carbon != 0 || math.IsNaN(o.Share) || math.IsNaN(o.Again) {
			t.Errorf("%+v burns: %+v", c, o)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		T := rapid.Float64Range(0, 2500).Draw(t, "T")
		b := rapid.Float64Range(-1, 2).Draw(t, "blend")
		if r := CarbonRatio(T, b); r < 0 || math.IsNaN(r) || CarbonPerOxygen(r) < 1 || CarbonPerOxygen(r) > 2 {
			t.Fatalf("ratio %g", r)
		}
	})
}

// A 100 mm can of pellets with 3 cm/s of air through it.
func ExampleFront() {
	f, _ := fuel.ByName("softwood pellets")
	X := fuel.DryBasis(f.Moisture)
	out := Front(FrontIn{Air: 0.036, Moisture: X, Layer: 1100, Fuel: 293})
	y := Yield(YieldIn{Velocity: 0.03, Size: f.Size, Density: f.Density, Moisture: X})
	fmt.Printf("%.1f g/min of dry fuel, front %.1f mm/min, char %.0f %%\n",
		out.Flux*7.854e-3*60e3, FrontSpeed(out.Flux, f.Bulk*(1-f.Moisture))*60e3, 100*y)
	// Output:
	// 10.7 g/min of dry fuel, front 2.2 mm/min, char 20 %
}

func ExampleStarterByName() {
	_, err := StarterByName("petrol")
	fmt.Println(err)
	// Output:
	// starter "petrol" is refused: its vapour is heavier than air, spreads along the ground and flashes back to the can it came from; it lights with a burst. Use alcohol soaked away from the stove, or kindling
}

func BenchmarkFront(b *testing.B) {
	for b.Loop() {
		Front(FrontIn{Air: 0.03, Layer: 1100, Fuel: 293, Moisture: 0.1})
	}
}

func BenchmarkChar(b *testing.B) {
	for b.Loop() {
		Char(CharIn{Flux: 0.03, Oxygen: 0.2095, Temp: 1200, Pressure: 101325, Depth: 0.05, Size: 6e-3, Void: 0.5, Blend: 0.5})
	}
}

func BenchmarkYield(b *testing.B) {
	for b.Loop() {
		Yield(YieldIn{Velocity: 0.03, Size: 6e-3, Density: 1200, Moisture: 0.1})
	}
}

func BenchmarkLighting(b *testing.B) {
	for b.Loop() {
		Lighting(LightIn{Share: 0.3, Cover: 1, Heat: 5e4, Moisture: 0.1, Layer: 2, Fuel: 293, Bore: 0.1})
	}
}
