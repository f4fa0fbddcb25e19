package fuel

import "toplit/physics/gas"

// Tar is the lumped condensable vapour of wood pyrolysis, CH1.84O0.96: 29.2 g
// per mole of carbon, about 95 g/mol as a molecule. The formula is that of an
// open wood-pyrolysis code; it is close to the sugars and acids that make up
// primary tar (levoglucosan is CH1.67O0.83).
func Tar() Analysis {
	var e gas.Elements
	e[gas.Carbon], e[gas.Hydrogen], e[gas.Oxygen] = 1, 1.84, 0.96
	return FromElements(e)
}

// TarMolarMass is the molar mass that turns tar mass into moles of vapour
// [kg/mol], as the same code has it.
const TarMolarMass = 95e-3

// tarVaporisation is the heat that turns condensed tar into vapour at 298.15 K
// [J/kg]. Levoglucosan sublimes with about 125 kJ/mol, acetic acid evaporates
// with 52 kJ/mol, so 0.8 MJ/kg either way, less the share of permanent light
// compounds: 0.6 ± 0.2 [memory].
const tarVaporisation = 0.6e6

// TarFormation is the enthalpy of tar vapour at 298.15 K [J/kg], elements zero.
func TarFormation() float64 { return Tar().Formation() + tarVaporisation }

// TarEnthalpy is the enthalpy of tar vapour at T [K], formation included
// [J/kg], with cp = 1.0 + 1.5e-3·T kJ/kg K between 298 K and T held at 1500 K:
// 1.45 kJ/kg K at 300 K, 2.5 at 1000 K, the range of oxygenated vapours
// [memory], ± 20 %.
func TarEnthalpy(T float64) float64 { return tarFormation + tarSensible(T) }

// TarCp is dTarEnthalpy/dT [J/kg K].
func TarCp(T float64) float64 { return tarCp0 + tarCp1*min(max(T, 250), 1500) }

const (
	tarCp0 = 1.0e3
	tarCp1 = 1.5
)

func tarSensible(T float64) float64 {
	t := min(max(T, 250), 1500)
	return tarCp0*(t-gas.T0) + tarCp1/2*(t*t-gas.T0*gas.T0) + (tarCp0+tarCp1*t)*(T-t)
}

var tarFormation = TarFormation()

// TarLHV is the heat of burning tar vapour to CO2 and water vapour at 298.15 K
// [J/kg], closed with TarFormation.
func TarLHV() float64 {
	e := Tar().Elements()
	return tarFormation - e[gas.Carbon]*enthalpyCO2 - e[gas.Hydrogen]/2*enthalpySteam
}
