package work

import (
	"io"
	"math"
	"sort"
	"strings"

	"toplit/drawing"
	"toplit/picture"
	"toplit/quantity"
	"toplit/sim"
)

// WriteSection draws the stove in section, to scale, with what was assumed
// hatched, as SVG.
func (d *Design) WriteSection(w io.Writer, sys quantity.System) error {
	o := picture.Options{Assumed: drawnSizes(d.Firing.Assumed)}
	if sys == quantity.US {
		o.Unit = "inches"
		o.Length = func(m float64) string { return quantity.Show(quantity.Length, m, sys, 3) }
		o.Mass = func(kg float64) string { return quantity.Show(quantity.Mass, kg, sys, 3) }
	}
	return drawing.WriteSVG(w, picture.Section(d.Firing.Design, d.Firing.Conditions, o))
}

// drawnSizes keeps the keys of what a section writes out: a row whose edge was
// assumed has not been drawn to an assumed size.
func drawnSizes(keys []string) []string {
	var out []string
	for _, k := range keys {
		part, name, _ := strings.Cut(k, ".")
		if k == "ring.height" {
			continue // on the rim, where a ring lies
		}
		switch name {
		case "diameter", "height", "bore", "gap", "count", "hole", "mass", "volume", "thickness", "material", "cover", "lid", "bulk_density":
			out = append(out, k)
		case "depth":
			if part != "ground" { // how deep a cover goes is not drawn
				out = append(out, k)
			}
		case "":
			out = append(out, k) // of the stove as a whole
		}
	}
	return out
}

// WriteChart draws the burn against time with its band, as SVG.
func (p *Prediction) WriteChart(w io.Writer, sys quantity.System) error {
	var o picture.ChartOptions
	if sys == quantity.US {
		o.TemperatureUnit = "°F"
		o.Temperature = func(k float64) float64 { return (k-273.15)*1.8 + 32 }
	}
	return drawing.WriteSVG(w, picture.BurnChart(p.chart(), o))
}

// WriteHeat draws where the heat went, as SVG.
func (p *Prediction) WriteHeat(w io.Writer) error {
	return drawing.WriteSVG(w, picture.HeatFlow(p.heat(), picture.ChartOptions{}))
}

// curve is one curve up to a time.
func (p *Prediction) curve(key string, till float64) picture.Curve {
	n := sort.SearchFloat64s(p.Time, till)
	if n < len(p.Time) {
		n++ // the point that reaches it
	}
	for _, c := range p.Curves {
		if c.Key == key {
			return picture.Curve{Times: p.Time[:n], Low: c.P10[:n], Mid: c.P50[:n], High: c.P90[:n]}
		}
	}
	return picture.Curve{}
}

// end is the time a chart runs to: until nine of ten burns have ended. A few
// that glow for hours do not squeeze the rest.
func (p *Prediction) end() float64 {
	t := 0.0
	for i, info := range sim.Figures() {
		if q := p.Figures[i]; info.Moment && q.P90 > t {
			t = q.P90
		}
	}
	if t == 0 && len(p.Time) > 0 {
		return p.Time[len(p.Time)-1]
	}
	return 1.05 * t
}

func (p *Prediction) chart() picture.Burn {
	b := picture.Burn{
		Title:     "Predicted burn of " + p.Title(),
		Note:      "made before any burn of this stove",
		Firepower: p.curve("firepower_W", p.end()),
	}
	if p.Firing.Conditions.Pot != nil {
		b.Water = p.curve("water_temperature_K", p.end())
	}
	at := func(f sim.Figure) float64 { return p.Figures[f].P50 }
	from := 0.0
	for _, ph := range []struct {
		name string
		till float64
	}{
		{"lighting", at(sim.FJetsLit)},
		{"steady gas flame", at(sim.FFrontAtGrate)},
		{"tail-off", at(sim.FFlameOut)},
		{"char", at(sim.FGlowEnd)},
	} {
		if ph.till > from {
			b.Phases = append(b.Phases, picture.Phase{Name: ph.name, From: from, To: ph.till})
			from = ph.till
		}
	}
	add := func(name string, q sim.Quantiles, note string) {
		if q.Never < 0.005 {
			q.Never = 0 // would be written as 0 %
		}
		b.Moments = append(b.Moments, picture.Moment{Name: name, Low: q.P10, Mid: q.P50, High: q.P90, Never: q.Never, Note: note})
	}
	add("jets lit", p.Figures[sim.FJetsLit], "")
	if p.Firing.Conditions.Pot != nil {
		add("pot on", p.PotOn, "")
		note := ""
		if t := at(sim.FTimeToBoil); !math.IsNaN(t) {
			note = clock(t) + " after pot on"
		}
		add("boil", p.Figures[sim.FBoil], note)
	}
	for _, f := range []sim.Figure{sim.FFrontAtGrate, sim.FFlameOut, sim.FGlowEnd} {
		add(sim.Figures()[f].Name, p.Figures[f], "")
	}
	return b
}

func (p *Prediction) heat() picture.Heat {
	l := p.Ledger
	return picture.Heat{
		Title: "Where the heat goes: " + p.Title(),
		Note:  "Shares of the net heating value of charge and starter, from the burn with every uncertain value at its median.",
		In:    []picture.Stream{{Name: "fuel and starter", Energy: l.Fuel}},
		Out: []picture.Stream{
			{Name: "water, warmed", Energy: l.Water, Kind: picture.Useful},
			{Name: "steam", Energy: l.Steam, Kind: picture.Useful},
			{Name: "pot, its metal", Energy: l.PotMetal},
			{Name: "pot to the air", Energy: l.PotLoss},
			{Name: "stove's metal", Energy: l.Metal},
			{Name: "stove to the air", Energy: l.WallLoss},
			{Name: "ground", Energy: l.Ground},
			{Name: "radiated past the pot", Energy: l.Sky},
			{Name: "hot gas leaving", Energy: l.HotGas, Kind: picture.Gas},
			{Name: "gas left unburned", Energy: l.Unburned, Kind: picture.Unburned},
			{Name: "char still in the can", Energy: l.CharLeft, Kind: picture.Char},
			{Name: "fuel left raw", Energy: l.RawLeft, Kind: picture.Unburned},
			{Name: "still in bed and gas", Energy: l.Rest, Kind: picture.Unknown},
		},
	}
}
