package designs

import (
	"fmt"
	"testing"

	"toplit/firing"
	"toplit/stove"
)

// tries is how many drawings are thrown away before a seed is given up. One
// in six is refused, so no seed comes near it.
const tries = 200

// Random is the valid firing of a seed.
func Random(seed uint64) (*firing.Firing, error) {
	var last stove.Finding
	for again := range uint64(tries) {
		d := newDice(seed, again)
		f := new(firing.Firing)
		drawStove(d, &f.Design)
		drawConditions(d, f)
		f.Design.Name = fmt.Sprintf("random %d", seed)
		bad, ok := refusal(f)
		if !ok {
			return f, nil
		}
		last = bad
	}
	return nil, fmt.Errorf("seed %d: %d drawings refused, the last because of %s", seed, tries, last)
}

// For is Random for a test: a seed that gives nothing ends the test.
func For(tb testing.TB, seed uint64) *firing.Firing {
	tb.Helper()
	f, err := Random(seed)
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

func refusal(f *firing.Firing) (stove.Finding, bool) {
	for _, x := range firing.Check(*f) {
		if x.Severity == stove.Error {
			return x, true
		}
	}
	return stove.Finding{}, false
}

// Clone is a deep copy, so that a test can change one thing of a firing.
func Clone(f *firing.Firing) *firing.Firing {
	g := *f
	d := &g.Design
	d.Rows = append([]stove.Row(nil), d.Rows...)
	d.Shields = append([]stove.Shield(nil), d.Shields...)
	d.OuterCan, d.Ring, d.Riser = copied(d.OuterCan), copied(d.Ring), copied(d.Riser)
	d.Stand, d.Skirt, d.Plate = copied(d.Stand), copied(d.Skirt), copied(d.Plate)
	g.Conditions.Pot = copied(g.Conditions.Pot)
	g.Conditions.Schedule = append([]firing.Action(nil), g.Conditions.Schedule...)
	g.Assumed = append([]string(nil), g.Assumed...)
	return &g
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// Valid says whether a firing passes the checks.
func Valid(f *firing.Firing) bool {
	_, bad := refusal(f)
	return !bad
}
