package cutsheet

import (
	"fmt"
	"math"

	"toplit/stove"
	"toplit/stove/catalogue"
)

// What counts as the same on a can that is drilled: a hole drilled by hand
// lies within 0.3 mm of its mark and is known to 0.05 mm [judgement].
const (
	samePlace = 0.3  // [mm]
	sameSize  = 0.05 // [mm]
)

// sameSheet: the wall or end is the same piece in both designs.
func sameSheet(a, b stove.Design, p stove.Place) bool {
	near := func(x, y float64) bool { return math.Abs(x-y)*1e3 < sameSize }
	if ca, ok := a.Base(p); ok {
		cb, ok := b.Base(p)
		return ok && near(ca.Diameter, cb.Diameter) && near(ca.Height, cb.Height)
	}
	da, ta, oka := a.Wall(p)
	db, tb, okb := b.Wall(p)
	return oka && okb && near(da, db) && near(ta, tb)
}

// kept: the row is there already as it stands.
func (l *layout) kept(i int) bool {
	return l.before != nil && sameSheet(l.before.d, l.d, l.want.Rows[i].On) && had(l.o.Parent, l.want.Rows[i])
}

// phaseBefore is the phase at which a row covers the parent's row at the same
// height.
func phaseBefore(before []Hole, r stove.Row, pitch float64) (float64, bool) {
	var xs []float64
	for _, h := range before {
		if math.Abs(h.Y-r.Height*1e3) < samePlace {
			xs = append(xs, h.X)
		}
	}
	if len(xs) == 0 || len(xs) > r.Count {
		return 0, false
	}
	return common(xs, pitch)
}

// turnBefore is phaseBefore for a row on a circle.
func turnBefore(before []Hole, r stove.Row, pitch float64) (float64, bool) {
	var angles []float64
	for _, h := range before {
		if math.Abs(math.Hypot(h.X, h.Y)-r.Circle*500) < samePlace {
			angles = append(angles, math.Mod(math.Atan2(h.X, h.Y)+2*math.Pi, 2*math.Pi))
		}
	}
	if len(angles) == 0 || len(angles) > r.Count {
		return 0, false
	}
	return common(angles, pitch)
}

// common is the phase that all places share on a pitch.
func common(at []float64, pitch float64) (float64, bool) {
	phase := math.Mod(at[0], pitch)
	for _, x := range at {
		off := math.Remainder(x-phase, pitch)
		if math.Abs(off) > 1e-3*pitch+1e-6 {
			return 0, false
		}
	}
	return phase, true
}

// fieldBefore keeps the parent's field where the new one has as many holes or
// more, and finds places for what is added.
func (l *layout) fieldBefore(part *Part, rows []int, before []Hole) bool {
	if len(rows) != 1 || len(before) == 0 {
		return false
	}
	i := rows[0]
	var old []Hole
	for _, h := range before {
		if l.before.d.Rows[h.Row].Circle == 0 {
			old = append(old, h)
		}
	}
	r, o := l.d.Rows[i], l.rows[i].Cut
	if len(old) == 0 || len(old) > r.Count {
		return false
	}
	for _, h := range old {
		part.Holes = append(part.Holes, Hole{Row: i, X: h.X, Y: h.Y, Turn: h.Turn, Outline: o, State: New})
	}
	if added := l.addTo(part, i, r.Count-len(old)); added < r.Count-len(old) {
		have := len(part.Holes)
		l.add(rowKey(i, "count"), fmt.Sprint(r.Count), fmt.Sprintf("between the %d holes that are there, no more than %d go in", len(old), have), fmt.Sprintf("up to %d", have), func(d *stove.Design) { l.keep(d, part.Place) })
		l.at(there)
	}
	return true
}

// addTo puts more holes of a row into an end, each where it is furthest from
// all that are there, and returns how many went in.
func (l *layout) addTo(part *Part, i, n int) int {
	if n <= 0 {
		return 0
	}
	o := l.rows[i].Cut
	t := sheetOf(l.d, part.Place)
	least := between(o, o, t)
	widest := o.reach()
	for _, h := range part.Holes {
		widest = math.Max(widest, h.reach())
		least = math.Max(least, between(o, h.Outline, t))
	}
	// What lies beyond a cell and its neighbours is further than counts.
	cell := 2 * (2*widest + least)
	type key struct{ x, y int }
	at := func(x, y float64) key { return key{int(math.Floor(x / cell)), int(math.Floor(y / cell))} }
	cells := map[key][]Hole{}
	put := func(h Hole) { cells[at(h.X, h.Y)] = append(cells[at(h.X, h.Y)], h) }
	for _, h := range part.Holes {
		put(h)
	}
	free := func(h Hole) float64 {
		m := cell - 2*widest
		c := at(h.X, h.Y)
		for x := c.x - 1; x <= c.x+1; x++ {
			for y := c.y - 1; y <= c.y+1; y++ {
				for _, g := range cells[key{x, y}] {
					m = math.Min(m, gap(h, g)-between(h.Outline, g.Outline, t))
				}
			}
		}
		return m
	}
	var places []Hole
	for _, p := range lattice((2*o.reach()+least)/8, part.Across/2-part.Edge-o.reach(), origin{}, nil) {
		if h := (Hole{Row: i, X: p.X, Y: p.Y, Outline: o, State: New}); free(h) >= 0 && l.offBeads(h, *part) {
			places = append(places, h)
		}
	}
	for added := range n {
		best, most := -1, 0.0
		for k, h := range places {
			if m := free(h); m > most+1e-9 {
				best, most = k, m
			}
		}
		if best < 0 {
			return added
		}
		part.Holes = append(part.Holes, places[best])
		put(places[best])
	}
	return n
}

// against sets the holes beside those that are there: which are kept, which
// get bigger; one that would have to vanish or shrink is a fault.
func (l *layout) against(part *Part, before []Hole) {
	if len(before) == 0 {
		return
	}
	used := make([]bool, len(before))
	for k := range part.Holes {
		h := &part.Holes[k]
		for j, g := range before {
			if used[j] || math.Hypot(h.X-g.X, h.Y-g.Y) > samePlace {
				continue
			}
			used[j] = true
			switch {
			case smaller(h.Outline, g.Outline):
				l.addOnce(rowKey(h.Row, "hole"), h.Outline.text(l.o.Units), fmt.Sprintf("the %s has holes of %s already, and a hole cannot get smaller", part.Name, g.Outline.text(l.o.Units)), g.Outline.text(l.o.Units)+" or more", func(d *stove.Design) { l.keep(d, part.Place) })
				l.at(there)
				h.State = There
			case smaller(g.Outline, h.Outline):
				h.State, h.Was = Bigger, g.Outline
			default:
				h.State, h.Outline = There, g.Outline
			}
			break
		}
	}
	gone := map[int]int{}
	var order []int
	for j, g := range before {
		if !used[j] {
			if gone[g.Row] == 0 {
				order = append(order, g.Row)
			}
			gone[g.Row]++
		}
	}
	for _, row := range order {
		old := l.before.rows[row]
		key, value := "row", ""
		if i, ok := l.successor(row); ok {
			key, value = rowKey(i, "count"), fmt.Sprint(l.d.Rows[i].Count)
		}
		l.addOnce(key, value, fmt.Sprintf("%d of the %d holes of %s drilled in the %s (%s) would have to vanish", gone[row], old.Count, old.Cut.text(l.o.Units), part.Name, l.before.d.Label(row)), "a design that keeps them, or a new can", func(d *stove.Design) { l.keep(d, part.Place) })
		l.at(there)
	}
}

func (l *layout) addOnce(key, value, text, accept string, mend func(*stove.Design)) {
	for _, f := range l.faults {
		if f.Key == key && f.Text == text {
			return
		}
	}
	l.add(key, value, text, accept, mend)
}

// smaller: a is narrower or lower than b somewhere by more than is known.
func smaller(a, b Outline) bool {
	if a.round() && b.round() {
		return a.Width < b.Width-sameSize
	}
	return a.Width < b.Width-sameSize || a.Height < b.Height-sameSize || a.Shape != b.Shape && a.round()
}

// successor is the row that stands for a row of the parent: the one of the
// same sheet by name, else the nearest.
func (l *layout) successor(row int) (int, bool) {
	old := l.before.d.Rows[row]
	best, at := math.Inf(1), -1
	for i, r := range l.d.Rows {
		if r.On != old.On {
			continue
		}
		far := math.Abs(r.Height-old.Height) + math.Abs(r.Circle-old.Circle)/2
		if r.Name != "" && r.Name == old.Name {
			far -= 1 // a name beats any distance
		}
		if far < best {
			best, at = far, i
		}
	}
	return at, at >= 0
}

// keep changes a design as little as needed for every hole the parent has in
// a sheet to stay: rows go back to where they are, with as many holes, and
// get wider instead where more area was wanted.
func (l *layout) keep(d *stove.Design, p stove.Place) {
	taken := map[int]bool{}
	for j, old := range l.before.d.Rows {
		if old.On != p {
			continue
		}
		i, ok := l.successor(j)
		if !ok || taken[i] {
			d.Rows = append(d.Rows, old)
			continue
		}
		taken[i] = true
		r := &d.Rows[i]
		// Width that gives the area wanted on the holes that are there.
		area := r.Area()
		r.Height, r.Circle, r.Slant = old.Height, old.Circle, old.Slant
		if r.Count%old.Count != 0 || (r.Count/old.Count)%2 == 0 || old.Circle == 0 && r.OnBase() {
			r.Count = old.Count
		}
		if r.Hole.Shape != old.Hole.Shape || !outline(old.Hole).round() {
			r.Hole, r.Count, r.Edge = old.Hole, old.Count, old.Edge
			continue
		}
		wide := math.Round(math.Sqrt(area/float64(r.Count)*4/math.Pi)*1e4) / 1e4
		if x, off := catalogue.Nearest(wide, l.o.Drills); math.Abs(off) < drillFar {
			wide = x.Diameter
		}
		r.Hole.Width = math.Max(old.Hole.Width, wide)
	}
}

// asParent is the design with every sheet that is drilled already left as it
// is, where that can be cut.
func asParent(d stove.Design, o Options) (stove.Design, bool) {
	if o.Parent == nil {
		return d, false
	}
	n := d.Clone()
	n.Rows = nil
	for _, r := range d.Rows {
		if !sameSheet(*o.Parent, d, r.On) {
			n.Rows = append(n.Rows, r)
		}
	}
	for _, r := range o.Parent.Rows {
		if sameSheet(*o.Parent, d, r.On) {
			n.Rows = append(n.Rows, r)
		}
	}
	return n, len(lay(n, o).faults) == 0
}

// same: a part without holes that the parent has just so.
func (l *layout) same(p Part) bool {
	if l.before == nil || len(p.Holes) > 0 {
		return false
	}
	for _, q := range l.before.parts {
		if q.Kind == p.Kind && q.Name == p.Name && math.Abs(q.Across-p.Across) < sameSize && math.Abs(q.Tall-p.Tall) < sameSize && math.Abs(q.Around-p.Around) < sameSize {
			if (p.Ring == nil) != (q.Ring == nil) {
				return false
			}
			return p.Ring == nil || *p.Ring == *q.Ring
		}
	}
	return false
}
