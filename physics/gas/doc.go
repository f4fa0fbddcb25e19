// Package gas holds ideal gases and their mixtures: thermodynamic properties,
// transport properties, chemical equilibrium and adiabatic flame temperature.
//
// Use Species and its methods for one substance, Mix for a mixture (or a flow)
// of the eight core gases of a wood-gas flame, and the Fast functions inside
// hot loops. Equilibrium and FlameTemperature work over all species.
//
// Valid range: 200 to 6000 K for most species (see Species.Range), pressures
// at which gases are ideal; near one atmosphere the ideal gas law costs less
// than 0.1 % above 273 K, and up to 0.3 % for water vapour near 373 K at the
// partial pressures met in flue gas.
//
// Sources: McBride, Zehe, Gordon 2002, NASA TP-2002-211556 (thermodynamics);
// Svehla 1995, NASA TM-4647 (transport of pure gases); Wilke 1950 and Mason,
// Saxena 1958 (mixing rules); Gordon, McBride 1994, NASA RP-1311 (equilibrium).
// Standard state pressure is 1 bar; enthalpies are absolute, that is they
// include the heat of formation, with the elements at 298.15 K as zero.
//
// It does not know kinetics, soot, tar, radiation or real-gas effects.
//
// The equations stand in docs/model/gas.md, docs/model/equilibrium.md and
// docs/model/flame-temperature.md.
package gas
