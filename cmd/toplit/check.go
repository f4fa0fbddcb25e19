package main

import (
	"io"

	"toplit/work"
)

type checkCommand struct {
	File    string `arg:"" name:"FILE" help:"Design file, or - for standard input."`
	Section string `placeholder:"FILE" help:"Draw the stove cut in half, to scale."`
}

func (checkCommand) Help() string {
	return `Reads a design file, measures the stove it draws, lists what was assumed, and says what is unsafe, will not work or cannot be cut, with the line and what would be accepted. It computes no fire.

    toplit check tea-stove.toml
    toplit check tea-stove.toml --section stove.svg

That nothing was found does not make a stove safe.` + exitCodes
}

func (c *checkCommand) Run(a *app) error {
	var k *work.Checkup
	err := a.input(c.File, func(r io.Reader, name string) error {
		k = work.Check(r, name)
		return nil
	})
	if err != nil {
		return err
	}
	var o outputs
	defer o.Discard()
	if k.Firing != nil {
		if err := o.add("--section", c.Section, "svg", c.File, func(w io.Writer) error { return k.WriteSection(w, a.units) }); err != nil {
			return err
		}
	}
	if err := a.finish(&o, func(w io.Writer) error { return k.WriteText(w, a.units) }, k.WriteJSON); err != nil {
		return err
	}
	if k.Refused() != nil {
		return silent{refused}
	}
	return nil
}
