package drawing

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Document is a set of pages to print at 100 %.
type Document struct {
	Title string
	Note  string // what it is in a sentence, may be empty
	Pages []Page

	// Stretch corrects a printer: widths and heights on every page are
	// multiplied by it about the middle of the page; 0 counts as 1.
	Stretch Point
}

// Page is one page of paper with what is shown on it.
type Page struct {
	Width, Height float64 // of the paper [mm]
	Views         []View
}

// View shows a window of a sheet at true size. What lies outside the window
// is cut off, so that one sheet can run over several pages (see Tiles).
type View struct {
	Sheet  *Sheet
	Window Box   // of the sheet; the zero Box is the whole sheet
	At     Point // where the window's lower left corner lies on the page, from its lower left corner [mm]
}

// WritePDF writes the pages as PDF, with true millimetres, the fonts embedded
// (Go Regular and Go Bold, of which only the letters used go in) and a request
// to the reader not to scale when printing. The same document gives the same
// bytes: there is no date in it but a fixed one.
//
// Coordinates are rounded to 0.002 mm, arcs are drawn as cubic curves that
// stray from the circle by less than five millionths of its radius.
// Characters the fonts lack become "?".
func WritePDF(w io.Writer, d Document) error {
	stretch := d.Stretch
	if stretch.X == 0 {
		stretch.X = 1
	}
	if stretch.Y == 0 {
		stretch.Y = 1
	}
	if !finite(stretch.X, stretch.Y) || stretch.X < 0.5 || stretch.X > 2 || stretch.Y < 0.5 || stretch.Y > 2 {
		return fmt.Errorf("document %q: stretch %g × %g; need 0.5 to 2", d.Title, d.Stretch.X, d.Stretch.Y)
	}
	if len(d.Pages) == 0 {
		return fmt.Errorf("document %q has no pages", d.Title)
	}
	for i, p := range d.Pages {
		if err := p.check(); err != nil {
			return fmt.Errorf("document %q: page %d: %w", d.Title, i+1, err)
		}
	}
	f := fpdf.New("P", "mm", "A4", "")
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	fixed := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	f.SetCreationDate(fixed)
	f.SetModificationDate(fixed)
	f.SetProducer("toplit", true)
	f.SetTitle(d.Title, true)
	f.SetSubject(d.Note, true)
	// The library keeps the bytes it is given.
	f.AddUTF8FontFromBytes(pdfFamily, "", bytes.Clone(goregular.TTF))
	f.AddUTF8FontFromBytes(pdfFamily, "B", bytes.Clone(gobold.TTF))
	for _, page := range d.Pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: page.Width, Ht: page.Height})
		p := pdf{Fpdf: f, height: page.Height}
		// Not the library's own scaling: that rounds the shift.
		f.TransformBegin()
		const k = 72 / 25.4
		f.Transform(fpdf.TransformMatrix{A: stretch.X, D: stretch.Y,
			E: (1 - stretch.X) * page.Width / 2 * k, F: (1 - stretch.Y) * page.Height / 2 * k})
		for _, v := range page.Views {
			p.view(v)
		}
		f.TransformEnd()
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("document %q: %w", d.Title, err)
	}
	out, err := unscaled(b.Bytes())
	if err != nil {
		return fmt.Errorf("document %q: %w", d.Title, err)
	}
	_, err = w.Write(out)
	return err
}

const pdfFamily = "go"

// unscaled asks the reader not to fit pages to the paper when printing
// (PrintScaling, PDF 1.6), which the library has no call for. The catalogue is
// the last object before the table of objects, so that only the table's own
// place moves.
func unscaled(b []byte) ([]byte, error) {
	const (
		catalog = "/Type /Catalog\n"
		prefs   = "/ViewerPreferences << /PrintScaling /None >>\n"
		start   = "startxref\n"
	)
	at, end := bytes.LastIndex(b, []byte(catalog)), bytes.LastIndex(b, []byte(start))
	if at < 0 || end < at || !bytes.HasPrefix(b, []byte("%PDF-1.")) {
		return nil, fmt.Errorf("the catalogue of the PDF was not found")
	}
	rest := b[end+len(start):]
	digits := bytes.IndexByte(rest, '\n')
	table, err := strconv.Atoi(string(rest[:max(digits, 0)]))
	if err != nil {
		return nil, fmt.Errorf("the PDF's table of objects was not found")
	}
	at += len(catalog)
	out := make([]byte, 0, len(b)+len(prefs)+8)
	out = append(append(append(out, b[:at]...), prefs...), b[at:end+len(start)]...)
	out = append(strconv.AppendInt(out, int64(table+len(prefs)), 10), rest[digits:]...)
	copy(out, "%PDF-1.6")
	return out, nil
}

func (p Page) check() error {
	if !(p.Width > 0 && p.Height > 0) || !finite(p.Width, p.Height) {
		return fmt.Errorf("size %g × %g mm; both must be above 0", p.Width, p.Height)
	}
	for _, v := range p.Views {
		if v.Sheet == nil {
			return fmt.Errorf("a view without a sheet")
		}
		if err := v.Sheet.Check(); err != nil {
			return err
		}
		b := v.window()
		if !finite(v.At.X, v.At.Y, b.Min.X, b.Min.Y, b.Max.X, b.Max.Y) || b.Empty() {
			return fmt.Errorf("sheet %q: window %v at %v; need a box with finite corners", v.Sheet.Title, b, v.At)
		}
	}
	return nil
}

func (v View) window() Box {
	if v.Window == (Box{}) {
		return Box{Max: Point{v.Sheet.Width, v.Sheet.Height}}
	}
	return v.Window
}

// pdf is the page being written. The library's y axis points down.
type pdf struct {
	*fpdf.Fpdf
	height float64
	shift  Point
}

func (p *pdf) at(q Point) (x, y float64) {
	return q.X + p.shift.X, p.height - (q.Y + p.shift.Y)
}

func (p *pdf) view(v View) {
	b := v.window()
	p.shift = Point{v.At.X - b.Min.X, v.At.Y - b.Min.Y}
	x, y := p.at(Point{b.Min.X, b.Max.Y})
	p.ClipRect(x, y, b.Max.X-b.Min.X, b.Max.Y-b.Min.Y, false)
	if v.Sheet.Ground.Opacity > 0 {
		p.polyline(Rect(b.Min, b.Max).Filled(v.Sheet.Ground), Pen{})
	}
	for _, l := range v.Sheet.Layers {
		p.pen(l.Pen)
		for _, s := range l.Shapes {
			// Shapes wholly outside would only make the file longer. Letters
			// may be wider than estimated.
			if s.Bounds().Grow(l.Pen.Width+5).Overlaps(b) || s.Bounds().Empty() {
				p.shape(s, l.Pen)
			}
		}
	}
	p.ClipEnd()
}

func (p *pdf) pen(pen Pen) {
	p.SetDrawColor(rgb(pen.Color))
	p.SetTextColor(rgb(pen.Color))
	p.SetLineWidth(pen.Width)
	p.SetLineJoinStyle("round")
	p.SetDashPattern(pen.Dash, 0)
}

func rgb(c Color) (r, g, b int) { return int(c >> 16 & 255), int(c >> 8 & 255), int(c & 255) }

func (p *pdf) shape(sh Shape, pen Pen) {
	switch s := sh.(type) {
	case Line:
		p.polyline(Poly(s.From, s.To), pen)
	case Circle:
		a := Arc{Center: s.Center, Radius: s.Radius, End: 2 * math.Pi}
		c := a.polyline()
		c.Vertices = c.Vertices[:len(c.Vertices)-1]
		p.polyline(Polyline{Vertices: c.Vertices, Closed: true, Fill: s.Fill}, pen)
	case Arc:
		p.polyline(s.polyline(), pen)
	case Polyline:
		p.polyline(s, pen)
	case Hatch:
		for _, l := range s.Lines() {
			p.polyline(Poly(l.From, l.To), pen)
		}
	case Text:
		p.text(s, pen)
	case Part:
		for _, c := range s.Shapes {
			p.shape(c, pen)
		}
	}
}

func (p *pdf) polyline(s Polyline, pen Pen) {
	style := ""
	if pen.Width > 0 {
		style = "D"
	}
	if s.Closed && s.Fill.Opacity > 0 {
		style = "F" + style
		p.SetFillColor(rgb(s.Fill.Color))
	}
	if style == "" {
		return
	}
	if see := s.Fill.Opacity; style[0] == 'F' && see < 1 {
		p.SetAlpha(see, "Normal")
		defer p.SetAlpha(1, "Normal")
	}
	p.MoveTo(p.at(s.Vertices[0].Point))
	for i := range s.segments() {
		from, to, bulge := s.segment(i)
		if bulge == 0 || from == to {
			p.LineTo(p.at(to))
			continue
		}
		p.arc(bulgeArc(from, to, bulge))
	}
	if s.Closed {
		p.ClosePath()
	}
	p.DrawPath(style)
}

// arc continues the path along a circle in pieces of at most an eighth of a
// turn, each a cubic with its handles at 4/3·tan(piece/4) of the radius.
func (p *pdf) arc(c Point, r, start, sweep float64) {
	n := math.Ceil(math.Abs(sweep) / (math.Pi/4 + 1e-9))
	step := sweep / n
	h := 4.0 / 3 * math.Tan(step/4) * r
	for k := range int(n) {
		s0, c0 := math.Sincos(start + float64(k)*step)
		s1, c1 := math.Sincos(start + float64(k+1)*step)
		x0, y0 := p.at(Point{c.X + r*c0 - h*s0, c.Y + r*s0 + h*c0})
		x1, y1 := p.at(Point{c.X + r*c1 + h*s1, c.Y + r*s1 - h*c1})
		x, y := p.at(Point{c.X + r*c1, c.Y + r*s1})
		p.CurveBezierCubicTo(x0, y0, x1, y1, x, y)
	}
}

func (p *pdf) text(t Text, pen Pen) {
	words := pdfText(t.Content)
	if words == "" {
		return
	}
	style := ""
	if t.Bold {
		style = "B"
	}
	p.SetFont(pdfFamily, style, t.Size*72/25.4)
	x, y := p.at(t.At)
	if t.Turn != 0 {
		p.TransformBegin()
		p.TransformRotate(t.Turn*180/math.Pi, x, y)
		defer p.TransformEnd()
	}
	switch wide := p.GetStringWidth(words); t.Anchor {
	case Middle:
		x -= wide / 2
	case End:
		x -= wide
	}
	if t.Halo > 0 {
		p.SetDrawColor(255, 255, 255)
		p.SetLineWidth(2 * t.Halo)
		p.SetDashPattern(nil, 0)
		p.SetTextRenderingMode(1)
		p.Text(x, y, words)
		p.SetTextRenderingMode(0)
		p.pen(pen)
	}
	p.Text(x, y, words)
}
