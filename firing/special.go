package firing

import (
	"fmt"
	"math"
	"strings"

	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Format is the version of the design file this program writes.
const Format = 1

func formatKey() Key {
	return Key{
		Takes: "whole number", Range: "1",
		read: func(_ *Firing, _ int, v any) error {
			n, ok := v.(int64)
			switch {
			case !ok:
				return wrong("1", "not a whole number")
			case n > Format:
				return wrong("1", "a form newer than this program reads")
			case n < Format:
				return wrong("1", "no form of this file")
			}
			return nil
		},
		write: func(*Firing, int, quantity.System) string { return fmt.Sprint(Format) },
	}
}

// derived builds a key that is only read: another way of giving a value.
func derived(kind quantity.Kind, least, most float64, set func(f *Firing, i int, v float64)) Key {
	k := number(kind, least, most, func(*Firing, int) *float64 { return new(float64) })
	k.write = nil
	k.read = func(f *Firing, i int, raw any) error {
		x, err := amount(kind, raw, least, most)
		if err != nil {
			return err
		}
		set(f, i, x)
		return nil
	}
	return k
}

// stripKey turns the length of a strip round a can into its diameter.
func stripKey(can func(f *Firing) *stove.Can) Key {
	const paper = 0.1e-3
	return derived(quantity.Length, 0.09, 2, func(f *Firing, _ int, v float64) { can(f).Diameter = fine(catalogue.FromStrip(v, paper)) })
}

func holeKey() Key {
	k := Key{Takes: "hole", Range: holeRange + "; each size " + span(quantity.Length, holeLeast, holeMost)}
	k.read = func(f *Firing, i int, v any) error {
		s, ok := v.(string)
		if !ok {
			return wrong(holeRange, "has no unit: sizes are text with a unit")
		}
		h, err := ParseHole(s)
		if err != nil {
			return err
		}
		f.Design.Rows[i].Hole = h
		return nil
	}
	k.write = func(f *Firing, i int, sys quantity.System) string {
		return Quoted(FormatHole(f.Design.Rows[i].Hole, sys))
	}
	return k
}

func speciesKey() Key {
	names := make([]string, 0, 16)
	for _, c := range fuel.Catalogue() {
		names = append(names, c.Name)
	}
	k := choice(names, func(f *Firing, _ int) *string { return &f.Conditions.Fuel.Species })
	k.read = func(f *Firing, _ int, v any) error {
		s, ok := v.(string)
		if !ok {
			return wrong(k.Range, "not a word in quotes")
		}
		row, err := fuel.ByName(s)
		if err != nil {
			return wrong(k.Range, "not in the fuel catalogue")
		}
		f.Conditions.Fuel.Species = row.Name
		return nil
	}
	return k
}

// starterNames are the starters that may be used.
func starterNames() []string {
	var names []string
	for _, s := range bed.Starters() {
		if s.Refused == "" {
			names = append(names, s.Kind)
		}
	}
	return names
}

// explosive are words for liquids whose vapour flashes at any outdoor
// temperature, whatever stands round them.
var explosive = []string{"petrol", "gasoline", "benzine", "naphtha", "white gas", "white spirit", "lighter fluid", "thinner", "acetone", "aerosol", "gunpowder"}

// refusedStarter says why a starter must not be used, "" when nothing is
// known against it.
func refusedStarter(kind string) string {
	s := strings.ToLower(strings.TrimSpace(kind))
	for _, b := range bed.Starters() {
		if b.Kind == s {
			if b.Refused != "" {
				return "refused: " + b.Refused
			}
			return ""
		}
	}
	for _, x := range explosive {
		if strings.Contains(s, x) {
			return "refused: its vapour flashes back and burns whoever lights it"
		}
	}
	return ""
}

func starterKey() Key {
	k := choice(starterNames(), func(f *Firing, _ int) *string { return &f.Conditions.Starter.Kind })
	read := k.read
	k.read = func(f *Firing, i int, v any) error {
		if s, ok := v.(string); ok {
			if reason := refusedStarter(s); reason != "" {
				return wrong(k.Range, "%s", reason)
			}
		}
		return read(f, i, v)
	}
	return k
}

// altitudeKey gives the pressure of the standard atmosphere. Beside a
// pressure it is only compared with it: a pressure reduced to sea level, as
// forecasts print it, is the usual slip.
func altitudeKey() Key {
	return derived(quantity.Length, -430, 6000, func(f *Firing, _ int, v float64) {
		f.Conditions.Air.Pressure = standardPressure(v)
	})
}

func waterVolumeKey() Key {
	return derived(quantity.Volume, 0, 0.05, func(f *Firing, _ int, v float64) {
		grams := v * waterDensity(f.Conditions.Water.Temperature) * 1e3
		f.Conditions.Water.Mass = math.Round(grams*10) / 1e4 // no measure is better
	})
}

// flowKey reads a fan's flow by mass or by volume. It is kept and written by
// mass.
func flowKey(at func(f *Firing) *float64) Key {
	const most = 0.02 // kg/s
	k := number(quantity.MassFlow, 0, most, func(f *Firing, _ int) *float64 { return at(f) })
	k.stage = late
	k.Takes = "mass flow or volume flow"
	k.Range += ", or as much air by volume"
	k.read = func(f *Firing, _ int, v any) error {
		s, ok := v.(string)
		if !ok || bare.MatchString(s) {
			return wrong(example(quantity.MassFlow), "has no unit: amounts are text with a unit")
		}
		kind, x, err := quantity.ParseOneOf(s, quantity.MassFlow, quantity.VolumeFlow)
		if err != nil {
			return wrong(example(quantity.MassFlow), "%s", err)
		}
		if kind == quantity.VolumeFlow {
			x *= airDensity(f.Conditions.Air)
		}
		if err := within(quantity.MassFlow, x, 0, most); err != nil {
			return err
		}
		*at(f) = x
		return nil
	}
	return k.unlessZero(func(f *Firing, _ int) *float64 { return at(f) }).absent("natural draft")
}
