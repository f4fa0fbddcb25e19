package work

import (
	"regexp"

	"toplit/quantity"
	"toplit/sim"
)

// standing are the cautions of everything that is not a prediction: a
// prediction has its own, which know what it found. They defer to local rules
// and to people licensed to judge.
func standing() []sim.Caution {
	return []sim.Caution{
		{About: "outdoors", Text: "Outdoors only: never in a tent, vehicle, garage, porch or room. The fire makes carbon monoxide, most of all when it only glows."},
		{About: "first fire", Text: "First fire empty of food, outdoors, upwind: linings, paint and tin burn off. No galvanised or brass-plated metal near heat."},
		{About: "cutting", Text: "Cut cans are sharp: gloves, eye protection, deburr every edge."},
		{About: "local fire rules", Text: "Bare mineral ground, water at hand, never left alone until cold. Local fire rules and licensed practice come first."},
	}
}

// cautions end a page.
func (p *page) cautions(all []sim.Caution, sys quantity.System) {
	p.heading("Cautions")
	for _, c := range all {
		p.para("  - ", inUnits(c.Text, sys))
	}
}

// told are amounts in sentences of lower rooms, which speak metric.
var told = regexp.MustCompile(`([0-9.]+) (°C|mm)`)

// inUnits puts such amounts into the reader's units.
func inUnits(sentence string, sys quantity.System) string {
	if sys == quantity.Metric {
		return sentence
	}
	return told.ReplaceAllStringFunc(sentence, func(s string) string {
		for _, kind := range []quantity.Kind{quantity.Temperature, quantity.Length} {
			if v, err := quantity.Parse(kind, s); err == nil {
				return quantity.Show(kind, v, sys, 2)
			}
		}
		return s
	})
}
