package work

import "toplit/sim"

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
func (p *page) cautions(all []sim.Caution) {
	p.heading("Cautions")
	for _, c := range all {
		p.para("  - ", c.Text)
	}
}
