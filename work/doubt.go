package work

import "toplit/sim"

// doubtful says in the maker's words what a parameter of the model is about.
func doubtful(d sim.Driver) string {
	switch d.Parameter {
	case "air_need":
		return "how much air the front needs"
	case "char_offset":
		return "how much char the front leaves"
	case "holes":
		return "how much air a hole lets through"
	case "raw_bed":
		return "how much the raw fuel holds back the air"
	case "char_bed":
		return "how much the char layer holds back the air"
	case "ring":
		return "how much the ring holds back the gas"
	case "pot_base":
		return "how well heat enters the pot's base"
	case "pot_side":
		return "how well heat enters the pot's side"
	case "evaporation":
		return "how much the water steams before it boils"
	case "lid":
		return "how much steam passes the lid"
	case "emissivity":
		return "how strongly the walls radiate"
	case "co_split":
		return "how much carbon monoxide the char gives"
	case "mixing":
		return "how well gas and air mix"
	case "critical_flame":
		return "when a lean flame goes out"
	case "void_burning":
		return "how fast gas burns inside the char"
	case "starter_time":
		return "how long the starter burns"
	case "wind_cp", "wind_calm":
		return "the wind"
	case "leaks":
		return "what leaks at seams and joints"
	case "moisture":
		return "how moist the fuel is"
	case "bulk_density":
		return "how densely the fuel lies"
	case "tar":
		return "how much tar the gas holds"
	case "water_gas":
		return "what the wood gas is made of"
	case "bed_wall":
		return "how much heat the bed gives to the can"
	case "flame_core":
		return "how much hotter than the mixed gas the flame's core meets the pot"
	case "char_zone":
		return "how deep in the char the air is used up"
	case "pot_radiation":
		return "how strongly the glowing bed radiates to the pot"
	}
	return "the " + d.What
}

// narrowedBy is what a maker can do to know a parameter of the model better,
// "" when nothing at home does. What it gains is for the burns to say.
// Parameters that are not listed are physics of the flame and the char.
func narrowedBy(parameter string) string {
	switch parameter {
	case "moisture":
		return "weigh 100 g of the fuel, dry it in an oven at 105 °C until it loses no more, weigh again"
	case "bulk_density":
		return "weigh the charge in place of measuring its volume"
	case "char_offset":
		return "weigh the char that is left, cold, in its tin"
	case "raw_bed", "char_bed", "air_need", "holes":
		return "weigh the charge and time a few burns from jets lit to flame-out"
	case "ring":
		return "burn once with and once without the ring, all else the same"
	case "pot_base", "pot_side", "pot_radiation", "flame_core":
		return "boil a weighed amount of water with a thermometer in it"
	case "evaporation", "lid":
		return "weigh the water before and after"
	case "starter_time":
		return "weigh the starter and time it until it is burned up"
	case "wind_cp", "wind_calm":
		return "put up a windscreen, or note the wind at stove height"
	case "leaks":
		return "press the joints shut or seal them"
	case "emissivity":
		return "note whether the tin is bright, melted or oxidised"
	}
	return ""
}
