package cutsheet

import (
	"fmt"
	"math"

	"toplit/quantity"
	"toplit/stove"
)

// pieces lists what the stove is made of.
func pieces(d stove.Design, o Options) []Piece {
	sys := o.Units
	m := func(v float64) string { return length(v*1e3, sys) }
	var all []Piece
	can := func(name string, c stove.Can) {
		p := Piece{Name: name, Size: fmt.Sprintf("%s outside × %s tall, %s sheet", m(c.Diameter), m(c.Height), m(c.Wall)), Note: string(c.Metal)}
		if c.Code != "" {
			p.Size = c.Code + ": " + p.Size
		}
		if c.Mouth > 0 {
			p.Size += ", mouth " + m(c.Mouth)
		}
		if c.OpenBase {
			p.Note += ", base cut out"
		}
		all = append(all, p)
	}
	can("fuel can", d.FuelCan)
	if d.OuterCan != nil {
		can("outer can", *d.OuterCan)
	}
	if d.Standoff > 0 {
		all = append(all, Piece{Name: "feet of the fuel can", Size: m(d.Standoff) + " high", Note: "three screws, washers or brackets"})
	}
	if d.Lift > 0 {
		all = append(all, Piece{Name: "feet of the stove", Size: m(d.Lift) + " high", Note: "three"})
	}
	if r := d.Ring; r != nil {
		p := Piece{Name: "ring", Size: fmt.Sprintf("%s across, opening %s, %s sheet", length(rim(d), sys), m(r.Bore), m(r.Wall)), Note: string(r.Metal)}
		if r.Height > 0 {
			p.Size += ", " + m(r.Height) + " above the rim"
		}
		all = append(all, p)
	}
	if r := d.Riser; r != nil {
		all = append(all, Piece{Name: "riser", Size: fmt.Sprintf("%s inside × %s tall, %s sheet", m(r.Bore), m(r.Height), m(r.Wall)), Note: rolled(r.Bore+2*r.Wall, r.Wall, r.Height, r.Metal, sys)})
	}
	if s := d.Stand; s != nil {
		if s.Closed {
			p := Piece{Name: "pot stand", Size: fmt.Sprintf("%s across × %s tall, %s sheet", m(s.Diameter), m(s.Height), m(s.Wall)), Note: rolled(s.Diameter, s.Wall, s.Height, s.Metal, sys)}
			if s.Gap > 0 {
				p.Size += ", pot " + m(s.Gap) + " above it on three spacers"
			}
			all = append(all, p)
		} else {
			p := Piece{Name: "pot stand", Size: fmt.Sprintf("three legs %s tall on a circle of %s", m(s.Height), m(s.Diameter)), Note: "steel wire or bolts"}
			all = append(all, p)
		}
	}
	if s := d.Skirt; s != nil {
		all = append(all, Piece{Name: "skirt", Size: fmt.Sprintf("%s from the pot, %s tall", m(s.Gap), m(s.Height)), Note: "steel"})
	}
	for _, s := range d.Shields {
		where := "round the body"
		if s.Under {
			where = "under the base"
		}
		all = append(all, Piece{Name: "shield", Size: fmt.Sprintf("%s, %s away", where, m(s.Gap)), Note: "bright sheet"})
	}
	if p := d.Plate; p != nil {
		size := fmt.Sprintf("%s across, %s thick", m(p.Diameter), m(p.Thickness))
		if p.Gap > 0 {
			size += ", " + m(p.Gap) + " below the stove"
		}
		all = append(all, Piece{Name: "base plate", Size: size, Note: p.Material})
	}
	return all
}

// rolled says what to cut when a tube is rolled from flat sheet in place of a
// can: the length round the middle of the sheet and the overlap.
func rolled(outside, wall, tall float64, metal stove.Metal, sys quantity.System) string {
	around := math.Pi*(outside-wall)*1e3 + overlap
	return fmt.Sprintf("%s; from a can, or rolled from %s × %s with %s of overlap", metal, place(around, sys), place(tall*1e3+tabLong, sys), length(overlap, sys))
}
