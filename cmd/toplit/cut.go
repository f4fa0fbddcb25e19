package main

import (
	"errors"
	"io"

	"toplit/work"
)

type cutCommand struct {
	File    string   `arg:"" name:"FILE" help:"Design file, or - for standard input."`
	From    string   `placeholder:"PARENT" help:"Design file of what is drilled already: only new work is shown."`
	PDF     string   `name:"pdf" placeholder:"FILE" help:"Write the pages to print, at true size."`
	SVG     string   `name:"svg" placeholder:"FILE" help:"Write all parts on one drawing, at true size."`
	DXF     string   `name:"dxf" placeholder:"FILE" help:"Write the same for a cutter: DXF R12, millimetres, layers CUT, DRILL, FOLD, NOTE."`
	HTML    string   `name:"html" placeholder:"FILE" help:"Write a page for the phone: every hole as numbers, one at a time."`
	Drills  string   `placeholder:"DRILLS" help:"Drills on hand: sets (metric half, fractional, step metric 4-20) and drills (\"3, 4.5 mm, 1/4 in, #7\"). Every hole as drawn when not given."`
	Paper   string   `placeholder:"SIZE" default:"A4" help:"A4 or Letter."`
	Bar     string   `name:"printed-bar" placeholder:"MM,MM" help:"What the two bars of 100 mm measure on a printed page, across and down, to correct the printer: 98.7,99.1."`
	Sheet   string   `placeholder:"SIZE" help:"Sheet metal on hand for ring, shields and skirt: \"300 x 200 mm\"."`
	Seam    string   `placeholder:"WIDTH" help:"Width of the can's side seam to keep off; 3 mm when not given."`
	Bead    []string `placeholder:"WHERE" sep:"none" help:"A groove to keep off: \"fuel can body=30 mm..38 mm\" above the base, or on a base from the middle; may be repeated."`
	Nearest string   `placeholder:"FILE" help:"When the design cannot be cut: write the nearest one that can."`
	Samples int      `default:"64" help:"How many burns say what other drills do to the prediction; 0 for none."`
	Seed    uint64   `default:"1" help:"Which burns. 1 or more."`
}

func (cutCommand) Help() string {
	return `Lays every part out at true size: a strip of paper that goes round each body, a disc for each end, ring, stand and skirt, and gauges that read the drilled holes back. Centre-punch through the paper, drill, deburr. What overlaps, tears, meets a seam, rim or bead is refused, with the nearest design that can be cut.

    toplit cut tea-stove.toml --pdf tea.pdf --drills "metric half"
    toplit cut tea-stove.toml --html tea.html
    toplit cut next.toml --from tea-stove.toml --pdf more-holes.pdf

Print at 100 %, measure both bars. A file may be - for standard output; the words then go to standard error.` + exitCodes
}

func (c *cutCommand) Run(a *app) error {
	if c.Samples < 0 || c.Samples == 1 || c.Samples > 1<<14 {
		return misusedFlag("cut", "--samples %d: out of range; accepted: 0, or 2 to 16384", c.Samples)
	}
	if c.Seed == 0 {
		return misusedFlag("cut", "--seed 0: accepted: 1 or more")
	}
	d, err := a.design(c.File)
	if err != nil {
		return about(err, c.File)
	}
	opts := work.CutOptions{Paper: c.Paper, PrintedBar: c.Bar, Drills: c.Drills, Seam: c.Seam, Sheet: c.Sheet, Beads: c.Bead,
		Units: a.units, Samples: c.Samples, Seed: c.Seed}
	if c.From != "" {
		if opts.From, err = a.design(c.From); err != nil {
			return about(err, c.From)
		}
	}
	var s *work.CutSheets
	var o outputs
	defer o.Discard()
	for _, f := range []struct {
		flag, path, kind string
		write            func(io.Writer) error
	}{
		{"--pdf", c.PDF, "pdf", func(w io.Writer) error { return s.WritePDF(w) }},
		{"--svg", c.SVG, "svg", func(w io.Writer) error { return s.WriteSVG(w) }},
		{"--dxf", c.DXF, "dxf", func(w io.Writer) error { return s.WriteDXF(w) }},
		{"--html", c.HTML, "html", func(w io.Writer) error { return s.WriteHTML(w) }},
	} {
		if err := o.add(f.flag, f.path, f.kind, c.File, f.write); err != nil {
			return err
		}
	}
	b := a.bar("burning")
	if b != nil {
		opts.Progress = b.show
	}
	s, err = work.Cut(a.ctx, d, opts)
	b.clear()
	var not *work.NotCut
	var bad work.BadCut
	switch {
	case errors.As(err, &not):
		o.Discard()
		return c.refuse(a, not)
	case errors.As(err, &bad):
		return hint(refused, err, "toplit cut --help")
	case err != nil:
		return about(err, c.File)
	}
	return a.finish(&o, s.WriteText, s.WriteJSON)
}

// refuse says why a design cannot be cut, and writes the nearest that can be.
func (c *cutCommand) refuse(a *app, not *work.NotCut) error {
	var o outputs
	defer o.Discard()
	if c.Nearest != "" && not.Nearest != nil {
		if err := o.add("--nearest", c.Nearest, "toml", c.File, func(w io.Writer) error { return not.WriteNearest(w, a.units) }); err != nil {
			return err
		}
	}
	if err := a.finish(&o, func(w io.Writer) error { return not.WriteText(w, a.units) }, not.WriteJSON); err != nil {
		return err
	}
	return silent{refused}
}

// design reads a design file, refused or not.
func (a *app) design(path string) (d *work.Design, err error) {
	err = a.input(path, func(r io.Reader, name string) (err error) {
		d, err = work.Open(r, name)
		return err
	})
	return d, err
}
