package work

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"toplit/firing"
	"toplit/publish/cutsheet"
	"toplit/quantity"
	"toplit/sim"
	"toplit/stove"
)

// CutOptions say what the maker has and wants. Texts are read as the maker
// writes them; empty ones mean what package cutsheet takes for granted. The
// zero value is A4, every hole as drawn.
type CutOptions struct {
	From       *Design  // what is drilled already; nil for a whole set
	Paper      string   // "A4" or "Letter"
	PrintedBar string   // what the two bars of 100 mm measure: "98.7,99.1"
	Drills     string   // on hand: sets and drills, "metric half, 1/4 in"
	Thickness  string   // of the paper
	Seam       string   // width of the side seam
	Sheet      string   // sheet metal on hand: "300 x 200 mm"
	Beads      []string // "fuel can body=30 mm..38 mm"
	Units      quantity.System
	Samples    int // of the two predictions that say what other drills do; 0 for none
	Seed       uint64
	Progress   func(done, all int) // may be nil
}

// BadCut is an option that cannot be read.
type BadCut struct{ error }

// CutSheets are the cut sheets of a design.
type CutSheets struct {
	*cutsheet.Set
	Of      *Design // as the file says it
	options cutsheet.Options
}

// NotCut is a design that cannot be cut as drawn.
type NotCut struct {
	*cutsheet.Refused
	design *Design
}

func (n *NotCut) Unwrap() error { return n.Refused }

// Cut lays a design out at true size. Where drills on hand differ from what is
// drawn, the burn is predicted with both and the difference told in a sentence.
// A design that cannot be cut is a *NotCut, one that must not be lit the error
// of its checks, an option that cannot be read a BadCut.
func Cut(ctx context.Context, d *Design, opts CutOptions) (*CutSheets, error) {
	o, err := opts.read()
	if err != nil {
		return nil, BadCut{err}
	}
	if opts.From != nil {
		parent := opts.From.Firing.Design
		o.Parent = &parent
	}
	if p := d.Firing.Conditions.Pot; p != nil {
		o.PotAcross = p.Diameter
	}
	o.Conditions = d.fired(opts.Units)
	set, err := cutsheet.Plan(d.Firing.Design, o)
	var r *cutsheet.Refused
	if errors.As(err, &r) {
		return nil, &NotCut{r, d}
	}
	if err != nil {
		return nil, BadCut{err}
	}
	// Only now: for holes that cannot be cut the layout knows a near design.
	if err := d.Refused(); err != nil {
		return nil, err
	}
	if opts.Samples > 0 && substituted(set) {
		if o.Effect, err = effect(ctx, d, set, opts); err != nil {
			return nil, err
		}
		if set, err = cutsheet.Plan(d.Firing.Design, o); err != nil {
			return nil, err
		}
	}
	return &CutSheets{Set: set, Of: d, options: o}, nil
}

// read turns the texts into options.
func (o CutOptions) read() (c cutsheet.Options, err error) {
	c.Units = o.Units
	read := func(text, what string, to *float64) {
		if text == "" || err != nil {
			return
		}
		if *to, err = quantity.Parse(quantity.Length, text); err != nil {
			err = fmt.Errorf("%s: %w", what, err)
		}
	}
	read(o.Thickness, "paper thickness", &c.Thickness)
	read(o.Seam, "seam", &c.Seam)
	if err == nil && o.Paper != "" {
		c.Paper, err = cutsheet.ParsePaper(o.Paper)
	}
	if err == nil && o.PrintedBar != "" {
		c.Bar, err = cutsheet.ParsePrintedBar(o.PrintedBar)
	}
	if err == nil && o.Drills != "" {
		c.Drills, err = cutsheet.ParseDrills(o.Drills)
	}
	if err == nil && o.Sheet != "" {
		c.Sheet, err = cutsheet.ParseSheet(o.Sheet)
	}
	for _, text := range o.Beads {
		if err == nil {
			var b cutsheet.Bead
			b, err = cutsheet.ParseBead(text)
			c.Beads = append(c.Beads, b)
		}
	}
	return c, err
}

// fired is what a design is fired with, in a line.
func (d *Design) fired(sys quantity.System) string {
	c := &d.Firing.Conditions
	s := fmt.Sprintf("%s of %s", quantity.Show(quantity.Mass, d.Firing.Load().Mass, sys, 3), c.Fuel.Species)
	if p := c.Pot; p != nil {
		s += fmt.Sprintf(", a pot of %s with %s of water", quantity.Show(quantity.Length, p.Diameter, sys, 3), quantity.Show(quantity.Mass, c.Water.Mass, sys, 3))
	}
	return s + "."
}

// substituted: a drill on hand moves the area of some row by half a percent or
// more.
func substituted(s *cutsheet.Set) bool {
	for _, r := range s.Rows {
		if math.Abs(r.Off) >= 0.005 {
			return true
		}
	}
	return false
}

// effect says what the drills on hand do to the prediction: the same burns
// with both designs, so that only the holes differ.
func effect(ctx context.Context, d *Design, s *cutsheet.Set, opts CutOptions) (string, error) {
	both := [2]*sim.Prediction{}
	for i, design := range []stove.Design{s.Wanted, s.Design} {
		f := d.Firing.Clone()
		f.Design = design.Clone()
		progress := opts.Progress
		if progress != nil {
			progress = func(done, all int) { opts.Progress(i*all+done, 2*all) }
		}
		p, err := sim.Predict(ctx, f, sim.Options{Samples: opts.Samples, Seed: opts.Seed, Progress: inOrder(progress)})
		if err != nil {
			return "", err
		}
		both[i] = p
	}
	var parts []string
	for _, f := range []sim.Figure{sim.FTimeToBoil, sim.FFirepower, sim.FFlameTime, sim.FSecondaryPrimary} {
		if f == sim.FTimeToBoil && d.Firing.Conditions.Pot == nil {
			continue
		}
		a, b := both[0].Figures[f].P50, both[1].Figures[f].P50
		if math.IsNaN(a) || math.IsNaN(b) {
			if math.IsNaN(a) != math.IsNaN(b) {
				parts = append(parts, fmt.Sprintf("%s %s with the one and %s with the other", sim.Figures()[f].Name, median(f, a, opts.Units), median(f, b, opts.Units)))
			}
			continue
		}
		was, now := median(f, a, opts.Units), median(f, b, opts.Units)
		if was == now {
			now = "the same"
		}
		parts = append(parts, fmt.Sprintf("%s %s → %s", sim.Figures()[f].Name, was, now))
	}
	return fmt.Sprintf("With these drills in place of the drawn sizes (medians of %d burns, the same burns twice): %s.", opts.Samples, strings.Join(parts, ", ")), nil
}

func median(f sim.Figure, v float64, sys quantity.System) string {
	if math.IsNaN(v) {
		return "never"
	}
	return figure(f, sim.Figures()[f].Unit, v, sys)
}

// WriteJSON writes every part and hole, SI with the unit in the name.
func (c *CutSheets) WriteJSON(w io.Writer) error {
	parts := list{}
	for _, p := range c.Parts {
		o := object{{"letter", p.Letter}, {"name", p.Name}, {"kind", string(p.Kind)}}
		if p.Place != "" {
			o = append(o, member{"on", string(p.Place)})
		}
		for _, m := range []struct {
			key string
			v   float64
		}{{"diameter_m", p.Across}, {"height_m", p.Tall}, {"length_m", p.Around}} {
			if m.v > 0 {
				o = append(o, member{m.key, m.v / 1e3})
			}
		}
		holes := list{}
		for _, h := range p.Holes {
			holes = append(holes, c.hole(h))
		}
		parts = append(parts, append(o, member{"holes", holes}))
	}
	rows := list{}
	for _, r := range c.Rows {
		o := object{{"row", r.Index + 1}, {"name", r.Name}, {"on", string(r.On)}, {"count", r.Count}, {"wanted_m", r.Want.Width / 1e3}, {"cut_m", r.Cut.Width / 1e3}, {"drill", r.Drill}, {"area_off", r.Off}}
		ways := list{}
		for _, n := range r.Ways {
			ways = append(ways, n)
		}
		rows = append(rows, append(o, member{"through", ways}, member{"in_doubt_stop_at", r.Stop}))
	}
	done, notes := list{}, list{}
	for _, n := range c.Done {
		done = append(done, n)
	}
	for _, n := range c.Notes {
		notes = append(notes, n)
	}
	return writeJSON(w, object{
		{"format", JSONFormat}, {"design", c.Of.Title()}, {"refused", false},
		{"parts", parts}, {"rows", rows}, {"nothing_left_to_do_on", done}, {"effect_of_drills", c.options.Effect}, {"notes", notes},
		{"cautions", cautionList(standing())},
	})
}

func (c *CutSheets) hole(h cutsheet.Hole) object {
	o := object{{"number", h.Number}, {"row", h.Row + 1}, {"x_m", h.X / 1e3}, {"y_m", h.Y / 1e3}, {"turn_rad", h.Turn}, {"shape", string(h.Shape)},
		{"width_m", h.Width / 1e3}, {"height_m", h.Height / 1e3}, {"state", string(h.State)}}
	if h.State == cutsheet.Bigger {
		o = append(o, member{"was_m", h.Was.Width / 1e3})
	}
	return o
}

// WriteNearest writes the nearest design that can be cut as a design file. It
// is an error when there is none.
func (n *NotCut) WriteNearest(w io.Writer, sys quantity.System) error {
	if n.Nearest == nil {
		return errors.New("no near design can be cut; change what is named and try again")
	}
	f := n.design.Firing.Clone()
	f.Design = n.Nearest.Clone()
	return firing.Write(w, f, firing.Options{Units: sys})
}

// WriteText says why for people, and what the nearest design changes.
func (n *NotCut) WriteText(w io.Writer, sys quantity.System) error {
	t := &page{w: w}
	t.printf("%s\n", n.design.Title())
	t.heading("Cannot be cut as drawn")
	for _, f := range n.Findings {
		t.para("  - ", f.String())
	}
	if n.Nearest == nil {
		t.para("  ", "No near design can be cut: change what is named and try again.")
	} else {
		t.heading("The nearest design that can be cut")
		for _, c := range n.Changes {
			t.para("  - ", c.Text)
		}
	}
	t.cautions(standing(), sys)
	return t.err
}

// WriteJSON says the same for programs.
func (n *NotCut) WriteJSON(w io.Writer) error {
	found, changes := list{}, list{}
	for _, f := range n.Findings {
		found = append(found, object{{"severity", string(f.Severity)}, {"key", f.Key}, {"value", f.Value}, {"text", f.Text}, {"accepted", f.Accept}})
	}
	for _, c := range n.Changes {
		changes = append(changes, object{{"key", c.Key}, {"from", c.From}, {"to", c.To}, {"text", c.Text}})
	}
	return writeJSON(w, object{
		{"format", JSONFormat}, {"design", n.design.Title()}, {"refused", true}, {"findings", found},
		{"nearest", n.Nearest != nil}, {"changes_to_nearest", changes}, {"cautions", cautionList(standing())},
	})
}
