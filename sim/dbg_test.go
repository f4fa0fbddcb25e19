package sim

import (
	"fmt"
	"math"
	"testing"
)

func TestDbg(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	fine, err := newSite(demo(), nodes{24, 4, 24})
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	ref := figures{}
	if err := b.run(fine, MedianParams(), shippedWidths.quarter(), tolerances{1e-8, 5}, 20); err != nil {
		t.Fatal(err)
	}
	ref = b.figures()
	fmt.Println(b.solver.Stats())
	cmp := func(name string, s *site, w widths, tol tolerances) {
		if err := b.run(s, MedianParams(), w, tol, 20); err != nil {
			t.Error(err)
			return
		}
		f := b.figures()
		fmt.Printf("%s %v\n", name, b.solver.Stats())
		for i := range f {
			if d := (f[i]/ref[i] - 1) * 100; math.Abs(d) > 0.1 {
				fmt.Printf("   %s %.2f%% (%.5g)", figureInfo[i].Key, d, f[i])
			}
		}
		fmt.Println()
	}
	cmp("shipped", s, shippedWidths, shippedTol)
	cmp("5e-4", s, shippedWidths, tolerances{5e-4, 240})
	cmp("1e-4", s, shippedWidths, tolerances{1e-4, 240})
	cmp("tight", s, shippedWidths, tolerances{1e-7, 10})
	cmp("tight quarter", s, shippedWidths.quarter(), tolerances{1e-7, 10})
	x, _ := newSite(demo(), nodes{8, 1, 6})
	cmp("8 walls quarter", x, shippedWidths.quarter(), tolerances{1e-7, 10})
	x, _ = newSite(demo(), nodes{4, 2, 6})
	cmp("4 walls 2 outers", x, shippedWidths.quarter(), tolerances{1e-7, 10})
}
