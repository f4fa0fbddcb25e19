package quantity

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func mustNumber(t *testing.T, s string) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		t.Fatalf("%q is no number", s)
	}
	return r
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		si   float64
		sys  System
		want string
	}{
		{Length, 0.10795, Metric, "107.95 mm"},
		{Length, 0.10795, US, "4 1/4 in"},
		{Length, 0.015875, US, "5/8 in"},
		{Length, 0.016, US, "0.6299212598425197 in"},
		{Length, 0.0127, US, "1/2 in"},
		{Length, -0.0127, US, "-1/2 in"},
		{Length, 1600, Metric, "1600 m"},
		{Length, 1584.96, US, "5200 ft"},
		{Length, 0, US, "0 in"},
		{Mass, 0.35, Metric, "350 g"},
		{Mass, 0.226796185, US, "8 oz"},
		{Volume, 0.0002365882365, US, "1 cup"},
		{Volume, 0.0002365882365, Metric, "236.5882365 mL"},
		{Volume, 0.0002365882365 / 3, US, "1/3 cup"},
		{Temperature, 293.15, Metric, "20 °C"},
		{Temperature, 293.15, US, "68 °F"},
		{Temperature, 0, Metric, "-273.15 °C"},
		{Pressure, 101325, Metric, "1013.25 hPa"},
		{Pressure, 1.2, Metric, "1.2 Pa"},
		{Time, 275, Metric, "275 s"},
		{Ratio, 0.08, Metric, "8 %"},
		{Ratio, 1.0 / 3, Metric, "33.33333333333333 %"},
		{Angle, math.Pi / 6, US, "30°"},
		{VolumeFlow, 0.0002, Metric, "12 L/min"},
		{Density, 650, Metric, "650 kg/m3"},
		{Length, 1e300, Metric, "1e300 m"},
		{Length, 5e-324, Metric, "5e-321 mm"},
		{Length, math.NaN(), Metric, "NaN"},
		{Length, math.Inf(1), US, "+Inf"},
	} {
		if got := Format(c.kind, c.si, c.sys); got != c.want {
			t.Errorf("%s %v %s: got %q, want %q", c.kind, c.si, c.sys, got, c.want)
		}
	}
}

// roundTrip is the promise of Format.
func roundTrip(t interface{ Fatalf(string, ...any) }, k Kind, si float64, sys System) {
	text := Format(k, si, sys)
	back, err := Parse(k, text)
	if err != nil || back != si {
		t.Fatalf("%s %.17g %s: written %q, read back %.17g (%v)", k, si, sys, text, back, err)
	}
}

func TestFormatRoundTripsToTheLastBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, int(kindCount)-1).Draw(t, "kind"))
		sys := System(rapid.IntRange(0, 1).Draw(t, "system"))
		var si float64
		if rapid.Bool().Draw(t, "everyday size") {
			si = rapid.Float64Range(-2000, 2000).Draw(t, "si")
		} else {
			si = rapid.Float64().Draw(t, "si")
		}
		if math.IsInf(si, 0) || math.IsNaN(si) {
			t.Skip()
		}
		if k == Temperature {
			si = math.Abs(si)
		}
		roundTrip(t, k, si, sys)
	})
}

// A text written in one system, read, written in the other and read again is
// the same number: a maker may switch systems without loss.
func TestSwitchingSystemsLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, int(kindCount)-1).Draw(t, "kind"))
		x := rapid.Float64Range(0, 5000).Draw(t, "amount")
		si, err := FromValue(k, x, k.DefaultUnit())
		if err != nil {
			t.Skip()
		}
		there, err := Parse(k, Format(k, si, US))
		if err != nil {
			t.Fatal(err)
		}
		back, err := Parse(k, Format(k, there, Metric))
		if err != nil || back != si {
			t.Fatalf("%s: %.17g became %.17g (%v)", k, si, back, err)
		}
	})
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		kind   Kind
		si     float64
		sys    System
		digits int
		want   string
	}{
		{Mass, 0.4123, Metric, 3, "412 g"},
		{Mass, 0.9997, Metric, 3, "1.00 kg"},
		{Mass, 0.4123, US, 3, "14.5 oz"},
		{Mass, 0.5669904625, US, 3, "1 lb 4.0 oz"},
		{Mass, 0.9070, US, 3, "2 lb 0.0 oz"},
		{Power, 1234, Metric, 2, "1.2 kW"},
		{Power, 1234, Metric, 4, "1.234 kW"},
		{Power, 432.1, Metric, 2, "430 W"},
		{Temperature, 293.15, Metric, 3, "20.0 °C"},
		{Temperature, 293.15, US, 2, "68 °F"},
		{Temperature, 1073.15, Metric, 3, "800 °C"},
		{Temperature, 273.19, Metric, 3, "0.0 °C"},
		{Temperature, 273.11, Metric, 3, "0.0 °C"},
		{Time, 35, Metric, 2, "35 s"},
		{Time, 59.7, Metric, 3, "1:00"},
		{Time, 275, Metric, 3, "4:35"},
		{Time, 3875.4, US, 3, "1:04:35"},
		{Time, -61, US, 3, "-1:01"},
		{Ratio, 0.0812, Metric, 2, "8.1 %"},
		{Ratio, 0, Metric, 2, "0 %"},
		{Pressure, 1.04, Metric, 2, "1.0 Pa"},
		{Pressure, 101325, US, 4, "29.92 inHg"},
		{Density, 651.2, Metric, 3, "651 kg/m³"},
		{Density, 651.2, US, 3, "40.7 lb/ft³"},
		{Area, 0.00094, Metric, 2, "940 mm²"},
		{Area, 0.0094, Metric, 2, "94 cm²"},
		{Pressure, 1.0, US, 2, "0.0040 inH2O"},
		{Angle, math.Pi / 6, Metric, 2, "30°"},
		{Length, math.NaN(), Metric, 3, "–"},
	} {
		if got := Show(c.kind, c.si, c.sys, c.digits); got != c.want {
			t.Errorf("%s %v %s %d: got %q, want %q", c.kind, c.si, c.sys, c.digits, got, c.want)
		}
	}
}

func TestFormatNear(t *testing.T) {
	for _, c := range []struct {
		si   float64
		den  int
		want string
	}{
		{0.016, 16, "5/8 in"},
		{0.016, 32, "5/8 in"},
		{0.016, 64, "5/8 in"},
		{0.108, 0, "4 1/4 in"},
		{0.0066, 32, "1/4 in"},
		{0.0254 * 2, 16, "2 in"},
		{-0.016, 16, "-5/8 in"},
		{0, 16, "0 in"},
	} {
		got, off := FormatNear(c.si, c.den)
		if got != c.want {
			t.Errorf("%v in 1/%d: got %q, want %q", c.si, c.den, got, c.want)
		}
		den := c.den
		if den == 0 {
			den = 16
		}
		if math.Abs(off) > 0.0254/float64(den)/2+1e-15 {
			t.Errorf("%v in 1/%d: off by %v, more than half a step", c.si, c.den, off)
		}
	}
	if text, off := FormatNear(math.NaN(), 16); text != "–" || !math.IsNaN(off) {
		t.Errorf("NaN: %q %v", text, off)
	}
}

func TestValue(t *testing.T) {
	if v, err := Value(Temperature, 293.15, "°F"); err != nil || v != 68 {
		t.Errorf("293.15 K in °F: %v %v", v, err)
	}
	if v, err := Value(Pressure, 101325, "atm"); err != nil || v != 1 {
		t.Errorf("1 atm: %v %v", v, err)
	}
	if v, err := Value(Temperature, 273.15, "°C"); err != nil || v != 0 || math.Signbit(v) {
		t.Errorf("273.15 K in °C: %v %v", v, err)
	}
	if v, err := Value(Length, 0.016, "mm"); err != nil || v != 16 {
		t.Errorf("0.016 m in mm: %v %v", v, err)
	}
	if _, err := Value(Pressure, 1, "kg"); err == nil {
		t.Error("a mass unit was taken for a pressure")
	}
	if _, err := Value(Pressure, math.NaN(), "Pa"); err == nil {
		t.Error("NaN was taken")
	}
	if _, err := FromValue(Length, math.Inf(1), "mm"); err == nil {
		t.Error("infinity was taken")
	}
}

func FuzzParse(f *testing.F) {
	for _, k := range Kinds() {
		for _, e := range examples(k) {
			f.Add(int(k), e)
		}
	}
	for _, e := range []string{"1,600 m", "4½\"", "-0:30", "1e-3 m", "5/0 in", "1.234,5 mm", "8 oz", "\xff3 mm", "1 lb 4 oz 3", "5' 3\"", "٣ mm", ": :", "1/3 cup", "+5", "--5", "1 000 mm"} {
		f.Add(int(Length), e)
		f.Add(int(Time), e)
	}
	f.Fuzz(func(t *testing.T, kind int, text string) {
		k := Kind(kind)
		v, err := Parse(k, text)
		if err != nil {
			return
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s %q: %v", k, text, v)
		}
		roundTrip(t, k, v, Metric)
		roundTrip(t, k, v, US)
		Show(k, v, US, 3)
	})
}

func FuzzFormat(f *testing.F) {
	for _, x := range []float64{0, 1, 0.1, 293.15, 273.15, 255.3722222222222, 1e-300, 5e-324, math.MaxFloat64, 0.016, 1.0 / 3, -0.0127} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Skip()
		}
		for _, k := range Kinds() {
			si := x
			if k == Temperature {
				si = math.Abs(x)
			}
			roundTrip(t, k, si, Metric)
			roundTrip(t, k, si, US)
			Show(k, si, Metric, 3)
			FormatNear(si, 32)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse(Length, "4 1/4 in"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	for b.Loop() {
		Format(Length, 0.0123456789, US)
	}
}
