package sim

import (
	"fmt"
	"testing"

	"toplit/firing"
	"toplit/stove"
)

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

func TestSmoke(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		t.Error(err)
	}
	fmt.Printf("%+v\n%+v\n", b.seen.m, b.solver.Stats())
	for i, tt := range b.track.t {
		y := b.track.y[i]
		b.stageOne(tt, y)
		b.stageTwo(y)
		fmt.Printf("%5.0f raw %5.1f char %5.1f lit %.2f u %.2f fl %.2f mp %6.3f ms %6.3f TB %4.0f T1 %4.0f T2 %4.0f TA %3.0f w %3.0f %3.0f out %3.0f base %3.0f top %3.0f pot %3.0f wat %3.0f m %.3f | P %5.0f burn %.2f tf %4.0f pb %4.0f ps %3.0f\n", tt, y[iRaw]*1e3, y[iChar]*1e3, y[iLit], y[iVel]*100, y[iFlame], y[iFlow]*1e3, y[iFlow+1]*1e3, y[iTBed], y[iTGas], y[iTFlame], y[iTAir], y[b.wall], y[b.wall+2], y[b.index.outer], y[b.base], y[b.top], y[b.pot], b.tBoil+y[b.water], y[b.mass], b.heatBurned, b.burn, b.tFlame, b.potBase, b.potSide)
	}
}
