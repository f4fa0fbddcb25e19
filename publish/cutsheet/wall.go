package cutsheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"toplit/stove"
	"toplit/stove/catalogue"
)

// seamHeight is how high the double seam at the foot and the rim of a can
// stands: 3 mm [memory: common seam data of three-piece food cans] and 1 mm to
// spare. A strip cut this much short lies flat on the body between the seams.
const seamHeight = 4.0 // [mm]

// partName is the word for a wall or an end.
func partName(p stove.Place) string {
	switch p {
	case stove.RiserWall:
		return "riser"
	case stove.StandWall:
		return "pot stand"
	}
	return string(p)
}

// canOf is the can a body or base belongs to.
func canOf(d stove.Design, p stove.Place) (stove.Can, bool) {
	switch p {
	case stove.FuelBody, stove.FuelBase:
		return d.FuelCan, true
	case stove.OuterBody, stove.OuterBase:
		if d.OuterCan != nil {
			return *d.OuterCan, true
		}
	}
	return stove.Can{}, false
}

// strip is the part that goes round a wall, without its holes.
func (l *layout) strip(p stove.Place) (Part, bool) {
	across, tall, ok := l.d.Wall(p)
	if !ok {
		return Part{}, false
	}
	part := Part{Name: partName(p), Kind: Wrap, Place: p, Across: across * 1e3, Tall: tall * 1e3, Edge: toEdge(sheetOf(l.d, p))}
	part.Around = catalogue.WrapLength(across, l.o.Thickness) * 1e3
	part.To = part.Tall
	if can, ok := canOf(l.d, p); ok {
		if can.Metal == stove.Tinplate {
			part.From, part.To = seamHeight, part.Tall-seamHeight
		}
		if size, err := catalogue.Can(can.Code); can.Code != "" && err == nil && math.Abs(size.BodyOutside-can.Diameter) < 1e-6 {
			part.code = can.Code
		}
	} else {
		part.Tabs = tabs(part.Across)
	}
	return part, true
}

// wall lays the rows of a wall out and checks them.
func (l *layout) wall(p stove.Place) {
	part, ok := l.strip(p)
	if !ok {
		for _, i := range l.d.RowsOn(p) {
			l.add(rowKey(i, "on"), string(p), "the design has no such sheet", "another sheet", nil)
		}
		return
	}
	before := l.holesBefore(p)
	around := math.Pi * part.Across
	for _, i := range l.d.RowsOn(p) {
		if !l.fits(i, part) {
			continue
		}
		l.place(&part, i, before)
	}
	l.number(&part)
	l.against(&part, before)
	metal := make([]Hole, len(part.Holes)) // on the metal, not on the paper
	for k, h := range part.Holes {
		h.X *= around / part.Around
		metal[k] = h
	}
	l.check(p, metal, around)
	l.parts = append(l.parts, part)
}

// fits checks a row against the wall it is in; false when it cannot be placed
// at all.
func (l *layout) fits(i int, part Part) bool {
	if l.kept(i) {
		return true // it is there
	}
	r, o := l.d.Rows[i], l.rows[i].Cut
	t := sheetOf(l.d, r.On)
	around := math.Pi * part.Across
	sys := l.o.Units
	if o.Width > part.Across/2 {
		l.add(rowKey(i, "hole"), o.text(sys), fmt.Sprintf("too wide to cut in a wall of %s diameter", length(part.Across, sys)), "up to "+length(part.Across/2, sys), func(d *stove.Design) { l.fewer(d, i) })
		return false
	}
	l.small(i, t)
	metal := around/float64(r.Count) - o.Width
	least := between(o, o, t)
	if metal < least-slack && r.Count > 1 || metal <= 0 {
		most := int((around + slack) / (o.Width + least))
		l.add(rowKey(i, "count"), fmt.Sprint(r.Count), l.closeness(metal, fmt.Sprintf("%d holes of %s round %s", r.Count, o.text(sys), length(around, sys)), least), fmt.Sprintf("up to %d of this size", most), func(d *stove.Design) { l.fewer(d, i) })
	} else if side := metal / 2; side < l.o.Seam*1e3/2-slack {
		l.add(rowKey(i, "count"), fmt.Sprint(r.Count), fmt.Sprintf("the holes next to the seam leave it %s on either side, less than half of its %s", length(side, sys), length(l.o.Seam*1e3, sys)), "fewer or smaller holes", func(d *stove.Design) { l.fewer(d, i) })
	}
	y, half := r.Height*1e3, o.Height/2
	if low, high := y-half, part.Tall-y-half; low < part.Edge-slack || high < part.Edge-slack {
		text := fmt.Sprintf("only %s from the rim", length(high, sys))
		switch {
		case low <= 0:
			text = "the hole runs into the base"
		case high <= 0:
			text = "the hole runs over the rim"
		case low < high:
			text = fmt.Sprintf("only %s from the base", length(low, sys))
		}
		accept := fmt.Sprintf("%s to %s", length(part.Edge+half, sys), length(part.Tall-part.Edge-half, sys))
		if part.Tall < 2*part.Edge+o.Height {
			accept = fmt.Sprintf("holes up to %s tall", length(math.Max(0, part.Tall-2*part.Edge), sys))
		}
		l.add(rowKey(i, "height"), length(y, sys), text, accept, func(d *stove.Design) { l.move(d, i) })
		l.at(position)
	}
	for _, b := range l.o.Beads {
		if b.On != r.On {
			continue
		}
		low, high := b.From*1e3-part.Edge, b.To*1e3+part.Edge
		if y+half > low+slack && y-half < high-slack {
			l.add(rowKey(i, "height"), length(y, sys), fmt.Sprintf("the holes run into the bead from %s to %s", length(b.From*1e3, sys), length(b.To*1e3, sys)),
				fmt.Sprintf("up to %s, or from %s", length(low-half, sys), length(high+half, sys)), func(d *stove.Design) { l.move(d, i) })
			l.at(position)
		}
	}
	return true
}

// small refuses a punched hole that is narrower than its sheet is thick.
func (l *layout) small(i int, t float64) {
	r, o := l.d.Rows[i], l.rows[i].Cut
	if (r.Edge == stove.PunchedIn || r.Edge == stove.PunchedOut) && o.narrow() < LeastHole(t)-slack {
		l.add(rowKey(i, "hole"), o.text(l.o.Units), fmt.Sprintf("too narrow to punch in a sheet of %s: the punch breaks or wanders", length(t, l.o.Units)), fmt.Sprintf("%s or more, or a drilled edge", length(LeastHole(t), l.o.Units)),
			func(d *stove.Design) { d.Rows[i].Edge = stove.Drilled })
	}
}

// place puts the holes of a row on the strip at the phase that keeps them
// furthest from the seam and from the rows beside them.
func (l *layout) place(part *Part, i int, before []Hole) {
	r, o := l.d.Rows[i], l.rows[i].Cut
	n := r.Count
	pitch := part.Around / float64(n)
	t := sheetOf(l.d, r.On)
	var beside []Hole
	for _, h := range part.Holes {
		if math.Abs(h.Y-r.Height*1e3)-(h.Height+o.Height)/2 < between(h.Outline, o, t) {
			beside = append(beside, h)
		}
	}
	at := func(phase float64) []Hole {
		holes := make([]Hole, n)
		for k := range holes {
			holes[k] = Hole{Row: i, X: phase + float64(k)*pitch, Y: r.Height * 1e3, Outline: o, State: New}
		}
		return holes
	}
	phase := pitch / 2
	if old, ok := phaseBefore(before, r, pitch); ok {
		phase = old
	} else if len(beside) > 0 {
		const steps = 240
		best := math.Inf(-1)
		for s := 0; s < steps; s++ {
			// From the middle outwards, so that the middle wins a tie.
			k := (s + 1) / 2
			if s%2 == 0 {
				k = -k
			}
			try := pitch/2 + float64(k)*pitch/steps
			free := math.Min(try, pitch-try) - o.Width/2 - l.o.Seam*1e3/2
			for _, h := range at(try) {
				for _, g := range beside {
					free = math.Min(free, nearer(h, g, part.Around)-between(h.Outline, g.Outline, t))
				}
				if free <= best {
					break
				}
			}
			if free > best+1e-9 {
				best, phase = free, try
			}
		}
	}
	if side := math.Min(phase, pitch-phase) - o.Width/2; side < l.o.Seam*1e3/2-slack && !l.hasFault(rowKey(i, "count")) {
		l.add(rowKey(i, "count"), fmt.Sprint(n), fmt.Sprintf("a hole would come within %s of the seam", length(math.Max(0, side), l.o.Units)), "another count, or fewer holes", func(d *stove.Design) { l.fewer(d, i) })
	}
	part.Holes = append(part.Holes, at(phase)...)
}

// nearer is the gap of two holes on a strip that closes on itself.
func nearer(a, b Hole, around float64) float64 {
	m := math.Inf(1)
	for _, turn := range []float64{-around, 0, around} {
		if math.Abs(a.X-b.X-turn) < around/2+1 {
			c := b
			c.X += turn
			m = math.Min(m, gap(a, c))
		}
	}
	return m
}

// number counts the holes of a part through, row by row; what fills an end in
// the order it is read, from the top left.
func (l *layout) number(part *Part) {
	level := func(h Hole) float64 { return math.Round(h.Y * 100) }
	slices.SortStableFunc(part.Holes, func(a, b Hole) int {
		if a.Row != b.Row || part.Kind != Disc || l.d.Rows[a.Row].Circle > 0 {
			return 0
		}
		return cmp.Or(cmp.Compare(level(b), level(a)), cmp.Compare(a.X, b.X))
	})
	for k := range part.Holes {
		part.Holes[k].Number = k + 1
	}
}

// tabs is how many tabs hold a tube on the sheet below it; common practice,
// no source.
func tabs(across float64) int {
	if across > 120 {
		return 6
	}
	return 4
}
