package drawing

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// Fonts is the family list of every text written to SVG: the faces the pages
// bring with them first, then what most computers have.
const Fonts = "Atkinson Hyperlegible Next, Atkinson Hyperlegible, Helvetica, Arial, sans-serif"

// Anchor is which point of a text its place is.
type Anchor int

// The anchors, all on the baseline.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text.
type Text struct {
	At      Point   // the anchor, on the baseline
	Size    float64 // of the type, ascent and descent together about 1.2 of it [mm]
	Anchor  Anchor
	Turn    float64 // rotation about At [rad]
	Bold    bool
	Halo    float64 // width of a white edge round the letters, where they cross lines [mm]
	Content string
}

// How far letters reach above and below the baseline, in sizes: the largest
// of the faces of widths.csv, without accents on capitals.
const (
	ascent  = 0.77
	descent = 0.22
	capital = 0.70 // height of a capital letter
)

func (t Text) check() error {
	if !finite(t.At.X, t.At.Y, t.Size, t.Turn, t.Halo) || t.Size <= 0 || t.Halo < 0 {
		return fmt.Errorf("text %q at %v, size %g mm; need finite values and a size above 0", t.Content, t.At, t.Size)
	}
	return nil
}

// Bounds is an upper estimate of the box round the letters.
func (t Text) Bounds() Box {
	w := TextWidth(t.Content, t.Size, t.Bold)
	x := 0.0
	switch t.Anchor {
	case Middle:
		x = -w / 2
	case End:
		x = -w
	}
	s, k := math.Sincos(t.Turn)
	at := func(x, y float64) Point { return Point{t.At.X + x*k - y*s, t.At.Y + x*s + y*k} }
	lo, hi := -descent*t.Size, ascent*t.Size
	return boxOf(at(x, lo), at(x+w, lo), at(x, hi), at(x+w, hi))
}

// TextWidth is an upper estimate of the width of a line of text [mm] at a
// type size [mm]: the widest of the faces the family list is likely to fall
// to (see widths.csv), kerning left out. A character that is not in the table
// counts as one size, which covers any but the widest.
func TextWidth(s string, size float64, bold bool) float64 {
	table := widths()
	sum := 0
	for _, r := range s {
		w, ok := table[r]
		switch {
		case !ok && (unicode.IsControl(r) || unicode.Is(unicode.Mn, r)):
		case !ok:
			sum += 1000
		case bold:
			sum += int(w.bold)
		default:
			sum += int(w.regular)
		}
	}
	return float64(sum) / 1000 * size
}

// Wrap breaks text at spaces into lines no wider than width [mm]. A word that
// is too long for a line stands alone on one.
func Wrap(s string, size float64, bold bool, width float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(s) {
		if next := line + " " + w; line != "" && TextWidth(next, size, bold) <= width {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = w
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// Shorten cuts text with an ellipsis to at most width [mm].
func Shorten(s string, size float64, bold bool, width float64) string {
	if TextWidth(s, size, bold) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && TextWidth(string(r)+"…", size, bold) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}

//go:embed widths.csv
var widthsCSV string

// advance is how far a character moves the pen, in thousandths of the size.
type advance struct{ regular, bold int16 }

// widths reads the table once. The table is part of the program and a test
// reads every row, so that a bad row cannot reach a user.
var widths = sync.OnceValue(func() map[rune]advance {
	m := make(map[rune]advance)
	for _, line := range strings.Split(widthsCSV, "\n") {
		f := strings.Split(line, ",")
		if len(f) != 5 {
			continue
		}
		code, err1 := strconv.ParseInt(f[0], 16, 32)
		r, err2 := strconv.ParseInt(f[2], 10, 16)
		b, err3 := strconv.ParseInt(f[3], 10, 16)
		if err1 == nil && err2 == nil && err3 == nil {
			m[rune(code)] = advance{int16(r), int16(b)}
		}
	}
	return m
})
