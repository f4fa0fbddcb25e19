package heat

import "math"

// ChurchillBernstein returns the mean Nusselt number of a cylinder in cross
// flow:
//
//	Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) [1 + (Re/282000)^(5/8)]^(4/5)
//
// Source: Churchill & Bernstein 1977 (Incropera 6e eq. 7.54), as in the
// library ht. Re Pr > 0.2. Accuracy about 20 %.
func ChurchillBernstein(re, pr float64) float64 {
	return 0.3 + 0.62*math.Sqrt(re)*math.Cbrt(pr)/math.Sqrt(math.Sqrt(1+math.Pow(0.4/pr, 2.0/3)))*
		math.Pow(1+math.Pow(re/282000, 0.625), 0.8)
}

// crossFactor is 0.62 Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) at [Prandtl].
const crossFactor = 0.4829200

// CrossFlow returns the mean coefficient [W/m2 K] of wind at u [m/s] across an
// upright cylinder of a diameter [m]: [ChurchillBernstein] at the fixed
// Prandtl number, the high-Reynolds bracket as 1 + 0.8 (Re/282000)^(5/8)
// (within 0.5 % to Re 5e4, 4 m/s on a 150 mm can in cold air).
func CrossFlow(f Film, diameter, u float64) float64 {
	re := math.Abs(u) * diameter / f.Nu
	x := re / 282000
	x8 := math.Sqrt(math.Sqrt(math.Sqrt(x)))
	r := math.Sqrt(x) * x8 // x^(5/8)
	return (0.3 + crossFactor*math.Sqrt(re)*(1+0.8*r)) * f.K / diameter
}

// AlongPlate returns the mean coefficient [W/m2 K] of laminar flow at u [m/s]
// along a surface of a length [m]: Nu = 0.664 Re^(1/2) Pr^(1/3) (Pohlhausen;
// Incropera 6e eq. 7.30), Re < 5e5.
func AlongPlate(f Film, length, u float64) float64 {
	const c = 0.664 * 0.8879040 // Prandtl^(1/3)
	return c * math.Sqrt(math.Abs(u)*length/f.Nu) * f.K / length
}

// WallInWind returns the coefficient [W/m2 K] of a can's outside of a height
// and diameter [m], dt [K] off the air, in a wind of u [m/s]: natural and
// forced convection, the larger ruling.
func WallInWind(f Film, height, diameter, dt, u float64) float64 {
	return either(Wall(f, height, dt), CrossFlow(f, diameter, u))
}
