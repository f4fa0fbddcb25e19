// Package draft is how much air and gas a small stove breathes: the pressure a
// hole, a ring, a slot or an annulus takes, the pressure a hot column or the
// wind gives, and the network that balances the two.
//
// Draughts are about 1 Pa, holes 1-10 mm in sheet of 0.2-0.5 mm, hole Reynolds
// numbers 20-2000. Standards for flow meters (Re >= 5000, d >= 12.5 mm) do not
// reach down here, so the hole law rests on a low-Reynolds table; its standard
// uncertainty with burrs is 10 %.
//
// Every part that takes a pressure is an [Element]: its Drop is odd in the
// flow, strictly increasing, continuous with its slope, and has a finite slope
// at zero flow, so that a stiff integrator and a Newton loop can lean on it.
//
// Incompressible, steady, no acoustic or inertial terms. Jets and their reach
// belong to the flame, the fuel bed's resistance to the bed.
//
// Equations, sources and ranges: docs/model/holes.md, docs/model/draft.md,
// docs/model/wind.md.
package draft

// Element takes a pressure from the flow through it.
type Element interface {
	// Drop returns the pressure lost [Pa] and its slope [Pa s/kg] at mass flow
	// m [kg/s] of a gas of density rho [kg/m3] and viscosity mu [Pa s].
	Drop(m, rho, mu float64) (dp, slope float64)
}
