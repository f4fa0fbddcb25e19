package quantity

import "fmt"

// Kind is what an amount measures. It fixes the SI unit of the float64, the
// units that may be read and the unit a bare number is taken in.
type Kind int

// The kinds, each with the SI unit of its float64.
const (
	Length                Kind = iota // [m]
	Mass                              // [kg]
	Volume                            // [m3]
	Temperature                       // [K], absolute
	TemperatureDifference             // [K]
	Pressure                          // [Pa]
	Time                              // [s]
	Ratio                             // [1], so 8 % is 0.08
	Speed                             // [m/s]
	Density                           // [kg/m3]
	Angle                             // [rad]
	MassFlow                          // [kg/s]
	VolumeFlow                        // [m3/s]
	Energy                            // [J]
	Power                             // [W]
	Area                              // [m2]
	kindCount
)

// Kinds lists every kind.
func Kinds() []Kind {
	all := make([]Kind, kindCount)
	for i := range all {
		all[i] = Kind(i)
	}
	return all
}

// kindFacts is what is fixed for a kind: its name, the symbol of its SI unit
// and the symbol of the unit makers mean by a bare number.
type kindFacts struct{ name, si, maker string }

func (k Kind) facts() kindFacts {
	switch k {
	case Length:
		return kindFacts{"length", "m", "mm"}
	case Mass:
		return kindFacts{"mass", "kg", "g"}
	case Volume:
		return kindFacts{"volume", "m3", "mL"}
	case Temperature:
		return kindFacts{"temperature", "K", "°C"}
	case TemperatureDifference:
		return kindFacts{"temperature difference", "K", "K"}
	case Pressure:
		return kindFacts{"pressure", "Pa", "hPa"}
	case Time:
		return kindFacts{"time", "s", "s"}
	case Ratio:
		return kindFacts{"ratio", "", ""}
	case Speed:
		return kindFacts{"speed", "m/s", "m/s"}
	case Density:
		return kindFacts{"density", "kg/m3", "kg/m3"}
	case Angle:
		return kindFacts{"angle", "rad", "°"}
	case MassFlow:
		return kindFacts{"mass flow", "kg/s", "g/min"}
	case VolumeFlow:
		return kindFacts{"volume flow", "m3/s", "L/min"}
	case Energy:
		return kindFacts{"energy", "J", "kJ"}
	case Power:
		return kindFacts{"power", "W", "W"}
	case Area:
		return kindFacts{"area", "m2", "mm2"}
	}
	return kindFacts{name: fmt.Sprintf("kind %d", int(k))}
}

func (k Kind) valid() bool { return k >= 0 && k < kindCount }

// String is the kind in words: "length", "mass flow".
func (k Kind) String() string { return k.facts().name }

// SI is the symbol of the unit of the float64: "m", "kg/s"; "" for a ratio.
func (k Kind) SI() string { return k.facts().si }

// DefaultUnit is the unit Parse takes a bare number in: "mm" for a length,
// "°C" for a temperature, "" for a ratio.
func (k Kind) DefaultUnit() string { return k.facts().maker }

// System is the system of units an amount is written in.
type System int

// The systems.
const (
	Metric System = iota
	US            // US customary: inches, ounces, cups, °F, inHg, mph
)

// String is "metric" or "US customary".
func (s System) String() string {
	if s == US {
		return "US customary"
	}
	return "metric"
}
