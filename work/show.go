package work

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"toplit/picture"
	"toplit/quantity"
	"toplit/sim"
)

// WriteText writes the prediction for people: when, how much, where the heat
// goes, what holds the stove back, what the doubt comes from, what was
// assumed, what the checks found, and the cautions last.
func (p *Prediction) WriteText(w io.Writer, sys quantity.System) error {
	t := &page{w: w}
	t.printf("%s\n", p.Title())
	t.para("", fmt.Sprintf("Predicted burn, before any burn of this stove: %d samples, seed %d, model %s. In eight of ten burns the truth should lie between the two bounds.", p.Samples, p.Seed, p.Model))
	if p.Failed > 0 {
		t.para("", fmt.Sprintf("%d of the samples could not be computed and are left out.", p.Failed))
	}
	p.when(t)
	p.howMuch(t, sys)
	p.whereHeat(t)
	if len(p.Limits) > 0 {
		t.heading("What holds it back")
		for _, l := range p.Limits {
			t.para("  - ", inUnits(l.Sentence, sys))
		}
	}
	p.doubt(t)
	p.showAssumed(t, sys, "the file does not give")
	p.showFindings(t)
	t.cautions(p.Cautions, sys)
	return t.err
}

// when is the moments, each with its zero.
func (p *Prediction) when(t *page) {
	t.heading("When")
	var rows [][]string
	row := func(name, zero string, q sim.Quantiles) {
		if math.IsNaN(q.P50) {
			rows = append(rows, []string{name, "", "never", ""})
			return
		}
		rows = append(rows, []string{name, clock(q.P50), zero, span(clock(q.P10), clock(q.P90)) + never(q)})
	}
	figures := sim.Figures()
	for i, info := range figures {
		q := p.Figures[i]
		if !info.Moment || sim.Figure(i) == sim.FBoil && p.Firing.Conditions.Pot == nil {
			continue
		}
		row(info.Name, "after lighting", q)
		switch sim.Figure(i) {
		case sim.FJetsLit:
			if p.Firing.Conditions.Pot != nil {
				row("pot on", "after lighting", p.PotOn)
			}
		case sim.FBoil:
			if !math.IsNaN(q.P50) {
				row("", "after pot on", p.Figures[sim.FTimeToBoil])
			}
		}
	}
	t.table([]string{"", ">", "", ""}, rows)
}

// howMuch is the figures that are not moments.
func (p *Prediction) howMuch(t *page, sys quantity.System) {
	t.heading("How much")
	var rows [][]string
	for i, info := range sim.Figures() {
		f := sim.Figure(i)
		if info.Moment || f == sim.FTimeToBoil || f == sim.FFlameTime || f == sim.FHeatTime {
			continue // shown as moments
		}
		q := p.Figures[i]
		if math.IsNaN(q.P50) {
			continue
		}
		if info.Unit == "1" && math.Abs(q.P90) < 0.005 && math.Abs(q.P10) < 0.005 {
			continue // straight holes give no swirl, no pot takes no heat
		}
		show := func(v float64) string { return figure(f, info.Unit, v, sys) }
		rows = append(rows, []string{info.Name, show(q.P50), span(show(q.P10), show(q.P90)), reading(f)})
	}
	t.table([]string{"", ">", "", ""}, rows)
	if q := p.Figures[sim.FFirepower]; q.Never > 0 {
		t.para("  ", fmt.Sprintf("In %s of the burns no gas flame lasts; they are left out here.", percent(q.Never)))
	}
	basis := "Powers, flux, air and draft are means from jets lit to front at grate"
	if p.Firing.Conditions.Pot != nil {
		basis += "; cooking power and efficiency run from pot on"
	}
	t.para("  ", basis+". Heating values are net, of the fuel as fired.")
}

// reading is a word on how to read a figure.
func reading(f sim.Figure) string {
	switch f {
	case sim.FFirepower:
		return "char left out"
	case sim.FCookingPower:
		return "into water and steam"
	case sim.FFuelFlux:
		return "per bore area"
	case sim.FCharYield:
		return "of the dry fuel"
	case sim.FEfficiency:
		return "no credit for char"
	case sim.FSecondaryPrimary:
		return "by mass"
	case sim.FExcessAir:
		return "1 is just enough"
	case sim.FSwirl:
		return "below 0.4 is weak"
	case sim.FJetReach:
		return "1 is the middle"
	case sim.FBurnOut:
		return "3 is wanted"
	}
	return ""
}

// whereHeat is the ledger in whole percent.
func (p *Prediction) whereHeat(t *page) {
	h := p.heat().Balanced()
	if len(h.Out) == 0 {
		return
	}
	t.heading("Where the heat of fuel and starter goes (every uncertain value at its median)")
	share := picture.Percents(h.Out)
	var rows [][]string
	for i, s := range h.Out {
		if share[i] > 0 {
			rows = append(rows, []string{strconv.Itoa(share[i]) + " %", s.Name})
		}
	}
	t.table([]string{">", ""}, rows)
}

// doubt is what widens the bands and what would narrow them.
func (p *Prediction) doubt(t *page) {
	begun := false
	told := map[string]bool{}
	for _, f := range []sim.Figure{sim.FTimeToBoil, sim.FFirepower, sim.FFlameTime} {
		if p.Figures[f].Never > 0.2 {
			continue // whether it comes at all matters more than when
		}
		for i, d := range p.Drivers[f.String()] {
			if i >= 2 || d.Share < 0.1 {
				break
			}
			if !begun {
				t.heading("What the doubt comes from")
				begun = true
			}
			line := fmt.Sprintf("%s: %.0f %% of the doubt is %s.", sim.Figures()[f].Name, 100*d.Share, doubtful(d))
			if do := narrowedBy(d.Parameter); do != "" && !told[do] {
				line += " To know it better, " + do + "."
				told[do] = true
			}
			t.para("  - ", line)
		}
	}
}

// showAssumed lists what was not given.
func (d *Design) showAssumed(t *page, sys quantity.System, who string) {
	all := d.Assumed(sys)
	if len(all) == 0 {
		return
	}
	t.heading(fmt.Sprintf("We assumed (%d values %s)", len(all), who))
	s := ""
	for i, a := range all {
		if i > 0 {
			s += ", "
		}
		s += keep(a.Key + " " + a.Value)
	}
	t.para("  ", s)
}

// showFindings lists what the checks found.
func (d *Design) showFindings(t *page) {
	if len(d.Findings) == 0 {
		return
	}
	t.heading("Checks")
	for _, f := range d.Findings {
		t.para("  - ", string(f.Severity)+": "+f.Error())
	}
}

// keep holds words together that belong on one line.
func keep(s string) string { return strings.ReplaceAll(s, " ", held) }

// clock writes a time as minutes and seconds, with hours from the first.
func clock(s float64) string {
	if math.IsNaN(s) {
		return "never"
	}
	n := int64(math.Round(s))
	if n >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", n/3600, n/60%60, n%60)
	}
	return fmt.Sprintf("%d:%02d", n/60, n%60)
}

// span is two bounds, the unit written once where both have the same; nothing
// where they read the same.
func span(low, high string) string {
	if low == high {
		return ""
	}
	if n, unit, ok := strings.Cut(low, " "); ok {
		if _, same, _ := strings.Cut(high, " "); same == unit {
			low = n
		}
	}
	return low + " to " + high
}

func never(q sim.Quantiles) string {
	if q.Never <= 0 {
		return ""
	}
	return fmt.Sprintf(", in %s never", percent(q.Never))
}

func percent(v float64) string {
	if v > 0 && v < 0.01 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*v)
}

// figure writes a figure in the reader's units, in two digits: no band here is
// narrower. Watts and pascals stay what they are in both systems.
func figure(f sim.Figure, unit string, v float64, sys quantity.System) string {
	switch f {
	case sim.FCharYield, sim.FEfficiency, sim.FEfficiencyChar:
		return quantity.Show(quantity.Ratio, v, quantity.Metric, 2)
	}
	switch unit {
	case "W":
		return quantity.Show(quantity.Power, v, quantity.Metric, 2)
	case "K":
		return quantity.Show(quantity.Temperature, v, sys, 2)
	case "Pa":
		return quantity.Show(quantity.Pressure, v, quantity.Metric, 2)
	case "s":
		return clock(v)
	case "1":
		return short(v, 2)
	case "kg/m2 s":
		return short(1000*v, 2) + " g/m² s"
	}
	return short(v, 2) + " " + unit
}

// short is a number in so many digits, without an exponent.
func short(v float64, digits int) string {
	x, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil || math.IsNaN(x) {
		return "–"
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
