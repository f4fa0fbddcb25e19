package heat

import "math"

// evaporation is the heat an open water surface loses by evaporation per
// vapour pressure difference [W/m2 Pa].
const evaporation = 0.105

// Spreads of the evaporation law, for sampling.
const (
	EvaporationSpread = 2.0        // the coefficient is good to a factor of two either way
	LidLow, LidHigh   = 0.10, 0.25 // part of the open pot's evaporation that a loose lid leaves [judgement]
)

// Evaporation returns the heat [W/m2] an open water surface in still air loses
// by evaporation: 105 W/m2 per kPa between the saturation pressure at the
// surface and the vapour pressure of the air (both [Pa]). Negative, vapour
// condenses.
//
// Source: fit to the evaporation losses of open water tanks in still air of
// 15.6 °C (Engineering ToolBox, from a heating handbook), 38 to 99 °C, within
// 5 % above 48 °C; a factor of two for another draught, pot or stirring. The
// vapour pressure carries it to altitude. Below boiling only: at boiling the
// surplus leaves as steam.
func Evaporation(surface, air float64) float64 { return evaporation * (surface - air) }

// OpenWater returns what a water surface of a diameter [m] at t [K] loses to
// air at ta besides evaporation [W/m2]: natural convection off a hot face up
// and radiation at emissivity 0.96.
func OpenWater(diameter, t, ta, pressure float64) float64 {
	f := AirFilm(0.5*(t+ta), pressure)
	return Disc(f, diameter, t-ta)*(t-ta) + Small(0.96, t, ta)
}

// BoilShare returns the part of a pot's surplus heat that leaves as steam with
// the water at t and saturation at sat [K]: 0 up to width below saturation, 1
// from saturation on, smooth between, so that the water comes to saturation
// and never passes it. The width is a device of the integrator, not physics:
// 0.2 K moves the boil by well under a second. Steam made is the share times
// the surplus over the heat of evaporation.
func BoilShare(t, sat, width float64) float64 {
	x := math.Min(math.Max((t-sat)/width+1, 0), 1)
	return x * x * (3 - 2*x)
}
