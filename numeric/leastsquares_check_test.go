package numeric

import (
	"testing"

	"toplit/internal/outside"
)

// Certified values of NIST, each to the last digit certified: the sum of squares
// from start 2 (start 1 where marked), and a parameter and its deviation where
// the problem is conditioned well enough for eleven digits to mean something.
func TestLeastSquaresOutside(t *testing.T) {
	const law, nist = "least squares", "NIST Statistical Reference Datasets 1998, "
	byName := map[string]reference{}
	for _, r := range references(t) {
		byName[r.name] = r
	}
	var rows []outside.Row
	add := func(name, what string, start int, want float64, pick func(*Fit) float64, tol float64) {
		fit := fitReference(t, byName[name], start, FitOptions{Central: true})
		rows = append(rows, outside.Row{Law: law, Name: name + " " + what, Source: nist + name, Unit: "1",
			Published: want, Ours: pick(fit), Tol: outside.Rel(want, tol)})
	}
	rss := func(f *Fit) float64 { return f.RSS }
	for _, name := range []string{"Misra1a", "Chwirut2", "Gauss1", "Lanczos3", "ENSO", "Hahn1", "Roszman1", "Thurber", "Rat43", "Bennett5"} {
		add(name, "sum of squares", 2, byName[name].rss, rss, 1e-10)
	}
	add("MGH10", "sum of squares, from start 1", 1, byName["MGH10"].rss, rss, 1e-10)
	// NIST asks for four digits or more of a parameter; six are the tolerance.
	for _, c := range []struct {
		name string
		i    int
	}{{"Lanczos1", 0}, {"Eckerle4", 2}, {"BoxBOD", 1}} {
		add(c.name, "parameter", 2, byName[c.name].certified[c.i], func(f *Fit) float64 { return f.P[c.i] }, 1e-6)
	}
	add("Hahn1", "standard deviation of b1", 2, byName["Hahn1"].deviation[0], func(f *Fit) float64 { return f.StdErr[0] }, 1e-6)
	outside.Check(t, rows...)
}
