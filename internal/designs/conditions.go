package designs

import (
	"math"

	"toplit/firing"
	"toplit/physics/air"
	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/stove"
	"toplit/stove/catalogue"
)

func drawConditions(d dice, f *firing.Firing) {
	c := &f.Conditions
	drawAir(d, &c.Air)
	drawFuel(d, &c.Fuel)
	drawCharge(d, f)
	drawStarter(d, f)
	even := d.chance(0.15) // everything starts at one temperature, no wind
	if d.chance(0.8) {
		drawPot(d, f)
	} else if d.chance(0.9) {
		f.Design.Skirt = nil
	}
	drawGround(d, f)
	drawSchedule(d, f)
	if d.chance(0.1) {
		c.Warm = d.between(280, 370)
	}
	if even {
		c.Warm, c.Air.Wind, c.Air.Gusts = 0, 0, 0
		if c.Pot != nil && c.Air.Temperature > 273.2 {
			c.Water.Temperature = c.Air.Temperature
		}
	}
}

func drawAir(d dice, a *firing.Air) {
	a.Temperature = d.between(258, 314)
	altitude := pick(d, 0, 0, d.between(0, 3500), d.between(0, 3500))
	a.Pressure = air.StandardPressure(air.Geopotential(altitude))
	a.Humidity = d.Float64()
	a.Wind = pick(d, 0, d.between(0, 1), d.between(0, 4))
	a.Gusts = pick(d, 0, d.between(0.1, 0.5))
	a.Shelter = pick(d, firing.Open, firing.Windscreen, firing.Shroud)
}

func drawFuel(d dice, c *firing.Fuel) {
	list := fuel.Catalogue()
	row := list[d.IntN(len(list))]
	if d.chance(0.35) { // what most makers burn
		row, _ = fuel.ByName("softwood pellets")
	}
	c.Species = row.Name
	// Bulk density is of the fuel as fired: the pieces weigh more when wet.
	c.Moisture = math.Round(d.between(0.001, 0.25)*1e3) / 1e3
	c.BulkDensity = row.Bulk * (1 - row.Moisture) / (1 - c.Moisture) * d.between(0.85, 1.15)
	c.Size = row.Size * d.spread(0.7, 1.4)
	c.Length = row.Length * c.Size / row.Size
	c.Fines = pick(d, 0, 0.01, d.between(0, 0.08))
}

func drawCharge(d dice, f *firing.Firing) {
	level := f.Design.FillLevel() - d.between(0.001, 0.012)
	if f.Design.FillLevel() == f.Design.FuelCan.Depth() { // no jets: leave room for the flame
		level = f.Design.FuelCan.Depth() * d.between(0.4, 0.9)
	}
	depth := math.Max(level*pick(d, 1, d.between(0.25, 1)), 0.006)
	volume := f.Design.VolumeTo(depth)
	c := &f.Conditions.Charge
	switch d.IntN(3) {
	case 0:
		c.Mass = volume * f.Conditions.Fuel.BulkDensity
	case 1:
		c.Volume = volume
	default:
		c.Depth = depth
	}
}

func drawStarter(d dice, f *firing.Firing) {
	var allowed []bed.Starter
	for _, s := range bed.Starters() {
		if s.Refused == "" {
			allowed = append(allowed, s)
		}
	}
	s := allowed[d.IntN(len(allowed))]
	f.Conditions.Starter = firing.Starter{Kind: s.Kind, Mass: math.Max(s.Dose(f.Design.FuelCan.Area())*d.spread(0.4, 3), 1e-4)}
}

func drawPot(d dice, f *firing.Firing) {
	c := &f.Conditions
	wide := f.Design.FuelCan.Diameter * d.between(0.8, 2.2)
	p := &firing.Pot{Diameter: tenth(math.Max(wide, 0.06)), Metal: pick(d, stove.Aluminium, stove.Stainless, stove.MildSteel, stove.Copper, stove.Titanium)}
	p.Height = tenth(p.Diameter * d.between(0.4, 1))
	p.Mass = math.Pi * p.Diameter * (p.Height + p.Diameter/4) * d.spread(1.2, 8) // kilograms per square metre of sheet
	p.Lid = d.chance(0.6)
	c.Pot = p
	most := 0.85 * p.PotVolume() * 990
	w := &c.Water
	w.Mass = most * d.spread(0.05, 1)
	if d.chance(0.12) {
		w.Mass = d.spread(0.003, 0.05) // boils dry
	}
	w.Mass = math.Min(w.Mass, most)
	w.Temperature = pick(d, d.between(274, 300), d.between(274, 300), d.between(300, 360))
	if d.chance(0.25) {
		w.Target = d.between(w.Temperature+5, 372)
		if w.Target <= w.Temperature {
			w.Target = 0
		}
	}
}

func drawGround(d dice, f *firing.Firing) {
	var list []catalogue.GroundCover
	for _, c := range catalogue.Covers() {
		if !c.Combustible || f.Design.Plate != nil {
			list = append(list, c)
		}
	}
	g := &f.Conditions.Ground
	g.Cover = list[d.IntN(len(list))].Name
	if d.chance(0.3) {
		g.Depth = d.length(0.005, 0.2)
		g.Below = pick(d, "mineral soil", "moist mineral soil", "rock", "")
	}
}

// drawSchedule says when the pot goes on and off, which parts come later or
// go, and how it ends.
func drawSchedule(d dice, f *firing.Firing) {
	c := &f.Conditions
	act := func(do firing.Act, at float64, after firing.Moment) {
		c.Schedule = append(c.Schedule, firing.Action{Do: do, At: math.Round(at), After: after})
	}
	if c.Pot != nil {
		switch d.IntN(4) {
		case 0:
			act(firing.PotOn, 0, "")
		case 1:
			act(firing.PotOn, d.between(60, 600), "")
		default:
			act(firing.PotOn, d.between(0, 180), firing.JetsLit)
		}
		switch {
		case d.chance(0.10):
			act(firing.PotOff, d.between(0, 120), firing.Boil)
		case d.chance(0.06):
			act(firing.PotOff, d.between(700, 1500), "")
			if d.chance(0.5) {
				act(firing.PotOn, d.between(1600, 2000), "")
			}
		}
	}
	if f.Design.Ring != nil && d.chance(0.15) {
		act(firing.RingOn, d.between(0, 90), pick(d, firing.JetsLit, ""))
	}
	if f.Design.Riser != nil && d.chance(0.2) {
		act(firing.RiserOn, d.between(0, 60), firing.JetsLit)
		if d.chance(0.5) {
			act(firing.RiserOff, d.between(0, 60), firing.YellowGone)
		}
	}
	if d.chance(0.06) {
		act(firing.StandOn, d.between(0, 60), firing.JetsLit)
	}
	switch {
	case d.chance(0.07):
		act(firing.Snuff, d.between(300, 2400), "")
	case d.chance(0.05):
		act(firing.Snuff, d.between(0, 200), firing.FlameOut)
	case d.chance(0.05):
		act(firing.End, d.between(900, 3600), "")
	}
	firing.SortSchedule(c.Schedule)
}
