package firing

import (
	"slices"
	"strings"

	"toplit/quantity"
)

const latest = 24 * 3600 // [s]

// Acts lists the acts of a schedule in the order the file has them.
func Acts() []Act {
	return []Act{PotOn, PotOff, RingOn, RingOff, RiserOn, RiserOff, StandOn, StandOff, Snuff, End}
}

func actWords(a Act) string {
	switch a {
	case PotOn:
		return "the pot goes on"
	case PotOff:
		return "the pot comes off"
	case Snuff:
		return "air is shut off: lid on, plate under"
	case End:
		return "the prediction ends"
	}
	part, on, _ := strings.Cut(string(a), " ")
	if on == "on" {
		return "the " + part + " is set on; without this it is on from the start"
	}
	return "the " + part + " is taken off"
}

const whenRange = `"5:00" after lighting, or after a moment: "jets lit + 1:00", "flame-out"; up to 24 hours`

// ParseWhen reads a time of the schedule: "5:00", "jets lit", "jets lit + 1:00".
func ParseWhen(text string) (at float64, after Moment, err error) {
	name, offset, plus := strings.Cut(text, "+")
	name = strings.ToLower(strings.Join(strings.Fields(name), " "))
	for _, m := range Moments() {
		if name == string(m.Moment) || name == strings.ReplaceAll(string(m.Moment), "-", " ") {
			after = m.Moment
		}
	}
	switch {
	case after == "" && plus:
		return 0, "", wrong(momentNames(), "%s is no moment of a burn", quote(name))
	case after == "":
		offset = text
	case !plus:
		offset = "0:00"
	}
	if after == Lit {
		after = "" // time zero
	}
	if at, err = quantity.Parse(quantity.Time, offset); err != nil {
		return 0, "", wrong(whenRange, "no time and no moment")
	}
	if !strings.Contains(offset, ":") && bare.MatchString(offset) {
		return 0, "", wrong(whenRange, "has no unit")
	}
	if at < 0 || at > latest {
		return 0, "", wrong("0:00 to 24:00:00", "out of range")
	}
	return at, after, nil
}

// FormatWhen writes a time so that ParseWhen reads the same one.
func FormatWhen(a Action) string {
	t := exact(quantity.Time, a.At, quantity.Metric)
	switch {
	case a.After == "" || a.After == Lit:
		return t
	case a.At == 0:
		return string(a.After)
	}
	return string(a.After) + " + " + t
}

func momentNames() string {
	var names []string
	for _, m := range Moments() {
		names = append(names, quote(string(m.Moment)))
	}
	return strings.Join(names, ", ")
}

// scheduleKeys has one key for each act.
func scheduleKeys() []Key {
	var keys []Key
	for _, act := range Acts() {
		k := Key{Takes: "time, or a list of times", Range: whenRange}
		k.read = func(f *Firing, _ int, v any) error {
			list, ok := v.([]any)
			if !ok {
				list = []any{v}
			}
			var read []Action
			for _, x := range list {
				s, ok := x.(string)
				if !ok {
					return wrong(whenRange, "not a time in quotes")
				}
				at, after, err := ParseWhen(s)
				if err != nil {
					return err
				}
				read = append(read, Action{act, at, after})
			}
			c := &f.Conditions
			c.Schedule = slices.DeleteFunc(c.Schedule, func(a Action) bool { return a.Do == act })
			c.Schedule = append(c.Schedule, read...)
			if len(c.Schedule) == 0 {
				c.Schedule = nil
			}
			SortSchedule(c.Schedule)
			return nil
		}
		k.write = func(f *Firing, _ int, _ quantity.System) string {
			var times []string
			for _, a := range f.Conditions.Schedule {
				if a.Do == act {
					times = append(times, Quoted(FormatWhen(a)))
				}
			}
			switch len(times) {
			case 0:
				return ""
			case 1:
				return times[0]
			}
			return "[" + strings.Join(times, ", ") + "]"
		}
		k = in("schedule", strings.ReplaceAll(string(act), " ", "_"), actWords(act), k)
		if act == PotOn {
			k = k.filled("jets lit + 1:00 where there is a pot", common, late, func(f *Firing, _ int) bool {
				if f.Conditions.Pot == nil {
					return false
				}
				c := &f.Conditions
				c.Schedule = slices.DeleteFunc(c.Schedule, func(a Action) bool { return a.Do == PotOn })
				c.Schedule = append(c.Schedule, Action{PotOn, 60, JetsLit})
				SortSchedule(c.Schedule)
				return true
			})
		} else {
			k = k.absent("never")
		}
		keys = append(keys, k)
	}
	return keys
}

// SortSchedule puts actions in the order of a design file: by the moment they
// follow, then by time, then as Acts has them.
func SortSchedule(list []Action) {
	moments := Moments()
	rank := func(m Moment) int {
		if m == "" {
			return 0
		}
		return slices.IndexFunc(moments, func(d MomentData) bool { return d.Moment == m })
	}
	slices.SortStableFunc(list, func(a, b Action) int {
		if d := rank(a.After) - rank(b.After); d != 0 {
			return d
		}
		if a.At != b.At {
			if a.At < b.At {
				return -1
			}
			return 1
		}
		return slices.Index(Acts(), a.Do) - slices.Index(Acts(), b.Do)
	})
}

// keyOf is an act's key: "pot_on".
func keyOf(a Act) string { return strings.ReplaceAll(string(a), " ", "_") }

// partOf is what an act is done to: "pot".
func partOf(a Act) string {
	part, _, _ := strings.Cut(string(a), " ")
	return part
}

func actNames() string {
	var names []string
	for _, a := range Acts() {
		names = append(names, keyOf(a))
	}
	return strings.Join(names, ", ")
}
