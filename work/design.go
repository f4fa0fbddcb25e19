package work

import (
	"io"

	"toplit/firing"
	"toplit/stove"
)

// Design is a design file that was read.
type Design struct {
	File     string // as the caller named it
	Firing   *firing.Firing
	Findings firing.Problems // what the checks found, refusals included
}

// Open reads a design file and checks it. name is what error lines call it.
// The error is a firing.Problems with a line for everything that is wrong.
// What can be read but is refused (see Refused) is no error here.
func Open(r io.Reader, name string) (*Design, error) {
	f, found := firing.Examine(r, name)
	if f == nil {
		return nil, found
	}
	return &Design{File: name, Firing: f, Findings: found}, nil
}

// Refused is what keeps the design from being lit: the findings that are
// errors, as an error; nil when there are none.
func (d *Design) Refused() error {
	if list := d.of(stove.Error); len(list) > 0 {
		return list
	}
	return nil
}

// of is the findings of one severity.
func (d *Design) of(s stove.Severity) firing.Problems {
	var list firing.Problems
	for _, p := range d.Findings {
		if p.Severity == s {
			list = append(list, p)
		}
	}
	return list
}

// Title is the stove's name, or the file's when it has none.
func (d *Design) Title() string {
	if d.Firing != nil && d.Firing.Design.Name != "" {
		return d.Firing.Design.Name
	}
	return d.File
}

// findings is the list in JSON.
func findings(all firing.Problems) list {
	out := list{}
	for _, p := range all {
		o := object{{"severity", string(p.Severity)}, {"file", p.File}}
		if p.Line > 0 {
			o = append(o, member{"line", p.Line})
		}
		out = append(out, append(o, member{"key", p.Key}, member{"value", p.Value}, member{"text", p.Text}, member{"accepted", p.Accept}))
	}
	return out
}
