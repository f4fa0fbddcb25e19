// Package cutsheet lays a design out at true size, so that what was predicted
// is what is built: strips of paper that go round the bodies, discs that lie
// on the ends, ring, stand, shields, and gauges that read the drilled holes
// back. Plan places every hole, chooses drills from those on hand, checks the
// metal left between holes and refuses what cannot be cut, with the numbers
// and the nearest design that can. A Set is then written as SVG or DXF (one
// drawing of all parts), PDF (pages of A4 or Letter), HTML or text.
//
// Lengths on sheets are millimetres, as in package drawing; those of a design
// stay metres. A strip is read from the seam to the right, seen from outside,
// which is counter-clockwise seen from above; a disc is seen from outside,
// the can's side seam at the top.
//
// Range: round cans with upright walls of 30 to 600 mm. Sources: plane
// geometry; spacing rules and paper sizes as cited where they stand.
//
// What it will not do: read or store designs, predict what a change of drill
// does to the burn (the caller says so in Options.Effect), lay out necked or
// fluted cans, or say that a stove is safe.
//
// See docs/cut-sheets.md.
package cutsheet
