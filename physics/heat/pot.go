package heat

import "math"

// BaseFactor is how much more a flame gives a pot base than the laminar
// stagnation point of a clean jet of its speed and width, as mean over the
// base. It was set once, by a 200 mm lidded pot on a gas flame (Gonzalez 2010,
// 60 % at low and 50-55 % at high flame), see docs/model/pot.md; unsteady buoyant
// flames (Kestin 1966 finds up to 1.8 for turbulence alone [memory]),
// recombination of radicals (Viskanta 1993, 1.1-1.5 [memory]) and burning along
// the base are what it stands for.
const BaseFactor = 1.75

// Spreads of the pot's coefficients, for sampling: log-normal, times or over.
const (
	BaseSpread = 1.6
	SideSpread = 1.6
)

// Arrival returns the speed [m/s] and width [m] of a hot jet that leaves a bore
// [m] as m [kg/s] of density rho in air of rhoAir and rises a gap [m] to a pot:
// its speed grows by buoyancy, u^2 = u0^2 + 2 g gap (rhoAir/rho - 1), and it
// narrows as it speeds up. Nothing is drawn in on the way.
func Arrival(m, rho, rhoAir, bore, gap float64) (speed, width float64) {
	m = math.Max(m, 0)
	u0 := m / (rho * math.Pi / 4 * bore * bore)
	lift := 2 * gravity * gap * math.Max(rhoAir/rho-1, 0)
	speed = math.Sqrt(u0*u0 + lift)
	if speed == 0 {
		return 0, bore
	}
	return speed, bore * math.Sqrt(u0/speed)
}

// BaseCoefficient returns the mean coefficient [W/m2 K] between the gas under
// a pot and its flat base, for [Passing]: flame jet of a width [m] and speed
// [m/s], gap [m] between its exit and the base, pot diameter [m], factor
// ([BaseFactor] or a sample about it), dt the gas over the base [K].
//
//	h = factor h0 (2 s - s^2),  s = width/pot, not above 1
//
// h0 is [Stagnation] under the jet; outside it falls as 1/r, as in a laminar
// radial wall jet and as Martin's mean does. Where natural convection under
// the base ([Disc]) is larger it rules. Continuous with slope in width, speed
// and dt.
func BaseCoefficient(f Film, width, speed, gap, pot, factor, dt float64) float64 {
	s := math.Min(width/pot, 1)
	jet := 0.0
	if width > 0 {
		jet = factor * Stagnation(f, width, speed, gap) * s * (2 - s)
	}
	return either(jet, Disc(f, pot, dt))
}

// SideCoefficient returns the mean coefficient [W/m2 K] between gas that rises
// at a speed [m/s] along an open pot's side of a height [m] and the side, dt
// apart [K]: laminar flow along a plate or natural convection, the larger
// ruling. Prior times or over [SideSpread].
func SideCoefficient(f Film, height, speed, dt float64) float64 {
	return either(AlongPlate(f, height, speed), Wall(f, height, dt))
}

// draws is the entrainment coefficient of a sheet of gas that rises along a
// wall: speed drawn in over speed along, density-weighted (wall plume, about
// 0.1 [memory]).
const draws = 0.1

// Side is the gas that has passed a pot's rim and rises along its open side.
type Side struct {
	Diameter, Height float64 // of the pot's side [m]
	Flow             float64 // gas [kg/s]
	Cp               float64 // [J/kg K]
	Rho, RhoAir      float64 // at the rim and of the air [kg/m3]
	Speed            float64 // [m/s]
}

// Heat returns the heat [W] the side takes with coefficient h [W/m2 K] from gas
// at tGas, wall at tWall, air at tAir [K]. The rising sheet draws in air, so
// its excess falls as 1/(1 + z/reach) with reach = flow/(0.1 speed pi D
// sqrt(rho rhoAir)); what the wall takes cools it too. Where the sheet is
// colder than the wall the side loses: one formula, gain less loss.
func (s Side) Heat(h, tGas, tWall, tAir float64) float64 {
	girth := math.Pi * s.Diameter
	loss := h * girth * s.Height * (tWall - tAir)
	flow := math.Max(s.Flow, 0)
	pull := draws * s.Speed * girth * math.Sqrt(s.Rho*s.RhoAir)
	if !(pull > 0) || flow == 0 {
		return -loss
	}
	reach := flow / pull
	excess := flow * s.Cp * (tGas - tAir)
	share := h * girth * reach * math.Log1p(s.Height/reach) / (flow * s.Cp)
	return -excess*math.Expm1(-share) - loss
}
