package firing

import "toplit/stove"

// Load is the charge as mass and as fill.
type Load struct {
	Mass   float64 // wet [kg]
	Volume float64 // as poured [m3]
	Depth  float64 // above the fuel can's base; may lie beyond the rim [m]
}

// Load works the charge out whichever way it was given: mass, volume and depth
// by the bulk density and the bore. Zero without a bulk density.
func (f *Firing) Load() Load {
	c, rho := f.Conditions.Charge, f.Conditions.Fuel.BulkDensity
	v := c.Volume
	switch {
	case c.Mass > 0 && rho > 0:
		v = c.Mass / rho
	case c.Depth > 0:
		v = c.Depth * f.Design.FuelCan.Area()
	}
	return Load{Mass: v * rho, Volume: v, Depth: f.Design.DepthOf(v)}
}

// PotVolume is what the pot holds to the brim, its wall taken as upright [m3].
func (p Pot) PotVolume() float64 {
	return stove.Can{Diameter: p.Diameter}.Area() * p.Height
}

// Stability is the loaded stove's: charge, pot and water on it.
func (f *Firing) Stability() stove.Stability {
	l := f.Load()
	loads := []stove.Load{f.Design.FuelLoad(l.Mass, l.Depth)}
	if p := f.Conditions.Pot; p != nil {
		base := f.Design.Stack().PotBase
		water := f.Conditions.Water.Mass
		level := 0.0
		if a := (stove.Can{Diameter: p.Diameter}).Area(); a > 0 {
			level = water / waterDensity(f.Conditions.Water.Temperature) / a
		}
		loads = append(loads,
			stove.Load{Name: "pot", Mass: p.Mass, Height: base + p.Height/2},
			stove.Load{Name: "water", Mass: water, Height: base + level/2})
	}
	return f.Design.Stability(loads...)
}

// potWall is what a camping pot's bore is less than its outside [judgement].
const potWall = 1e-3 // [m]

// Packing is the smallest bundle of the stove's loose parts and the pot.
func (f *Firing) Packing() stove.Packing {
	parts := f.Design.Vessels()
	if p := f.Conditions.Pot; p != nil {
		parts = append(parts, stove.Vessel{Name: "pot", Diameter: p.Diameter, Height: p.Height, Bore: p.Diameter - 2*potWall, Depth: p.Height - potWall})
	}
	return stove.Pack(parts...)
}
