package cutsheet

import (
	"strings"

	"toplit/stove"
)

// Refused says why a design cannot be cut as drawn and which one could be.
type Refused struct {
	Findings []stove.Finding
	Nearest  *stove.Design  // nil when nothing near can be cut
	Changes  []stove.Change // from the design to the nearest
	parent   bool           // it is the parent that cannot be read
}

func (r *Refused) Error() string {
	var b strings.Builder
	b.WriteString("cannot be cut as drawn")
	if r.parent {
		b.WriteString(" (the parent)")
	}
	b.WriteString(": ")
	for i, f := range r.Findings {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(f.String())
	}
	if r.Nearest == nil {
		return b.String()
	}
	b.WriteString(". The nearest design that can be cut: ")
	for i, c := range r.Changes {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(c.Text)
	}
	return b.String()
}

// fault is one thing in the way, with what would take it out of the way.
type fault struct {
	stove.Finding
	mend func(*stove.Design) // nil when no change of the design helps
	turn turn                // which faults are put right first
}

// turn orders faults: holes that are there first, since all else gives way to
// them; then where a row lies, because how many holes fit depends on it; then
// rows by themselves, then rows beside each other.
type turn int

const (
	there    turn = iota - 2
	position      // the zero turn is byItself
	byItself
	beside
)

// refused is the faults as findings.
func (l *layout) refused() []stove.Finding {
	var bad []stove.Finding
	for _, f := range l.faults {
		bad = append(bad, f.Finding)
	}
	return bad
}

// refuse looks for the nearest design that can be cut: one change at a time
// for the first thing in the way, and over again.
func refuse(l *layout, bad []stove.Finding) *Refused {
	r := &Refused{Findings: bad}
	d := l.want.Clone()
	const tries = 80
	for range tries {
		next := lay(d, l.o)
		if len(next.faults) == 0 {
			r.Nearest, r.Changes = &d, stove.Difference(l.want, d)
			return r
		}
		var first *fault
		for i := range next.faults {
			if f := &next.faults[i]; f.mend != nil && (first == nil || f.turn < first.turn) {
				first = f
			}
		}
		if first == nil {
			break
		}
		first.mend(&d)
	}
	if d, ok := asParent(l.want, l.o); ok {
		r.Nearest, r.Changes = &d, stove.Difference(l.want, d)
	}
	return r
}
