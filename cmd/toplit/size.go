package main

import (
	"errors"
	"io"

	"toplit/work"
)

type sizeCommand struct {
	FuelCan  string            `required:"" placeholder:"CAN" help:"Can that holds the fuel: trade code 404x700, name \"No. 10\", size \"73 x 110 mm\" (inside by height), or \"strip:33 cm x 12 cm\" (paper round the body, by height)."`
	OuterCan string            `placeholder:"CAN" default:"none" help:"Can round it, in the same words; any for one out of the catalogue; none for a single wall."`
	Fuel     string            `placeholder:"FUEL" default:"softwood pellets" help:"A fuel of the catalogue."`
	Pot      string            `placeholder:"SIZE" help:"Pot, diameter by height: \"128 x 90 mm\"."`
	Water    string            `placeholder:"AMOUNT" help:"Water in the pot: \"2 cups\", \"500 g\"."`
	BoilIn   string            `placeholder:"TIME" help:"Wish: boil so long after the pot goes on, 6:00 or \"6 min\"."`
	Flame    string            `placeholder:"TIME" help:"Wish: gas flame for so long after lighting."`
	Drills   string            `placeholder:"DRILLS" help:"Drills on hand: a set (metric, fractional, number, letter), or \"3, 4, 5, 6 mm\". Half millimetres when not given."`
	Charge   string            `placeholder:"AMOUNT" help:"Fuel to load: \"200 g\", \"1 cup\", \"60 mm\" deep. Chosen when not given."`
	Starter  string            `placeholder:"KIND" help:"What lights the top; alcohol when not given."`
	Also     map[string]string `placeholder:"KEY=VALUE" mapsep:"none" help:"Another key of the design file, such as air.altitude=1200m or pot.lid=false; may be repeated."`
	Name     string            `placeholder:"NAME" help:"What to call the stove."`
	Out      string            `short:"o" placeholder:"FILE" help:"Write the design file, every value in it, what was assumed marked so."`
	Section  string            `placeholder:"FILE" help:"Draw the stove cut in half, to scale."`
	Samples  int               `default:"128" help:"How many burns the band of the result is made of, 16 to 16384."`
	Seed     uint64            `default:"1" help:"Which burns: the same seed gives the same bytes. 1 or more."`
}

func (sizeCommand) Help() string {
	return `Works out how many holes of which of your drills these cans want for this fuel and pot: primary, secondary, ring, stand, the charge that boils the water in nine of ten burns and the starter that covers the top. It says why for each, and two other ways.

    toplit size --fuel-can 404x414 --outer-can any --pot "128 x 90 mm" --water "2 cups" -o stove.toml
    toplit size --fuel-can "strip:33 cm x 12 cm" --flame 30:00 --drills "3, 4, 5, 6 mm"
    toplit size --fuel-can "No. 3" --outer-can "No. 10" --pot "6 x 4 in" --water "1 qt" --boil-in 8:00 -o - | toplit predict -

A file may be - for standard output; the words then go to standard error.` + exitCodes + ` 3 done, but these cans do not meet the wish; the design is the nearest found.`
}

func (c *sizeCommand) Run(a *app) error {
	if c.Samples < 16 || c.Samples > 1<<14 {
		return misusedFlag("size", "--samples %d: out of range; accepted: 16 to 16384", c.Samples)
	}
	if c.Seed == 0 {
		return misusedFlag("size", "--seed 0: accepted: 1 or more")
	}
	var s *work.Sized
	var o outputs
	defer o.Discard()
	if err := o.add("--out", c.Out, "toml", "-", func(w io.Writer) error { return s.WriteDesign(w) }); err != nil {
		return err
	}
	if err := o.add("--section", c.Section, "svg", "-", func(w io.Writer) error { return s.WriteSection(w) }); err != nil {
		return err
	}
	b := a.bar("sizing")
	s, err := work.Size(a.ctx, work.SizeOptions{
		Name: c.Name, FuelCan: c.FuelCan, OuterCan: c.OuterCan, Fuel: c.Fuel, Pot: c.Pot, Water: c.Water,
		BoilIn: c.BoilIn, Flame: c.Flame, Drills: c.Drills, Charge: c.Charge, Starter: c.Starter, Also: c.Also,
		Samples: c.Samples, Seed: c.Seed, Units: a.units, Progress: b.stage,
	})
	b.clear()
	var bad work.BadWish
	if errors.As(err, &bad) {
		return hint(refused, err, "toplit size --help; toplit catalogue lists cans, drills, fuels and starters")
	}
	if err != nil {
		return err
	}
	if err := a.finish(&o, s.WriteText, s.WriteJSON); err != nil {
		return err
	}
	if !s.Met() {
		return silent{unmet}
	}
	return nil
}
