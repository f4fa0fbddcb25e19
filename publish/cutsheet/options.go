package cutsheet

import (
	"fmt"
	"math"
	"strings"

	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Options say what the maker has and wants. The zero value is A4 without a
// corrected printer, holes exactly as drawn, ordinary paper and a whole set.
type Options struct {
	Paper      Paper             // A4 when empty
	Bar        PrintedBar        // what 100 mm came out as on this printer
	Units      quantity.System   // of the words; sheets are true size in either
	Drills     []catalogue.Drill // on hand; none: every hole as drawn
	Parent     *stove.Design     // what is drilled already: only new work is shown
	Thickness  float64           // of the paper, 0.1 mm when 0 [m]
	Seam       float64           // width of the can's side seam to stay off, 3 mm when 0 [m]
	Beads      []Bead            // grooves to stay off, as measured
	Sheet      Sheet             // sheet metal on hand for what is cut from flat sheet; zero: any size
	PotAcross  float64           // diameter of the pot, for a skirt; 0 when there is none [m]
	Effect     string            // what the drills on hand do to the prediction, in a sentence
	Conditions string            // what the design is fired with, in a line; may be empty
}

// Sheet is a flat piece of sheet metal.
type Sheet struct{ Width, Height float64 } // [m]

// Bead is a groove rolled into a sheet, where a drill wanders off. On a wall
// From and To are heights above the part's base, on an end distances from the
// middle [m].
type Bead struct {
	On       stove.Place
	From, To float64
}

// ParseBead reads "fuel can body=30 mm..38 mm".
func ParseBead(text string) (Bead, error) {
	wrong := func(why string) (Bead, error) {
		return Bead{}, fmt.Errorf(`bead %q: %s; wanted is a sheet and two lengths, such as "fuel can body=30 mm..38 mm"`, text, why)
	}
	on, span, ok := strings.Cut(text, "=")
	from, to, both := strings.Cut(span, "..")
	if !ok || !both {
		return wrong("no sheet or no two lengths")
	}
	var b Bead
	for _, p := range stove.Places() {
		if strings.EqualFold(strings.TrimSpace(on), string(p)) {
			b.On = p
		}
	}
	if b.On == "" {
		return wrong("no such sheet")
	}
	var err error
	if b.From, err = quantity.Parse(quantity.Length, from); err != nil {
		return wrong(err.Error())
	}
	if b.To, err = quantity.Parse(quantity.Length, to); err != nil {
		return wrong(err.Error())
	}
	if !(b.From >= 0 && b.To > b.From) {
		return wrong("it ends before it begins")
	}
	return b, nil
}

// ParseDrills reads what is on hand: names of sets ("metric half", "step inch
// 1/8-1/2") and single drills ("6 mm", "1/4 in", "#7"), with commas between. A
// unit holds for the bare numbers before it: "3, 4, 5 mm".
func ParseDrills(text string) ([]catalogue.Drill, error) {
	words := strings.Split(text, ",")
	unit := ""
	for i := len(words) - 1; i >= 0; i-- {
		w := strings.TrimSpace(words[i])
		switch bare := strings.Trim(w, "0123456789./ ") == ""; {
		case w == "":
		case bare && unit != "":
			w += " " + unit
		case strings.HasSuffix(w, "mm"):
			unit = "mm"
		case strings.HasSuffix(w, "in") || strings.HasSuffix(w, `"`):
			unit = "in"
		}
		words[i] = w
	}
	sets := strings.Join(catalogue.DrillSets(), ", ")
	var all []catalogue.Drill
	for _, word := range words {
		if word == "" {
			continue
		}
		if set, err := catalogue.Drills(word); err == nil {
			all = append(all, set...)
			continue
		}
		d, err := catalogue.ParseDrill(word)
		if err != nil {
			return nil, fmt.Errorf("%w; a set may be given too: %s", err, sets)
		}
		all = append(all, d)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("drills %q: none named; accepted: sets (%s) and single drills, with commas between", text, sets)
	}
	return all, nil
}

// ParseSheet reads the size of a piece of sheet metal: "300 x 200 mm".
func ParseSheet(text string) (Sheet, error) {
	var s Sheet
	a, b, ok := strings.Cut(strings.ReplaceAll(text, "×", "x"), "x")
	var err1, err2 error
	if s.Height, err2 = quantity.Parse(quantity.Length, strings.TrimSpace(b)); err2 == nil && strings.Trim(strings.TrimSpace(a), "0123456789./ ") == "" {
		a += strings.TrimLeft(strings.TrimSpace(b), "0123456789./ ") // the unit stands behind the second
		s.Width, err1 = quantity.Parse(quantity.Length, strings.TrimSpace(a))
	} else {
		s.Width, err1 = quantity.Parse(quantity.Length, strings.TrimSpace(a))
	}
	if !ok || err1 != nil || err2 != nil || !(s.Width > 0 && s.Height > 0) {
		return Sheet{}, fmt.Errorf(`sheet %q: two lengths are wanted, such as "300 x 200 mm" or "12 x 8 in"`, text)
	}
	return s, nil
}

// filled is the options with what was left out.
func (o Options) filled() (Options, error) {
	if o.Paper == (Paper{}) {
		o.Paper = A4()
	}
	if o.Paper.Width < contentShort || o.Paper.Height < contentLong {
		return o, fmt.Errorf("paper of %g × %g mm is too small; accepted: A4 or Letter", o.Paper.Width, o.Paper.Height)
	}
	if o.Thickness == 0 {
		o.Thickness = 0.1e-3 // 80 g/m² copying paper; common practice, no source
	}
	if o.Seam == 0 {
		o.Seam = 3e-3 // a welded seam is about 1 mm wide; common practice, no source
	}
	for _, c := range []struct {
		what     string
		v, least float64
		most     float64
	}{
		{"paper thickness", o.Thickness, 0.02e-3, 2e-3},
		{"seam", o.Seam, 0.1e-3, 30e-3},
		{"sheet", math.Max(o.Sheet.Width, o.Sheet.Height), 0, 10},
		{"pot", o.PotAcross, 0, 1},
	} {
		if !(c.v >= c.least && c.v <= c.most) {
			return o, fmt.Errorf("%s of %s; accepted: %s to %s", c.what, length(c.v*1e3, quantity.Metric), length(c.least*1e3, quantity.Metric), length(c.most*1e3, quantity.Metric))
		}
	}
	return o, o.Bar.check()
}
