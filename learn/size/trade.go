package size

import (
	"math"

	"toplit/physics/bed"
	"toplit/physics/fuel"
)

// The formulas makers size with by hand. They give the search its first guess;
// what it ends at comes from the burn model.

// Discharge is the coefficient hand formulas use for holes in thin sheet [1];
// common practice, no source. The model's own varies with Reynolds number.
const Discharge = 0.6

// HoleFlow is the air through holes of a total area [m2] at a pressure
// difference dp [Pa], ṁ = Cd·A·√(2ρΔp) with Cd 0.6 [kg/s]. rho is the air's
// density [kg/m3]. Bernoulli with a fixed discharge: ±15 % for stove holes.
func HoleFlow(area, dp, rho float64) float64 {
	return Discharge * area * math.Copysign(math.Sqrt(2*rho*math.Abs(dp)), dp)
}

// HoleArea is the area that passes a flow [kg/s] at a pressure difference [m2].
func HoleArea(flow, dp, rho float64) float64 {
	return flow / HoleFlow(1, dp, rho)
}

// StoichiometricAir is 6 kg of air per kg of oven-dry wood, the trade's round
// figure (Kubler, Wood and Fiber Science: 6 g per g; CH1.44O0.66 gives 5.91),
// and WoodHeat the net heating value that goes with it [J/kg].
const (
	StoichiometricAir = 6.0
	WoodHeat          = 17.5e6
)

// AirFor is the air a fire of a power [W] takes at an excess air ratio [kg/s]:
// λ·P·6/(17.5 MJ/kg). Whole wood burned, no char left; ±5 % between woods.
func AirFor(power, lambda float64) float64 {
	return lambda * power * StoichiometricAir / WoodHeat
}

// Fraction is the area of count holes of a diameter over the section of a bore
// [1].
func Fraction(count int, hole, bore float64) float64 {
	return float64(count) * hole * hole / (bore * bore)
}

// BurnTime is how long a bed of a depth [m] and bulk density [kg/m3] lasts at a
// fuel flux over the bore [kg/m2 s]: depth·density/flux [s].
func BurnTime(depth, bulk, flux float64) float64 { return depth * bulk / flux }

// UsefulPower is the mean heat flow into water of a mass [kg] warmed by dT [K]
// in a time [s], 4186 J/kg K, steam and pot left out: a lower bound [W].
func UsefulPower(mass, dT, t float64) float64 { return mass * 4186 * dT / t }

// SecondaryRatio is the secondary over the primary air by mass at an excess air
// ratio λ of all air over need, the air that burns the fuel less the char it
// leaves [kg/kg dry fuel]; airFuel is the front's own air [kg/kg dry fuel]. Mass
// balance: λ·need/airFuel − 1 [1].
func SecondaryRatio(lambda, airFuel, need float64) float64 {
	return lambda*need/airFuel - 1
}

// guess is the trade's first guess at the primary area [m2]: the useful power
// wanted, a quarter of the gas's heat reaching the water, the front's air, and
// 0.8 Pa across the holes.
func guess(useful float64, f fuel.Fuel, rho float64) float64 {
	const (
		efficiency = 0.25 // of the gas's heat into the pot [judgement]
		yield      = 0.2  // char per dry fuel [judgement]
		across     = 0.8  // [Pa], of about 1 Pa of draft
	)
	x := fuel.DryBasis(f.Moisture)
	gasHeat := f.Analysis.LHV() - x*2.443e6 - yield*fuel.StoveChar().LHV()
	if !(gasHeat > 1e6) {
		gasHeat = 1e6
	}
	dry := useful / efficiency / gasHeat
	return HoleArea(dry*bed.AirFuel(bed.AirNeed, x), across, rho)
}
