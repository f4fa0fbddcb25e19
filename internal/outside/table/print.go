package main

import (
	"bufio"
	"fmt"
	"io"
	"sort"
	"strings"
	"unicode/utf8"

	"toplit/internal/outside"
)

// longest is the width beyond which a name or a source goes on in a second line.
const longest = 48

// Print writes every row grouped by law, then the faults, then the count.
func Print(w io.Writer, records []outside.Record, rule Rule, v Verdict) error {
	out := bufio.NewWriter(w)
	head := []string{"name", "source", "published", "ours", "difference", "tolerance", "unit", "kind", "outside?"}
	lines := map[string][][]string{}
	width := make([]int, len(head))
	measure := func(cells []string) {
		for i, c := range cells {
			for _, part := range strings.Split(c, "\n") {
				width[i] = max(width[i], utf8.RuneCountInString(part))
			}
		}
	}
	measure(head)
	for _, law := range laws(records) {
		for _, cells := range rows(records, law, rule) {
			measure(cells)
			lines[law] = append(lines[law], cells)
		}
	}
	put := func(cells []string) {
		parts, deep := make([][]string, len(cells)), 1
		for i, c := range cells {
			parts[i] = strings.Split(c, "\n")
			deep = max(deep, len(parts[i]))
		}
		for line := range deep {
			var b strings.Builder
			for i := range cells {
				c := ""
				if line < len(parts[i]) {
					c = parts[i][line]
				}
				pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
				if i >= 2 && i <= 5 { // numbers stand right
					b.WriteString(pad + c + "  ")
				} else {
					b.WriteString(c + pad + "  ")
				}
			}
			fmt.Fprintln(out, "  "+strings.TrimRight(b.String(), " "))
		}
	}
	for _, law := range laws(records) {
		fmt.Fprintf(out, "%s\n", law)
		put(head)
		for _, cells := range lines[law] {
			put(cells)
		}
		fmt.Fprintln(out)
	}
	for _, f := range v.Faults {
		fmt.Fprintln(out, "fault:", f)
	}
	fmt.Fprintf(out, "checks: %d rows, %d outside tolerance\n", v.Rows, v.Outside)
	return out.Flush()
}

// rows are the printed cells of one law: independent rows first, by name.
func rows(records []outside.Record, law string, rule Rule) [][]string {
	var own []outside.Record
	for _, r := range records {
		if r.Law == law {
			own = append(own, r)
		}
	}
	sort.SliceStable(own, func(i, j int) bool {
		if own[i].Used != own[j].Used {
			return !own[i].Used
		}
		return own[i].Name < own[j].Name
	})
	var cells [][]string
	for i, r := range own {
		kind := "independent"
		switch {
		case r.Used:
			kind = "used"
		case i >= rule.Cap:
			kind = "independent, not counted"
		}
		mark := ""
		switch {
		case !r.Inside && r.Listed:
			mark = "outside, listed"
		case !r.Inside:
			mark = "OUTSIDE"
		}
		ours, diff := fmt.Sprintf("%.6g", r.Ours), fmt.Sprintf("%.2g", r.Ours-r.Published)
		if r.NotFinite {
			ours, diff = "none", "none"
		}
		unit := r.Unit
		if unit == "" {
			unit = "1"
		}
		cells = append(cells, []string{
			fold(r.Name), fold(r.Source), fmt.Sprintf("%.6g", r.Published), ours, diff, fmt.Sprintf("%.2g", r.Tol), unit, kind, mark,
		})
	}
	return cells
}

// fold breaks a long cell between words into lines of the longest width.
func fold(s string) string {
	var b strings.Builder
	n := 0
	for _, word := range strings.Fields(s) {
		w := utf8.RuneCountInString(word)
		switch {
		case n == 0:
		case n+1+w > longest:
			b.WriteByte('\n')
			n = 0
		default:
			b.WriteByte(' ')
			n++
		}
		b.WriteString(word)
		n += w
	}
	return b.String()
}
