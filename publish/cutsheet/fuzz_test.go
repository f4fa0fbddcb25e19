package cutsheet

import "testing"

// FuzzOptions: whatever a maker types is read or refused, and what is read can
// be laid out or is refused with words.
func FuzzOptions(f *testing.F) {
	f.Add("98.7,99.1", "metric half, 1/4 in, #7", "300 x 200 mm", "fuel can body=30 mm..38 mm", "A4")
	f.Add("100,100", "3, 4, 5 mm", "12 in × 8 in", "fuel can base=0..1 in", "letter")
	f.Add("", ",", "x", "=..", "")
	f.Fuzz(func(t *testing.T, bar, drills, sheet, bead, paper string) {
		var o Options
		if b, err := ParsePrintedBar(bar); err == nil {
			o.Bar = b
		}
		if d, err := ParseDrills(drills); err == nil {
			o.Drills = d
		}
		if s, err := ParseSheet(sheet); err == nil {
			o.Sheet = s
		}
		if b, err := ParseBead(bead); err == nil {
			o.Beads = append(o.Beads, b)
		}
		if p, err := ParsePaper(paper); err == nil {
			o.Paper = p
		}
		if _, err := Plan(tea(), o); err != nil && err.Error() == "" {
			t.Error("refused without a word")
		}
	})
}
