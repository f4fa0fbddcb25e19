package work

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"
)

// page collects text for people and keeps the first error of its writer.
type page struct {
	w   io.Writer
	err error
}

func (p *page) printf(format string, a ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, a...)
	}
}

const (
	lineWidth = 80 // of running text
	margin    = "  "
)

// heading begins a part of the page.
func (p *page) heading(s string) { p.printf("\n%s\n", s) }

// para writes running text, its first line after lead, the rest below it.
func (p *page) para(lead, s string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	for i, line := range wrap(s, lineWidth-utf8.RuneCountInString(lead)) {
		if i > 0 {
			lead = indent
		}
		p.printf("%s%s\n", lead, line)
	}
}

// held is a space at which no line is broken.
const held = "\u00a0"

// amount is a number before its unit, which are not torn apart.
var amount = regexp.MustCompile(`([0-9]) (%|°[CF]|mm|cm|m|in|g|kg|lb|oz|W|kW|s)`)

// wrap breaks text at spaces.
func wrap(s string, width int) []string {
	s = amount.ReplaceAllString(s, "$1"+held+"$2")
	var lines []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		if word == "" {
			continue
		}
		word = strings.ReplaceAll(word, held, " ")
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// table writes rows in columns. A column whose heading begins with ">" stands
// to the right. Empty headings all round leave the heading out.
func (p *page) table(head []string, rows [][]string) {
	right := make([]bool, len(head))
	width := make([]int, len(head))
	titles := make([]string, len(head))
	named := false
	for i, h := range head {
		titles[i] = strings.TrimPrefix(h, ">")
		right[i] = titles[i] != h
		width[i] = utf8.RuneCountInString(titles[i])
		named = named || titles[i] != ""
	}
	for _, r := range rows {
		for i, c := range r {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	// What runs over the line is broken in the last column.
	last := len(head) - 1
	before := len(margin)
	for i := range last {
		before += width[i] + 2
	}
	room := lineWidth - before
	breaks := last >= 0 && !right[last] && width[last] > room && room >= 20
	line := func(cells []string) {
		rest := []string{""}
		if breaks {
			rest = wrap(cells[last], room)
			cells = append(append([]string(nil), cells[:last]...), rest[0])
			width[last] = room
		}
		var b strings.Builder
		for i, c := range cells {
			pad := strings.Repeat(" ", max(0, width[i]-utf8.RuneCountInString(c)))
			if i > 0 {
				b.WriteString("  ")
			}
			if right[i] {
				b.WriteString(pad + c)
			} else {
				b.WriteString(c + pad)
			}
		}
		p.printf("%s\n", strings.TrimRight(margin+b.String(), " "))
		for _, r := range rest[1:] {
			p.printf("%s%s\n", strings.Repeat(" ", before), r)
		}
	}
	if named {
		line(titles)
	}
	for _, r := range rows {
		line(r)
	}
}
