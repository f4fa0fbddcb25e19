package quantity

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// choice is a unit an amount is written in from a size upwards.
type choice struct {
	symbol string
	from   float64 // smallest amount written in it [SI]
}

// choices lists the units Format and Show write a kind in, smallest first.
func choices(kind Kind, sys System) []choice {
	us := sys == US
	switch {
	case kind == Length && us:
		return []choice{{"in", 0}, {"ft", 3.048}}
	case kind == Length:
		return []choice{{"mm", 0}, {"m", 10}}
	case kind == Mass && us:
		return []choice{{"oz", 0}, {"lb", 0.45359237}}
	case kind == Mass:
		return []choice{{"g", 0}, {"kg", 1}}
	case kind == Volume && us:
		return []choice{{"fl oz", 0}, {"cup", 59e-6}, {"qt", 1.89e-3}}
	case kind == Volume:
		return []choice{{"mL", 0}, {"L", 1e-3}}
	case kind == Temperature && us, kind == TemperatureDifference && us:
		return []choice{{"°F", 0}}
	case kind == Temperature:
		return []choice{{"°C", 0}}
	case kind == Pressure && us:
		return []choice{{"inH2O", 0}, {"inHg", 10000}}
	case kind == Pressure:
		return []choice{{"Pa", 0}, {"hPa", 10000}}
	case kind == Ratio:
		return []choice{{"%", 0}}
	case kind == Speed && us:
		return []choice{{"mph", 0}}
	case kind == Density && us:
		return []choice{{"lb/ft3", 0}}
	case kind == Angle:
		return []choice{{"°", 0}}
	case kind == MassFlow && us:
		return []choice{{"lb/h", 0}}
	case kind == MassFlow:
		return []choice{{"g/min", 0}}
	case kind == VolumeFlow && us:
		return []choice{{"cfm", 0}}
	case kind == VolumeFlow:
		return []choice{{"L/min", 0}}
	case kind == Energy && us:
		return []choice{{"Btu", 0}}
	case kind == Energy:
		return []choice{{"J", 0}, {"kJ", 1e3}, {"MJ", 1e6}}
	case kind == Power && us:
		return []choice{{"Btu/h", 0}}
	case kind == Power:
		return []choice{{"W", 0}, {"kW", 1e3}}
	case kind == Area && us:
		return []choice{{"in2", 0}, {"ft2", 0.09290304}}
	case kind == Area:
		return []choice{{"mm2", 0}, {"cm2", 1e-3}, {"m2", 1}}
	}
	return []choice{{kind.SI(), 0}} // K, s, m/s, kg/m3: the SI unit is the maker's
}

// pick is the unit an amount is written in.
func pick(kind Kind, si float64, sys System) *unit {
	list := choices(kind, sys)
	best := list[0].symbol
	for _, c := range list[1:] {
		if math.Abs(si) >= c.from {
			best = c.symbol
		}
	}
	return lookUp(kind, best)
}

// Format writes an amount so that Parse(kind, Format(kind, si, sys)) == si, to
// the last bit, in the shortest decimal or the maker's fraction that does it.
// What is not a finite number of the kind is written "NaN", "+Inf" or "-Inf"
// and is not read back.
func Format(kind Kind, si float64, sys System) string {
	r := new(big.Rat)
	if !kind.valid() || r.SetFloat64(si) == nil {
		return strconv.FormatFloat(si, 'g', -1, 64)
	}
	u := pick(kind, si, sys)
	if text, ok := exactFraction(u, si); ok {
		return join(text, u.symbol)
	}
	if text, ok := shortest(u, r, si); ok {
		return join(text, u.symbol)
	}
	// The unit's zero is so far from this amount that its decimal is longer
	// than an amount in SI ever is (1e-30 K in °C).
	return join(strconv.FormatFloat(si, 'g', -1, 64), kind.SI())
}

// exactFraction writes si in the unit as a whole number or a maker's fraction,
// if that gives si to the last bit.
func exactFraction(u *unit, si float64) (string, bool) {
	f, _ := u.factor.Float64()
	for _, den := range u.fractions {
		n := math.Round(si / f * float64(den))
		if math.Abs(n) >= 1e6 {
			return "", false
		}
		back, _ := u.toSI(big.NewRat(int64(n), den)).Float64()
		if back == si {
			return mixed(int64(n), den), true
		}
	}
	return "", false
}

// mixed writes n/den as "4", "5/8" or "4 1/4".
func mixed(n, den int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	r := big.NewRat(n, den)
	num, d := r.Num().Int64(), r.Denom().Int64()
	whole, part := num/d, num%d
	switch {
	case part == 0:
		return sign + strconv.FormatInt(whole, 10)
	case whole == 0:
		return sign + strconv.FormatInt(part, 10) + "/" + strconv.FormatInt(d, 10)
	}
	return sign + strconv.FormatInt(whole, 10) + " " + strconv.FormatInt(part, 10) + "/" + strconv.FormatInt(d, 10)
}

// shortest writes si in the unit with the fewest significant digits that
// convert back to si; false when 24 do not do it.
func shortest(u *unit, exact *big.Rat, si float64) (string, bool) {
	x := u.fromSI(exact)
	if x.Sign() == 0 {
		return "0", true
	}
	wide := new(big.Float).SetPrec(300).SetRat(x)
	// A float64 keeps every decimal of 15 digits, so 15 digits less their
	// trailing zeros are the shortest where they do it. Not so near the zero of
	// °C, where few digits are left, nor for subnormal numbers.
	first := 15
	if u.affine() || math.Abs(si) < 1e-290 {
		first = 1
	}
	for n := first; n <= 24; n++ {
		text := wide.Text('e', n-1)
		d, ok := new(big.Rat).SetString(text)
		if !ok {
			return "", false
		}
		if back, _ := u.toSI(d).Float64(); back == si {
			return plain(text), true
		}
	}
	return "", false
}

// plain writes "1.5875e+01" as "15.875", keeping the exponent only for very
// large and very small numbers.
func plain(e string) string {
	mantissa, power, _ := strings.Cut(e, "e")
	if strings.Contains(mantissa, ".") {
		mantissa = strings.TrimRight(strings.TrimRight(mantissa, "0"), ".")
	}
	p, err := strconv.Atoi(power)
	if err != nil || p < -7 || p > 15 {
		return mantissa + "e" + strconv.Itoa(p)
	}
	sign := ""
	if strings.HasPrefix(mantissa, "-") {
		sign, mantissa = "-", mantissa[1:]
	}
	digits := strings.Replace(mantissa, ".", "", 1)
	point := p + 1 // digits before the point
	switch {
	case point <= 0:
		return sign + "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		return sign + digits + strings.Repeat("0", point-len(digits))
	}
	return sign + digits[:point] + "." + digits[point:]
}

func join(number, symbol string) string {
	switch {
	case symbol == "":
		return number
	case symbol == "°":
		return number + symbol
	}
	return number + " " + symbol
}
