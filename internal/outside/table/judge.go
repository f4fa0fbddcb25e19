package main

import (
	"fmt"
	"sort"

	"toplit/internal/outside"
)

// Rule is what the rows together must meet.
type Rule struct {
	Min           int     // fewest independent rows in all
	PerLaw        int     // fewest independent rows of a law
	Cap           int     // most rows of a law that count
	Listed        float64 // largest share of the counted rows that may be listed as disagreeing
	Disagreements []outside.Disagreement
}

// Verdict is what was counted and what is wrong.
type Verdict struct {
	Rows    int // independent rows, at most Cap of a law
	Outside int // rows outside their tolerance, of any kind
	Faults  []string
}

type key struct{ law, name string }

// Judge counts the records and says what the rule finds wrong with them.
func Judge(records []outside.Record, rule Rule) Verdict {
	var v Verdict
	fault := func(format string, args ...any) { v.Faults = append(v.Faults, fmt.Sprintf(format, args...)) }

	list := map[key]bool{}
	for _, d := range rule.Disagreements {
		list[key{d.Law, d.Name}] = true
	}
	seen := map[key]int{}
	independent := map[string]int{}
	outsideListed := map[key]bool{}
	for _, r := range records {
		k := key{r.Law, r.Name}
		seen[k]++
		if seen[k] == 2 {
			fault("%s: %s: two rows have this name; a name stands once per law", r.Law, r.Name)
		}
		n := independent[r.Law]
		if !r.Used && seen[k] == 1 {
			n++
		}
		independent[r.Law] = n
		if r.Inside {
			continue
		}
		v.Outside++
		if list[k] {
			outsideListed[k] = true
		} else {
			fault("%s: %s: outside its tolerance and not listed in docs/model/validation.md", r.Law, r.Name)
		}
	}
	for _, law := range laws(records) {
		n := independent[law]
		v.Rows += min(n, rule.Cap)
		if n < rule.PerLaw {
			fault("%s: %d independent rows, at least %d are needed", law, n, rule.PerLaw)
		}
	}
	for _, d := range rule.Disagreements {
		k := key{d.Law, d.Name}
		switch {
		case seen[k] == 0:
			fault("%s: %s: listed as disagreeing, but no row has this name", d.Law, d.Name)
		case !outsideListed[k]:
			fault("%s: %s: listed as disagreeing, but it is inside its tolerance now; take it off the list", d.Law, d.Name)
		}
	}
	if most := rule.Listed * float64(v.Rows); float64(len(rule.Disagreements)) > most {
		fault("%d rows are listed as disagreeing, at most %.0f %% of %d may be", len(rule.Disagreements), 100*rule.Listed, v.Rows)
	}
	if v.Rows < rule.Min {
		fault("%d independent rows in all, at least %d are needed", v.Rows, rule.Min)
	}
	return v
}

// laws names every law of the records once, in order.
func laws(records []outside.Record) []string {
	set := map[string]bool{}
	var names []string
	for _, r := range records {
		if !set[r.Law] {
			set[r.Law] = true
			names = append(names, r.Law)
		}
	}
	sort.Strings(names)
	return names
}
