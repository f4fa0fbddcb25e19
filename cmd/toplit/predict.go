package main

import (
	"io"

	"toplit/work"
)

type predictCommand struct {
	File    string `arg:"" name:"FILE" help:"Design file, or - for standard input."`
	CSV     string `name:"csv" placeholder:"FILE" help:"Write the curves against time as CSV."`
	SVG     string `name:"svg" placeholder:"FILE" help:"Draw the burn against time."`
	Section string `placeholder:"FILE" help:"Draw the stove cut in half, to scale."`
	Heat    string `placeholder:"FILE" help:"Draw where the heat goes."`
	Samples int    `default:"256" help:"How many burns the band is made of, 2 to 65536."`
	Seed    uint64 `default:"1" help:"Which burns: the same seed gives the same bytes. 1 or more."`
}

func (predictCommand) Help() string {
	return `Computes many burns of one design, each with other values of what nobody knows exactly, and says when the jets light, when it boils and when it goes out, how much power it has, where the heat goes, what holds the stove back, and what the doubt comes from. Of ten burns eight should fall between the bounds shown.

    toplit predict tea-stove.toml
    toplit predict tea-stove.toml --svg burn.svg --section stove.svg --csv burn.csv
    toplit predict tea-stove.toml --json > burn.json

A file may be - for standard output; the words then go to standard error.` + exitCodes
}

func (c *predictCommand) Run(a *app) error {
	if c.Samples < 2 || c.Samples > 1<<16 {
		return misusedFlag("predict", "--samples %d: out of range; accepted: 2 to 65536", c.Samples)
	}
	if c.Seed == 0 {
		return misusedFlag("predict", "--seed 0: accepted: 1 or more")
	}
	var d *work.Design
	err := a.input(c.File, func(r io.Reader, name string) (err error) {
		d, err = work.Open(r, name)
		return err
	})
	if err == nil {
		err = d.Refused()
	}
	if err != nil {
		return about(err, c.File)
	}
	var p *work.Prediction
	var o outputs
	defer o.Discard()
	for _, f := range []struct {
		flag, path, kind string
		write            func(io.Writer) error
	}{
		{"--csv", c.CSV, "csv", func(w io.Writer) error { return p.WriteCSV(w) }},
		{"--svg", c.SVG, "svg", func(w io.Writer) error { return p.WriteChart(w, a.units) }},
		{"--section", c.Section, "svg", func(w io.Writer) error { return p.WriteSection(w, a.units) }},
		{"--heat", c.Heat, "svg", func(w io.Writer) error { return p.WriteHeat(w) }},
	} {
		if err := o.add(f.flag, f.path, f.kind, c.File, f.write); err != nil {
			return err
		}
	}
	b := a.bar("burning")
	p, err = work.Predict(a.ctx, d, work.PredictOptions{Samples: c.Samples, Seed: c.Seed, Progress: b.show})
	b.clear()
	if err != nil {
		return err
	}
	return a.finish(&o, func(w io.Writer) error { return p.WriteText(w, a.units) }, p.WriteJSON)
}
