package heat

import "math"

// Gap returns the mean Nusselt number, on twice the gap, of laminar flow that
// enters an even gap between parallel walls unmixed: re on twice the gap, dl =
// twice the gap over the length.
//
//	Nu = (Nu1^3 + Nu2^3 + Nu3^3)^(1/3)
//	Nu1 = 4.861 with one wall exchanging heat, 7.541 with both
//	Nu2 = 1.841 (Re Pr dl)^(1/3),  Nu3 = [2/(1 + 22 Pr)]^(1/6) (Re Pr dl)^(1/2)
//
// Source: VDI-Wärmeatlas 9th ed. Gb 6-10, as cited and coded in the Modelica
// Standard Library. Re <= 2200, 0.1 <= Pr <= 10, dl <= 1.
func Gap(re, pr, dl float64, both bool) float64 {
	g := re * pr * dl
	n1 := 4.861
	if both {
		n1 = 7.541
	}
	n3 := math.Cbrt(math.Sqrt(2/(1+22*pr))) * math.Sqrt(g)
	return math.Cbrt(n1*n1*n1 + 1.841*1.841*1.841*g + n3*n3*n3)
}

// gapEntry is [2/(1 + 22 Pr)]^(1/6) at [Prandtl], cubed.
const gapEntry = 0.3492151

// SkirtCoefficient returns the coefficient [W/m2 K] between the gas in the gap
// under a skirt and the pot's side, the skirt taken as insulated: [Gap], with
// gas at mean speed u [m/s] in a gap [m] of a height [m].
func SkirtCoefficient(f Film, gap, height, u float64) float64 {
	d := 2 * gap
	g := math.Abs(u) * d / f.Nu * Prandtl * d / height
	nu := math.Cbrt(4.861*4.861*4.861 + 1.841*1.841*1.841*g + gapEntry*g*math.Sqrt(g))
	return nu * f.K / d
}

// Passing returns the heat [W] a stream of capacity flow mcp [W/K] that enters
// at tGas gives to a surface of area [m2] at tWall with coefficient h:
//
//	mcp (tGas - tWall) (1 - exp(-h area/mcp))
//
// The stream cools on its way; with little flow it gives all it has.
func Passing(h, area, mcp, tGas, tWall float64) float64 {
	if !(mcp > 0) {
		return 0
	}
	return -mcp * (tGas - tWall) * math.Expm1(-h*area/mcp)
}
