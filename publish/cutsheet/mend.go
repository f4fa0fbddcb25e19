package cutsheet

import (
	"math"

	"toplit/stove"
)

// How a design is brought nearer to one that can be cut. Every change is the
// smallest of its kind; refuse repeats them until nothing is in the way.

// fewer changes the count and, for round holes, the width of a row so that
// the row fits, keeping as much of its open area as there can be, then of its
// count and width.
func (l *layout) fewer(d *stove.Design, i int) {
	r := &d.Rows[i]
	fits := l.fitting(*d, i)
	n0, w0 := float64(r.Count), r.Hole.Width*1e3
	type choice struct {
		n    int
		w    float64
		cost float64
	}
	best := choice{cost: math.Inf(1)}
	for n := r.Count; n >= 1; n-- {
		w := w0
		if outline(r.Hole).round() {
			w = l.widest(w0*math.Sqrt(n0/float64(n)), func(w float64) bool { return fits(n, w) })
		} else if !fits(n, w) {
			continue
		}
		if w <= 0 {
			continue
		}
		if n == r.Count && w == w0 {
			continue // that is what does not fit
		}
		area := math.Abs(math.Log(float64(n) * w * w / (n0 * w0 * w0)))
		cost := 2*area + 0.5*math.Abs(math.Log(float64(n)/n0)) + 0.5*math.Abs(math.Log(w/w0))
		if cost < best.cost-1e-12 {
			best = choice{n, w, cost}
		}
	}
	switch {
	case best.n > 0:
		r.Count, r.Hole.Width = best.n, best.w/1e3
	case r.Count > 1:
		r.Count--
	default:
		drop(d, i)
	}
}

// widest is the widest hole up to a width that fits: one of the drills on
// hand, or any tenth of a millimetre.
func (l *layout) widest(most float64, fits func(float64) bool) float64 {
	if len(l.o.Drills) > 0 {
		all := sorted(l.o.Drills)
		for k := len(all) - 1; k >= 0; k-- {
			if w := all[k].Diameter * 1e3; w <= most*math.Sqrt(1+offCounts) && fits(w) {
				return w
			}
		}
		return 0
	}
	for w := math.Floor(most*10+1e-6) / 10; w >= 0.5; w -= 0.1 {
		if w = math.Round(w*10) / 10; fits(w) {
			return w
		}
	}
	return 0
}

// fitting says whether a count and a width of a row would fit by themselves.
func (l *layout) fitting(d stove.Design, i int) func(n int, w float64) bool {
	r := d.Rows[i]
	t := sheetOf(d, r.On)
	with := func(w float64) Outline {
		o := outline(r.Hole)
		if o.round() {
			o.Width, o.Height = w, w
		}
		return o
	}
	if !r.OnBase() {
		part, ok := l.strip(r.On)
		if !ok {
			return func(int, float64) bool { return false }
		}
		around := math.Pi * part.Across
		return func(n int, w float64) bool {
			o := with(w)
			metal := around/float64(n) - o.Width
			if n > 1 && metal < between(o, o, t) || o.Width > part.Across/2 || metal/2 < l.o.Seam*1e3/2 {
				return false
			}
			return l.heightFits(part, r.Height*1e3, o)
		}
	}
	can, ok := d.Base(r.On)
	if !ok {
		return func(int, float64) bool { return false }
	}
	part := Part{Place: r.On, Across: can.Bore() * 1e3, Edge: toEdge(t)}
	if r.Circle > 0 {
		return func(n int, w float64) bool {
			o := with(w)
			h := Hole{Y: r.Circle * 500, Outline: o}
			return (n < 2 || Chord(r.Circle*1e3, n)-o.Width >= between(o, o, t)) && h.farthest() <= part.Across/2-part.Edge && l.offBeads(h, part)
		}
	}
	// A field shares its end with other fields and with circles.
	others := 0
	var wide Outline
	for _, j := range d.RowsOn(r.On) {
		switch o := outline(d.Rows[j].Hole); {
		case j == i:
		case d.Rows[j].Circle > 0:
			part.Holes = append(part.Holes, onCircle(j, d.Rows[j], o, math.Pi/float64(d.Rows[j].Count))...)
		default:
			others += d.Rows[j].Count
			if 2*o.reach() > wide.Width {
				wide = Outline{stove.Round, 2 * o.reach(), 2 * o.reach()}
			}
		}
	}
	room := map[float64]int{} // how many go in, by width
	return func(n int, w float64) bool {
		o := with(w)
		o = Outline{stove.Round, math.Max(2*o.reach(), wide.Width), math.Max(2*o.reach(), wide.Width)}
		most, ok := room[o.Width]
		if !ok {
			for _, from := range origins() {
				clear := func(h Hole) bool {
					for _, g := range part.Holes {
						if gap(h, g) < between(o, g.Outline, t) {
							return false
						}
					}
					return l.offBeads(h, part)
				}
				got := 0
				for _, p := range lattice(o.Width+between(o, o, t), part.Across/2-part.Edge-o.reach(), from, nil) {
					if clear(Hole{X: p.X, Y: p.Y, Outline: o}) {
						got++
					}
				}
				most = max(most, got)
			}
			room[o.Width] = most
		}
		return n+others <= most
	}
}

// heightFits: holes of an outline at a height keep off rim, base and beads.
func (l *layout) heightFits(part Part, y float64, o Outline) bool {
	half := o.Height / 2
	if y-half < part.Edge || y+half > part.Tall-part.Edge {
		return false
	}
	for _, b := range l.o.Beads {
		if b.On == part.Place && y+half > b.From*1e3-part.Edge && y-half < b.To*1e3+part.Edge {
			return false
		}
	}
	return true
}

// move shifts a row to the nearest place that is clear of rim, base and
// beads; where there is none its holes get smaller.
func (l *layout) move(d *stove.Design, i int) {
	if !l.moveTo(d, i, func(float64) bool { return true }) {
		l.fewer(d, i)
	}
}

// moveTo shifts a row to the nearest height, or circle, that a test accepts
// and that is clear of rim, base and beads; false where there is none.
func (l *layout) moveTo(d *stove.Design, i int, accept func(at float64) bool) bool {
	r := &d.Rows[i]
	o := l.cutOf(r.Hole)
	var ok func(at float64) bool
	now := r.Height * 1e3
	most := 0.0
	if r.OnBase() {
		can, have := d.Base(r.On)
		if !have || r.Circle == 0 {
			return false
		}
		part := Part{Place: r.On, Across: can.Bore() * 1e3, Edge: toEdge(sheetOf(*d, r.On))}
		now, most = r.Circle*1e3, part.Across
		ok = func(at float64) bool {
			h := Hole{Y: at / 2, Outline: o}
			return h.farthest() <= part.Across/2-part.Edge+slack/2 && l.offBeads(h, part) &&
				(r.Count < 2 || Chord(at, r.Count)-o.Width >= between(o, o, sheetOf(*d, r.On)))
		}
	} else {
		part, have := l.strip(r.On)
		if !have {
			return false
		}
		most = part.Tall
		ok = func(at float64) bool { return l.heightFits(part, at, o) }
	}
	const step = 0.1 // [mm]
	for k := 1; float64(k)*step <= most; k++ {
		for _, at := range []float64{now - float64(k)*step, now + float64(k)*step} {
			at = math.Round(at*10) / 10 // as makers measure
			if at > 0 && at < most && ok(at) && accept(at) {
				if r.OnBase() {
					r.Circle = at / 1e3
				} else {
					r.Height = at / 1e3
				}
				return true
			}
		}
	}
	return false
}

// cutOf is a hole as the drills on hand make it.
func (l *layout) cutOf(h stove.Hole) Outline {
	row := Row{Want: outline(h), Cut: outline(h)}
	if row.Cut.round() {
		row.choose(l.o, false)
	}
	return row.Cut
}

// part brings two rows of one sheet apart: the later one moves, else the
// earlier; where neither can the later one loses holes.
func (l *layout) part(d *stove.Design, i, j int) {
	if i >= len(d.Rows) || j >= len(d.Rows) {
		return
	}
	clear := func(k int) func(at float64) bool {
		a := l.cutOf(d.Rows[k].Hole)
		t := sheetOf(*d, d.Rows[k].On)
		return func(at float64) bool {
			for _, other := range d.RowsOn(d.Rows[k].On) {
				r := d.Rows[other]
				if other == k || r.OnBase() && r.Circle == 0 {
					continue
				}
				b := l.cutOf(r.Hole)
				need := (a.Height+b.Height)/2 + between(a, b, t)
				far := math.Abs(at - r.Height*1e3)
				if r.OnBase() {
					far = math.Abs(at-r.Circle*1e3) / 2
				}
				if far < need {
					return false
				}
			}
			return true
		}
	}
	if l.moveTo(d, j, clear(j)) || l.moveTo(d, i, clear(i)) {
		return
	}
	if d.Rows[j].Count > 1 {
		d.Rows[j].Count -= max(1, d.Rows[j].Count/8)
		return
	}
	drop(d, j)
}

// drop takes a row out of a design.
func drop(d *stove.Design, i int) {
	d.Rows = append(append([]stove.Row(nil), d.Rows[:i]...), d.Rows[i+1:]...)
}
