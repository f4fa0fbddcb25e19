package draft_test

import (
	"fmt"

	"toplit/physics/draft"
)

// Forty 6 mm secondary holes in tinplate at one pascal of cold air.
func ExampleNewHoles() {
	holes, err := draft.NewHoles(draft.Holes{Count: 40, Diameter: 6e-3, Thickness: 0.25e-3})
	if err != nil {
		fmt.Println(err)
		return
	}
	m := 1e-3 // [kg/s]
	dp, _ := holes.Drop(m, 1.2, 1.82e-5)
	fmt.Printf("%.2f g/s takes %.2f Pa, Cd %.2f at Re %.0f\n", m*1e3, dp, holes.Cd(290), m*6e-3/holes.Area()/1.82e-5)
	// Output: 1.00 g/s takes 0.74 Pa, Cd 0.67 at Re 291
}

// Air through a row of holes into a warm column and out of a ring.
func ExampleNetwork() {
	holes, err := draft.NewHoles(draft.Holes{Count: 24, Diameter: 6e-3, Thickness: 0.25e-3})
	if err != nil {
		fmt.Println(err)
		return
	}
	ring, err := draft.NewHoles(draft.Holes{Count: 1, Diameter: 60e-3, Thickness: 0.3e-3, Before: 0.36})
	if err != nil {
		fmt.Println(err)
		return
	}
	along := [draft.MaxLoops]float64{1}
	n := draft.Network{Loops: 1, Passages: []draft.Passage{
		{Element: holes, Rho: 1.2, Mu: 1.82e-5, Loop: along},
		{Element: ring, Rho: 0.31, Mu: 4.5e-5, Head: draft.Head(0.12, 1.2, 0.31), Made: 0.35e-3, Loop: along},
	}}
	x := []float64{0}
	if _, err := n.Solve(x); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g/s of air\n", x[0]*1e3)
	// Output: 0.60 g/s of air
}
