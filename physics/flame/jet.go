package flame

import (
	"math"

	"toplit/numeric"
)

// Jet is one row of equal secondary jets that enter a rising gas.
type Jet struct {
	Diameter float64 // of a hole [m]; the jet's own is smaller by √Cd, which counts in Cd
	Cd       float64 // discharge coefficient, 0 for 1
	Count    int
	Density  float64 // of the jet [kg/m³]
	Speed    float64 // of the jet at its vena contracta [m/s]
	Flow     float64 // of the whole row [kg/s]
	Slant    float64 // angle from radial [rad]
}

// Cross is the gas the jets enter.
type Cross struct {
	Density float64 // [kg/m³]
	Area    float64 // of the section [m²]
	Flow    float64 // [kg/s]
}

// Radius is that of a round section of the same area [m].
func (c Cross) Radius() float64 { return math.Sqrt(max(c.Area, 0) / math.Pi) }

// MomentumRatio is J = ρ_j·U_j²/(ρ_g·U_g²), the flow variable that rules the
// mixing of jets in a cross-flow (Holdeman 1993, Prog. Energy Combust. Sci.
// 19:31); +Inf when the gas stands still.
func MomentumRatio(jetDensity, jetSpeed, gasDensity, gasSpeed float64) float64 {
	return jetDensity * jetSpeed * jetSpeed / (gasDensity * gasSpeed * gasSpeed)
}

// Effective is the diameter that counts [m], d·√Cd: scatter falls with it
// (Ruggeri, Callaghan, Bowden 1950, NACA TN-2019).
func (j Jet) Effective() float64 {
	if j.Cd > 0 {
		return j.Diameter * math.Sqrt(j.Cd)
	}
	return j.Diameter
}

// Reach is how far the jets get [m]:
//
//	Y = 1.25·d·√J·ṁ_g/(ṁ_g + ṁ_j)·cos(slant)
//
// for a row in a tube (Lefebvre, Gas Turbine Combustion, ch. 4 [memory]).
// Written with flows instead of J it is 1.25·d·√(ρ_j·ρ_g)·U_j·A/(ṁ_g + ṁ_j), which
// stays finite when the gas stands still. Range: made for turbulent jets, Re
// above 1e4; at the 100 to 400 of a stove the jet spreads sooner (Abdel-Rahman,
// Al-Fahed, Chakroun 1996), so this is an upper bound. It may exceed the radius.
func (j Jet) Reach(c Cross) float64 {
	total := max(c.Flow, 0) + max(j.Flow, 0)
	if !(total > 0) || !(j.Density > 0) || !(c.Density > 0) {
		return 0
	}
	return 1.25 * j.Effective() * math.Sqrt(j.Density*c.Density) * max(j.Speed, 0) * c.Area / total * math.Cos(j.Slant)
}

// SingleReach is the reach of one jet alone in a wide cross-flow [m]:
// 1.15·d·√J·sin(angle), angle against the flow [rad] (Lefebvre [memory]).
func SingleReach(d, J, angle float64) float64 { return 1.15 * d * math.Sqrt(J) * math.Sin(angle) }

// ReachRatio is Reach over the radius of the section, or over that of the ring
// the gas must pass when ring [m] is given: 1 means the jets just meet in the
// middle, which practice finds cleanest.
func (j Jet) ReachRatio(c Cross, ring float64) float64 {
	r := c.Radius()
	if ring > 0 {
		r = min(r, ring)
	}
	if !(r > 0) {
		return 0
	}
	return j.Reach(c) / r
}

// Reynolds is ρ·U·d/μ of the jet for the viscosity mu [Pa s].
func (j Jet) Reynolds(mu float64) float64 {
	if !(mu > 0) {
		return 0
	}
	return j.Density * j.Speed * j.Effective() / mu
}

// Spacing constant C = (S/H)·√J at which jets mix a round section best from one
// side: 2.5 [memory of the NASA work]; opposed slots gave 1.5 to 2.25 (Bain,
// Smith, Holdeman 1994, NASA TM-106434).
const Spacing = 2.5

// BestCount is the number of round jets that mixes a round section best:
// n = π·√(2·J)/C, from C with the spacing taken at the radius that halves the
// area. It is not a whole number.
func BestCount(J, C float64) float64 {
	if C <= 0 {
		C = Spacing
	}
	return math.Pi * math.Sqrt(2*J) / C
}

// Entrained is the gas a free round jet has drawn in at the distance x [m] over
// what it started with: 0.32·(x/d)·√(ρ_∞/ρ_0) − 1, not negative (Ricou, Spalding
// 1961, coefficient [memory]). Burning takes up to 30 % off; within a diameter
// of the hole a third of it (Hill 1972).
func Entrained(x, d, ambient, jet float64) float64 {
	if !(d > 0 && jet > 0) {
		return 0
	}
	return max(0.32*x/d*math.Sqrt(ambient/jet)-1, 0)
}

// Mixing is the prior share of the gas that finds its air in the flame, from
// reach ratio, number of jets over BestCount, and swirl number:
//
//	1 − 0.12·(1 − q),  q = reach term · count term, raised by swirl
//
// The reach term rises to one at 0.7 and falls slowly beyond 1.5; fewer jets
// than the best number cost up to half; strong swirl makes up half of what is
// missing. Judgement throughout, ± 0.06: builders agree only on the signs (jets
// that just reach the middle, more of them, static mixers).
func Mixing(reach, countRatio, swirl float64) float64 {
	q := numeric.SoftMin(max(reach, 0)/0.7, 1, 0.4)
	over := numeric.SoftPlus(reach-1.5, 0.3) / 2
	q /= 1 + over*over
	q *= 0.5 + 0.5*numeric.SoftMin(max(countRatio, 0), 1, 0.3)
	q += 0.5 * (1 - q) * swirl * swirl / (swirl*swirl + 0.36)
	return 1 - 0.12*(1-q)
}
