package fuel

import "toplit/physics/gas"

// WoodCp is the heat capacity of dry wood [J/kg K] at T [K]: 4.206·T − 37.7,
// Thunman et al., Energy & Fuels 15 (2001), as used in open particle codes.
// Range 273 to 600 K, held outside.
func WoodCp(T float64) float64 { return 4.206*min(max(T, 250), 700) - 37.7 }

// WoodHeat is the sensible heat of dry wood between 298.15 K and T [J/kg], the
// integral of WoodCp.
func WoodHeat(T float64) float64 {
	t := min(max(T, 250), 700)
	return 2.103*(t*t-gas.T0*gas.T0) - 37.7*(t-gas.T0) + (4.206*t-37.7)*(T-t)
}

// CharCp is the heat capacity of char [J/kg K] at T [K]: 420 + 2.09·T +
// 6.85e-4·T², as open particle codes quote it; another quoted form, 440 +
// 2.0·T − 6.7e-4·T², is 30 % lower at 1000 K. Held above 1300 K, where it
// would pass the Dulong–Petit limit of carbon by half.
//
// What we changed: the quoted form passes 25 J/mol K (2080 J/kg K) at 620 K;
// we take the second form, which tops out at 1930 J/kg K, as nearer to the
// graphite table (1800 J/kg K at 1000 K, NASA TP-2002-211556), and hold it
// from 1300 K on.
func CharCp(T float64) float64 {
	t := min(max(T, 250), charTop)
	return 440 + 2.0*t - 6.7e-4*t*t
}

const charTop = 1300.0 // [K]

// CharHeat is the sensible heat of char between 298.15 K and T [J/kg], the
// integral of CharCp.
func CharHeat(T float64) float64 {
	t := min(max(T, 250), charTop)
	f := func(t float64) float64 { return t * (440 + t*(1.0-6.7e-4/3*t)) }
	return f(t) - f(gas.T0) + CharCp(t)*(T-t)
}

// AshCp is the heat capacity of ash [J/kg K] at T [K]: 754 + 0.586·(T − 273),
// as open particle codes quote it.
func AshCp(T float64) float64 { return 754 + 0.586*(min(max(T, 250), 1500)-273) }

// WaterCp is the heat capacity of liquid water in the fuel [J/kg K].
const WaterCp = 4185.5
