package picture

import (
	"fmt"
	"math"
	"strings"

	"toplit/drawing"
)

// Curve is one quantity against time. Low and High are the 10 and 90 % bounds
// of a prediction, empty for a single line; Mid is its median or the measured
// value. Values that are not numbers leave a gap.
type Curve struct {
	Times          []float64 // after lighting, rising [s]
	Low, Mid, High []float64
}

// Phase is a stretch of the burn with a name.
type Phase struct {
	Name     string
	From, To float64 // after lighting [s]
}

// Moment is one instant of the burn. A bound that is not a number was not
// reached in that share of the predicted burns.
type Moment struct {
	Name           string
	Low, Mid, High float64 // 10, 50 and 90 % after lighting; all equal when it is set, not predicted [s]
	Measured       float64 // after lighting, 0 for none [s]
	Never          float64 // share of the predicted burns that never reach it, 0 to 1
	Note           string  // with a zero of its own: "5:40 after pot on"
}

// Burn is what a burn chart shows.
type Burn struct {
	Title         string
	Note          string // what the prediction rests on: "learned from 13 burns"
	Firepower     Curve  // [W]
	Water         Curve  // [K]; empty when nothing is heated
	MeasuredPower Curve  // [W]; drawn in ink over the prediction
	MeasuredWater Curve  // [K]
	Phases        []Phase
	Moments       []Moment
}

// ChartOptions of a chart. The zero value fits A4 and Letter.
type ChartOptions struct {
	Width    float64 // of the sheet, 180 when 0 [mm]
	Height   float64 // of the field the curves lie in, 70 when 0 [mm]
	TextSize float64 // 3.2 when 0 [mm]
	White    bool    // white ground for the printer instead of paper

	// Temperature turns kelvins into the unit of the water's axis, degrees
	// Celsius when nil.
	Temperature     func(k float64) float64
	TemperatureUnit string
}

func (o *ChartOptions) defaults() {
	set := func(v *float64, d, least float64) {
		if !(*v > 0) || math.IsInf(*v, 0) {
			*v = d
		}
		*v = math.Max(*v, least)
	}
	set(&o.TextSize, 3.2, 1.5)
	set(&o.Width, 180, 40*o.TextSize+20)
	set(&o.Height, 70, 8*o.TextSize)
	if o.Temperature == nil {
		o.Temperature, o.TemperatureUnit = func(k float64) float64 { return k - 273.15 }, "°C"
	}
}

const bandWords = "8 of 10 burns should fall inside"

// clock writes a time as minutes and seconds.
func clock(s float64) string {
	n := int64(math.Round(math.Abs(s)))
	sign := ""
	if s < 0 && n > 0 {
		sign = "−"
	}
	return fmt.Sprintf("%s%d:%02d", sign, n/60, n%60)
}

// burnChart is a chart being drawn.
type burnChart struct {
	*board
	o       ChartOptions
	b       Burn
	x, y, w axis // minutes, kW, water
	hot     bool // there is water
	busy    []busy
}

// busy is a place words keep clear of, and whose line runs there.
type busy struct {
	drawing.Box
	owner string
}

// BurnChart draws the course of a burn: firepower with its band against the
// minutes after lighting, the water's temperature on a second axis, phases
// shaded and named, moments as lines through the field and as bars under it.
// What was measured is ink and solid, what is predicted ember (firepower,
// solid with a band) and slate (water, dashed with a band).
func BurnChart(b Burn, opts ChartOptions) *drawing.Sheet {
	opts.defaults()
	c := &burnChart{board: newBoard(), o: opts, b: b}
	c.hot = hasValues(b.Water) || hasValues(b.MeasuredWater)
	ts := opts.TextSize
	const margin = 5.0
	left, right := margin+4.2*ts, opts.Width-margin-2*ts
	if c.hot {
		right = opts.Width - margin - 3.2*ts
	}
	end := c.end() / 60
	c.x = axis{lo: 0, hi: end, from: left, to: right, step: minuteStep(end, int(math.Max(3, (right-left)/(4.4*ts))))}

	// From the bottom up: caution, bars, axis, field, phases, moments, title.
	rows := c.momentRows(left, right)
	barsHigh := 0.0
	if len(rows) > 0 {
		barsHigh = 0.3*ts + float64(len(c.barWords()))*leading*ts
		for _, r := range rows {
			barsHigh += float64(r.lines) * 1.5 * ts
		}
		barsHigh += 0.8 * ts
	}
	cautionLines := drawing.Wrap(cautionLead+" "+chartCaution, 0.9*ts, false, opts.Width-2*margin)
	cautionHigh := float64(len(cautionLines)) * 0.9 * ts * leading
	bottom := margin + cautionHigh + 1 + barsHigh + 3.2*ts
	top := bottom + opts.Height
	c.scale(bottom, top)
	phases := 0.0
	if len(b.Phases) > 0 {
		phases = 2.6 * ts
	}
	names, levels := c.tiers()
	tiersHigh := 0.0
	if levels > 0 {
		tiersHigh = (float64(levels)*1.45 + 0.35) * ts
	}
	subtitle := "Band: " + bandWords + " it."
	if b.Note != "" {
		subtitle += " Prediction " + b.Note + "."
	}
	sub := drawing.Wrap(subtitle, ts, false, opts.Width-2*margin)
	height := top + phases + tiersHigh + 2.9*ts + float64(len(sub))*ts*leading + 2.2*ts + margin

	c.shadePhases(bottom, top+tiersHigh, phases)
	c.frame(bottom, top+phases+tiersHigh)
	c.momentLines(names, bottom, top)
	c.begin("curves")
	c.curve(b.Water, c.w, opts.Temperature, onWater, slate)
	c.curve(b.Firepower, c.y, kilo, onPredicted, ember)
	c.measured(measuredWater, b.MeasuredWater, c.w, opts.Temperature)
	c.measured(measuredPower, b.MeasuredPower, c.y, kilo)
	c.begin("")
	c.nameCurves(bottom, top)
	c.bars(rows, left, right, bottom-3.2*ts)

	c.begin("title")
	yt := height - margin - 1.3*ts
	title := b.Title
	if title == "" {
		title = "Predicted burn"
	}
	c.bold(onText, margin, yt, 1.4*ts, drawing.Start, drawing.Shorten(title, 1.4*ts, true, opts.Width-2*margin))
	yt -= 0.4 * ts
	for _, l := range sub {
		yt -= ts * leading
		c.text(onMuted, margin, yt, ts, drawing.Start, l)
	}
	c.begin("caution")
	for i, l := range cautionLines {
		c.text(onMuted, margin, margin+cautionHigh-(float64(i)+0.8)*0.9*ts*leading, 0.9*ts, drawing.Start, l)
	}
	c.begin("")
	return c.sheet(title, c.describe(), opts.Width, height, opts.ground())
}

const chartCaution = "After flame-out the char goes on giving off carbon monoxide, without smoke to warn of it: stay outdoors until it is cold."

func kilo(w float64) float64 { return w / 1e3 }

func hasValues(c Curve) bool {
	for i := range min(len(c.Times), len(c.Mid)) {
		if isNumber(c.Times[i]) && isNumber(c.Mid[i]) {
			return true
		}
	}
	return false
}

func isNumber(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// end is the last time with a value, at least a minute [s].
func (c *burnChart) end() float64 {
	end := 60.0
	for _, k := range []Curve{c.b.Firepower, c.b.Water, c.b.MeasuredPower, c.b.MeasuredWater} {
		for i := range min(len(k.Times), len(k.Mid)) {
			if t := k.Times[i]; isNumber(t) && isNumber(k.Mid[i]) && t < 1e7 {
				end = math.Max(end, t)
			}
		}
	}
	return end
}

// scale sets the value axes.
func (c *burnChart) scale(bottom, top float64) {
	// What no stove can mean (past sense) does not stretch the axis.
	most := func(sense float64, f func(float64) float64, curves ...[]float64) (lo, hi float64) {
		lo, hi = math.Inf(1), math.Inf(-1)
		for _, v := range curves {
			for _, q := range v {
				if q = f(q); isNumber(q) && math.Abs(q) <= sense {
					lo, hi = math.Min(lo, q), math.Max(hi, q)
				}
			}
		}
		return lo, hi
	}
	n := int(math.Max(2, c.o.Height/(3*c.o.TextSize)))
	f, m := c.b.Firepower, c.b.MeasuredPower
	_, hi := most(1e4, kilo, f.Mid, f.High, m.Mid, m.High)
	c.y = above(0, math.Max(hi*1.02, 0.1), n, bottom, top)
	if c.hot {
		w, m := c.b.Water, c.b.MeasuredWater
		lo, hi := most(2e3, c.o.Temperature, w.Low, w.Mid, w.High, m.Mid)
		lo = math.Min(0, lo)
		hi = math.Max(hi, c.o.Temperature(373.15))
		step := roundStep(hi-lo, n)
		c.w = above(math.Floor(lo/step)*step, hi, n, bottom, top)
		// Room over the boiling water, so that its line is not the frame's.
		if c.w.hi-hi < 0.03*(c.w.hi-c.w.lo) {
			c.w.to = top - 0.06*(top-bottom)
		}
	}
}

// frame draws the axes; above is the height over which their names stand.
func (c *burnChart) frame(bottom, above float64) {
	ts := c.o.TextSize
	c.begin("axes")
	for _, v := range c.y.ticks() {
		y := c.y.at(v)
		c.line(onGrid, c.x.from, y, c.x.to, y)
		c.text(onText, c.x.from-1.2, y-0.35*ts, ts, drawing.End, c.y.label(v))
	}
	for _, v := range c.x.ticks() {
		x := c.x.at(v)
		c.line(onThin, x, bottom, x, bottom-1)
		c.text(onText, x, bottom-1.2-1.2*ts, ts, drawing.Middle, c.x.label(v))
	}
	c.line(onThin, c.x.from, bottom, c.x.to, bottom)
	if c.hot {
		for _, v := range c.w.ticks() {
			y := c.w.at(v)
			c.line(onThin, c.x.to, y, c.x.to+1, y)
			c.text(onSlate, c.x.to+1.6, y-0.35*ts, ts, drawing.Start, c.w.label(v))
		}
		c.line(onThin, c.x.to, bottom, c.x.to, c.w.to)
	}
	// The axes' names stand over them, with a sample of their line.
	y := above + 0.8*ts
	c.line(onPredicted, 5, y+0.35*ts, 11, y+0.35*ts)
	c.bold(onAccent, 12.5, y, ts, drawing.Start, "firepower, kW")
	if hasValues(c.b.MeasuredPower) || hasValues(c.b.MeasuredWater) {
		x := 12.5 + drawing.TextWidth("firepower, kW", ts, true) + 4
		c.line(onMeasured, x, y+0.35*ts, x+6, y+0.35*ts)
		c.bold(onText, x+7.5, y, ts, drawing.Start, "measured")
	}
	if c.hot {
		words := "water, " + c.o.TemperatureUnit
		end := c.o.Width - 5
		c.bold(onSlate, end, y, ts, drawing.End, words)
		x := end - drawing.TextWidth(words, ts, true) - 1.5
		c.line(onWater, x-7.7, y+0.35*ts, x, y+0.35*ts)
	}
	c.text(onText, (c.x.from+c.x.to)/2, bottom-1.2-2.4*ts, ts, drawing.Middle, "minutes after lighting")
	c.begin("")
}

// curve draws a predicted curve with its band.
func (c *burnChart) curve(k Curve, y axis, scale func(float64) float64, layer string, col drawing.Color) {
	minutes := func(t float64) float64 { return c.within(t) }
	lows, highs := runs(k.Times, k.Low, c.x, y, minutes, scale), runs(k.Times, k.High, c.x, y, minutes, scale)
	// A band needs both edges over the same stretch; a gap in one is a gap in
	// the band, so pieces are paired in order.
	for i := range min(len(lows), len(highs)) {
		lo, hi := lows[i], highs[i]
		outline := append([]drawing.Point{}, lo...)
		for j := len(hi) - 1; j >= 0; j-- {
			outline = append(outline, hi[j])
		}
		c.put(onWash, drawing.Poly(outline...).Filled(drawing.Paint{Color: col, Opacity: 0.15}))
		edge := onBand
		if layer == onWater {
			edge = onWaterBand
		}
		c.put(edge, drawing.Poly(lo...), drawing.Poly(hi...))
		c.mark(layer, lo)
		c.mark(layer, hi)
	}
	for _, r := range runs(k.Times, k.Mid, c.x, y, minutes, scale) {
		c.put(layer, drawing.Poly(r...))
		c.mark(layer, r)
	}
}

func (c *burnChart) measured(owner string, k Curve, y axis, scale func(float64) float64) {
	for _, r := range runs(k.Times, k.Mid, c.x, y, c.within, scale) {
		c.put(onMeasured, drawing.Poly(r...))
		c.mark(owner, r)
	}
}

// within is a time in minutes, or not a number outside the axis.
func (c *burnChart) within(t float64) float64 {
	if m := t / 60; m >= c.x.lo && m <= c.x.hi {
		return m
	}
	return math.NaN()
}

// mark notes where a line runs, so that words keep clear of it.
func (c *burnChart) mark(owner string, line []drawing.Point) {
	for i := 1; i < len(line); i++ {
		c.busy = append(c.busy, busy{drawing.Poly(line[i-1], line[i]).Bounds().Grow(0.3), owner})
	}
}

// Owners of measured lines.
const (
	measuredPower = "firepower, measured"
	measuredWater = "water, measured"
)

// nameCurves writes each curve's name beside it where there is room clear of
// every line and nothing else runs between the name and its curve. The axes
// name the predicted curves in any case.
func (c *burnChart) nameCurves(bottom, top float64) {
	c.begin("names")
	field := drawing.Box{Min: drawing.Point{X: c.x.from + 1, Y: bottom + 1}, Max: drawing.Point{X: c.x.to - 1, Y: top - 0.5}}
	c.nameCurve(onText, measuredPower, measuredPower, c.b.MeasuredPower, c.y, kilo, field)
	c.nameCurve(onAccent, "firepower", onPredicted, c.b.Firepower, c.y, kilo, field)
	if c.hot {
		c.nameCurve(onText, measuredWater, measuredWater, c.b.MeasuredWater, c.w, c.o.Temperature, field)
		c.nameCurve(onSlate, "water", onWater, c.b.Water, c.w, c.o.Temperature, field)
	}
	c.begin("")
}

func (c *burnChart) nameCurve(layer, words, owner string, k Curve, y axis, scale func(float64) float64, field drawing.Box) {
	ts := c.o.TextSize
	pieces := runs(k.Times, k.Mid, c.x, y, c.within, scale)
	if len(pieces) == 0 {
		return
	}
	r := pieces[0]
	n := len(r)
	for _, up := range []float64{0.7, -1.5, 1.4, -2.2, 2.1, -2.9, 3, -3.8} {
		for i := range n {
			// From the middle of the line outwards.
			p := r[(n/2+(i+1)/2*(1-2*(i%2))+n)%n]
			for _, a := range []drawing.Anchor{drawing.Start, drawing.End} {
				t := drawing.Text{At: drawing.Point{X: p.X + 1.2*float64(1-int(a)), Y: p.Y + up*ts}, Size: ts, Anchor: a, Bold: true, Content: words}
				box := t.Bounds().Grow(0.2)
				between := drawing.Poly(p, t.At).Bounds().Grow(0.3)
				if box.Inside(field) && c.free(box, "") && c.free(between, owner) {
					c.put(layer, t)
					c.busy = append(c.busy, busy{box, words})
					return
				}
			}
		}
	}
}

// free reports whether nothing runs through a box, but for one line's own.
func (c *burnChart) free(box drawing.Box, but string) bool {
	for _, b := range c.busy {
		if (but == "" || b.owner != but) && b.Overlaps(box) {
			return false
		}
	}
	return true
}

// describe says the chart in words.
func (c *burnChart) describe() string {
	var b strings.Builder
	b.WriteString("Firepower in kilowatts")
	if c.hot {
		b.WriteString(" and water temperature in " + c.o.TemperatureUnit)
	}
	b.WriteString(" against minutes after lighting.")
	for _, m := range c.b.Moments {
		fmt.Fprintf(&b, " %s: %s.", m.Name, m.words())
	}
	return b.String()
}
