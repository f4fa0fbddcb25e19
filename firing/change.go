package firing

import (
	"fmt"
	"slices"
	"strings"

	"toplit/quantity"
)

// Set changes one key of a firing from text, as a form or a command line has
// it, and takes it out of the assumed. What is still assumed is filled in
// anew, because it may follow from this key (another species has another bulk
// density). The key may be another way of giving a value ("fuel_can.strip").
// The part must be there: see Add.
func Set(f *Firing, key, text string) error {
	k, i, err := find(f, key)
	if err != nil {
		return err
	}
	if err := k.read(f, i, k.raw(text)); err != nil {
		return fmt.Errorf("%s = %s: %w", key, quote(text), err)
	}
	taken := []string{key}
	if k.Instead != "" {
		taken = append(taken, strings.TrimSuffix(key, k.Name)+k.Instead)
	}
	f.Assumed = slices.DeleteFunc(slices.Clone(f.Assumed), func(a string) bool { return slices.Contains(taken, a) })
	if k.Table == "charge" {
		keepOne(&f.Conditions.Charge, k.Name)
	}
	refill(f)
	return nil
}

// Get is a key's value as a design file has it, "" when the file would not
// have it.
func Get(f *Firing, key string, sys quantity.System) (string, error) {
	k, i, err := find(f, key)
	if err != nil || k.write == nil || !k.applies(f, i) {
		return "", err
	}
	text := k.write(f, i, sys)
	if len(text) > 1 && text[0] == '"' {
		if v, err := parse([]byte("x = "+text), key); err == nil {
			return fmt.Sprint(v.entries[0].value), nil
		}
	}
	return text, nil
}

// raw turns text into the TOML value the key reads.
func (k Key) raw(text string) any {
	text = strings.TrimSpace(text)
	switch k.Takes {
	case "true or false":
		switch strings.ToLower(text) {
		case "true", "yes", "on":
			return true
		case "false", "no", "off":
			return false
		}
	case "whole number":
		if n, err := parse([]byte("x = "+text), ""); err == nil && len(n.entries) == 1 {
			return n.entries[0].value
		}
	case "time, or a list of times":
		var list []any
		for _, part := range strings.Split(text, ",") {
			list = append(list, strings.TrimSpace(part))
		}
		return list
	}
	return text
}

// keepOne: of the three ways to give a charge the last one counts.
func keepOne(c *Charge, name string) {
	switch name {
	case "mass":
		c.Volume, c.Depth = 0, 0
	case "volume":
		c.Mass, c.Depth = 0, 0
	case "depth":
		c.Mass, c.Volume = 0, 0
	}
}

// find takes "row[2].hole" apart.
func find(f *Firing, key string) (Key, int, error) {
	var found Key
	at := -1
	eachKey(f, func(k Key, i int, list bool) {
		if keyPath(k.Table, i, list, k.Name) == key {
			found, at = k, i
		}
	})
	if at >= 0 {
		return found, at, nil
	}
	var names []string
	for _, k := range keyTable() {
		names = append(names, k.Path())
	}
	return Key{}, 0, fmt.Errorf("%s: no such key, or the part is not there; nearest is %s", quote(key), firstWord(nearest(key, names)))
}

func firstWord(s string) string {
	s, _, _ = strings.Cut(s, " ")
	return s
}

// Add puts an optional part into a firing with everything that has a default
// filled in and named as assumed. What has none must be set. Rows and shields
// are added after those there are.
func Add(f *Firing, part string) error {
	for _, t := range tables() {
		if t.name != part || !t.optional || t.name == "fan" || t.name == "water" {
			continue
		}
		at := t.has(f)
		if at > 0 && !t.list {
			return fmt.Errorf("%s is there already", part)
		}
		before := *f
		t.grow(f, at+1)
		switch part { // growing a list makes a new one
		case "row":
			copy(f.Design.Rows, before.Design.Rows)
		case "shield":
			copy(f.Design.Shields, before.Design.Shields)
		}
		f.Assumed = slices.Clone(f.Assumed)
		fillPart(f, part, at)
		if part == "pot" {
			fillPart(f, "water", 0)
			f.Conditions.Schedule = slices.Clone(f.Conditions.Schedule)
			fillPart(f, "schedule", 0)
		}
		SortAssumed(f)
		refill(f)
		return nil
	}
	return fmt.Errorf("%s is no part that can be added; nearest is %s", quote(part), firstWord(nearest(part, tableNames())))
}

func fillPart(f *Firing, part string, at int) {
	for stage := early; stage <= late; stage++ {
		eachKey(f, func(k Key, i int, list bool) {
			if k.Table == part && i == at && k.stage == stage && k.fill != nil && k.applies(f, i) && k.fill(f, i) {
				f.Assumed = append(f.Assumed, keyPath(k.Table, i, list, k.Name))
			}
		})
	}
}

// refill gives every assumed key its default again.
func refill(f *Firing) {
	assumed := map[string]bool{}
	for _, a := range f.Assumed {
		assumed[a] = true
	}
	for stage := early; stage <= late; stage++ {
		eachKey(f, func(k Key, i int, list bool) {
			if k.stage == stage && k.fill != nil && assumed[keyPath(k.Table, i, list, k.Name)] && k.applies(f, i) {
				k.fill(f, i)
			}
		})
	}
}

// SortAssumed puts the assumed keys in file order.
func SortAssumed(f *Firing) {
	order := map[string]int{}
	n := 0
	eachKey(f, func(k Key, i int, list bool) {
		n++
		order[keyPath(k.Table, i, list, k.Name)] = n
	})
	slices.SortStableFunc(f.Assumed, func(a, b string) int { return order[a] - order[b] })
}

// Remove takes an optional part out. Rows and shields are named with their
// number: "row[2]".
func Remove(f *Firing, part string) error {
	name, number, list := strings.Cut(strings.TrimSuffix(part, "]"), "[")
	for _, t := range tables() {
		if t.name != name || !t.optional || t.list != list || t.name == "water" {
			continue
		}
		at := 0
		if list {
			if _, err := fmt.Sscanf(number, "%d", &at); err != nil || at < 1 || at > t.has(f) {
				return fmt.Errorf("%s: there are %d of them", part, t.has(f))
			}
			at--
		} else if t.has(f) == 0 {
			return fmt.Errorf("%s is not there", part)
		}
		switch name {
		case "row":
			f.Design.Rows = slices.Delete(slices.Clone(f.Design.Rows), at, at+1)
		case "shield":
			f.Design.Shields = slices.Delete(slices.Clone(f.Design.Shields), at, at+1)
		case "fan":
			f.Design.Fan.Primary, f.Design.Fan.Secondary = 0, 0
		default:
			t.grow(f, 0)
		}
		if name == "pot" {
			f.Conditions.Water = Water{}
			f.Conditions.Schedule = slices.DeleteFunc(slices.Clone(f.Conditions.Schedule), func(a Action) bool { return a.Do == PotOn || a.Do == PotOff })
		}
		f.Assumed = without(f.Assumed, name, at, list)
		refill(f)
		return nil
	}
	return fmt.Errorf("%s is no part that can be taken out; nearest is %s", quote(part), firstWord(nearest(name, tableNames())))
}

// without drops the assumed keys of a part and renumbers those after it.
func without(keys []string, name string, at int, list bool) []string {
	var out []string
	for _, k := range keys {
		table, key, _ := strings.Cut(k, ".")
		if !list {
			if table != name && !(name == "pot" && (table == "water" || k == "schedule.pot_on")) {
				out = append(out, k)
			}
			continue
		}
		var n int
		if _, err := fmt.Sscanf(table, name+"[%d]", &n); err == nil {
			if n-1 == at {
				continue
			}
			if n-1 > at {
				k = keyPath(name, n-2, true, key)
			}
		}
		out = append(out, k)
	}
	return out
}
