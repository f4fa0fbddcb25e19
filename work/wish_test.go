package work

import (
	"math"
	"strings"
	"testing"
)

func TestWishesAreRead(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Errorf("%s is %g, want %g", what, got, want)
		}
	}
	o := SizeOptions{
		FuelCan: "strip:33 cm x 12 cm", OuterCan: "No. 10", Pot: "5 x 3 1/2 in", Water: "1 lb", BoilIn: "6:30", Flame: "20 min",
		Charge: "60 mm", Drills: "3, 4, 5.5 mm, 1/4, 5/16 in, #7", Fuel: "twigs", Starter: "gel",
	}
	w, err := o.wish()
	if err != nil {
		t.Fatal(err)
	}
	near("strip", w.FuelCan.Strip, 0.33)
	near("height", w.FuelCan.Height, 0.12)
	near("pot", w.Pot.Diameter, 0.127)
	near("pot height", w.Pot.Height, 0.0889)
	near("water", w.Water.Mass, 0.4536)
	near("boil", w.BoilIn, 390)
	near("flame", w.FlameFor, 1200)
	near("charge", w.Charge.Depth, 0.06)
	var drills []string
	for _, d := range w.Drills {
		drills = append(drills, d.Name)
	}
	if got := strings.Join(drills, "|"); got != "3 mm|4 mm|#7|5.5 mm|1/4 in|5/16 in" {
		t.Errorf("drills %s", got)
	}
	if w.Outer.Name != "No. 10" || w.Fuel.Species != "twigs" || w.Starter.Kind != "gel" {
		t.Errorf("%+v", w)
	}

	o = SizeOptions{FuelCan: "404x414", OuterCan: "any", Water: "2 cups", Drills: "metric"}
	if w, err = o.wish(); err != nil {
		t.Fatal(err)
	}
	if !w.AnyOuter || w.Pot == nil {
		t.Errorf("any outer can and an assumed pot: %+v", w)
	}
	near("two cups", w.Water.Mass, 0.4728) // 473.18 mL at 15 °C
	for _, d := range w.Drills {
		if d.Diameter < thinnest || d.Diameter > thickest {
			t.Errorf("%s is no drill for a stove", d.Name)
		}
	}
}

func TestWishesThatCannotBeRead(t *testing.T) {
	for _, c := range []struct {
		o    SizeOptions
		want string
	}{
		{SizeOptions{}, "fuel can: not given; accepted:"},
		{SizeOptions{FuelCan: "404x41"}, "accepted: a trade code"},
		{SizeOptions{FuelCan: "strip:33 x 12"}, "no unit"},
		{SizeOptions{FuelCan: "strip:long x 12 cm"}, "accepted: a trade code"},
		{SizeOptions{FuelCan: "No. 3", OuterCan: "big"}, "outer can"},
		{SizeOptions{FuelCan: "No. 3", Pot: "128"}, `accepted: diameter by height`},
		{SizeOptions{FuelCan: "No. 3", Pot: "128 x 90"}, "no unit"},
		{SizeOptions{FuelCan: "No. 3", Pot: "-128 mm x 90 mm"}, "not a size"},
		{SizeOptions{FuelCan: "strip:-33 cm"}, "not a size"},
		{SizeOptions{FuelCan: "No. 3", Water: "2"}, "no unit"},
		{SizeOptions{FuelCan: "No. 3", Water: "-1 g"}, "not an amount"},
		{SizeOptions{FuelCan: "No. 3", Water: "8 oz"}, "accepted:"}, // of mass or of volume
		{SizeOptions{FuelCan: "No. 3", BoilIn: "6"}, `accepted: "6:00"`},
		{SizeOptions{FuelCan: "No. 3", BoilIn: "soon"}, `accepted: "6:00"`},
		{SizeOptions{FuelCan: "No. 3", Flame: "0:00"}, "not a time to wait"},
		{SizeOptions{FuelCan: "No. 3", Charge: "full"}, "accepted:"},
		{SizeOptions{FuelCan: "No. 3", Drills: "3, 4"}, "no unit"},
		{SizeOptions{FuelCan: "No. 3", Drills: "blue"}, "accepted: sets"},
	} {
		if _, err := c.o.wish(); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.o, err, c.want)
		}
	}
}

// Whatever is typed is read or refused, and what is refused says what would be
// accepted.
func FuzzWish(f *testing.F) {
	for _, s := range []string{"", "404x414", "strip:33 cm x 12 cm", "3, 4, 5 mm", "1/8, 3/16 in", "#7", "6:30", "2 cups", "metric", "x", "½ in x", "strip:x", ",,", "－3 mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, o := range []SizeOptions{
			{FuelCan: s}, {FuelCan: "No. 3", OuterCan: s}, {FuelCan: "No. 3", Pot: s}, {FuelCan: "No. 3", Water: s},
			{FuelCan: "No. 3", BoilIn: s}, {FuelCan: "No. 3", Charge: s}, {FuelCan: "No. 3", Drills: s},
		} {
			w, err := o.wish()
			if err != nil && !strings.Contains(err.Error(), "accepted:") {
				t.Fatalf("%q: %v", s, err)
			}
			if p := w.Pot; err == nil && o.Pot != "" && !(p.Diameter > 0 && p.Height > 0) {
				t.Fatalf("%q is read as a pot of %g x %g m", s, p.Diameter, p.Height)
			}
			for _, d := range w.Drills {
				if !(d.Diameter > 0) {
					t.Fatalf("%q is read as a drill of %g m", s, d.Diameter)
				}
			}
		}
	})
}
