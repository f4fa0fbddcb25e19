package picture

import (
	"math"

	"toplit/drawing"
)

// The colours: ink on paper, greys of the ink, slate for air and water, and
// the one accent.
const (
	paper drawing.Color = 0xfcfbf7
	white drawing.Color = 0xffffff
	ink   drawing.Color = 0x1d2023
	muted drawing.Color = 0x56585a // text of lesser weight, 7:1 on paper
	faint drawing.Color = 0xa9a79f // rules, grid
	slate drawing.Color = 0x2f4f6b
	ember drawing.Color = 0xc2410c
	husk  drawing.Color = 0x7a6a4f // fuel pieces
)

// The layers, from the lowest up.
const (
	onWash      = "wash"       // fills
	onGrid      = "grid"       // rules and grid lines
	onHatch     = "hatch"      // ground, assumed areas
	onFuel      = "fuel"       // pieces of fuel
	onHidden    = "hidden"     // behind the cut
	onThin      = "thin"       // surfaces, outlines
	onBand      = "band"       // edges of predicted bands
	onWaterBand = "water band" // edges of the water's band
	onWall      = "cut"        // what the section cuts
	onEmber     = "ember"      // the accent
	onPredicted = "predicted"  // predicted medians
	onWater     = "water"      // predicted water
	onMeasured  = "measured"   // measured lines
	onAir       = "air"        // air paths
	onGas       = "gas"        // hot gas paths
	onLeader    = "leaders"    // from a label to what it names
	onDim       = "dimensions" // dimension lines
	onAssumed   = "assumed"    // dimension lines of assumed values
	onMuted     = "names"      // text of lesser weight
	onText      = "text"
	onAccent    = "accent text"
	onSlate     = "slate text"
)

// board gathers shapes on its layers.
type board struct {
	layers []drawing.Layer
	at     map[string]int
	part   string          // name the next shapes are grouped under, "" for none
	group  map[string]bool // layers whose last shape is a Part of that name
}

func newBoard() *board {
	b := &board{at: map[string]int{}, group: map[string]bool{}}
	for _, l := range []drawing.Layer{
		{Name: onWash},
		{Name: onGrid, Pen: drawing.Pen{Width: 0.15, Color: faint}},
		{Name: onHatch, Pen: drawing.Pen{Width: 0.15, Color: 0x8a8a85}},
		{Name: onFuel, Pen: drawing.Pen{Width: 0.18, Color: husk}},
		{Name: onHidden, Pen: drawing.Pen{Width: 0.2, Color: muted, Dash: []float64{0.5, 0.5}}},
		{Name: onThin, Pen: drawing.Pen{Width: 0.22, Color: ink}},
		{Name: onBand, Pen: drawing.Pen{Width: 0.15, Color: ember}},
		{Name: onWaterBand, Pen: drawing.Pen{Width: 0.15, Color: slate, Dash: []float64{1.1, 0.55}}},
		{Name: onWall, Pen: drawing.Pen{Width: 0.4, Color: ink}},
		{Name: onEmber, Pen: drawing.Pen{Width: 0.55, Color: ember}},
		{Name: onPredicted, Pen: drawing.Pen{Width: 0.6, Color: ember}},
		{Name: onWater, Pen: drawing.Pen{Width: 0.5, Color: slate, Dash: []float64{2.2, 1.1}}},
		{Name: onMeasured, Pen: drawing.Pen{Width: 0.6, Color: ink}},
		{Name: onAir, Pen: drawing.Pen{Width: 0.3, Color: slate}},
		{Name: onGas, Pen: drawing.Pen{Width: 0.3, Color: ember, Dash: []float64{1.4, 0.8}}},
		{Name: onLeader, Pen: drawing.Pen{Width: 0.15, Color: muted}},
		{Name: onDim, Pen: drawing.Pen{Width: 0.2, Color: ink}},
		{Name: onAssumed, Pen: drawing.Pen{Width: 0.2, Color: ink, Dash: []float64{1, 0.7}}},
		{Name: onMuted, Pen: drawing.Pen{Color: muted}},
		{Name: onText, Pen: drawing.Pen{Color: ink}},
		{Name: onAccent, Pen: drawing.Pen{Color: ember}},
		{Name: onSlate, Pen: drawing.Pen{Color: slate}},
	} {
		b.at[l.Name] = len(b.layers)
		b.layers = append(b.layers, l)
	}
	return b
}

// begin groups the shapes put from here on under a name; "" ends it.
func (b *board) begin(part string) {
	b.part = part
	clear(b.group)
}

// put lays shapes on a layer.
func (b *board) put(layer string, shapes ...drawing.Shape) {
	l := &b.layers[b.at[layer]]
	if b.part == "" {
		l.Shapes = append(l.Shapes, shapes...)
		return
	}
	if b.group[layer] {
		p := l.Shapes[len(l.Shapes)-1].(drawing.Part)
		p.Shapes = append(p.Shapes, shapes...)
		l.Shapes[len(l.Shapes)-1] = p
		return
	}
	b.group[layer] = true
	l.Shapes = append(l.Shapes, drawing.Part{Name: b.part, Shapes: shapes})
}

func (b *board) line(layer string, x1, y1, x2, y2 float64) {
	b.put(layer, drawing.Line{From: drawing.Point{X: x1, Y: y1}, To: drawing.Point{X: x2, Y: y2}})
}

// text puts one line of text and returns it.
func (b *board) text(layer string, x, y, size float64, anchor drawing.Anchor, content string) drawing.Text {
	t := drawing.Text{At: drawing.Point{X: x, Y: y}, Size: size, Anchor: anchor, Content: content}
	b.put(layer, t)
	return t
}

// bold puts one line of bold text.
func (b *board) bold(layer string, x, y, size float64, anchor drawing.Anchor, content string) {
	b.put(layer, drawing.Text{At: drawing.Point{X: x, Y: y}, Size: size, Anchor: anchor, Bold: true, Content: content})
}

// solid is a filled rectangle with its outline.
func (b *board) solid(layer string, x1, y1, x2, y2 float64, c drawing.Color) {
	b.put(layer, drawing.Rect(drawing.Point{X: x1, Y: y1}, drawing.Point{X: x2, Y: y2}).Filled(drawing.Solid(c)))
}

// wash is a pale rectangle without outline.
func (b *board) wash(x1, y1, x2, y2 float64, c drawing.Color, opacity float64) {
	b.put(onWash, drawing.Rect(drawing.Point{X: x1, Y: y1}, drawing.Point{X: x2, Y: y2}).Filled(drawing.Paint{Color: c, Opacity: opacity}))
}

// hatched fills a rectangle with the hatch that means assumed or unknown.
func (b *board) hatched(x1, y1, x2, y2, spacing float64) {
	b.put(onHatch, drawing.Hatch{Loops: [][]drawing.Point{{{X: x1, Y: y1}, {X: x2, Y: y1}, {X: x2, Y: y2}, {X: x1, Y: y2}}}, Angle: math.Pi / 4, Spacing: spacing})
}

// swatch is the small hatched square beside a label of an assumed value.
func (b *board) swatch(x, y, size float64) {
	b.put(onThin, drawing.Rect(drawing.Point{X: x, Y: y}, drawing.Point{X: x + size, Y: y + size}))
	b.hatched(x, y, x+size, y+size, size/3)
}

// sheet finishes the drawing, leaving empty layers out.
func (b *board) sheet(title, note string, w, h float64, ground drawing.Color) *drawing.Sheet {
	s := &drawing.Sheet{Title: title, Note: note, Width: w, Height: h, Ground: drawing.Solid(ground)}
	for _, l := range b.layers {
		if len(l.Shapes) > 0 {
			s.Layers = append(s.Layers, l)
		}
	}
	return s
}

// rounded joins points by straight runs whose corners are quarter-like arcs of
// radius r, less where a run is short.
func rounded(r float64, points ...drawing.Point) drawing.Polyline {
	var p drawing.Polyline
	add := func(q drawing.Point, bulge float64) {
		p.Vertices = append(p.Vertices, drawing.Vertex{Point: q, Bulge: bulge})
	}
	for i, q := range points {
		if i == 0 || i == len(points)-1 {
			add(q, 0)
			continue
		}
		a, c := points[i-1], points[i+1]
		in, out := math.Hypot(q.X-a.X, q.Y-a.Y), math.Hypot(c.X-q.X, c.Y-q.Y)
		if in == 0 || out == 0 {
			continue
		}
		ux, uy := (q.X-a.X)/in, (q.Y-a.Y)/in
		vx, vy := (c.X-q.X)/out, (c.Y-q.Y)/out
		turn := math.Atan2(ux*vy-uy*vx, ux*vx+uy*vy) // left positive
		cut := math.Min(r*math.Abs(math.Tan(turn/2)), math.Min(in, out)/2)
		if cut < 1e-6 {
			add(q, 0)
			continue
		}
		add(drawing.Point{X: q.X - ux*cut, Y: q.Y - uy*cut}, math.Tan(turn/4))
		add(drawing.Point{X: q.X + vx*cut, Y: q.Y + vy*cut}, 0)
	}
	return p
}

// path draws a rounded path with an arrow head at its end.
func (b *board) path(layer string, c drawing.Color, r float64, points ...drawing.Point) {
	n := len(points)
	if n < 2 {
		return
	}
	tip, from := points[n-1], points[n-2]
	if tip == from {
		return
	}
	angle := math.Atan2(tip.Y-from.Y, tip.X-from.X)
	const head = 2.0
	s, k := math.Sincos(angle)
	run := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	body := append([]drawing.Point{}, points...)
	if run > head {
		body[n-1] = drawing.Point{X: tip.X - 0.8*head*k, Y: tip.Y - 0.8*head*s}
		b.put(layer, rounded(r, body...))
	} else if n > 2 {
		b.put(layer, rounded(r, body[:n-1]...))
	}
	b.put(layer, headOf(tip, angle, math.Min(head, run), c))
}

// headOf is an arrow head drawn as a fill of its own outline.
func headOf(tip drawing.Point, angle, length float64, c drawing.Color) drawing.Polyline {
	return drawing.Arrow(tip, angle, length, 0.6*length, c)
}
