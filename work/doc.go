// Package work is every verb of the job as one function with an options
// struct: predict a burn (Predict), check a design before it is cut (Check),
// look something up (Catalogue), write the invented demo (Demo). What comes
// back are plain structs that can write themselves as JSON, as a table of
// curves, as text for people and as drawings.
//
// JSON carries the unit in the key (boil_s, firepower_mean_W) and is SI
// throughout; numbers have six significant digits; what never came or is not a
// number is null. Text is in the units of the reader. The same design, samples
// and seed give the same bytes.
//
// It is the only room where storage meets the rest. It knows no flags and no
// terminal, and it computes nothing of its own: laws are in physics, burns in
// sim, drawings in picture. It never prints a result without its cautions.
//
// The commands and their output are shown in docs/commands.md.
package work
