package catalogue

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"toplit/quantity"
)

// Drill is a drill, or one step of a step drill.
type Drill struct {
	Set      string  // the set it belongs to: "metric", "fractional", "number", "letter", "step inch 1/8-1/2"
	Name     string  // "6 mm", "5/8 in", "#7", "F"
	Diameter float64 // nominal [m]
	Area     float64 // of the nominal hole [m2]; a hole drilled by hand in thin sheet runs 0 to 4 % wide
}

type drillTable struct {
	sets  map[string][]Drill
	order []string
}

var drills = sync.OnceValues(readDrills)

func readDrills() (*drillTable, error) {
	t := &drillTable{sets: map[string][]Drill{}}
	add := func(set, name string, d float64) {
		if _, ok := t.sets[set]; !ok {
			t.order = append(t.order, set)
		}
		t.sets[set] = append(t.sets[set], Drill{set, name, d, math.Pi / 4 * d * d})
	}
	for _, c := range metricHundredths() {
		add("metric", name(c, 100, "mm"), float64(c)/1e5)
	}
	for c := 100; c <= 1300; c += 50 {
		add("metric half", name(c, 100, "mm"), float64(c)/1e5)
	}
	for n := 1; n <= 64; n++ {
		text := fraction(n, 64) + " in"
		d, err := quantity.Parse(quantity.Length, text)
		if err != nil {
			return nil, err
		}
		add("fractional", text, d)
	}
	s, err := open("drills.csv")
	if err != nil {
		return nil, err
	}
	err = s.each(func(r *row) {
		add(r.text("set"), r.text("name"), r.amount(quantity.Length, "inch", "in"))
	})
	if err != nil {
		return nil, err
	}
	if s, err = open("steps.csv"); err != nil {
		return nil, err
	}
	err = s.each(func(r *row) {
		unit := r.text("unit")
		first, last, step := r.amount(quantity.Length, "first", unit), r.amount(quantity.Length, "last", unit), r.amount(quantity.Length, "step", unit)
		for i := 0; r.err == nil; i++ {
			d := first + float64(i)*step
			if d > last+step/2 {
				return
			}
			text := name(int(math.Round(d*1e5)), 100, "mm")
			if unit == "in" {
				text, _ = quantity.FormatNear(d, 64)
			}
			exact, err := quantity.Parse(quantity.Length, text)
			if err != nil {
				r.fail(err)
				return
			}
			add(r.text("set"), text, exact)
		}
	})
	if err != nil {
		return nil, err
	}
	for _, list := range t.sets {
		sort.SliceStable(list, func(i, j int) bool { return list[i].Diameter < list[j].Diameter })
	}
	return t, nil
}

// metricHundredths lists the metric sizes in hundredths of a millimetre by the
// rule quoted for BS 328 (encyclopaedia article "Drill bit sizes"): 0.2 to 0.98
// mm in N·0.1 + 0, 0.02, 0.05, 0.08; 1 to 2.95 by 0.05; 3 to 13.9 by 0.1; 14 to
// 25 by 0.25. The rule gives 227 sizes where the same article says 230: the
// three are not known, and not made up here. Hand shops mostly have "metric
// half", 1 to 13 mm by 0.5 (common practice, no source).
func metricHundredths() []int {
	var list []int
	for n := 20; n <= 90; n += 10 {
		list = append(list, n, n+2, n+5, n+8)
	}
	for n := 100; n <= 295; n += 5 {
		list = append(list, n)
	}
	for n := 300; n <= 1390; n += 10 {
		list = append(list, n)
	}
	for n := 1400; n < 2500; n += 25 {
		list = append(list, n)
	}
	return append(list, 2500)
}

// name writes n/den without trailing zeros: 605/100 is "6.05 mm".
func name(n, den int, unit string) string {
	text := fmt.Sprintf("%d.%02d", n/den, n%den)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".") + " " + unit
}

// fraction writes n/den in lowest terms.
func fraction(n, den int) string {
	for n%2 == 0 && den > 1 {
		n, den = n/2, den/2
	}
	if den == 1 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d/%d", n, den)
}

// DrillSets lists the names of the sets.
func DrillSets() []string {
	t, err := drills()
	if err != nil {
		return nil // compiled in and read by a test
	}
	return slices.Clone(t.order)
}

// Drills lists the drills of a set, thinnest first.
func Drills(set string) ([]Drill, error) {
	t, err := drills()
	if err != nil {
		return nil, err
	}
	list, ok := t.sets[strings.ToLower(strings.Join(strings.Fields(set), " "))]
	if !ok {
		return nil, fmt.Errorf("drill set %q is not in the catalogue; there are %s", set, strings.Join(t.order, ", "))
	}
	return slices.Clone(list), nil
}

// Nearest is the drill whose hole comes nearest in area to a hole of the
// diameter [m], and how much larger that hole is as a fraction of the area
// wanted. Of no drills it is the zero Drill, whose hole is 100 % too small: −1.
func Nearest(diameter float64, drills []Drill) (Drill, float64) {
	best, off := Drill{}, -1.0
	want := math.Pi / 4 * diameter * diameter
	for _, d := range drills {
		if e := d.Area/want - 1; best == (Drill{}) || math.Abs(e) < math.Abs(off) {
			best, off = d, e
		}
	}
	return best, off
}

// ParseDrill reads a drill the way makers name it: "#7" or "No. 7", "F", "6
// mm" or "6", "5/8 in" or "5/8". A size is a drill when a set has it within
// 0.005 mm; otherwise the error names the nearest.
func ParseDrill(text string) (Drill, error) {
	t, err := drills()
	if err != nil {
		return Drill{}, err
	}
	s := strings.Join(strings.Fields(text), " ")
	low := strings.ToLower(s)
	for _, mark := range []string{"#", "no.", "no ", "number "} {
		if rest, ok := strings.CutPrefix(low, mark); ok {
			return t.named("number", "#"+strings.TrimSpace(rest), text)
		}
	}
	if rest, ok := strings.CutPrefix(low, "letter "); ok {
		low = rest
	}
	if len(low) == 1 && low[0] >= 'a' && low[0] <= 'z' {
		return t.named("letter", strings.ToUpper(low), text)
	}
	d, err := quantity.Parse(quantity.Length, s)
	if err != nil && strings.ContainsAny(s, "/½¼¾⅛⅜⅝⅞") {
		d, err = quantity.ParseDefault(quantity.Length, s, "in")
	}
	if err != nil {
		return Drill{}, fmt.Errorf("drill %q: a size (6 mm, 5/8 in), a number (#7) or a letter (F) is wanted: %w", text, err)
	}
	return t.sized(d, text)
}

func (t *drillTable) named(set, name, text string) (Drill, error) {
	for _, d := range t.sets[set] {
		if d.Name == name {
			return d, nil
		}
	}
	return Drill{}, fmt.Errorf("drill %q: %s drills run from %s to %s", text, set, t.sets[set][0].Name, t.sets[set][len(t.sets[set])-1].Name)
}

// sized finds a drill of the diameter: an exact one of the first set that has
// it, else the nearest within 0.005 mm.
func (t *drillTable) sized(d float64, text string) (Drill, error) {
	const same = 5e-6 // [m]
	var best, near Drill
	for _, set := range t.order {
		drill, _ := Nearest(d, t.sets[set])
		off := math.Abs(drill.Diameter - d)
		if off <= same && (best == (Drill{}) || off < math.Abs(best.Diameter-d)-1e-12) {
			best = drill
		}
		if near == (Drill{}) || off < math.Abs(near.Diameter-d) {
			near = drill
		}
	}
	if best != (Drill{}) {
		return best, nil
	}
	return Drill{}, fmt.Errorf("drill %q: no set has %s; the nearest is %s (%s)", text,
		quantity.Show(quantity.Length, d, quantity.Metric, 4), near.Name, near.Set)
}
