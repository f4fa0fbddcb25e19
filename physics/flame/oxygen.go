package flame

import (
	"math"

	"toplit/physics/fuel"
)

// LambdaFromOxygen is the excess air ratio λ that a dry oxygen fraction (0 to
// 0.2095) in complete combustion products means: 0.2095/(0.2095 − O2), the
// shop's rule for wood; within 2 % of the balance of DryOxygen. +Inf for air.
func LambdaFromOxygen(dry float64) float64 {
	if dry >= 0.2095 {
		return math.Inf(1)
	}
	return 0.2095 / (0.2095 - dry)
}

// OxygenFromLambda is the inverse of LambdaFromOxygen, zero at and below λ = 1.
func OxygenFromLambda(lambda float64) float64 {
	if !(lambda > 1) {
		return 0
	}
	return 0.2095 * (1 - 1/lambda)
}

// DryOxygen is the oxygen fraction of the dry flue gas of a fuel burned
// completely at λ ≥ 1, from its elements.
func DryOxygen(a fuel.Analysis, lambda float64) float64 {
	need := a.OxygenDemand()
	air := lambda * need / 0.20946
	e := a.Elements()
	dry := e[0] + air*(1-0.20946) + (lambda-1)*need + e[3]/2
	if !(dry > 0) {
		return 0
	}
	return max(lambda-1, 0) * need / dry
}

// WetOxygen turns a wet mole fraction into a dry one, given that of steam.
func WetOxygen(wet, steam float64) (dry float64) {
	if steam >= 1 {
		return 0
	}
	return wet / (1 - steam)
}

// COSlope is the mass ratio CO/CO2 in the product gas of a steady diffusion
// flame against the oxygen left in it (mass fraction x):
//
//	0.22·exp(−50·(x − 0.005)) + 4e-4
//
// drawn through the first, the sixth and the last bin of what methanol, ethanol
// and acetone gave in Beyler's hood experiments (open data of the firemodels
// project, our bins): CO falls tenfold for every 4.6 points of oxygen. Range 0
// to 0.17.
//
// Use the slope, not the level: a hood is cooler and better mixed than a can,
// and there is no pot. Spread a factor 3 either way; propane gives two to four
// times as much.
func COSlope(oxygen float64) float64 {
	return 0.22*math.Exp(-50*(max(oxygen, 0)-0.005)) + 4e-4
}

// COPerFuel is the CO [kg per kg fuel] from the mass ratio r = CO/CO2 when all
// carbon (mass fraction of the fuel) leaves as one of the two.
func COPerFuel(r, carbon float64) float64 {
	if !(r > 0) {
		return 0
	}
	const co, co2 = 12.011 / 28.010, 12.011 / 44.009
	return carbon * r / (co2 + co*r)
}
