package catalogue

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// nearest lists up to n of the names most like the one asked for.
func nearest(name string, names []string, n int) []string {
	name = strings.ToLower(name)
	type scored struct {
		name string
		far  int
	}
	var list []scored
	for _, s := range slices.Compact(slices.Sorted(slices.Values(names))) {
		low := strings.ToLower(s)
		far := distance(name, low)
		if strings.Contains(low, name) || strings.Contains(name, low) {
			far /= 2
		}
		list = append(list, scored{s, far})
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].far < list[j].far })
	var out []string
	for _, s := range list[:min(n, len(list))] {
		out = append(out, s.name)
	}
	return out
}

// distance counts the letters to change, add or drop between two names.
func distance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	prev := make([]int, len(rb)+1)
	for j := range prev {
		prev[j] = j
	}
	for i, x := range ra {
		last := prev[0]
		prev[0] = i + 1
		for j, y := range rb {
			cost := last
			if x != y {
				cost++
			}
			last = prev[j+1]
			prev[j+1] = min(cost, prev[j+1]+1, prev[j]+1)
		}
	}
	return prev[len(rb)]
}

// unknown is the error for a name that is not in a table.
func unknown(what, name string, names []string) error {
	if r := []rune(name); len(r) > 80 { // a page pasted into the field
		name = string(r[:80]) + "…"
	}
	return fmt.Errorf("%s %q is not in the catalogue; nearest are %s", what, name, strings.Join(nearest(name, names, 4), ", "))
}
