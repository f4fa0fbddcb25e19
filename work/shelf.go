package work

import (
	"fmt"
	"slices"
	"strings"

	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/sim"
	"toplit/stove/catalogue"
)

// The parts of the catalogue, each as a listing. What they hold is in the
// tables of the rooms below, each row with its source.

func listCans(name string) (*Listing, error) {
	all := catalogue.Cans()
	if name != "" {
		c, err := catalogue.Can(name)
		if err != nil {
			return nil, err
		}
		all = []catalogue.CanSize{c}
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "name", Title: "name"},
		{Key: "code", Title: "code"},
		{Key: "family", Title: "kind", Long: true},
		{Key: "body_outside_m", Title: ">body outside", Kind: quantity.Length, Digit: 4},
		{Key: "height_overall_m", Title: ">height", Kind: quantity.Length, Digit: 4},
		{Key: "volume_m3", Title: ">holds", Kind: quantity.Volume},
		{Key: "wall_m", Title: "sheet", Kind: quantity.Length, Digit: 2, Long: true},
		{Key: "mouth_m", Title: "mouth", Kind: quantity.Length, Digit: 4, Long: true},
		{Key: "over_seam_m", Title: "over the seam", Kind: quantity.Length, Digit: 4, Long: true},
		{Key: "body_inside_m", Title: "body inside", Kind: quantity.Length, Digit: 4, Long: true},
		{Key: "body_inside_half_width_m", Title: "body inside ±", Kind: quantity.Length, Digit: 2, Long: true},
		{Key: "height_inside_m", Title: "height inside", Kind: quantity.Length, Digit: 4, Long: true},
		{Key: "capacity_m3", Title: "published capacity", Kind: quantity.Volume, Long: true},
		{Key: "source", Title: "source", Long: true},
	}}
	for _, c := range all {
		l.Rows = append(l.Rows, []any{c.Name, c.Code, c.Family, c.BodyOutside, c.HeightOverall, c.Volume(), known(c.Wall), known(c.Mouth),
			known(c.OverSeam), c.BodyInside, known(c.BodyInsideOff), c.HeightInside, known(c.Capacity), c.Source})
	}
	l.Notes = []string{"Sizes are nominal: a strip of paper round the can in hand beats the table."}
	return l, nil
}

func listDrills(name string) (*Listing, error) {
	sets := catalogue.DrillSets()
	if name == "" {
		return listSets(sets)
	}
	l := &Listing{Columns: []Column{
		{Key: "set", Title: "set"},
		{Key: "name", Title: "drill"},
		{Key: "diameter_m", Title: ">diameter", Kind: quantity.Length, Digit: 4},
		{Key: "area_m2", Title: ">hole", Kind: quantity.Area},
	}}
	var all []catalogue.Drill
	if i := slices.IndexFunc(sets, func(s string) bool { return plainName(s) == plainName(name) }); i >= 0 {
		d, err := catalogue.Drills(sets[i])
		if err != nil {
			return nil, err
		}
		all = d
	} else {
		one, err := catalogue.ParseDrill(name)
		if err != nil {
			return nil, fmt.Errorf("%w; accepted: a set (%s), or a drill such as \"6 mm\", \"5/8 in\", \"#7\", \"F\"", err, strings.Join(sets, ", "))
		}
		l.one, all = true, []catalogue.Drill{one}
	}
	for _, d := range all {
		l.Rows = append(l.Rows, []any{d.Set, d.Name, d.Diameter, d.Area})
	}
	l.Notes = []string{handDrilled}
	return l, nil
}

const handDrilled = "A hole drilled by hand in thin sheet runs 0 to 4 % wide. Deburr both sides: a burr moves the air more than the next drill size does."

// listSets shows the sets of drills.
func listSets(sets []string) (*Listing, error) {
	l := &Listing{Columns: []Column{
		{Key: "set", Title: "set"},
		{Key: "count", Title: ">how many"},
		{Key: "thinnest_m", Title: ">from", Kind: quantity.Length, Digit: 4},
		{Key: "thickest_m", Title: ">to", Kind: quantity.Length, Digit: 4},
	}}
	for _, s := range sets {
		d, err := catalogue.Drills(s)
		if err != nil {
			return nil, err
		}
		l.Rows = append(l.Rows, []any{s, len(d), d[0].Diameter, d[len(d)-1].Diameter})
	}
	l.Notes = []string{"Name a set to see its drills, or a drill such as \"6 mm\", \"5/8 in\", \"#7\" or \"F\".", handDrilled}
	return l, nil
}

func listMetals(name string) (*Listing, error) {
	all, err := pick(catalogue.Metals(), name, func(m catalogue.Metal) string { return m.Name })
	if err != nil {
		return nil, err
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "name", Title: "metal"},
		{Key: "density_kg_m3", Title: ">density", Kind: quantity.Density, Digit: 4},
		{Key: "melts_K", Title: ">melts", Kind: quantity.Temperature},
		{Key: "coating", Title: "coating"},
		{Key: "coating_melts_K", Title: ">it melts", Kind: quantity.Temperature},
		{Key: "density_half_width_kg_m3", Title: "density ±", Kind: quantity.Density, Digit: 2, Long: true},
		{Key: "caution", Title: "caution", Long: true},
		{Key: "source", Title: "source", Long: true},
	}}
	for _, m := range all {
		l.Rows = append(l.Rows, []any{m.Name, m.Density, known(m.Melts), m.Coating, known(m.CoatingMelts), known(m.DensityOff), m.Caution, m.Source})
		if name == "" && m.Caution != "" {
			l.Notes = append(l.Notes, m.Name+": "+m.Caution)
		}
	}
	return l, nil
}

func listFuels(name string) (*Listing, error) {
	all := fuel.Catalogue()
	if name != "" {
		f, err := fuel.ByName(name)
		if err != nil {
			return nil, err
		}
		all = []fuel.Fuel{f}
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "name", Title: "fuel"},
		{Key: "moisture", Title: ">moisture", Kind: quantity.Ratio, Digit: 2},
		{Key: "bulk_density_kg_m3", Title: ">as poured", Kind: quantity.Density},
		{Key: "size_m", Title: ">piece", Kind: quantity.Length, Digit: 2},
		{Key: "length_m", Title: ">long", Kind: quantity.Length, Digit: 2},
		{Key: "lower_heating_value_dry_J_kg", Title: ">MJ/kg dry", Plain: 1e-6},
		{Key: "ash", Title: ">ash", Kind: quantity.Ratio, Digit: 2},
		{Key: "carbon", Title: "carbon, dry", Kind: quantity.Ratio, Long: true},
		{Key: "hydrogen", Title: "hydrogen, dry", Kind: quantity.Ratio, Long: true},
		{Key: "oxygen", Title: "oxygen, dry", Kind: quantity.Ratio, Long: true},
		{Key: "nitrogen", Title: "nitrogen, dry", Kind: quantity.Ratio, Long: true},
		{Key: "volatiles", Title: "volatiles, dry", Kind: quantity.Ratio, Long: true},
		{Key: "piece_density_kg_m3", Title: "density of a piece", Kind: quantity.Density, Long: true},
		{Key: "sources", Title: "sources", Long: true},
	}}
	for _, f := range all {
		l.Rows = append(l.Rows, []any{f.Name, f.Moisture, f.Bulk, f.Size, known(f.Length), f.Analysis.LHV(), f.Analysis.Ash,
			f.Analysis.Carbon, f.Analysis.Hydrogen, f.Analysis.Oxygen, f.Analysis.Nitrogen, known(f.Volatiles), known(f.Density), fuelSources(f.Name)})
	}
	l.Notes = []string{"A bag differs from the table: weigh what you pour, and dry a sample to know its moisture."}
	return l, nil
}

// fuelSources says where a fuel's values come from, each source once.
func fuelSources(name string) string {
	var order []string
	of := map[string][]string{}
	for _, r := range fuel.Rows(name) {
		if r.Unit == "" && r.Text != "" {
			continue // a word, not a value
		}
		if of[r.Source] == nil {
			order = append(order, r.Source)
		}
		of[r.Source] = append(of[r.Source], r.Quantity)
	}
	var out []string
	for _, s := range order {
		out = append(out, strings.Join(of[s], ", ")+": "+s)
	}
	return strings.Join(out, "; ")
}

func listStarters(name string) (*Listing, error) {
	all, err := pick(bed.Starters(), name, func(s bed.Starter) string { return s.Kind })
	if err != nil {
		return nil, err
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "kind", Title: "starter"},
		{Key: "covers_kg_m2", Title: ">covers g/cm²", Plain: 0.1},
		{Key: "lower_heating_value_J_kg", Title: ">MJ/kg", Plain: 1e-6},
		{Key: "burning_rate_kg_m2_s", Title: ">burns g/m² s", Plain: 1e3},
		{Key: "share_into_the_top", Title: ">into the top", Kind: quantity.Ratio, Digit: 2},
		{Key: "may_be_used", Title: "may be used"},
		{Key: "refused_because", Title: "because", Long: true},
		{Key: "note", Title: "how", Long: true},
		{Key: "source", Title: "source", Long: true},
	}}
	for _, s := range all {
		use := "yes"
		if s.Refused != "" {
			use, s.Cover, s.LHV, s.Flux, s.Share = "refused", 0, 0, 0, 0
		}
		l.Rows = append(l.Rows, []any{s.Kind, known(s.Cover), known(s.LHV), known(s.Flux), known(s.Share), use, s.Refused, s.Note, s.Source})
	}
	l.Notes = []string{"Measure the starter, soak it in away from the stove, close and move the bottle, then light. Never add to a lit or hot stove. Never petrol or anything like it."}
	return l, nil
}

func listCovers(name string) (*Listing, error) {
	all := catalogue.Covers()
	if name != "" {
		c, err := catalogue.Cover(name)
		if err != nil {
			return nil, err
		}
		all = []catalogue.GroundCover{c}
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "name", Title: "cover"},
		{Key: "moisture", Title: "moisture"},
		{Key: "can_burn", Title: "can burn"},
		{Key: "limit_K", Title: ">goes at", Kind: quantity.Temperature},
		{Key: "density_kg_m3", Title: ">density", Kind: quantity.Density},
		{Key: "conductivity_W_mK", Title: ">W/(m K)", Plain: 1},
		{Key: "conductivity_times_or_over", Title: "conductivity × or ÷", Plain: 1, Long: true},
		{Key: "heat_capacity_J_kgK", Title: "heat capacity J/(kg K)", Plain: 1, Long: true},
		{Key: "water_m3_m3", Title: "water per volume", Plain: 1, Long: true},
		{Key: "note", Title: "note", Long: true},
		{Key: "source", Title: "source", Long: true},
	}}
	for _, c := range all {
		burns := "no"
		if c.Combustible {
			burns = "yes"
		}
		l.Rows = append(l.Rows, []any{c.Name, c.Moisture, burns, known(c.Limit), c.Density, c.Conductivity, known(c.Spread), c.HeatCapacity, known(c.Water), c.Note, c.Source})
	}
	l.Notes = []string{"What cannot burn can lie over what can: roots, peat and litter smoulder unseen. Local fire rules come first."}
	return l, nil
}

func listPriors(name string) (*Listing, error) {
	all, err := pick(sim.Priors(), name, func(p sim.Prior) string { return p.Name })
	if err != nil {
		return nil, err
	}
	l := &Listing{one: name != "", Columns: []Column{
		{Key: "name", Title: "parameter"},
		{Key: "median", Title: ">median", Plain: 1},
		{Key: "spread_text", Title: "spread"},
		{Key: "unit", Title: "unit", Long: true},
		{Key: "what", Title: "what"},
		{Key: "shape", Title: "shape", Long: true},
		{Key: "spread", Title: "spread, number", Plain: 1, Long: true},
		{Key: "low", Title: "never below", Plain: 1, Long: true},
		{Key: "high", Title: "never above", Plain: 1, Long: true},
		{Key: "narrowed_by", Title: "to know it better", Long: true},
		{Key: "source", Title: "source", Long: true},
	}}
	for _, p := range all {
		spread := "± " + digits(p.Spread)
		switch p.Shape {
		case "lognormal":
			spread = "× ÷ " + digits(p.Spread)
		case "uniform":
			spread = digits(p.Median-p.Spread) + " to " + digits(p.Median+p.Spread)
		}
		unit := p.Unit
		if unit == "1" {
			unit = ""
		}
		l.Rows = append(l.Rows, []any{p.Name, p.Median, spread, unit, p.What, p.Shape, p.Spread, p.Low, p.High, narrowedBy(p.Name), p.Source})
	}
	l.Notes = []string{"± and × ÷ are one standard deviation. Your own weighed burns narrow these."}
	return l, nil
}
