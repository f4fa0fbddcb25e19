package quantity

import (
	"math"
	"testing"

	"toplit/internal/outside"
)

// The factors stand in units.csv as products of exact definitions. A row whose
// published value is itself such a definition is marked used; the others are
// derived here and published elsewhere.

const (
	gnu    = "GNU units 2.22, definitions.units, 12 digits"
	sp811  = "NIST SP 811 (2008), Appendix B.8 [memory]"
	nist   = "NIST Special Publication 430 (2004), table 1"
	energy = "NIST SP 811 (2008), Appendix B.8, footnote to Btu IT [memory]"
)

// one is the SI amount of a text.
func one(t *testing.T, kind Kind, text string) float64 {
	t.Helper()
	v, err := Parse(kind, text)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// digit is one unit in digit n (from 1) of v: a source's last digit.
func digit(v float64, n int) float64 {
	return math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-float64(n-1))
}

func TestUnitFactorsAgainstOutside(t *testing.T) {
	for _, c := range []struct {
		law, text string
		kind      Kind
		published float64
		unit      string
		digits    int
		source    string
		used      bool
	}{
		{"length and area units", "1 in", Length, 0.0254, "m", 12, gnu, true},
		{"length and area units", "1 ft", Length, 0.3048, "m", 12, gnu, false},
		{"length and area units", "1 yd", Length, 0.9144, "m", 12, gnu, false},
		{"length and area units", "1 mi", Length, 1609.344, "m", 12, gnu, false},
		{"length and area units", "1/64 in", Length, 0.000396875, "m", 12, gnu, false},
		{"length and area units", "1 in2", Area, 6.4516e-4, "m2", 7, sp811, false},
		{"length and area units", "1 ft2", Area, 9.290304e-2, "m2", 7, sp811, false},
		{"length and area units", "1°", Angle, 1.745329e-2, "rad", 7, sp811, false},

		{"mass and density units", "1 lb", Mass, 0.45359237, "kg", 12, gnu, true},
		{"mass and density units", "1 oz", Mass, 2.834952e-2, "kg", 7, sp811, false},
		{"mass and density units", "1 lb/ft3", Density, 16.018463374, "kg/m3", 12, gnu, false},
		{"mass and density units", "1 lb/gal", Density, 119.826427317, "kg/m3", 12, gnu, false},
		{"mass and density units", "1 g/cm3", Density, 1000, "kg/m3", 7, sp811, false},

		{"volume units", "1 gal", Volume, 0.003785411784, "m3", 12, gnu, false},
		{"volume units", "1 qt", Volume, 0.000946352946, "m3", 12, gnu, false},
		{"volume units", "1 pt", Volume, 0.000473176473, "m3", 12, gnu, false},
		{"volume units", "1 cup", Volume, 2.365882e-4, "m3", 7, sp811, false},
		{"volume units", "1 fl oz", Volume, 2.957353e-5, "m3", 7, sp811, false},
		{"volume units", "1 tbsp", Volume, 1.478676e-5, "m3", 7, sp811, false},
		{"volume units", "1 tsp", Volume, 4.928922e-6, "m3", 7, sp811, false},
		{"volume units", "1 metric cup", Volume, 0.00025, "m3", 12, gnu, true},
		{"volume units", "1 legal cup", Volume, 0.00024, "m3", 3, "US 21 CFR 101.9(b)(5)(viii)", true},
		{"volume units", "1/4 cup", Volume, 59e-6, "m3", 2, nist, false},
		{"volume units", "2 pt", Volume, 946e-6, "m3", 3, nist, false},
		{"volume units", "1 imperial pt", Volume, 0.00056826125, "m3", 12, gnu, false},
		{"volume units", "1 in3", Volume, 1.6387064e-5, "m3", 12, gnu, false},
		{"volume units", "1 ft3", Volume, 0.028316846592, "m3", 12, gnu, false},

		{"pressure units", "1 inHg", Pressure, 3386.389, "Pa", 7, sp811, false},
		{"pressure units", "1 inHg to 12 digits", Pressure, 3386.38864034, "Pa", 12, gnu, false},
		{"pressure units", "1 mmHg", Pressure, 133.322387415, "Pa", 12, gnu, false},
		{"pressure units", "1 torr", Pressure, 133.322368421, "Pa", 12, gnu, false},
		{"pressure units", "1 psi", Pressure, 6894.75729317, "Pa", 12, gnu, false},
		{"pressure units", "1 inH2O", Pressure, 249.08891, "Pa", 12, gnu, false},
		{"pressure units", "1 mmH2O", Pressure, 9.80665, "Pa", 12, gnu, false},
		{"pressure units", "29.9213 inHg", Pressure, 101325, "Pa", 6, "standard atmosphere 29.9213 in of mercury, US Standard Atmosphere 1976 [memory]", false},

		{"temperature units", "68 °F", Temperature, 293.15, "K", 12, gnu, false},
		{"temperature units", "-40 °F", Temperature, 233.15, "K", 12, gnu, false},
		{"temperature units", "212 °F", Temperature, 373.15, "K", 12, gnu, false},
		{"temperature units", "449.470 °F", Temperature, 505.078, "K", 6, "ITS-90 freezing point of tin in °F and K (Preston-Thomas 1990, Metrologia 27, 3, table 1; °F from its summary table)", false},
		{"temperature units", "787.149 °F", Temperature, 692.677, "K", 6, "ITS-90 freezing point of zinc in °F and K (Preston-Thomas 1990, Metrologia 27, 3, table 1; °F from its summary table)", false},
		{"temperature units", "1220.581 °F", Temperature, 933.473, "K", 6, "ITS-90 freezing point of aluminium in °F and K (Preston-Thomas 1990, Metrologia 27, 3, table 1; °F from its summary table)", false},

		{"speed and flow units", "1 mph", Speed, 0.44704, "m/s", 12, gnu, false},
		{"speed and flow units", "1 km/h", Speed, 0.277777777778, "m/s", 12, gnu, false},
		{"speed and flow units", "1 kn", Speed, 0.514444444444, "m/s", 12, gnu, false},
		{"speed and flow units", "1 ft/min", Speed, 0.00508, "m/s", 12, gnu, false},
		{"speed and flow units", "1 cfm", VolumeFlow, 4.719474e-4, "m3/s", 7, sp811, false},
		{"speed and flow units", "1 L/min", VolumeFlow, 1.66666666667e-5, "m3/s", 12, gnu, false},
		{"speed and flow units", "1 lb/h", MassFlow, 1.259979e-4, "kg/s", 7, sp811, false},
		{"speed and flow units", "1 g/min", MassFlow, 1.66666666667e-5, "kg/s", 12, gnu, false},

		{"energy units", "1 Btu", Energy, 1055.05585262, "J", 12, energy, false},
		{"energy units", "1 cal", Energy, 4.184, "J", 12, gnu, true},
		{"energy units", "1 kWh", Energy, 3.6e6, "J", 12, gnu, false},
		{"energy units", "1 Btu/h", Power, 0.293071070172, "W", 12, gnu, false},
	} {
		text := c.text
		if text == "1 inHg to 12 digits" {
			text = "1 inHg"
		}
		outside.Check(t, outside.Row{
			Law: c.law, Name: c.text, Source: c.source, Unit: c.unit,
			Published: c.published, Ours: one(t, c.kind, text),
			Tol: digit(c.published, c.digits), Used: c.used,
		})
	}
}
