package bed

import (
	"math"

	"toplit/numeric"
	"toplit/physics/fuel"
)

// YieldIn is what decides how much char the front leaves.
type YieldIn struct {
	Velocity float64 // superficial velocity of the primary air at ambient conditions, over the last minute or so [m/s]
	Size     float64 // of a piece [m], 0 for a pellet's
	Density  float64 // of a piece [kg/m³], 0 for a pellet's
	Moisture float64 // X, dry basis [kg/kg]
	Charred  float64 // fuel.Fuel.Charred: 0 for raw fuel
	Offset   float64 // correction learned from burns [kg/kg], prior 0 ± 0.04
	Soft     float64 // relative width of floor and ceiling, 0 for 0.1
}

// The closure of the char yield, dry ash-free basis [kg/kg]. Prior ± 4 points.
const (
	yieldAt1   = 0.28     // at 1 cm/s
	yieldSlope = 0.075    // per e-fold of velocity
	yieldFloor = 0.06     // [kg/kg]
	yieldTop   = 0.30     // ceiling, as below 1 cm/s
	yieldKnee  = 0.766e-2 // where the ceiling is met [m/s]
	yieldWater = 0.18     // per kg water per kg wet fuel, above 10 %
	yieldSoft  = 0.1
)

// Yield is the ash-free char left per kilogram of dry ash-free fuel [kg/kg]:
//
//	y = (0.28 − 0.075·ln(u/1 cm/s))·f − 0.0018·(M − 10)     M wet basis, %
//	f = 0.75 + 0.5·ln(d*/7 mm)/ln(30/7),  d* = d·(ρ/400 kg/m³)^0.73, 0.6 ≤ f ≤ 1.3
//
// with a floor of 0.06 and a ceiling of 0.30, met at 0.77 cm/s. The size factor
// and the moisture slope are those of pine chips in James, Yuan, Boyette 2016,
// Energies 9(4):283 (12.2 → 21.8 % from 7 to 30 mm; 12 → 9.9 % from 10 to 22 %
// moisture); the velocity term joins 25–30 % at 1–2 cm/s to 8–12 % above 10 cm/s
// (Reed et al. 1999 and others, [memory]). The density exponent makes a 6.5 mm
// pellet of 1200 kg/m³ come out at f = 1, our judgement: what counts is the time
// heat takes to get in. Accuracy ± 4 points.
//
// A fuel that was charred before keeps what it was: y + Charred·(1 − y).
func Yield(in YieldIn) float64 {
	w := width(in.Soft, yieldSoft)
	u := math.Abs(in.Velocity) / yieldKnee
	// A fourth-power corner at the ceiling: 0.30 at rest, the law itself above 1 cm/s.
	base := yieldTop - yieldSlope/4*math.Log(1+u*u*u*u)
	M := fuel.WetBasis(max(in.Moisture, 0))
	y := base*sizeFactor(in.Size, in.Density) - yieldWater*(M-0.10) + in.Offset
	y = yieldFloor + numeric.SoftPlus(y-yieldFloor, w*yieldFloor)
	y = numeric.SoftMin(y, yieldTop, w)
	return y + in.Charred*(1-y)
}

func sizeFactor(d, rho float64) float64 {
	if d <= 0 {
		d = 6.5e-3
	}
	if rho <= 0 {
		rho = 1200
	}
	star := d * math.Pow(rho/400, 0.73)
	f := 0.75 + 0.5*math.Log(star/7e-3)/math.Log(30.0/7)
	return min(max(f, 0.6), 1.3)
}

// Weighed is the char a scale shows per kilogram of dry fuel [kg/kg]: ash-free
// char y per kilogram of dry ash-free fuel, plus all the ash of the fuel.
func Weighed(y, ash float64) float64 { return y*(1-ash) + ash }
