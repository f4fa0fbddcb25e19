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
	fine, err := newSite(demo(), nodes{12, 4, 24})
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
	cmp("fine nodes, shipped widths tight", fine, shippedWidths, tolerances{1e-7, 10})
	cmp("fine nodes, quarter widths loose tol", fine, shippedWidths.quarter(), tolerances{3e-4, 60})
	cmp("shipped nodes, quarter tight", s, shippedWidths.quarter(), tolerances{1e-7, 10})
	cmp("shipped", s, shippedWidths, shippedTol)
	cmp("shipped 1e-3", s, shippedWidths, tolerances{1e-3, 100})
	cmp("shipped 1e-4", s, shippedWidths, tolerances{1e-4, 60})
	for _, n := range []nodes{{6, 1, 6}, {3, 4, 6}, {3, 1, 12}} {
		x, _ := newSite(demo(), n)
		cmp(fmt.Sprint(n), x, shippedWidths.quarter(), tolerances{1e-6, 10})
	}
}
