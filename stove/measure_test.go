package stove

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: got %g, want %g ± %g", what, got, want, tol)
	}
}

func TestHoles(t *testing.T) {
	for _, c := range []struct {
		hole            Hole
		area, perimeter float64 // mm², mm
		text            string
	}{
		{Hole{Round, 6e-3, 0}, 28.2743, 18.8496, "6 mm"},
		{Hole{Width: 6e-3}, 28.2743, 18.8496, "6 mm"},
		{Hole{Slot, 12e-3, 3e-3}, 9*3 + 7.06858, 18 + 9.42478, "12 x 3 mm slot"},
		{Hole{Slot, 3e-3, 12e-3}, 9*3 + 7.06858, 18 + 9.42478, "3 x 12 mm slot"},
		{Hole{Rectangle, 12e-3, 3e-3}, 36, 30, "12 x 3 mm rectangle"},
		{Hole{Triangle, 8e-3, 3e-3}, 12, 18, "8 x 3 mm triangle"},
	} {
		near(t, c.text+" area", c.hole.Area()*1e6, c.area, 1e-4)
		near(t, c.text+" perimeter", c.hole.Perimeter()*1e3, c.perimeter, 1e-4)
		near(t, c.text+" hydraulic", c.hole.Hydraulic()*1e3, 4*c.area/c.perimeter, 1e-4)
		if got := c.hole.String(); got != c.text {
			t.Errorf("%q, want %q", got, c.text)
		}
	}
}

// A slot lies between its inscribed and its circumscribed rectangle, and a
// slot as tall as wide is a round hole.
func TestSlotBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(1e-3, 0.05).Draw(t, "w")
		h := rapid.Float64Range(1e-3, 0.05).Draw(t, "h")
		a := Hole{Slot, w, h}.Area()
		if a > w*h*(1+1e-12) || a < w*h*math.Pi/4*(1-1e-12) {
			t.Fatalf("slot %g × %g: %g", w, h, a)
		}
		if r := (Hole{Slot, w, w}).Area() / (Hole{Round, w, 0}).Area(); math.Abs(r-1) > 1e-12 {
			t.Fatalf("round slot: %g", r)
		}
	})
}

func TestRatios(t *testing.T) {
	d := sound()
	level, ok := d.JetLevel()
	if !ok {
		t.Fatal("no jets")
	}
	near(t, "jet level", level, 0.1025, 1e-9)
	near(t, "primary", d.Primary(level)*1e6, 16*math.Pi*4, 1e-6)
	near(t, "secondary", d.Secondary(level)*1e6, 16*math.Pi/4*25, 1e-6)
	r, ok := d.SecondaryToPrimary(level)
	if !ok {
		t.Fatal("no ratio")
	}
	near(t, "ratio", r, 25.0/16, 1e-9)
	// fuel over the jets: they count as primary, and nothing is left above
	if _, ok := d.SecondaryToPrimary(0.119); ok {
		t.Error("a ratio without secondary holes")
	}
	near(t, "to jets over brim-full", d.ToJets()/d.Brimful(), 102.5/118.8, 1e-9)
	near(t, "depth of its own volume", d.DepthOf(d.VolumeTo(0.05)), 0.05, 1e-12)
	near(t, "annulus", d.AnnulusGap(), 9.3e-3, 1e-9)
	near(t, "annulus area", d.AnnulusArea()*1e6, math.Pi/4*(117.6*117.6-99*99), 1e-3)
	near(t, "inlet", d.Inlet()*1e6, 14*math.Pi*16, 1e-6)
	s := d.Stack()
	near(t, "rim", s.FuelRim, 0.2e-3+0.020+0.119, 1e-12)
	near(t, "pot base", s.PotBase, s.FuelRim+0.050, 1e-12)
	near(t, "height", d.Height(), s.FuelRim+0.040, 1e-12)
	d.Annulus = 5e-3
	near(t, "slot", d.TopSlotArea()*1e6, math.Pi/4*(109*109-99*99), 1e-6)
	d.Ring.Slits, d.Ring.Slit, d.Ring.Twist = 8, 0.01, 0
	near(t, "flat tongues", d.Ring.Open(), d.Ring.Area(), 1e-12)
	d.Ring.Twist = math.Pi / 2
	near(t, "upright tongues", d.Ring.Open(), disc(0.090), 1e-12)
	mid := Design{FuelCan: Can{Diameter: 0.1, Height: 0.12}, Rows: []Row{{On: FuelBody, Count: 8, Hole: Hole{Round, 4e-3, 0}, Height: 0.07}}}
	if level, ok := mid.JetLevel(); !ok || math.Abs(level-0.068) > 1e-12 {
		t.Errorf("a row just above the middle: %v %v", level, ok)
	}
}

func TestWeigh(t *testing.T) {
	plain := Design{FuelCan: Can{Diameter: 0.1, Height: 0.1, Wall: 1e-3, Metal: MildSteel}}
	near(t, "plain can", plain.Weigh().Mass(), 7850*1e-3*(math.Pi*0.099*0.1+math.Pi/4*0.01), 1e-9)
	plain.FuelCan.OpenBase = true
	near(t, "tube", plain.Weigh().Mass(), 7850*1e-3*math.Pi*0.099*0.1, 1e-9)
	w := sound().Weigh()
	if m := w.Mass(); m < 0.10 || m > 0.25 {
		t.Errorf("two food cans, ring and stand: %g kg", m)
	}
	d := sound()
	d.Skirt, d.Shields, d.Stand.Closed = &Skirt{}, []Shield{{}}, false
	if n := len(d.Weigh().NotCounted); n != 3 {
		t.Errorf("not counted: %v", d.Weigh().NotCounted)
	}
	// holes make it lighter by exactly their sheet
	more := sound()
	more.Rows[1].Count *= 2
	near(t, "holes", w.Mass()-more.Weigh().Mass(), sound().Rows[1].Area()*0.2e-3*7850, 1e-12)
	table, err := Metals()
	if err != nil || len(table) != 7 {
		t.Fatalf("metals: %v %v", table, err)
	}
	for _, row := range table {
		if row.Source == "" || row.Density <= 0 {
			t.Errorf("metal row %+v", row)
		}
	}
}

func TestTip(t *testing.T) {
	d := sound()
	empty := d.Stability()
	full := d.Stability(d.FuelLoad(0.25, 0.09), Load{"pot", 0.2, d.Stack().PotBase + 0.03}, Load{"water", 1, d.Stack().PotBase + 0.05})
	if !(full.Angle < empty.Angle) || full.Height <= empty.Height {
		t.Errorf("a full pot on top must make it less steady: %+v %+v", empty, full)
	}
	near(t, "flat", TipAngle(0.05, 0), math.Pi/2, 0)
	rapid.Check(t, func(t *rapid.T) {
		a := Load{Mass: rapid.Float64Range(1e-3, 5).Draw(t, "m"), Height: rapid.Float64Range(0, 1).Draw(t, "h")}
		b := Load{Mass: rapid.Float64Range(1e-3, 5).Draw(t, "m2"), Height: rapid.Float64Range(0, 1).Draw(t, "h2")}
		if m, h := Centre(a, b); math.Abs(m-a.Mass-b.Mass) > 1e-9 || h < math.Min(a.Height, b.Height)-1e-9 || h > math.Max(a.Height, b.Height)+1e-9 {
			t.Fatalf("centre %g %g", m, h)
		}
	})
}

func TestPack(t *testing.T) {
	d := sound()
	pot := Vessel{"pot", 0.135, 0.09, 0.132, 0.088}
	p := Pack(append(d.Vessels(), pot)...)
	// outer can stands in the pot, fuel can in the outer, stand over nothing
	near(t, "diameter", p.Diameter, 0.135, 1e-9)
	if p.Height > 0.36 {
		t.Errorf("height %g: %v", p.Height, p.Inside)
	}
	found := false
	for _, f := range p.Fits {
		if f.Inner == "fuel can" && f.Outer == "outer can" {
			found = true
			near(t, "clearance", f.Clearance, 0.0186, 1e-9)
		}
	}
	if !found {
		t.Errorf("fuel can in outer can not among %v", p.Fits)
	}
	if got := Pack(); got.Height != 0 || got.Diameter != 0 {
		t.Errorf("nothing: %+v", got)
	}
	many := make([]Vessel, 9)
	for i := range many {
		many[i] = Vessel{fmt.Sprint(i), 0.1, 0.1, 0.09, 0.1}
	}
	near(t, "many end to end", Pack(many...).Height, 0.9, 1e-9)
}

// Packing never needs more room than laying all end to end, nor less than its
// tallest and widest piece.
func TestPackBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var v []Vessel
		sum, tall, wide := 0.0, 0.0, 0.0
		for i := range rapid.IntRange(1, 5).Draw(t, "n") {
			dia := rapid.Float64Range(0.02, 0.2).Draw(t, "diameter")
			h := rapid.Float64Range(0.01, 0.2).Draw(t, "height")
			v = append(v, Vessel{fmt.Sprint(i), dia, h, dia * rapid.Float64Range(0, 1.1).Draw(t, "bore"), h * rapid.Float64Range(0, 1).Draw(t, "depth")})
			sum += h
			tall, wide = math.Max(tall, h), math.Max(wide, dia)
		}
		p := Pack(v...)
		if p.Height > sum+1e-9 || p.Height < tall-1e-9 || p.Diameter != wide {
			t.Fatalf("%+v of %+v", p, v)
		}
	})
}

func ExampleDesign_SecondaryToPrimary() {
	d := Design{
		FuelCan: Can{Diameter: 66e-3, Height: 115e-3},
		Rows: []Row{
			{On: FuelBase, Count: 12, Hole: Hole{Shape: Round, Width: 3.175e-3}},
			{On: FuelBody, Count: 10, Hole: Hole{Shape: Round, Width: 4.7625e-3}, Height: 102.3e-3},
		},
	}
	level := d.FillLevel()
	r, _ := d.SecondaryToPrimary(level)
	fmt.Printf("below the fuel level %.0f mm², above it %.0f mm², ratio %.2f\n", d.Primary(level)*1e6, d.Secondary(level)*1e6, r)
	// Output: below the fuel level 95 mm², above it 178 mm², ratio 1.88
}

func ExampleTipAngle() {
	// a can of 100 mm diameter with its full pot: centre of gravity at 170 mm
	fmt.Printf("%.0f°\n", TipAngle(0.050, 0.170)*180/math.Pi)
	// Output: 16°
}
