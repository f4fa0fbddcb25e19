package fuel

// The other heating-value correlations in use, kept for comparison: the spread
// between them is an honest picture of what a composition says about the heat.
// All return the gross heating value at constant volume [J/kg dry]; all
// coefficients are [memory].

// Boie is HHV = 0.3516·C + 1.16225·H − 0.1109·O + 0.0628·N + 0.10465·S (MJ/kg,
// wt%), Boie 1953 [memory].
func (a Analysis) Boie() float64 {
	return 1e8 * (0.3516*a.Carbon + 1.16225*a.Hydrogen - 0.1109*a.Oxygen + 0.0628*a.Nitrogen + 0.10465*a.Sulfur)
}

// Milne is HHV = 0.341·C + 1.322·H − 0.12·(O + N) + 0.0686·S − 0.0153·A (MJ/kg,
// wt%), Milne 1990 [memory].
func (a Analysis) Milne() float64 {
	return 1e8 * (0.341*a.Carbon + 1.322*a.Hydrogen - 0.12*(a.Oxygen+a.Nitrogen) + 0.0686*a.Sulfur - 0.0153*a.Ash)
}

// Dulong is HHV = 0.3383·C + 1.443·(H − O/8) + 0.0942·S (MJ/kg, wt%) [memory].
// Made for coal: 10 to 12 % low for wood.
func (a Analysis) Dulong() float64 {
	return 1e8 * (0.3383*a.Carbon + 1.443*(a.Hydrogen-a.Oxygen/8) + 0.0942*a.Sulfur)
}

// ShengAzevedo is HHV = −1.3675 + 0.3137·C + 0.7009·H + 0.0318·O* (MJ/kg, wt%)
// with O* = 100 − C − H − A; Sheng, Azevedo, Biomass and Bioenergy 28 (2005)
// [memory]. Raw biomass only: it fails for char.
func (a Analysis) ShengAzevedo() float64 {
	o := 1 - a.Carbon - a.Hydrogen - a.Ash
	return -1.3675e6 + 1e8*(0.3137*a.Carbon+0.7009*a.Hydrogen+0.0318*o)
}

// Friedl is HHV = 3.55·C² − 232·C − 2230·H + 51.2·C·H + 131·N + 20600 (kJ/kg,
// wt%), Friedl et al., Anal. Chim. Acta 544 (2005) [memory].
func (a Analysis) Friedl() float64 {
	c, h, n := 100*a.Carbon, 100*a.Hydrogen, 100*a.Nitrogen
	return 1e3 * (3.55*c*c - 232*c - 2230*h + 51.2*c*h + 131*n + 20600)
}

// Proximate is HHV = 0.3536·FC + 0.1559·VM − 0.0078·A (MJ/kg, dry wt%) from a
// proximate analysis given as dry mass fractions; Parikh, Channiwala, Ghosal,
// Fuel 84 (2005) 487–494, mean absolute error 3.74 %.
func Proximate(fixedCarbon, volatiles, ash float64) float64 {
	return 1e8 * (0.3536*fixedCarbon + 0.1559*volatiles - 0.0078*ash)
}
