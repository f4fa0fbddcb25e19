package work

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"toplit/learn/size"
	"toplit/physics/water"
	"toplit/quantity"
	"toplit/stove/catalogue"
)

// SizeOptions is what a maker has and wants, as text: "" is not said.
type SizeOptions struct {
	Name     string
	FuelCan  string            // "404x700", "No. 10", "73 x 110 mm" (inside by height) or "strip:33 cm x 12 cm"
	OuterCan string            // the same, "none", or "any" for one out of the catalogue
	Fuel     string            // a fuel of the catalogue
	Pot      string            // diameter by height: "128 x 90 mm"; "" for none, or for one that is assumed where there is water
	Water    string            // "2 cups", "500 g"
	BoilIn   string            // "6:00" after the pot goes on
	Flame    string            // "20:00" after lighting
	Charge   string            // "200 g", "1 cup" or "60 mm" deep; "" to have it chosen
	Starter  string            // a starter of the catalogue
	Drills   string            // sets and drills: "metric", "1/8, 3/16, 1/4 in"; "" for half millimetres
	Also     map[string]string // further keys of the design file

	Samples  int
	Seed     uint64
	Units    quantity.System                   // of the design file and the sentences
	Progress func(stage string, share float64) // may be nil
}

// wish reads what the maker said.
func (o *SizeOptions) wish() (w size.Wish, err error) {
	w.Name, w.Also = o.Name, o.Also
	if w.FuelCan, err = readCan("fuel can", o.FuelCan); err != nil {
		return w, err
	}
	switch strings.ToLower(strings.TrimSpace(o.OuterCan)) {
	case "", "none":
	case "any":
		w.AnyOuter = true
	default:
		if w.Outer, err = readCan("outer can", o.OuterCan); err != nil {
			return w, err
		}
	}
	w.Fuel.Species = o.Fuel
	if o.Pot != "" {
		d, h, err := readTwo("pot", o.Pot, `diameter by height: "128 x 90 mm"`)
		if err != nil {
			return w, err
		}
		w.Pot = &size.Pot{Diameter: d, Height: h}
	}
	if w.Pot == nil && (o.Water != "" || o.BoilIn != "") {
		w.Pot = new(size.Pot) // water wants one; its size is assumed
	}
	if o.Water != "" {
		kind, v, err := oneOf("water", o.Water, `"500 g", "500 mL" or "2 cups"`, quantity.Mass, quantity.Volume)
		if err != nil {
			return w, err
		}
		if kind == quantity.Volume {
			v *= water.Density(288.15) // at 15 °C; 0.1 % less at 20 °C
		}
		w.Water.Mass = math.Round(v*1e4) / 1e4 // no measure is better
	}
	if o.Charge != "" {
		kind, v, err := oneOf("charge", o.Charge, `"200 g", "1 cup" or "60 mm"`, quantity.Mass, quantity.Volume, quantity.Length)
		if err != nil {
			return w, err
		}
		switch kind {
		case quantity.Mass:
			w.Charge.Mass = v
		case quantity.Volume:
			w.Charge.Volume = v
		default:
			w.Charge.Depth = v
		}
	}
	if w.BoilIn, err = readTime("boil in", o.BoilIn); err != nil {
		return w, err
	}
	if w.FlameFor, err = readTime("flame", o.Flame); err != nil {
		return w, err
	}
	w.Starter.Kind = o.Starter
	w.Drills, err = readDrills(o.Drills)
	return w, err
}

const canForms = `a trade code "401x411", a name "No. 10", inside diameter by height "73 x 110 mm", or a strip of paper round it by height "strip:33 cm x 12 cm"`

func readCan(what, text string) (size.Can, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return size.Can{}, fmt.Errorf("%s: not given; accepted: %s", what, canForms)
	}
	strip, ok := strings.CutPrefix(strings.ToLower(text), "strip:")
	if !ok {
		if _, err := catalogue.Can(text); err != nil {
			return size.Can{}, fmt.Errorf("%s %q: %w; accepted: %s", what, text, err, canForms)
		}
		return size.Can{Name: text}, nil
	}
	if !times.MatchString(strip) {
		s, err := length(strip)
		if err != nil {
			return size.Can{}, fmt.Errorf("%s %q: %w; accepted: %s", what, text, err, canForms)
		}
		if s <= 0 {
			return size.Can{}, fmt.Errorf("%s %q: not a size; accepted: %s", what, text, canForms)
		}
		return size.Can{Strip: s}, nil // whoever sizes asks for the height, and names a can
	}
	c, h, err := readTwo(what, strip, canForms)
	return size.Can{Strip: c, Height: h}, err
}

var (
	times   = regexp.MustCompile(`\s*[x×]\s*`)
	numeral = regexp.MustCompile(`^[0-9.,/ ⁄½¼¾]+$`)
	unitOf  = regexp.MustCompile(`[^0-9.,/ ⁄½¼¾].*$`)
)

// readTwo reads "128 x 90 mm": a unit at the end holds for both.
func readTwo(what, text, accept string) (a, b float64, err error) {
	parts := times.Split(strings.TrimSpace(text), -1)
	if len(parts) != 2 {
		return 0, 0, fmt.Errorf("%s %q: not two sizes; accepted: %s", what, text, accept)
	}
	if numeral.MatchString(parts[0]) {
		parts[0] += " " + unitOf.FindString(parts[1])
	}
	if a, err = length(parts[0]); err == nil {
		b, err = length(parts[1])
	}
	switch {
	case err != nil:
		return 0, 0, fmt.Errorf("%s %q: %w; accepted: %s", what, text, err, accept)
	case a <= 0 || b <= 0:
		return 0, 0, fmt.Errorf("%s %q: not a size; accepted: %s", what, text, accept)
	}
	return a, b, nil
}

func length(text string) (float64, error) {
	if numeral.MatchString(strings.TrimSpace(text)) {
		return 0, fmt.Errorf("%s has no unit", strings.TrimSpace(text))
	}
	return quantity.Parse(quantity.Length, text)
}

func oneOf(what, text, accept string, kinds ...quantity.Kind) (quantity.Kind, float64, error) {
	if numeral.MatchString(strings.TrimSpace(text)) {
		return 0, 0, fmt.Errorf("%s %q: has no unit; accepted: %s", what, text, accept)
	}
	kind, v, err := quantity.ParseOneOf(text, kinds...)
	switch {
	case err != nil:
		return 0, 0, fmt.Errorf("%s %q: %w; accepted: %s", what, text, err, accept)
	case v <= 0:
		return 0, 0, fmt.Errorf("%s %q: not an amount; accepted: %s", what, text, accept)
	}
	return kind, v, nil
}

// readTime reads a time that says its unit: "6:00", "6 min".
func readTime(what, text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	const accept = `"6:00" or "6 min"`
	if numeral.MatchString(strings.TrimSpace(text)) {
		return 0, fmt.Errorf("%s %q: has no unit; accepted: %s", what, text, accept)
	}
	t, err := quantity.Parse(quantity.Time, text)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%s %q: %w; accepted: %s", what, text, err, accept)
	case t <= 0:
		return 0, fmt.Errorf("%s %q: not a time to wait; accepted: %s", what, text, accept)
	}
	return t, nil
}

// What a stove's holes are drilled with; a set is cut down to these [m].
const (
	thinnest = 1e-3
	thickest = 16e-3
)

// readDrills reads sets and drills, separated by commas. A unit holds for the
// bare numbers before it: "3, 4, 5 mm".
func readDrills(text string) ([]catalogue.Drill, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	sets := catalogue.DrillSets()
	parts := strings.Split(text, ",")
	unit := ""
	for i := len(parts) - 1; i >= 0; i-- {
		p := strings.TrimSpace(parts[i])
		if numeral.MatchString(p) {
			p += " " + unit
		} else if !strings.HasPrefix(p, "#") {
			unit = unitOf.FindString(p)
		}
		parts[i] = strings.TrimSpace(p)
	}
	var all []catalogue.Drill
	for _, p := range parts {
		if i := slices.IndexFunc(sets, func(s string) bool { return plainName(s) == plainName(p) }); i >= 0 {
			set, err := catalogue.Drills(sets[i])
			if err != nil {
				return nil, err
			}
			for _, d := range set {
				if d.Diameter >= thinnest && d.Diameter <= thickest {
					all = append(all, d)
				}
			}
			continue
		}
		if numeral.MatchString(p) {
			return nil, fmt.Errorf("drills %q: %s has no unit; accepted: sets (%s) or drills such as \"3, 4, 5 mm\"", text, p, strings.Join(sets, ", "))
		}
		d, err := catalogue.ParseDrill(p)
		if err != nil {
			return nil, fmt.Errorf("drills %q: %w; accepted: sets (%s) or drills such as \"3, 4, 5 mm\", \"1/8, 3/16 in\", \"#7\"", text, err, strings.Join(sets, ", "))
		}
		all = append(all, d)
	}
	slices.SortStableFunc(all, func(a, b catalogue.Drill) int {
		switch {
		case a.Diameter < b.Diameter:
			return -1
		case a.Diameter > b.Diameter:
			return 1
		}
		return 0
	})
	return slices.CompactFunc(all, func(a, b catalogue.Drill) bool { return math.Abs(a.Diameter-b.Diameter) < 1e-6 }), nil
}
