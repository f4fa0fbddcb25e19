package cutsheet

import (
	"fmt"
	"math"

	"toplit/drawing"
)

const (
	barRoom = 10.0 // kept free for the bars, left and below [mm]
	share   = 12.0 // of neighbouring pages of one part, more where holes are wider [mm]
)

// PrintPage is one page to print. A page of words shows no part.
type PrintPage struct {
	drawing.Page
	Shown []Shown
}

// Shown is a part, or a piece of one, on a page.
type Shown struct {
	Part   string        // its letter
	Origin drawing.Point // where the part's origin lies on the page, before a printer is corrected [mm]
	Window drawing.Box   // of the page that shows it [mm]
}

// Pages lays the set out on paper.
func (s *Set) Pages() []PrintPage {
	parts := s.partPages()
	// The words name the pages of the parts, which come after them.
	var words []PrintPage
	for n := 1; n == 1 || len(words) >= n; n++ {
		// A page more can make the numbers longer and so the words, never the
		// other way round by a whole page.
		words = s.wordPages(where(parts, n))
	}
	all := append(words, parts...)
	for i := range all {
		s.frame(&all[i], i+1, len(all))
	}
	return all
}

// where is the pages every part is on when so many pages come before.
func where(parts []PrintPage, before int) map[string]string {
	first, last := map[string]int{}, map[string]int{}
	for i, p := range parts {
		for _, shown := range p.Shown {
			if first[shown.Part] == 0 {
				first[shown.Part] = before + i + 1
			}
			last[shown.Part] = before + i + 1
		}
	}
	names := map[string]string{}
	for k := range first {
		names[k] = fmt.Sprint(first[k])
		if last[k] > first[k] {
			names[k] += fmt.Sprintf("–%d", last[k])
		}
	}
	return names
}

// partPages puts the parts on pages, one below the other while there is room,
// each spread over as few pieces as it takes.
func (s *Set) partPages() []PrintPage {
	var pages []PrintPage
	var free float64 // height left on the last page
	lay := false     // how the last page lies
	const apart = 5.0
	for _, p := range s.Parts {
		sheet, origin := s.sheetOf(p)
		t, lying := s.tiling(p, drawing.Box{Max: drawing.Point{X: sheet.Width, Y: sheet.Height}}, origin)
		page, box := s.options.Paper.content(lying)
		room := drawing.Box{Min: drawing.Point{X: box.Min.X + barRoom, Y: box.Min.Y + barRoom}, Max: box.Max}
		for i, w := range t.Windows {
			wide, tall := w.Max.X-w.Min.X, w.Max.Y-w.Min.Y
			need := tall + titleRoom
			if len(pages) == 0 || lay != lying || need > free {
				pages = append(pages, PrintPage{Page: drawing.Page{Width: page.X, Height: page.Y}})
				free, lay = room.Max.Y-room.Min.Y, lying
			}
			last := &pages[len(pages)-1]
			top := room.Min.Y + free
			at := drawing.Point{X: room.Min.X + (room.Max.X-room.Min.X-wide)/2, Y: top - titleRoom - tall}
			free -= need + apart
			last.Shown = append(last.Shown, Shown{
				Part:   p.Letter,
				Origin: drawing.Point{X: at.X + origin.X - w.Min.X, Y: at.Y + origin.Y - w.Min.Y},
				Window: drawing.Box{Min: at, Max: drawing.Point{X: at.X + wide, Y: at.Y + tall}},
			})
			last.Views = append(last.Views, drawing.View{Sheet: sheet, Window: w, At: at}, drawing.View{Sheet: s.joints(p, origin, t, i, at, page)})
		}
	}
	return pages
}

// tiling cuts a part into pages: a strip at the joints chosen for it, others
// upright or lying, whichever takes fewer.
func (s *Set) tiling(p Part, whole drawing.Box, origin drawing.Point) (best drawing.Tiling, lying bool) {
	room := func(lying bool) (w, h float64) {
		_, box := s.options.Paper.content(lying)
		return box.Max.X - box.Min.X - barRoom, box.Max.Y - box.Min.Y - barRoom - titleRoom
	}
	if p.Kind == Wrap || p.Kind == Blank {
		_, tall := room(p.lying)
		rows, err := drawing.Tiles(whole, whole.Max.X-whole.Min.X, tall, p.share())
		if err == nil {
			t := drawing.Tiling{Columns: len(p.joints) + 1, Rows: rows.Rows}
			for _, r := range rows.Windows {
				for k := range t.Columns {
					w := r
					if k > 0 {
						w.Min.X = origin.X + p.joints[k-1] - p.share()/2
					}
					if k < len(p.joints) {
						w.Max.X = origin.X + p.joints[k] + p.share()/2
					}
					t.Windows = append(t.Windows, w)
				}
			}
			return t, p.lying
		}
	}
	for _, turn := range []bool{false, true} {
		w, h := room(turn)
		t, err := drawing.Tiles(whole, w, h, p.share())
		if err == nil && (best.Windows == nil || len(t.Windows) < len(best.Windows)) {
			best, lying = t, turn
		}
	}
	return best, lying
}

// joints marks where a piece of a part meets its neighbours: a line through
// the middle of what both pages show, with crosses on it that come to lie on
// each other.
func (s *Set) joints(p Part, origin drawing.Point, t drawing.Tiling, i int, at, page drawing.Point) *drawing.Sheet {
	b := &board{}
	w := t.Windows[i]
	b.at = drawing.Point{X: at.X - w.Min.X, Y: at.Y - w.Min.Y}
	col, row := i%t.Columns, i/t.Columns
	mark := func(x, y float64) {
		b.cross(x, y, 3)
		b.note = append(b.note, b.circle(x, y, 1.5))
	}
	// Marks keep off holes: both pages find the same places, since they show the
	// same stretch of the joint.
	clear := func(at func(f float64) (x, y float64), f float64) (x, y float64) {
		best := math.Inf(-1)
		for k := range 12 {
			g := f + 0.025*float64((k+1)/2)*float64(1-2*(k%2))
			if g < 0.04 || g > 0.96 {
				continue
			}
			u, v := at(g)
			free := 4.0
			for _, h := range p.Holes {
				free = math.Min(free, math.Hypot(h.X-u, h.Y-v)-h.reach()-3)
			}
			if free > best {
				best, x, y = free, u, v
			}
		}
		return x, y
	}
	local := func(x, y float64) (float64, float64) { return x - origin.X, y - origin.Y }
	joint := func(at func(f float64) (x, y float64)) {
		x0, y0 := at(0)
		x1, y1 := at(1)
		x0, y0 = local(x0, y0)
		x1, y1 = local(x1, y1)
		for _, l := range clearOf(x0, y0, x1, y1, 0.8, p.Holes) {
			b.fold = append(b.fold, drawing.Line{From: b.p(l[0]+origin.X, l[1]+origin.Y), To: b.p(l[2]+origin.X, l[3]+origin.Y)})
		}
		for _, f := range []float64{0.06, 0.5, 0.94} {
			x, y := clear(func(f float64) (float64, float64) { return local(at(f)) }, f)
			mark(x+origin.X, y+origin.Y)
		}
	}
	upright := func(x float64) {
		joint(func(f float64) (float64, float64) { return x, w.Min.Y + f*(w.Max.Y-w.Min.Y) })
	}
	level := func(y float64) {
		joint(func(f float64) (float64, float64) { return w.Min.X + f*(w.Max.X-w.Min.X), y })
	}
	if col > 0 {
		upright((t.Windows[i-1].Max.X + w.Min.X) / 2)
	}
	if col < t.Columns-1 {
		upright((t.Windows[i+1].Min.X + w.Max.X) / 2)
	}
	if row > 0 {
		level((t.Windows[i-t.Columns].Min.Y + w.Max.Y) / 2)
	}
	if row < t.Rows-1 {
		level((t.Windows[i+t.Columns].Max.Y + w.Min.Y) / 2)
	}
	b.at = drawing.Point{}
	title, x, y := p.title(), at.X, at.Y+w.Max.Y-w.Min.Y+2
	b.words(x, y, titleSize, drawing.Start, true, title)
	if n := len(t.Windows); n > 1 {
		where := fmt.Sprintf("piece %d of %d", i+1, n)
		if t.Rows > 1 && t.Columns > 1 {
			where += fmt.Sprintf(": row %d, column %d", row+1, col+1)
		}
		where += "; crosses on the dashed lines lie on each other"
		b.words(x+drawing.TextWidth(title, titleSize, true)+4, y, smallSize, drawing.Start, false, where)
	}
	return b.sheet("joints", "", page.X, page.Y)
}

// frame puts title, page number, bars and the line below on a page.
func (s *Set) frame(p *PrintPage, n, of int) {
	lying := p.Width > p.Height
	_, box := s.options.Paper.content(lying)
	b := &board{}
	if len(p.Shown) > 0 {
		bars(b, box.Min)
	}
	b.at = drawing.Point{}
	title := "Cut sheets: " + s.Title
	number := fmt.Sprintf("page %d of %d", n, of)
	room := box.Max.X - box.Min.X - drawing.TextWidth(number, smallSize, false) - 6
	b.words(box.Min.X, box.Max.Y+2.4, titleSize, drawing.Start, true, drawing.Shorten(title, titleSize, true, room))
	b.words(box.Max.X, box.Max.Y+2.4, smallSize, drawing.End, false, number)
	foot := "Print at 100 %: both bars must measure 100 mm. Burn outdoors only: carbon monoxide has no smell."
	if len(p.Shown) == 0 {
		foot = "Burn outdoors only: carbon monoxide has no smell. Local fire rules come first."
	}
	b.words(box.Min.X, box.Min.Y-3.4, smallSize, drawing.Start, false, foot)
	p.Views = append(p.Views, drawing.View{Sheet: b.sheet("frame", "", p.Width, p.Height)})
}

// wordPages sets the words in pages.
func (s *Set) wordPages(where map[string]string) []PrintPage {
	page, box := s.options.Paper.content(false)
	f := &flow{page: page, box: box}
	f.begin()
	steps := 0
	for _, w := range s.words(where) {
		switch w.kind {
		case heading:
			steps = 0
			f.need(26) // and the first lines of what it heads
			f.gap(2.4)
			f.lines(w.text, 3.8, true, 0, "")
			f.gap(0.6)
		case para:
			f.lines(w.text, bodySize, false, 0, "")
			f.gap(1)
		case item:
			f.lines(w.text, bodySize, false, 4, "–")
		case caution:
			f.lines(w.text, bodySize, true, 4, "!")
		case step:
			steps++
			f.lines(w.text, bodySize, false, 6, fmt.Sprintf("%d.", steps))
		case table:
			f.table(w)
		}
	}
	return f.done()
}

const (
	bodySize = 3.0  // [mm]
	leading  = 1.34 // of a line, in sizes
	narrow   = 1.08 // widths of text are those of the widest of some faces; the one in a PDF is narrower by this and more
)

// flow sets lines from the top of a page down, and begins another when one is
// full.
type flow struct {
	page  drawing.Point
	box   drawing.Box
	y     float64
	b     *board
	pages []PrintPage
}

func (f *flow) begin() {
	f.b = &board{}
	f.y = f.box.Max.Y - 2
}

func (f *flow) end() {
	f.pages = append(f.pages, PrintPage{Page: drawing.Page{Width: f.page.X, Height: f.page.Y,
		Views: []drawing.View{{Sheet: f.b.sheet("words", "", f.page.X, f.page.Y)}}}})
}

func (f *flow) done() []PrintPage {
	f.end()
	return f.pages
}

func (f *flow) gap(h float64) { f.y -= h }

// need begins another page unless there is so much room.
func (f *flow) need(h float64) {
	if f.y-h < f.box.Min.Y {
		f.end()
		f.begin()
	}
}

// lines sets text with an indent, and a mark before its first line.
func (f *flow) lines(text string, size float64, bold bool, indent float64, mark string) {
	for i, l := range drawing.Wrap(text, size, bold, (f.box.Max.X-f.box.Min.X-indent)*narrow) {
		f.need(size * leading)
		f.y -= size * leading
		if i == 0 && mark != "" {
			f.b.words(f.box.Min.X, f.y, size, drawing.Start, bold, mark)
		}
		f.b.words(f.box.Min.X+indent, f.y, size, drawing.Start, bold, l)
	}
}

// table sets columns as wide as what stands in them; where they do not fit
// side by side the widest is broken into lines.
func (f *flow) table(t block) {
	const size, between = 2.8, 4.0
	room := f.box.Max.X - f.box.Min.X
	wide := make([]float64, len(t.head))
	sum := 0.0
	for c := range t.head {
		wide[c] = drawing.TextWidth(t.head[c], size, true)
		for _, r := range t.rows {
			wide[c] = math.Max(wide[c], drawing.TextWidth(r[c], size, false))
		}
		sum += wide[c] + between
	}
	sum -= between
	for sum > room+1e-6 {
		most, second := 0, 0.0
		for c := range wide {
			if wide[c] > wide[most] {
				most = c
			}
		}
		for c := range wide {
			if c != most {
				second = math.Max(second, wide[c])
			}
		}
		cut := math.Min(sum-room, math.Max(wide[most]-second, 2))
		wide[most] -= cut
		sum -= cut
	}
	line := func(cells []string, bold bool) {
		var split [][]string
		rows := 1
		for c, text := range cells {
			split = append(split, drawing.Wrap(text, size, bold, wide[c]+1e-6))
			rows = max(rows, len(split[c]))
		}
		f.need(float64(rows) * size * leading)
		for k := range rows {
			f.y -= size * leading
			x := f.box.Min.X
			for c := range cells {
				if k < len(split[c]) {
					f.b.words(x, f.y, size, drawing.Start, bold, split[c][k])
				}
				x += wide[c] + between
			}
		}
	}
	line(t.head, true)
	f.b.line(f.box.Min.X, f.y-0.9, f.box.Min.X+math.Min(room, sum), f.y-0.9)
	f.y -= 1
	for _, r := range t.rows {
		line(r, false)
	}
	f.gap(1.4)
}
