package firing

import (
	"math"
	"sync"

	"toplit/physics/bed"
	"toplit/physics/fuel"
	q "toplit/quantity"
	"toplit/stove"
)

// common marks a default that is what makers do, without a source to name.
const common = "common practice, no source"

// table is one [table] or [[list]] of the design file.
type table struct {
	name     string
	what     string
	list     bool
	optional bool                   // left out means not there
	has      func(f *Firing) int    // how many there are
	grow     func(f *Firing, n int) // makes there be n
}

func tables() []table {
	always := func(*Firing) int { return 1 }
	keep := func(*Firing, int) {}
	return []table{
		{name: "", what: "the file and the stove as a whole", has: always, grow: keep},
		{name: "fuel_can", what: "the can that holds the charge", has: always, grow: keep},
		{name: "outer_can", what: "the can round the fuel can; leave out for a single wall", optional: true,
			has: func(f *Firing) int { return there(f.Design.OuterCan) }, grow: func(f *Firing, n int) { f.Design.OuterCan = grown[stove.Can](n) }},
		{name: "row", what: "one row of equal holes; as many as there are", list: true, optional: true,
			has: func(f *Firing) int { return len(f.Design.Rows) }, grow: func(f *Firing, n int) { f.Design.Rows = grownList[stove.Row](n) }},
		{name: "ring", what: "concentrator ring", optional: true,
			has: func(f *Firing) int { return there(f.Design.Ring) }, grow: func(f *Firing, n int) { f.Design.Ring = grown[stove.Ring](n) }},
		{name: "riser", what: "tube on top that adds draft height", optional: true,
			has: func(f *Firing) int { return there(f.Design.Riser) }, grow: func(f *Firing, n int) { f.Design.Riser = grown[stove.Riser](n) }},
		{name: "stand", what: "pot stand", optional: true,
			has: func(f *Firing) int { return there(f.Design.Stand) }, grow: func(f *Firing, n int) { f.Design.Stand = grown[stove.Stand](n) }},
		{name: "skirt", what: "wall round the pot's side", optional: true,
			has: func(f *Firing) int { return there(f.Design.Skirt) }, grow: func(f *Firing, n int) { f.Design.Skirt = grown[stove.Skirt](n) }},
		{name: "shield", what: "bright sheet round the body or under the base; as many as there are", list: true, optional: true,
			has: func(f *Firing) int { return len(f.Design.Shields) }, grow: func(f *Firing, n int) { f.Design.Shields = grownList[stove.Shield](n) }},
		{name: "plate", what: "what the stove stands on", optional: true,
			has: func(f *Firing) int { return there(f.Design.Plate) }, grow: func(f *Firing, n int) { f.Design.Plate = grown[stove.Plate](n) }},
		{name: "fan", what: "measured air flows in place of natural draft", optional: true,
			has: func(f *Firing) int {
				if f.Design.Fan != (stove.Fan{}) {
					return 1
				}
				return 0
			}, grow: keep},
		{name: "fuel", what: "the fuel as fired", has: always, grow: keep},
		{name: "charge", what: "how much of it; give one of the three", has: always, grow: keep},
		{name: "starter", what: "what lights the top", has: always, grow: keep},
		{name: "air", what: "the weather at the stove", has: always, grow: keep},
		{name: "pot", what: "the pot; leave out when nothing is cooked", optional: true,
			has: func(f *Firing) int { return there(f.Conditions.Pot) }, grow: func(f *Firing, n int) { f.Conditions.Pot = grown[Pot](n) }},
		{name: "water", what: "what is in the pot", optional: true,
			has: func(f *Firing) int { return there(f.Conditions.Pot) }, grow: keep},
		{name: "ground", what: "what lies under the stove and its plate", has: always, grow: keep},
		{name: "schedule", what: `what is done when: "5:00" after lighting, or "jets lit + 1:00"; a list where it is done more than once`, has: always, grow: keep},
	}
}

func there[T any](p *T) int {
	if p != nil {
		return 1
	}
	return 0
}

func grown[T any](n int) *T {
	if n == 0 {
		return nil
	}
	return new(T)
}

func grownList[T any](n int) []T {
	if n == 0 {
		return nil
	}
	return make([]T, n)
}

// Keys is every key of the design file in file order, with what it takes and
// what is filled in when it is left out.
func Keys() []Key { return append([]Key(nil), keyTable()...) }

var keyTable = sync.OnceValue(func() []Key {
	var all []Key
	for _, part := range [][]Key{
		topKeys(),
		canKeys("fuel_can", func(f *Firing) *stove.Can { return &f.Design.FuelCan }),
		canKeys("outer_can", func(f *Firing) *stove.Can { return f.Design.OuterCan }),
		rowKeys(), topOfStoveKeys(), shieldKeys(), fanKeys(),
		fuelKeys(), chargeKeys(), airKeys(), potKeys(), groundKeys(), scheduleKeys(),
	} {
		all = append(all, part...)
	}
	return all
})

// in names a key.
func in(table, name, what string, k Key) Key {
	k.Table, k.Name, k.What = table, name, what
	return k
}

// or gives the key a fixed default.
func (k Key) or(text, source string) Key {
	return k.filled(text, source, early, func(f *Firing, i int) bool {
		var v any = text
		switch text {
		case "true", "false":
			v = text == "true"
		case "0":
			v = int64(0)
		}
		if err := k.read(f, i, v); err != nil {
			return false // a test reads every default
		}
		return true
	})
}

// filled gives the key a default that follows from other keys.
func (k Key) filled(words, source string, stage int, fill func(f *Firing, i int) bool) Key {
	k.Default, k.Source, k.stage, k.fill = words, source, stage, fill
	return k
}

// absent makes leaving the key out mean zero, without anything assumed.
func (k Key) absent(words string) Key {
	k.Default, k.Optional = words, true
	return k
}

// insteadOf makes the key another way of giving one of the same table.
func (k Key) insteadOf(name string, stage int) Key {
	k.Instead, k.stage = name, stage
	return k
}

// only limits the key to parts of a kind: it is neither filled nor written nor
// asked for in others.
func (k Key) only(when func(f *Firing, i int) bool) Key {
	k.when = when
	return k
}

// unlessZero writes the key only where it is not zero.
func (k Key) unlessZero(at func(f *Firing, i int) *float64) Key {
	write := k.write
	k.write = func(f *Firing, i int, sys q.System) string {
		if *at(f, i) == 0 {
			return ""
		}
		return write(f, i, sys)
	}
	return k
}

func metals() []stove.Metal {
	return []stove.Metal{stove.Tinplate, stove.MildSteel, stove.Stainless, stove.Aluminium, stove.Galvanised, stove.Copper, stove.Titanium}
}

func topKeys() []Key {
	at := func(f *Firing, _ int) *float64 { return &f.Design.Standoff }
	lift := func(f *Firing, _ int) *float64 { return &f.Design.Lift }
	slot := func(f *Firing, _ int) *float64 { return &f.Design.Annulus }
	warm := func(f *Firing, _ int) *float64 { return &f.Conditions.Warm }
	return []Key{
		in("", "format", "version of this file's form", formatKey()),
		in("", "name", "what the maker calls this stove", word(func(f *Firing, _ int) *string { return &f.Design.Name })).absent("no name"),
		in("", "standoff", "gap under the fuel can's base, to the outer can's floor or to what the stove stands on", number(q.Length, 0, 0.3, at)).
			filled("with an outer can taller than the fuel can, what puts both rims level; else 10 mm", common+" (builders use three washers, brackets or screws and rarely state the gap)", late, func(f *Firing, _ int) bool {
				d := &f.Design
				d.Standoff = 0.010
				if o := d.OuterCan; o != nil {
					floor := o.Wall
					if o.OpenBase {
						floor = 0
					}
					if level := math.Round((o.Height-floor-d.FuelCan.Height)*1e4) / 1e4; level > 0 {
						d.Standoff = level
					}
				}
				return true
			}),
		in("", "lift", "gap under the whole stove: legs, feet, pebbles", number(q.Length, 0, 0.3, lift)).or("0 mm", "stands flat; "+common),
		in("", "annulus", "width of an open slot round the fuel can's rim", orWord("closed", number(q.Length, 0, 0.05, slot), slot)).or("closed", common),
		in("", "stove_temperature", "the stove's own temperature at lighting, where it is still warm", orWord("as the air", number(q.Temperature, 230, 900, warm), warm)).or("as the air", "a cold stove; "+common),
	}
}

func canKeys(name string, can func(f *Firing) *stove.Can) []Key {
	length := func(least, most float64, at func(c *stove.Can) *float64) Key {
		return number(q.Length, least, most, func(f *Firing, _ int) *float64 { return at(can(f)) })
	}
	mouth := func(f *Firing, _ int) *float64 { return &can(f).Mouth }
	return []Key{
		in(name, "can", "trade code or name of the can, which gives diameter, height and sheet", tradeKey(can)).absent("not a can of the trade"),
		in(name, "diameter", "outside diameter of the body, not over the seam; or strip, or bore", length(0.03, 0.6, func(c *stove.Can) *float64 { return &c.Diameter })),
		in(name, "strip", "length of a strip of paper once round the body; paper of 0.1 mm is allowed for", stripKey(can)).insteadOf("diameter", instead),
		in(name, "bore", "inside diameter", derived(q.Length, 0.03, 0.6, func(f *Firing, _ int, v float64) { can(f).Diameter = v + 2*can(f).Wall })).insteadOf("diameter", instead),
		in(name, "height", "overall height; or depth", length(0.02, 1, func(c *stove.Can) *float64 { return &c.Height })),
		in(name, "depth", "height inside from the base to the rim", derived(q.Length, 0.02, 1, func(f *Firing, _ int, v float64) {
			can(f).Height = v
			if !can(f).OpenBase {
				can(f).Height += can(f).Wall
			}
		})).insteadOf("height", instead),
		in(name, "wall", "thickness of the sheet", length(0.05e-3, 5e-3, func(c *stove.Can) *float64 { return &c.Wall })).
			filled("what the can's code gives, else 0.22 mm", "can bodies of 0.19 to 0.28 mm in a tinplate maker's gauge list; EN 10202:2022 allows 0.12 to 0.49 mm", early, func(f *Firing, _ int) bool {
				if can(f).Wall == 0 {
					can(f).Wall = 0.22e-3
				}
				return true
			}),
		in(name, "metal", "what the sheet is", choice(metals(), func(f *Firing, _ int) *stove.Metal { return &can(f).Metal })).
			filled("tinplate", "food and paint cans; "+common, early, func(f *Firing, _ int) bool { can(f).Metal = stove.Tinplate; return true }),
		in(name, "surface", "state of the surface; bright and painted cans want a first fire without food", choice([]stove.Surface{stove.Bright, stove.Melted, stove.Oxidised, stove.Painted}, func(f *Firing, _ int) *stove.Surface { return &can(f).Surface })).
			filled("melted for tinplate and galvanised, else oxidised", "a stove that has been burned once or twice; "+common, early, func(f *Firing, _ int) bool {
				can(f).Surface = stove.Oxidised
				if m := can(f).Metal; m == stove.Tinplate || m == stove.Galvanised {
					can(f).Surface = stove.Melted
				}
				return true
			}),
		in(name, "mouth", "diameter of the open top where it is narrower than the body (paint cans)", orWord("full", number(q.Length, 0.01, 0.6, mouth), mouth)).
			filled("what the can's code gives, else full", "food cans; "+common, early, func(*Firing, int) bool { return true }),
		in(name, "open_base", "the base is cut out", flag(func(f *Firing, _ int) *bool { return &can(f).OpenBase })).or("false", common),
	}
}

func rowKeys() []Key {
	row := func(f *Firing, i int) *stove.Row { return &f.Design.Rows[i] }
	circle := func(f *Firing, i int) *float64 { return &row(f, i).Circle }
	base := func(f *Firing, i int) bool { return row(f, i).OnBase() }
	wall := func(f *Firing, i int) bool { return !row(f, i).OnBase() }
	height := in("row", "height", "body or wall: centre of the holes above that part's own base; or below_rim", number(q.Length, 0.5e-3, 2, func(f *Firing, i int) *float64 { return &row(f, i).Height })).only(wall)
	return []Key{
		in("row", "name", "the maker's word for the row", word(func(f *Firing, i int) *string { return &row(f, i).Name })).absent("no name"),
		in("row", "on", "the sheet the row is cut in", choice(stove.Places(), func(f *Firing, i int) *stove.Place { return &row(f, i).On })),
		in("row", "count", "number of holes", count(1, 1000, func(f *Firing, i int) *int { return &row(f, i).Count })),
		in("row", "hole", "size of a hole: a diameter, or width along the circumference by height and a shape; a slot has round ends", holeKey()),
		height,
		in("row", "below_rim", "body or wall: centre of the holes below that part's top", derived(q.Length, 0.5e-3, 2, func(f *Firing, i int, v float64) {
			if _, tall, ok := f.Design.Wall(row(f, i).On); ok {
				row(f, i).Height = tall - v
			}
		})).insteadOf("height", instead2).only(wall),
		in("row", "circle", "base: diameter of the circle the centres lie on", orWord("filled", number(q.Length, 1e-3, 0.6, circle), circle)).or("filled", common).only(base),
		in("row", "edge", "how the holes are made; the burr of a punched hole points to that side", choice([]stove.Edge{stove.Drilled, stove.PunchedIn, stove.PunchedOut}, func(f *Firing, i int) *stove.Edge { return &row(f, i).Edge })).or("drilled", common),
		in("row", "slant", "angle of the holes' axis from radial, gives swirl", number(q.Angle, -80*math.Pi/180, 80*math.Pi/180, func(f *Firing, i int) *float64 { return &row(f, i).Slant })).or("0°", common),
	}
}

func topOfStoveKeys() []Key {
	d := func(f *Firing) *stove.Design { return &f.Design }
	length := func(least, most float64, at func(d *stove.Design) *float64) Key {
		return number(q.Length, least, most, func(f *Firing, _ int) *float64 { return at(d(f)) })
	}
	return []Key{
		in("ring", "bore", "diameter of the central opening", length(5e-3, 0.5, func(d *stove.Design) *float64 { return &d.Ring.Bore })),
		in("ring", "wall", "thickness of the sheet", length(0.05e-3, 10e-3, func(d *stove.Design) *float64 { return &d.Ring.Wall })).or("0.25 mm", "can lid; EN 10202:2022 allows 0.12 to 0.49 mm"),
		in("ring", "metal", "what it is made of", choice(metals(), func(f *Firing, _ int) *stove.Metal { return &f.Design.Ring.Metal })).or("tinplate", common),
		in("ring", "height", "above the fuel can's rim", length(0, 0.3, func(d *stove.Design) *float64 { return &d.Ring.Height })).or("0 mm", common),
		in("ring", "slits", "radial slits cut outward from the bore", count(0, 64, func(f *Firing, _ int) *int { return &f.Design.Ring.Slits })).or("0", common),
		in("ring", "slit", "length of a slit", length(0, 0.1, func(d *stove.Design) *float64 { return &d.Ring.Slit })).or("0 mm", common),
		in("ring", "twist", "angle the tongues between slits are bent to", number(q.Angle, -math.Pi/2, math.Pi/2, func(f *Firing, _ int) *float64 { return &f.Design.Ring.Twist })).or("0°", common),

		in("riser", "bore", "inside diameter of the tube", length(0.01, 0.6, func(d *stove.Design) *float64 { return &d.Riser.Bore })),
		in("riser", "height", "of the tube", length(5e-3, 3, func(d *stove.Design) *float64 { return &d.Riser.Height })),
		in("riser", "wall", "thickness of the sheet", length(0.05e-3, 10e-3, func(d *stove.Design) *float64 { return &d.Riser.Wall })).or("0.22 mm", "a can without ends; as fuel_can.wall"),
		in("riser", "metal", "what it is made of", choice(metals(), func(f *Firing, _ int) *stove.Metal { return &f.Design.Riser.Metal })).or("tinplate", common),

		in("stand", "diameter", "of the wall or of the circle of legs", length(0.02, 0.8, func(d *stove.Design) *float64 { return &d.Stand.Diameter })).
			filled("as the fuel can", common, late, func(f *Firing, _ int) bool { f.Design.Stand.Diameter = f.Design.FuelCan.Diameter; return true }),
		in("stand", "height", "from the fuel can's rim, the ring or the riser's top to the stand's top", length(1e-3, 1, func(d *stove.Design) *float64 { return &d.Stand.Height })),
		in("stand", "closed", "a wall all round, which adds draft height, in place of legs or wires", flag(func(f *Firing, _ int) *bool { return &f.Design.Stand.Closed })).or("false", common),
		in("stand", "wall", "thickness of the sheet or wire", length(0.05e-3, 20e-3, func(d *stove.Design) *float64 { return &d.Stand.Wall })).or("0.22 mm", "a can without ends; as fuel_can.wall"),
		in("stand", "metal", "what it is made of", choice(metals(), func(f *Firing, _ int) *stove.Metal { return &f.Design.Stand.Metal })).or("tinplate", common),
		in("stand", "gap", "slot between the stand's top and the pot's base", length(0, 0.2, func(d *stove.Design) *float64 { return &d.Stand.Gap })).
			filled("10 mm on a closed stand without holes, else 0 mm (the pot rests on the top)", common, late, func(f *Firing, _ int) bool {
				f.Design.Stand.Gap = 0
				if f.Design.Stand.Closed && len(f.Design.RowsOn(stove.StandWall)) == 0 {
					f.Design.Stand.Gap = 0.010
				}
				return true
			}),

		in("skirt", "gap", "between the pot's side and the skirt", length(0.5e-3, 0.1, func(d *stove.Design) *float64 { return &d.Skirt.Gap })).or("7 mm", "6 to 7 mm for up to 5 kW where the burner does not draw air at the pot (Aprovecho)"),
		in("skirt", "height", "of the skirt", length(5e-3, 0.5, func(d *stove.Design) *float64 { return &d.Skirt.Height })).
			filled("as the pot, 100 mm without one", "100 mm or more (Aprovecho), but no small pot is that tall", late, func(f *Firing, _ int) bool {
				f.Design.Skirt.Height = 0.100
				if f.Conditions.Pot != nil && f.Conditions.Pot.Height > 0 {
					f.Design.Skirt.Height = f.Conditions.Pot.Height
				}
				return true
			}),
	}
}

func shieldKeys() []Key {
	return []Key{
		in("shield", "under", "under the base in place of round the body", flag(func(f *Firing, i int) *bool { return &f.Design.Shields[i].Under })).or("false", common),
		in("shield", "gap", "from the part it shields", number(q.Length, 0.2e-3, 0.2, func(f *Firing, i int) *float64 { return &f.Design.Shields[i].Gap })).or("10 mm", common),

		in("plate", "material", "what the plate is", coverKey(func(f *Firing, _ int) *string { return &f.Design.Plate.Material })),
		in("plate", "thickness", "of the plate", number(q.Length, 0.1e-3, 0.3, func(f *Firing, _ int) *float64 { return &f.Design.Plate.Thickness })),
		in("plate", "gap", "air gap between the stove's base and the plate", number(q.Length, 0, 0.3, func(f *Firing, _ int) *float64 { return &f.Design.Plate.Gap })).or("0 mm", common),
		in("plate", "diameter", "of the plate", number(q.Length, 0.02, 3, func(f *Firing, _ int) *float64 { return &f.Design.Plate.Diameter })).
			filled("twice the stove's widest can", common, late, func(f *Firing, _ int) bool {
				w := f.Design.FuelCan.Diameter
				if f.Design.OuterCan != nil {
					w = math.Max(w, f.Design.OuterCan.Diameter)
				}
				f.Design.Plate.Diameter = math.Round(2*w*1e3) / 1e3
				return true
			}),
	}
}

// unlessAsCatalogue writes a share of the dry analysis only where one is given.
func (k Key) unlessAsCatalogue() Key {
	write := k.write
	k.write = func(f *Firing, i int, sys q.System) string {
		if !f.Conditions.Fuel.analysed() {
			return ""
		}
		return write(f, i, sys)
	}
	return k
}

// analysed: the lot has a dry analysis of its own.
func (c Fuel) analysed() bool {
	return c.Carbon != 0 || c.Hydrogen != 0 || c.Oxygen != 0 || c.Nitrogen != 0 || c.Ash != 0
}

// lot is the catalogue's fuel of that name, zero when there is none.
func lot(f *Firing) fuel.Fuel {
	row, _ := fuel.ByName(f.Conditions.Fuel.Species)
	return row
}

func fuelKeys() []Key {
	const asCatalogue = "as the catalogue says for the species"
	share := func(most float64, at func(c *Fuel) *float64) Key {
		return number(q.Ratio, 0, most, func(f *Firing, _ int) *float64 { return at(&f.Conditions.Fuel) })
	}
	dry := func(at func(c *Fuel) *float64) Key {
		return share(1, at).unlessAsCatalogue().absent(asCatalogue)
	}
	length := func(f *Firing, _ int) *float64 { return &f.Conditions.Fuel.Length }
	const catalogue = "fuel catalogue, which names a source for each value"
	return []Key{
		in("fuel", "species", "a fuel of the catalogue", speciesKey()).
			filled("softwood pellets", "the most even fuel to be had; "+common, early, func(f *Firing, _ int) bool { f.Conditions.Fuel.Species = "softwood pellets"; return true }),
		in("fuel", "carbon", "dry analysis: give all five of carbon, hydrogen, oxygen, nitrogen and ash, or none", dry(func(c *Fuel) *float64 { return &c.Carbon })),
		in("fuel", "hydrogen", "dry mass fraction", dry(func(c *Fuel) *float64 { return &c.Hydrogen })),
		in("fuel", "oxygen", "dry mass fraction", dry(func(c *Fuel) *float64 { return &c.Oxygen })),
		in("fuel", "nitrogen", "dry mass fraction", dry(func(c *Fuel) *float64 { return &c.Nitrogen })),
		in("fuel", "ash", "dry mass fraction", dry(func(c *Fuel) *float64 { return &c.Ash })),
		in("fuel", "moisture", "water per wet fuel", share(0.7, func(c *Fuel) *float64 { return &c.Moisture })).
			filled(asCatalogue, catalogue, late, func(f *Firing, _ int) bool { f.Conditions.Fuel.Moisture = lot(f).Moisture; return true }),
		in("fuel", "bulk_density", "of the wet fuel as poured", number(q.Density, 20, 1200, func(f *Firing, _ int) *float64 { return &f.Conditions.Fuel.BulkDensity })).
			filled(asCatalogue, catalogue, late, func(f *Firing, _ int) bool { f.Conditions.Fuel.BulkDensity = lot(f).Bulk; return true }),
		in("fuel", "size", "sieve or diameter size of a piece", number(q.Length, 0.3e-3, 0.1, func(f *Firing, _ int) *float64 { return &f.Conditions.Fuel.Size })).
			filled(asCatalogue, catalogue, late, func(f *Firing, _ int) bool { f.Conditions.Fuel.Size = lot(f).Size; return true }),
		in("fuel", "length", "length of a piece", orWord("as wide", number(q.Length, 0.3e-3, 1, length), length)).
			filled(asCatalogue, catalogue, late, func(f *Firing, _ int) bool { f.Conditions.Fuel.Length = lot(f).Length; return true }),
		in("fuel", "fines", "mass fraction that falls through the holes", share(0.5, func(c *Fuel) *float64 { return &c.Fines })).or("1 %", "limit of ISO 17225-2 class A1 for pellets [memory]"),
	}
}

func chargeKeys() []Key {
	mass := func(f *Firing, _ int) *float64 { return &f.Conditions.Charge.Mass }
	volume := func(f *Firing, _ int) *float64 { return &f.Conditions.Charge.Volume }
	depth := func(f *Firing, _ int) *float64 { return &f.Conditions.Charge.Depth }
	return []Key{
		in("charge", "mass", "wet fuel loaded; or volume, or depth", number(q.Mass, 1e-3, 20, mass)).insteadOf("depth", direct).unlessZero(mass),
		in("charge", "volume", "as poured", number(q.Volume, 1e-6, 0.05, volume)).insteadOf("depth", direct).unlessZero(volume),
		in("charge", "depth", "fill height above the fuel can's base", number(q.Length, 3e-3, 1, depth)).unlessZero(depth).
			filled("10 mm below the jets, without jets 10 mm below the rim", "fuel below the secondary holes; "+common, late, func(f *Firing, _ int) bool {
				level := f.Design.FillLevel() - 0.010
				f.Conditions.Charge.Depth = math.Max(3e-3, math.Round(level*1e4)/1e4)
				return true
			}),
		in("starter", "kind", "what lights the top; petrol and its like are refused", starterKey()).
			filled("alcohol", common, early, func(f *Firing, _ int) bool { f.Conditions.Starter.Kind = "alcohol"; return true }),
		in("starter", "mass", "of the starter", number(q.Mass, 0.1e-3, 1, func(f *Firing, _ int) *float64 { return &f.Conditions.Starter.Mass })).
			filled("what covers the top: the table of starters gives it per area of the bore", "table of starters, bed", late, func(f *Firing, _ int) bool {
				k, _ := bed.StarterByName(f.Conditions.Starter.Kind)
				f.Conditions.Starter.Mass = math.Max(0.1e-3, math.Round(k.Dose(f.Design.FuelCan.Area())*1e4)/1e4)
				return true
			}),
	}
}

func airKeys() []Key {
	a := func(f *Firing) *Air { return &f.Conditions.Air }
	return []Key{
		in("air", "temperature", "of the air", number(q.Temperature, 228.15, 333.15, func(f *Firing, _ int) *float64 { return &a(f).Temperature })).or("15 °C", "standard atmosphere at sea level, ISO 2533"),
		in("air", "pressure", "station pressure, never reduced to sea level", number(q.Pressure, 45000, 110000, func(f *Firing, _ int) *float64 { return &a(f).Pressure })).
			filled("that of the standard atmosphere at sea level, 1013.25 hPa", "ISO 2533", early, func(f *Firing, _ int) bool { a(f).Pressure = 101325; return true }),
		in("air", "altitude", "above sea level, in place of the pressure; beside a pressure it is only compared with it", altitudeKey()).insteadOf("pressure", instead),
		in("air", "humidity", "relative", number(q.Ratio, 0, 1, func(f *Firing, _ int) *float64 { return &a(f).Humidity })).or("50 %", common),
		in("air", "wind", "mean at stove height", number(q.Speed, 0, 20, func(f *Firing, _ int) *float64 { return &a(f).Wind })).or("0.5 m/s", "a still day is never exactly calm; "+common),
		in("air", "gusts", "standard deviation of the wind over its mean", number(q.Ratio, 0, 2, func(f *Firing, _ int) *float64 { return &a(f).Gusts })).or("30 %", "turbulence intensity near the ground, 0.2 to 0.4 [memory]"),
		in("air", "shelter", "what stands between the wind and the stove", choice([]Shelter{Open, Windscreen, Shroud}, func(f *Firing, _ int) *Shelter { return &a(f).Shelter })).or("open", "nothing is put up that is not named"),
	}
}

func potKeys() []Key {
	p := func(f *Firing) *Pot { return f.Conditions.Pot }
	w := func(f *Firing) *Water { return &f.Conditions.Water }
	target := func(f *Firing, _ int) *float64 { return &w(f).Target }
	return []Key{
		in("pot", "mass", "empty, with its lid", number(q.Mass, 5e-3, 20, func(f *Firing, _ int) *float64 { return &p(f).Mass })).or("150 g", "light camping pot; "+common),
		in("pot", "metal", "what it is made of", choice(metals(), func(f *Firing, _ int) *stove.Metal { return &p(f).Metal })).or("aluminium", common),
		in("pot", "diameter", "of the base", number(q.Length, 0.03, 0.8, func(f *Firing, _ int) *float64 { return &p(f).Diameter })).or("130 mm", "pot of about 1 L; "+common),
		in("pot", "height", "of the wall", number(q.Length, 0.01, 0.8, func(f *Firing, _ int) *float64 { return &p(f).Height })).or("90 mm", "pot of about 1 L; "+common),
		in("pot", "lid", "lid on", flag(func(f *Firing, _ int) *bool { return &p(f).Lid })).or("true", common),
		in("water", "mass", "of the water; or volume", number(q.Mass, 0, 50, func(f *Firing, _ int) *float64 { return &w(f).Mass })).or("500 g", common),
		in("water", "volume", "at its temperature", waterVolumeKey()).insteadOf("mass", instead2),
		in("water", "temperature", "at lighting", number(q.Temperature, 273.15, 373.15, func(f *Firing, _ int) *float64 { return &w(f).Temperature })).
			filled("as the air, at least 4 °C", common, early, func(f *Firing, _ int) bool {
				w(f).Temperature = math.Max(277.15, f.Conditions.Air.Temperature)
				return true
			}),
		in("water", "target", "end temperature", orWord("boil", number(q.Temperature, 293.15, 373.15, target), target)).or("boil", common),
	}
}

func groundKeys() []Key {
	g := func(f *Firing) *Ground { return &f.Conditions.Ground }
	depth := func(f *Firing, _ int) *float64 { return &g(f).Depth }
	return []Key{
		in("ground", "cover", "what lies under the stove and its plate", coverKey(func(f *Firing, _ int) *string { return &g(f).Cover })).
			filled("mineral soil", "cleared ground, as fire authorities ask for; follow local fire rules", early, func(f *Firing, _ int) bool { g(f).Cover = "mineral soil"; return true }),
		in("ground", "depth", "thickness of that cover", orWord("deep", number(q.Length, 1e-3, 2, depth), depth)).or("deep", common),
		in("ground", "below", "what lies under a cover that is not deep", coverOrNoneKey(func(f *Firing, _ int) *string { return &g(f).Below })).absent("mineral soil"),
	}
}

func fanKeys() []Key {
	return []Key{
		in("fan", "primary", "air through the fuel, by mass or by volume at the weather's density", flowKey(func(f *Firing) *float64 { return &f.Design.Fan.Primary })),
		in("fan", "secondary", "air at the jets, by mass or by volume at the weather's density", flowKey(func(f *Firing) *float64 { return &f.Design.Fan.Secondary })),
	}
}
