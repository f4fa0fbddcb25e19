// Package bed holds the laws of the fuel bed of a top-lit stove, each alone:
// how fast the front eats fuel, how much char it leaves, what gas it makes,
// what the bed costs in draft, how the top is lit and how the char burns.
//
// Use Front, Yield, Gas, Layer, Lighting and Char; every one is a pure function
// of its inputs, defined for zero flow and zero mass, with a continuous slope.
// A field called Soft is the relative width of the smooth corners in that law;
// zero means the shipped width.
//
// Valid range: air fluxes of 0.005 to 0.3 kg/m² s, pieces of 2 to 40 mm, moisture
// up to 50 % wet basis. Absolute front speed is known to ± 40 % before a user's
// own burns narrow it.
//
// Sources stand at each function; the chief ones are Varunkumar, Rajan, Mukunda
// 2012 and Mehta, Richards 2017 (front), James, Yuan, Boyette 2016 (char), the
// permeability of wood pellets in the presence of fines 2010 (resistance),
// Sarker, Nielsen 2015 (gas), Ström, Thunman 2013 as coded in an open particle
// model (char burning).
//
// It does not couple anything: temperatures, flows and draft are inputs. It
// knows no gradients inside a piece and no channelling.
//
// The equations stand in docs/model/front.md, char-yield.md, wood-gas.md,
// bed-resistance.md, lighting.md and char-phase.md.
package bed
