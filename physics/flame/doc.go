// Package flame holds what is known of the wood-gas flame above the bed:
// secondary jets and swirl, flame height and far field, flame temperature,
// whether a flame holds, how fast CO burns out, what oxygen says about excess
// air and CO, soot, and the named conditions a stove falls into.
//
// Use Jet, Swirl, Height, Burning.Temperature, Holds, Burned, Soot and
// Conditions. All are pure functions, defined for zero flow.
//
// Valid range: flames of 0.2 to 5 kW in cans of 50 to 200 mm. Most correlations
// come from larger or more turbulent flames; each function says how far it is
// stretched.
//
// Sources stand at each function; the chief ones are Holdeman 1993 (jets),
// Heskestad (height), Howard, Williams, Fine 1973 and Dryer, Glassman 1973 (CO),
// Beyler's hood experiments (CO against oxygen).
//
// It does not know the stove's geometry beyond the numbers passed in, solves no
// mixing field, and makes no claim about emissions.
//
// The equations stand in docs/model/jets.md, swirl.md, flame-height.md,
// burn-out.md and soot.md.
package flame
