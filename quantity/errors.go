package quantity

import (
	"fmt"
	"strings"
)

// unknownUnit says that name is no unit of the kind, what it is instead where
// that is known, and what would be accepted.
func unknownUnit(kind Kind, text, name string) error {
	if !kind.valid() {
		return fmt.Errorf("%s is not a kind of amount this program reads", kind)
	}
	accepted := strings.Join(Units(kind), ", ")
	if why := mistaken(kind, name); why != "" {
		return fmt.Errorf("%s %q: %s; accepted are %s", kind, text, why, accepted)
	}
	for _, k := range Kinds() {
		if k == kind {
			continue
		}
		if u, n := match(k, name); u != nil && n == len(name) {
			return fmt.Errorf("%s %q: %s is a unit of %s; accepted are %s", kind, text, name, k, accepted)
		}
	}
	if name == "" {
		return fmt.Errorf("%s %q: no unit; accepted are %s", kind, text, accepted)
	}
	return fmt.Errorf("%s %q: %q is no unit of %s; accepted are %s", kind, text, name, kind, accepted)
}

// mistaken is the reason why a word makers use is refused for the kind.
func mistaken(kind Kind, name string) string {
	low := strings.ToLower(name)
	switch {
	case kind == Volume && (low == "oz" || low == "ounce" || low == "ounces"):
		return `oz alone is a mass: write "fl oz" for a volume, or give a mass where a mass is asked`
	case kind == Mass && strings.HasPrefix(low, "fl"):
		return `fl oz is a volume: write "oz" for a mass`
	case kind == Mass && (low == "gr" || low == "grs"):
		return `gr may be gram or grain: write "g"`
	case kind == Volume && low == "c":
		return `c may be many things: write "cup" (US, 236.6 mL) or "metric cup" (250 mL)`
	case kind == VolumeFlow && strings.HasPrefix(low, "sc"), kind == VolumeFlow && strings.HasPrefix(low, "nl"), kind == VolumeFlow && strings.HasPrefix(low, "sl"):
		return "a flow at standard conditions has no one meaning: convert it to the air as it is"
	case (kind == Length || kind == Area) && strings.HasPrefix(low, "x"):
		return "one size is wanted here: a count goes in its own place"
	case kind == Length && (strings.HasPrefix(low, "ga") || low == "g"):
		return "a gauge number is no length: look it up and give the thickness"
	case kind == Energy && (low == "mj" || low == "mjoule"):
		return `write "MJ" with a capital M for a million joules`
	case kind == Temperature && name == "°", kind == TemperatureDifference && name == "°":
		return `degrees of what: write "°C" or "°F"`
	case strings.HasPrefix(low, "-"):
		return "one number is wanted, not a range or a difference"
	case kind == Energy && name == "Cal":
		return `Cal may be a kilocalorie: write "kcal" or "cal"`
	}
	return ""
}

// bareFraction says that a fraction without a unit is not taken for metric.
func bareFraction(kind Kind, text string, n number, def *unit) error {
	if kind == Length {
		return fmt.Errorf("length %q: a fraction without a unit may be inches or %s: write %s in, or a decimal in %s", text, def.symbol, n.text, def.symbol)
	}
	return fmt.Errorf("%s %q: a fraction without a unit: write the unit, for example %s", kind, text, sample(kind))
}

// other reports that the word is spelled as a unit of another kind and only
// begins like one of this kind ("m3" where a length is asked).
func other(kind Kind, word string) bool {
	if u, n := match(kind, word); u != nil && n == len(word) {
		return false
	}
	for _, k := range Kinds() {
		if u, n := match(k, word); k != kind && u != nil && n == len(word) {
			return true
		}
	}
	return false
}

// word is the run of text that was meant as a unit: up to the next number
// that stands apart.
func word(s string) string {
	for i := 1; i < len(s); i++ {
		if s[i-1] == ' ' && (isDigit(rune(s[i])) || s[i] == '-' || s[i] == '+') {
			return strings.TrimSpace(s[:i])
		}
	}
	return strings.TrimSpace(s)
}

// bareOunce reports "8 oz", ounces that do not say of what, and how many.
func bareOunce(s string) (number string, yes bool) {
	n, rest, err := scanNumber(s)
	if err != nil {
		return "", false
	}
	switch strings.ToLower(strings.TrimSpace(rest)) {
	case "oz", "ounce", "ounces":
		return n.text, true
	}
	return "", false
}

// examples is what a maker might write for the kind: a bare number first,
// then with units.
func examples(k Kind) []string {
	switch k {
	case Length:
		return []string{"16", "16 mm", "5/8 in", "4 1/4 in"}
	case Mass:
		return []string{"350", "350 g", "1.2 kg", "12 oz", "1 lb 4 oz"}
	case Volume:
		return []string{"250", "250 mL", "1 L", "1 cup", "1 metric cup", "8 fl oz"}
	case Temperature:
		return []string{"20", "20 °C", "68 °F", "293 K"}
	case TemperatureDifference:
		return []string{"5", "5 K", "9 °F"}
	case Pressure:
		return []string{"1013", "1013 hPa", "101.3 kPa", "29.9 inHg"}
	case Time:
		return []string{"90", "90 s", "5 min", "1 h 5 min", "4:35", "1:04:35"}
	case Ratio:
		return []string{"0.08", "8 %", "1/12"}
	case Speed:
		return []string{"2", "2 m/s", "5 mph", "10 km/h"}
	case Density:
		return []string{"650", "650 kg/m3", "40 lb/ft3"}
	case Angle:
		return []string{"30", "30°", "0.5 rad"}
	case MassFlow:
		return []string{"12", "12 g/min", "0.3 g/s", "1.5 lb/h"}
	case VolumeFlow:
		return []string{"12", "12 L/min", "0.7 m3/h", "0.5 cfm"}
	case Energy:
		return []string{"500", "500 kJ", "2 MJ", "1 kWh", "1900 Btu"}
	case Power:
		return []string{"1500", "1.5 kW", "5000 Btu/h"}
	case Area:
		return []string{"28", "28 mm2", "9.4 cm2", "1.5 in2"}
	}
	return []string{"1", "1"}
}

// sample lists the examples of a kind, quoted.
func sample(k Kind) string {
	var list []string
	for _, e := range examples(k) {
		list = append(list, `"`+e+`"`)
	}
	return strings.Join(list, ", ")
}

// samples gives one example with its unit for each kind.
func samples(kinds []Kind) string {
	var list []string
	for _, k := range kinds {
		list = append(list, `"`+examples(k)[1]+`"`)
	}
	return strings.Join(list, " or ")
}

func words(kinds []Kind) string {
	var list []string
	for _, k := range kinds {
		list = append(list, k.String())
	}
	return strings.Join(list, " or ")
}
