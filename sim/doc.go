// Package sim couples the laws of the physics rooms into one predicted burn:
// from a design and the conditions it is fired under to curves, moments,
// figures, a ledger of joules and grams, a band, what drives it, limits and
// cautions.
//
// One burn is one stiff system of ordinary differential equations. The air
// flows are states with inertance, so nothing is iterated inside the
// right-hand side and it is a pure function of time and state. Every joule
// and gram that moves is one named flow from one stock to another (flows.go);
// the ledger sums the same flows at the boundary and compares.
//
// Equations, assumptions and what they cost: docs/model/burn.md. How far it
// agrees with published burns: docs/model/validation.md. It knows nothing of
// storage or of measured burns.
package sim
