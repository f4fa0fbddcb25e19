package cutsheet

import (
	"fmt"
	"math"

	"toplit/stove"
)

const (
	overlap = 12.0 // of a tube rolled from flat sheet, for rivets or screws; common practice, no source [mm]
	tabLong = 10.0 // of a tab bent out at the foot of a tube; common practice, no source [mm]
	tabWide = 12.0 // [mm]
)

// widest can, which a ring lies on [mm].
func rim(d stove.Design) float64 {
	w := d.FuelCan.Diameter
	if d.OuterCan != nil {
		w = math.Max(w, d.OuterCan.Diameter)
	}
	return w * 1e3
}

// ring is the concentrator ring: a disc as wide as the can it lies on.
func (l *layout) ring() {
	r := l.d.Ring
	if r == nil {
		return
	}
	sys := l.o.Units
	p := Part{Name: "ring", Kind: Round, Across: rim(l.d), Edge: toEdge(r.Wall * 1e3),
		Ring: &Opening{Bore: r.Bore * 1e3, Slits: r.Slits, Slit: r.Slit * 1e3, Twist: r.Twist, Height: r.Height * 1e3}}
	if r.Slits > 0 && r.Slit == 0 || r.Slits == 0 {
		p.Ring.Slits, p.Ring.Slit, p.Ring.Twist = 0, 0, 0
	}
	bore, slit, n := p.Ring.Bore, p.Ring.Slit, p.Ring.Slits
	if room := (p.Across-bore)/2 - slit; room < p.Edge-slack {
		what, key, most := "the opening leaves", "ring.bore", p.Across-2*p.Edge
		mend := func(d *stove.Design) { d.Ring.Bore = math.Floor(most*10) / 1e4 }
		value := length(bore, sys)
		if n > 0 && (p.Across-bore)/2 >= p.Edge {
			what, key, most = "the slits leave", "ring.slit", (p.Across-bore)/2-p.Edge
			value = length(slit, sys)
			mend = func(d *stove.Design) { d.Ring.Slit = math.Floor(most*10) / 1e4 }
		}
		if most > 0 {
			l.add(key, value, fmt.Sprintf("%s only %s of a ring of %s", what, length(math.Max(0, room), sys), length(p.Across, sys)), "up to "+length(most, sys), mend)
		}
	}
	if n > 0 {
		// At the bore the tongues are narrowest: between two slits there has to
		// be metal, as between two holes.
		tongue := math.Pi * bore / float64(n)
		if n > 1 {
			tongue = Chord(bore, n)
		}
		if tongue < metalLeast-slack {
			most := int(math.Pi * bore / metalLeast)
			for most > 1 && Chord(bore, most) < metalLeast {
				most--
			}
			text := fmt.Sprintf("the slits leave tongues only %s wide at the bore of %s", length(tongue, sys), length(bore, sys))
			if tongue < 1 {
				text = fmt.Sprintf("the slits meet at the bore of %s: they leave tongues %s wide", length(bore, sys), length(tongue, sys))
			}
			l.add("ring.slits", fmt.Sprint(n), text, fmt.Sprintf("up to %d", most), func(d *stove.Design) { d.Ring.Slits = most })
		}
	}
	l.sheet("ring", p.Across, p.Across, nil)
	if l.before != nil && l.before.d.Ring != nil {
		old := l.before.d.Ring
		same := *old
		same.Bore = r.Bore
		if same == *r && math.Abs(rim(l.before.d)-p.Across) < sameSize && r.Bore > old.Bore+sameSize/1e3 {
			p.Ring.Was = old.Bore * 1e3
		} else if *old != *r {
			l.notes = append(l.notes, "The ring is a new one: the old ring cannot be made into it.")
		}
	}
	l.parts = append(l.parts, p)
}

// sheet refuses a flat part that is larger than the sheet metal on hand. mend
// is what would make it smaller, nil when the design leaves no choice.
func (l *layout) sheet(name string, wide, tall float64, mend func(most float64) func(*stove.Design)) {
	s := l.o.Sheet
	if s == (Sheet{}) {
		return
	}
	a, b := math.Max(s.Width, s.Height)*1e3, math.Min(s.Width, s.Height)*1e3
	long, short := math.Max(wide, tall), math.Min(wide, tall)
	if long <= a+slack && short <= b+slack {
		return
	}
	sys := l.o.Units
	f := fault{Finding: stove.Finding{Severity: stove.Error, Key: name, Value: length(wide, sys) + " × " + length(tall, sys),
		Text:   fmt.Sprintf("larger than the sheet of %s × %s it is to be cut from", length(a, sys), length(b, sys)),
		Accept: fmt.Sprintf("a sheet of %s × %s or more", length(long, sys), length(short, sys))}}
	if mend != nil {
		// What may be given up is the height; the length goes round something.
		most := 0.0
		switch {
		case wide <= a+slack:
			most = b
			if wide <= b+slack {
				most = a
			}
		}
		if most > 0 {
			f.mend = mend(most)
			f.Accept += fmt.Sprintf(", or a height of up to %s", length(most, sys))
		}
	}
	l.faults = append(l.faults, f)
}

// stand is a closed pot stand's wall, or the circle the legs of an open one
// stand on.
func (l *layout) stand() {
	s := l.d.Stand
	switch {
	case s == nil:
		if rows := l.d.RowsOn(stove.StandWall); len(rows) > 0 {
			l.wall(stove.StandWall) // says that there is none
		}
	case s.Closed:
		l.wall(stove.StandWall)
	default:
		l.parts = append(l.parts, Part{Name: "pot stand", Kind: Legs, Across: s.Diameter * 1e3, Tall: s.Height * 1e3})
		if rows := l.d.RowsOn(stove.StandWall); len(rows) > 0 {
			l.wall(stove.StandWall)
		}
	}
}

// flat is what is cut from flat sheet besides the ring: skirt, shields, base
// plate.
func (l *layout) flat() {
	d := l.d
	if s := d.Skirt; s != nil {
		if l.o.PotAcross > 0 {
			p := Part{Name: "skirt", Kind: Blank, Across: (l.o.PotAcross + 2*s.Gap) * 1e3, Tall: s.Height * 1e3}
			p.Around = math.Pi * (p.Across + skirtSheet)
			l.sheet("skirt", p.Around+overlap, p.Tall, func(most float64) func(*stove.Design) {
				return func(d *stove.Design) { d.Skirt.Height = math.Floor(most*10) / 1e4 }
			})
			l.flatPart(p)
		} else {
			l.notes = append(l.notes, "The skirt goes round a pot, and no pot is given: measure the pot, add twice the gap, and cut the strip that long round.")
		}
	}
	body, under := 0, 0
	wide := d.FuelCan
	if d.OuterCan != nil {
		wide = *d.OuterCan
	}
	for _, s := range d.Shields {
		if s.Under {
			under++
			p := Part{Name: "ground shield", Kind: Round, Across: wide.Diameter * 1e3}
			l.sheet(p.Name, p.Across, p.Across, nil)
			l.flatPart(p)
			continue
		}
		body++
		p := Part{Name: "body shield", Kind: Blank, Across: (wide.Diameter + 2*s.Gap) * 1e3, Tall: wide.Height * 1e3}
		p.Around = math.Pi * (p.Across + skirtSheet)
		l.sheet(p.Name, p.Around+overlap, p.Tall, nil)
		l.flatPart(p)
	}
	if p := d.Plate; p != nil && metalPlate(p.Material) {
		l.flatPart(Part{Name: "base plate", Kind: Round, Across: p.Diameter * 1e3})
		l.sheet("plate", p.Diameter*1e3, p.Diameter*1e3, nil)
	}
}

// flatPart prints a plain round or blank that goes on one page, or one row of
// pages; a larger one is better scribed than glued together from paper.
func (l *layout) flatPart(p Part) {
	sys := l.o.Units
	switch {
	case p.Kind == Round && p.Across > contentShort-barRoom-2*cutPen:
		l.notes = append(l.notes, fmt.Sprintf("%s: no paper is printed for it. Scribe a circle of %s radius from its middle, with dividers or a strip of sheet and two nails.", upperFirst(p.Name), length(p.Across/2, sys)))
	case p.Kind == Blank && p.Tall > lowRoom-wordRoom:
		l.notes = append(l.notes, fmt.Sprintf("%s: no paper is printed for it. Cut %s × %s with rule and square, roll it to %s inside; the last %s lie on the first.", upperFirst(p.Name), place(p.Around+overlap, sys), length(p.Tall, sys), length(p.Across, sys), length(overlap, sys)))
	default:
		l.parts = append(l.parts, p)
	}
}

// skirtSheet is the thickness a rolled part is taken to have, which a design
// does not say: middle of can sheet [judgement] [mm].
const skirtSheet = 0.25

// metalPlate: the plate is cut from sheet; tile, brick and sand are not.
func metalPlate(material string) bool {
	return material == "steel plate" || material == "aluminium plate"
}
