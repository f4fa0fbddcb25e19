package cutsheet

import (
	"fmt"
	"io"
	"math"

	"toplit/drawing"
)

// draw puts a part on a board, its origin at a place.
func (s *Set) draw(p Part, at drawing.Point) *board {
	b := &board{at: at}
	switch p.Kind {
	case Wrap:
		s.drawStrip(b, p)
	case Disc:
		s.drawDisc(b, p)
	case Round:
		s.drawRound(b, p)
	case Blank:
		s.drawBlank(b, p)
	case Legs:
		s.drawLegs(b, p)
	case Gauge:
		s.drawGauge(b)
	}
	return b
}

// title is what a part is called on paper.
func (p Part) title() string {
	if p.Kind == Gauge {
		return p.Letter + "  " + p.Name
	}
	return p.Letter + "  " + p.Name + ", " + string(p.Kind)
}

// sheetOf draws one part on a sheet of its own. origin is where the part's
// origin lies on it.
func (s *Set) sheetOf(p Part) (sheet *drawing.Sheet, origin drawing.Point) {
	// Where the words go does not depend on where the part lies, so that two
	// drawings differ by the shift alone.
	box := s.draw(p, drawing.Point{}).bounds()
	origin = drawing.Point{X: -box.Min.X, Y: -box.Min.Y}
	b := s.draw(p, origin)
	return b.sheet(s.Title+": "+p.title(), "", box.Max.X-box.Min.X, box.Max.Y-box.Min.Y), origin
}

// Places is where the parts' origins lie on the drawing of all parts, by
// letter, so that what is drawn can be measured against what was meant.
type Places map[string]drawing.Point

const (
	between2 = 14.0 // parts on the drawing of all parts [mm]
	border   = 10.0
)

// Drawing is all parts on one sheet at true size, one below the other, on the
// layers CUT, DRILL, FOLD and NOTE, with a bar of 100 mm in both directions.
func (s *Set) Drawing() (*drawing.Sheet, Places) {
	type placed struct {
		p   Part
		box drawing.Box
	}
	var all []placed
	wide, tall := 140.0, 125.0+border
	for _, p := range s.Parts {
		box := s.draw(p, drawing.Point{}).bounds()
		all = append(all, placed{p, box})
		wide = max(wide, box.Max.X-box.Min.X)
		tall += box.Max.Y - box.Min.Y + between2
	}
	places := Places{}
	note := "Cut sheets at true size, in millimetres. Cut: thick lines. Drill: thin circles."
	sheet := (&board{}).sheet("Cut sheets: "+s.Title, note, wide+2*border, tall+2*border)
	top := tall + border
	for _, a := range all {
		at := drawing.Point{X: border - a.box.Min.X, Y: top - titleSize - 2 - a.box.Max.Y}
		places[a.p.Letter] = at
		b := s.draw(a.p, at)
		b.note = append(b.note, drawing.Text{At: drawing.Point{X: border, Y: top - titleSize}, Size: titleSize, Bold: true, Content: a.p.title()})
		for i, shapes := range [][]drawing.Shape{b.note, b.fold, b.drill, b.cut} {
			if len(shapes) > 0 {
				sheet.Layers[i].Shapes = append(sheet.Layers[i].Shapes, drawing.Part{Name: a.p.Letter + " " + a.p.Name, Shapes: shapes})
			}
		}
		top -= a.box.Max.Y - a.box.Min.Y + between2
	}
	b := &board{}
	bars(b, drawing.Point{X: border, Y: border})
	sheet.Layers[0].Shapes = append(sheet.Layers[0].Shapes, drawing.Part{Name: "bars", Shapes: b.note})
	return sheet, places
}

// bars draws a bar of 100 mm across and one up from a corner.
func bars(b *board, corner drawing.Point) {
	b.at = corner
	tick := func(x0, y0, dx, dy float64) { b.line(x0-dx, y0-dy, x0+dx, y0+dy) }
	const from = 12.0
	b.line(from, 2, from+100, 2)
	b.line(2, from, 2, from+100)
	for k := range 11 {
		half := 0.7
		if k%10 == 0 {
			half = 1.8
		} else if k == 5 {
			half = 1.2
		}
		tick(from+10*float64(k), 2, 0, half)
		tick(2, from+10*float64(k), half, 0)
	}
	b.words(from+102, 1.2, smallSize, drawing.Start, false, "100 mm across")
	b.note = append(b.note, drawing.Text{At: b.p(2.8, from+102), Size: smallSize, Turn: quarter, Content: "100 mm down"})
}

const quarter = math.Pi / 2 // of a turn [rad]

// WriteSVG writes all parts at true size as SVG.
func (s *Set) WriteSVG(w io.Writer) error {
	d, _ := s.Drawing()
	return drawing.WriteSVG(w, d)
}

// WriteDXF writes all parts at true size as DXF R12 in millimetres, on the
// layers CUT, DRILL, FOLD and NOTE.
func (s *Set) WriteDXF(w io.Writer) error {
	d, _ := s.Drawing()
	return drawing.WriteDXF(w, d)
}

// WritePDF writes the pages to print: words first, then every part.
func (s *Set) WritePDF(w io.Writer) error {
	var d drawing.Document
	d.Title = "Cut sheets: " + s.Title
	d.Note = fmt.Sprintf("True size on %s; print at 100 %%.", s.options.Paper.Name)
	d.Stretch = s.options.Bar.stretch()
	for _, p := range s.Pages() {
		d.Pages = append(d.Pages, p.Page)
	}
	return drawing.WritePDF(w, d)
}
