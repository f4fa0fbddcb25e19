package sim

import (
	"toplit/firing"
	"toplit/stove"
)

// demo is the two-can pellet stove the tests of this room share (invented).
func demo() *firing.Firing {
	return &firing.Firing{
		Design: stove.Design{
			FuelCan:  stove.Can{Diameter: 0.1055, Height: 0.124, Wall: 0.25e-3, Metal: stove.Tinplate, Surface: stove.Melted},
			OuterCan: &stove.Can{Diameter: 0.1533, Height: 0.178, Wall: 0.25e-3, Metal: stove.Tinplate, Surface: stove.Melted, OpenBase: true},
			Standoff: 0.03,
			Rows: []stove.Row{
				{Name: "primary", On: stove.FuelBase, Count: 12, Hole: stove.Hole{Shape: stove.Round, Width: 0.0055}},
				{Name: "secondary", On: stove.FuelBody, Count: 24, Height: 0.114, Hole: stove.Hole{Shape: stove.Round, Width: 0.006}},
				{Name: "inlet", On: stove.OuterBody, Count: 12, Height: 0.015, Hole: stove.Hole{Shape: stove.Round, Width: 0.012}},
			},
			Ring:  &stove.Ring{Bore: 0.066, Wall: 0.3e-3},
			Stand: &stove.Stand{Diameter: 0.105, Height: 0.072, Closed: true, Wall: 0.25e-3, Gap: 0.012},
		},
		Conditions: firing.Conditions{
			Fuel:     firing.Fuel{Species: "softwood pellets"},
			Charge:   firing.Charge{Volume: 236.588e-6},
			Starter:  firing.Starter{Kind: "alcohol", Mass: 0.010},
			Air:      firing.Air{Temperature: 288.15, Pressure: 101325, Humidity: 0.6, Wind: 0.3},
			Pot:      &firing.Pot{Mass: 0.2, Metal: stove.Stainless, Diameter: 0.128, Height: 0.09, Lid: true},
			Water:    firing.Water{Mass: 0.473, Temperature: 288.15},
			Schedule: []firing.Action{{Do: firing.PotOn, At: 300}},
		},
	}
}
