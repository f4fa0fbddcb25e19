package gas

// Species is one chemical substance in one phase.
type Species int

// The core gases come first, in the order of a Mix. The others serve chemical
// equilibrium and checks.
const (
	N2 Species = iota
	O2
	Ar
	CO
	CO2
	H2
	H2O
	CH4

	OH
	O
	H
	NO
	NO2
	HO2
	C2H2
	C2H4
	C2H6
	C6H6
	C10H8
	CH3OH
	CH2O
	K
	KOH
	Graphite    // solid carbon
	LiquidWater // at the standard pressure of 1 bar
	StandardAir // air as one pseudo-species, 300 K and above, carbon dioxide 319 ppm

	NSpecies int = iota
)

// NCore is the number of core gases: N2, O2, Ar, CO, CO2, H2, H2O, CH4.
const NCore = 8

// Element is a chemical element.
type Element int

// The elements a species may hold.
const (
	Carbon Element = iota
	Hydrogen
	Oxygen
	Nitrogen
	Argon
	Potassium

	NElements int = iota
)

// Elements counts moles of atoms by Element.
type Elements [NElements]float64

// R is the molar gas constant [J/mol K] (CODATA 2018, exact).
const R = 8.314462618

// T0 is the temperature of the standard state and of heating values [K].
const T0 = 298.15

// P0 is the standard state pressure [Pa].
const P0 = 1e5

// atomicMass [kg/mol]: the atomic weights behind the molar masses of NASA
// TP-2002-211556, so that element and mass balances agree to rounding.
var atomicMass = Elements{12.0107e-3, 1.00794e-3, 15.9994e-3, 14.0067e-3, 39.948e-3, 39.0983e-3}

// AtomicMass is the molar mass of an element's atoms [kg/mol].
func AtomicMass(e Element) float64 { return atomicMass[e] }

// Mass is the mass of the counted atoms [kg].
func (e Elements) Mass() float64 {
	var m float64
	for i, n := range e {
		m += n * atomicMass[i]
	}
	return m
}

// Plus is e + s·o.
func (e Elements) Plus(o Elements, s float64) Elements {
	for i := range e {
		e[i] += s * o[i]
	}
	return e
}

// String is the formula as the data file writes it.
func (sp Species) String() string {
	if sp < 0 || int(sp) >= NSpecies {
		return "unknown species"
	}
	return nasa[sp].name
}

// Elements is the number of atoms of each element in one molecule.
func (sp Species) Elements() Elements { return nasa[sp].elements }

// MolarMass is the molar mass [kg/mol].
func (sp Species) MolarMass() float64 { return nasa[sp].mass }

// Condensed reports whether the species is a solid or a liquid.
func (sp Species) Condensed() bool { return nasa[sp].condensed }

// Range is the temperature range of the thermodynamic data [K].
func (sp Species) Range() (low, high float64) {
	s := &nasa[sp]
	return s.low, s.part[s.parts-1].high
}

// LHV is the lower heating value at 298.15 K [J/mol]: the heat of complete
// combustion to CO2, N2 and water vapour, zero for what does not burn. It is the
// difference of the absolute enthalpies, so an enthalpy balance that uses H
// closes with it exactly.
func (sp Species) LHV() float64 {
	e := nasa[sp].elements
	return sp.H(T0) + sp.OxygenDemand()*O2.H(T0) - e[Carbon]*CO2.H(T0) - e[Hydrogen]/2*H2O.H(T0) - e[Nitrogen]/2*N2.H(T0)
}

// OxygenDemand is the moles of O2 that burn one mole completely to CO2 and
// H2O [mol/mol]; negative for a species that brings more oxygen than it needs.
func (sp Species) OxygenDemand() float64 {
	e := nasa[sp].elements
	return e[Carbon] + e[Hydrogen]/4 - e[Oxygen]/2
}
