package catalogue

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Every data file is read without fault, and every row names its source.
func TestDataFilesAreSound(t *testing.T) {
	ct, err := cans()
	if err != nil {
		t.Fatal(err)
	}
	dt, err := drills()
	if err != nil {
		t.Fatal(err)
	}
	cv, err := covers()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := gauges(); err != nil {
		t.Fatal(err)
	}
	if _, err := metals(); err != nil {
		t.Fatal(err)
	}
	if _, err := sheets(); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"cans.csv", "can_inside.csv", "sheet.csv", "gauge.csv", "metals.csv", "drills.csv", "steps.csv", "covers.csv"} {
		s, err := open(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.each(func(r *row) {
			if strings.TrimSpace(r.text("source")) == "" {
				t.Errorf("%s line %d: no source", file, r.line)
			}
		}); err != nil {
			t.Error(err)
		}
	}
	if len(ct.sizes) < 30 || len(dt.order) != 10 || len(cv.list) < 25 {
		t.Errorf("%d cans, %d sets, %d covers", len(ct.sizes), len(dt.order), len(cv.list))
	}
}

func TestCanIsFoundByManyNames(t *testing.T) {
	for text, want := range map[string]string{
		"No. 2 1/2": "No. 2 1/2", "No.2½": "No. 2 1/2", "#2.5": "No. 2 1/2", "number 2.5 can": "No. 2 1/2",
		"401x411": "No. 2 1/2", "401 × 411": "No. 2 1/2", "401 X 411": "No. 2 1/2", "28 oz": "No. 2 1/2",
		"#10": "No. 10", "No. 10 can": "No. 10", "10": "No. 10", "603x700": "No. 10", "3 lb coffee": "No. 10",
		"paint quart": "Paint quart", "quart paint can": "Paint quart", "1 quart paint": "Paint quart",
		"paint gallon": "Paint gallon", "610x708": "Paint gallon", "half gallon paint": "Paint half gallon",
		"404x414":  "No. 3", // a paint quart is as large, but goes by its name
		"15oz can": "No. 300", "303": "No. 303", "picnic": "No. 1 Picnic", "no 3 cyl": "No. 3 Cylinder",
		"8Z tall": "8Z Tall", "tuna can": "Tuna", "coffee can 2 lb": "2 lb coffee",
		"300x401":     "300x401", // valid, in no table
		"73 x 110 mm": "73x110 mm", "73x110": "73x110 mm", "99,2 x 119": "99,2x119 mm",
	} {
		c, err := Can(text)
		if err != nil || c.Name != want {
			t.Errorf("%q: %q %v, want %q", text, c.Name, err, want)
		}
	}
}

// What Can made is found again by its code, so a design file keeps its can.
func TestCodeFindsTheCanAgain(t *testing.T) {
	for _, text := range []string{"73 x 110", "99,2 x 119 mm", "300x401", "15 oz", "quart paint"} {
		c, err := Can(text)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := Can(c.Code); err != nil || again != c {
			t.Errorf("%q has the code %q, which finds %+v %v", text, c.Code, again, err)
		}
	}
}

func TestCanUnknown(t *testing.T) {
	for text, says := range map[string]string{
		"No. 4":   "No. 2",
		"paint":   "Paint pint",
		"":        "nearest",
		"401x416": "sixteenths",
		"900x900": "outside the range",
		"307x008": "too flat",
	} {
		c, err := Can(text)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %+v %v, want an error that says %q", text, c, err, says)
		}
	}
}

func TestDecodeCode(t *testing.T) {
	for code, want := range map[string][2]float64{
		"603x700":    {6.1875, 7},
		"603 × 700":  {6.1875, 7},
		"211 by 413": {2.6875, 4.8125},
		"603x1012":   {6.1875, 10.75},
		"202*214":    {2.125, 2.875},
	} {
		d, h, err := DecodeCode(code)
		if err != nil || math.Abs(d-want[0]*inch) > 1e-15 || math.Abs(h-want[1]*inch) > 1e-15 {
			t.Errorf("%q: %v %v %v, want %v in", code, d/inch, h/inch, err, want)
		}
	}
	for code, says := range map[string]string{
		"603x716":     "00 to 15",
		"620x700":     "00 to 15",
		"60x700":      "three digits",
		"60300x700":   "three digits",
		"0603x700":    "ten inches",
		"000x700":     "no size",
		"603":         "two numbers",
		"403x610x907": "rectangular",
		"6a3x700":     "three digits",
		"-03x700":     "three digits",
	} {
		if _, _, err := DecodeCode(code); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want an error that says %q", code, err, says)
		}
	}
}

func TestEncodeIsTheInverseOfDecode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.IntRange(16, 16*99+15).Draw(t, "diameter in sixteenths")
		h := rapid.IntRange(16, 16*99+15).Draw(t, "height in sixteenths")
		code := EncodeCode(float64(d)*sixteenth, float64(h)*sixteenth)
		dd, hh, err := DecodeCode(code)
		if err != nil || math.Abs(dd-float64(d)*sixteenth) > 1e-12 || math.Abs(hh-float64(h)*sixteenth) > 1e-12 {
			t.Fatalf("%d %d: %q %v %v %v", d, h, code, dd, hh, err)
		}
	})
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), 0.02, 3} {
		if EncodeCode(bad, 0.1) != "" {
			t.Errorf("%v has the code %q", bad, EncodeCode(bad, 0.1))
		}
	}
}

// The trap: code over the seam, body inside it, sheet between.
func TestEveryCanHoldsTogether(t *testing.T) {
	list := Cans()
	for i, c := range list {
		if !(c.BodyInside < c.BodyOutside && c.BodyOutside < c.OverSeam && c.HeightInside < c.HeightOverall) {
			t.Errorf("%s: inside %v, outside %v, over seam %v, height %v in %v", c.Name, c.BodyInside, c.BodyOutside, c.OverSeam, c.HeightInside, c.HeightOverall)
		}
		if less := c.OverSeam - c.BodyInside; less < 0.0014 || less > 0.0041 {
			t.Errorf("%s: body inside is %.2f mm below the code", c.Name, less*1e3)
		}
		if c.Wall < 0.1e-3 || c.Wall > 0.49e-3 || math.Abs(c.BodyOutside-c.BodyInside-2*c.Wall) > 1e-15 {
			t.Errorf("%s: wall %v", c.Name, c.Wall)
		}
		if (c.Family == "paint") != (c.Mouth > 0) || c.Mouth > c.BodyInside-0.016+1e-12 {
			t.Errorf("%s: mouth %v of body %v", c.Name, c.Mouth, c.BodyInside)
		}
		if i > 0 && list[i-1].BodyOutside > c.BodyOutside {
			t.Errorf("%s is out of order", c.Name)
		}
		for _, by := range []string{c.Name, c.Code} {
			if found, err := Can(by); err != nil || found != c {
				t.Errorf("%s is not found by its own %q but %s: %v", c.Name, by, found.Name, err)
			}
		}
		// What is filled in must go in, with no more than a tenth to spare.
		if c.Nominal && (c.Volume() < c.Capacity*0.998 || c.Volume() > c.Capacity*1.1) {
			t.Errorf("%s: %.0f mL inside for %.0f mL", c.Name, c.Volume()*1e6, c.Capacity*1e6)
		}
	}
}

func TestStripAndWrapAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.03, 0.3).Draw(t, "diameter")
		p := rapid.Float64Range(0, 0.5e-3).Draw(t, "paper")
		if got := FromStrip(WrapLength(d, p), p); math.Abs(got-d) > 1e-15 {
			t.Fatalf("%v came back as %v", d, got)
		}
	})
}

// A maker who lays a strip round any can of the table finds that can again.
func TestNearestCanFindsEveryCan(t *testing.T) {
	for _, c := range Cans() {
		got, wider, taller, err := NearestCan(FromStrip(WrapLength(c.BodyOutside, 1e-4), 1e-4), c.HeightOverall)
		if err != nil || got.BodyOutside != c.BodyOutside || got.HeightOverall != c.HeightOverall || math.Abs(wider) > 1e-9 || taller != 0 {
			t.Errorf("%s: found %s, wider %v, taller %v, %v", c.Name, got.Name, wider, taller, err)
		}
	}
	if _, _, _, err := NearestCan(0, 0.1); err == nil {
		t.Error("a body of no width was taken")
	}
	if _, _, _, err := NearestCan(math.NaN(), 0.1); err == nil {
		t.Error("NaN was taken")
	}
}

func TestDrillSets(t *testing.T) {
	for set, want := range map[string]struct {
		n           int
		first, last string
	}{
		"metric":                {227, "0.2 mm", "25 mm"},
		"metric half":           {25, "1 mm", "13 mm"},
		"fractional":            {64, "1/64 in", "1 in"},
		"number":                {80, "#80", "#1"},
		"letter":                {26, "A", "Z"},
		"step metric 4-12":      {9, "4 mm", "12 mm"},
		"step metric 4-20":      {9, "4 mm", "20 mm"},
		"step metric 4-32":      {15, "4 mm", "32 mm"},
		"step metric 6-30":      {13, "6 mm", "30 mm"},
		"step inch 1/8-1/2":     {13, "1/8 in", "1/2 in"},
		" Step  Inch  1/8-1/2 ": {13, "1/8 in", "1/2 in"},
	} {
		list, err := Drills(set)
		if err != nil || len(list) != want.n || list[0].Name != want.first || list[len(list)-1].Name != want.last {
			t.Errorf("%s: %d, %v, want %+v", set, len(list), err, want)
			continue
		}
		for i, d := range list {
			if i > 0 && list[i-1].Diameter >= d.Diameter {
				t.Errorf("%s: %s is not above %s", set, d.Name, list[i-1].Name)
			}
			if math.Abs(d.Area-math.Pi/4*d.Diameter*d.Diameter) > 1e-18 {
				t.Errorf("%s %s: area %v", set, d.Name, d.Area)
			}
			back, err := ParseDrill(d.Name)
			if err != nil || back.Diameter != d.Diameter {
				t.Errorf("%s %s is read as %+v %v", set, d.Name, back, err)
			}
		}
	}
	if len(DrillSets()) != 10 {
		t.Errorf("sets: %v", DrillSets())
	}
	if _, err := Drills("whitworth"); err == nil || !strings.Contains(err.Error(), "metric half") {
		t.Errorf("an unknown set: %v", err)
	}
}

func TestParseDrill(t *testing.T) {
	for text, want := range map[string]Drill{
		"5/8 in": {Set: "fractional", Name: "5/8 in"}, "5/8": {Set: "fractional", Name: "5/8 in"}, `5/8"`: {Set: "fractional", Name: "5/8 in"}, "⅝": {Set: "fractional", Name: "5/8 in"},
		"#7": {Set: "number", Name: "#7"}, "No. 7": {Set: "number", Name: "#7"}, "no 7": {Set: "number", Name: "#7"}, "0.201 in": {Set: "number", Name: "#7"},
		"F": {Set: "letter", Name: "F"}, "letter f": {Set: "letter", Name: "F"},
		"6 mm": {Set: "metric", Name: "6 mm"}, "6": {Set: "metric", Name: "6 mm"}, "6,5 mm": {Set: "metric", Name: "6.5 mm"},
		"32 mm": {Set: "step metric 4-32", Name: "32 mm"},
	} {
		got, err := ParseDrill(text)
		if err != nil || got.Set != want.Set || got.Name != want.Name {
			t.Errorf("%q: %+v %v, want %s %s", text, got, err, want.Set, want.Name)
		}
	}
	for text, says := range map[string]string{
		"#81": "#80 to #1", "60 mm": "nearest is 32 mm", "6.04 mm": "nearest is", "drill": "a number (#7)", "": "wanted", "1 kg": "unit of mass",
	} {
		if _, err := ParseDrill(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want an error that says %q", text, err, says)
		}
	}
}

func TestNearestDrill(t *testing.T) {
	half, err := Drills("metric half")
	if err != nil {
		t.Fatal(err)
	}
	d, off := Nearest(6.2e-3, half)
	if d.Name != "6 mm" || math.Abs(off-(36/38.44-1)) > 1e-12 {
		t.Errorf("6.2 mm: %+v %v", d, off)
	}
	if d, off := Nearest(6e-3, nil); d != (Drill{}) || off != -1 {
		t.Errorf("no drills: %+v %v", d, off)
	}
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Float64Range(1e-3, 13e-3).Draw(t, "diameter")
		got, off := Nearest(want, half)
		for _, other := range half {
			if e := math.Abs(other.Area/(math.Pi/4*want*want) - 1); e < math.Abs(off)-1e-12 {
				t.Fatalf("%v: %s is nearer than %s", want, other.Name, got.Name)
			}
		}
	})
}

func TestMetalsAndSheet(t *testing.T) {
	for _, name := range []string{"tinplate", "steel", "stainless", "aluminium", "galvanised", "copper", "titanium", "Aluminum", "galvanized steel", "mild steel"} {
		m, err := MetalNamed(name)
		if err != nil || m.Density < 1000 || m.Melts < 900 {
			t.Errorf("%s: %+v %v", name, m, err)
		}
	}
	zinc, _ := MetalNamed("galvanised")
	if !strings.Contains(zinc.Caution, "never") || zinc.CoatingMelts > zinc.Melts {
		t.Errorf("galvanised sheet must carry its caution: %+v", zinc)
	}
	if _, err := MetalNamed("wood"); err == nil {
		t.Error("wood was taken for a metal")
	}
	for _, s := range Sheets() {
		if !(s.Low <= s.Typical && s.Typical <= s.High) || s.High > 0.49e-3 {
			t.Errorf("%+v", s)
		}
	}
	for g := 10; g < 31; g++ {
		a, errA := GaugeThickness(g)
		b, errB := GaugeThickness(g + 1)
		if errA != nil || errB != nil || a <= b {
			t.Errorf("gauge %d: %v %v, next %v %v", g, a, errA, b, errB)
		}
	}
	if _, err := GaugeThickness(32); err == nil {
		t.Error("gauge 32 was found")
	}
	if len(Metals()) != 7 {
		t.Errorf("%d metals", len(Metals()))
	}
}

func TestCovers(t *testing.T) {
	for name, want := range map[string]string{
		"dry litter": "dry litter", "mineral soil": "mineral soil", "sand": "dry loose sand", "steel plate": "steel plate",
		"tile": "tile", "brick": "brick", " Grass ": "dry grass", "clay": "dry clay", "peat": "dry peat", "lawn": "green grass",
		"snow": "packed snow", "rock": "rock", "concrete": "concrete", "wood deck": "wood deck", "Picnic  Table": "wood deck",
		"wet peat": "wet peat", "duff": "dry duff", "moist sand": "moist sand", "moist clay": "moist clay",
	} {
		c, err := Cover(name)
		if err != nil || c.Name != want {
			t.Errorf("%q: %q %v, want %q", name, c.Name, err, want)
		}
	}
	if _, err := Cover("lava"); err == nil || !strings.Contains(err.Error(), "nearest") {
		t.Errorf("lava: %v", err)
	}
	for _, c := range Covers() {
		if c.Density <= 0 || c.Conductivity <= 0 || c.HeatCapacity <= 0 || c.Spread <= 1 {
			t.Errorf("%+v", c)
		}
		if c.Combustible && (c.Limit < 320 || c.Note == "") {
			t.Errorf("%s burns but has no limit or note", c.Name)
		}
		switch c.Moisture {
		case "dry":
			if c.Water != 0 {
				t.Errorf("%s is dry with water %v", c.Name, c.Water)
			}
		case "moist", "wet":
			if c.Water <= 0 {
				t.Errorf("%s has no water", c.Name)
			}
		case "frozen":
		default:
			t.Errorf("%s: moisture %q", c.Name, c.Moisture)
		}
	}
}

// Water only adds to the heat a ground takes up and to how it conducts.
func TestWetGroundStaysCooler(t *testing.T) {
	for _, pair := range [][2]string{{"dry loose sand", "moist sand"}, {"moist sand", "wet sand"}, {"dry clay", "moist clay"}, {"moist clay", "wet clay"},
		{"dry peat", "wet peat"}, {"wet peat", "saturated peat"}, {"dry duff", "moist duff"}, {"mineral soil", "moist mineral soil"}, {"dry grass", "green grass"}} {
		dry, err := Cover(pair[0])
		if err != nil {
			t.Fatal(err)
		}
		wet, err := Cover(pair[1])
		if err != nil {
			t.Fatal(err)
		}
		if wet.Effusivity() <= dry.Effusivity() || wet.VolumetricHeat() <= dry.VolumetricHeat() {
			t.Errorf("%s is not cooler than %s", wet.Name, dry.Name)
		}
	}
}

// Heat capacities add, water's being 4.18 MJ/(m3 K), so the moist rows follow
// from the dry ones (de Vries 1963).
func TestHeatCapacitiesOfMoistGroundAdd(t *testing.T) {
	const water = 4.18e6
	for _, pair := range [][2]string{{"dry loose sand", "moist sand"}, {"dry loose sand", "wet sand"}, {"dry clay", "moist clay"}, {"dry clay", "wet clay"},
		{"dry peat", "wet peat"}, {"dry peat", "saturated peat"}, {"dry duff", "moist duff"}, {"dry grass", "green grass"}} {
		dry, _ := Cover(pair[0])
		wet, _ := Cover(pair[1])
		want := dry.VolumetricHeat() + wet.Water*water
		if math.Abs(wet.VolumetricHeat()/want-1) > 0.01 {
			t.Errorf("%s: %.3g, dry and water give %.3g", wet.Name, wet.VolumetricHeat(), want)
		}
		if wet.Density <= dry.Density || math.Abs(wet.Density-dry.Density-1000*wet.Water) > 15 {
			t.Errorf("%s: density %v from %v and %v of water", wet.Name, wet.Density, dry.Density, wet.Water)
		}
	}
}

func TestOpenFractions(t *testing.T) {
	if s, q := OpenStaggered(1, 1), OpenSquare(1, 1); math.Abs(s-0.9069) > 1e-4 || math.Abs(q-0.7854) > 1e-4 {
		t.Errorf("touching holes leave %v and %v open", s, q)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(2e-3, 20e-3).Draw(t, "pitch")
		d := rapid.Float64Range(0.1, 0.95).Draw(t, "ratio") * p
		if s, q := OpenStaggered(d, p), OpenSquare(d, p); s <= q || s >= 1 {
			t.Fatalf("staggered %v, square %v", s, q)
		}
	})
}

func FuzzNames(f *testing.F) {
	for _, s := range []string{"No. 2 1/2", "401x411", "73 x 110 mm", "paint quart", "#7", "5/8", "F", "x", "xx", "1x1mm", "٣x٤", "999x999", "0x0 mm", "1e9x100mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if c, err := Can(s); err == nil && !(c.BodyInside > 0 && c.HeightInside > 0 && c.BodyInside < c.OverSeam) {
			t.Fatalf("%q: %+v", s, c)
		}
		if d, err := ParseDrill(s); err == nil && !(d.Diameter > 0) {
			t.Fatalf("%q: %+v", s, d)
		}
		if c, err := Cover(s); err == nil && c.Name == "" {
			t.Fatalf("%q: %+v", s, c)
		}
	})
}
