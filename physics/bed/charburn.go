package bed

import (
	"math"

	"toplit/physics/gas"
)

// CarbonRatio is the mole ratio CO/CO2 that leaves the surface of burning char
// at T [K]. blend 1 is Arthur 1951, 2500·exp(−6240/T) [memory], measured with
// CO burning suppressed; blend 0 is 12·exp(−3300/T) (an open research code that
// cites Int. J. Numer. Methods Heat Fluid Flow, HFF-04-2018-0165). Between them
// the logarithm is interpolated. At 1000 K they are 4.9 and 0.44. Both belong
// to a model that burns CO in the gas separately; the fit 4.3·exp(−3390/T)
// already has that burning in it and must not be used with it.
func CarbonRatio(T, blend float64) float64 {
	if !(T > 1) {
		return 0
	}
	b := min(max(blend, 0), 1)
	return math.Exp((1-b)*(ln12-3300/T) + b*(ln2500-6240/T))
}

const (
	ln12   = 2.4849066497880004
	ln2500 = 7.824046010856292
)

// CarbonRatioBurned is CO/CO2 with the gas burning included, 4.3·exp(−3390/T)
// (open research codes; Evans, Emmons 1977 by memory). For comparison only.
func CarbonRatioBurned(T float64) float64 { return 4.3 * math.Exp(-3390/T) }

// CarbonPerOxygen is the moles of carbon one mole of O2 takes: Ω = 2(1+r)/(2+r)
// for the ratio r = CO/CO2; 1 for CO2 only, 2 for CO only.
func CarbonPerOxygen(r float64) float64 {
	if r > 1e12 {
		return 2
	}
	return 2 * (1 + r) / (2 + r)
}

// CharO2 is the surface rate of C + O2, first order, per external surface [m/s]
// at T [K]: 1.715·T·exp(−9000/T), an open layer-based particle model built on
// Ström, Thunman 2013. Another code has 430·exp(−9000/T) for oxygen (Morvan, Dupuy
// 2001), a fifth of it at 1250 K; above 1050 K transfer decides and it matters
// little.
func CharO2(T float64) float64 { return 1.715 * T * arrhenius(9000, T) }

// CharCO2 is the surface rate of C + CO2 → 2 CO and of C + H2O → CO + H2 [m/s]:
// 3.42·T·exp(−15600/T), same source as CharO2. Small while the bed flames,
// real in the char phase.
func CharCO2(T float64) float64 { return 3.42 * T * arrhenius(15600, T) }

func arrhenius(Ta, T float64) float64 {
	if !(T > 1) {
		return 0
	}
	return math.Exp(-Ta / T)
}

// Diffusivity of oxygen in the hot gas [m²/s]: 0.207e-4·(T/300)^1.75, open
// research codes; scaled by the pressure p [Pa].
func Diffusivity(T, p float64) float64 {
	if !(T > 0) || !(p > 0) {
		return 0
	}
	x := T / 300
	r := math.Sqrt(x)
	return 0.207e-4 * x * r * math.Sqrt(r) * 101325 / p
}

// Transfer is the mass transfer coefficient at the surface of a piece of size
// d [m] in a bed with the superficial mass flux G [kg/m² s] [m/s]:
//
//	Sh = 2 + 1.1·Sc^⅓·Re^0.6,  Re = G·d/μ
//
// Wakao, Funazkri 1978, fitted for Re 3 to 3000. Below 3 it is an upper bound.
// The gas counts as air.
func Transfer(G, d, T, p float64) float64 {
	if !(d > 0) {
		return 0
	}
	mu, D := gas.AirViscosity(T), Diffusivity(T, p)
	rho := p * airMolar / (gas.R * T)
	Sc := mu / (rho * D)
	Re := math.Abs(G) * d / mu
	return D / d * (2 + 1.1*math.Cbrt(Sc)*math.Pow(Re, 0.6))
}

const (
	airMolar  = 28.9655e-3 // dry air [kg/mol]
	airOxygen = 0.20946    // [mol/mol]
)

// CharIn is a layer of hot char with gas rising through it.
type CharIn struct {
	Flux     float64 // superficial gas mass flux at the bottom [kg/m² s]; reverse flow counts as none
	Oxygen   float64 // mole fraction of O2 in it
	Temp     float64 // of char and gas in the layer [K]
	Pressure float64 // [Pa]
	Depth    float64 // [m]
	Size     float64 // of a piece, by surface [m]
	Void     float64
	Blend    float64 // see CarbonRatio
}

// CharOut is what the layer does, per area of the bore.
type CharOut struct {
	Oxygen float64 // O2 taken [mol/m² s]
	Carbon float64 // carbon taken by oxygen [mol/m² s]
	CO     float64 // made by oxygen [mol/m² s]
	CO2    float64 // made by oxygen [mol/m² s]
	Share  float64 // of the oxygen that came, 0 to 1
	Again  float64 // share of a CO2 or H2O stream rising through the layer that carbon turns to CO, 0 to 1
}

// Char burns a layer of char:
//
//	k_eff = 1/(1/k(T) + 1/h_m),  a = 6(1−ε)/d,  share = 1 − exp(−k_eff·a·L/u)
//
// with u the superficial velocity at bed temperature. Oxygen is consumed within
// a few piece diameters once the bed is above about 1000 K; a thin or cool bed
// lets it through. Each mole takes Ω moles of carbon. Again is the same with
// the rate of C + CO2 over the whole layer; its heat is the user's to count.
//
// Range: Re to 1000, 700 to 1500 K. Accuracy: a factor 2 in the kinetic range
// below 1050 K, 30 % above. CO burning in the voids is not in it. Everything is
// zero for no flow, no depth or no oxygen, and defined for all inputs.
func Char(in CharIn) CharOut {
	var out CharOut
	G := max(in.Flux, 0)
	if !(in.Depth > 0 && in.Size > 0 && in.Temp > 1 && in.Pressure > 0 && in.Void < 1) {
		return out
	}
	h := Transfer(G, in.Size, in.Temp, in.Pressure)
	surface := 6 * (1 - in.Void) / in.Size * in.Depth
	u := G * gas.R * in.Temp / (airMolar * in.Pressure)
	out.Share = eaten(surface*series(CharO2(in.Temp), h), u)
	out.Again = eaten(surface*series(CharCO2(in.Temp), h), u)
	r := CarbonRatio(in.Temp, in.Blend)
	out.Oxygen = G / airMolar * max(in.Oxygen, 0) * out.Share
	out.Carbon = out.Oxygen * CarbonPerOxygen(r)
	out.CO2 = out.Carbon / (1 + r)
	out.CO = out.Carbon - out.CO2
	return out
}

// eaten is 1 − exp(−conductance/u), one at rest.
func eaten(conductance, u float64) float64 {
	if !(u > 0) {
		return 1
	}
	return -math.Expm1(-conductance / u)
}

func series(k, h float64) float64 {
	if !(k > 0 && h > 0) {
		return 0
	}
	return k * h / (k + h)
}

// GlowEnd is the temperature below which char no longer glows in a still bed
// [K]: the moment "glow end" of a burn is counted there.
const GlowEnd = 773.0
