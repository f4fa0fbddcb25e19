package size

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
)

//go:embed rules.csv
var rulesCSV string

// Rule is one shop rule: a range the search starts in and leaves only for a
// reason. Rules of the trade disagree by 1.5 to 2 times; none is a constant.
type Rule struct {
	Name, Unit, What, Source string
	Low, High                float64
}

// Mid is the geometric middle of the range.
func (r Rule) Mid() float64 { return math.Sqrt(r.Low * r.High) }

// Off is how far a value lies outside the range, in half widths of it: 0
// inside, 1 when it is as far beyond a bound as the middle is inside (all by
// ratio).
func (r Rule) Off(v float64) float64 {
	if !(v > 0) {
		return 10
	}
	half := math.Log(r.High/r.Low) / 2
	return math.Max(0, math.Max(math.Log(r.Low/v), math.Log(v/r.High))) / half
}

// leaving is what it costs to leave the rule.
func (r Rule) leaving(v float64) float64 {
	off := r.Off(v)
	return ruleWeight * off * off
}

var rules = sync.OnceValues(func() ([]Rule, error) {
	rows, err := csv.NewReader(strings.NewReader(rulesCSV)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("rules.csv: %w", err)
	}
	var list []Rule
	for i, c := range rows[1:] {
		low, err1 := strconv.ParseFloat(c[1], 64)
		high, err2 := strconv.ParseFloat(c[2], 64)
		if err1 != nil || err2 != nil || !(0 < low && low < high) {
			return nil, fmt.Errorf("rules.csv line %d: %s to %s, want two rising numbers above 0", i+2, c[1], c[2])
		}
		list = append(list, Rule{Name: c[0], Low: low, High: high, Unit: c[3], What: c[4], Source: c[5]})
	}
	return list, nil
})

// Rules lists the shop rules with their sources.
func Rules() []Rule {
	list, err := rules()
	if err != nil {
		return nil // compiled in and read by a test
	}
	return append([]Rule(nil), list...)
}

// Names of the rules, as in rules.csv.
const (
	rulePrimary          = "primary/bore"
	ruleSecondary        = "secondary/bore"
	ruleRing             = "ring/bore"
	ruleSecondaryPrimary = "secondary/primary"
	ruleRim              = "jets below rim"
	ruleFuel             = "fuel below jets"
	ruleAnnulus          = "annulus"
	rulePot              = "pot above ring"
	ruleGap              = "pot gap"
	ruleRiser            = "riser"
	ruleInlet            = "inlet/holes"
	ruleAir              = "excess air"
)

// rule finds a rule by name.
func rule(name string) Rule {
	list, _ := rules()
	for _, r := range list {
		if r.Name == name {
			return r
		}
	}
	return Rule{Name: name, Low: 1, High: 1} // a test asks for every name
}
