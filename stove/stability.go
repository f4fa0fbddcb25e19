package stove

import "math"

// Stability is how far a loaded stove can be tilted before it falls.
type Stability struct {
	Mass   float64 // stove and load [kg]
	Height float64 // of the common centre of gravity above the ground [m]
	Base   float64 // distance from the axis to the edge it tips over [m]
	Angle  float64 // [rad]
}

// Tipping angles of the biomass stove safety protocol: its limits on the
// ratio of tipped to upright height, 0.940, 0.961 and 0.978 [memory], are
// cosines of these.
const (
	SteadyAngle = 20 * math.Pi / 180 // 20° and more: steady
	FairAngle   = 16 * math.Pi / 180 // below: place with care
	LeastAngle  = 12 * math.Pi / 180 // below: do not light
)

// TipAngle is the static tilt at which a body with a round base of radius r
// tips, atan(r/h), h the height of its centre of gravity [rad]. Rigid body,
// level firm ground, no sliding and no spilling; geometry of this kind agreed
// with measured tip angles of cookstoves within 3 to 13 % (Zhao et al. 2023,
// Front. Energy Res. 10:958303, abstract).
func TipAngle(r, h float64) float64 {
	if h <= 0 {
		return math.Pi / 2
	}
	return math.Atan(r / h)
}

// Stability weighs the drawn stove together with loads (fuel, pot, water) and
// gives its tip angle. It tips over the lower edge of the outermost can that
// reaches the ground; legs or stones under a single can are not drawn and
// taken to stand no wider than the can.
func (d Design) Stability(loads ...Load) Stability {
	base := d.FuelCan.Diameter / 2
	if d.OuterCan != nil {
		base = d.OuterCan.Diameter / 2
	}
	m, h := Centre(append(d.Weigh().Parts, loads...)...)
	return Stability{Mass: m, Height: h, Base: base, Angle: TipAngle(base, h)}
}

// FuelLoad is a charge filled to a level above the fuel can's base, as a load.
func (d Design) FuelLoad(mass, level float64) Load {
	return Load{"fuel", mass, d.Stack().FuelBase + d.FuelCan.Wall + level/2}
}
