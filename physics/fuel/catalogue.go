package fuel

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"sort"
	"strconv"
	"strings"
	"sync"
)

//go:embed catalogue.csv
var catalogueCSV string

// Fuel is one fuel of the catalogue, or a user's lot made from one.
type Fuel struct {
	Name      string
	Analysis  Analysis // dry
	Volatiles float64  // dry mass fraction lost in the standard volatiles test
	Moisture  float64  // [kg water per kg wet fuel]
	Bulk      float64  // bulk density as poured, at Moisture [kg/m³]
	Density   float64  // of a piece, at Moisture [kg/m³]
	Size      float64  // diameter or sieve size of a piece [m]
	Length    float64  // of a piece [m]
	Family    Family
}

// Family is how the pieces pack.
type Family string

// The families of pieces.
const (
	Pellets Family = "pellets"
	Chips   Family = "chips"
	Sticks  Family = "sticks"
	Lumps   Family = "lumps"
	Husk    Family = "husk"
	Shells  Family = "shells"
)

// Row is one value of the catalogue with where it comes from. Text holds the
// value of a quantity that is a word.
type Row struct {
	Fuel, Quantity, Text string
	Value, SD            float64 // in Unit; SD is one standard uncertainty between lots
	Unit, Source         string
}

type catalogue struct {
	fuels []Fuel
	rows  []Row
}

var read = sync.OnceValues(func() (catalogue, error) { return parse(catalogueCSV) })

func parse(text string) (c catalogue, err error) {
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return c, fmt.Errorf("fuel catalogue: %w", err)
	}
	for i, l := range lines[1:] {
		r := Row{Fuel: l[0], Quantity: l[1], Text: l[2], Unit: l[4], Source: l[5]}
		if len(c.fuels) == 0 || c.fuels[len(c.fuels)-1].Name != r.Fuel {
			c.fuels = append(c.fuels, Fuel{Name: r.Fuel})
		}
		f := &c.fuels[len(c.fuels)-1]
		if r.Quantity == "family" {
			f.Family = Family(r.Text)
			c.rows = append(c.rows, r)
			continue
		}
		if r.Value, err = strconv.ParseFloat(l[2], 64); err == nil {
			r.SD, err = strconv.ParseFloat(l[3], 64)
		}
		if err != nil {
			return c, fmt.Errorf("fuel catalogue: line %d: %w", i+2, err)
		}
		to, scale := f.field(r.Quantity)
		if to == nil {
			return c, fmt.Errorf("fuel catalogue: line %d: unknown quantity %q", i+2, r.Quantity)
		}
		*to = r.Value * scale
		c.rows = append(c.rows, r)
	}
	return c, nil
}

func (f *Fuel) field(quantity string) (to *float64, scale float64) {
	switch quantity {
	case "carbon":
		return &f.Analysis.Carbon, 0.01
	case "hydrogen":
		return &f.Analysis.Hydrogen, 0.01
	case "oxygen":
		return &f.Analysis.Oxygen, 0.01
	case "nitrogen":
		return &f.Analysis.Nitrogen, 0.01
	case "sulfur":
		return &f.Analysis.Sulfur, 0.01
	case "ash":
		return &f.Analysis.Ash, 0.01
	case "volatiles":
		return &f.Volatiles, 0.01
	case "moisture":
		return &f.Moisture, 0.01
	case "bulk density":
		return &f.Bulk, 1
	case "particle density":
		return &f.Density, 1
	case "size":
		return &f.Size, 1e-3
	case "length":
		return &f.Length, 1e-3
	}
	return nil, 0
}

// Catalogue is every fuel known by name, in the order of the table.
func Catalogue() []Fuel {
	c, _ := read() // the embedded table is checked by a test
	return append([]Fuel(nil), c.fuels...)
}

// Rows is the catalogue's values of one fuel with uncertainty and source; nil
// for a name that is not there.
func Rows(name string) []Row {
	c, _ := read()
	var out []Row
	for _, r := range c.rows {
		if r.Fuel == name {
			out = append(out, r)
		}
	}
	return out
}

// ByName finds a fuel of the catalogue. Case, hyphens and spaces do not count.
// The error names the nearest fuels.
func ByName(name string) (Fuel, error) {
	c, err := read()
	if err != nil {
		return Fuel{}, err
	}
	want := plain(name)
	for _, f := range c.fuels {
		if plain(f.Name) == want {
			return f, nil
		}
	}
	type near struct {
		name string
		far  int
	}
	list := make([]near, len(c.fuels))
	for i, f := range c.fuels {
		list[i] = near{f.Name, Far(want, plain(f.Name))}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].far < list[j].far })
	names := make([]string, 0, 3)
	for _, n := range list[:min(3, len(list))] {
		names = append(names, strconv.Quote(n.name))
	}
	return Fuel{}, fmt.Errorf("fuel: no species %q in the catalogue; nearest are %s", name, strings.Join(names, ", "))
}

func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '_' {
			return -1
		}
		return r
	}, strings.ToLower(s))
}

// Far is the distance between two words for "did you mean": the number of
// letters to insert, delete or change, less twice the length of the longest
// run of letters they share, so that "pellet" is nearer to "softwoodpellets"
// than to "twigs".
func Far(a, b string) int {
	n := len(b) + 1
	edit, run := make([]int, n), make([]int, n)
	for j := range edit {
		edit[j] = j
	}
	longest := 0
	for i := 1; i <= len(a); i++ {
		diagonal, shared := edit[0], 0
		edit[0] = i
		for j := 1; j < n; j++ {
			change, before := 1, shared
			shared = run[j]
			run[j] = 0
			if a[i-1] == b[j-1] {
				change, run[j] = 0, before+1
				longest = max(longest, run[j])
			}
			here := min(edit[j]+1, edit[j-1]+1, diagonal+change)
			diagonal, edit[j] = edit[j], here
		}
	}
	return edit[n-1] - 2*longest
}

// Void is the share of the bed's volume that is gas: 1 − Bulk/Density.
func (f Fuel) Void() float64 {
	if !(f.Density > 0) {
		return 0
	}
	return min(max(1-f.Bulk/f.Density, 0.05), 0.98)
}

// Mass is the wet mass of a poured volume [kg]: V·Bulk.
func (f Fuel) Mass(volume float64) float64 { return volume * f.Bulk }

// Volume is the poured volume of a wet mass [m³]; zero without a bulk density.
func (f Fuel) Volume(mass float64) float64 {
	if !(f.Bulk > 0) {
		return 0
	}
	return mass / f.Bulk
}

// DryMass is the dry mass in a wet mass [kg].
func (f Fuel) DryMass(wet float64) float64 { return wet * (1 - f.Moisture) }

// Charred is how far the fuel has been charred before: 0 for wood, husks and
// shells (volatiles, ash-free, of 0.75 or more), 1 with no volatiles left. The
// char law uses it: only the volatile part of a charcoal gives gas.
func (f Fuel) Charred() float64 {
	v := f.Volatiles / (1 - f.Analysis.Ash)
	if !(v > 0) || v >= 0.75 { // not stated counts as raw
		return 0
	}
	return 1 - v/0.75
}
