package sim

import (
	"fmt"
	"testing"
)

func TestDbg(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		t.Fatal(err)
	}
	rec := make([]float64, nFlows)
	for _, i := range []int{4, 6, 10, 15} {
		y := b.track.y[i]
		b.stageOne(b.track.t[i], y)
		for k := range rec {
			for j := range b.part.take {
				b.part.take[j], b.part.give[j] = 0, 0
			}
			b.part.give[k], b.part.take[k] = 1, 0
			b.stageTwo(y)
			give := 0.0
			for _, e := range b.dE {
				give += e
			}
			b.part.give[k], b.part.take[k] = 0, 1
			b.stageTwo(y)
			take := 0.0
			for _, e := range b.dE {
				take -= e
			}
			rec[k] = give
			if give == 0 {
				rec[k] = take
			}
		}
		fmt.Printf("t %.0f heatBurned %.0f unburned %.0f\n", b.track.t[i], b.heatBurned, b.unburned)
		for k, v := range rec {
			if v > 2 || v < -2 {
				fmt.Printf("  %s %.0f;", flowNames[k], v)
			}
		}
		fmt.Println()
		*b.part = *wholeShares()
	}
}
