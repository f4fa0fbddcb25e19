package draft

import "math"

// Lichtarowicz returns the discharge coefficient of a long sharp-edged bore of
// length/diameter l at hole Reynolds number re.
//
//	1/Cd = 1/Cdu + (20/Re)(1 + 2.25 l) - 0.005 l/(1 + 7.5 lg(1.5e-4 Re)^2),  Cdu = 0.827 - 0.0085 l
//
// Source: Lichtarowicz, Duggins & Markland 1965, J. Mech. Eng. Sci. 7(2), as
// coded in a public reactor-safety library. Fitted for 10 <= Re <= 2e4,
// 2 <= l <= 10. Below Re ~ 50 it asks for more pressure than creeping flow
// and the kinetic head together, so [NewHoles] leaves it there.
func Lichtarowicz(re, l float64) float64 {
	lg := math.Log10(1.5e-4 * re)
	return 1 / (1/(0.827-0.0085*l) + 20/re*(1+2.25*l) - 0.005*l/(1+7.5*lg*lg))
}

// EdgeTurning returns tau of a thick-edged orifice, the part of its loss that
// the length of the bore takes back, at length/hydraulic diameter l.
//
//	tau = (2.4 - l) 10^-(0.25 + 0.535 l^8/(0.05 + l^8)), not below 0
//
// Source: Idelchik, Handbook of Hydraulic Resistance, diagrams 4-12 and 4-15,
// as coded in the Modelica Standard Library. l > 0.015, hole Re > 1000.
func EdgeTurning(l float64) float64 {
	l8 := l * l
	l8 *= l8
	l8 *= l8
	return math.Max(0, (2.4-l)*math.Pow(10, -(0.25+0.535*l8/(0.05+l8))))
}

// ThickPlate returns zeta on the velocity in the hole for an opening of area
// fractions f1 of the space before it and f2 of the space after it, with
// length/hydraulic diameter l.
//
//	zeta = 0.5 (1-f1)^0.75 + tau (1-f1)^0.375 (1-f2) + (1-f2)^2 + 0.02 l
//
// Source: Idelchik, diagrams 4-12 and 4-15, for f1 = f2 as coded in the
// Modelica Standard Library; the split into f1 and f2 [memory]. l > 0.015,
// hole Re > 1000. A grid or grate is an opening whose f is its open fraction.
func ThickPlate(f1, f2, l float64) float64 {
	e1, e2 := 1-f1, 1-f2
	q := math.Sqrt(math.Sqrt(e1)) // e1^(1/4)
	return 0.5*q*q*q + EdgeTurning(l)*q*math.Sqrt(q)*e2 + e2*e2 + 0.02*l
}

// SharpPlate returns zeta on the velocity in the hole of a sharp-edged opening
// between spaces it fills to the fractions f1 and f2.
//
//	zeta = (0.707 (1-f1)^0.375 + 1 - f2)^2
//
// Source: Idelchik, diagram 4-14, as documented in the Modelica Standard
// Library for f1 = f2; the split [memory]. Thickness/diameter <= 0.015, hole
// Re >= 1e5.
func SharpPlate(f1, f2 float64) float64 {
	z := 0.707*math.Pow(1-f1, 0.375) + 1 - f2
	return z * z
}

// longHole returns Cd of a bore of length/diameter l at hole Reynolds number
// re: Lichtarowicz from Re 100 up (below l = 2 beyond its data, and there only
// blended in by [thickShare]), creeping flow with the kinetic head below Re
// 10, and ln Cd blended in ln Re between.
//
// Creeping: zeta = (12 pi + 64 l)/Re, the exact thin wall and the exact tube
// in series (Dagan, Weinbaum & Pfeffer 1982, within 1 % [memory]), plus 2.28
// for acceleration and the growing profile (Hagenbach and exit, laminar tube
// [memory]).
func longHole(re, l float64) float64 {
	re = math.Min(re, 2e4)
	const lo, hi = 10, 100
	w := smoothstep(math.Log(re/lo) / math.Log(hi/float64(lo)))
	return math.Exp((1-w)*-0.5*math.Log((creeping+64*l)/re+2.28) + w*math.Log(Lichtarowicz(re, l)))
}

// thickShare is how far a bore of length/diameter l has gone from a thin hole
// (0) to a long one (1): the place of ln Cd of Idelchik's thick-edged orifice
// between its values at l = 0 and l = 2.
func thickShare(l float64) float64 {
	if l >= 2 {
		return 1
	}
	thin := math.Log(ThickPlate(0, 0, 0))
	return math.Max(0, (math.Log(ThickPlate(0, 0, l))-thin)/(math.Log(ThickPlate(0, 0, 2))-thin))
}

// smoothstep rises from 0 to 1 over 0..1 with flat ends.
func smoothstep(t float64) float64 {
	t = math.Min(math.Max(t, 0), 1)
	return t * t * (3 - 2*t)
}
