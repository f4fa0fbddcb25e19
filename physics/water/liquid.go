package water

import "math"

// The fits use t = (T − 273.15 K)/100 K. A test refits them from their points.
var (
	latent  = [...]float64{2500.93215e3, -237.548909e3, 5.50097431e3, -12.4115343e3}                             // [J/kg]
	density = [...]float64{999.850325, 6.1770066, -83.4125849, 65.0975531, -40.4230502, 11.0642252}              // [kg/m³]
	heat    = [...]float64{4219.01004, -314.76364, 977.789159, -1572.58246, 1345.07313, -437.769029}             // [J/kg K]
	heatInt = [...]float64{0, 421901.004, -15738.182, 32592.9719667, -39314.5615, 26901.4626, -7296.15048333333} // its integral by T [J/kg]
)

const (
	coldest = 268.15 // [K], below it the liquid's properties are held
	hottest = 393.15 // [K], above it too
)

func horner(c []float64, t float64) (v float64) {
	for i := len(c) - 1; i >= 0; i-- {
		v = v*t + c[i]
	}
	return v
}

func scaled(T float64) float64 {
	return (math.Min(math.Max(T, coldest), hottest) - zeroC) / 100
}

// LatentHeat is the heat of vaporisation on the saturation line [J/kg] at T
// [K]: own cubic in t, fitted to IF97 values. Within 0.02 kJ/kg (0.001 %) from
// 0 to 106 °C; held outside −5 to 120 °C.
func LatentHeat(T float64) float64 { return horner(latent[:], scaled(T)) }

// Density is the density of liquid water near atmospheric pressure [kg/m³] at
// T [K]: own quintic in t, fitted to IF97 values. Within 0.01 kg/m³ from 0 to
// 110 °C; held outside −5 to 120 °C.
func Density(T float64) float64 { return horner(density[:], scaled(T)) }

// Cp is the heat capacity of liquid water near atmospheric pressure [J/kg K]
// at T [K]: own quintic in t, fitted to IF97 values. Within 0.6 J/kg K
// (0.015 %) from 0 to 110 °C; held outside −5 to 120 °C.
func Cp(T float64) float64 { return horner(heat[:], scaled(T)) }

// Enthalpy is the specific enthalpy of liquid water at 101325 Pa [J/kg] at T
// [K], by the zero of IF97 (liquid at the triple point): the exact integral of
// Cp, so heat balances close. Within 10 J/kg of IF97 from 0 to 100 °C.
func Enthalpy(T float64) float64 {
	// IF97 at 0.01 °C and 101325 Pa gives 103.2 J/kg, of which 42.2 J/kg is
	// the last hundredth of a kelvin.
	h := 61.0 + horner(heatInt[:], scaled(T))
	if T < coldest || T > hottest {
		h += Cp(T) * (T - math.Min(math.Max(T, coldest), hottest))
	}
	return h
}

// HeatToWarm is the heat that takes one kilogram of liquid from T0 to T1 [J/kg].
func HeatToWarm(T0, T1 float64) float64 { return Enthalpy(T1) - Enthalpy(T0) }
