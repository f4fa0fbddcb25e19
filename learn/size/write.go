package size

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"toplit/firing"
	"toplit/quantity"
	"toplit/stove"
)

// paper is a design file in the making: values of keys by table. What is not
// in it, package firing fills in and names as assumed, so that every assumed
// key of a result is a real one.
type paper struct {
	tables map[string]map[string]string // table → key → TOML value
	rows   []map[string]string
}

func (p *paper) set(table, key, value string) {
	if p.tables[table] == nil {
		p.tables[table] = map[string]string{}
	}
	p.tables[table][key] = value
}

// amount sets a key to an amount unless it is zero, which means not said.
func (p *paper) amount(table, key string, kind quantity.Kind, v float64) {
	if v != 0 {
		p.set(table, key, text(kind, v))
	}
}

func (p *paper) word(table, key, v string) {
	if v != "" {
		p.set(table, key, firing.Quoted(v))
	}
}

func text(kind quantity.Kind, v float64) string {
	return firing.Quoted(quantity.Format(kind, v, quantity.Metric))
}

// with is a copy to which one design's sizes can be added.
func (p *paper) with() *paper {
	c := &paper{tables: make(map[string]map[string]string, len(p.tables)+4)}
	for t, keys := range p.tables {
		m := make(map[string]string, len(keys))
		for k, v := range keys {
			m[k] = v
		}
		c.tables[t] = m
	}
	return c
}

// String is the file.
func (p *paper) String() string {
	var b strings.Builder
	block := func(head string, keys map[string]string) {
		if head != "" {
			b.WriteString(head + "\n")
		}
		names := make([]string, 0, len(keys))
		for k := range keys {
			names = append(names, k)
		}
		slices.Sort(names)
		for _, k := range names {
			b.WriteString(k + " = " + keys[k] + "\n")
		}
	}
	block("", p.tables[""])
	names := make([]string, 0, len(p.tables))
	for t := range p.tables {
		if t != "" {
			names = append(names, t)
		}
	}
	slices.Sort(names)
	for _, t := range names {
		block("["+t+"]", p.tables[t])
	}
	for _, r := range p.rows {
		block("[[row]]", r)
	}
	return b.String()
}

func (p *paper) read() (*firing.Firing, error) {
	return firing.Read(strings.NewReader(p.String()), "wish")
}

// start is the paper of a wish before anything is sized.
func (w Wish) start() *paper {
	p := &paper{tables: map[string]map[string]string{}}
	p.set("", "format", "1")
	p.word("", "name", w.Name)
	p.can("fuel_can", w.FuelCan)
	if w.Outer.given() {
		p.can("outer_can", w.Outer)
	}
	f := w.Fuel
	p.word("fuel", "species", f.Species)
	if f.Carbon != 0 || f.Hydrogen != 0 || f.Oxygen != 0 || f.Nitrogen != 0 || f.Ash != 0 {
		for key, v := range map[string]float64{"carbon": f.Carbon, "hydrogen": f.Hydrogen, "oxygen": f.Oxygen, "nitrogen": f.Nitrogen, "ash": f.Ash} {
			p.set("fuel", key, text(quantity.Ratio, v))
		}
	}
	p.amount("fuel", "moisture", quantity.Ratio, f.Moisture)
	p.amount("fuel", "bulk_density", quantity.Density, f.BulkDensity)
	p.amount("fuel", "size", quantity.Length, f.Size)
	p.amount("fuel", "length", quantity.Length, f.Length)
	p.amount("fuel", "fines", quantity.Ratio, f.Fines)
	p.amount("charge", "mass", quantity.Mass, w.Charge.Mass)
	p.amount("charge", "volume", quantity.Volume, w.Charge.Volume)
	p.amount("charge", "depth", quantity.Length, w.Charge.Depth)
	p.word("starter", "kind", w.Starter.Kind)
	p.amount("starter", "mass", quantity.Mass, w.Starter.Mass)
	a := w.Air
	p.amount("air", "temperature", quantity.Temperature, a.Temperature)
	p.amount("air", "pressure", quantity.Pressure, a.Pressure)
	if a.Pressure == 0 {
		p.amount("air", "altitude", quantity.Length, w.Altitude)
	}
	p.amount("air", "humidity", quantity.Ratio, a.Humidity)
	p.amount("air", "wind", quantity.Speed, a.Wind)
	p.amount("air", "gusts", quantity.Ratio, a.Gusts)
	p.word("air", "shelter", string(a.Shelter))
	if w.Pot != nil {
		p.tables["pot"] = map[string]string{}
		p.amount("pot", "mass", quantity.Mass, w.Pot.Mass)
		p.amount("pot", "diameter", quantity.Length, w.Pot.Diameter)
		p.amount("pot", "height", quantity.Length, w.Pot.Height)
		p.word("pot", "metal", string(w.Pot.Metal))
		if w.Pot.Lid != nil {
			p.set("pot", "lid", strconv.FormatBool(*w.Pot.Lid))
		}
		p.amount("water", "mass", quantity.Mass, w.Water.Mass)
		p.amount("water", "temperature", quantity.Temperature, w.Water.Temperature)
		p.amount("water", "target", quantity.Temperature, w.Water.Target)
	}
	for key, v := range w.Also {
		table, name, ok := strings.Cut(key, ".")
		if !ok {
			table, name = "", key
		}
		if !topPart(table) { // those are there only once they are sized
			p.set(table, name, raw(table, name, v))
		}
	}
	return p
}

func topPart(table string) bool { return table == "ring" || table == "stand" || table == "riser" }

// raw is a key's text as TOML: numbers and yes-or-no stand bare.
func raw(table, name, v string) string {
	for _, k := range firing.Keys() {
		if k.Table != table || k.Name != name {
			continue
		}
		switch k.Takes {
		case "true or false":
			return strconv.FormatBool(strings.EqualFold(v, "true") || strings.EqualFold(v, "yes"))
		case "whole number":
			if n, err := strconv.Atoi(strings.TrimSpace(v)); err == nil {
				return strconv.Itoa(n)
			}
		}
	}
	return firing.Quoted(v)
}

func (p *paper) can(table string, c Can) {
	p.word(table, "can", c.Name)
	p.amount(table, "strip", quantity.Length, c.Strip)
	p.amount(table, "diameter", quantity.Length, c.Diameter)
	p.amount(table, "height", quantity.Length, c.Height)
	p.amount(table, "wall", quantity.Length, c.Wall)
	p.word(table, "metal", string(c.Metal))
	p.word(table, "surface", string(c.Surface))
}

// sized adds the sizes of a choice to the paper of the wish.
func (s *space) sized(c choice) *paper {
	p := s.start.with()
	row := func(name string, on stove.Place, n int, hole float64, key string, at float64) {
		p.rows = append(p.rows, map[string]string{
			"name": firing.Quoted(name), "on": firing.Quoted(string(on)), "count": strconv.Itoa(n),
			"hole": text(quantity.Length, hole), key: text(quantity.Length, at),
		})
	}
	for _, r := range s.circles(c) {
		row(r.name, stove.FuelBase, r.count, s.primaryDrills[c.pd].Diameter, "circle", r.circle)
	}
	row("secondary", stove.FuelBody, s.counts[c.jc], s.jetDrills[c.jd].Diameter, "height", s.jetHeight(c))
	if s.double {
		in := s.inlet(c)
		row("inlet", stove.OuterBody, in.count, in.drill.Diameter, "height", inletHeight(in.drill.Diameter))
	}
	p.amount("", "standoff", quantity.Length, s.standoffOf(c))
	p.amount("ring", "bore", quantity.Length, s.rings[c.ring])
	if s.pot {
		p.amount("stand", "height", quantity.Length, s.heights[c.top])
		p.amount("stand", "gap", quantity.Length, s.gaps[c.gap])
		p.set("stand", "closed", "true")
	} else {
		p.amount("riser", "height", quantity.Length, s.heights[c.top])
		p.amount("riser", "bore", quantity.Length, s.riserBore)
	}
	for key, v := range s.wish.Also {
		if table, name, _ := strings.Cut(key, "."); topPart(table) && p.tables[table] != nil {
			p.set(table, name, raw(table, name, v))
		}
	}
	if !s.given {
		p.amount("charge", "mass", quantity.Mass, s.charges[c.charge])
	}
	if s.dose > 0 {
		p.amount("starter", "mass", quantity.Mass, s.dose)
	}
	return p
}

// inletHeight is where the inlets of the outer can stand: as low as the metal
// allows [m].
func inletHeight(hole float64) float64 { return math.Ceil((marginLeast+hole/2)*1e3+2) / 1e3 }
