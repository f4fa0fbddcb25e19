package work

import (
	"context"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"toplit/firing"
	"toplit/learn/size"
	"toplit/quantity"
	"toplit/sim"
	"toplit/stove"
)

// Sized is a design worked out from a wish.
type Sized struct {
	*size.Result
	Design *Design
	Units  quantity.System // of the design file and the sentences
}

// BadWish is a wish that cannot be read or that nothing can be built for.
type BadWish struct{ error }

// Unwrap gives what is wrong.
func (b BadWish) Unwrap() error { return b.error }

// Size works out how many holes of which drill, which ring and which stand
// these cans want for this fuel and pot, and how much fuel and starter.
func Size(ctx context.Context, opts SizeOptions) (*Sized, error) {
	w, err := opts.wish()
	if err != nil {
		return nil, BadWish{err}
	}
	r, err := size.Design(ctx, w, size.Options{Samples: opts.Samples, Seed: opts.Seed, Units: opts.Units, Progress: opts.Progress})
	switch {
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, BadWish{err}
	}
	if n := &r.Firing.Design.Name; *n == "" {
		*n = canWords(r.Firing.Design.FuelCan)
		if o := r.Firing.Design.OuterCan; o != nil {
			*n += " in " + canWords(*o)
		}
	}
	d := &Design{File: r.Firing.Design.Name, Firing: r.Firing}
	for _, f := range firing.Check(*r.Firing) {
		d.Findings = append(d.Findings, firing.Problem{Severity: f.Severity, File: d.File, Key: f.Key, Value: f.Value, Text: f.Text, Accept: f.Accept})
	}
	return &Sized{Result: r, Design: d, Units: opts.Units}, nil
}

// canWords names a can by its code, else by its size.
func canWords(c stove.Can) string {
	if c.Code != "" {
		return c.Code
	}
	return quantity.Show(quantity.Length, c.Diameter, quantity.Metric, 3) + " can"
}

// Met says whether every wish is met by the median burn.
func (s *Sized) Met() bool {
	for _, t := range s.Targets {
		if !t.Met {
			return false
		}
	}
	return true
}

// WriteDesign writes the design file, the reasons above what they are for.
func (s *Sized) WriteDesign(w io.Writer) error {
	return firing.Write(w, s.Firing, firing.Options{Units: s.Units, Reasons: s.Reasons})
}

// WriteSection draws the stove in section, as SVG.
func (s *Sized) WriteSection(w io.Writer) error { return s.Design.WriteSection(w, s.Units) }

func designText(f *firing.Firing, sys quantity.System) (string, error) {
	var b strings.Builder
	err := firing.Write(&b, f, firing.Options{Units: sys})
	return b.String(), err
}

// WriteJSON writes the design with what is to be said of it.
func (s *Sized) WriteJSON(w io.Writer) error {
	rows := list{}
	for i, r := range s.Firing.Design.Rows {
		o := object{{"name", s.Firing.Design.Label(i)}, {"on", string(r.On)}, {"count", r.Count}, {"shape", string(r.Hole.Shape)}, {"width_m", r.Hole.Width}}
		if r.Hole.Height > 0 {
			o = append(o, member{"height_m", r.Hole.Height})
		}
		if r.OnBase() {
			o = append(o, member{"circle_m", r.Circle})
		} else {
			o = append(o, member{"centre_above_base_m", r.Height})
		}
		rows = append(rows, append(o, member{"area_m2", r.Area()}, member{"reason", s.Reasons[fmt.Sprintf("row[%d]", i+1)]}))
	}
	var reasons object
	for _, k := range reasonKeys {
		if why := s.Reasons[k]; why != "" {
			reasons = append(reasons, member{k, why})
		}
	}
	targets := list{}
	for _, t := range s.Targets {
		targets = append(targets, object{{"what", t.What}, {"wished_s", t.Wished}, {"predicted_s", quantiles(t.Got)}, {"chance", t.Chance}, {"met", t.Met}, {"sentence", t.Sentence}})
	}
	var boil any
	if b := s.Boil; b != nil {
		boil = object{{"chance", b.Chance}, {"charge_for_nine_of_ten_kg", known(b.Enough)}, {"best_chance", b.Best}, {"best_chance_at_kg", b.At}, {"sentence", b.Sentence}}
	}
	alternatives := list{}
	for _, a := range s.Alternatives {
		file, err := designText(a.Firing, s.Units)
		if err != nil {
			return err
		}
		moments, figures := momentsAndFigures(a.Prediction)
		alternatives = append(alternatives, object{{"name", a.Name}, {"change", a.Change}, {"trade", a.Trade}, {"shares", shares(a.Shares)}, {"moments", moments}, {"figures", figures}, {"design_file", file}})
	}
	load := s.Firing.Load()
	var file strings.Builder
	if err := s.WriteDesign(&file); err != nil {
		return err
	}
	moments, figures := momentsAndFigures(s.Prediction)
	return writeJSON(w, object{
		{"format", JSONFormat},
		{"model", s.Prediction.Model},
		{"seed", s.Prediction.Seed},
		{"samples", s.Prediction.Samples},
		{"design", s.Design.Title()},
		{"met", s.Met()},
		{"rows", rows},
		{"reasons", reasons},
		{"charge", object{{"mass_kg", load.Mass}, {"volume_m3", load.Volume}, {"depth_m", load.Depth}}},
		{"starter", object{{"kind", s.Firing.Conditions.Starter.Kind}, {"mass_kg", s.Firing.Conditions.Starter.Mass}}},
		{"targets", targets},
		{"boil", boil},
		{"shares", shares(s.Shares)},
		{"alternatives", alternatives},
		{"warnings", texts(s.Warnings)},
		{"notes", texts(s.Notes)},
		{"moments", moments},
		{"figures", figures},
		{"assumed", s.Design.assumed()},
		{"cautions", cautionList(s.Prediction.Cautions)},
		{"designs_tried", s.Tried},
		{"design_file", file.String()},
	})
}

// reasonKeys are the keys a reason may stand under, rows apart.
var reasonKeys = []string{"standoff", "fuel_can", "outer_can", "ring", "riser", "stand", "charge", "starter"}

func texts(all []string) list {
	out := list{}
	for _, s := range all {
		out = append(out, s)
	}
	return out
}

func shares(s size.Shares) object {
	return object{{"lights", s.Lights}, {"holds", s.Holds}, {"excess_air_in_range", s.Air}, {"boils", s.Boils}}
}

// WriteText writes the design for people: what to cut and why, what to load,
// what it will do, two other ways, and the cautions last.
func (s *Sized) WriteText(w io.Writer) error {
	t := &page{w: w}
	f := s.Firing
	t.printf("%s\n", s.Design.Title())
	t.para("", fmt.Sprintf("Sized by trying %d designs; the best was burned %d times with other values of what nobody knows exactly.", s.Tried, s.Prediction.Samples))

	t.heading("Drill")
	t.table([]string{"row", ">holes", "drill", "where", ">open"}, s.rows())
	for i := range f.Design.Rows {
		if why := s.Reasons[fmt.Sprintf("row[%d]", i+1)]; why != "" {
			t.para("  - ", f.Design.Label(i)+": "+why)
		}
	}
	t.heading("Make")
	for _, k := range []string{"standoff", "outer_can", "ring", "riser", "stand"} {
		if why := s.Reasons[k]; why != "" {
			t.para("  - ", strings.NewReplacer("_", " ", "standoff", "gap under the fuel can").Replace(k)+": "+why)
		}
	}
	t.heading("Load")
	for _, k := range []string{"charge", "starter"} {
		if why := s.Reasons[k]; why != "" {
			t.para("  - ", k+": "+why)
		}
	}
	t.heading("What it will do")
	for _, x := range s.Targets {
		t.para("  - ", x.Sentence)
	}
	t.table([]string{"", ">", "", ""}, s.outlook())
	sh := s.Shares
	line := fmt.Sprintf("The jets light in %s of the burns and hold until the front is at the grate in %s.", percent(sh.Lights), percent(sh.Holds))
	if f.Conditions.Pot != nil {
		line += fmt.Sprintf(" The water boils in %s.", percent(sh.Boils))
	}
	t.para("  ", line)
	if len(s.Alternatives) > 0 {
		t.heading("Or")
		for _, a := range s.Alternatives {
			t.para("  - ", a.Name+": "+a.Change+"; "+a.Trade)
		}
	}
	if warnings := s.otherWarnings(); len(warnings) > 0 {
		t.heading("Warnings")
		for _, x := range warnings {
			t.para("  - ", x)
		}
	}
	if len(s.Notes) > 0 {
		t.heading("Worth knowing")
		for _, x := range s.Notes {
			t.para("  - ", x)
		}
	}
	s.Design.showAssumed(t, s.Units, "you did not give")
	t.cautions(append(slices.Clone(s.Prediction.Cautions), standing()[2]), s.Units)
	return t.err
}

// otherWarnings are those that were not said of a wish already.
func (s *Sized) otherWarnings() []string {
	var out []string
	for _, x := range s.Warnings {
		if !slices.ContainsFunc(s.Targets, func(t size.Target) bool { return t.Sentence == x }) {
			out = append(out, x)
		}
	}
	return out
}

// rows is the table to drill by.
func (s *Sized) rows() [][]string {
	d := s.Firing.Design
	size := func(v float64) string { return quantity.Show(quantity.Length, v, s.Units, 3) }
	var out [][]string
	for i, r := range d.Rows {
		where := string(r.On)
		switch {
		case r.OnBase() && r.Circle > 0:
			where += ", circle of " + size(r.Circle)
		case r.OnBase():
			where += ", all over"
		default:
			where += ", " + size(r.Height) + " up"
		}
		out = append(out, []string{d.Label(i), strconv.Itoa(r.Count), firing.FormatHole(r.Hole, s.Units), where, quantity.Show(quantity.Area, r.Area(), s.Units, 3)})
	}
	return out
}

// outlook is the figures a wish is about.
func (s *Sized) outlook() [][]string {
	var out [][]string
	row := func(f sim.Figure, zero string) {
		q := s.Prediction.Figures[f]
		info := sim.Figures()[f]
		if math.IsNaN(q.P50) {
			return
		}
		show := func(v float64) string { return figure(f, info.Unit, v, s.Units) }
		out = append(out, []string{info.Name, show(q.P50), zero, span(show(q.P10), show(q.P90)) + never(q)})
	}
	row(sim.FJetsLit, "after lighting")
	if s.Firing.Conditions.Pot != nil {
		row(sim.FTimeToBoil, "after pot on")
	}
	row(sim.FFlameOut, "after lighting")
	row(sim.FGlowEnd, "after lighting")
	row(sim.FFirepower, "")
	return out
}
