package quantity

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math/big"
	"sort"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

//go:embed units.csv
var unitsCSV string

// unit is one row of units.csv: an amount of x units is
// (x + offset)·factor in SI.
type unit struct {
	kind      Kind
	symbol    string   // how Format writes it
	factor    *big.Rat // SI units in one of it
	offset    *big.Rat // what is added before scaling: 273.15 for °C
	metric    bool     // belongs to the metric system (or to both)
	fractions []int64  // denominators makers use with it; none: decimals only
	cased     bool     // read only in this upper and lower case
	spellings []string
	source    string
}

// affine reports a unit whose zero is not the zero of the kind.
func (u *unit) affine() bool { return u.offset.Sign() != 0 }

// toSI is (x + offset)·factor, exact.
func (u *unit) toSI(x *big.Rat) *big.Rat {
	y := new(big.Rat).Add(x, u.offset)
	return y.Mul(y, u.factor)
}

// fromSI is y/factor − offset, exact.
func (u *unit) fromSI(y *big.Rat) *big.Rat {
	x := new(big.Rat).Quo(y, u.factor)
	return x.Sub(x, u.offset)
}

// spelling is one way to write a unit.
type spelling struct {
	text string
	unit *unit
}

// table is units.csv read once and never changed.
type table struct {
	byKind   [kindCount][]*unit
	spelling [kindCount][]spelling // longest first
}

var units = sync.OnceValue(func() *table {
	t, err := readUnits(unitsCSV)
	if err != nil {
		// The table is compiled in: a test reads it, so this cannot reach a user.
		return &table{}
	}
	return t
})

// readUnits reads the unit table.
func readUnits(text string) (*table, error) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("units.csv: %w", err)
	}
	kinds := map[string]Kind{}
	for _, k := range Kinds() {
		kinds[k.String()] = k
	}
	t := &table{}
	for i, row := range rows[1:] {
		u, err := readUnit(kinds, row)
		if err != nil {
			return nil, fmt.Errorf("units.csv line %d: %w", i+2, err)
		}
		t.byKind[u.kind] = append(t.byKind[u.kind], u)
		for _, s := range u.spellings {
			t.spelling[u.kind] = append(t.spelling[u.kind], spelling{s, u})
		}
	}
	for k := range t.spelling {
		list := t.spelling[k]
		sort.SliceStable(list, func(i, j int) bool { return len(list[i].text) > len(list[j].text) })
	}
	return t, nil
}

func readUnit(kinds map[string]Kind, row []string) (*unit, error) {
	k, ok := kinds[row[0]]
	if !ok {
		return nil, fmt.Errorf("kind %q is unknown", row[0])
	}
	factor, err := product(row[2])
	if err != nil {
		return nil, err
	}
	offset, ok := new(big.Rat).SetString(row[3])
	if !ok {
		return nil, fmt.Errorf("offset %q is no number", row[3])
	}
	u := &unit{
		kind: k, symbol: row[1], factor: factor, offset: offset,
		metric: row[4] != "us", cased: row[6] == "cased",
		spellings: strings.Split(row[7], "|"), source: row[8],
	}
	for _, d := range strings.Fields(row[5]) {
		n, err := strconv.ParseInt(d, 10, 64)
		if err != nil || n < 1 {
			return nil, fmt.Errorf("denominator %q is no whole number", d)
		}
		u.fractions = append(u.fractions, n)
	}
	return u, nil
}

// product reads "a*b/c*d" as ((a·b)/c)·d, exact.
func product(text string) (*big.Rat, error) {
	p, op := big.NewRat(1, 1), byte('*')
	for len(text) > 0 {
		end := strings.IndexAny(text, "*/")
		if end < 0 {
			end = len(text)
		}
		f, ok := new(big.Rat).SetString(text[:end])
		if !ok || f.Sign() == 0 {
			return nil, fmt.Errorf("factor %q is no number", text[:end])
		}
		if op == '/' {
			f.Inv(f)
		}
		p.Mul(p, f)
		if end == len(text) {
			break
		}
		op, text = text[end], text[end+1:]
	}
	return p, nil
}

// match finds the longest spelling of a unit of the kind that rest begins
// with, and the number of bytes it takes. A spelling counts only when it ends
// where a word ends.
func match(k Kind, rest string) (*unit, int) {
	list := units().spelling[k]
	for _, s := range list {
		if strings.HasPrefix(rest, s.text) && ends(rest, len(s.text)) {
			return s.unit, len(s.text)
		}
	}
	for _, s := range list {
		if n := len(s.text); !s.unit.cased && n <= len(rest) && strings.EqualFold(rest[:n], s.text) && ends(rest, n) {
			return s.unit, n
		}
	}
	return nil, 0
}

// ends reports whether a word may end before byte n of s.
func ends(s string, n int) bool {
	if n >= len(s) {
		return true
	}
	r, _ := utf8.DecodeRuneInString(s[n:])
	return r == ' ' || isDigit(r)
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// lookUp finds a unit of the kind by any of its spellings or its symbol.
func lookUp(k Kind, name string) *unit {
	if !k.valid() {
		return nil
	}
	name = tidy(name)
	for _, u := range units().byKind[k] {
		if u.symbol == name {
			return u
		}
	}
	if u, n := match(k, name); u != nil && n == len(name) {
		return u
	}
	return nil
}

// Units lists the symbols of the units of a kind, as Format writes them and
// Parse reads them.
func Units(kind Kind) []string {
	if !kind.valid() {
		return nil
	}
	var list []string
	for _, u := range units().byKind[kind] {
		if u.symbol != "" {
			list = append(list, u.symbol)
		}
	}
	return list
}

// Value is the SI amount in the named unit: Value(Temperature, 293.15, "°F")
// is 68. Where a number of 15 digits converts back to the same SI float64 it is
// preferred to the exact conversion of that float64 (67.99999999999996).
func Value(kind Kind, si float64, unit string) (float64, error) {
	u := lookUp(kind, unit)
	if u == nil {
		return 0, unknownUnit(kind, unit, unit)
	}
	r := new(big.Rat)
	if r.SetFloat64(si) == nil {
		return 0, fmt.Errorf("%s in %s: %v is not a finite number", kind, unit, si)
	}
	v, _ := u.fromSI(r).Float64()
	text := strconv.FormatFloat(v, 'g', 15, 64)
	if u.affine() {
		text = strconv.FormatFloat(v, 'f', 12, 64) // near its zero the digits before do not count
	}
	short, err := strconv.ParseFloat(text, 64)
	if err != nil || r.SetFloat64(short) == nil {
		return v, nil
	}
	if back, _ := u.toSI(r).Float64(); back == si {
		return short + 0, nil // + 0 makes -0 a plain 0
	}
	return v, nil
}

// FromValue is x of the named unit in SI, rounded once.
func FromValue(kind Kind, x float64, unit string) (float64, error) {
	u := lookUp(kind, unit)
	if u == nil {
		return 0, unknownUnit(kind, unit, unit)
	}
	r := new(big.Rat)
	if r.SetFloat64(x) == nil {
		return 0, fmt.Errorf("%s in %s: %v is not a finite number", kind, unit, x)
	}
	return finite(kind, unit, u.toSI(r))
}
