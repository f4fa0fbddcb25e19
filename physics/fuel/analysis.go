package fuel

import (
	"fmt"
	"math"

	"toplit/physics/gas"
)

// Analysis is the dry composition of a fuel, a char or a tar as mass
// fractions. A zero Sulfur or Ash means none.
type Analysis struct {
	Carbon, Hydrogen, Oxygen, Nitrogen, Sulfur, Ash float64
}

// Molar masses [kg/mol]. Carbon, hydrogen, oxygen and nitrogen are those of
// package gas, so that element balances close to rounding.
var (
	massC = gas.AtomicMass(gas.Carbon)
	massH = gas.AtomicMass(gas.Hydrogen)
	massO = gas.AtomicMass(gas.Oxygen)
	massN = gas.AtomicMass(gas.Nitrogen)
)

const massS = 32.06e-3 // [kg/mol], IUPAC conventional atomic weight of sulfur

// Sum is the sum of all fractions; 1 for a complete analysis.
func (a Analysis) Sum() float64 {
	return a.Carbon + a.Hydrogen + a.Oxygen + a.Nitrogen + a.Sulfur + a.Ash
}

// Normal is the analysis scaled to the sum 1. A published analysis that falls
// short (a moist sample, an element not measured) should not be scaled blindly.
func (a Analysis) Normal() Analysis {
	s := a.Sum()
	if !(s > 0) {
		return a
	}
	return a.times(1 / s)
}

func (a Analysis) times(s float64) Analysis {
	return Analysis{a.Carbon * s, a.Hydrogen * s, a.Oxygen * s, a.Nitrogen * s, a.Sulfur * s, a.Ash * s}
}

// AshFree is the analysis without its ash and sulfur, scaled to the sum 1 ("daf").
func (a Analysis) AshFree() Analysis {
	a.Ash, a.Sulfur = 0, 0
	return a.Normal()
}

// Check says what is wrong with an analysis a user typed.
func (a Analysis) Check() error {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
	}{
		{"carbon", a.Carbon, 0.25, 0.98},
		{"hydrogen", a.Hydrogen, 0, 0.13},
		{"oxygen", a.Oxygen, 0, 0.55},
		{"nitrogen", a.Nitrogen, 0, 0.10},
		{"sulfur", a.Sulfur, 0, 0.05},
		{"ash", a.Ash, 0, 0.60},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) {
			return fmt.Errorf("fuel analysis: dry %s fraction %g is outside %g to %g", f.name, f.v, f.lo, f.hi)
		}
	}
	if s := a.Sum(); math.Abs(s-1) > 0.03 {
		return fmt.Errorf("fuel analysis: dry fractions add up to %g, 0.97 to 1.03 is accepted", s)
	}
	return nil
}

// Elements is the atoms in one kilogram [mol/kg]. Ash and sulfur are left out.
func (a Analysis) Elements() gas.Elements {
	var e gas.Elements
	e[gas.Carbon] = a.Carbon / massC
	e[gas.Hydrogen] = a.Hydrogen / massH
	e[gas.Oxygen] = a.Oxygen / massO
	e[gas.Nitrogen] = a.Nitrogen / massN
	return e
}

// FromElements is the analysis, ash-free and of sum 1, of a mass made of these
// atoms; the zero Analysis for nothing.
func FromElements(e gas.Elements) Analysis {
	return Analysis{
		Carbon:   e[gas.Carbon] * massC,
		Hydrogen: e[gas.Hydrogen] * massH,
		Oxygen:   e[gas.Oxygen] * massO,
		Nitrogen: e[gas.Nitrogen] * massN,
	}.Normal()
}

// HHV is the gross heating value at constant volume [J/kg dry]:
//
//	HHV = 0.3491·C + 1.1783·H + 0.1005·S − 0.1034·O − 0.0151·N − 0.0211·A  MJ/kg, dry wt%
//
// Channiwala, Parikh, Fuel 81 (2002) 1051–1063. Range: C 0–92.25, H 0.43–25.15,
// O 0–50, N 0–5.6, S 0–94.08, ash 0–71.4 wt%. Accuracy: mean absolute error
// 1.45 % over 275 fuels, no bias. Nothing changed.
func (a Analysis) HHV() float64 {
	return 1e8 * (0.3491*a.Carbon + 1.1783*a.Hydrogen + 0.1005*a.Sulfur - 0.1034*a.Oxygen - 0.0151*a.Nitrogen - 0.0211*a.Ash)
}

// LHV is the net heating value at constant pressure, dry basis [J/kg dry]:
//
//	q_p,net,d = q_V,gr,d − 0.2122·H − 0.0008·(O + N)  MJ/kg, dry wt%
//
// Form of ISO 18125:2017, coefficients [memory]. They are what the heat of
// vaporisation of water at 25 °C and the work of the gases give.
func (a Analysis) LHV() float64 {
	return a.HHV() - 21.22e6*a.Hydrogen - 0.08e6*(a.Oxygen+a.Nitrogen)
}

// WetLHV is the net heating value as received [J/kg wet] at the moisture M [kg
// water per kg wet fuel]:
//
//	q_p,net,ar = q_p,net,d·(1 − 0.01·M) − 0.02443·M  MJ/kg, M in wt%
//
// ISO 18125:2017, coefficients [memory].
func (a Analysis) WetLHV(M float64) float64 { return a.LHV()*(1-M) - 2.443e6*M }

// OxygenDemand is the oxygen that burns one kilogram of dry fuel completely
// [mol O2/kg dry]:
//
//	n = C/12.011 + H/4.032 − O/31.998 + S/32.06
func (a Analysis) OxygenDemand() float64 {
	return a.Carbon/massC + a.Hydrogen/(4*massH) - a.Oxygen/(2*massO) + a.Sulfur/massS
}

// Dry air as this program takes it everywhere: 20.946 % oxygen by volume and
// 28.9655 g/mol (CIPM-2007 composition, argon and CO2 counted).
const (
	airOxygen = 0.20946    // [mol O2 per mol dry air]
	airMass   = 28.9655e-3 // [kg/mol]
)

// AirDemand is the dry air that burns one kilogram of dry fuel completely
// [kg/kg dry]: OxygenDemand/0.20946·28.9655 g/mol. With 21/79 air it would be
// 0.65 % lower; this program uses one convention throughout.
func (a Analysis) AirDemand() float64 { return a.OxygenDemand() / airOxygen * airMass }

// Enthalpies of the products of complete combustion at 298.15 K [J/mol].
var (
	enthalpyCO2   = gas.CO2.H(gas.T0)
	enthalpySteam = gas.H2O.H(gas.T0)
)

const (
	enthalpySO2 = -296.8e3 // CODATA key values, Cox et al. 1989 [memory]
	// Vaporisation at 25 °C; CODATA: −241.826 − (−285.830) kJ/mol. The gas
	// tables' own liquid water is that of NASA TP-2002-211556.
	vaporisation = 44.004e3 // [J/mol]
)

// LiquidWater is the enthalpy of formation of liquid water at 298.15 K [J/kg],
// consistent with the steam of package gas.
func LiquidWater() float64 { return (enthalpySteam - vaporisation) / gas.H2O.MolarMass() }

// Formation is the enthalpy of formation at 298.15 K [J/kg], elements zero: the
// enthalpy that makes complete combustion release exactly HHV. The step from
// constant volume to constant pressure is R·T·(H/4 − O/2 − N/2) per mole of
// atoms. Accuracy: that of HHV, about 0.3 MJ/kg.
func (a Analysis) Formation() float64 {
	e := a.Elements()
	h := a.HHV() + gas.R*gas.T0*(e[gas.Hydrogen]/4-e[gas.Oxygen]/2-e[gas.Nitrogen]/2)
	h += e[gas.Carbon]*enthalpyCO2 + e[gas.Hydrogen]/2*(enthalpySteam-vaporisation)
	return h + a.Sulfur/massS*enthalpySO2
}
