package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Show writes an amount for people to read, rounded to so many significant
// digits (at least 1): "412 g", "1.2 kg", "14.5 oz", "4:35". Temperatures
// count as having two digits before the point, so 3 digits of 0.04 °C is
// "0.0 °C"; times of a minute and more are minutes and seconds, whole. It
// cannot be read back exactly: use Format for that.
func Show(kind Kind, si float64, sys System, digits int) string {
	if math.IsNaN(si) || math.IsInf(si, 0) || !kind.valid() {
		return "–"
	}
	digits = max(digits, 1)
	if kind == Time && math.Abs(si) >= 59.5 {
		return clockText(si)
	}
	if kind == Mass && sys == US {
		if text, ok := poundsAndOunces(si, digits); ok {
			return text
		}
	}
	u := pick(kind, si, sys)
	v, _ := Value(kind, si, u.symbol)
	text := significant(v, digits, leastWhole(kind))
	// Rounding may carry into the next unit: 999.7 g in three digits is 1.00 kg.
	if back, err := Parse(kind, join(text, u.symbol)); err == nil {
		if next := pick(kind, back, sys); next != u {
			u = next
			v, _ = Value(kind, back, u.symbol)
			text = significant(v, digits, leastWhole(kind))
		}
	}
	return join(text, pretty(u.symbol))
}

// leastWhole is how many digits before the point an amount counts as having
// at least: temperatures are read off a scale, not from zero.
func leastWhole(k Kind) int {
	if k == Temperature || k == TemperatureDifference {
		return 2
	}
	return math.MinInt32
}

// significant rounds to the digits and writes no exponent.
func significant(v float64, digits, least int) string {
	if v == 0 {
		return "0"
	}
	// The exponent after rounding, so 9.996 in three digits is 10.0.
	e := strconv.FormatFloat(v, 'e', digits-1, 64)
	power, _ := strconv.Atoi(e[strings.IndexByte(e, 'e')+1:])
	decimals := digits - max(power+1, least)
	if decimals >= 0 {
		text := strconv.FormatFloat(v, 'f', decimals, 64)
		if strings.Trim(text, "-0.") == "" {
			return strings.TrimPrefix(text, "-")
		}
		return text
	}
	rounded, _ := strconv.ParseFloat(e, 64)
	return strconv.FormatFloat(rounded, 'f', 0, 64)
}

// clockText writes seconds as "4:35" or "1:04:35".
func clockText(si float64) string {
	sign := ""
	if si < 0 {
		sign = "-"
	}
	t := math.Round(math.Abs(si))
	if t >= 1e9 {
		return sign + strconv.FormatFloat(t, 'f', 0, 64) + " s"
	}
	s := int64(t)
	if s < 3600 {
		return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
	}
	return fmt.Sprintf("%s%d:%02d:%02d", sign, s/3600, s/60%60, s%60)
}

// poundsAndOunces writes a mass from one pound to ten as "1 lb 4.0 oz".
func poundsAndOunces(si float64, digits int) (string, bool) {
	oz, err := Value(Mass, si, "oz")
	if err != nil || oz < 16 || oz >= 160 {
		return "", false
	}
	decimals := max(0, digits-len(strconv.Itoa(int(oz))))
	scale := math.Pow(10, float64(decimals))
	oz = math.Round(oz*scale) / scale
	lb := math.Floor(oz / 16)
	return fmt.Sprintf("%.0f lb %.*f oz", lb, decimals, oz-16*lb), true
}

// FormatNear writes a length in inches to the nearest 1/den of an inch, as
// makers do (den 16 or 32; below 1 counts as 16), and returns how much the
// text is longer than the length [m].
func FormatNear(si float64, den int) (text string, off float64) {
	if math.IsNaN(si) || math.Abs(si) > 1e6 {
		return "–", math.NaN()
	}
	if den < 1 {
		den = 16
	}
	in, _ := Value(Length, si, "in")
	n := math.Round(in * float64(den))
	text = mixed(int64(n), int64(den)) + " in"
	back, err := Parse(Length, text)
	if err != nil {
		return "–", math.NaN()
	}
	return text, back - si
}

// pretty writes the powers of a unit as superscripts.
func pretty(symbol string) string {
	if strings.HasSuffix(symbol, "H2O") {
		return symbol
	}
	return strings.NewReplacer("2", "²", "3", "³").Replace(symbol)
}
