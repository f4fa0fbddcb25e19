// Package air is the weather round a stove as numbers: the standard atmosphere
// by altitude, moist air, its density and its gases.
//
// One convention holds in the whole program. Dry air is, by moles, 0.20946 O2,
// 0.0004 CO2, 0.009293 Ar and the rest N2; its molar mass is 28.9655 g/mol, that
// of CIPM-2007. Argon stands for all inert traces, its share set so that the
// molar mass comes out; the true share is 0.00933. Burning one kilogram of O2
// takes 4.322 kg of this air.
//
// Valid range: −5000 to 11000 m for the standard atmosphere; −20 to 50 °C and
// 60 to 110 kPa for moist air. Air here is an ideal gas, which costs up to
// 0.07 % in density; DensityCIPM is there to show it.
//
// Sources: ISO 2533:1975; Picard, Davis, Gläser, Fujii 2008, Metrologia 45,
// 149 (CIPM-2007). It does not know weather that changes, wind or dust; a
// barometer reading is always better than an altitude, since weather moves the
// pressure by 2 kPa either way.
//
// The equations stand in docs/model/air.md.
package air

import (
	"math"

	"toplit/physics/gas"
	"toplit/physics/water"
)

// Dry air, by moles.
const (
	FractionO2  = 0.20946
	FractionCO2 = 0.0004
	FractionAr  = 0.009293
	FractionN2  = 1 - FractionO2 - FractionCO2 - FractionAr
)

// Dry is one mole of dry air.
func Dry() gas.Mix {
	return gas.Mix{gas.N2: FractionN2, gas.O2: FractionO2, gas.Ar: FractionAr, gas.CO2: FractionCO2}
}

// State is the air at a place: temperature [K], station pressure [Pa] and
// relative humidity over liquid water (0 to 1).
type State struct {
	T, P, RH float64
}

// Standard is dry standard air at the geopotential altitude H [m].
func Standard(H float64) State { return State{T: StandardTemperature(H), P: StandardPressure(H)} }

// enhancement is the factor by which the vapour pressure in air exceeds that of
// water alone: f = 1.00062 + 3.14e-8·p + 5.6e-7·t², t in °C; Picard et al.
// 2008, eq. (A1.2).
func enhancement(T, p float64) float64 {
	t := T - 273.15
	return 1.00062 + 3.14e-8*p + 5.6e-7*t*t
}

// VapourFraction is the mole fraction of water vapour,
// xv = RH·f·ps(T)/p, with ps from IAPWS-IF97 and f from Picard et al. 2008, eq.
// (A1.2). Held between 0 and 1. Accuracy 0.1 % of itself, for a given RH.
func (s State) VapourFraction() float64 {
	x := s.RH * enhancement(s.T, s.P) * water.SaturationPressure(s.T) / s.P
	return math.Min(math.Max(x, 0), 1)
}

// VapourPressure is the partial pressure of water vapour [Pa].
func (s State) VapourPressure() float64 { return s.VapourFraction() * s.P }

// HumidityRatio is the mass of water vapour per mass of dry air [kg/kg].
func (s State) HumidityRatio() float64 {
	x, dry := s.VapourFraction(), Dry()
	return x * gas.H2O.MolarMass() / ((1 - x) * dry.MolarMass())
}

// Mix is one mole of the moist air.
func (s State) Mix() gas.Mix {
	x := s.VapourFraction()
	m := Dry().Times(1 - x)
	m[gas.H2O] += x
	return m
}

// Flow is the gases [mol/s] in a mass flow [kg/s] of the moist air; with a mass
// in kilograms it gives moles.
func (s State) Flow(mass float64) gas.Mix {
	m := s.Mix()
	return m.Times(mass / m.Mass())
}

// Density is the density of the moist air as an ideal gas [kg/m³]. It is lower
// than DensityCIPM by 0.02 to 0.07 % between 0 and 40 °C.
func (s State) Density() float64 {
	m := s.Mix()
	return m.Density(s.T, s.P)
}

// DensityAt is the density [kg/m³] of air of the same moisture warmed or cooled
// to T [K] at the same pressure.
func (s State) DensityAt(T float64) float64 {
	m := s.Mix()
	return m.Density(T, s.P)
}

// BoilingPoint is the temperature at which water boils under this air [K].
func (s State) BoilingPoint() float64 { return water.SaturationTemperature(s.P) }

// DryAirNeed is the mass of dry air [kg] that holds the given moles of O2.
func DryAirNeed(oxygen float64) float64 {
	dry := Dry()
	return oxygen / FractionO2 * dry.MolarMass()
}
