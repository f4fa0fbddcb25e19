package heat

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

//go:embed surfaces.csv
var surfacesCSV string

// Surface is the emissivity of a material in a state, with its source.
type Surface struct {
	State      string  // bright, melted, oxidised, painted, sooty, char, water, ground, rusted
	Material   string  // tinplate, steel, stainless, aluminium, galvanised, copper, titanium; any
	Emissivity float64 // [1]
	Low, High  float64 // bounds of the prior [1]
	Celsius    string  // where measured, empty if not stated [°C]
	Source     string
}

var surfaces = sync.OnceValues(func() ([]Surface, error) {
	var out []Surface
	err := eachRow(surfacesCSV, func(r map[string]string, num func(string) float64) {
		out = append(out, Surface{
			State: r["state"], Material: r["material"], Emissivity: num("emissivity"),
			Low: num("low"), High: num("high"), Celsius: r["temp_c"], Source: r["source"],
		})
	})
	return out, err
})

// Surfaces returns the table of emissivities.
func Surfaces() ([]Surface, error) { return surfaces() }

// SurfaceOf returns the emissivity of a material in a state. States that hold
// whatever lies under them (sooty, char, water, ground) take any material.
// Bright tin stays at 0.06 only until it melts (231.9 °C): a bare can's heat
// loss doubles over its first burns.
func SurfaceOf(state, material string) (Surface, error) {
	all, err := surfaces()
	if err != nil {
		return Surface{}, err
	}
	var known []string
	for _, s := range all {
		if s.State == state && (s.Material == material || s.Material == "any") {
			return s, nil
		}
		known = append(known, s.State+" "+s.Material)
	}
	return Surface{}, fmt.Errorf("surface: no emissivity for %q in state %q, known: %s", material, state, strings.Join(known, ", "))
}
