package main

import (
	"io"
	"strings"

	"toplit/work"
)

type catalogueCommand struct {
	Kind string   `arg:"" optional:"" name:"KIND" help:"cans, drills, metals, fuels, starters, covers or priors."`
	Name []string `arg:"" optional:"" name:"NAME" help:"One of them, with all that is known of it and where from."`
}

func (catalogueCommand) Help() string {
	return `    toplit catalogue
    toplit catalogue cans
    toplit catalogue cans 401x411
    toplit catalogue drills 5/16 in
    toplit catalogue fuels softwood pellets
    toplit catalogue priors char_bed

Names may be written with or without quotes. A can may also be given by size, "73 x 110 mm", inside diameter by height.` + exitCodes
}

func (c *catalogueCommand) Run(a *app) error {
	l, err := work.Catalogue(work.CatalogueOptions{Kind: c.Kind, Name: strings.Join(c.Name, " ")})
	if err != nil {
		ask := "toplit catalogue"
		if c.Kind != "" && len(c.Name) > 0 {
			ask += " " + c.Kind
		}
		return hint(refused, err, "%s lists them", ask)
	}
	return a.finish(new(outputs), func(w io.Writer) error { return l.WriteText(w, a.units) }, l.WriteJSON)
}
