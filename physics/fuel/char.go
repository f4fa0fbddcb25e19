package fuel

import "math"

// Char is the composition of wood char without ash (sum 1) made at the peak
// temperature T [K]:
//
//	C = 0.93 − 0.92·exp(−0.42e-2·t)
//	H = −0.41e-2 + 0.10·exp(−0.24e-2·t)
//	O = 0.07 + 0.85·exp(−0.48e-2·t)        t in °C, then scaled to the sum 1
//
// Neves, Thunman, Matos, Tarelho, Gómez-Barea, Prog. Energy Combust. Sci. 37
// (2011) 611–630, coefficients [memory]. Range 200 to 1000 °C, held there
// outside. Spread of the data behind it about ±4 points in carbon. The three
// formulas add up to 0.96 to 1.00; we scale.
func Char(T float64) Analysis {
	t := math.Min(math.Max(T-273.15, 200), 1000)
	return Analysis{
		Carbon:   0.93 - 0.92*math.Exp(-0.42e-2*t),
		Hydrogen: -0.41e-2 + 0.10*math.Exp(-0.24e-2*t),
		Oxygen:   0.07 + 0.85*math.Exp(-0.48e-2*t),
	}.Normal()
}

// CharTemperature is the peak temperature that stands for the char of a
// top-lit bed [K], 700 °C: the flaming layer is seen at 500 to 700 °C (Reed
// 2013, Cr-Al thermocouple in a stove) and the char above it stays hotter for
// minutes. Fifty kelvin either way moves the char's heating value by 0.5 %.
const CharTemperature = 973.15

// StoveChar is Char(CharTemperature): C 0.885, H 0.015, O 0.100, 31.6 MJ/kg.
func StoveChar() Analysis { return Char(CharTemperature) }

// MeasuredPineChar is char of pine made without air as analysed at NIST for
// the MaCFP condensed-phase database (C 91.17 ± 3.93, H 2.28 ± 0.09, O 3.65 ±
// 2.74, N 0.13 wt%, 95 %; sum 97.2): richer in carbon than StoveChar. Not
// scaled.
func MeasuredPineChar() Analysis {
	return Analysis{Carbon: 0.9117, Hydrogen: 0.0228, Oxygen: 0.0365, Nitrogen: 0.0013}
}

// InertCharYield is the char left by pyrolysis without oxygen at the peak
// temperature T [K], per kg of dry ash-free fuel:
//
//	Y = 0.106 + 2.43·exp(−0.66e-2·t)       t in °C
//
// Neves et al. 2011, coefficients [memory]; small samples, 200 to 1000 °C. It
// is the ceiling for small pieces, not the yield of a stove.
func InertCharYield(T float64) float64 {
	t := math.Min(math.Max(T-273.15, 200), 1000)
	return math.Min(1, 0.106+2.43*math.Exp(-0.66e-2*t))
}

func sqrtSum(v ...float64) float64 {
	var s float64
	for _, x := range v {
		s += x * x
	}
	return math.Sqrt(s)
}
