package work

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"toplit/quantity"
	"toplit/stove"
)

const cutDesign = `format = 1
name = "cut me (invented)"

[fuel_can]
diameter = "105 mm"
height = "124 mm"

[[row]]
name = "primary"
on = "fuel can base"
count = 24
hole = "6 mm"

[[row]]
name = "secondary"
on = "fuel can body"
count = 16
hole = "6 mm"
below_rim = "12 mm"
`

func cutOpen(t *testing.T, text string) *Design {
	t.Helper()
	d, err := Open(strings.NewReader(text), "cut.toml")
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestCutEffect: drills that are not the drawn sizes are told with what they
// do to the burn; the drawn sizes need no burn.
func TestCutEffect(t *testing.T) {
	d := cutOpen(t, cutDesign)
	s, err := Cut(context.Background(), d, CutOptions{Drills: "3, 5.5 mm", Samples: 4, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := s.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(strings.Fields(b.String()), " "); !strings.Contains(got, "With these drills in place of the drawn sizes (medians of 4 burns, the same burns twice): firepower") {
		t.Errorf("no effect told in\n%s", b.String())
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if s, err = Cut(ctx, d, CutOptions{Drills: "3, 6 mm", Samples: 4, Seed: 1}); err != nil || s.options.Effect != "" {
		t.Errorf("the drawn sizes: %v, %q", err, s.options.Effect)
	}
	if _, err = Cut(ctx, d, CutOptions{Drills: "3, 5.5 mm", Samples: 4, Seed: 1}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// TestNotCut: what cannot be cut comes with a nearest design that can be read
// and cut.
func TestNotCut(t *testing.T) {
	d := cutOpen(t, strings.Replace(cutDesign, "count = 16", "count = 60", 1))
	_, err := Cut(context.Background(), d, CutOptions{})
	var not *NotCut
	if !errors.As(err, &not) {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := not.WriteNearest(&b, quantity.US); err != nil {
		t.Fatal(err)
	}
	near := cutOpen(t, b.String())
	if _, err := Cut(context.Background(), near, CutOptions{}); err != nil {
		t.Errorf("the nearest design: %v\n%s", err, b.String())
	}
	if n := stove.Difference(d.Firing.Design, near.Firing.Design); len(n) != len(not.Changes) {
		t.Errorf("%d changes read back, %d told", len(n), len(not.Changes))
	}
}

func TestBadCut(t *testing.T) {
	d := cutOpen(t, cutDesign)
	for want, o := range map[string]CutOptions{
		"paper thickness": {Thickness: "thick"}, "seam": {Seam: "1 kg"}, "A4 or Letter": {Paper: "A0"}, "97 to 103": {PrintedBar: "1,2"},
		"drill": {Drills: "hammer"}, "two lengths are wanted": {Sheet: "big"}, "no such sheet": {Beads: []string{"lid=1 mm..2 mm"}},
	} {
		var bad BadCut
		if _, err := Cut(context.Background(), d, o); !errors.As(err, &bad) || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", o, err, want)
		}
	}
}
