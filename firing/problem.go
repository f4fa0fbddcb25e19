package firing

import (
	"fmt"
	"strconv"
	"strings"

	"toplit/stove"
)

// Problem is one remark on a design file, on one line.
type Problem struct {
	Severity stove.Severity
	File     string // as the caller named it
	Line     int    // 0 when the key does not stand in the file
	Key      string // "row[2].hole"; rows count from 1
	Value    string // as written
	Text     string // what is wrong and why
	Accept   string // what would be accepted
}

// Error is the line: file:line: key = value: what; accepted: this.
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		b.WriteString(":" + strconv.Itoa(p.Line))
	}
	b.WriteString(": ")
	if p.Key != "" {
		b.WriteString(p.Key)
		if p.Value != "" {
			b.WriteString(" = " + p.Value)
		}
		b.WriteString(": ")
	}
	b.WriteString(p.Text)
	if p.Accept != "" {
		b.WriteString("; accepted: " + p.Accept)
	}
	return oneLine(b.String())
}

// Problems are all that is wrong with a file, in file order.
type Problems []Problem

// Error has one line for each problem.
func (p Problems) Error() string {
	lines := make([]string, len(p))
	for i, x := range p {
		lines[i] = x.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the problems to errors.As and errors.Is.
func (p Problems) Unwrap() []error {
	list := make([]error, len(p))
	for i, x := range p {
		list[i] = x
	}
	return list
}

// problem is what a key's reader says; the reader of the file adds where.
type problem struct{ text, accept string }

func (p *problem) Error() string {
	if p.accept == "" {
		return p.text
	}
	return p.text + "; accepted: " + p.accept
}

func wrong(accept, text string, args ...any) *problem {
	return &problem{fmt.Sprintf(text, args...), accept}
}

// oneLine keeps what a file says from breaking the line it is quoted on.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, s)
}

// quote shortens and quotes a text for an error line.
func quote(s string) string {
	if r := []rune(s); len(r) > 60 {
		s = string(r[:57]) + "..."
	}
	return strconv.Quote(s)
}
