package picture

import (
	"fmt"
	"math"
	"sort"

	"toplit/drawing"
)

// words is the moment's line under the chart, without its name.
func (m Moment) words() string {
	s := ""
	switch {
	case !isNumber(m.Mid) && !(m.Never > 0 && m.Never < 1):
		s = "never reached"
	case !isNumber(m.Mid):
		s = "not reached"
	case m.Low == m.High && m.Low == m.Mid:
		s = clock(m.Mid)
	case isNumber(m.Low) && isNumber(m.High):
		s = fmt.Sprintf("%s (%s–%s)", clock(m.Mid), clock(m.Low), clock(m.High))
	case isNumber(m.Low):
		s = fmt.Sprintf("%s (%s to never)", clock(m.Mid), clock(m.Low))
	default:
		s = clock(m.Mid)
	}
	if m.Never > 0 && (m.Never < 1 || isNumber(m.Mid)) {
		if isNumber(m.Mid) {
			s += ", never"
		}
		s += fmt.Sprintf(" in %s %% of burns", decimal(100*math.Min(m.Never, 1), 0))
	}
	if m.Measured > 0 && isNumber(m.Measured) {
		s += ", measured " + clock(m.Measured)
	}
	if m.Note != "" {
		s += ", " + m.Note
	}
	return s
}

// row is a moment's bar under the chart.
type row struct {
	m      Moment
	text   string
	lines  int // rows of type it takes
	x      float64
	anchor drawing.Anchor
}

// place is the x of a time on the chart, held inside the field [mm].
func (c *burnChart) place(t float64) float64 {
	return math.Max(c.x.from, math.Min(c.x.to, c.x.at(t/60)))
}

// ends are where the moment's bar begins and ends; open when it has no late
// end inside the chart.
func (c *burnChart) ends(m Moment) (lo, hi float64, open, ok bool) {
	first, last := m.Low, m.High
	if !isNumber(first) {
		first = m.Mid
	}
	if !isNumber(first) {
		return 0, 0, false, false
	}
	if !isNumber(last) {
		return c.place(first), c.x.to, true, true
	}
	return c.place(first), c.place(math.Max(first, last)), last/60 > c.x.hi+1e-9, true
}

// momentRows decides on which side of its bar each moment's words stand: to
// the right, to the left, or on a line of their own.
func (c *burnChart) momentRows(left, right float64) []row {
	ts := c.o.TextSize
	var rows []row
	for _, m := range c.byTime() {
		r := row{m: m, text: m.Name + "  " + m.words(), lines: 1}
		limit := c.o.Width - 5
		w := drawing.TextWidth(r.text, ts, false)
		lo, hi, _, ok := c.ends(m)
		if !ok {
			lo, hi = left, left-2
		}
		switch {
		case hi+2.2+w <= limit:
			r.x, r.anchor = hi+2.2, drawing.Start
		case lo-2.2-w >= 5:
			r.x, r.anchor = lo-2.2, drawing.End
		default:
			r.lines, r.x, r.anchor = 2, left, drawing.Start
			r.text = drawing.Shorten(r.text, ts, false, limit-left)
		}
		rows = append(rows, r)
	}
	return rows
}

// byTime are the moments in order of their time, those without one last.
func (c *burnChart) byTime() []Moment {
	m := append([]Moment{}, c.b.Moments...)
	key := func(m Moment) float64 {
		for _, v := range []float64{m.Mid, m.Low} {
			if isNumber(v) {
				return v
			}
		}
		return math.Inf(1)
	}
	sort.SliceStable(m, func(i, j int) bool { return key(m[i]) < key(m[j]) })
	return m
}

// barWords is the line over the bars.
func (c *burnChart) barWords() []string {
	return drawing.Wrap("Moments in minutes:seconds after lighting; "+bandWords+" the bar.", c.o.TextSize, false, c.o.Width-10)
}

// bars draws the moments' bars downwards from a height.
func (c *burnChart) bars(rows []row, left, right, from float64) {
	if len(rows) == 0 {
		return
	}
	ts := c.o.TextSize
	c.begin("moments")
	y := from - 1.5*ts
	for i, l := range c.barWords() {
		if i > 0 {
			y -= leading * ts
		}
		c.text(onMuted, 5, y, ts, drawing.Start, l)
	}
	for _, r := range rows {
		y -= 1.5 * ts
		mid := y + 0.35*ts
		if lo, hi, open, ok := c.ends(r.m); ok {
			layer := onPredicted
			if r.m.Low == r.m.High {
				layer = onMeasured // set by the maker, not predicted
			}
			if hi > lo {
				c.line(layer, lo, mid, hi, mid)
			}
			c.line(layer, lo, mid-0.9, lo, mid+0.9)
			if open {
				c.put(layer, headOf(drawing.Point{X: hi, Y: mid}, 0, 2, ember))
			} else {
				c.line(layer, hi, mid-0.9, hi, mid+0.9)
			}
			if isNumber(r.m.Mid) && hi > lo {
				c.put(onPredicted, drawing.Circle{Center: drawing.Point{X: c.place(r.m.Mid), Y: mid}, Radius: 0.6, Fill: drawing.Solid(paper)})
			}
		}
		if t := r.m.Measured; t > 0 && isNumber(t) && t/60 <= c.x.hi {
			x := c.place(t)
			c.put(onMeasured, drawing.Poly(drawing.Point{X: x, Y: mid + 1.1}, drawing.Point{X: x + 0.9, Y: mid}, drawing.Point{X: x, Y: mid - 1.1}, drawing.Point{X: x - 0.9, Y: mid}).Filled(drawing.Solid(ink)))
		}
		if r.lines == 2 {
			y -= 1.5 * ts
		}
		c.text(onText, r.x, y, ts, r.anchor, r.text)
	}
	c.begin("")
}

// tier is a moment's name above the field and the line under it.
type tier struct {
	text   string
	x      float64 // of the line [mm]
	width  float64 // of the words [mm]
	n      int     // level, 0 nearest the field
	anchor drawing.Anchor
	known  bool // measured
}

// span is what the words and their line take up across.
func (t tier) span() span {
	if t.anchor == drawing.End {
		return span{t.x - t.width, t.x + 0.5}
	}
	return span{t.x - 0.5, t.x + t.width}
}

// tiers gives each moment's name the lowest level where it touches neither
// another name nor the line of one named higher up. Names stand to the right
// of their line; where there is no room, or the line of such a one is in the
// way, to the left.
func (c *burnChart) tiers() (names []tier, levels int) {
	ts := c.o.TextSize
	for _, m := range c.byTime() {
		t, known, ok := m.line()
		if !ok || t/60 > c.x.hi {
			continue
		}
		text := m.Name + " " + clock(t)
		names = append(names, tier{text: text, x: c.place(t), width: drawing.TextWidth(text, ts, false) + 1.6, known: known})
	}
	limit := c.o.Width - 4
	for i := len(names) - 1; i >= 0; i-- {
		n := &names[i]
		if n.span().hi > limit {
			n.anchor = drawing.End
			limit = math.Min(limit, n.x-0.5)
		}
	}
	taken := map[int][]span{}
	place := func(n *tier) {
		for ; ; n.n++ {
			free := true
			for _, o := range taken[n.n] {
				free = free && (n.span().hi <= o.lo || o.hi <= n.span().lo)
			}
			if free {
				break
			}
		}
		for k := range n.n { // its line passes the levels below
			taken[k] = append(taken[k], span{n.x - 0.5, n.x + 0.5})
		}
		taken[n.n] = append(taken[n.n], n.span())
		levels = max(levels, n.n+1)
	}
	for i := len(names) - 1; i >= 0; i-- {
		if names[i].anchor == drawing.Start {
			place(&names[i])
		}
	}
	for i := range names {
		if names[i].anchor == drawing.End {
			place(&names[i])
		}
	}
	return names, levels
}

// line is the time a moment's line is drawn at: measured, or the median.
func (m Moment) line() (t float64, measured, ok bool) {
	if m.Measured > 0 && isNumber(m.Measured) {
		return m.Measured, true, true
	}
	return m.Mid, false, isNumber(m.Mid) && m.Mid >= 0
}

// momentLines draws the moments' lines through the field and their names over
// it.
func (c *burnChart) momentLines(names []tier, bottom, top float64) {
	size := c.o.TextSize
	c.begin("moment lines")
	for _, n := range names {
		y := top + (float64(n.n)*1.45+0.35)*size // clear of the axes' top numbers
		layer := onHidden
		if n.known {
			layer = onThin
		}
		c.line(layer, n.x, bottom, n.x, y+1.2*size)
		dx := 0.8
		if n.anchor == drawing.End {
			dx = -0.8
		}
		c.text(onText, n.x+dx, y+0.4*size, size, n.anchor, n.text)
		c.busy = append(c.busy, busy{drawing.Box{Min: drawing.Point{X: n.x - 0.4, Y: bottom}, Max: drawing.Point{X: n.x + 0.4, Y: top}}, "moment"})
	}
	c.begin("")
}

// shadePhases shades every other phase of the field and names them all in a
// strip that begins at a height over the field.
func (c *burnChart) shadePhases(bottom, from, strip float64) {
	if strip == 0 {
		return
	}
	ts := c.o.TextSize
	c.begin("phases")
	var names []Phase
	var wish, need []float64
	for i, p := range c.b.Phases {
		if !isNumber(p.From) || !isNumber(p.To) || p.To <= p.From || p.From/60 >= c.x.hi {
			continue
		}
		x1, x2 := c.place(p.From), c.place(p.To)
		if i%2 == 0 {
			c.wash(x1, bottom, x2, from+strip, husk, 0.1)
		}
		for _, x := range []float64{x1, x2} {
			c.line(onGrid, x, from, x, from+0.9*ts)
		}
		names = append(names, p)
		wish = append(wish, (x1+x2)/2-c.x.from)
		need = append(need, drawing.TextWidth(p.Name, ts, false)+2)
	}
	room := c.x.to - c.x.from
	sum := 0.0
	for _, n := range need {
		sum += n
	}
	if shrink := room / sum; shrink < 1 {
		for i := range need {
			need[i] *= shrink
		}
	}
	for i, at := range settle(wish, need, room) {
		x, mid := c.x.from+at, c.x.from+wish[i]
		c.text(onMuted, x, from+1.35*ts, ts, drawing.Middle, drawing.Shorten(names[i].Name, ts, false, need[i]-1))
		// A name over its own phase needs no line to it.
		if p := names[i]; x < c.place(p.From) || x > c.place(p.To) {
			c.line(onLeader, x, from+1.05*ts, mid, from+0.3*ts)
		}
	}
	c.begin("")
}
