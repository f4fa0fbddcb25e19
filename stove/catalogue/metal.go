package catalogue

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"toplit/quantity"
)

// Sheet is the thickness one use of sheet metal usually has.
type Sheet struct {
	Use     string
	Family  string  // "food", "paint" or "sheet"
	Low     float64 // [m]
	Typical float64 // [m]
	High    float64 // [m]
	Source  string

	upTo float64 // largest diameter over the seam it is for, 0 for any [m]
}

var sheets = sync.OnceValues(func() ([]Sheet, error) {
	s, err := open("sheet.csv")
	if err != nil {
		return nil, err
	}
	var list []Sheet
	err = s.each(func(r *row) {
		list = append(list, Sheet{
			Use: r.text("use"), Family: r.text("family"), Source: r.text("source"),
			Low:     r.amount(quantity.Length, "low_mm", "mm"),
			Typical: r.amount(quantity.Length, "typical_mm", "mm"),
			High:    r.amount(quantity.Length, "high_mm", "mm"),
			upTo:    r.amount(quantity.Length, "up_to_diameter_mm", "mm"),
		})
	})
	return list, err
})

// Sheets lists the usual thicknesses of can bodies and tinplate.
func Sheets() []Sheet {
	list, _ := sheets() // compiled in and read by a test
	return slices.Clone(list)
}

// Metal is what a sheet is made of. Specific heat and conductivity are with
// the laws of heat, not here.
type Metal struct {
	Name         string  // "tinplate", "steel", "stainless", "aluminium", "galvanised", "copper", "titanium"
	Density      float64 // [kg/m3]
	DensityOff   float64 // half width between makes and tables [kg/m3]
	Melts        float64 // [K]
	Coating      string  // "tin", "zinc" or ""
	CoatingMelts float64 // [K], 0 without a coating
	Caution      string  // what to heed before the first fire, "" if nothing
	Source       string
}

var metals = sync.OnceValues(func() ([]Metal, error) {
	s, err := open("metals.csv")
	if err != nil {
		return nil, err
	}
	var list []Metal
	err = s.each(func(r *row) {
		list = append(list, Metal{
			Name: r.text("name"), Coating: r.text("coating"), Caution: r.text("caution"), Source: r.text("source"),
			Density: r.number("density_kg_m3"), DensityOff: r.number("density_range_kg_m3"),
			Melts: r.number("melts_K"), CoatingMelts: r.number("coating_melts_K"),
		})
	})
	return list, err
})

// Metals lists the metals a stove or pot may be made of.
func Metals() []Metal {
	list, _ := metals() // compiled in and read by a test
	return slices.Clone(list)
}

// MetalNamed finds a metal by name.
func MetalNamed(name string) (Metal, error) {
	list, err := metals()
	if err != nil {
		return Metal{}, err
	}
	var names []string
	low := strings.ToLower(strings.TrimSpace(name))
	switch low {
	case "tin plate", "tinned steel":
		low = "tinplate"
	case "mild steel", "iron", "sheet steel", "black plate":
		low = "steel"
	case "stainless steel":
		low = "stainless"
	case "aluminum":
		low = "aluminium"
	case "galvanized", "zinc", "galvanised steel", "galvanized steel":
		low = "galvanised"
	}
	for _, m := range list {
		if m.Name == low {
			return m, nil
		}
		names = append(names, m.Name)
	}
	return Metal{}, unknown("metal", name, names)
}

var gauges = sync.OnceValues(func() (map[int]float64, error) {
	s, err := open("gauge.csv")
	if err != nil {
		return nil, err
	}
	t := map[int]float64{}
	err = s.each(func(r *row) {
		// The gauge is a weight per area; the thickness follows from the gauge's
		// own density, 501.84 lb/ft3 (41.82 lb/ft2 per inch).
		t[int(r.number("gauge"))] = r.number("oz_per_ft2") / 16 / 41.82 * inch
	})
	return t, err
})

// GaugeThickness is the thickness of plain sheet steel of a gauge number, 10
// to 31, by the Manufacturers' Standard Gage [m]. Galvanised, stainless and
// aluminium sheet have other tables with the same numbers: measure those.
func GaugeThickness(gauge int) (float64, error) {
	t, err := gauges()
	if err != nil {
		return 0, err
	}
	v, ok := t[gauge]
	if !ok {
		return 0, fmt.Errorf("sheet steel gauge %d is not in the table: 10 to 31 are", gauge)
	}
	return v, nil
}

// BaseWeightThickness is the thickness of tinplate of a base weight in pounds
// per base box [m]: a base box is 112 sheets of 14 × 20 in, 31 360 in², and
// the plate weighs 7850 kg/m3 (0.00011 in per pound in the trade's rule).
func BaseWeightThickness(pounds float64) float64 {
	const box = 31360 * inch * inch // [m2]
	return pounds * 0.45359237 / box / 7850
}
