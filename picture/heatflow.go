package picture

import (
	"fmt"
	"math"
	"sort"

	"toplit/drawing"
)

// Kind says how a stream of heat is drawn.
type Kind int

// The kinds. Each has its own shade and, where shades are near, its own
// hatch; the words beside the stream say what it is.
const (
	Lost     Kind = iota // to air, ground, metal: greys
	Useful               // into pot and water: slate
	Gas                  // hot gas leaving: ember
	Char                 // still in the can: dark
	Unburned             // gas left unburned: hatched
	Unknown              // not accounted for: hatched both ways
)

// Stream is one stream of heat.
type Stream struct {
	Name      string
	Energy    float64 // [J]
	Low, High float64 // 10 and 90 % of predicted burns, both 0 when there is no band [J]
	Kind      Kind
}

// Heat is a ledger of heat: what came in and where it went.
type Heat struct {
	Title   string
	Note    string // what the figures rest on
	In, Out []Stream
}

// Balanced is the ledger with every stream above zero: one that runs backwards
// changes sides, empty ones are dropped, and what is missing on a side
// stands there as "not accounted for".
func (h Heat) Balanced() Heat {
	out := Heat{Title: h.Title, Note: h.Note}
	var in, gone float64
	put := func(s Stream, incoming bool) {
		if !isNumber(s.Energy) || s.Energy == 0 {
			return
		}
		if s.Energy < 0 {
			s.Energy, s.Low, s.High = -s.Energy, -s.High, -s.Low
			incoming = !incoming
		}
		if incoming {
			in += s.Energy
			out.In = append(out.In, s)
		} else {
			gone += s.Energy
			out.Out = append(out.Out, s)
		}
	}
	for _, s := range h.In {
		put(s, true)
	}
	for _, s := range h.Out {
		put(s, false)
	}
	if gap := in - gone; math.Abs(gap) > 5e-4*math.Max(in, gone) {
		missing := Stream{Name: "not accounted for", Energy: math.Abs(gap), Kind: Unknown}
		if gap > 0 {
			out.Out = append(out.Out, missing)
		} else {
			out.In = append(out.In, missing)
		}
	}
	return out
}

// Percents are whole percentages of the total that add to exactly 100: each
// rounded down, then the largest remainders up.
func Percents(s []Stream) []int {
	total := 0.0
	for _, v := range s {
		total += v.Energy
	}
	out := make([]int, len(s))
	if !(total > 0) || math.IsInf(total, 0) {
		return out
	}
	rest := make([]float64, len(s))
	order := make([]int, len(s))
	left := 100
	for i, v := range s {
		p := 100 * v.Energy / total
		out[i] = int(math.Floor(p))
		rest[i], order[i] = p-math.Floor(p), i
		left -= out[i]
	}
	sort.SliceStable(order, func(i, j int) bool { return rest[order[i]] > rest[order[j]] })
	for i := range left {
		out[order[i%len(order)]]++
	}
	return out
}

// HeatFlow draws where the heat went as a flow from left to right: every
// stream as a ribbon as thick as its share, with its percentage and name
// beside it. The percentages add to 100.
func HeatFlow(h Heat, opts ChartOptions) *drawing.Sheet {
	opts.defaults()
	b := newBoard()
	h = h.Balanced()
	ts := opts.TextSize
	const margin = 5.0
	title := h.Title
	if title == "" {
		title = "Where the heat goes"
	}
	var sub []string
	if h.Note != "" {
		sub = drawing.Wrap(h.Note, ts, false, opts.Width-2*margin)
	}
	head := margin + 1.4*ts*leading + float64(len(sub))*ts*leading + 3

	// Names on both sides, ribbons between them.
	leftWords, rightWords := streamWords(h.In, false), streamWords(h.Out, true)
	leftWide := math.Min(wordsWidth(leftWords, ts), 0.25*opts.Width)
	const bar, space, ribbons = 3.0, 2.5, 18.0
	rightWide := math.Min(wordsWidth(rightWords, ts), opts.Width-2*margin-2*space-bar-ribbons-leftWide)
	x0 := margin + leftWide + space
	x1 := opts.Width - margin - rightWide - space

	tall := opts.Height
	total := 0.0
	for _, s := range h.In {
		total += s.Energy
	}
	if len(h.In) == 0 || len(h.Out) == 0 || !(total > 0) || math.IsInf(total, 0) {
		height := head + 3*ts + margin
		b.bold(onText, margin, height-margin-1.3*ts, 1.4*ts, drawing.Start, drawing.Shorten(title, 1.4*ts, true, opts.Width-2*margin))
		b.text(onMuted, margin, margin+ts, ts, drawing.Start, "No heat was released.")
		return b.sheet(title, "No heat was released.", opts.Width, height, opts.ground())
	}
	thick := func(e float64) float64 { return e / total * tall }

	leftAt, leftRoom := stackLabels(h.In, thick, 0, tall, ts)
	gap := 1.2
	if len(h.Out) > 12 {
		gap = 0.6
	}
	rightAt, rightRoom := stackLabels(h.Out, thick, gap, tall, ts)
	room := math.Max(tall, math.Max(leftRoom, rightRoom))
	height := head + room + margin + 1
	top := height - head // everything hangs from here
	down := func(d float64) float64 { return top - d }

	b.begin("streams")
	// Ribbons leave the bar in order and spread to where their names stand.
	from := (room - tall) / 2
	in := from
	for i, s := range h.In {
		t := thick(s.Energy)
		cut := 0.0 // a little paper between two sources
		if i > 0 {
			cut = math.Min(0.5, t/2)
		}
		b.put(onWash, drawing.Rect(drawing.Point{X: x0, Y: down(in + t)}, drawing.Point{X: x0 + bar, Y: down(in + cut)}).Filled(drawing.Solid(ink)))
		in += t
	}
	greys := 0
	pct := Percents(h.Out)
	for i, s := range h.Out {
		t := thick(s.Energy)
		to := rightAt[i] + (room-rightRoom)/2 - t/2
		b.begin(s.Name)
		ribbon(b, s.Kind, greys, x0+bar, x1, down(from), down(to), t)
		if s.Kind == Lost {
			greys++
		}
		from += t
	}
	b.begin("names")
	for i, w := range leftWords {
		y := down(leftAt[i]+(room-leftRoom)/2) + ts*0.3
		b.text(onText, margin+leftWide, y, ts, drawing.End, drawing.Shorten(w.name, ts, false, leftWide))
		b.text(onMuted, margin+leftWide, y-ts*leading, ts, drawing.End, drawing.Shorten(w.value, ts, false, leftWide))
	}
	numbers := drawing.TextWidth("100 %", ts, true)
	for i, w := range rightWords {
		y := down(rightAt[i]+(room-rightRoom)/2) - 0.35*ts
		x := x1 + space
		b.bold(onText, x+numbers, y, ts, drawing.End, fmt.Sprintf("%d %%", pct[i]))
		name, free := w.name, rightWide-numbers-1.5
		if long := name + ", " + w.value; w.value != "" && drawing.TextWidth(long, ts, false) <= free {
			name = long // a range is written whole or not at all
		}
		b.text(onText, x+numbers+1.5, y, ts, drawing.Start, drawing.Shorten(name, ts, false, free))
	}
	b.begin("title")
	y := height - margin - 1.3*ts
	b.bold(onText, margin, y, 1.4*ts, drawing.Start, drawing.Shorten(title, 1.4*ts, true, opts.Width-2*margin))
	y -= 0.4 * ts
	for _, l := range sub {
		y -= ts * leading
		b.text(onMuted, margin, y, ts, drawing.Start, l)
	}
	b.begin("")
	note := ""
	for i, s := range h.Out {
		if i > 0 {
			note += ", "
		}
		note += fmt.Sprintf("%d %% %s", pct[i], s.Name)
	}
	return b.sheet(title, "Heat of "+energyText(total)+": "+note+".", opts.Width, height, opts.ground())
}

func (o *ChartOptions) ground() drawing.Color {
	if o.White {
		return white
	}
	return paper
}

// words beside a stream.
type words struct{ name, value string }

// streamWords are a side's words: its energy on the way in, its band on the
// way out.
func streamWords(s []Stream, out bool) []words {
	total := 0.0
	for _, v := range s {
		total += v.Energy
	}
	w := make([]words, len(s))
	for i, v := range s {
		w[i] = words{name: v.Name, value: energyText(v.Energy)}
		if out {
			w[i].value = ""
			if v.High > v.Low && total > 0 {
				w[i].value = fmt.Sprintf("%s to %s %%", decimal(100*v.Low/total, 0), decimal(100*v.High/total, 0))
			}
		}
	}
	return w
}

func wordsWidth(list []words, ts float64) float64 {
	most := 0.0
	for _, w := range list {
		most = math.Max(most, math.Max(drawing.TextWidth(w.name, ts, false), drawing.TextWidth(w.value, ts, false)))
		most = math.Max(most, drawing.TextWidth("100 %"+w.name+", "+w.value, ts, true)+2)
	}
	return most
}

// energyText writes joules in MJ or kJ.
func energyText(j float64) string {
	if j >= 1e6 {
		return decimal(j/1e6, 2) + " MJ"
	}
	return decimal(j/1e3, 0) + " kJ"
}

// stackLabels are the middles of the streams at their names, from the top
// down, no nearer than words or ribbons allow, and the room they take [mm].
func stackLabels(s []Stream, thick func(float64) float64, gap, tall, ts float64) (at []float64, room float64) {
	wish, need := make([]float64, len(s)), make([]float64, len(s))
	sum := 0.0
	for _, v := range s {
		room += math.Max(thick(v.Energy)+gap, 1.45*ts)
	}
	if gap == 0 { // two lines of words on the way in
		room = 0
		for _, v := range s {
			room += math.Max(thick(v.Energy), 2.8*ts)
		}
	}
	room = math.Max(room, tall)
	for i, v := range s {
		t := thick(v.Energy)
		wish[i] = (room-tall)/2 + sum + t/2
		need[i] = math.Max(t+gap, 1.45*ts)
		if gap == 0 {
			need[i] = math.Max(t, 2.8*ts)
		}
		sum += t
	}
	return settle(wish, need, room), room
}

// ribbon draws one stream from its place on the bar to its name: an S whose
// upright thickness is the same all along.
func ribbon(b *board, kind Kind, greys int, x0, x1, y0, y1, thick float64) {
	const steps = 24
	upper := make([]drawing.Point, 0, 2*steps+2)
	for i := 0; i <= steps; i++ {
		t := float64(i) / steps
		upper = append(upper, drawing.Point{X: x0 + (x1-x0)*t, Y: y0 + (y1-y0)*t*t*(3-2*t)})
	}
	outline := upper
	for i := steps; i >= 0; i-- {
		p := upper[i]
		outline = append(outline, drawing.Point{X: p.X, Y: p.Y - thick})
	}
	shape := drawing.Poly(outline...)
	hatch := func(angle, spacing float64) {
		b.put(onHatch, drawing.Hatch{Loops: [][]drawing.Point{outline}, Angle: angle, Spacing: spacing})
	}
	fill := func(c drawing.Color, o float64) {
		b.put(onWash, shape.Filled(drawing.Paint{Color: c, Opacity: o}))
	}
	switch kind {
	case Useful:
		fill(slate, 0.75)
	case Gas:
		fill(ember, 0.5)
	case Char:
		fill(ink, 0.65)
	case Unburned:
		fill(husk, 0.12)
		hatch(math.Pi/4, 1.1)
	case Unknown:
		hatch(math.Pi/4, 1.6)
		hatch(-math.Pi/4, 1.6)
	default:
		fill(ink, []float64{0.28, 0.16, 0.22}[greys%3])
	}
	shape.Closed = true
	b.put(onGrid, shape)
}
