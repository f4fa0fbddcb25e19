package size_test

import (
	"fmt"

	"toplit/learn/size"
)

// How much hole a fire of 1.5 kW wants by the trade's formula, and how many
// holes of 5 mm that is.
func ExampleHoleArea() {
	const cold = 1.2 // kg/m3
	air := size.AirFor(1500, 1.5)
	area := size.HoleArea(air, 0.8, cold)
	fmt.Printf("%.2f g/s of air, %.1f cm² of holes\n", air*1e3, area*1e4)
	fmt.Printf("12 holes of 5 mm are %.1f %% of a bore of 100 mm\n", 100*size.Fraction(12, 0.005, 0.1))
	// Output:
	// 0.77 g/s of air, 9.3 cm² of holes
	// 12 holes of 5 mm are 3.0 % of a bore of 100 mm
}

func ExampleRules() {
	for _, r := range size.Rules() {
		if r.Name == "ring/bore" {
			fmt.Printf("%s: %.2f to %.2f\n", r.What, r.Low, r.High)
		}
	}
	// Output:
	// bore of the concentrator ring over the fuel can's bore: 0.60 to 0.75
}
