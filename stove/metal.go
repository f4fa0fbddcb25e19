package stove

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed metals.csv
var metalTable string

// MetalData is one row of the table of metals.
type MetalData struct {
	Metal   Metal
	Density float64 // at 20 °C [kg/m3]
	Source  string
}

var metals = sync.OnceValues(func() ([]MetalData, error) {
	rows, err := csv.NewReader(strings.NewReader(metalTable)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("metals.csv: %w", err)
	}
	var table []MetalData
	for _, r := range rows[1:] {
		density, err := strconv.ParseFloat(r[1], 64)
		if err != nil {
			return nil, fmt.Errorf("metals.csv: density of %s: %w", r[0], err)
		}
		table = append(table, MetalData{Metal(r[0]), density, r[3]})
	}
	return table, nil
})

// Metals is the table of metals a design may name, in the order of the file.
func Metals() ([]MetalData, error) {
	table, err := metals()
	return append([]MetalData(nil), table...), err
}

// Data finds the metal's row; false for an unknown metal.
func (m Metal) Data() (MetalData, bool) {
	table, _ := metals()
	for _, row := range table {
		if row.Metal == m {
			return row, true
		}
	}
	return MetalData{}, false
}

// Density is the metal's density at 20 °C [kg/m3]; an unknown metal is taken
// as steel.
func (m Metal) Density() float64 {
	if row, ok := m.Data(); ok {
		return row.Density
	}
	return 7850
}
