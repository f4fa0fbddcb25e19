package quantity

import (
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// number is a number as it was written.
type number struct {
	value    *big.Rat
	text     string // as read
	fraction bool   // written with a fraction bar
	negative bool
}

// vulgar is the value of a one-character fraction.
func vulgar(r rune) *big.Rat {
	switch r {
	case '½':
		return big.NewRat(1, 2)
	case '⅓':
		return big.NewRat(1, 3)
	case '⅔':
		return big.NewRat(2, 3)
	case '¼':
		return big.NewRat(1, 4)
	case '¾':
		return big.NewRat(3, 4)
	case '⅕':
		return big.NewRat(1, 5)
	case '⅖':
		return big.NewRat(2, 5)
	case '⅗':
		return big.NewRat(3, 5)
	case '⅘':
		return big.NewRat(4, 5)
	case '⅙':
		return big.NewRat(1, 6)
	case '⅚':
		return big.NewRat(5, 6)
	case '⅛':
		return big.NewRat(1, 8)
	case '⅜':
		return big.NewRat(3, 8)
	case '⅝':
		return big.NewRat(5, 8)
	case '⅞':
		return big.NewRat(7, 8)
	}
	return nil
}

// scanNumber reads the number text begins with and returns the rest. It reads
// "16", "2.5", "2,5", ".5", "1e-3", "5/8", "4 1/4", "4-1/4", "4½", each with a
// sign.
func scanNumber(text string) (number, string, error) {
	rest := text
	neg := false
	if rest != "" && (rest[0] == '-' || rest[0] == '+') {
		neg = rest[0] == '-'
		rest = strings.TrimLeft(rest[1:], " ")
	}
	start := rest
	v, fraction, rest, err := scanUnsigned(rest)
	if err != nil {
		return number{}, text, err
	}
	n := number{value: v, text: strings.TrimSpace(start[:len(start)-len(rest)]), fraction: fraction, negative: neg}
	if neg {
		n.text = "-" + n.text
		n.value.Neg(n.value)
	}
	return n, rest, nil
}

func scanUnsigned(s string) (v *big.Rat, fraction bool, rest string, err error) {
	if r, n := utf8.DecodeRuneInString(s); vulgar(r) != nil {
		return vulgar(r), true, s[n:], nil
	}
	run := digitRun(s)
	if run == "" {
		return nil, false, s, fmt.Errorf("no number where one is wanted")
	}
	rest = s[len(run):]
	if !strings.ContainsAny(run, ".,") {
		whole, ok := new(big.Rat).SetString(run)
		if !ok {
			return nil, false, s, fmt.Errorf("%q is no number", run)
		}
		if den, after, ok := overBar(rest); ok { // 5/8
			if den.Sign() == 0 {
				return nil, false, s, fmt.Errorf("%q divides by zero", run+"/0")
			}
			return whole.Quo(whole, den), true, after, nil
		}
		if part, after, ok, err := mixedPart(rest); err != nil {
			return nil, false, s, err
		} else if ok { // 4 1/4
			return whole.Add(whole, part), true, after, nil
		}
	}
	// A point that only ends the number ("5.") is dropped with no harm.
	if strings.HasSuffix(run, ".") && strings.Count(run, ".") == 1 {
		run = strings.TrimSuffix(run, ".")
	}
	plain, err := plainDecimal(run)
	if err != nil {
		return nil, false, s, err
	}
	if e, n := exponent(rest); n > 0 {
		if len(e) > 4 {
			return nil, false, s, fmt.Errorf("the exponent of %q is out of range", run+rest[:n])
		}
		plain, rest = plain+"e"+e, rest[n:]
	}
	v, ok := new(big.Rat).SetString(plain)
	if !ok {
		return nil, false, s, fmt.Errorf("%q is no number", plain)
	}
	return v, false, rest, nil
}

// digitRun is the leading run of digits, points and commas that holds a digit.
func digitRun(s string) string {
	end, digits := 0, 0
	for end < len(s) && (isDigit(rune(s[end])) || s[end] == '.' || s[end] == ',') {
		if isDigit(rune(s[end])) {
			digits++
		}
		end++
	}
	if digits == 0 {
		return ""
	}
	return s[:end]
}

// wholeRun is the leading run of digits.
func wholeRun(s string) string {
	end := 0
	for end < len(s) && isDigit(rune(s[end])) {
		end++
	}
	return s[:end]
}

// overBar reads the "/8" of a fraction.
func overBar(s string) (den *big.Rat, rest string, ok bool) {
	if !strings.HasPrefix(s, "/") {
		return nil, s, false
	}
	run := wholeRun(s[1:])
	if run == "" || len(run) > 9 {
		return nil, s, false
	}
	den, ok = new(big.Rat).SetString(run)
	return den, s[1+len(run):], ok
}

// mixedPart reads the " 1/4", "-1/4" or "½" after the whole number of a mixed
// number. The fraction must be a proper one.
func mixedPart(s string) (part *big.Rat, rest string, ok bool, err error) {
	t := strings.TrimLeft(s, " ")
	if t == s && strings.HasPrefix(t, "-") {
		t = t[1:]
	}
	if r, n := utf8.DecodeRuneInString(t); vulgar(r) != nil {
		return vulgar(r), t[n:], true, nil
	}
	run := wholeRun(t)
	if run == "" || len(run) > 9 || t == s {
		return nil, s, false, nil
	}
	den, rest, ok := overBar(t[len(run):])
	if !ok {
		return nil, s, false, nil
	}
	num, _ := new(big.Rat).SetString(run)
	if den.Sign() == 0 || num.Cmp(den) >= 0 {
		return nil, s, false, fmt.Errorf("%q is not a proper fraction: after a whole number it must be below 1", strings.TrimSpace(t[:len(t)-len(rest)]))
	}
	return num.Quo(num, den), rest, true, nil
}

// exponent reads the "e-3" after a decimal: its digits with sign and the
// bytes taken. A letter after it means it was no exponent.
func exponent(s string) (string, int) {
	if s == "" || (s[0] != 'e' && s[0] != 'E') {
		return "", 0
	}
	i, sign := 1, ""
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		sign, i = strings.Trim(s[i:i+1], "+"), i+1
	}
	run := wholeRun(s[i:])
	if run == "" {
		return "", 0
	}
	return sign + run, i + len(run)
}

// plainDecimal turns a run of digits, points and commas into a decimal with a
// point. A lone comma before exactly three digits ("1,600") may be either and
// is refused.
func plainDecimal(run string) (string, error) {
	points, commas := strings.Count(run, "."), strings.Count(run, ",")
	last := run[len(run)-1]
	switch {
	case last == ',' || last == '.':
		return "", fmt.Errorf("%q ends in a comma or a point", run)
	case commas == 0 && points <= 1:
		return run, nil
	case points == 0 && commas == 1:
		i := strings.IndexByte(run, ',')
		whole, part := run[:i], run[i+1:]
		if len(part) == 3 && len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0' {
			return "", fmt.Errorf("%q may be %s%s or %s.%s: write one of these", run, whole, part, whole, part)
		}
		return whole + "." + part, nil
	case points == 0:
		return grouped(run, ",", run)
	case commas == 0:
		return grouped(run, ".", run)
	}
	// Both: the one written last is the decimal mark, the other groups thousands.
	mark, group := ".", ","
	if strings.LastIndexByte(run, ',') > strings.LastIndexByte(run, '.') {
		mark, group = ",", "."
	}
	if strings.Count(run, mark) != 1 {
		return "", fmt.Errorf("%q has more than one decimal mark", run)
	}
	i := strings.LastIndex(run, mark)
	whole, err := grouped(run[:i], group, run)
	if err != nil {
		return "", err
	}
	return whole + "." + run[i+1:], nil
}

// grouped removes the marks between groups of three digits.
func grouped(s, mark, whole string) (string, error) {
	groups := strings.Split(s, mark)
	for i, g := range groups {
		if (i == 0 && (len(g) < 1 || len(g) > 3)) || (i > 0 && len(g) != 3) {
			return "", fmt.Errorf("%q is no number: groups of three digits and one decimal mark", whole)
		}
	}
	return strings.Join(groups, ""), nil
}
