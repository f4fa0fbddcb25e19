package firing

import (
	"math"
	"strings"

	"toplit/quantity"
	"toplit/stove"
)

// Difference says in words what differs from firing a to firing b: the design
// first, then the conditions. stove.Changed counts the changes the maker made;
// the weather counts as use, not as a change.
func Difference(a, b Firing) []stove.Change {
	c := stove.Changes(stove.Difference(a.Design, b.Design))
	x, y := a.Conditions, b.Conditions
	amount := func(key, what string, kind quantity.Kind, from, to float64) {
		if near(from, to) {
			return
		}
		s, t := show(kind, from), show(kind, to)
		if s == t { // too near for three figures
			s, t = quantity.Format(kind, from, quantity.Metric), quantity.Format(kind, to, quantity.Metric)
		}
		c.Words(key, what, s, t)
	}
	weather := func(add func()) {
		n := len(c)
		add()
		for i := n; i < len(c); i++ {
			c[i].Use = true
		}
	}
	c.Words("fuel.species", "fuel", x.Fuel.Species, y.Fuel.Species)
	for _, part := range []struct {
		key      string
		from, to float64
	}{
		{"carbon", x.Fuel.Carbon, y.Fuel.Carbon}, {"hydrogen", x.Fuel.Hydrogen, y.Fuel.Hydrogen}, {"oxygen", x.Fuel.Oxygen, y.Fuel.Oxygen},
		{"nitrogen", x.Fuel.Nitrogen, y.Fuel.Nitrogen}, {"ash", x.Fuel.Ash, y.Fuel.Ash},
	} {
		amount("fuel."+part.key, part.key+" in the dry fuel", quantity.Ratio, part.from, part.to)
	}
	amount("fuel.moisture", "fuel moisture", quantity.Ratio, x.Fuel.Moisture, y.Fuel.Moisture)
	amount("fuel.bulk_density", "bulk density", quantity.Density, x.Fuel.BulkDensity, y.Fuel.BulkDensity)
	amount("fuel.size", "piece size", quantity.Length, x.Fuel.Size, y.Fuel.Size)
	amount("fuel.length", "piece length", quantity.Length, x.Fuel.Length, y.Fuel.Length)
	amount("fuel.fines", "fines", quantity.Ratio, x.Fuel.Fines, y.Fuel.Fines)
	if x.Charge != y.Charge {
		if from, to := chargeWords(x.Charge), chargeWords(y.Charge); from != to {
			c.Words("charge", "charge", from, to)
		}
	}
	c.Words("starter.kind", "starter", x.Starter.Kind, y.Starter.Kind)
	amount("starter.mass", "starter", quantity.Mass, x.Starter.Mass, y.Starter.Mass)
	weather(func() {
		amount("air.temperature", "air temperature", quantity.Temperature, x.Air.Temperature, y.Air.Temperature)
		amount("air.pressure", "air pressure", quantity.Pressure, x.Air.Pressure, y.Air.Pressure)
		amount("air.humidity", "humidity", quantity.Ratio, x.Air.Humidity, y.Air.Humidity)
		amount("air.wind", "wind", quantity.Speed, x.Air.Wind, y.Air.Wind)
		amount("air.gusts", "gusts", quantity.Ratio, x.Air.Gusts, y.Air.Gusts)
	})
	c.Words("air.shelter", "shelter", string(x.Air.Shelter), string(y.Air.Shelter))
	if !c.Part("pot", "pot", x.Pot != nil, y.Pot != nil, "") {
		amount("pot.mass", "pot mass", quantity.Mass, x.Pot.Mass, y.Pot.Mass)
		c.Words("pot.metal", "pot metal", string(x.Pot.Metal), string(y.Pot.Metal))
		amount("pot.diameter", "pot diameter", quantity.Length, x.Pot.Diameter, y.Pot.Diameter)
		amount("pot.height", "pot height", quantity.Length, x.Pot.Height, y.Pot.Height)
		c.Yes("pot.lid", "lid", x.Pot.Lid, y.Pot.Lid)
		amount("water.mass", "water", quantity.Mass, x.Water.Mass, y.Water.Mass)
		amount("water.temperature", "water at lighting", quantity.Temperature, x.Water.Temperature, y.Water.Temperature)
		c.Words("water.target", "water target", boilOr(x.Water.Target), boilOr(y.Water.Target))
	}
	c.Words("ground.cover", "ground", x.Ground.Cover, y.Ground.Cover)
	amount("ground.depth", "depth of the ground's cover", quantity.Length, x.Ground.Depth, y.Ground.Depth)
	c.Words("ground.below", "below the cover", x.Ground.Below, y.Ground.Below)
	for _, act := range Acts() {
		c.Words("schedule."+keyOf(act), string(act), when(x.Schedule, act), when(y.Schedule, act))
	}
	weather(func() {
		c.Words("stove_temperature", "stove at lighting", warm(x.Warm), warm(y.Warm))
	})
	return c
}

func near(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

func chargeWords(c Charge) string {
	switch {
	case c.Mass > 0:
		return quantity.Show(quantity.Mass, c.Mass, quantity.Metric, 5)
	case c.Volume > 0:
		return quantity.Show(quantity.Volume, c.Volume, quantity.Metric, 5)
	}
	return quantity.Show(quantity.Length, c.Depth, quantity.Metric, 5) + " deep"
}

func boilOr(T float64) string {
	if T == 0 {
		return "boil"
	}
	return show(quantity.Temperature, T)
}

func warm(T float64) string {
	if T == 0 {
		return "as the air"
	}
	return show(quantity.Temperature, T)
}

// when lists an act's times.
func when(list []Action, act Act) string {
	var times []string
	for _, a := range list {
		if a.Do == act {
			times = append(times, FormatWhen(a))
		}
	}
	return strings.Join(times, ", ")
}
