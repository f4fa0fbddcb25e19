package quantity

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// longest is the longest text that is read [bytes].
const longest = 200

// Parse reads an amount of the kind and returns it in SI. A bare number takes
// the kind's DefaultUnit. The result is the float64 nearest to the exact value
// of the text.
func Parse(kind Kind, text string) (float64, error) {
	return ParseDefault(kind, text, kind.DefaultUnit())
}

// ParseDefault is Parse with another unit for a bare number: a maker who works
// in inches passes "in".
func ParseDefault(kind Kind, text, bare string) (float64, error) {
	if !kind.valid() {
		return 0, fmt.Errorf("%s is not a kind of amount this program reads", kind)
	}
	def := lookUp(kind, bare)
	if def == nil {
		return 0, unknownUnit(kind, text, bare)
	}
	if len(text) > longest {
		return 0, fmt.Errorf("%s: %d characters are too many, at most %d are read", kind, len(text), longest)
	}
	s := tidy(text)
	if s == "" {
		return 0, fmt.Errorf("%s: nothing written; %s would be accepted", kind, sample(kind))
	}
	if kind == Time && strings.Contains(s, ":") {
		return clock(text, s)
	}
	sum, err := parts(kind, text, s, def)
	if err != nil {
		return 0, err
	}
	return finite(kind, text, sum)
}

// ParseOneOf reads an amount that may be of several kinds ("350 g", "1 cup" or
// "80 mm" of fuel) and says which it was. What could be two of them is an
// error that names both.
func ParseOneOf(text string, kinds ...Kind) (Kind, float64, error) {
	var found []Kind
	var value float64
	var first error
	if len(text) > longest {
		return 0, 0, fmt.Errorf("%d characters are too many, at most %d are read", len(text), longest)
	}
	for _, k := range kinds {
		v, err := Parse(k, text)
		switch {
		case err == nil:
			found = append(found, k)
			value = v
		case first == nil:
			first = err
		}
	}
	if n, yes := bareOunce(tidy(text)); yes && slices.Contains(kinds, Mass) && slices.Contains(kinds, Volume) {
		return 0, 0, fmt.Errorf("%q may be a mass or a volume: write \"%s oz wt\" for a mass or \"%s fl oz\" for a volume", text, n, n)
	}
	switch len(found) {
	case 1:
		return found[0], value, nil
	case 0:
		if len(kinds) == 1 {
			return 0, 0, first
		}
		return 0, 0, fmt.Errorf("%q is no %s; %s would be accepted", text, words(kinds), samples(kinds))
	}
	return 0, 0, fmt.Errorf("%q may be a %s: write the unit, for example %s", text, words(found), samples(found))
}

// parts reads "1 lb 4 oz": numbers with units, largest first, and adds them.
func parts(kind Kind, text, s string, def *unit) (*big.Rat, error) {
	sum := new(big.Rat)
	var before *unit
	for rest := s; rest != ""; {
		n, after, err := scanNumber(rest)
		if err != nil {
			return nil, fmt.Errorf("%s %q: %w; %s would be accepted", kind, text, err, sample(kind))
		}
		after = strings.TrimLeft(after, " ")
		var u *unit
		switch {
		case after == "" && before == nil:
			if n.fraction && len(def.fractions) == 0 {
				return nil, bareFraction(kind, text, n, def)
			}
			u = def
		case after == "":
			return nil, fmt.Errorf("%s %q: %s has no unit", kind, text, n.text)
		default:
			var took int
			u, took = match(kind, after)
			if u == nil || other(kind, word(after)) {
				return nil, unknownUnit(kind, text, word(after))
			}
			after = strings.TrimLeft(after[took:], " ")
		}
		if err := fits(kind, text, before, u, n, after != ""); err != nil {
			return nil, err
		}
		sum.Add(sum, u.toSI(n.value))
		before, rest = u, after
	}
	return sum, nil
}

// fits checks one part of a compound amount against the one before it.
func fits(kind Kind, text string, before, u *unit, n number, more bool) error {
	if before == nil && !more {
		return nil
	}
	switch {
	case u.affine() || kind == Ratio || kind == Temperature:
		return fmt.Errorf("%s %q: one number with one unit is wanted", kind, text)
	case more && !n.value.IsInt():
		return fmt.Errorf("%s %q: %s is followed by a smaller part, so it must be a whole number", kind, text, n.text)
	case before != nil && n.negative:
		return fmt.Errorf("%s %q: only the first part may carry a sign", kind, text)
	case more && n.negative:
		return fmt.Errorf("%s %q: a negative amount is written as one number with one unit", kind, text)
	case before != nil && u.factor.Cmp(before.factor) >= 0:
		return fmt.Errorf("%s %q: %s does not follow %s: the larger unit comes first", kind, text, u.symbol, before.symbol)
	}
	return nil
}

// finite rounds once to float64 and refuses what no float64 holds.
func finite(kind Kind, text string, r *big.Rat) (float64, error) {
	v, _ := r.Float64()
	if math.IsInf(v, 0) {
		return 0, fmt.Errorf("%s %q: too large for a number of this program", kind, text)
	}
	if kind == Temperature && r.Sign() < 0 {
		return 0, fmt.Errorf("temperature %q: below absolute zero (-273.15 °C, -459.67 °F)", text)
	}
	return v, nil
}

// clock reads "4:35" as minutes and seconds and "1:04:35" as hours, minutes
// and seconds; the seconds may have decimals.
func clock(text, s string) (float64, error) {
	bad := func(why string) error {
		return fmt.Errorf("time %q: %s; 4:35 (minutes:seconds), 1:04:35 or 5 min would be accepted", text, why)
	}
	neg := strings.HasPrefix(s, "-")
	fields := strings.Split(strings.TrimPrefix(s, "-"), ":")
	if len(fields) > 3 {
		return 0, bad("more than hours, minutes and seconds")
	}
	last := len(fields) - 1
	sec, dec, hasDec := strings.Cut(strings.Replace(fields[last], ",", ".", 1), ".")
	fields[last] = sec
	total := new(big.Rat)
	for i, f := range fields {
		if f == "" || wholeRun(f) != f || len(f) > 9 {
			return 0, bad(fmt.Sprintf("%q is no whole number", f))
		}
		v, _ := new(big.Rat).SetString(f)
		if i > 0 && (len(f) != 2 || v.Cmp(big.NewRat(60, 1)) >= 0) {
			return 0, bad(fmt.Sprintf("%q is not 00 to 59", f))
		}
		total.Add(total.Mul(total, big.NewRat(60, 1)), v)
	}
	if hasDec {
		d, ok := new(big.Rat).SetString("0." + dec)
		if dec == "" || wholeRun(dec) != dec || !ok {
			return 0, bad(fmt.Sprintf("%q is no part of a second", dec))
		}
		total.Add(total, d)
	}
	if neg {
		total.Neg(total)
	}
	return finite(Time, text, total)
}

// alike maps the many ways of typing a sign, a mark or a unit to one.
var alike = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer(
		"−", "-", "–", "-", "⁄", "/", "∕", "/", "÷", "/",
		"″", `"`, "”", `"`, "“", `"`, "′", "'", "’", "'",
		"º", "°", "˚", "°", "℃", "°C", "℉", "°F", "μ", "µ",
		"²", "2", "³", "3", "^", "", "·", " ", " per cent", " %", " per mille", " ‰", " per ", "/",
		"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ", "\n", " ", "\r", " ",
	)
})

// tidy writes text in the one way the reader knows.
func tidy(text string) string {
	if !utf8.ValidString(text) {
		text = strings.ToValidUTF8(text, "?")
	}
	s := strings.Join(strings.Fields(alike().Replace(text)), " ")
	s = strings.ReplaceAll(strings.ReplaceAll(s, " /", "/"), "/ ", "/")
	return dropStops(s)
}

// dropStops removes the full stops of abbreviations ("in.", "fl. oz.").
func dropStops(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		stop := s[i] == '.' && i > 0 && isLetter(s[i-1]) && (i+1 == len(s) || s[i+1] == ' ' || isLetter(s[i+1]))
		if !stop {
			b.WriteByte(s[i])
		}
	}
	return b.String()
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }
