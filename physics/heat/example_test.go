package heat_test

import (
	"fmt"

	"toplit/physics/heat"
)

// A bare can of 100 x 130 mm at 400 °C in still air of 20 °C, bright and after
// its tin has gone.
func Example_wall() {
	const t, air = 673.15, 293.15
	h := heat.WallInWind(heat.AirFilm(0.5*(t+air), 101325), 0.13, 0.10, t-air, 0)
	area := 3.14159 * 0.10 * 0.13
	fmt.Printf("convection %.0f W\n", h*(t-air)*area)
	for _, state := range []string{"bright", "oxidised"} {
		s, err := heat.SurfaceOf(state, "tinplate")
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("radiation %s %.0f W\n", state, heat.Small(s.Emissivity, t, air)*area)
	}
	// Output:
	// convection 141 W
	// radiation bright 29 W
	// radiation oxidised 367 W
}

// Dry duff under half a kilowatt per square metre for ten minutes passes the
// temperature at which needles start to smoulder less 40 K.
func ExampleSteadyFlux() {
	g, err := heat.GroundOf("dry peat")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f °C\n", 15+heat.SteadyFlux(g.K, g.C, 500, 600))
	// Output: 153 °C
}
