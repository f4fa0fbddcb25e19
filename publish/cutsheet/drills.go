package cutsheet

import (
	"math"
	"slices"
	"sort"

	"toplit/stove"
	"toplit/stove/catalogue"
)

// Row is what is drilled for one row of a design.
type Row struct {
	Index  int    // into the rows of the design
	Label  string // "secondary row"
	Name   string // the maker's word, may be empty
	On     stove.Place
	Count  int
	Want   Outline  // as designed [mm]
	Cut    Outline  // as it will be cut [mm]
	Drill  string   // its name; "" for shapes that are not drilled and for holes no drill on hand is near
	Off    float64  // how much more area that gives, as a share of what was wanted
	Ways   []string // drills to go through, thin to thick, the last one included
	Stop   string   // the last drill before it: enough for a first fire when in doubt; "" when there is none
	StopBy float64  // how much area that leaves out, as a share
}

// Off counts when it moves the open area by as much as a hole drilled by hand
// differs from its drill anyway: 4 % (see package catalogue).
const offCounts = 0.04

const (
	drillFar  = 0.20 // a drill whose hole is further off in area than this is no stand-in [judgement]
	pilotMost = 3.0  // widest first drill through thin sheet; common practice, no source [mm]
	pilotFrom = 4.0  // holes below this are drilled at once; common practice, no source [mm]
	stopLeast = 0.82 // a drill thinner than this leaves out more than a third of the area: no first try [judgement]
	stepWide  = 2.0  // one drill to the next, as a factor in diameter: more and it catches [judgement]
)

// drilled is the design with every round hole as wide as the nearest drill on
// hand makes it. Rows that the parent has already stay as they are.
func drilled(d stove.Design, o Options) (stove.Design, []Row) {
	cut := d.Clone()
	var rows []Row
	for i, r := range d.Rows {
		row := Row{Index: i, Label: d.Label(i), Name: r.Name, On: r.On, Count: r.Count, Want: outline(r.Hole)}
		row.Cut = row.Want
		if row.Cut.round() {
			row.choose(o, had(o.Parent, r))
			cut.Rows[i].Hole.Width = row.Cut.Width / 1e3
		}
		rows = append(rows, row)
	}
	return cut, rows
}

// had: the parent has this row with this hole.
func had(parent *stove.Design, r stove.Row) bool {
	if parent == nil {
		return false
	}
	return slices.ContainsFunc(parent.Rows, func(p stove.Row) bool {
		return p.On == r.On && p.Count == r.Count && outline(p.Hole).round() && math.Abs(p.Hole.Width-r.Hole.Width)*1e3 < sameSize &&
			math.Abs(p.Height-r.Height)*1e3 < samePlace && math.Abs(p.Circle-r.Circle)*1e3 < samePlace
	})
}

// choose finds the drill and what comes before it.
func (r *Row) choose(o Options, had bool) {
	d := r.Want.Width
	if len(o.Drills) == 0 || had {
		if known, err := catalogue.ParseDrill(length(d, 0)); err == nil && math.Abs(known.Diameter*1e3-d) < 0.006 {
			r.Drill = known.Name
		} else {
			r.Drill = length(d, o.Units)
		}
		return
	}
	all := sorted(o.Drills)
	best, off := catalogue.Nearest(d/1e3, all)
	if math.Abs(off) > drillFar {
		// Nothing near: drill what is smaller and file to the line.
		for _, x := range all {
			if x.Diameter*1e3 < d {
				r.Ways = append(r.Ways[:0], x.Name)
			}
		}
		return
	}
	r.Drill, r.Off = best.Name, off
	r.Cut = Outline{stove.Round, best.Diameter * 1e3, best.Diameter * 1e3}
	r.Ways = ways(best, all)
	r.stop(best, all, stopLeast*best.Diameter)
}

// stop is the thickest drill below the last one, above a least [m].
func (r *Row) stop(last catalogue.Drill, all []catalogue.Drill, least float64) {
	r.Stop, r.StopBy = "", 0
	for _, x := range all {
		if x.Diameter < last.Diameter-1e-9 && x.Diameter > least {
			r.Stop, r.StopBy = x.Name, 1-x.Area/last.Area
		}
	}
}

// from leaves out the drills that do not go beyond a hole that is there [mm].
func (r *Row) from(was float64, o Options) {
	if r.Drill == "" || len(o.Drills) == 0 {
		return
	}
	all := sorted(o.Drills)
	least := (was + sameSize) / 1e3
	names := map[string]bool{}
	var last catalogue.Drill
	for _, x := range all {
		names[x.Name] = x.Diameter > least
		if x.Name == r.Drill {
			last = x
		}
	}
	r.Ways = slices.DeleteFunc(r.Ways, func(n string) bool { return !names[n] })
	r.stop(last, all, math.Max(least, stopLeast*last.Diameter))
}

// sorted is the drills from thin to thick, each diameter once.
func sorted(drills []catalogue.Drill) []catalogue.Drill {
	all := slices.Clone(drills)
	sort.SliceStable(all, func(i, j int) bool { return all[i].Diameter < all[j].Diameter })
	return slices.CompactFunc(all, func(a, b catalogue.Drill) bool { return math.Abs(b.Diameter-a.Diameter) < 1e-9 })
}

// ways is the drills to go through, thin to thick, the last one included: a
// first one thin enough not to wander, then steps no wider than twice.
func ways(last catalogue.Drill, all []catalogue.Drill) []string {
	if last.Diameter*1e3 < pilotFrom {
		return []string{last.Name}
	}
	var chain []catalogue.Drill
	for _, x := range all {
		if x.Diameter*1e3 <= pilotMost && x.Diameter*1e3 >= pilotMost/2 {
			chain = append(chain[:0], x)
		}
	}
	for len(chain) > 0 && last.Diameter > stepWide*chain[len(chain)-1].Diameter {
		now, next := chain[len(chain)-1], catalogue.Drill{}
		for _, x := range all {
			if x.Diameter > now.Diameter && x.Diameter <= stepWide*now.Diameter && x.Diameter < last.Diameter {
				next = x
			}
		}
		if next == (catalogue.Drill{}) {
			break
		}
		chain = append(chain, next)
	}
	var names []string
	for _, x := range append(chain, last) {
		names = append(names, x.Name)
	}
	return names
}
