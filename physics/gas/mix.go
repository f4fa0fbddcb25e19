package gas

// Mix is an amount of the core gases [mol], or their flow [mol/s]: N2, O2, Ar,
// CO, CO2, H2, H2O, CH4. Methods return totals in the same sense, so a flow
// gives watts where an amount gives joules. The zero value is nothing.
type Mix [NCore]float64

// core caches what a mixture needs of each core gas.
var core = func() (c struct{ mass, lhv, oxygen Mix }) {
	for i := range c.mass {
		sp := Species(i)
		c.mass[i] = sp.MolarMass()
		if sp != O2 {
			c.lhv[i], c.oxygen[i] = sp.LHV(), sp.OxygenDemand()
		}
	}
	for _, sp := range []Species{N2, Ar, CO2, H2O} {
		c.lhv[sp], c.oxygen[sp] = 0, 0 // exactly, without rounding
	}
	return c
}()

func (m *Mix) dot(w *Mix) float64 {
	return m[0]*w[0] + m[1]*w[1] + m[2]*w[2] + m[3]*w[3] + m[4]*w[4] + m[5]*w[5] + m[6]*w[6] + m[7]*w[7]
}

// Moles is the total amount [mol].
func (m *Mix) Moles() float64 { return m[0] + m[1] + m[2] + m[3] + m[4] + m[5] + m[6] + m[7] }

// Mass is the total mass [kg].
func (m *Mix) Mass() float64 { return m.dot(&core.mass) }

// MolarMass is the mean molar mass [kg/mol], zero for an empty mix.
func (m *Mix) MolarMass() float64 {
	n := m.Moles()
	if n == 0 {
		return 0
	}
	return m.Mass() / n
}

// Density is the density of the mixture [kg/m³] at T [K] and p [Pa] by the
// ideal gas law, ρ = p·M/(R·T).
func (m *Mix) Density(T, p float64) float64 { return p * m.MolarMass() / (R * T) }

// H is the absolute enthalpy [J] at T [K]. See Species.H.
func (m *Mix) H(T float64) float64 {
	var h float64
	for i, n := range m {
		if n != 0 {
			h += n * Species(i).H(T)
		}
	}
	return h
}

// Cp is the heat capacity [J/K] at T [K]. See Species.Cp.
func (m *Mix) Cp(T float64) float64 {
	var c float64
	for i, n := range m {
		if n != 0 {
			c += n * Species(i).Cp(T)
		}
	}
	return c
}

// LHV is the heat of burning the mixture completely to CO2 and water vapour at
// 298.15 K [J]. Free oxygen in the mixture changes nothing.
func (m *Mix) LHV() float64 { return m.dot(&core.lhv) }

// OxygenDemand is the O2 that burns the combustible gases completely [mol];
// the mixture's own free O2 is not subtracted.
func (m *Mix) OxygenDemand() float64 { return m.dot(&core.oxygen) }

// EnergyPerOxygen is the heat of combustion per mass of oxygen the gas needs
// [J/kg]: 17.7 MJ for CO, 15.1 for H2, 12.5 for CH4. Zero when nothing burns.
func (m *Mix) EnergyPerOxygen() float64 {
	d := m.OxygenDemand()
	if d == 0 {
		return 0
	}
	return m.LHV() / (d * core.mass[O2])
}

// Elements is the atoms in the mixture [mol].
func (m *Mix) Elements() Elements {
	var e Elements
	for i, n := range m {
		e = e.Plus(Species(i).Elements(), n)
	}
	return e
}

// Plus is m + s·o.
func (m Mix) Plus(o Mix, s float64) Mix {
	for i := range m {
		m[i] += s * o[i]
	}
	return m
}

// Times is s·m.
func (m Mix) Times(s float64) Mix {
	for i := range m {
		m[i] *= s
	}
	return m
}

// Fractions is the mole fractions, all zero for an empty mix.
func (m Mix) Fractions() Mix {
	n := m.Moles()
	if n == 0 {
		return Mix{}
	}
	return m.Times(1 / n)
}

// Burned is the mixture after the fraction share (0 to 1) of each combustible
// gas has burned to CO2 and H2O. Where oxygen does not suffice, the share
// falls to what it allows, the same for every combustible gas: a balance, not
// a statement about which gas burns first.
func (m Mix) Burned(share float64) Mix {
	need := m.OxygenDemand()
	if need <= 0 || share <= 0 {
		return m
	}
	share = min(share, 1, max(m[O2], 0)/need)
	co, h2, ch4 := share*m[CO], share*m[H2], share*m[CH4]
	m[CO] -= co
	m[H2] -= h2
	m[CH4] -= ch4
	m[CO2] += co + ch4
	m[H2O] += h2 + 2*ch4
	m[O2] -= share * need
	return m
}
