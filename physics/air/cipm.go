package air

import "math"

// DensityCIPM is the density of the moist air [kg/m³] by the metrologists'
// formula, compressibility included, for 400 ppm of CO2:
//
//	ρ = 3.483740e-3·p/(Z·T)·(1 − 0.3780·xv)
//
// Picard, Davis, Gläser, Fujii 2008, Metrologia 45, 149, eqs. (4), (A1.1),
// (A1.2), (A1.4). Range 60 to 110 kPa, 15 to 27 °C, where it is good to 22
// parts in a million; outside an extrapolation. It is a check on Density. The
// coefficients are typed from memory and proved by evaluations of others.
func DensityCIPM(s State) float64 {
	T, p := s.T, s.P
	t := T - 273.15
	ps := math.Exp(1.2378847e-5*T*T - 1.9121316e-2*T + 33.93711047 - 6.3431645e3/T)
	x := s.RH * enhancement(T, p) * ps / p
	r := p / T
	Z := 1 - r*(1.58123e-6+t*(-2.9331e-8+t*1.1043e-10)+
		(5.707e-6-2.051e-8*t)*x+(1.9898e-4-2.376e-6*t)*x*x) +
		r*r*(1.83e-11-0.765e-8*x*x)
	return 3.483740e-3 * r / Z * (1 - 0.3780*x)
}
