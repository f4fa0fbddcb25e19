// Package quantity reads amounts the way makers write them ("4 1/4 in",
// "5/8\"", "16", "1 cup", "1 lb 4 oz", "68 °F", "4:35") into SI float64 and
// writes them back, metric or US customary, without loss.
//
// Reading is exact until the end: decimals, fractions and conversion factors
// are rational numbers, rounded once to the nearest float64. Format writes the
// shortest text that Parse turns into the same float64 to the last bit, so a
// number may pass through a file or a form any number of times. Show rounds,
// for people.
//
// Range: any finite float64 of the kind; temperatures not below 0 K. Negative
// amounts are read (an altitude may be below the sea); whether they make sense
// is for the caller to say.
//
// Sources of the factors: the unit table units.csv names one per row; most are
// exact by definition (international yard and pound 1959; NIST SP 811 (2008)
// Appendix B; NIST Handbook 44 Appendix C).
//
// What it will not do: guess. A bare fraction in a metric field, "1,600", a
// bare "oz" where a volume is asked: each is an error that says what would be
// accepted. It knows no counts with sizes ("12 x 4.5 mm"), no can codes, no
// dates, no flows at standard conditions.
//
// See docs/model/quantities.md.
package quantity
