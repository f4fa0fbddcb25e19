package cutsheet

import (
	"fmt"
	"math"
	"slices"

	"toplit/stove"
)

// layout is a design being laid out.
type layout struct {
	want   stove.Design // as designed
	d      stove.Design // as cut, with the drills on hand
	o      Options
	rows   []Row
	parts  []Part
	faults []fault
	notes  []string
	before *layout // of the parent, nil without one
}

// lay places everything and notes what is in the way.
func lay(d stove.Design, o Options) *layout {
	l := &layout{want: d, o: o}
	if o.Parent != nil {
		parent := o
		parent.Parent, parent.Drills = nil, nil
		l.before = lay(*o.Parent, parent)
	}
	l.d, l.rows = drilled(d, o)
	for _, p := range []stove.Place{stove.FuelBase, stove.FuelBody, stove.OuterBase, stove.OuterBody} {
		if len(l.d.RowsOn(p)) == 0 && len(l.holesBefore(p)) == 0 {
			continue
		}
		switch p {
		case stove.FuelBase, stove.OuterBase:
			l.end(p)
		default:
			l.wall(p)
		}
	}
	l.ring()
	if l.d.Riser != nil {
		l.wall(stove.RiserWall)
	}
	l.stand()
	l.flat()
	l.others()
	return l
}

// add notes a fault.
func (l *layout) add(key, value, text, accept string, mend func(*stove.Design)) {
	l.faults = append(l.faults, fault{Finding: stove.Finding{Severity: stove.Error, Key: key, Value: value, Text: text, Accept: accept}, mend: mend})
}

// at sets when the fault noted last is put right.
func (l *layout) at(t turn) { l.faults[len(l.faults)-1].turn = t }

// others are the faults that package stove finds and that are not about
// spacing: no way for air, zinc, cans that do not fit. What has been judged
// here, and more strictly, is not judged again.
func (l *layout) others() {
	if len(l.faults) > 0 {
		return
	}
	judged := []string{"ring.slit", "ring.bore"}
	for i := range l.d.Rows {
		judged = append(judged, rowKey(i, "count"), rowKey(i, "height"), rowKey(i, "circle"), rowKey(i, "hole"))
	}
	for _, f := range stove.Check(l.d) {
		if f.Severity == stove.Error && !slices.Contains(judged, f.Key) {
			l.faults = append(l.faults, fault{Finding: f})
		}
	}
}

func rowKey(i int, what string) string { return fmt.Sprintf("row[%d].%s", i+1, what) }

// sheetOf is the thickness of the sheet a row is cut in [mm].
func sheetOf(d stove.Design, p stove.Place) float64 {
	switch {
	case p == stove.RiserWall && d.Riser != nil:
		return d.Riser.Wall * 1e3
	case p == stove.StandWall && d.Stand != nil:
		return d.Stand.Wall * 1e3
	case (p == stove.OuterBody || p == stove.OuterBase) && d.OuterCan != nil:
		return d.OuterCan.Wall * 1e3
	}
	return d.FuelCan.Wall * 1e3
}

// holesBefore is the holes the parent has in a sheet, none when the sheet is
// another one now.
func (l *layout) holesBefore(p stove.Place) []Hole {
	if l.before == nil || !sameSheet(l.before.d, l.d, p) {
		return nil
	}
	for _, part := range l.before.parts {
		if part.Place == p {
			return part.Holes
		}
	}
	return nil
}

// check is the pairs of holes in one sheet that leave too little metal. around
// is the circumference of a wall, 0 for an end. What is there already is not
// judged against what is there already.
func (l *layout) check(p stove.Place, holes []Hole, around float64) {
	t := sheetOf(l.d, p)
	type pair struct{ i, j int }
	worst := map[pair]float64{}
	var order []pair
	for a, h := range holes {
		for _, g := range holes[a+1:] {
			if h.State == There && g.State == There {
				continue
			}
			least := between(h.Outline, g.Outline, t)
			far := h.reach() + g.reach() + least
			if math.Abs(h.Y-g.Y) > far {
				continue
			}
			m := math.Inf(1)
			for _, turn := range []float64{-around, 0, around} {
				if around == 0 && turn != 0 || around != 0 && math.Abs(h.X-g.X-turn) > far {
					continue
				}
				shifted := g
				shifted.X += turn
				if turn == 0 || around != 0 {
					m = math.Min(m, gap(h, shifted))
				}
			}
			if m >= least-slack {
				continue
			}
			k := pair{min(h.Row, g.Row), max(h.Row, g.Row)}
			if old, ok := worst[k]; !ok {
				worst[k] = m
				order = append(order, k)
			} else {
				worst[k] = math.Min(old, m)
			}
		}
	}
	for _, k := range order {
		l.tooClose(p, k.i, k.j, worst[k])
	}
}

// tooClose is the fault of two rows, or of one in itself.
func (l *layout) tooClose(p stove.Place, i, j int, metal float64) {
	a, b := l.rows[i], l.rows[j]
	least := between(a.Cut, b.Cut, sheetOf(l.d, p))
	if i == j {
		if l.hasFault(rowKey(i, "count")) {
			return
		}
		l.add(rowKey(i, "count"), fmt.Sprint(a.Count), l.closeness(metal, fmt.Sprintf("%d holes of %s", a.Count, a.Cut.text(l.o.Units)), least), "fewer or smaller holes", func(d *stove.Design) { l.fewer(d, i) })
		return
	}
	what := "height"
	if l.d.Rows[j].OnBase() {
		what = "circle"
	}
	l.add(rowKey(j, what), l.rowPlace(j), l.closeness(metal, fmt.Sprintf("the holes of row %d and row %d", i+1, j+1), least), l.apartText(i, j), func(d *stove.Design) { l.part(d, i, j) })
	l.at(beside)
}

func (l *layout) hasFault(key string) bool {
	for _, f := range l.faults {
		if f.Key == key {
			return true
		}
	}
	return false
}

func (l *layout) closeness(metal float64, what string, least float64) string {
	if metal <= 0 {
		return what + " overlap"
	}
	return fmt.Sprintf("%s leave only %s of metal between them, less than %s", what, length(metal, l.o.Units), length(least, l.o.Units))
}

// rowPlace is where a row lies, as the design file says it.
func (l *layout) rowPlace(i int) string {
	r := l.d.Rows[i]
	if r.OnBase() {
		if r.Circle == 0 {
			return "filled"
		}
		return length(r.Circle*1e3, l.o.Units)
	}
	return length(r.Height*1e3, l.o.Units)
}

// apartText says how far two rows have to be from each other.
func (l *layout) apartText(i, j int) string {
	need := l.need(i, j)
	if l.d.Rows[j].OnBase() {
		if l.d.Rows[i].Circle == 0 || l.d.Rows[j].Circle == 0 {
			return "fewer or smaller holes"
		}
		return fmt.Sprintf("%s or more from row %d's circle of %s, or fewer holes", length(2*need, l.o.Units), i+1, l.rowPlace(i))
	}
	return fmt.Sprintf("%s or more from row %d at %s, or fewer holes", length(need, l.o.Units), i+1, l.rowPlace(i))
}

// need is how far apart two rows have to lie so that none of their holes come
// near each other whatever the counts [mm].
func (l *layout) need(i, j int) float64 {
	a, b := l.rows[i].Cut, l.rows[j].Cut
	return (a.Height+b.Height)/2 + between(a, b, sheetOf(l.d, l.rows[i].On))
}
