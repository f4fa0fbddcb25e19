package firing

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"toplit/quantity"
)

// Key is one key of the design file.
type Key struct {
	Table    string // "fuel_can"; "" at the top of the file
	Name     string // "diameter"
	What     string // what it is
	Takes    string // "length", "yes or no", "one of ..."
	Range    string // accepted, in words
	Default  string // what is filled in, in words; "" for a key that must be given
	Source   string // why that default
	Instead  string // the key of the same table this is another way of giving
	Optional bool   // left out means not there, and nothing is assumed

	stage int // order of applying: see read.go
	read  func(f *Firing, i int, v any) error
	write func(f *Firing, i int, sys quantity.System) string // "" when there is nothing to write
	fill  func(f *Firing, i int) bool                        // sets the default; false when it leaves it
	when  func(f *Firing, i int) bool                        // whether the key has a meaning; nil for always
}

// applies: the key has a meaning for this part.
func (k Key) applies(f *Firing, i int) bool { return k.when == nil || k.when(f, i) }

// Path is the key's full name: "fuel_can.diameter", "row.count".
func (k Key) Path() string {
	if k.Table == "" {
		return k.Name
	}
	return k.Table + "." + k.Name
}

// Stages of applying keys: what is given, simple defaults, other ways of
// giving a value (they need the defaults), then defaults that need it all.
const (
	direct = iota
	early
	instead
	instead2 // flows of a fan by volume need the weather
	late
)

// number builds a key for one amount with a unit, kept in SI.
func number(kind quantity.Kind, least, most float64, at func(f *Firing, i int) *float64) Key {
	k := Key{Takes: kind.String(), Range: span(kind, least, most)}
	k.read = func(f *Firing, i int, v any) error {
		x, err := amount(kind, v, least, most)
		if err != nil {
			return err
		}
		*at(f, i) = x
		return nil
	}
	k.write = func(f *Firing, i int, sys quantity.System) string {
		return strconv.Quote(exact(kind, *at(f, i), sys))
	}
	return k
}

// orWord is an amount for which a word stands when it is zero: "full", "deep".
func orWord(word string, k Key, at func(f *Firing, i int) *float64) Key {
	read, write := k.read, k.write
	k.Range += ", or " + strconv.Quote(word)
	k.read = func(f *Firing, i int, v any) error {
		if s, ok := v.(string); ok && strings.EqualFold(strings.TrimSpace(s), word) {
			*at(f, i) = 0
			return nil
		}
		return read(f, i, v)
	}
	k.write = func(f *Firing, i int, sys quantity.System) string {
		if *at(f, i) == 0 {
			return strconv.Quote(word)
		}
		return write(f, i, sys)
	}
	return k
}

// choice builds a key for one of a few words.
func choice[T ~string](list []T, at func(f *Firing, i int) *T) Key {
	names := make([]string, len(list))
	for n, c := range list {
		names[n] = strconv.Quote(string(c))
	}
	k := Key{Takes: "one of a list", Range: strings.Join(names, ", ")}
	k.read = func(f *Firing, i int, v any) error {
		s, ok := v.(string)
		if !ok {
			return wrong(k.Range, "not a word in quotes")
		}
		for _, c := range list {
			if strings.EqualFold(strings.Join(strings.Fields(s), " "), string(c)) {
				*at(f, i) = c
				return nil
			}
		}
		return wrong(k.Range, "not known")
	}
	k.write = func(f *Firing, i int, _ quantity.System) string { return strconv.Quote(string(*at(f, i))) }
	return k
}

// word builds a key for free text.
func word(at func(f *Firing, i int) *string) Key {
	k := Key{Takes: "text", Range: "text in quotes, up to 200 characters"}
	k.read = func(f *Firing, i int, v any) error {
		s, ok := v.(string)
		switch {
		case !ok:
			return wrong(k.Range, "not text in quotes")
		case len([]rune(s)) > 200:
			return wrong(k.Range, "%d characters", len([]rune(s)))
		}
		*at(f, i) = s
		return nil
	}
	k.write = func(f *Firing, i int, _ quantity.System) string { return Quoted(*at(f, i)) }
	return k
}

// flag builds a key that is true or false.
func flag(at func(f *Firing, i int) *bool) Key {
	k := Key{Takes: "true or false", Range: "true, false"}
	k.read = func(f *Firing, i int, v any) error {
		b, ok := v.(bool)
		if !ok {
			return wrong(k.Range+" (without quotes)", "not true or false")
		}
		*at(f, i) = b
		return nil
	}
	k.write = func(f *Firing, i int, _ quantity.System) string { return strconv.FormatBool(*at(f, i)) }
	return k
}

// count builds a key for a whole number.
func count(least, most int, at func(f *Firing, i int) *int) Key {
	k := Key{Takes: "whole number", Range: fmt.Sprintf("%d to %d", least, most)}
	k.read = func(f *Firing, i int, v any) error {
		n, ok := v.(int64)
		switch {
		case !ok:
			return wrong("a whole number without quotes, "+k.Range, "not a whole number")
		case n < int64(least) || n > int64(most):
			return wrong(k.Range, "out of range")
		}
		*at(f, i) = int(n)
		return nil
	}
	k.write = func(f *Firing, i int, _ quantity.System) string { return strconv.Itoa(*at(f, i)) }
	return k
}

var bare = regexp.MustCompile(`^[-+−–0-9.,/ ⁄_]+$`)

// amount reads an amount that carries its unit and lies in a range.
func amount(kind quantity.Kind, v any, least, most float64) (float64, error) {
	switch v := v.(type) {
	case string:
		if kind != quantity.Ratio && kind != quantity.Time && bare.MatchString(v) {
			return 0, wrong(example(kind), "has no unit")
		}
		x, err := quantity.Parse(kind, v)
		if err != nil {
			return 0, wrong(span(kind, least, most), "%s", err)
		}
		return x, within(kind, x, least, most)
	case int64, float64:
		return 0, wrong(example(kind), "has no unit: amounts are text with a unit")
	}
	return 0, wrong(example(kind), "not an amount")
}

func within(kind quantity.Kind, x, least, most float64) error {
	if x < least*(1-1e-12) || x > most*(1+1e-12) {
		return wrong(span(kind, least, most), "out of range")
	}
	return nil
}

// span is a range in words.
func span(kind quantity.Kind, least, most float64) string {
	if kind == quantity.Time {
		return quantity.Show(kind, least, quantity.Metric, 6) + " to " + quantity.Show(kind, most, quantity.Metric, 6)
	}
	return quantity.Format(kind, least, quantity.Metric) + " to " + quantity.Format(kind, most, quantity.Metric)
}

func example(kind quantity.Kind) string {
	switch kind {
	case quantity.Length:
		return `a length such as "4.5 mm" or "3/16 in"`
	case quantity.Mass:
		return `a mass such as "250 g" or "9 oz"`
	case quantity.Volume:
		return `a volume such as "0.5 L" or "1 cup"`
	case quantity.Temperature:
		return `a temperature such as "15 °C" or "59 °F"`
	case quantity.Pressure:
		return `a pressure such as "987 hPa" or "29.1 inHg"`
	case quantity.Ratio:
		return `a share such as "8 %" or "0.08"`
	case quantity.Speed:
		return `a speed such as "1 m/s" or "2 mph"`
	case quantity.Density:
		return `a density such as "650 kg/m3" or "40 lb/ft3"`
	case quantity.Angle:
		return `an angle such as "15°"`
	case quantity.Time:
		return `a time such as "5:00" or "5 min"`
	case quantity.MassFlow:
		return `a flow such as "12 L/min" or "0.2 g/s"`
	}
	return "an amount with its unit"
}

// exact writes an amount so that it reads back to the last bit: times as
// minutes and seconds where they are whole, all else as package quantity does.
func exact(kind quantity.Kind, x float64, sys quantity.System) string {
	if kind == quantity.Time && x >= 0 && x < 1e6 && x == math.Trunc(x) {
		s := int(x)
		if s < 3600 {
			return fmt.Sprintf("%d:%02d", s/60, s%60)
		}
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	if kind == quantity.Ratio { // "8.5 %", not "8 1/2 %"
		text := strconv.FormatFloat(x*100, 'g', 15, 64) + " %"
		if back, err := quantity.Parse(kind, text); err == nil && back == x {
			return text
		}
	}
	text := quantity.Format(kind, x, sys)
	if long(text) { // a metric size has no short form in inches, and some the other way
		other := quantity.Metric
		if sys == quantity.Metric {
			other = quantity.US
		}
		if short := quantity.Format(kind, x, other); !long(short) {
			return short
		}
	}
	return text
}

func long(text string) bool {
	digits := 0
	for _, r := range text {
		if r >= '0' && r <= '9' {
			digits++
		}
	}
	return digits > 8
}

// Quoted is text as a TOML basic string; Go's own quoting differs in a few
// escapes TOML does not know.
func Quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
