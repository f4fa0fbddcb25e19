package work

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
	case "pot_base", "pot_side", "pot_radiation":
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
