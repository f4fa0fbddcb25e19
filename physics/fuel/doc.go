// Package fuel holds what the fuel is: dry analyses, heating values, air
// demand, moisture on both bases, heat capacities, the char and the tar a fuel
// turns into, and a catalogue of stove fuels.
//
// Use ByName for a catalogue fuel, Analysis for a composition, Char and Tar
// for the two condensable products of pyrolysis.
//
// Valid range: wood, shells, husks and their chars, carbon 30 to 95 % dry.
// Heating values come from a correlation good to 1.5 %; nothing here knows a
// lot better than the analysis put in.
//
// Sources: Channiwala, Parikh 2002 (heating value); ISO 18125 (net heating
// value); Neves et al. 2011 (char composition); Thunman et al. 2001 (heat
// capacity of wood); the catalogue names one source per value.
//
// It does not know the bed, the front or how fast anything burns. Sulfur is
// carried for heating value and air demand and then stays with the ash.
//
// The equations stand in docs/model/fuel.md.
package fuel
