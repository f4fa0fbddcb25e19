package cutsheet

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// WriteText writes the set as plain text: the words, and every hole as
// numbers for those who mark out without a printer.
func (s *Set) WriteText(w io.Writer) error {
	t := &texter{w: w}
	t.wrapped("", "Cut sheets: "+s.Title)
	n := 0
	for _, b := range s.words(nil) {
		switch b.kind {
		case heading:
			n = 0
			t.line("")
			t.line(b.text)
		case para:
			t.wrapped("  ", b.text)
		case item, caution:
			t.wrapped("  - ", b.text)
		case step:
			n++
			t.wrapped(fmt.Sprintf(" %2d. ", n), b.text)
		case table:
			t.table(b)
		}
	}
	for _, p := range s.Parts {
		if len(p.Holes) > 0 {
			s.numbers(t, p)
		}
	}
	return t.err
}

// numbers lists the holes of a part.
func (s *Set) numbers(t *texter, p Part) {
	sys := s.options.Units
	t.line("")
	t.line(fmt.Sprintf("%s  %s by numbers", p.Letter, p.Name))
	if p.Kind == Wrap {
		marks, worst := Marks(p)
		t.wrapped("  ", fmt.Sprintf("Lay a strip of paper round the wall from the seam to the right; it is %s long. All marks count from the seam, so that no error adds up. Inches are to the nearest 1/32; the worst is %s mm off.", length(p.Around, sys), trim(worst, 2)))
		for _, i := range rowsOf(p) {
			if f := s.folding(p, i); f != "" {
				t.wrapped("  ", f)
			}
		}
		b := block{kind: table, head: []string{">hole", ">from seam, mm", ">in", ">above base", ">below rim", "how"}}
		for _, m := range marks {
			b.rows = append(b.rows, []string{fmt.Sprint(m.Hole.Number), fmt.Sprintf("%.1f", m.Seam), strings.TrimSuffix(m.Inch, " in"), place(m.Hole.Y, sys), place(p.Tall-m.Hole.Y, sys), s.holeWay(m.Hole)})
		}
		t.table(b)
		return
	}
	t.wrapped("  ", "From the middle of the end, the seam mark up, seen from outside. Angles run clockwise from the mark.")
	b := block{kind: table, head: []string{">hole", ">right", ">up", ">from middle", ">angle", "how"}}
	for _, h := range p.Holes {
		if h.State == There {
			continue
		}
		q := polarOf(h)
		b.rows = append(b.rows, []string{fmt.Sprint(h.Number), place(q.right, sys), place(q.up, sys), place(q.radius, sys), fmt.Sprintf("%.1f°", q.angle), s.holeWay(h)})
	}
	t.table(b)
	for _, i := range rowsOf(p) {
		if r := s.Design.Rows[i]; r.Circle > 0 && r.Count > 1 {
			t.wrapped("  ", fmt.Sprintf("%s: scribe a circle of %s, set dividers to %s and step round.", s.Rows[i].Label, length(r.Circle*1e3, sys), place(Chord(r.Circle*1e3, r.Count), sys)))
		}
	}
}

// texter writes lines and keeps the first error.
type texter struct {
	w   io.Writer
	err error
}

const lineWide = 80

func (t *texter) line(s string) {
	if t.err == nil {
		_, t.err = fmt.Fprintln(t.w, strings.TrimRight(s, " "))
	}
}

func (t *texter) wrapped(lead, s string) {
	indent := utf8.RuneCountInString(lead)
	for _, l := range broken(s, lineWide-indent) {
		t.line(lead + l)
		lead = strings.Repeat(" ", indent)
	}
}

// table writes columns; a heading that begins with ">" stands to the right.
// Where the columns run over the line the widest are broken into lines.
func (t *texter) table(b block) {
	const before, between = 2, 2
	wide := make([]int, len(b.head))
	right := make([]bool, len(b.head))
	head := make([]string, len(b.head))
	sum := before - between
	for c, h := range b.head {
		head[c] = strings.TrimPrefix(h, ">")
		right[c] = head[c] != h
		wide[c] = utf8.RuneCountInString(head[c])
		for _, r := range b.rows {
			wide[c] = max(wide[c], utf8.RuneCountInString(r[c]))
		}
		sum += wide[c] + between
	}
	for sum > lineWide {
		most := 0
		for c := range wide {
			if wide[c] > wide[most] {
				most = c
			}
		}
		wide[most]--
		sum--
	}
	put := func(cells []string) {
		lines := make([][]string, len(cells))
		tall := 1
		for c, text := range cells {
			lines[c] = broken(text, wide[c])
			tall = max(tall, len(lines[c]))
		}
		for k := range tall {
			line := strings.Repeat(" ", before)
			for c := range cells {
				text := ""
				if k < len(lines[c]) {
					text = lines[c][k]
				}
				pad := strings.Repeat(" ", max(0, wide[c]-utf8.RuneCountInString(text)))
				if right[c] {
					text, pad = pad+text, ""
				}
				line += text + pad + strings.Repeat(" ", between)
			}
			t.line(line)
		}
	}
	put(head)
	for _, r := range b.rows {
		put(r)
	}
}

// broken is a text in lines of at most so many characters, broken at spaces
// where there are any.
func broken(s string, wide int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		for utf8.RuneCountInString(word) > wide && wide > 0 {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			r := []rune(word)
			lines, word = append(lines, string(r[:wide])), string(r[wide:])
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= wide:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}
