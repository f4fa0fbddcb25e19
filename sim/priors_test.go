package sim

import (
	"math"
	"testing"
)

func TestPriors(t *testing.T) {
	seen := map[string]bool{}
	for i, p := range Priors() {
		if seen[p.Name] || p.Source == "" || p.What == "" || p.Unit == "" {
			t.Errorf("prior %d %q: named twice, or without what, unit or source", i, p.Name)
		}
		seen[p.Name] = true
		if p.Shape != "normal" && p.Shape != "lognormal" && p.Shape != "uniform" {
			t.Errorf("%s: shape %q", p.Name, p.Shape)
		}
		last := math.Inf(-1)
		for u := 0.005; u < 1; u += 0.01 {
			v := p.Quantile(u)
			if v < last || v < p.Low || v > p.High || math.IsNaN(v) {
				t.Fatalf("%s: quantile %.3f is %g after %g, limits %g to %g", p.Name, u, v, last, p.Low, p.High)
			}
			last = v
		}
		if m := p.Quantile(0.5); math.Abs(m-p.Median) > 1e-9*(1+math.Abs(p.Median)) {
			t.Errorf("%s: median %g, quantile %g", p.Name, p.Median, m)
		}
	}
	if priors[pCharZone].Name != "char_zone" || priors[pFlameCore].Name != "flame_core" || priors[pLeaks].Name != "leaks" || priors[pVoidBurning].Name != "void_burning" {
		t.Error("priors.csv is not in the order of the constants")
	}
}
