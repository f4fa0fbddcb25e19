// Package firing is one firing of a stove written down as conditions: the
// charge, the starter, the pot and its water, the weather, the schedule, and
// the words for what happens (events, phases, moments). It also reads, writes
// and changes the design file, fills what a file leaves out and says that it
// did, and checks a firing for what would keep it from working or make it
// unsafe.
//
// Range: that of each key, in Keys and in docs/design-file.md. Defaults carry
// their source or the words "common practice, no source".
//
// It holds no equation and no reading: pressure by altitude, densities and the
// fuel catalogue come from the rooms of physics. It never says that a firing is
// safe.
//
// See docs/design-file.md.
package firing

import (
	"slices"

	"toplit/stove"
)

// Firing is a design and the conditions it is fired under: what a design file
// says. Assumed names the keys of the file that were not given and were
// filled with a default, in file order ("pot.lid", "air.temperature").
type Firing struct {
	Design     stove.Design
	Conditions Conditions
	Assumed    []string
}

// Clone is a copy that shares nothing with the firing.
func (f *Firing) Clone() *Firing {
	c := *f
	c.Design = f.Design.Clone()
	if f.Conditions.Pot != nil {
		pot := *f.Conditions.Pot
		c.Conditions.Pot = &pot
	}
	c.Conditions.Schedule = slices.Clone(f.Conditions.Schedule)
	c.Assumed = slices.Clone(f.Assumed)
	return &c
}

// Conditions is everything about one firing that is not the stove.
type Conditions struct {
	Fuel     Fuel
	Charge   Charge
	Starter  Starter
	Air      Air
	Pot      *Pot // nil when nothing is cooked
	Water    Water
	Ground   Ground
	Schedule []Action // in order of time
	Warm     float64  // stove's own temperature at lighting, 0 for as the air [K]
}

// Fuel describes the fuel lot as fired.
type Fuel struct {
	Species     string  // a name of the fuel catalogue: "softwood pellets"
	Carbon      float64 // dry mass fraction; all five zero: as the catalogue says
	Hydrogen    float64
	Oxygen      float64
	Nitrogen    float64
	Ash         float64
	Moisture    float64 // kg water per kg wet fuel
	BulkDensity float64 // of the wet fuel as poured [kg/m3]
	Size        float64 // sieve or diameter size of a piece [m]
	Length      float64 // of a piece, 0 when as long as wide [m]
	Fines       float64 // mass fraction that falls through the holes' size
}

// Charge is how much fuel is loaded; exactly one is set, the others zero.
type Charge struct {
	Mass   float64 // wet [kg]
	Volume float64 // as poured [m3]
	Depth  float64 // fill height above the fuel can's base [m]
}

// Starter is what lights the top.
type Starter struct {
	Kind string  // a name of the starter table: "alcohol", "wax", "kindling", "gel"
	Mass float64 // [kg]
}

// Air is the weather at the stove.
type Air struct {
	Temperature float64 // [K]
	Pressure    float64 // station pressure, never reduced to sea level [Pa]
	Humidity    float64 // relative, 0 to 1
	Wind        float64 // mean at stove height [m/s]
	Gusts       float64 // standard deviation of the wind over its mean
	Shelter     Shelter
}

// Shelter is what stands between the wind and the stove.
type Shelter string

// The shelters: a shroud puts all openings at nearly one pressure.
const (
	Open       Shelter = "open"
	Windscreen Shelter = "windscreen"
	Shroud     Shelter = "shroud"
)

// Pot is the vessel over the fire.
type Pot struct {
	Mass     float64 // empty, with its lid [kg]
	Metal    stove.Metal
	Diameter float64 // of the base [m]
	Height   float64 // of the wall [m]
	Lid      bool
}

// Water is what is in the pot.
type Water struct {
	Mass        float64 // [kg]
	Temperature float64 // at lighting [K]
	Target      float64 // end temperature, 0 for the local boiling point [K]
}

// Ground is what lies under the stove and its plate.
type Ground struct {
	Cover string  // a name of the catalogue's covers: "dry litter", "mineral soil"
	Depth float64 // thickness of that cover, 0 for deep [m]
	Below string  // what lies under it
}

// Act is something the maker does at a time.
type Act string

// The acts of a schedule.
const (
	PotOn    Act = "pot on"
	PotOff   Act = "pot off"
	RingOn   Act = "ring on"
	RingOff  Act = "ring off"
	RiserOn  Act = "riser on"
	RiserOff Act = "riser off"
	StandOn  Act = "stand on"
	StandOff Act = "stand off"
	Snuff    Act = "snuff"
	End      Act = "end"
)

// Action is one line of the schedule: an act at a time after lighting, or a
// time after a moment of the burn when After is set.
type Action struct {
	Do    Act
	At    float64 // [s]
	After Moment  // "" for lighting
}

// Moment is a defined instant of a burn.
type Moment string

// The moments: see docs/model/burn.md for the definitions.
const (
	Lit         Moment = "lit"
	JetsLit     Moment = "jets lit"       // flame state first above one half
	FrontBottom Moment = "front at grate" // 3 % of the charge left raw
	YellowGone  Moment = "yellow gone"    // soot indicator below its threshold for good
	FlameOut    Moment = "flame-out"      // last gas flame below one half for good
	GlowEnd     Moment = "glow end"       // bed below 773 K for good
	Boil        Moment = "boil"           // water at saturation, or at its target
)
