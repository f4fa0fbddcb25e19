package firing

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// anyFiring draws a firing a design file can hold: every value in range,
// amounts as any float64, not only round ones.
func anyFiring(t *rapid.T) *Firing {
	f := &Firing{}
	in := func(key string) func(least, most float64) float64 {
		return func(least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, key) }
	}
	metal := func() stove.Metal { return rapid.SampledFrom(metals()).Draw(t, "metal") }
	can := func() stove.Can {
		c := stove.Can{
			Diameter: in("diameter")(0.03, 0.6), Height: in("height")(0.02, 1), Wall: in("wall")(0.05e-3, 5e-3), Metal: metal(),
			Surface:  rapid.SampledFrom([]stove.Surface{stove.Bright, stove.Melted, stove.Oxidised, stove.Painted}).Draw(t, "surface"),
			OpenBase: rapid.Bool().Draw(t, "open base"), Code: rapid.SampledFrom([]string{"", "401x411", "404x700", "603x700"}).Draw(t, "code"),
		}
		if rapid.Bool().Draw(t, "has mouth") {
			c.Mouth = in("mouth")(0.01, 0.6)
		}
		return c
	}
	name := rapid.StringOfN(rapid.RuneFrom([]rune("ab 12\"\\#=\t[]é☃µ'\n")), 0, 20, -1)
	d := &f.Design
	d.Name, d.FuelCan, d.Standoff = name.Draw(t, "name"), can(), in("standoff")(0, 0.3)
	d.Lift = in("lift")(0, 0.3)
	if rapid.Bool().Draw(t, "outer") {
		c := can()
		d.OuterCan = &c
		d.Annulus = in("annulus")(0, 0.05)
	}
	hole := func() stove.Hole {
		h := stove.Hole{Shape: rapid.SampledFrom([]stove.Shape{stove.Round, stove.Slot, stove.Rectangle, stove.Triangle}).Draw(t, "shape"), Width: in("hole")(holeLeast, holeMost)}
		if h.Shape != stove.Round {
			h.Height = in("hole height")(holeLeast, holeMost)
		}
		return h
	}
	for range rapid.IntRange(0, 4).Draw(t, "rows") {
		r := stove.Row{
			Name: name.Draw(t, "row"), On: rapid.SampledFrom(stove.Places()).Draw(t, "on"), Count: rapid.IntRange(1, 1000).Draw(t, "count"), Hole: hole(),
			Edge: rapid.SampledFrom([]stove.Edge{stove.Drilled, stove.PunchedIn, stove.PunchedOut}).Draw(t, "edge"), Slant: in("slant")(-1.39, 1.39),
		}
		if !r.OnBase() {
			r.Height = in("row height")(0.5e-3, 2)
		} else if rapid.Bool().Draw(t, "on a circle") {
			r.Circle = in("circle")(1e-3, 0.6)
		}
		d.Rows = append(d.Rows, r)
	}
	if rapid.Bool().Draw(t, "ring") {
		d.Ring = &stove.Ring{Bore: in("bore")(5e-3, 0.5), Wall: in("wall")(0.05e-3, 0.01), Metal: metal(), Height: in("height")(0, 0.3), Slits: rapid.IntRange(0, 64).Draw(t, "slits"), Slit: in("slit")(0, 0.1), Twist: in("twist")(-1.5, 1.5)}
	}
	if rapid.Bool().Draw(t, "riser") {
		d.Riser = &stove.Riser{Bore: in("bore")(0.01, 0.6), Height: in("height")(5e-3, 3), Wall: in("wall")(0.05e-3, 0.01), Metal: metal()}
	}
	if rapid.Bool().Draw(t, "stand") {
		d.Stand = &stove.Stand{Diameter: in("diameter")(0.02, 0.8), Height: in("height")(1e-3, 1), Closed: rapid.Bool().Draw(t, "closed"), Wall: in("wall")(0.05e-3, 0.02), Metal: metal(), Gap: in("gap")(0, 0.2)}
	}
	if rapid.Bool().Draw(t, "skirt") {
		d.Skirt = &stove.Skirt{Gap: in("gap")(0.5e-3, 0.1), Height: in("height")(5e-3, 0.5)}
	}
	for range rapid.IntRange(0, 2).Draw(t, "shields") {
		d.Shields = append(d.Shields, stove.Shield{Under: rapid.Bool().Draw(t, "under"), Gap: in("gap")(0.2e-3, 0.2)})
	}
	cover := func() string { return rapid.SampledFrom(catalogue.Covers()).Draw(t, "cover").Name }
	if rapid.Bool().Draw(t, "plate") {
		d.Plate = &stove.Plate{Material: cover(), Thickness: in("thickness")(0.1e-3, 0.3), Gap: in("gap")(0, 0.3), Diameter: in("diameter")(0.02, 3)}
	}
	if rapid.Bool().Draw(t, "fan") {
		d.Fan = stove.Fan{Primary: in("primary")(1e-6, 0.02), Secondary: in("secondary")(0, 0.02)}
	}
	c := &f.Conditions
	c.Fuel = Fuel{Species: rapid.SampledFrom(fuel.Catalogue()).Draw(t, "species").Name, Moisture: in("moisture")(0, 0.7), BulkDensity: in("bulk")(20, 1200), Size: in("size")(0.3e-3, 0.1), Fines: in("fines")(0, 0.5)}
	if rapid.Bool().Draw(t, "analysed") {
		c.Fuel.Carbon, c.Fuel.Hydrogen, c.Fuel.Nitrogen, c.Fuel.Ash = in("carbon")(0.45, 0.52), in("hydrogen")(0.04, 0.07), in("nitrogen")(0, 0.01), in("ash")(0, 0.02)
		c.Fuel.Oxygen = 1 - c.Fuel.Carbon - c.Fuel.Hydrogen - c.Fuel.Nitrogen - c.Fuel.Ash
	}
	if rapid.Bool().Draw(t, "long pieces") {
		c.Fuel.Length = in("length")(0.3e-3, 1)
	}
	switch rapid.IntRange(0, 2).Draw(t, "charge by") {
	case 0:
		c.Charge.Mass = in("mass")(1e-3, 20)
	case 1:
		c.Charge.Volume = in("volume")(1e-6, 0.05)
	case 2:
		c.Charge.Depth = in("depth")(3e-3, 1)
	}
	c.Starter = Starter{Kind: rapid.SampledFrom(starterNames()).Draw(t, "starter"), Mass: in("starter")(0.1e-3, 1)}
	c.Air = Air{Temperature: in("air")(228.15, 333.15), Pressure: in("pressure")(45000, 110000), Humidity: in("humidity")(0, 1), Wind: in("wind")(0, 20), Gusts: in("gusts")(0, 2), Shelter: rapid.SampledFrom([]Shelter{Open, Windscreen, Shroud}).Draw(t, "shelter")}
	if rapid.Bool().Draw(t, "pot") {
		c.Pot = &Pot{Mass: in("pot")(5e-3, 20), Metal: metal(), Diameter: in("diameter")(0.03, 0.8), Height: in("height")(0.01, 0.8), Lid: rapid.Bool().Draw(t, "lid")}
		c.Water = Water{Mass: in("water")(0, 50), Temperature: in("water at")(273.15, 373.15)}
		if rapid.Bool().Draw(t, "target") {
			c.Water.Target = in("target")(293.15, 373.15)
		}
	}
	c.Ground = Ground{Cover: cover()}
	if rapid.Bool().Draw(t, "layered") {
		c.Ground.Depth, c.Ground.Below = in("layer")(1e-3, 2), cover()
	}
	moments := []Moment{""}
	for _, m := range Moments() {
		if m.Moment != Lit {
			moments = append(moments, m.Moment)
		}
	}
	for range rapid.IntRange(0, 5).Draw(t, "acts") {
		at := in("at")(0, latest)
		if rapid.Bool().Draw(t, "whole seconds") {
			at = math.Round(at)
		}
		c.Schedule = append(c.Schedule, Action{rapid.SampledFrom(Acts()).Draw(t, "act"), at, rapid.SampledFrom(moments).Draw(t, "after")})
	}
	if c.Pot != nil { // else one would be assumed
		c.Schedule = append(c.Schedule, Action{Do: PotOn, At: 60})
	}
	SortSchedule(c.Schedule)
	if rapid.Bool().Draw(t, "warm") {
		c.Warm = in("warm")(230, 900)
	}
	eachKey(f, func(k Key, i int, list bool) {
		if k.write != nil && k.applies(f, i) && k.write(f, i, quantity.Metric) != "" && k.Name != "format" && rapid.IntRange(0, 9).Draw(t, "assumed") == 0 {
			f.Assumed = append(f.Assumed, keyPath(k.Table, i, list, k.Name))
		}
	})
	return f
}

// What is written reads back the same to the last bit, in either system of
// units, marks included; and writing that again gives the same text.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyFiring(t)
		opts := Options{Units: rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US}).Draw(t, "units"), Bare: rapid.Bool().Draw(t, "bare"), Reasons: map[string]string{"fuel_can.diameter": "measured\nwith a strip", "ring": "why not"}}
		var b bytes.Buffer
		if err := Write(&b, f, opts); err != nil {
			t.Fatal(err)
		}
		g, err := Read(bytes.NewReader(b.Bytes()), "file.toml")
		if err != nil {
			t.Fatalf("%v\n%s", err, b.String())
		}
		if d := cmp.Diff(f, g); d != "" {
			t.Fatalf("%s\n%s", d, b.String())
		}
		var again bytes.Buffer
		if err := Write(&again, g, opts); err != nil || again.String() != b.String() {
			t.Fatalf("written again: %v\n%s", err, cmp.Diff(b.String(), again.String()))
		}
		if len(Difference(*f, *g)) != 0 {
			t.Fatalf("differs from itself: %v", Difference(*f, *g))
		}
		for _, x := range Check(*g) { // must not fail on anything readable
			if x.Severity == stove.Error && x.Accept == "" {
				t.Fatalf("does not say what is accepted: %s", x)
			}
		}
	})
}

// The golden files: as a maker wrote it, and beside it what is written when
// it is read.
func TestGolden(t *testing.T) {
	files, err := filepath.Glob("testdata/golden/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, path := range files {
		if strings.HasSuffix(path, ".complete.toml") {
			continue
		}
		n++
		t.Run(filepath.Base(path), func(t *testing.T) {
			f, err := ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			opts := Options{}
			if strings.Contains(path, "inches") {
				opts.Units = quantity.US
			}
			var b bytes.Buffer
			if err := Write(&b, f, opts); err != nil {
				t.Fatal(err)
			}
			golden := strings.TrimSuffix(path, ".toml") + ".complete.toml"
			if *update {
				if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(string(want), b.String()); d != "" {
				t.Error(d)
			}
			g, err := Read(bytes.NewReader(b.Bytes()), golden)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(f, g); d != "" {
				t.Error(d)
			}
			for _, x := range Check(*f) {
				if x.Severity == stove.Error {
					t.Errorf("%s", x)
				}
			}
		})
	}
	if n < 4 {
		t.Errorf("only %d golden files", n)
	}
}

// Whatever the bytes, Read answers with a firing or with lines, and what it
// reads it writes and reads again.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"testdata/broken/*.toml", "testdata/golden/*.toml"} {
		files, _ := filepath.Glob(pattern)
		for _, path := range files {
			text, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(text)
		}
	}
	f.Add([]byte("format=1\nfuel_can={can=\"404x700\"}\nrow=[{on=\"fuel can base\",count=9,hole=\"F\"}]\n"))
	f.Add([]byte("format=1\nfuel_can.can=\"404x700\"\nwater.mass=\"1 cup\"\n[pot]\n[[shield]]\n[[shield]]\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		got, problems := Examine(bytes.NewReader(src), "fuzz.toml")
		if got == nil {
			if len(problems) == 0 {
				t.Fatal("nothing read and nothing said")
			}
			for _, p := range problems {
				if line := p.Error(); strings.ContainsAny(line, "\n\r") {
					t.Fatalf("more than one line: %q", line)
				}
			}
			return
		}
		var b bytes.Buffer
		if err := Write(&b, got, Options{}); err != nil {
			t.Fatal(err)
		}
		again, err := Read(bytes.NewReader(b.Bytes()), "again.toml")
		if err != nil {
			t.Fatalf("%v\n%s", err, b.String())
		}
		if d := cmp.Diff(got, again); d != "" {
			t.Fatalf("%s\n%s", d, b.String())
		}
	})
}

func TestReadReports(t *testing.T) {
	if _, err := Read(failing{}, "x"); err == nil || !strings.Contains(err.Error(), "x: ") {
		t.Errorf("a failing reader: %v", err)
	}
	if _, p := Examine(failing{}, "x"); len(p) != 1 {
		t.Errorf("a failing reader: %v", p)
	}
	if _, err := Read(bytes.NewReader(make([]byte, largest+2)), "x"); err == nil || !strings.Contains(err.Error(), "too long") {
		t.Errorf("a long file: %v", err)
	}
	if _, err := ReadFile("testdata/none.toml"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	// several things wrong: a line each, in file order
	_, err := Read(strings.NewReader("format = 1\nstandof = \"1 cm\"\n[fuel_can]\ncan = \"404x700\"\nwall = \"3\"\n[ring]\nbore = \"2 kg\"\n[charge]\nmass = 5\n"), "f.toml")
	var list Problems
	if !errors.As(err, &list) || len(list) != 4 || strings.Count(err.Error(), "\n") != 3 {
		t.Fatalf("%v", err)
	}
	for i, line := range []int{2, 5, 7, 9} {
		if list[i].Line != line {
			t.Errorf("problem %d on line %d, want %d", i, list[i].Line, line)
		}
	}
	var one Problem
	if !errors.As(err, &one) || one.Key != "standof" {
		t.Errorf("first problem: %+v", one)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("wire cut") }
