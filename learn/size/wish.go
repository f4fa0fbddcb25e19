package size

import (
	"fmt"
	"math"
	"strings"

	"toplit/firing"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Wish is what a maker has and wants. A zero field is not said: it is assumed
// by the design file's defaults or chosen. SI units.
type Wish struct {
	Name     string
	FuelCan  Can               // required
	Outer    Can               // zero for a single wall, unless AnyOuter
	AnyOuter bool              // take an outer can that fits from the catalogue
	Fuel     firing.Fuel       // zero fields as the fuel catalogue says; softwood pellets
	Pot      *Pot              // nil when nothing is cooked
	Water    firing.Water      // in the pot; Mass 0 is assumed
	BoilIn   float64           // boil so long after the pot goes on, 0 for no wish [s]
	FlameFor float64           // gas flame so long after lighting, 0 for no wish [s]
	Charge   firing.Charge     // zero: chosen
	Starter  firing.Starter    // Kind "" is alcohol; Mass 0: what covers the top
	Drills   []catalogue.Drill // on hand; none: half millimetres from 1 to 13 mm
	Air      firing.Air        // zero fields are assumed; Altitude stands in for a missing pressure
	Altitude float64           // [m]
	// Also gives further keys of the design file as text, such as
	// "air.wind": "0 m/s" or "ground.cover": "sand". Keys that are sized here
	// (rows, standoff, ring.bore, stand.height and the like) are refused.
	Also map[string]string
}

// Can is a can as a maker knows it: by trade code or name ("404x700", "paint
// quart"), by a strip of paper round it and its height, or by its diameter and
// height. Sizes given beside a name override it.
type Can struct {
	Name     string
	Strip    float64 // once round the body, paper of 0.1 mm allowed for [m]
	Diameter float64 // outside, of the body [m]
	Height   float64 // overall [m]
	Wall     float64 // sheet, 0 for not measured [m]
	Metal    stove.Metal
	Surface  stove.Surface
}

// given: anything of the can is said.
func (c Can) given() bool { return c != Can{} }

// Pot is the pot as a maker knows it; zero fields are assumed.
type Pot struct {
	Diameter, Height float64 // of the base, of the wall [m]
	Mass             float64 // empty, with its lid [kg]
	Metal            stove.Metal
	Lid              *bool // nil for not said
}

// Options says how hard to look. The zero value is right.
type Options struct {
	Samples  int                               // of the final predictions, default 128; 32 when quick
	Quick    bool                              // a first look: a shorter search, charges by fewer samples
	Seed     uint64                            // of the band, default 1
	Workers  int                               // default all cores
	Units    quantity.System                   // of the sentences
	Progress func(stage string, share float64) // may be nil; never called from two goroutines at once

	own *effort // of tests
}

func (o Options) filled() Options {
	if o.Samples == 0 {
		o.Samples = 128
		if o.Quick {
			o.Samples = 32
		}
	}
	if o.Seed == 0 {
		o.Seed = 1
	}
	return o
}

// effort is how far the search goes.
type effort struct {
	trials, more int  // designs tried over all sizes, and once more near the end
	field        int  // designs compared over the band
	coarse       int  // samples for that
	medium       int  // samples for finding a charge
	polish       bool // a last step by the band where it is poor
}

func (o Options) effort() effort {
	if o.own != nil {
		return *o.own
	}
	if o.Quick {
		return effort{trials: 60, more: 10, field: 2, coarse: 16, medium: 24}
	}
	return effort{trials: 160, more: 40, field: 4, coarse: 16, medium: 48, polish: true}
}

// check refuses a wish that is none before anything is computed.
func (w Wish) check(o Options) error {
	finite := func(what string, v, most float64, accepted string) error {
		if !(v >= 0 && v <= most) {
			return fmt.Errorf("%s %g is out of range, accepted: %s", what, v, accepted)
		}
		return nil
	}
	switch {
	case !w.FuelCan.given():
		return fmt.Errorf("no fuel can: give its trade code or name, or a strip of paper round it and its height, or its diameter and height")
	case w.Pot == nil && (w.BoilIn > 0 || w.Water != firing.Water{}):
		return fmt.Errorf("water is to be boiled but there is no pot to hold it")
	case o.Samples < 16 || o.Samples > 1<<14:
		return fmt.Errorf("%d samples, accepted: 16 to 16384", o.Samples)
	}
	for _, e := range []error{
		finite("boil time [s]", w.BoilIn, 4*3600, "0 (no wish) to 4 hours"),
		finite("flame time [s]", w.FlameFor, 4*3600, "0 (no wish) to 4 hours"),
		finite("drills", float64(len(w.Drills)), 1000, "up to 1000"),
	} {
		if e != nil {
			return e
		}
	}
	if err := w.FuelCan.check("fuel can"); err != nil {
		return err
	}
	if w.Outer.given() {
		if err := w.Outer.check("outer can"); err != nil {
			return err
		}
	}
	for key := range w.Also {
		table, _, _ := strings.Cut(key, ".")
		table, _, _ = strings.Cut(table, "[")
		switch table {
		case "row", "standoff", "annulus", "fan", "format":
			return fmt.Errorf("%s cannot be given: it is sized here, or left out", key)
		}
		switch key {
		case "ring.bore", "riser.bore", "riser.height", "stand.height", "stand.gap", "stand.closed":
			return fmt.Errorf("%s cannot be given: it is sized here", key)
		}
	}
	for _, d := range w.Drills {
		if !(d.Diameter > 0.3e-3 && d.Diameter < 0.15) {
			return fmt.Errorf("drill %s of %g m is none, accepted: 0.3 mm to 150 mm", d.Name, d.Diameter)
		}
	}
	return nil
}

func (c Can) check(what string) error {
	if c.Name != "" {
		return nil
	}
	switch {
	case c.Strip == 0 && c.Diameter == 0:
		return fmt.Errorf("%s has no diameter: wrap a strip of paper round it, or give a trade code", what)
	case c.Strip != 0 && c.Diameter != 0:
		return fmt.Errorf("%s has a strip and a diameter: give one of them", what)
	case c.Height == 0:
		if c.Strip > 0 {
			if near, _, _, err := catalogue.NearestCan(catalogue.FromStrip(c.Strip, 0.1e-3), c.Strip/math.Pi*1.3); err == nil {
				return fmt.Errorf("%s has no height: measure it; a can as wide as this strip is %s, %.0f mm tall", what, near.Name, near.HeightOverall*1e3)
			}
		}
		return fmt.Errorf("%s has no height: measure it", what)
	}
	return nil
}
