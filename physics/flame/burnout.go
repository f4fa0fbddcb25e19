package flame

import (
	"math"

	"toplit/physics/gas"
)

// Howard is the global rate of CO burning, first order in CO [1/s], at T [K]
// and p [Pa] for the mole fractions of steam and oxygen:
//
//	1.3e14·[H2O]^½·[O2]^½·exp(−30000/RT)
//
// with concentrations in mol/cm³ and R in cal/mol K (Howard, Williams, Fine
// 1973 [memory]). Range about 840 to 2360 K [memory].
func Howard(T, xH2O, xO2, p float64) float64 {
	if !(T > 1) {
		return 0
	}
	c := p / (gas.R * T) * 1e-6
	return 1.3e14 * math.Sqrt(max(xH2O, 0)*max(xO2, 0)) * c * math.Exp(-30000/(1.98720425864*T))
}

// DryerGlassman is 10^14.6·[H2O]^½·[O2]^¼·exp(−40000/RT) (1973) [memory], in the
// terms of Howard.
func DryerGlassman(T, xH2O, xO2, p float64) float64 {
	if !(T > 1) {
		return 0
	}
	c := p / (gas.R * T) * 1e-6
	const a = 3.9810717055349725e14 // 10^14.6
	return a * math.Sqrt(max(xH2O, 0)*c) * math.Sqrt(math.Sqrt(max(xO2, 0)*c)) * math.Exp(-40000/(1.98720425864*T))
}

// BurnoutTime is the time for 99 % of the CO to burn [s] at constant T, steam
// and oxygen: ln 100 over the geometric mean of the two rates. They agree
// within 1.5 between 1050 and 1150 K and differ by 2.5 at 900 and 1300 K: take
// that as the accuracy. +Inf without oxygen or steam.
func BurnoutTime(T, xH2O, xO2, p float64) float64 {
	k := math.Sqrt(Howard(T, xH2O, xO2, p) * DryerGlassman(T, xH2O, xO2, p))
	return math.Log(100) / k
}

// Burned is the share of CO that burns in the time t [s] at constant T, steam
// and oxygen, 0 to 1, by the geometric mean of the two rates. Below an oxygen
// fraction of 1e-4 the rate falls linearly to zero instead of with the root,
// so that an integrator meets no infinite slope.
func Burned(T, xH2O, xO2, p, t float64) float64 {
	const (
		small = 1e-4
		a     = 2.27494905815393e14 // √(1.3e14·10^14.6)
	)
	x := max(xO2, 0)
	if !(T > 1 && x > 0 && xH2O > 0 && p > 0) {
		return 0
	}
	c := p / (gas.R * T) * 1e-6
	// x^⅜, the mean of ½ and ¼, rounded at zero: x·(x + small)^(−⅝).
	k := a * math.Sqrt(xH2O*c) * x * math.Exp(0.375*math.Log(c)-0.625*math.Log(x+small)-35000/(1.98720425864*T))
	return -math.Expm1(-k * max(t, 0))
}

// Residence is the time the gas stays in a volume V [m³] at density rho [kg/m³]
// and flow [kg/s] [s]; +Inf without flow.
func Residence(V, rho, flow float64) float64 {
	if !(flow > 0) {
		return math.Inf(1)
	}
	return V * rho / flow
}

// BurnoutRatio is residence over BurnoutTime. At 3 and above, in gas of at
// least 1123 K with 3 to 5 % of oxygen, CO has time to burn (design rule,
// judgement; 850 °C after Boman et al. 2005 as quoted by a stove laboratory).
func BurnoutRatio(residence, burnout float64) float64 {
	if math.IsInf(burnout, 1) || !(burnout > 0) {
		return 0
	}
	return residence / burnout
}
