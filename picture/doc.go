// Package picture draws what the program knows as line drawings on a
// drawing.Sheet: the vertical section of a stove, true to scale with its
// dimensions (Section) and small without words (Small), the course of a burn
// against time (BurnChart), and where the heat went (HeatFlow).
//
// Conventions of every picture: what was measured is solid ink, what is
// predicted is ember with its band, what was assumed or is unknown is hatched
// and says so in words. Nothing is told by colour alone. Labels stand beside
// what they name and never on top of each other; a sheet grows taller before
// two labels touch. Every section carries the line "Outdoors only.".
//
// A section shows what the design says and nothing else: parts whose size is
// not given (how a pot is held over its gap, the feet of a lift) are left out
// or dotted. Air arrows show the ways that are open, not that air flows there.
//
// It computes no fire: charts are handed their curves. It reads no files and
// knows no storage.
package picture
