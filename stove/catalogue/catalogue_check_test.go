package catalogue

import (
	"math"
	"strconv"
	"testing"

	"toplit/internal/outside"
)

const (
	trade = "Can Manufacturers Institute, dimensional food can standards"
	moene = "Moene and van Dam 2014, Transport in the Atmosphere-Vegetation-Soil Continuum, table 2.2"
	oke   = "Oke 1987, Boundary Layer Climates, 2nd ed., table 2.1 [memory]"
	gnu   = "GNU units 2.22, definitions.units"
	sp430 = "NIST Special Publication 430, rules for computing"
	cibse = "CIBSE Guide A, table 3.36"
)

func can(t *testing.T, name string) CanSize {
	t.Helper()
	c, err := Can(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestCanCodesAgainstOutside(t *testing.T) {
	const (
		sizes   = "Sizes Inc., table of can sizes"
		maker   = "container trade page on reading can dimensions"
		lexicon = "engineering dictionary, can dimensions"
		cooks   = "cooks' list of US can sizes after the Can Manufacturers Institute"
	)
	for _, c := range []struct {
		code          string
		width, height float64 // [in]
		source        string
	}{
		{"610x708", 6 + 5.0/8, 7.5, maker},
		{"303x407", 3 + 3.0/16, 4 + 7.0/16, sizes},
		{"202x214", 2 + 1.0/8, 2 + 7.0/8, sizes},
		{"502x608", 5 + 1.0/8, 6.5, sizes},
		{"404x700", 4.25, 7, sizes},
		{"211x413", 2 + 11.0/16, 4 + 13.0/16, lexicon},
		{"307x512", 3 + 7.0/16, 5.75, cooks},
	} {
		d, h, err := DecodeCode(c.code)
		if err != nil {
			t.Fatal(err)
		}
		outside.Check(t,
			outside.Row{Law: "can code", Name: c.code + " width", Source: c.source, Unit: "in", Published: c.width, Ours: d / inch, Tol: 1e-4},
			outside.Row{Law: "can code", Name: c.code + " height", Source: c.source, Unit: "in", Published: c.height, Ours: h / inch, Tol: 1e-4},
		)
	}
}

// The inside diameters come from ounces of water per sixteenth of an inch; the
// nominal diameters of metric cans are given in whole millimetres.
func TestCanInsideAgainstOutside(t *testing.T) {
	const iso = "ISO 10653 nominal inside diameters of round open-top cans [memory]"
	for _, c := range []struct {
		code   string
		mm     float64
		source string
	}{
		{"202x308", 52, iso}, {"211x400", 65, iso}, {"300x407", 73, iso}, {"307x409", 83, iso},
		{"401x411", 99, iso}, {"404x700", 105, iso}, {"502x510", 127, iso}, {"603x700", 153, iso},
		{"300x407", 73, "tinplate maker quoted by the process-engineering trade press 2022: usual food can 73 mm"},
	} {
		outside.Check(t, outside.Row{
			Law: "can body inside", Name: c.code + ", " + c.source[:3], Source: c.source, Unit: "mm",
			Published: c.mm, Ours: can(t, c.code).BodyInside * 1e3, Tol: 1,
		})
	}
}

// The height rule (overall less 9.5 mm, 8.7 to 9.9) is one mean over the
// published capacities: those rows are marked used, with the rule's own spread
// as tolerance. The coffee can and the two metric cans took no part in it.
func TestCanCapacityAgainstOutside(t *testing.T) {
	for _, c := range Cans() {
		if c.Family != "food" || c.Capacity == 0 || c.Nominal {
			continue
		}
		area := math.Pi / 4 * c.BodyInside * c.BodyInside
		outside.Check(t, outside.Row{
			Law: "can capacity", Name: c.Name, Source: trade + " or trade table (" + c.Code + ")", Unit: "mL",
			Published: c.Capacity * 1e6, Ours: c.Volume() * 1e6, Tol: area * 0.8e-3 * 1e6, Used: true,
		})
	}
	coffee := can(t, "2 lb coffee")
	outside.Check(t,
		outside.Row{Law: "can capacity", Name: "2 lb coffee, not used in the rule", Source: "Sizes Inc., table of can sizes: 66 fl oz", Unit: "mL",
			Published: coffee.Capacity * 1e6, Ours: coffee.Volume() * 1e6, Tol: 29.6},
		outside.Row{Law: "can capacity", Name: "metric can 73 × 110", Source: "EN 13027 nominal capacity 425 mL [memory]", Unit: "mL",
			Published: 425, Ours: can(t, "73x110 mm").Volume() * 1e6, Tol: 5},
		outside.Row{Law: "can capacity", Name: "metric can 99 × 119", Source: "EN 13027 nominal capacity 850 mL [memory]", Unit: "mL",
			Published: 850, Ours: can(t, "99x119 mm").Volume() * 1e6, Tol: 10},
	)
}

func TestWrapAndAreasAgainstOutside(t *testing.T) {
	for _, c := range []struct {
		name     string
		diameter float64 // [m]
	}{{"100 mm body", 0.1}, {"No. 10 body", 0.15388}, {"4 1/4 in body", 0.10795}} {
		published := 3.1416 * c.diameter * 1e3
		outside.Check(t, outside.Row{Law: "wrap length", Name: c.name, Source: sp430 + ": 3.1416 × diameter", Unit: "mm",
			Published: published, Ours: WrapLength(c.diameter, 0) * 1e3, Tol: published * 1e-4 / 3.1416})
	}
	for _, name := range []string{"6 mm", "1/4 in", "#7", "5 mm", "F", "5/8 in"} {
		d, err := ParseDrill(name)
		if err != nil {
			t.Fatal(err)
		}
		published := 0.7854 * d.Diameter * d.Diameter * 1e6
		outside.Check(t, outside.Row{Law: "drill area", Name: name, Source: sp430 + ": 0.7854 × diameter × diameter", Unit: "mm2",
			Published: published, Ours: d.Area * 1e6, Tol: published * 1e-4 / 0.7854})
	}
}

func TestDrillSizesAgainstOutside(t *testing.T) {
	const pd = "public-domain table of drill sizes, version 2 of 2007"
	const shop = "workshop page on number drills"
	for _, c := range []struct {
		drill  string
		inches float64
		source string
	}{
		{"#80", 0.0135, pd}, {"#79", 0.0145, pd}, {"#60", 0.040, pd}, {"#55", 0.052, pd}, {"#52", 0.0635, pd},
		{"#43", 0.089, gnu}, {"#29", 0.136, gnu}, {"#20", 0.161, gnu}, {"#10", 0.1935, shop}, {"#7", 0.201, shop}, {"#1", 0.228, shop},
		{"A", 0.234, gnu}, {"F", 0.257, gnu}, {"Q", 0.332, gnu}, {"Z", 0.413, gnu},
	} {
		d, err := ParseDrill(c.drill)
		if err != nil {
			t.Fatal(err)
		}
		outside.Check(t, outside.Row{Law: "drill size", Name: c.drill, Source: c.source, Unit: "in",
			Published: c.inches, Ours: d.Diameter / inch, Tol: 0.00005})
	}
}

func TestSheetAgainstOutside(t *testing.T) {
	const charts = "sheet-metal charts of the Manufacturers' Standard Gage"
	for _, c := range []struct {
		gauge     int
		published float64 // [in]
		source    string
	}{
		{10, 0.1345, charts}, {18, 0.0478, charts}, {20, 0.0359, charts}, {30, 0.0120, charts},
		{16, 0.0598, charts + " [memory]"}, {24, 0.0239, charts + " [memory]"}, {28, 0.0149, charts + " [memory]"},
	} {
		v, err := GaugeThickness(c.gauge)
		if err != nil {
			t.Fatal(err)
		}
		outside.Check(t, outside.Row{Law: "sheet steel gauge", Name: "gauge " + strconv.Itoa(c.gauge), Source: c.source, Unit: "in",
			Published: c.published, Ours: v / inch, Tol: 0.0001})
	}
	outside.Check(t,
		outside.Row{Law: "tinplate base weight", Name: "1 lb per base box", Source: "tinplate trade glossary: multiply by 0.00011 in", Unit: "in",
			Published: 0.00011, Ours: BaseWeightThickness(1) / inch, Tol: 0.000005},
		outside.Row{Law: "tinplate base weight", Name: "base box of 1 lb", Source: gnu + ": 31360 in2, plate of 7850 kg/m3", Unit: "mm",
			Published: 0.0028559631306, Ours: BaseWeightThickness(1) * 1e3, Tol: 1e-12},
		outside.Row{Law: "tinplate base weight", Name: "75 lb plate", Source: "trade table of base weights: 0.0083 in [memory]", Unit: "in",
			Published: 0.0083, Ours: BaseWeightThickness(75) / inch, Tol: 0.0002},
	)
}

func TestMetalDensitiesAgainstOutside(t *testing.T) {
	const polivanov = "Polivanov and Polivanova 2006, tables of masses, 13th ed."
	for _, c := range []struct {
		metal          string
		published, tol float64
		source         string
		used           bool
	}{
		{"steel", 7850, 10, "Gere, Mechanics of Materials, 5th ed., table of densities", true},
		{"steel", 7800, 100, cibse, false},
		{"stainless", 8000, 100, cibse + ", 20 % Ni", false},
		{"stainless", 7850, 50, cibse + ", 5 % Ni", false},
		{"stainless", 7900, 100, "EN 12524:2000", true},
		{"aluminium", 2700, 100, "Gere, Mechanics of Materials, 5th ed., table of densities", true},
		{"aluminium", 2700, 100, cibse, false},
		{"copper", 8940, 10, polivanov, false},
		{"copper", 8900, 100, "Gere, Mechanics of Materials, 5th ed., table of densities", true},
		{"titanium", 4500, 100, polivanov, false},
	} {
		m, err := MetalNamed(c.metal)
		if err != nil {
			t.Fatal(err)
		}
		outside.Check(t, outside.Row{Law: "metal density", Name: c.metal + " " + strconv.FormatFloat(c.published, 'f', -1, 64) + ", " + c.source[:4], Source: c.source, Unit: "kg/m3",
			Published: c.published, Ours: m.Density, Tol: c.tol, Used: c.used})
	}
}

func cover(t *testing.T, name string) GroundCover {
	t.Helper()
	c, err := Cover(name)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// The table's diffusivities were not used: ours follow from its conductivities
// and heat capacities, which shows that they were copied into the right rows.
func TestGroundDiffusivityAgainstOutside(t *testing.T) {
	for _, c := range []struct {
		cover     string
		published float64 // [mm2/s]
		tol       float64
	}{
		{"dry loose sand", 0.19, 0.01}, {"moist sand", 0.99, 0.01}, {"wet sand", 0.85, 0.01}, {"dry packed sand", 0.20, 0.01},
		{"dry clay", 0.10, 0.01}, {"moist clay", 0.4, 0.1}, {"wet clay", 0.45, 0.01},
		{"dry peat", 0.16, 0.01}, {"wet peat", 0.13, 0.01}, {"saturated peat", 0.12, 0.01},
		{"rock", 1.4, 0.1}, {"fresh snow", 0.3, 0.1}, {"old snow", 1.0, 0.1},
	} {
		outside.Check(t, outside.Row{Law: "ground diffusivity", Name: c.cover, Source: moene, Unit: "mm2/s",
			Published: c.published, Ours: cover(t, c.cover).Diffusivity() * 1e6, Tol: c.tol})
	}
}

func TestGroundHeatAgainstOutside(t *testing.T) {
	for _, c := range []struct {
		cover string
		heat  float64 // [MJ/(m3 K)]
		effus float64 // [J/(m2 K s½)]
	}{
		{"dry loose sand", 1.28, 620}, {"wet sand", 2.96, 2550}, {"dry clay", 1.42, 600}, {"wet clay", 3.10, 2210}, {"saturated peat", 4.02, 1420},
	} {
		g := cover(t, c.cover)
		outside.Check(t,
			outside.Row{Law: "ground heat capacity", Name: c.cover, Source: oke, Unit: "MJ/(m3 K)",
				Published: c.heat, Ours: g.VolumetricHeat() / 1e6, Tol: 0.01},
			// How far two tables lie apart set the spread of the conductivities.
			outside.Row{Law: "ground diffusivity", Name: c.cover + ", effusivity", Source: oke, Unit: "J/(m2 K s½)",
				Published: c.effus, Ours: g.Effusivity(), Tol: g.Effusivity() * (math.Sqrt(g.Spread) - 1), Used: true},
		)
	}
}
