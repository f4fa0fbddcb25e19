package cutsheet

import (
	"fmt"
	"strings"

	"toplit/drawing"
)

// Paper is a size of paper to print on, upright.
type Paper struct {
	Name          string
	Width, Height float64 // [mm]
}

// A4 is ISO 216:2007, Letter ASME Y14.1 (8.5 × 11 in).
func A4() Paper { return Paper{"A4", 210, 297} }

// Letter is 8.5 × 11 in (ASME Y14.1).
func Letter() Paper { return Paper{"Letter", 215.9, 279.4} }

// ParsePaper reads the name of a paper size.
func ParsePaper(name string) (Paper, error) {
	for _, p := range []Paper{A4(), Letter()} {
		if strings.EqualFold(strings.TrimSpace(name), p.Name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("paper %q is not known; accepted: A4 or Letter", name)
}

// What is cut out of a page stays inside this box in the middle of it, upright
// or lying. It fits A4 and Letter alike and leaves 12.7 mm (half an inch) or
// more all round, more than printers are likely to lose [judgement; common
// practice, no source].
const (
	contentShort = 184.0 // [mm]
	contentLong  = 254.0 // [mm]
)

// content is the box things to cut stay in, on a page upright or lying.
func (p Paper) content(lying bool) (page drawing.Point, box drawing.Box) {
	page = drawing.Point{X: p.Width, Y: p.Height}
	w, h := contentShort, contentLong
	if lying {
		page.X, page.Y = page.Y, page.X
		w, h = h, w
	}
	low := drawing.Point{X: (page.X - w) / 2, Y: (page.Y - h) / 2}
	return page, drawing.Box{Min: low, Max: drawing.Point{X: low.X + w, Y: low.Y + h}}
}

// PrintedBar is what the two 100 mm bars of a printed page measure [mm].
type PrintedBar struct{ Across, Down float64 }

// barOff is how far a bar may be off before the printer is scaling pages on
// purpose, which is to be switched off rather than corrected.
const barOff = 0.03

// ParsePrintedBar reads "98.7,99.1": across and down, in millimetres.
func ParsePrintedBar(text string) (PrintedBar, error) {
	var b PrintedBar
	var rest string
	if n, _ := fmt.Sscanf(strings.ReplaceAll(text, " ", ""), "%f,%f%s", &b.Across, &b.Down, &rest); n != 2 {
		return PrintedBar{}, fmt.Errorf("printed bar %q: two lengths in millimetres are wanted, across and down, such as 98.7,99.1", text)
	}
	return b, b.check()
}

func (b PrintedBar) check() error {
	if b == (PrintedBar{}) {
		return nil
	}
	for _, v := range []float64{b.Across, b.Down} {
		if !(v >= 100*(1-barOff) && v <= 100*(1+barOff)) {
			return fmt.Errorf("printed bar of %g mm: 97 to 103 mm can be corrected; beyond that the printer fits pages to the paper: print at 100 %%, without fitting, and measure again", v)
		}
	}
	return nil
}

// stretch is what pages are multiplied by so that the bars come out at 100 mm.
func (b PrintedBar) stretch() drawing.Point {
	if b == (PrintedBar{}) {
		return drawing.Point{}
	}
	return drawing.Point{X: 100 / b.Across, Y: 100 / b.Down}
}
