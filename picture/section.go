package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"toplit/drawing"
	"toplit/firing"
	"toplit/stove"
)

// Options of a section. The zero value draws in millimetres on a sheet that
// fits A4 and Letter.
type Options struct {
	Width    float64  // of the sheet, 180 when 0 [mm]
	Height   float64  // the drawing is scaled to fit into; labels may make the sheet taller, 245 when 0 [mm]
	TextSize float64  // of the labels, 3.3 when 0 [mm]
	Assumed  []string // keys of the design file that were not given, as firing.Firing.Assumed
	Changed  []string // keys that differ from the version before: drawn in ember instead of the ring
	White    bool     // white ground for the printer instead of paper

	// Length writes a length [m], and Unit says in what, for the line under
	// the title; millimetres when nil. Mass writes a mass [kg]; grams when nil.
	Length func(m float64) string
	Unit   string
	Mass   func(kg float64) string
}

func (o *Options) defaults() {
	set := func(v *float64, d float64) {
		if !(*v > 0) || math.IsInf(*v, 0) {
			*v = d
		}
	}
	set(&o.Width, 180)
	set(&o.Height, 245)
	set(&o.TextSize, 3.3)
	o.Width = math.Max(o.Width, 40*o.TextSize)
	o.Height = math.Max(o.Height, 40*o.TextSize)
	if o.Length == nil {
		o.Length, o.Unit = func(m float64) string { return decimal(m*1e3, 1) }, "millimetres"
	}
	if o.Mass == nil {
		o.Mass = func(kg float64) string { return decimal(kg*1e3, 0) + " g" }
	}
}

func (o *Options) ground() drawing.Color {
	if o.White {
		return white
	}
	return paper
}

// decimal writes a number with up to so many decimals, without trailing zeros.
func decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// What stands under every section, whatever the options.
const (
	cautionLead = "Outdoors only."
	caution     = "Carbon monoxide has no smell and is strongest once the gas flame is out. " +
		"Stand the stove on a plate or bare mineral soil, clear of anything that burns, with water at hand; " +
		"base and walls burn skin long after the flame. No galvanised metal; burn paint and linings off outdoors first. " +
		"Local fire rules come first."
)

// scales are the drawing scales tried, paper to stove: those of ISO 5455 and
// the steps between them that draughtsmen use.
var scales = [...]float64{5, 2, 1, 1 / 1.5, 0.5, 0.4, 1.0 / 3, 0.25, 0.2, 0.15, 0.1, 1.0 / 15, 0.05, 0.04, 1.0 / 30, 0.02}

// fitScale is the largest scale at which the stove fits an area [mm]; past the
// usual ones the next 1 : n00 that does.
func fitScale(widthM, heightM, width, height float64) float64 {
	most := math.Min(width/math.Max(widthM, 1e-3), height/math.Max(heightM, 1e-3)) / 1e3
	for _, s := range scales {
		if s <= most {
			return s
		}
	}
	return 1 / (100 * math.Ceil(1/most/100))
}

func scaleText(s float64) string {
	if s >= 1 {
		return decimal(s, 1) + " : 1"
	}
	return "1 : " + decimal(1/s, 1)
}

// Section is the vertical section of a stove through its axis, true to scale,
// with its dimensions, the charge and the pot of the conditions. Parts that
// the design does not have are not drawn; values named in Options.Assumed are
// hatched and marked as assumed. Every length is also written out; the scale
// holds when the sheet is printed at 100 %.
func Section(design stove.Design, conditions firing.Conditions, opts Options) *drawing.Sheet {
	opts.defaults()
	p := locate(design, conditions)
	sheet, clear := section(p, opts, false)
	if !clear {
		sheet, _ = section(p, opts, true)
	}
	return sheet
}

// section lays the picture out; clear is false when a label's line would run
// through the words in the water. aside names the water beside the pot instead.
func section(p *place, o Options, aside bool) (sheet *drawing.Sheet, clear bool) {
	s := &scene{place: p, board: newBoard(), changed: o.Changed, assumed: o.Assumed, aside: aside}

	const margin = 5.0
	ts := o.TextSize
	earth, over := 5.0, 2.0
	if p.c.Pot == nil {
		over = overhead
	}

	// The words do not move the scale: a column gets what is left beside the
	// drawing, and at least what a hole row's line needs.
	marks := s.marks(&o)
	bars := barStart + 2
	for _, m := range marks {
		if m.measures() {
			bars = math.Max(bars, barStart+barStep*float64(m.column+1)+1.5)
		}
	}
	least := 9.4 * ts
	o.Width = math.Max(o.Width, 2*margin+2*(least+bars+4)+12*ts)
	title := wrapTitle(p.d.Name, 1.5*ts, o.Width-2*margin)
	foot := s.footHeight(&o, margin)
	head := margin + float64(len(title))*1.5*ts*leading + 1.6*ts + 3
	scale := fitScale(2*p.halfWide, p.top, o.Width-2*margin-2*(least+bars+4), math.Max(30, o.Height-head-foot-earth-over))
	s.k = scale * 1e3
	s.cx = o.Width / 2
	reach := p.halfWide*s.k + 4
	inner := reach + bars // where words begin, from the axis
	column := o.Width/2 - margin - inner
	marks = s.marks(&o) // again: where the water's label goes depends on the scale
	var all, left, right []*label
	for _, m := range marks {
		m.wrap(ts, column)
		all = append(all, &m.label)
		s.guessed = s.guessed || m.assumed
	}
	balance(all, ts)
	for _, m := range marks {
		if m.mirrored && m.right {
			m.r = -m.r
		}
		if m.right {
			right = append(right, &m.label)
		} else {
			left = append(left, &m.label)
		}
	}
	tall := p.top * s.k
	room := math.Max(tall+earth+over, math.Max(needed(left, ts), needed(right, ts))+2)
	height := head + room + foot
	bottom := foot
	s.y0 = bottom + earth + (room-tall-earth-over)*0.4
	for _, m := range marks {
		m.target = s.at(m.r, m.h)
		if m.measures() {
			m.bar, m.lo, m.hi = true, s.y(m.from), s.y(m.to)
			m.target.Y = (m.lo + m.hi) / 2
		}
	}
	spread(left, bottom, bottom+room, ts)
	spread(right, bottom, bottom+room, ts)

	s.ground(reach)
	s.pot()
	s.fuel()
	s.hiddenHoles()
	s.stoveParts()
	s.air()
	s.gas()
	s.begin("dimensions")
	s.bars(marks, reach)
	for _, m := range marks {
		dir := -1.0
		if m.right {
			dir = 1
		}
		m.draw(s.board, s.cx+dir*inner, s.cx+dir*(inner-1.5), ts)
	}
	clear = true
	if s.water > 0 && s.waterInside(&o) {
		x, y := s.cx, s.y(s.potBase+potSheet+s.water/2)-0.35*ts
		box := s.text(onText, x, y, ts, drawing.Middle, s.waterText(&o)).Bounds()
		for _, m := range marks {
			for i := 1; i < len(m.route); i++ {
				clear = clear && !runsThrough(m.route[i-1], m.route[i], box)
			}
		}
	}
	s.begin("title")
	y := height - margin
	for _, line := range title {
		y -= 1.5 * ts * 0.95
		s.bold(onText, margin, y, 1.5*ts, drawing.Start, line)
		y -= 1.5 * ts * (leading - 0.95)
	}
	sub := fmt.Sprintf("Vertical section, scale %s at 100 %%. Lengths in %s.", scaleText(scale), o.Unit)
	if o.Unit == "" {
		sub = fmt.Sprintf("Vertical section, scale %s at 100 %%.", scaleText(scale))
	}
	s.text(onMuted, margin, y-ts, ts, drawing.Start, drawing.Shorten(sub, ts, false, o.Width-2*margin))
	s.begin("")
	s.foot(&o, margin, foot)
	return s.sheet(titleOf(p.d), s.describe(&o), o.Width, height, o.ground()), clear
}

func titleOf(d stove.Design) string {
	if d.Name == "" {
		return "Section of a stove"
	}
	return "Section of " + d.Name
}

func wrapTitle(name string, size, width float64) []string {
	if strings.TrimSpace(name) == "" {
		name = "Stove"
	}
	lines := drawing.Wrap(name, size, true, width)
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	for i, l := range lines {
		lines[i] = drawing.Shorten(l, size, true, width)
	}
	return lines
}

// describe says in words what the section shows, for those who cannot see it.
func (s *scene) describe(o *Options) string {
	var parts []string
	for _, m := range s.marks(o) {
		parts = append(parts, strings.TrimSpace(m.name+" "+m.value))
	}
	if s.water > 0 && s.waterInside(o) {
		parts = append(parts, s.waterText(o))
	}
	unit := ""
	if o.Unit != "" {
		unit = " (lengths in " + o.Unit + ")"
	}
	return "Vertical section" + unit + ": " + strings.Join(parts, "; ") + ". " + cautionLead
}

// footHeight is the height of the foot: legend, scale bar, caution.
func (s *scene) footHeight(o *Options, margin float64) float64 {
	lines := drawing.Wrap(caution, 0.9*o.TextSize, false, o.Width-2*margin)
	return margin + float64(len(lines)+1)*0.9*o.TextSize*leading + 2 + s.legendHeight(o, margin)
}

// barRoom is the width kept for the scale bar [mm].
const barRoom = 62

// beside reports whether the legend fits beside the scale bar; else it stands
// under it.
func (o *Options) beside(margin float64) bool {
	return o.Width-2*margin-barRoom >= 2*(legendLine+11*o.TextSize)
}

// legendHeight is the room for the scale bar and the legend.
func (s *scene) legendHeight(o *Options, margin float64) float64 {
	h := legendRows*1.45*o.TextSize + 3.5
	if !o.beside(margin) {
		h += 2.4*o.TextSize + 1
	}
	return h
}

func (s *scene) foot(o *Options, margin, top float64) {
	ts := o.TextSize
	small := 0.9 * ts
	s.begin("caution")
	lines := drawing.Wrap(caution, small, false, o.Width-2*margin)
	y := margin
	for i := len(lines) - 1; i >= 0; i-- {
		s.text(onText, margin, y, small, drawing.Start, lines[i])
		y += small * leading
	}
	s.bold(onText, margin, y, small, drawing.Start, cautionLead)
	y += small*leading + 0.6
	s.line(onGrid, margin, y, o.Width-margin, y)
	s.begin("")
	y += s.legendHeight(o, margin) - 1 - 0.5*ts
	s.scaleBar(margin, y, ts)
	s.legend(o, margin, y, ts)
}

// scaleBar draws 100 mm or 50 mm of the stove, or the nearest rounder length
// that fits.
func (s *scene) scaleBar(x, y, ts float64) {
	long := 0.0
	for _, v := range [...]float64{0.1, 0.05, 500, 200, 100, 50, 20, 10, 5, 2, 1, 0.5, 0.2, 0.02, 0.01, 0.005, 0.002, 0.001} {
		if w := v * s.k; w <= barRoom-6 && (w >= 12 || v < 0.05 || v > 0.1) {
			long = v
			break
		}
	}
	w := long * s.k
	s.begin("scale bar")
	s.line(onThin, x, y, x+w, y)
	for i := range 6 {
		t := x + w*float64(i)/5
		h := 1.0
		if i == 0 || i == 5 {
			h = 2
		}
		s.line(onThin, t, y, t, y+h)
	}
	s.solid(onThin, x, y-0.5, x+w/5, y, ink)
	s.solid(onThin, x+2*w/5, y-0.5, x+3*w/5, y, ink)
	s.solid(onThin, x+4*w/5, y-0.5, x+w, y, ink)
	s.text(onText, x, y-0.5-ts, ts, drawing.Start, decimal(long*1e3, 0)+" mm of stove")
	s.begin("")
}

// legendRows is how many lines the legend's at most four items take.
const (
	legendRows = 2
	legendLine = 10.0 // width of a sample and the space after it [mm]
)

// legend explains the lines that need it, right of the scale bar.
func (s *scene) legend(o *Options, margin, y, ts float64) {
	type item struct {
		words string
		draw  func(x, y float64)
	}
	var items []item
	if s.used(onAir) {
		items = append(items, item{"open way for air", func(x, y float64) {
			s.path(onAir, slate, 0, drawing.Point{X: x, Y: y}, drawing.Point{X: x + 8, Y: y})
		}})
	}
	if s.used(onGas) {
		items = append(items, item{"way of hot gas", func(x, y float64) {
			s.path(onGas, ember, 0, drawing.Point{X: x, Y: y}, drawing.Point{X: x + 8, Y: y})
		}})
	}
	if s.used(onHidden) {
		items = append(items, item{"behind the cut", func(x, y float64) { s.line(onHidden, x, y, x+8, y) }})
	}
	if s.guessed {
		items = append(items, item{"assumed, not given", func(x, y float64) { s.swatch(x+2.5, y-1.4, 2.8) }})
	}
	s.begin("legend")
	start := margin
	if o.beside(margin) {
		start = math.Max(margin+barRoom, o.Width/3)
	} else {
		y -= 2.4*ts + 1
	}
	step := (o.Width - margin - start) / 2
	for i, it := range items {
		x, ly := start+float64(i%2)*step, y-float64(i/2)*1.45*ts
		it.draw(x, ly)
		s.text(onText, x+legendLine, ly-0.35*ts, ts, drawing.Start, drawing.Shorten(it.words, ts, false, step-legendLine-2))
	}
	s.begin("")
}

// used reports whether a layer has shapes.
func (b *board) used(layer string) bool { return len(b.layers[b.at[layer]].Shapes) > 0 }
