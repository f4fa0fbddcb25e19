package gas

import (
	"fmt"
	"math"
)

// Options of an equilibrium. The zero value means all gases of the package and
// no solid carbon.
type Options struct {
	Only     []Species // the gases allowed; nil for all
	Graphite bool      // let solid carbon form
}

// Equilibrium is a mixture in chemical equilibrium.
type Equilibrium struct {
	T          float64           // [K]
	P          float64           // [Pa]
	Moles      [NSpecies]float64 // of every species, solid carbon included [mol]
	Gas        float64           // total of the gases [mol]
	Iterations int
}

// X is the mole fraction of a species in the gas; for solid carbon it is the
// moles per mole of gas.
func (q *Equilibrium) X(sp Species) float64 {
	if q.Gas == 0 {
		return 0
	}
	return q.Moles[sp] / q.Gas
}

// H is the absolute enthalpy of the mixture [J].
func (q *Equilibrium) H() float64 {
	var h float64
	for sp, n := range q.Moles {
		if n > 0 {
			h += n * Species(sp).H(q.T)
		}
	}
	return h
}

// Core is the part of the mixture that a Mix can hold [mol].
func (q *Equilibrium) Core() (m Mix) {
	copy(m[:], q.Moles[:NCore])
	return m
}

// NoEquilibrium reports that the iteration did not converge.
type NoEquilibrium struct {
	T, P       float64 // where it stopped [K], [Pa]
	Iterations int
	Residual   float64 // largest remaining relative change of the mixture
}

func (e *NoEquilibrium) Error() string {
	return fmt.Sprintf("equilibrium: no convergence after %d steps at %.6g K, %.6g Pa; remaining change %.2g", e.Iterations, e.T, e.P, e.Residual)
}

// EquilibriumAt is the equilibrium of the atoms e at temperature T [K] and
// pressure p [Pa].
//
// It minimises the Gibbs energy by Newton steps on element potentials and the
// logarithms of the amounts: Gordon, McBride 1994, NASA RP-1311 part I, sec.
// 2.3, eqs. (2.24), (2.26), step control eqs. (3.1) to (3.3). Range: 200 to 6000 K, ideal
// gas. Accuracy: that of the NASA data; mole fractions agree with the printed
// examples of RP-1311 to 1e-5. A species the package does not hold cannot form.
func EquilibriumAt(e Elements, T, p float64, o Options) (Equilibrium, error) {
	if !(T >= 200 && T <= 6000) {
		return Equilibrium{}, fmt.Errorf("equilibrium: temperature %g K, want 200 to 6000 K", T)
	}
	return equilibrate(e, p, o, T, math.NaN())
}

// EquilibriumFlame is the adiabatic equilibrium of the feed at pressure p
// [Pa]: its temperature is the adiabatic flame temperature. Method as for
// EquilibriumAt, with eq. (2.27) for the enthalpy.
func EquilibriumFlame(f Feed, p float64, o Options) (Equilibrium, error) {
	if math.IsNaN(f.H) || math.IsInf(f.H, 0) {
		return Equilibrium{}, fmt.Errorf("equilibrium: enthalpy of the feed %g J, want a finite number", f.H)
	}
	return equilibrate(f.Elements, p, o, math.NaN(), f.H)
}

// equilibrate sets up the problem; exactly one of T and H is a number.
func equilibrate(e Elements, p float64, o Options, T, H float64) (Equilibrium, error) {
	if !(p > 0) || math.IsInf(p, 0) {
		return Equilibrium{}, fmt.Errorf("equilibrium: pressure %g Pa, want above 0", p)
	}
	var s minimiser
	var total float64
	for i, b := range e {
		if b < 0 || math.IsNaN(b) || math.IsInf(b, 0) {
			return Equilibrium{}, fmt.Errorf("equilibrium: %g mol of element %d, want 0 or more", b, i)
		}
		if total += b; b > 0 {
			s.element[s.ne] = Element(i)
			s.ne++
		}
	}
	if total == 0 {
		return Equilibrium{}, fmt.Errorf("equilibrium: no atoms given")
	}
	for i := range s.ne {
		s.b[i] = e[s.element[i]] / total
	}
	s.addGases(o.Only)
	if s.ng == 0 {
		return Equilibrium{}, fmt.Errorf("equilibrium: none of the species allowed can be made of the atoms given")
	}
	if el, ok := s.missing(o.Graphite); ok {
		return Equilibrium{}, fmt.Errorf("equilibrium: no species allowed holds element %d", el)
	}
	s.logP = math.Log(p / P0)
	s.start(T, H/(R*total))

	change := s.solve()
	if o.Graphite && e[Carbon] > 0 {
		change = s.tryGraphite(change)
	}
	q := Equilibrium{T: s.T, P: p, Iterations: s.iterations}
	if !(change <= converged) {
		return q, &NoEquilibrium{T: s.T, P: p, Iterations: s.iterations, Residual: change}
	}
	for j := range s.ng {
		n := math.Exp(s.ln[j]) * total
		q.Moles[s.gas[j]] = n
		q.Gas += n
	}
	q.Moles[Graphite] = s.solid * total
	return q, nil
}

// Term is a species and its number in a reaction, negative for what is used up.
type Term struct {
	Species Species
	Nu      float64
}

// LogKp is the decadic logarithm of the equilibrium constant of a reaction at T
// [K], with pressures in bar and solids at unit activity:
// log10 Kp = −Σ ν·G°(T) / (R·T·ln 10).
func LogKp(T float64, reaction ...Term) float64 {
	var g float64
	for _, r := range reaction {
		g += r.Nu * r.Species.G(T)
	}
	return -g / (R * T * math.Ln10)
}
