package picture

import (
	"toplit/firing"
	"toplit/stove"
)

// Invented stoves, for the pictures and their tests only.

func can(d, h float64) stove.Can {
	return stove.Can{Diameter: d, Height: h, Wall: 0.2e-3, Metal: stove.Tinplate, Surface: stove.Melted}
}

func round(d float64) stove.Hole { return stove.Hole{Shape: stove.Round, Width: d} }

// twoCan is a two-can pellet stove with ring, closed stand and pot.
func twoCan() (stove.Design, firing.Conditions) {
	outer := can(157e-3, 178e-3)
	d := stove.Design{
		Name:     "Tea stove (invented)",
		FuelCan:  can(105e-3, 124e-3),
		OuterCan: &outer,
		Standoff: 53.8e-3,
		Rows: []stove.Row{
			{Name: "base holes", On: stove.FuelBase, Count: 12, Hole: round(4.5e-3), Circle: 60e-3},
			{Name: "secondary row", On: stove.FuelBody, Count: 24, Hole: round(6e-3), Height: 114e-3},
			{Name: "inlet row", On: stove.OuterBody, Count: 10, Hole: round(12e-3), Height: 18e-3},
		},
		Ring:  &stove.Ring{Bore: 66e-3, Wall: 0.5e-3, Metal: stove.MildSteel},
		Stand: &stove.Stand{Diameter: 118e-3, Height: 72e-3, Closed: true, Wall: 0.3e-3, Metal: stove.Tinplate, Gap: 12e-3},
		Plate: &stove.Plate{Material: "steel plate", Thickness: 3e-3, Diameter: 190e-3},
	}
	c := firing.Conditions{
		Fuel:   firing.Fuel{Species: "softwood pellets", Moisture: 0.068, BulkDensity: 640, Size: 6e-3, Length: 14e-3},
		Charge: firing.Charge{Mass: 158e-3},
		Pot:    &firing.Pot{Mass: 0.212, Metal: stove.MildSteel, Diameter: 128e-3, Height: 90e-3, Lid: true},
		Water:  firing.Water{Mass: 0.473, Temperature: 289},
		Ground: firing.Ground{Cover: "mineral soil"},
	}
	return d, c
}

// drinksCan is a single wall the size of a drinks can, with a pot straight on
// its rim.
func drinksCan() (stove.Design, firing.Conditions) {
	c := can(66e-3, 115e-3)
	c.Metal, c.Wall = stove.Aluminium, 0.1e-3
	d := stove.Design{
		Name: "Pocket stove (invented)", FuelCan: c, Standoff: 0, Lift: 15e-3,
		Rows: []stove.Row{
			{On: stove.FuelBody, Count: 8, Hole: round(5e-3), Height: 100e-3},
			{On: stove.FuelBase, Count: 7, Hole: round(4e-3)},
		},
		Stand: &stove.Stand{Diameter: 60e-3, Height: 40e-3},
	}
	return d, firing.Conditions{
		Fuel:   firing.Fuel{Species: "beech chips", Size: 5e-3, Length: 12e-3},
		Charge: firing.Charge{Depth: 60e-3},
		Pot:    &firing.Pot{Metal: stove.Titanium, Diameter: 95e-3, Height: 70e-3},
		Water:  firing.Water{Mass: 0.25},
		Ground: firing.Ground{Cover: "dry litter", Depth: 0.02, Below: "mineral soil"},
	}
}

// paintCan is a paint can with a riser and no pot.
func paintCan() (stove.Design, firing.Conditions) {
	c := can(168e-3, 190e-3)
	c.Code, c.Mouth, c.Wall = "610x708", 150e-3, 0.25e-3
	d := stove.Design{
		Name: "Paint can with riser (invented)", FuelCan: c, Standoff: 25e-3,
		Rows: []stove.Row{
			{Name: "secondary row", On: stove.FuelBody, Count: 30, Hole: stove.Hole{Shape: stove.Triangle, Width: 10e-3, Height: 9e-3}, Height: 165e-3},
			{Name: "base slots", On: stove.FuelBase, Count: 40, Hole: stove.Hole{Shape: stove.Slot, Width: 12e-3, Height: 3e-3}},
		},
		Ring:  &stove.Ring{Bore: 80e-3, Wall: 0.6e-3, Slits: 12, Slit: 10e-3, Twist: 0.35},
		Riser: &stove.Riser{Bore: 99e-3, Height: 250e-3, Wall: 0.25e-3},
	}
	return d, firing.Conditions{
		Fuel:   firing.Fuel{Species: "softwood chips", BulkDensity: 190, Size: 10e-3, Length: 25e-3},
		Charge: firing.Charge{Volume: 2.4e-3},
		Ground: firing.Ground{Cover: "gravel"},
	}
}

// openStand is a two-can stove whose outer can has its base cut out, on an
// open stand, with a skirt round the pot, shields, a plate with a gap, and
// most of it assumed.
func openStand() (stove.Design, firing.Conditions) {
	outer := can(127e-3, 150e-3)
	outer.OpenBase = true
	d := stove.Design{
		Name: "Camp kitchen with skirt (invented)", FuelCan: can(99e-3, 118e-3), OuterCan: &outer,
		Standoff: 30e-3, Annulus: 4e-3,
		Rows: []stove.Row{
			{Name: "secondary row", On: stove.FuelBody, Count: 20, Hole: round(5.5e-3), Height: 108e-3},
			{Name: "middle row", On: stove.FuelBody, Count: 8, Hole: round(4e-3), Height: 40e-3},
			{Name: "base field", On: stove.FuelBase, Count: 19, Hole: round(4e-3)},
			{Name: "inlet slots", On: stove.OuterBody, Count: 6, Hole: stove.Hole{Shape: stove.Slot, Width: 20e-3, Height: 8e-3}, Height: 15e-3},
		},
		Ring:    &stove.Ring{Bore: 55e-3, Wall: 0.5e-3, Height: 6e-3},
		Stand:   &stove.Stand{Diameter: 110e-3, Height: 55e-3, Gap: 0},
		Skirt:   &stove.Skirt{Gap: 7e-3, Height: 80e-3},
		Shields: []stove.Shield{{Gap: 10e-3}, {Under: true, Gap: 8e-3}},
		Plate:   &stove.Plate{Material: "tile", Thickness: 8e-3, Gap: 12e-3, Diameter: 150e-3},
	}
	return d, firing.Conditions{
		Fuel:   firing.Fuel{Species: "beech pellets", BulkDensity: 650, Size: 6e-3, Length: 12e-3},
		Charge: firing.Charge{Mass: 0.22},
		Pot:    &firing.Pot{Metal: stove.Aluminium, Diameter: 160e-3, Height: 100e-3, Lid: true},
		Water:  firing.Water{Mass: 1},
		Ground: firing.Ground{Cover: "dry litter", Depth: 0.03, Below: "mineral soil"},
	}
}

// gallon is a large food can round a smaller one, as little given as can be.
func gallon() (stove.Design, firing.Conditions) {
	outer := can(260e-3, 300e-3)
	return stove.Design{
		FuelCan: can(157e-3, 240e-3), OuterCan: &outer, Standoff: 60e-3,
		Rows: []stove.Row{
			{On: stove.FuelBase, Count: 60, Hole: round(5e-3)},
			{On: stove.FuelBody, Count: 48, Hole: round(8e-3), Height: 225e-3},
			{On: stove.OuterBody, Count: 16, Hole: round(20e-3), Height: 30e-3},
		},
	}, firing.Conditions{Charge: firing.Charge{Mass: 1}}
}

type sample struct {
	name       string
	design     stove.Design
	conditions firing.Conditions
	options    Options
}

func samples() []sample {
	var out []sample
	add := func(name string, f func() (stove.Design, firing.Conditions), o Options) {
		d, c := f()
		out = append(out, sample{name, d, c, o})
	}
	add("two-can", twoCan, Options{})
	add("drinks-can", drinksCan, Options{Assumed: []string{"charge.depth", "fuel.moisture", "stand.diameter"}})
	add("paint-can", paintCan, Options{White: true})
	add("open-stand", openStand, Options{
		Assumed: []string{"standoff", "ring.height", "row[2].height", "water.mass", "pot", "charge"},
		Changed: []string{"row[1].count", "skirt.gap"},
	})
	add("gallon", gallon, Options{})
	return out
}
