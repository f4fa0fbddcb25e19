package cutsheet

import (
	"fmt"
	"math"

	"toplit/drawing"
)

// discLess is how much smaller than the inside of its can a paper disc is cut,
// so that it lies flat on the end inside the double seam; common practice, no
// source [mm].
const discLess = 3.0

// drawDisc draws the disc that lies on a can's end, seen from outside, the
// can's side seam at the top.
func (s *Set) drawDisc(b *board, p Part) {
	r := (p.Across - discLess) / 2
	b.cut = append(b.cut, b.circle(0, 0, r))
	s.middle(b, p)
	s.drawHoles(b, p)
	// Circles the rows lie on.
	for _, i := range rowsOf(p) {
		if d := s.Design.Rows[i].Circle * 1e3; d > 0 {
			b.note = append(b.note, b.circle(0, 0, d/2))
		}
	}
	// The seam mark: a tick from the edge, and the word beside it.
	b.arrow(0, r-7, 0, r-0.4)
	if !b.tryWords(square(r), 1, p.Across/2-p.Edge-2.8, smallSize, drawing.Start, true, "seam") {
		b.words(2, r+1.2, smallSize, drawing.Start, true, "seam")
	}
	// Past this circle the end is beaded.
	b.dotted(0, 0, p.Across/2-p.Edge, p.Holes...)
	y := -r - 5
	for _, line := range s.discWords(p) {
		for _, l := range drawing.Wrap(line, wordSize, false, roundWords(r)) {
			b.words(-math.Max(r, 75), y, wordSize, drawing.Start, false, l)
			y -= wordSize * 1.35
		}
	}
}

// roundWords is how long lines below a round part may be: as wide as the part,
// and not into the second page of one that takes two.
func roundWords(r float64) float64 {
	if 2*r > contentShort-barRoom-2*cutPen {
		return math.Max(2*r/2-share, 100)
	}
	return math.Max(2*r, 150)
}

func square(r float64) drawing.Box {
	return drawing.Box{Min: drawing.Point{X: -r, Y: -r}, Max: drawing.Point{X: r, Y: r}}
}

// middle marks the centre, unless a hole does.
func (s *Set) middle(b *board, p Part) {
	for _, h := range p.Holes {
		if h.nearestToMiddle() < 1.8 {
			return
		}
	}
	b.cross(0, 0, 5)
	b.note = append(b.note, b.circle(0, 0, 1))
	b.keep(-1.2, -1.2, 1.2, 1.2)
}

// discWords says what is on a disc.
func (s *Set) discWords(p Part) []string {
	sys := s.options.Units
	words := []string{fmt.Sprintf("Lies on the outside of the end, seam mark to the side seam. Cut to %s; trim it to the recess of the end and centre it by its even gap. No hole outside the dotted circle.", length(p.Across-discLess, sys))}
	for _, i := range rowsOf(p) {
		text := fmt.Sprintf("%s: %s", s.Rows[i].Label, s.what(p, i))
		if r := s.Design.Rows[i]; r.Circle > 0 {
			text += fmt.Sprintf(", on a circle of %s", length(r.Circle*1e3, sys))
			if r.Count > 1 {
				text += fmt.Sprintf(", %s from middle to middle", place(Chord(r.Circle*1e3, r.Count), sys))
			}
		} else {
			text += ", spread over the end"
		}
		if how := s.how(i); how != "" {
			text += "; " + how
		}
		words = append(words, text+".")
	}
	return words
}

// drawRound draws a ring, plate or shield.
func (s *Set) drawRound(b *board, p Part) {
	r := p.Across / 2
	b.cut = append(b.cut, b.circle(0, 0, r))
	s.middle(b, p)
	words := []string{fmt.Sprintf("Cut round at %s.", length(p.Across, s.options.Units))}
	if o := p.Ring; o != nil {
		words = s.drawRing(b, p, o)
	}
	y := -r - 5
	for _, line := range words {
		for _, l := range drawing.Wrap(line, wordSize, false, roundWords(r)) {
			b.words(-math.Max(r, 75), y, wordSize, drawing.Start, false, l)
			y -= wordSize * 1.35
		}
	}
}

// drawRing draws the opening of a ring, its slits, the lines its tongues turn
// about and which way.
func (s *Set) drawRing(b *board, p Part, o *Opening) []string {
	sys := s.options.Units
	words := []string{fmt.Sprintf("Ring of %s, opening %s: cut the opening inside the line, then file to it.", length(p.Across, sys), length(o.Bore, sys))}
	if o.Was > 0 {
		words = []string{fmt.Sprintf("Opening made wider: %s → %s (dotted: as it is now).", length(o.Was, sys), length(o.Bore, sys))}
		b.dotted(0, 0, o.Was/2)
	}
	b.cut = append(b.cut, b.circle(0, 0, o.Bore/2))
	if o.Height > 0 {
		words = append(words, fmt.Sprintf("It stands %s above the fuel can's rim: on tabs, wire or screws.", length(o.Height, sys)))
	}
	if o.Slits == 0 {
		return words
	}
	step := 2 * math.Pi / float64(o.Slits)
	in, out := o.Bore/2, o.Bore/2+o.Slit
	at := func(a, r float64) drawing.Point { return b.p(r*math.Sin(a), r*math.Cos(a)) }
	for k := range o.Slits {
		a := float64(k) * step
		b.cut = append(b.cut, drawing.Line{From: at(a, in), To: at(a, out)})
		m := a + step/2
		if math.Abs(o.Twist)*180/math.Pi < 0.5 {
			continue
		}
		b.fold = append(b.fold, drawing.Line{From: at(m, in), To: at(m, out)})
		// The edge that comes up, marked at the middle of the tongue.
		side := -1.0 // counter-clockwise for a twist above 0, as a slant above 0 turns the gas
		if o.Twist < 0 {
			side = 1
		}
		mid := (in + out) / 2
		off := math.Min(step*mid/4, 8) / mid * side
		q := at(m+off, mid)
		const size = tinySize
		b.note = append(b.note, drawing.Text{At: drawing.Point{X: q.X, Y: q.Y - 0.35*size}, Size: size, Anchor: drawing.Middle, Bold: true, Content: "up"})
	}
	words = append(words, fmt.Sprintf("%d slits, each %s outward from the opening.", o.Slits, length(o.Slit, sys)))
	if a := math.Abs(o.Twist) * 180 / math.Pi; a >= 0.5 {
		way := "counter-clockwise"
		if o.Twist < 0 {
			way = "clockwise"
		}
		words = append(words, fmt.Sprintf("Turn every tongue %s° about its fold line, the edge marked “up” towards the pot: the gas then turns %s, seen from above. Drill 2 mm at the outer end of each slit so that it does not tear on.", trim(a, 0), way))
	}
	return words
}

// drawBlank draws what is cut flat and rolled.
func (s *Set) drawBlank(b *board, p Part) {
	b.cut = append(b.cut, closed(b, 0, 0, 0, p.Tall, p.Around+overlap, p.Tall, p.Around+overlap, 0))
	b.note = append(b.note, drawing.Line{From: b.p(p.Around, 0), To: b.p(p.Around, p.Tall)})
	for _, y := range []float64{p.Tall / 6, p.Tall / 2, 5 * p.Tall / 6} {
		b.cross(p.Around+overlap/2, y, 1.5)
		b.cross(overlap/2, y, 1.5)
	}
	sys := s.options.Units
	words := []string{
		fmt.Sprintf("Cut %s × %s from flat sheet and roll it to %s inside.", place(p.Around+overlap, sys), length(p.Tall, sys), length(p.Across, sys)),
		fmt.Sprintf("The last %s lie on the first: rivet or screw at the crosses, after trying it round the part.", length(overlap, sys)),
	}
	if p.Name == "skirt" {
		words = append(words, "Tabs of the same sheet, bent inwards, keep the gap to the pot even.")
	}
	y := -5.0
	for _, line := range words {
		for _, l := range drawing.Wrap(line, wordSize, false, p.wordsWide()) {
			b.words(0, y, wordSize, drawing.Start, false, l)
			y -= wordSize * 1.35
		}
	}
}

// legCount: three legs never rock; common practice, no source.
const legCount = 3

// drawLegs draws the circle the legs of an open stand lie on.
func (s *Set) drawLegs(b *board, p Part) {
	r := p.Across / 2
	b.note = append(b.note, b.circle(0, 0, r))
	s.middle(b, p)
	b.cut = append(b.cut, b.circle(0, 0, r+8))
	for k := range legCount {
		a := 2 * math.Pi * float64(k) / legCount
		x, y := r*math.Sin(a), r*math.Cos(a)
		b.cross(x, y, 4)
		b.line(0, 0, x, y)
		b.words(x+1, y+1.2, smallSize, drawing.Start, true, fmt.Sprint(k+1))
	}
	y := -r - 13
	for _, line := range []string{
		fmt.Sprintf("Open pot stand: three legs or wires on a circle of %s, %s apart, their tops %s above what they stand on.", length(p.Across, s.options.Units), place(Chord(p.Across, legCount), s.options.Units), length(p.Tall, s.options.Units)),
		"Steel wire or bolts; all three tops in one plane: turn the stove over on a flat table to see.",
	} {
		for _, l := range drawing.Wrap(line, wordSize, false, roundWords(r)) {
			b.words(-math.Max(r, 75), y, wordSize, drawing.Start, false, l)
			y -= wordSize * 1.35
		}
	}
}
