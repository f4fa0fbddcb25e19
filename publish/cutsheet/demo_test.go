package cutsheet

import (
	"errors"
	"testing"

	"toplit/stove"
	"toplit/stove/catalogue"
)

// tea is a two-can stove like that of the demo: base of 24 holes, 20 jets,
// 16 inlets, a ring and a closed pot stand. Invented.
func tea() stove.Design {
	can := func(across, tall float64) stove.Can {
		return stove.Can{Diameter: across, Height: tall, Wall: 0.25e-3, Metal: stove.Tinplate, Surface: stove.Melted}
	}
	outer := can(153e-3, 160e-3)
	return stove.Design{
		Name: "tea stove (invented)", FuelCan: can(105e-3, 124e-3), OuterCan: &outer, Standoff: 30e-3,
		Rows: []stove.Row{
			{Name: "primary", On: stove.FuelBase, Count: 24, Hole: stove.Hole{Shape: stove.Round, Width: 6e-3}},
			{Name: "secondary", On: stove.FuelBody, Count: 20, Hole: stove.Hole{Shape: stove.Round, Width: 6e-3}, Height: 112e-3},
			{Name: "inlet", On: stove.OuterBody, Count: 16, Hole: stove.Hole{Shape: stove.Round, Width: 12e-3}, Height: 15e-3},
		},
		Ring:  &stove.Ring{Bore: 66e-3, Wall: 0.25e-3, Metal: stove.Tinplate},
		Stand: &stove.Stand{Diameter: 105e-3, Height: 70e-3, Closed: true, Wall: 0.22e-3, Metal: stove.Tinplate, Gap: 12e-3},
	}
}

// changed is the tea stove with a change.
func changed(change func(d *stove.Design)) stove.Design {
	d := tea()
	change(&d)
	return d
}

func plan(t *testing.T, d stove.Design, o Options) *Set {
	t.Helper()
	s, err := Plan(d, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// refusedPlan is why a design is refused.
func refusedPlan(t *testing.T, d stove.Design, o Options) *Refused {
	t.Helper()
	_, err := Plan(d, o)
	var r *Refused
	if !errors.As(err, &r) {
		t.Fatalf("error %v, want a refusal", err)
	}
	return r
}

func drillsOnHand(t *testing.T, text string) []catalogue.Drill {
	t.Helper()
	d, err := ParseDrills(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// partOf is the part of a name.
func partOf(t *testing.T, s *Set, name string) Part {
	t.Helper()
	for _, p := range s.Parts {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no part %q", name)
	return Part{}
}
