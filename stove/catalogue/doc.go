// Package catalogue holds the things a maker takes off a shelf or stands a
// stove on: can sizes, drills, sheet metal, ground covers. Each comes from a
// data file beside the code with its source in the row.
//
// A trap it exists for: a can's trade code is measured over the double seam,
// not over the body. A wrap template made from the code of a 603x700 can is
// 2 % too long. Body inside is the code less 2.6 to 4.0 mm, height inside the
// overall height less about 9.5 mm; CanSize keeps them apart.
//
// Range: round cans of 2 to 7 in; drills of 0.2 to 25 mm (metric) and 0.0135
// to 1 in; sheet of cans and of hand work; covers at 10 to 20 °C. Sizes are
// nominal: cans are necked, beaded and changed by their makers without notice,
// so a strip of paper round the can in hand (FromStrip) beats the table.
//
// What it will not do: know fuels, fire or heat flow; know specific heats of
// metals (physics/heat does); say that a ground is safe.
//
// Sources: Can Manufacturers Institute dimensional food can standards; trade
// tables; EN 10202:2022; ASME B94.11M; BS 328; Manufacturers' Standard Gage;
// Moene and van Dam (2014) table 2.2; EN 12524:2000; the papers named in
// covers.csv. What is from memory says so in its row.
//
// See docs/model/cans-and-drills.md.
package catalogue
