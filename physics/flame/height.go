package flame

import (
	"math"

	"toplit/numeric"
)

const (
	gravity = 9.80665 // [m/s²]
	airCp   = 1005.0  // [J/kg K]
)

// Qstar is the dimensionless heat release Q* = Q/(ρ·cp·T·√g·D^2.5) of a fire of
// Q [W] and diameter D [m] in air of density rho [kg/m³] and temperature T [K].
func Qstar(Q, D, rho, T float64) float64 {
	if !(D > 0) {
		return 0
	}
	return Q / (rho * airCp * T * math.Sqrt(gravity) * D * D * math.Sqrt(D))
}

// Heskestad is the mean height of a free buoyant flame [m]: L = 0.235·Q^0.4 −
// 1.02·D, Q in kW, D in m (as in the FDS technical reference's correlations).
// Range Q* from about 0.1 to 1e4 [memory]; negative below. No jets, no premixing:
// the flame of a stove with good jets is shorter.
func Heskestad(Q, D float64) float64 {
	return 0.235*math.Pow(max(Q, 0)/1000, 0.4) - 1.02*D
}

// HeskestadQ is the same correlation in its dimensionless form, L/D = 3.7·Q*^0.4
// − 1.02 (FDS technical reference) [m]: 3 to 6 % lower than Heskestad, because
// the two roundings of one fit do not quite agree.
func HeskestadQ(q, D float64) float64 { return D * (3.7*math.Pow(max(q, 0), 0.4) - 1.02) }

// Height is Heskestad held positive with a smooth corner of a quarter of D, so
// that it fades to zero with the fire [m].
func Height(Q, D float64) float64 {
	if !(Q > 0) {
		return 0
	}
	return numeric.SoftPlus(Heskestad(Q, D), D/4)
}

// Zukoski is the height [m] by L/D = 3.3·Q*^(2/3) below Q* = 1 and
// 3.3·Q*^(2/5) above [memory].
func Zukoski(q, D float64) float64 {
	if q < 1 {
		return 3.3 * D * math.Pow(max(q, 0), 2.0/3)
	}
	return 3.3 * D * math.Pow(q, 0.4)
}

// Thomas is the height [m] by L/D = 42·(m″/(ρ·√(g·D)))^0.61 (Thomas 1963
// [memory]) for the fuel flux m″ [kg/m² s]: wood cribs.
func Thomas(flux, D, rho float64) float64 {
	if !(D > 0) {
		return 0
	}
	return 42 * D * math.Pow(max(flux, 0)/(rho*math.Sqrt(gravity*D)), 0.61)
}

// Roper is the height of a laminar flame on a round port [m]:
//
//	L = 1330·Q_F·(T_∞/T_F)/ln(1 + 1/S)
//
// with the fuel flow Q_F [m³/s at T_F], fuel temperature T_F, air temperature
// T_∞ [K] and S moles of air per mole of fuel for complete combustion (Roper
// 1977 [memory]; sizes confirmed by Roper, Smith, Cunningham 1977). A wood-gas
// flame split over many rim cells is this short.
func Roper(Q, fuelT, airT, S float64) float64 {
	if !(S > 0) || !(fuelT > 0) {
		return 0
	}
	return 1330 * Q * (airT / fuelT) / math.Log1p(1/S)
}

// GapRatio is flame height over the gap to the pot: above 1 the flame meets
// the pot and part of its CO is quenched there.
func GapRatio(height, gap float64) float64 {
	if !(gap > 0) {
		return math.Inf(1)
	}
	return height / gap
}
