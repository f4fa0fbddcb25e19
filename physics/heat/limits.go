package heat

import (
	_ "embed"
	"math"
	"sync"
)

//go:embed limits.csv
var limitsCSV string

// Limit is a published value at which contact burns or a ground fuel lights.
type Limit struct {
	Kind      string // contact, surface, flux, moisture
	What      string
	Value     float64 // [Unit]
	Low, High float64 // [Unit]
	Unit      string  // C, kW/m2, %
	Seconds   float64 // contact time, 0 if none [s]
	Source    string
}

var limits = sync.OnceValues(func() ([]Limit, error) {
	var out []Limit
	err := eachRow(limitsCSV, func(r map[string]string, num func(string) float64) {
		l := Limit{Kind: r["kind"], What: r["what"], Value: num("value"), Low: num("low"), High: num("high"), Unit: r["unit"], Source: r["source"]}
		if r["seconds"] != "" {
			l.Seconds = num("seconds")
		}
		out = append(out, l)
	})
	return out, err
})

// Limits returns the table of contact and ignition limits. A value in it is a
// measurement on one material; below it is not "safe".
func Limits() ([]Limit, error) { return limits() }

// BurnThreshold returns the temperature [K] of bare metal that burns skin on
// contact for a time [s], in ln time between the rows of the table and held at
// their ends.
func BurnThreshold(seconds float64) (float64, error) {
	all, err := limits()
	if err != nil {
		return 0, err
	}
	var before *Limit
	for i := range all {
		l := &all[i]
		if l.Kind != "contact" {
			continue
		}
		if seconds <= l.Seconds {
			if before == nil {
				return l.Value + 273.15, nil
			}
			w := math.Log(seconds/before.Seconds) / math.Log(l.Seconds/before.Seconds)
			return before.Value + w*(l.Value-before.Value) + 273.15, nil
		}
		before = l
	}
	return before.Value + 273.15, nil
}

// TimeToLight returns the time [s] after which a thick solid of k [W/m K] and
// c [J/m3 K] reaches its ignition temperature under a net flux [W/m2]:
// (pi/4) k c [(t - t0)/q]^2, infinite without flux. Exact for a half space
// under constant flux.
func TimeToLight(k, c, t, t0, q float64) float64 {
	if !(q > 0) {
		return math.Inf(1)
	}
	r := math.Max(t-t0, 0) / q
	return math.Pi / 4 * k * c * r * r
}
