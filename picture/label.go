package picture

import (
	"math"
	"sort"
	"strings"

	"toplit/drawing"
)

// label is words beside a drawing, with a thin line to what they name.
type label struct {
	name     string // what it is, in lesser type above the value; may be empty
	value    string
	assumed  bool
	changed  bool
	right    bool          // side of the drawing it stands on
	mirrored bool          // what it names is on both sides, so it may move to the right
	target   drawing.Point // where its line ends
	bar      bool          // its line ends on a dimension bar: no dot
	lo, hi   float64       // heights the line may leave a bar at

	lines []string        // wrapped
	head  int             // how many of the lines are the name
	y     float64         // middle of the block, once placed
	route []drawing.Point // of its line, once drawn
}

const leading = 1.28 // line to line, in sizes

// wrap breaks the label's words to a width.
func (l *label) wrap(size, width float64) {
	value := l.value
	if l.changed {
		value += " (changed)"
	}
	if l.assumed {
		width -= size * 1.15
	}
	l.lines, l.head = nil, 0
	if one := l.name + " " + value; l.name != "" && len(value) < 10 && drawing.TextWidth(one, size, l.changed) <= width {
		l.lines = []string{one}
		return
	}
	if l.name != "" {
		l.lines = even(l.name, size, l.changed, width)
	}
	l.head = len(l.lines)
	l.lines = append(l.lines, clauses(value, size, l.changed, width)...)
	for i, s := range l.lines {
		l.lines[i] = drawing.Shorten(s, size, l.changed, width)
	}
}

// even breaks words into as few lines as a width [mm] allows, none much
// longer than the others.
func even(s string, size float64, bold bool, width float64) []string {
	lines := drawing.Wrap(s, size, bold, width)
	if len(lines) < 2 {
		return lines
	}
	lo, hi := width/float64(len(lines)), width
	for hi-lo > 0.2 {
		mid := (lo + hi) / 2
		if try := drawing.Wrap(s, size, bold, mid); len(try) <= len(lines) && widest(try, size, bold) <= mid {
			hi = mid
		} else {
			lo = mid
		}
	}
	return drawing.Wrap(s, size, bold, hi)
}

// clauses breaks text at commas where it can, and between words where a
// clause is longer than a line.
func clauses(s string, size float64, bold bool, width float64) []string {
	if drawing.TextWidth(s, size, bold) <= width {
		return []string{s}
	}
	var lines []string
	line := ""
	for _, c := range strings.SplitAfter(s, ", ") {
		if drawing.TextWidth(strings.TrimRight(line+c, " "), size, bold) <= width {
			line += c
			continue
		}
		if line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
		}
		line = c
	}
	lines = append(lines, strings.TrimRight(line, " "))
	var out []string
	for _, l := range lines {
		out = append(out, even(l, size, bold, width)...)
	}
	return out
}

// widest is the width of the longest line [mm].
func widest(lines []string, size float64, bold bool) float64 {
	w := 0.0
	for _, l := range lines {
		w = math.Max(w, drawing.TextWidth(l, size, bold))
	}
	return w
}

// balance moves labels that may stand on either side to the right while the
// left column is the fuller one by more than such a label.
func balance(labels []*label, size float64) {
	need := func(right bool) float64 {
		var side []*label
		for _, l := range labels {
			if l.right == right {
				side = append(side, l)
			}
		}
		return needed(side, size)
	}
	for _, l := range labels {
		if l.mirrored && !l.right && need(false)-need(true) > 2*l.height(size) {
			l.right = true
		}
	}
}

// height is the room the label takes, with the air around it.
func (l *label) height(size float64) float64 {
	return (float64(len(l.lines))*leading + 0.45) * size
}

// needed is the room a column of labels takes.
func needed(labels []*label, size float64) float64 {
	sum := 0.0
	for _, l := range labels {
		sum += l.height(size)
	}
	return sum
}

// settle places blocks of given sizes in a row between 0 and room, in the
// given order, each middle as near to its wish as the others allow, none
// overlapping: the least squares of the moves, found by pooling blocks that
// push each other. It returns the middles. Blocks that need more than the
// room hang out at the far end; callers make the room.
func settle(wish, size []float64, room float64) []float64 {
	type block struct {
		first, n int
		sum      float64 // of each member's wished start less its offset in the block
		size     float64
	}
	start := func(b block) float64 {
		return math.Max(0, math.Min(b.sum/float64(b.n), room-b.size))
	}
	var blocks []block
	for i := range wish {
		blocks = append(blocks, block{i, 1, wish[i] - size[i]/2, size[i]})
		for k := len(blocks) - 1; k > 0; k-- {
			a, b := blocks[k-1], blocks[k]
			if start(a)+a.size <= start(b)+1e-9 {
				break
			}
			blocks[k-1] = block{a.first, a.n + b.n, a.sum + b.sum - float64(b.n)*a.size, a.size + b.size}
			blocks = blocks[:k]
		}
	}
	out := make([]float64, len(wish))
	for _, b := range blocks {
		at := start(b)
		for i := b.first; i < b.first+b.n; i++ {
			out[i] = at + size[i]/2
			at += size[i]
		}
	}
	return out
}

// spread places the labels of one column between two heights.
func spread(labels []*label, lo, hi, size float64) {
	sort.SliceStable(labels, func(i, j int) bool { return labels[i].target.Y > labels[j].target.Y })
	wish, need := make([]float64, len(labels)), make([]float64, len(labels))
	for i, l := range labels {
		wish[i], need[i] = hi-l.target.Y, l.height(size)
	}
	for i, at := range settle(wish, need, hi-lo) {
		labels[i].y = hi - at
	}
}

// draw puts the label's words at x (their inner edge) and its line over xBend,
// where it leaves the level, to the target.
func (l *label) draw(b *board, x, xBend, size float64) {
	anchor, dir := drawing.End, -1.0
	if l.right {
		anchor, dir = drawing.Start, 1
	}
	n := float64(len(l.lines))
	y := l.y + (n/2-0.5)*leading*size - 0.35*size
	words := x
	if l.assumed {
		s := 0.72 * size
		sx := x
		if !l.right {
			sx = x - s
		}
		b.swatch(sx, l.y-s/2, s)
		words = x + dir*1.15*size
	}
	for i, s := range l.lines {
		layer := onText
		switch {
		case l.changed:
			layer = onAccent
		case i < l.head:
			layer = onMuted
		}
		t := drawing.Text{At: drawing.Point{X: words, Y: y - float64(i)*leading*size}, Size: size, Anchor: anchor, Bold: l.changed, Content: s}
		b.put(layer, t)
	}
	from := drawing.Point{X: x - dir*0.8, Y: l.y}
	to := l.target
	if l.bar {
		to.Y = math.Max(l.lo, math.Min(l.hi, l.y))
	}
	l.route = []drawing.Point{from, to}
	if bend := (drawing.Point{X: xBend, Y: l.y}); math.Abs(bend.Y-to.Y) >= 0.3 && !(l.bar && l.lo <= l.y && l.y <= l.hi) {
		l.route = []drawing.Point{from, bend, to}
	}
	b.put(onLeader, drawing.Poly(l.route...))
	if !l.bar {
		b.put(onLeader, drawing.Circle{Center: to, Radius: 0.45, Fill: drawing.Solid(muted)})
	}
}

// runsThrough reports whether a straight line passes through a box.
func runsThrough(a, b drawing.Point, box drawing.Box) bool {
	lo, hi := 0.0, 1.0
	clip := func(from, d, least, most float64) {
		if d == 0 {
			if from <= least || from >= most {
				hi = -1
			}
			return
		}
		t1, t2 := (least-from)/d, (most-from)/d
		lo, hi = math.Max(lo, math.Min(t1, t2)), math.Min(hi, math.Max(t1, t2))
	}
	clip(a.X, b.X-a.X, box.Min.X, box.Max.X)
	clip(a.Y, b.Y-a.Y, box.Min.Y, box.Max.Y)
	return lo < hi-1e-9
}
