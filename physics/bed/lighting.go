package bed

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"toplit/numeric"
	"toplit/physics/fuel"
)

//go:embed starters.csv
var startersCSV string

// Starter is one way to light the top.
type Starter struct {
	Kind    string
	LHV     float64 // [J/kg]
	Flux    float64 // burning rate per covered area [kg/m² s], ± 50 %
	Cover   float64 // dose that covers the top [kg/m²]
	Share   float64 // of its heat that goes into the top
	Refused string  // why it must not be used; empty when it may
	Note    string  // how it is used, with its caution
	Source  string
}

var starters = sync.OnceValues(func() ([]Starter, error) {
	rows, err := csv.NewReader(strings.NewReader(startersCSV)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("starter table: %w", err)
	}
	var out []Starter
	for i, r := range rows[1:] {
		s := Starter{Kind: r[0], Refused: r[5], Note: r[6], Source: r[7]}
		for j, to := range []*float64{&s.LHV, &s.Flux, &s.Cover, &s.Share} {
			if *to, err = strconv.ParseFloat(r[1+j], 64); err != nil {
				return nil, fmt.Errorf("starter table: line %d: %w", i+2, err)
			}
		}
		s.LHV *= 1e6
		s.Flux *= 1e-3
		out = append(out, s)
	}
	return out, nil
})

// Starters is every starter known by name, refused ones included.
func Starters() []Starter {
	s, _ := starters() // the embedded table is checked by a test
	return append([]Starter(nil), s...)
}

// StarterByName finds a starter. A starter that must not be used is an error
// that says why; an unknown one is an error with the nearest names.
func StarterByName(kind string) (Starter, error) {
	list, err := starters()
	if err != nil {
		return Starter{}, err
	}
	want := strings.ToLower(strings.TrimSpace(kind))
	best, far := "", math.MaxInt
	for _, s := range list {
		if s.Kind == want {
			if s.Refused != "" {
				return Starter{}, fmt.Errorf("starter %q is refused: %s", kind, s.Refused)
			}
			return s, nil
		}
		if d := fuel.Far(want, s.Kind); s.Refused == "" && d < far {
			best, far = s.Kind, d
		}
	}
	return Starter{}, fmt.Errorf("starter: no kind %q; nearest is %q", kind, best)
}

// Dose is the mass of starter that covers a top of the given area [m²] [kg].
func (s Starter) Dose(area float64) float64 { return s.Cover * area }

// Heat is what a burning starter puts into the top it covers [W/m²].
func (s Starter) Heat() float64 { return s.Share * s.Flux * s.LHV }

// Covered is the share of a top of the given area [m²] that a mass m [kg]
// covers, 0 to 1.
func (s Starter) Covered(m, area float64) float64 {
	if !(s.Cover > 0 && area > 0 && m > 0) {
		return 0
	}
	return min(1, m/(s.Cover*area))
}

// Duration is how long a mass m [kg] burns when it covers as much of the area
// [m²] as its dose allows [s].
func (s Starter) Duration(m, area float64) float64 {
	if !(s.Flux > 0 && s.Cover > 0 && area > 0 && m > 0) {
		return 0
	}
	return m / (s.Flux * min(area, m/s.Cover))
}

// LightIn is the top of the charge while it is being lit.
type LightIn struct {
	Share    float64 // of the top that is alight, 0 to 1
	Cover    float64 // share of the top the burning starter covers, 0 to 1
	Heat     float64 // heat the starter puts into the covered top [W/m²]; zero once it is burned
	Moisture float64 // X of the top layer, dry basis [kg/kg]
	Layer    float64 // mass of the layer that must be heated, see TopLayer [kg dry/m²]
	Fuel     float64 // temperature of the fuel [K]
	Bore     float64 // diameter of the top [m]
	Spread   float64 // speed fire creeps over dry fuel, 0 for the prior [m/s]
	Soft     float64 // relative width of the corners, 0 for 0.1
}

// Constants of lighting.
const (
	// CriticalHeat is the heat flux below which wood with a pilot flame does not
	// take fire, whatever the time [W/m²]: 10 to 13 kW/m² [memory].
	CriticalHeat = 11e3
	// SpreadSpeed is how fast fire creeps sideways over the top of dry small
	// fuel [m/s]: 0.5 mm/s, multiply or divide by 2; thick wood against the air
	// 0.1 to 0.3, kindling 1 [memory].
	SpreadSpeed = 0.5e-3
	// Extinction is the moisture on dry basis at which fire no longer spreads
	// over dead fuel [kg/kg]: 0.12 to 0.40 in the fire spread model of Rothermel
	// 1972 [memory]. Stoves have been run on fuel of 0.28 (22 % wet basis:
	// Huangfu et al. 2014, James, Yuan, Boyette 2016); builders keep below 0.25.
	Extinction = 0.35
	// Dying is the time in which a lit patch of fuel wetter than Extinction goes
	// out when nothing else heats it [s]. Judgement.
	Dying = 90.0

	lightSoft = 0.1
)

// TopLayer is the dry mass of fuel per area that must take fire to count as
// lit [kg/m²]: one layer of pieces, at most as deep as heat gets into wood
// while it is being lit, 6 mm of solid, packed as the bed is. √(4·α·t) with α =
// 0.14 mm²/s (pine across the grain, MaCFP database) is 6.5 mm after 75 s.
func TopLayer(f fuel.Fuel) float64 {
	return f.Density * (1 - f.Moisture) * (1 - f.Void()) * numeric.SoftMin(f.Size, heated, 0.2)
}

const heated = 6e-3 // [m]

// LightingEnergy is the heat that lights one square metre of top [J/m²]: the
// layer heated to Ignition and its water dried off.
func LightingEnergy(layer, X, T float64) float64 {
	return layer * (frontCp*max(Ignition-T, 1) + max(X, 0)*moistureHeat)
}

// Damping is how much moisture slows the spread of fire, 1 for dry fuel, 0 at
// and above Extinction:
//
//	1 − 2.59·r + 5.11·r² − 3.52·r³,  r = X/Extinction
//
// Rothermel 1972, USDA INT-115, moisture damping coefficient [memory].
func Damping(X float64) float64 {
	r := min(max(X, 0)/Extinction, 1)
	return max(1-r*(2.59-r*(5.11-r*3.52)), 0)
}

// Lighting is d(share)/dt of the top alight [1/s]:
//
//	(cover − share)₊·(q − q_crit)₊/E  +  share·(1 − share)·4·v·damping/bore  −  share·wet/Dying
//
// The starter lights what it covers once it has given the energy E of that
// layer; from there fire creeps sideways over the bore; fuel wetter than
// Extinction goes out again unless the starter still burns. So a small dose
// lights a patch that must spread, moist fuel is late, wet fuel never lights.
//
// Accuracy: times ± 50 %, as practice reports 2 to 5 minutes for the same
// thing. A gust or a poured-on excess is not in it.
func Lighting(in LightIn) float64 {
	s := min(max(in.Share, 0), 1)
	w := width(in.Soft, lightSoft)
	X := max(in.Moisture, 0)
	E := LightingEnergy(max(in.Layer, 0.05), X, in.Fuel)
	rate := ramp(min(in.Cover, 1)-s, 0.5*w) * numeric.SoftPlus(in.Heat-CriticalHeat, CriticalHeat*w) / E
	v := in.Spread
	if v <= 0 {
		v = SpreadSpeed
	}
	if in.Bore > 0 {
		rate += s * (1 - s) * 4 * v * Damping(X) / in.Bore
	}
	wet := numeric.SoftPlus(X/Extinction-1, w)
	return rate - s*min(wet*4, 1)/Dying
}

// ramp is x for x well above w and 0 at and below 0, with a continuous slope.
func ramp(x, w float64) float64 {
	if !(x > 0) {
		return 0
	}
	return x * x / (x + w)
}
