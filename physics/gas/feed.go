package gas

import (
	"fmt"
	"math"
)

// Feed is what goes into a reactor or a flame: atoms and their total absolute
// enthalpy. A fuel known only by its elements and heating value enters as
// Feed{Elements: …, H: …} with H from FormationEnthalpy.
type Feed struct {
	Elements Elements // [mol]
	H        float64  // [J]
}

// Plus adds an amount [mol] of a species at T [K].
func (f Feed) Plus(sp Species, mol, T float64) Feed {
	f.Elements = f.Elements.Plus(sp.Elements(), mol)
	f.H += mol * sp.H(T)
	return f
}

// PlusMix adds a mixture at T [K].
func (f Feed) PlusMix(m Mix, T float64) Feed {
	f.Elements = f.Elements.Plus(m.Elements(), 1)
	f.H += m.H(T)
	return f
}

// FormationEnthalpy is the absolute enthalpy at 298.15 K [J] of a fuel of
// known elements [mol] and lower heating value lhv [J], both for the same
// amount: lhv plus the enthalpy of its CO2 and water vapour.
func FormationEnthalpy(e Elements, lhv float64) float64 {
	return lhv + e[Carbon]*CO2.H(T0) + e[Hydrogen]/2*H2O.H(T0)
}

// CondensationHeat is the difference of the higher and the lower heating value
// [J] for fuel with the given moles of hydrogen atoms: the heat of condensing
// its water of combustion at 298.15 K.
func CondensationHeat(hydrogen float64) float64 {
	return hydrogen / 2 * (H2O.H(T0) - LiquidWater.H(T0))
}

// Complete is the feed burned completely to CO2, H2O, N2 and left-over O2. It
// fails when oxygen is short or when an element has no place in a Mix.
func (f Feed) Complete() (Mix, error) {
	e := f.Elements
	m := Mix{N2: e[Nitrogen] / 2, Ar: e[Argon], CO2: e[Carbon], H2O: e[Hydrogen] / 2}
	m[O2] = e[Oxygen]/2 - e[Carbon] - e[Hydrogen]/4
	if e[Potassium] != 0 {
		return m, fmt.Errorf("complete combustion: feed holds %g mol potassium, want none", e[Potassium])
	}
	if m[O2] < -1e-12*e[Oxygen] {
		return m, fmt.Errorf("complete combustion: %g mol O2 short; want at least as much oxygen as the fuel needs", -m[O2])
	}
	m[O2] = max(m[O2], 0)
	return m, nil
}

// FrozenFlame is the adiabatic temperature [K] of the feed burned completely,
// without dissociation, and the products. It is above the equilibrium
// temperature: by 1 to 3 K at 1500 K, by 100 to 280 K at 2300 K.
func (f Feed) FrozenFlame() (T float64, products Mix, err error) {
	if products, err = f.Complete(); err != nil {
		return 0, products, err
	}
	if products.Moles() == 0 {
		return 0, products, fmt.Errorf("frozen flame: the feed is empty")
	}
	return products.T(f.H, 1500), products, nil
}

// T is the temperature [K] at which the mixture has the enthalpy H [J], by the
// NASA form itself; FastT does the same from the table. Held between 1 and
// 10000 K. An empty mix gives the guess [K] back.
func (m *Mix) T(H, guess float64) float64 {
	if m.Moles() == 0 {
		return guess
	}
	T := m.FastT(H, guess)
	for range 20 {
		step := (H - m.H(T)) / m.Cp(T)
		if !(math.Abs(step) < 500) {
			break // outside the range of both forms: keep the table's answer
		}
		T = min(max(T+step, fastTMin), fastTMax)
		if math.Abs(step) <= 1e-10*T {
			break
		}
	}
	return T
}
