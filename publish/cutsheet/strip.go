package cutsheet

import (
	"fmt"
	"math"
	"strings"

	"toplit/drawing"
	"toplit/quantity"
	"toplit/stove"
)

const tabUnder = 12.0 // of paper that goes under the other end of a strip [mm]

// drawStrip draws the strip that goes round a wall. Its left edge is laid on
// the side seam, its upper side up; the right end goes under, and the left edge
// then lies on the closing line.
func (s *Set) drawStrip(b *board, p Part) {
	long, low, high := p.Around, p.From, p.To
	foot := low
	if p.Tabs > 0 {
		foot = -tabLong
	}
	under := math.Min(4, (high-low)/4)
	b.cut = append(b.cut, closed(b, 0, foot, 0, high, long, high, long+tabUnder, high-under, long+tabUnder, low+under, long, low, long, foot))
	if p.Tabs > 0 {
		s.drawTabs(b, p)
	}
	s.drawHoles(b, p)

	// Seam at the left edge, closing line at the right one. Words run along
	// them where no hole is.
	b.line(long, low, long, high)
	s.closing(b, p)
	inner := drawing.Box{Min: drawing.Point{X: 0.6, Y: low + 0.5}, Max: drawing.Point{X: long + tabUnder - 0.5, Y: high - 0.5}}
	s.rowWords(b, p, inner)
	s.up(b, p)
	s.along(b, p, 2.6, "seam: this edge on the side seam")
	s.along(b, p, long-1.0, "closing line: the other edge comes here")
	s.under(b, p, foot)
}

func closed(b *board, xy ...float64) drawing.Polyline {
	p := drawing.Polyline{Closed: true}
	for i := 0; i < len(xy); i += 2 {
		p.Vertices = append(p.Vertices, drawing.Vertex{Point: b.p(xy[i], xy[i+1])})
	}
	return p
}

// closing is a scale along the closing line: where the left edge comes to lie
// says how much the can differs from what the strip was drawn for.
func (s *Set) closing(b *board, p Part) {
	for k := -5; k <= 8; k++ {
		tick := 1.0
		if k%5 == 0 {
			tick = 2.0
		}
		x := p.Around + float64(k)
		for _, y := range []float64{p.From, p.To} {
			if k > 0 { // the paper's corners are cut away there
				in := math.Min(4, (p.To-p.From)/4) * float64(k) / tabUnder
				if y == p.From {
					y += in
				} else {
					y -= in
				}
			}
			end := y + tick
			if y > (p.From+p.To)/2 {
				end = y - tick
			}
			b.line(x, y, x, end)
		}
	}
}

// up draws the arrow that says which side is up, once on every page, where
// there is room.
func (s *Set) up(b *board, p Part) {
	for k := range len(p.joints) + 1 {
		from, to := p.piece(k)
		s.upBetween(b, p, from+5, to-9)
	}
}

func (s *Set) upBetween(b *board, p Part, from, to float64) {
	for _, tall := range []float64{12, 8, 5} {
		for y := p.From + 1; y+tall < p.To-1; y += 2 {
			for x := from; x < to; x += 3 {
				box := drawing.Box{Min: b.p(x, y), Max: b.p(x+8, y+tall)}
				if !b.free(box) {
					continue
				}
				b.arrow(x+2, y+0.5, x+2, y+tall-0.5)
				b.words(x+3.4, y+tall/2-1, wordSize, drawing.Start, true, "UP")
				b.taken = append(b.taken, box)
				return
			}
		}
	}
}

// along writes words up the strip beside a line, where no hole is in the way.
func (s *Set) along(b *board, p Part, x float64, words string) {
	const size = 1.9
	wide := drawing.TextWidth(words, size, false)
	for len(words) > 0 {
		for y := p.From + 1; y+wide < p.To-1; y += 1 {
			box := drawing.Box{Min: b.p(x-size, y), Max: b.p(x+0.5, y+wide)}
			if b.free(box) {
				b.note = append(b.note, drawing.Text{At: b.p(x, y), Size: size, Turn: math.Pi / 2, Content: words})
				b.taken = append(b.taken, box)
				return
			}
		}
		// Shorter words for a low strip.
		short, _, cut := strings.Cut(words, ":")
		if !cut {
			return
		}
		words = short
		wide = drawing.TextWidth(words, size, false)
	}
}

// rowWords writes, beside every row, which holes it is, with which drill and
// how high: above the base and below the rim. On a long strip once for every
// page.
func (s *Set) rowWords(b *board, p Part, in drawing.Box) {
	for _, i := range rowsOf(p) {
		h := first(p, i)
		b.line(0, h.Y, p.Around, h.Y)
		b.keep(0, h.Y-0.1, p.Around, h.Y+0.1)
		text := s.rowText(p, i)
		_, _, d, u := h.extent()
		placed := 0
		for k := range len(p.joints) + 1 {
			from, to := p.piece(k)
			in.Min.X, in.Max.X = from+0.6, to
			for _, size := range []float64{2.6, smallSize, 1.8} {
				done := false
				for _, off := range []float64{3.4, 5.4, 7.4, 9.4, 12, 15} {
					for x := from + 6; x < to-30 && !done; x += 5 {
						above, below := h.Y+u+off, h.Y-d-off-size
						done = above+size < p.nextRow(i, 1) && b.tryWords(in, x, above, size, drawing.Start, false, text) ||
							below > p.nextRow(i, -1) && b.tryWords(in, x, below, size, drawing.Start, false, text)
					}
				}
				if done {
					placed++
					break
				}
			}
		}
		if placed == 0 {
			b.left = append(b.left, upperFirst(text)+".")
		}
	}
}

// nextRow is how far the words of a row may reach up (way 1) or down (way −1):
// not as near to another row as to their own.
func (p Part) nextRow(i int, way float64) float64 {
	own := first(p, i).Y
	limit := own + way*1e9
	for _, h := range p.Holes {
		if far := (h.Y - own) * way; h.Row != i && far > 0.1 {
			limit = own + way*math.Min(far/2, math.Abs(limit-own))
		}
	}
	return limit
}

// piece is the stretch of a strip that one page shows.
func (p Part) piece(k int) (from, to float64) {
	to = p.Around
	if k > 0 {
		from = p.joints[k-1]
	}
	if k < len(p.joints) {
		to = p.joints[k]
	}
	return from, to
}

// rowText is the words of a row on its strip.
func (s *Set) rowText(p Part, i int) string {
	sys := s.options.Units
	h := first(p, i)
	return fmt.Sprintf("%s: %s, %s above the base, %s below the rim", s.Rows[i].Label, s.what(p, i), place(h.Y, sys), place(p.Tall-h.Y, sys))
}

// what is which holes of a row are made, with what.
func (s *Set) what(p Part, i int) string {
	row := s.Rows[i]
	var make, there, low, high int
	for _, h := range p.Holes {
		if h.Row != i {
			continue
		}
		if h.State == There {
			there++
			continue
		}
		make++
		if low == 0 {
			low = h.Number
		}
		high = h.Number
	}
	if make == 0 {
		return fmt.Sprintf("%d holes are there", there)
	}
	which := fmt.Sprintf("%d–%d", low, high)
	if low == high {
		which = fmt.Sprint(low)
	}
	tool := "drill " + row.Drill
	switch edge := s.Design.Rows[i].Edge; {
	case edge == stove.PunchedIn || edge == stove.PunchedOut:
		tool = "punch to " + row.Cut.text(s.options.Units)
	case !row.Cut.round():
		tool = row.Cut.text(s.options.Units)
	case row.Drill == "":
		tool = "to the line, " + row.Cut.text(s.options.Units)
	}
	return which + ", " + tool
}

// how is what a hole needs besides its size: which side it is punched from,
// which way it slants.
func (s *Set) how(i int) string {
	r := s.Design.Rows[i]
	var words []string
	inward := r.On == stove.FuelBody || r.On == stove.FuelBase
	switch r.Edge {
	case stove.PunchedIn:
		if inward {
			words = append(words, "punch from outside")
		} else {
			words = append(words, "punch so that the burr points to the fire")
		}
	case stove.PunchedOut:
		if inward {
			words = append(words, "punch from inside")
		} else {
			words = append(words, "punch so that the burr points away from the fire")
		}
	}
	if a := r.Slant * 180 / math.Pi; math.Abs(a) >= 0.5 {
		way := "right"
		if a < 0 {
			way = "left"
		}
		words = append(words, fmt.Sprintf("drill %s° off radial, aiming %s of the middle as seen from outside", trim(math.Abs(a), 0), way))
	}
	return strings.Join(words, ", ")
}

// rowsOf is the rows with holes on a part, in order.
func rowsOf(p Part) []int {
	var rows []int
	for _, h := range p.Holes {
		if len(rows) == 0 || rows[len(rows)-1] != h.Row {
			found := false
			for _, i := range rows {
				found = found || i == h.Row
			}
			if !found {
				rows = append(rows, h.Row)
			}
		}
	}
	return rows
}

// first is the first hole of a row on a part.
func first(p Part, i int) Hole {
	for _, h := range p.Holes {
		if h.Row == i {
			return h
		}
	}
	return Hole{}
}

// drawTabs draws the tabs at the foot of a tube: the sheet below the fold line
// is cut away between them, and they are bent out.
func (s *Set) drawTabs(b *board, p Part) {
	step := p.Around / float64(p.Tabs)
	for k := range p.Tabs {
		x := (float64(k) + 0.5) * step
		b.fold = append(b.fold, drawing.Line{From: b.p(x-tabWide/2, 0), To: b.p(x+tabWide/2, 0)})
		b.cut = append(b.cut, drawing.Poly(b.p(x-tabWide/2, 0), b.p(x-tabWide/2, -tabLong)), drawing.Poly(b.p(x+tabWide/2, 0), b.p(x+tabWide/2, -tabLong)))
		from := 0.0
		if k > 0 {
			from = x - step + tabWide/2
		}
		b.cut = append(b.cut, drawing.Poly(b.p(from, 0), b.p(x-tabWide/2, 0)))
		b.words(x, -tabLong/2-0.8, 1.9, drawing.Middle, false, "bend out")
	}
	b.cut = append(b.cut, drawing.Poly(b.p(p.Around-step/2+tabWide/2, 0), b.p(p.Around, 0)))
	for k := range p.Tabs {
		if x := (float64(k) + 1) * step; k+1 < p.Tabs {
			b.words(x, -tabLong/2-0.8, 1.9, drawing.Middle, false, "cut away")
		}
	}
}

// under is the lines of words that say how a strip is laid: on the strip
// between its rows where there is room, else below it.
func (s *Set) under(b *board, p Part, foot float64) {
	var lines []string
	for _, line := range append(s.stripWords(p), b.left...) {
		lines = append(lines, drawing.Wrap(line, wordSize, false, p.wordsWide())...)
	}
	x, y := 0.0, foot-5
	if p.inside {
		x = 16
		const step = wordSize * 1.35
		tall := step * float64(len(lines))
		from, to := p.blank()
		y = (from+to)/2 + tall/2 - wordSize
		for try := y; try-tall > from; try -= 1 { // lower where a row's own words are in the way
			if b.free(drawing.Box{Min: b.p(x, try-tall+step-1), Max: b.p(x+p.wordsWide(), try+wordSize)}) {
				y = try
				break
			}
		}
	}
	for _, l := range lines {
		b.words(x, y, wordSize, drawing.Start, false, l)
		y -= wordSize * 1.35
	}
}

// blank is the tallest stretch of a strip that no row reaches into.
func (p Part) blank() (from, to float64) {
	at := p.From
	for {
		next, end := p.To, p.To
		for _, h := range p.Holes {
			if _, _, d, u := h.extent(); h.Y-d >= at && h.Y-d < next {
				next, end = h.Y-d, h.Y+u
			}
		}
		if next-at > to-from {
			from, to = at, next
		}
		if next == p.To {
			return from, to
		}
		// Rows that overlap are one.
		for again := true; again; {
			again = false
			for _, h := range p.Holes {
				if _, _, d, u := h.extent(); h.Y-d <= end && h.Y+u > end {
					end, again = h.Y+u, true
				}
			}
		}
		at = end
	}
}

// stripWords says how a strip is laid.
func (s *Set) stripWords(p Part) []string {
	sys := s.options.Units
	strip := fmt.Sprintf("Seam to closing line %s, for a body of %s outside and paper of %s.", length(p.Around, sys), length(p.Across, sys), length(s.options.Thickness*1e3, sys))
	if p.code != "" {
		strip += fmt.Sprintf(" The diameter is from the code %s: trust the closing scale.", p.code)
	}
	lay := "Lower edge flush with the foot of the wall."
	switch {
	case p.Tabs > 0:
		lay = fmt.Sprintf("Zero is the fold line; the tabs below it take %s of a taller tube. Without tabs, cut the paper there.", length(tabLong, sys))
	case p.fromRim && p.To < p.Tall:
		lay = fmt.Sprintf("Upper edge %s below the top of the wall, all round: it clears the rim.", length(p.Tall-p.To, sys))
	case p.fromRim:
		lay = "Upper edge flush with the top of the wall."
	case p.From > 0:
		lay = fmt.Sprintf("Lower edge %s above the table the can stands on, all round: it clears the double seam.", length(p.From, sys))
	}
	words := []string{strip, lay, closingWords(sys)}
	for _, i := range rowsOf(p) {
		if how := s.how(i); how != "" {
			words = append(words, fmt.Sprintf("%s: %s.", upperFirst(s.Rows[i].Label), how))
		}
	}
	return words
}

func closingWords(sys quantity.System) string {
	return "Left edge past the closing line by n mm: the can is n mm more round; short of it: n mm less. Over 2 mm: measure and print anew."
}
