package sim

import (
	"fmt"
	"math"
	"sort"
	"testing"

	"math/rand/v2"
)

func sampleRun(t *testing.T, name string, s *site, n int) {
	b := new(burner)
	cols := map[string][]float64{}
	steps := 0
	sob := rand.New(rand.NewPCG(1, 2))
	u := make([]float64, nPriors)
	for i := range n {
		for j := range u {
			u[j] = sob.Float64()
		}
		if err := b.run(s, draw(u), shippedWidths, shippedTol, 60); err != nil {
			t.Errorf("%d: %v", i, err)
			continue
		}
		steps += b.solver.Stats().Steps + b.solver.Stats().Rejected
		m := b.seen.m
		add := func(k string, v float64) { cols[k] = append(cols[k], v) }
		add("jets", m.JetsLit)
		add("front", m.FrontAtGrate)
		add("yellow", m.YellowGone)
		add("out", m.FlameOut)
		add("blue", m.FlameOut-m.YellowGone)
		add("glow", m.GlowEnd)
		add("boil", m.Boil-m.PotOn)
		l := b.ledger(b.track.y[0], b.solver.Y())
		add("Egap", math.Abs(l.EnergyGap)*1e6)
		add("rest%", l.Rest/l.Fuel*100)
	}
	fmt.Println(name, "steps/run", steps/n)
	for _, k := range []string{"jets", "front", "yellow", "out", "blue", "glow", "boil", "Egap", "rest%"} {
		v := cols[k]
		n := 0
		var w []float64
		for _, x := range v {
			if math.IsNaN(x) {
				n++
			} else {
				w = append(w, x)
			}
		}
		sort.Float64s(w)
		if len(w) == 0 {
			fmt.Println(k, "never")
			continue
		}
		q := func(p float64) float64 { return w[int(p*float64(len(w)-1))] }
		fmt.Printf("%-8s p10 %7.1f p25 %7.1f p50 %7.1f p75 %7.1f p90 %7.1f never %d\n", k, q(.1), q(.25), q(.5), q(.75), q(.9), n)
	}
}

func TestSample(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	sampleRun(t, "demo", s, 128)
}
