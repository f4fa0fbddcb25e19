package work

import (
	"fmt"
	"io"
	"math"
	"strings"

	"toplit/firing"
	"toplit/quantity"
	"toplit/stove"
)

// Checkup is what can be said of a design before any fire: what it measures
// and what the checks found.
type Checkup struct {
	*Design  // its Firing is nil when the file could not be read
	Measures []Measure
}

// Measure is one size or ratio of the drawn stove.
type Measure struct {
	Key   string // of JSON; ends in its SI unit
	Name  string
	Value float64 // SI
	Kind  quantity.Kind
	Note  string
}

// Check reads a design file, measures the stove and looks for what is unsafe,
// will not work or cannot be cut. name is what findings call the file. Refused
// says whether it may be lit as drawn; an empty list of findings does not mean
// that it is safe.
func Check(r io.Reader, name string) *Checkup {
	f, found := firing.Examine(r, name)
	c := &Checkup{Design: &Design{File: name, Firing: f, Findings: found}}
	if c.Refused() == nil {
		c.measure()
	}
	return c
}

func (c *Checkup) measure() {
	f := c.Firing
	d := &f.Design
	add := func(key, name string, kind quantity.Kind, v float64, note string) {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			c.Measures = append(c.Measures, Measure{key, name, v, kind, note})
		}
	}
	load := f.Load()
	add("fuel_can_bore_m", "fuel can, bore", quantity.Length, d.FuelCan.Bore(), "")
	add("fuel_can_depth_m", "fuel can, depth", quantity.Length, d.FuelCan.Depth(), "")
	if level, ok := d.JetLevel(); ok {
		add("jet_level_m", "jets begin at", quantity.Length, level, "above the fuel can's base")
	}
	add("charge_mass_kg", "charge", quantity.Mass, load.Mass, "as fired")
	add("charge_volume_m3", "charge, as poured", quantity.Volume, load.Volume, "")
	add("charge_depth_m", "charge, depth", quantity.Length, load.Depth, "")
	add("primary_area_m2", "primary holes", quantity.Area, d.Primary(load.Depth), "open area below the fuel's top")
	add("secondary_area_m2", "secondary holes", quantity.Area, d.Secondary(load.Depth), "open area above it")
	if r, ok := d.SecondaryToPrimary(load.Depth); ok {
		add("secondary_to_primary_area", "secondary to primary", quantity.Ratio, r, "by open area")
	}
	if d.OuterCan != nil {
		add("inlet_area_m2", "inlet of the outer can", quantity.Area, d.Inlet(), "")
		add("annulus_gap_m", "annulus, gap", quantity.Length, d.AnnulusGap(), "")
		add("annulus_area_m2", "annulus, area", quantity.Area, d.AnnulusArea(), "")
	}
	add("gap_under_fuel_can_area_m2", "gap under the fuel can", quantity.Area, d.Curtain(), "area the air passes")
	if d.Ring != nil {
		across, area := d.RingToBore()
		add("ring_to_bore_diameter", "ring to bore", quantity.Ratio, across, "by diameter")
		add("ring_to_bore_area", "ring to bore", quantity.Ratio, area, "by area")
	}
	if f.Conditions.Pot != nil {
		s := d.Stack()
		add("pot_base_height_m", "pot's base", quantity.Length, s.PotBase, "above the ground")
		add("rim_to_pot_m", "rim to pot", quantity.Length, s.PotBase-s.FuelRim, "")
	}
	w := d.Weigh()
	add("empty_mass_kg", "empty stove", quantity.Mass, w.Mass(), "from the drawing, good to about 5 %")
	st := f.Stability()
	add("loaded_mass_kg", "loaded", quantity.Mass, st.Mass, "")
	pack := f.Packing()
	add("packed_diameter_m", "packs into, across", quantity.Length, pack.Diameter, strings.Join(pack.Inside, ", "))
	add("packed_height_m", "packs into, tall", quantity.Length, pack.Height, "")
	add("tip_angle_rad", "tips over at", quantity.Angle, st.Angle, fmt.Sprintf("%.0f° and more is steady", stove.SteadyAngle*180/math.Pi))
}

// WriteJSON writes measures and findings.
func (c *Checkup) WriteJSON(w io.Writer) error {
	var m object
	for _, x := range c.Measures {
		m = append(m, member{x.Key, x.Value})
	}
	return writeJSON(w, object{
		{"format", JSONFormat},
		{"design", c.Title()},
		{"refused", c.Refused() != nil},
		{"measures", m},
		{"findings", findings(c.Findings)},
		{"assumed", c.assumed()},
		{"cautions", cautionList(standing())},
	})
}

// WriteText writes measures and findings for people.
func (c *Checkup) WriteText(w io.Writer, sys quantity.System) error {
	t := &page{w: w}
	t.printf("%s\n", c.Title())
	if len(c.Measures) > 0 {
		t.heading("As drawn")
		var rows [][]string
		for _, m := range c.Measures {
			rows = append(rows, []string{m.Name, m.show(sys), m.Note})
		}
		t.table([]string{"", ">", ""}, rows)
	}
	c.showAssumed(t, sys, "the file does not give")
	t.heading("Checks")
	for _, s := range []stove.Severity{stove.Error, stove.Warning, stove.Note} {
		for _, f := range c.of(s) {
			t.para("  - ", string(s)+": "+f.Error())
		}
	}
	switch {
	case c.Firing == nil:
		t.para("  ", "Refused: the file cannot be read.")
	case c.Refused() != nil:
		t.para("  ", "Refused: do not light it as it stands.")
	case len(c.of(stove.Warning)) > 0:
		t.para("  ", "Nothing forbids it, but heed the warnings.")
	default:
		t.para("  ", "Nothing was found against it. That does not make it safe.")
	}
	t.cautions(standing(), sys)
	return t.err
}

func (m Measure) show(sys quantity.System) string {
	if m.Kind == quantity.Ratio {
		return short(m.Value, 3)
	}
	return quantity.Show(m.Kind, m.Value, sys, 3)
}
