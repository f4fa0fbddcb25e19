// Package numeric holds the numerical methods the rest of the program leans
// on: a stiff initial-value integrator, least squares with bounds, roots, and
// low-discrepancy points, and interpolation in tables. It knows nothing of
// stoves, fire or units: every quantity is a plain float64 in the caller's
// units.
//
// What each part is for, its range, its source and what was measured stand in
// docs/model/numerics.md. What it will not do: large systems (the linear
// algebra is dense and written for up to a hundred unknowns or so),
// differential-algebraic systems, and delay equations.
package numeric
