package quantity

import (
	"math"
	"strings"
	"testing"
)

// Go's constant expressions are exact and round once to float64, as Parse does:
// the values wanted here are equal to the last bit.
func TestParseReadsWhatMakersWrite(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		want float64
	}{
		{Length, "4 1/4 in", 0.10795},
		{Length, "4-1/4 in", 0.10795},
		{Length, "4¼ in.", 0.10795},
		{Length, "4 ¼\"", 0.10795},
		{Length, `5/8"`, 0.015875},
		{Length, "5/8″", 0.015875},
		{Length, "5⁄8 inch", 0.015875},
		{Length, "5/8 in", 0.015875},
		{Length, "16", 0.016},
		{Length, "16 mm", 0.016},
		{Length, "16mm", 0.016},
		{Length, " 16  MM ", 0.016},
		{Length, "2.5 cm", 0.025},
		{Length, "2,5 mm", 0.0025},
		{Length, "0,125 in", 0.003175},
		{Length, ".5 in", 0.0127},
		{Length, "1600 m", 1600},
		{Length, "5200 ft", 1584.96},
		{Length, "1,234.5 mm", 1.2345},
		{Length, "1.234,5 mm", 1.2345},
		{Length, "5 ft 3 1/2 in", 1.6129},
		{Length, `5'3"`, 1.6002},
		{Length, "-12 m", -12},
		{Length, "−12 m", -12},
		{Length, "1e-3 m", 0.001},
		{Mass, "350 g", 0.35},
		{Mass, "350", 0.35},
		{Mass, "1.2 kg", 1.2},
		{Mass, "8 oz", 0.226796185},
		{Mass, "1 lb 4 oz", 0.5669904625},
		{Mass, "1lb4oz", 0.5669904625},
		{Mass, "1/2 lb", 0.226796185},
		{Volume, "1 cup", 0.0002365882365},
		{Volume, "2 cups", 0.000473176473},
		{Volume, "1 1/2 cups", 0.00035488235475},
		{Volume, "1 US cup", 0.0002365882365},
		{Volume, "1 metric cup", 0.00025},
		{Volume, "1 cup (metric)", 0.00025},
		{Volume, "1 legal cup", 0.00024},
		{Volume, "1 US legal cup", 0.00024},
		{Volume, "1 qt", 0.000946352946},
		{Volume, "1 pt", 0.000473176473},
		{Volume, "1 imperial pint", 0.00056826125},
		{Volume, "8 fl oz", 0.0002365882365},
		{Volume, "8 fl. oz.", 0.0002365882365},
		{Volume, "8 Fl Oz", 0.0002365882365},
		{Volume, "250 mL", 0.00025},
		{Volume, "250", 0.00025},
		{Volume, "250 cm³", 0.00025},
		{Volume, "250 cm^3", 0.00025},
		{Volume, "1 L", 0.001},
		{Volume, "2 cups 3 tbsp", 0.00051753676734375},
		{Temperature, "68 °F", 293.15},
		{Temperature, "68 F", 293.15},
		{Temperature, "68F", 293.15},
		{Temperature, "68 degrees F", 293.15},
		{Temperature, "20 C", 293.15},
		{Temperature, "20 °C", 293.15},
		{Temperature, "20 ℃", 293.15},
		{Temperature, "20", 293.15},
		{Temperature, "-40 F", 233.15},
		{Temperature, "293 K", 293},
		{TemperatureDifference, "9 °F", 5},
		{TemperatureDifference, "5 °C", 5},
		{TemperatureDifference, "5", 5},
		{Pressure, "1013 hPa", 101300},
		{Pressure, "1013", 101300},
		{Pressure, "1013 mbar", 101300},
		{Pressure, "101.3 kPa", 101300},
		{Pressure, "760 mmHg", 760 * 13595.1 * 9.80665 / 1000},
		{Pressure, "29.9 in Hg", 29.9 * 13595.1 * 9.80665 * 0.0254},
		{Pressure, "1 atm", 101325},
		{Time, "4:35", 275},
		{Time, "1:04:35", 3875},
		{Time, "75:00", 4500},
		{Time, "4:35.5", 275.5},
		{Time, "4:35,5", 275.5},
		{Time, "-0:30", -30},
		{Time, "5 min", 300},
		{Time, "90 s", 90},
		{Time, "90", 90},
		{Time, "1 h 5 min", 3900},
		{Time, "1h5m30s", 3930},
		{Time, "1/2 h", 1800},
		{Ratio, "8 %", 0.08},
		{Ratio, "8%", 0.08},
		{Ratio, "0.08", 0.08},
		{Ratio, "1/8", 0.125},
		{Speed, "2 m/s", 2},
		{Speed, "2", 2},
		{Speed, "5 mph", 2.2352},
		{Speed, "10 km/h", 10 / 3.6},
		{Speed, "2 m / s", 2},
		{Density, "650 kg/m3", 650},
		{Density, "650 kg/m³", 650},
		{Density, "650", 650},
		{Density, "40 lb/ft3", 40 * 0.45359237 / 0.028316846592},
		{Density, "40 lb per cu ft", 40 * 0.45359237 / 0.028316846592},
		{Angle, "30°", math.Pi / 6},
		{Angle, "30 deg", math.Pi / 6},
		{Angle, "30", math.Pi / 6},
		{Angle, "29° 60'", math.Pi / 6},
		{MassFlow, "0.3 g/s", 0.0003},
		{MassFlow, "12 g/min", 0.0002},
		{VolumeFlow, "12 L/min", 0.0002},
		{VolumeFlow, "0.72 m3/h", 0.0002},
		{VolumeFlow, "1 cfm", 0.0004719474432},
		{Energy, "500", 500e3},
		{Energy, "2 MJ", 2e6},
		{Energy, "1 kWh", 3.6e6},
		{Power, "1.5 kW", 1500},
		{Area, "9.4 cm²", 0.00094},
		{Area, "1.5 sq. in.", 0.00096774},
	} {
		got, err := Parse(c.kind, c.text)
		if err != nil {
			t.Errorf("%s %q: %v", c.kind, c.text, err)
			continue
		}
		if got != c.want {
			t.Errorf("%s %q: got %.17g, want %.17g", c.kind, c.text, got, c.want)
		}
	}
}

func TestParseRefusesAndSaysWhatWouldBeAccepted(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		text string
		says []string
	}{
		{Length, "", []string{"nothing written", "5/8 in"}},
		{Length, "5/8", []string{"5/8 in", "inches or mm"}},
		{Length, "1,600 m", []string{"1600", "1.600"}},
		{Length, "5 kg", []string{"unit of mass", "mm"}},
		{Length, "5 m3", []string{"unit of volume"}},
		{Length, "5 m2", []string{"unit of area"}},
		{Length, "5 furlongs", []string{`"furlongs"`, "yd"}},
		{Length, "12 x 4.5 mm", []string{"a count goes in its own place"}},
		{Length, "404x700", []string{"one size is wanted"}},
		{Length, "4-6 mm", []string{"not a range"}},
		{Length, "4 5/4 in", []string{"proper fraction"}},
		{Length, "4 in 3 ft", []string{"larger unit comes first"}},
		{Length, "1.5 ft 3 in", []string{"whole number"}},
		{Length, "5 ft 3", []string{"3 has no unit"}},
		{Length, "5/0 in", []string{"divides by zero"}},
		{Length, "mm", []string{"no number"}},
		{Length, "NaN", []string{"no number"}},
		{Length, "1e999 m", []string{"too large"}},
		{Length, "1e99999 m", []string{"out of range"}},
		{Length, strings.Repeat("1", 201), []string{"too many"}},
		{Length, "1.2.3 mm", []string{"groups of three"}},
		{Length, "5, mm", []string{"comma"}},
		{Volume, "8 oz", []string{"mass", "fl oz"}},
		{Volume, "1 c", []string{"cup"}},
		{Volume, "1/2", []string{"without a unit"}},
		{Mass, "8 fl oz", []string{"volume", "oz"}},
		{Mass, "5 gr", []string{"grain"}},
		{Mass, "-1 lb 4 oz", []string{"one number with one unit"}},
		{Temperature, "-300 °C", []string{"absolute zero"}},
		{Temperature, "20°", []string{"°C", "°F"}},
		{Temperature, "20 °C 5 °C", []string{"one number"}},
		{VolumeFlow, "25 SCFH", []string{"standard conditions"}},
		{Time, "4:75", []string{"00 to 59"}},
		{Time, "1:75:00", []string{"00 to 59"}},
		{Time, "4:5", []string{"4:35"}},
		{Time, "1:2:3:4", []string{"more than"}},
		{Time, ":30", []string{"whole number"}},
		{Time, "4:35 pm", []string{"accepted"}},
		{Energy, "2 mJ", []string{"capital M"}},
		{Energy, "2 Cal", []string{"kcal"}},
		{Kind(99), "1", []string{"not a kind"}},
	} {
		v, err := Parse(c.kind, c.text)
		if err == nil {
			t.Errorf("%s %q: read as %v, want an error", c.kind, c.text, v)
			continue
		}
		for _, s := range c.says {
			if !strings.Contains(err.Error(), s) {
				t.Errorf("%s %q: %q does not say %q", c.kind, c.text, err, s)
			}
		}
	}
}

func TestParseOneOf(t *testing.T) {
	for _, c := range []struct {
		text string
		kind Kind
		want float64
	}{
		{"350 g", Mass, 0.35},
		{"1 cup", Volume, 0.0002365882365},
		{"80 mm", Length, 0.08},
		{"8 fl oz", Volume, 0.0002365882365},
		{"8 oz wt", Mass, 0.226796185},
	} {
		k, v, err := ParseOneOf(c.text, Mass, Volume, Length)
		if err != nil || k != c.kind || v != c.want {
			t.Errorf("%q: %s %v %v, want %s %v", c.text, k, v, err, c.kind, c.want)
		}
	}
	for text, says := range map[string][]string{
		"8 oz":     {`"8 oz wt"`, `"8 fl oz"`},
		"8 ounces": {`"8 oz wt"`, `"8 fl oz"`},
		"350":      {"mass or volume or length", "350 g"},
		"1 kW":     {"mass or volume or length", "350 g"},
	} {
		_, _, err := ParseOneOf(text, Mass, Volume, Length)
		if err == nil {
			t.Errorf("%q was read", text)
			continue
		}
		for _, s := range says {
			if !strings.Contains(err.Error(), s) {
				t.Errorf("%q: %q does not say %q", text, err, s)
			}
		}
	}
	if _, v, err := ParseOneOf("8 oz", Mass); err != nil || v != 0.226796185 {
		t.Errorf("8 oz as a mass alone: %v %v", v, err)
	}
}

func TestParseDefault(t *testing.T) {
	if v, err := ParseDefault(Length, "5/8", "in"); err != nil || v != 0.015875 {
		t.Errorf("5/8 with inches as default: %v %v", v, err)
	}
	if v, err := ParseDefault(Ratio, "8", "%"); err != nil || v != 0.08 {
		t.Errorf("8 with %% as default: %v %v", v, err)
	}
	if _, err := ParseDefault(Length, "5", "kg"); err == nil {
		t.Error("a default unit of another kind was taken")
	}
}

// Every spelling of the table must be read as its own unit: no spelling may
// be shadowed by another of the same kind.
func TestEverySpellingIsRead(t *testing.T) {
	tab, err := readUnits(unitsCSV)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range Kinds() {
		if len(tab.byKind[k]) == 0 {
			t.Errorf("%s has no unit", k)
		}
		if lookUp(k, k.SI()) == nil || lookUp(k, k.DefaultUnit()) == nil {
			t.Errorf("%s: SI or default unit is not in the table", k)
		}
		for _, u := range units().byKind[k] {
			if u.source == "" {
				t.Errorf("%s %s: no source", k, u.symbol)
			}
			want, _ := u.toSI(mustNumber(t, "300")).Float64()
			for _, s := range append([]string{u.symbol}, u.spellings...) {
				got, err := Parse(k, "300 "+s)
				if s == "" {
					got, err = ParseDefault(k, "300", "")
				}
				if err != nil || got != want {
					t.Errorf("%s %q: %v %v, want %v", k, s, got, err, want)
				}
				if tidy(s) != s && s != "per cent" && s != "per mille" {
					t.Errorf("%s %q: typing it is tidied to %q", k, s, tidy(s))
				}
			}
		}
		for _, sys := range []System{Metric, US} {
			for _, c := range choices(k, sys) {
				if u := lookUp(k, c.symbol); u == nil || u.symbol != c.symbol {
					t.Errorf("%s: %s writes in %q, which is not in the table", k, sys, c.symbol)
				}
			}
		}
		for _, e := range examples(k) {
			if _, err := Parse(k, e); err != nil {
				t.Errorf("%s: the example %q is not read: %v", k, e, err)
			}
		}
	}
}
