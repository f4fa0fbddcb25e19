package firing

import (
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"sort"
	"strings"

	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/stove"
)

// largest is the longest design file that is read [bytes].
const largest = 1 << 20

// Read reads a design file. name is what error lines call it. The error is a
// Problems with a line for everything that is wrong; the Firing is then nil.
// What Read accepts may still not be fit to light: see Check and Examine.
func Read(r io.Reader, name string) (*Firing, error) {
	f, _, err := read(r, name)
	return f, err
}

// ReadFile is Read from a path.
func ReadFile(path string) (*Firing, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return Read(file, path)
}

// Examine reads a design file and checks what it says: problems of the file,
// or, when it can be read, the findings of Check with the lines they are
// about. The Firing is nil only when the file could not be read.
func Examine(r io.Reader, name string) (*Firing, Problems) {
	f, lines, err := read(r, name)
	if err != nil {
		var list Problems
		if errors.As(err, &list) {
			return nil, list
		}
		return nil, Problems{{Severity: stove.Error, File: name, Text: err.Error()}}
	}
	var list Problems
	for _, x := range Check(*f) {
		list = append(list, Problem{x.Severity, name, lineOf(lines, x.Key), x.Key, x.Value, x.Text, x.Accept})
	}
	return f, list
}

// lineOf is the line of a key, else of its table.
func lineOf(lines map[string]int, key string) int {
	if n, ok := lines[key]; ok {
		return n
	}
	table, _, _ := strings.Cut(key, ".")
	return lines[table]
}

func read(r io.Reader, name string) (*Firing, map[string]int, error) {
	src, err := io.ReadAll(io.LimitReader(r, largest+1))
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(src) > largest {
		return nil, nil, Problems{{Severity: stove.Error, File: name, Text: "too long for a design file", Accept: "up to 1 MB of text"}}
	}
	doc, err := parse(src, name)
	if err != nil {
		return nil, nil, err
	}
	rd := &reader{doc: doc, f: new(Firing), given: map[string]entry{}, lines: map[string]int{}}
	rd.layOut()
	if len(rd.problems) == 0 || rd.onlyKeys {
		rd.apply()
	}
	if len(rd.problems) > 0 {
		sort.SliceStable(rd.problems, func(i, j int) bool { return rd.problems[i].Line < rd.problems[j].Line })
		return nil, nil, rd.problems
	}
	return rd.f, rd.lines, nil
}

type reader struct {
	doc      *document
	f        *Firing
	given    map[string]entry // by full path
	lines    map[string]int   // of keys and tables
	shown    map[string]bool  // tables that stand in the file
	problems Problems
	spoiled  map[string]bool // tables with an unknown key: what they lack may be that one
	onlyKeys bool            // what went wrong so far does not keep the rest from being read
}

func (rd *reader) wrong(line int, key, value, text, accept string) {
	rd.problems = append(rd.problems, Problem{stove.Error, rd.doc.name, line, key, value, text, accept})
}

// layOut matches tables and keys of the file with those known, and makes the
// parts the file has.
func (rd *reader) layOut() {
	rd.onlyKeys = true
	rd.shown, rd.spoiled = map[string]bool{}, map[string]bool{}
	known := map[string]table{}
	for _, t := range tables() {
		known[t.name] = t
	}
	count := map[string]int{}
	for _, h := range rd.doc.headers {
		t, ok := known[h.table]
		switch {
		case !ok:
			rd.wrong(h.line, h.table, "", "unknown table", nearest(h.table, tableNames()))
			rd.spoiled[""] = true
			continue
		case t.list && !h.list:
			rd.wrong(h.line, h.table, "", "is a list", "[["+h.table+"]]")
			rd.onlyKeys = false
		case !t.list && h.list:
			rd.wrong(h.line, h.table, "", "is not a list", "["+h.table+"]")
			rd.onlyKeys = false
		}
		rd.shown[h.table] = true
		path := keyPath(h.table, h.index, h.list, "")
		if rd.lines[path] == 0 {
			rd.lines[path] = h.line
		}
		if rd.lines[h.table] == 0 {
			rd.lines[h.table] = h.line
		}
		count[h.table] = max(count[h.table], h.index+1)
	}
	names := map[string]bool{}
	for _, k := range keyTable() {
		names[k.Path()] = true
	}
	for _, e := range rd.doc.entries {
		if _, ok := known[e.table]; !ok {
			if !slices.ContainsFunc(rd.doc.headers, func(h header) bool { return h.table == e.table || strings.HasPrefix(h.table, e.table+".") }) {
				rd.unknown(e) // a dotted key; else its header has been reported
			}
			continue
		}
		path := e.path()
		if !names[Key{Table: e.table, Name: e.key}.Path()] {
			rd.unknown(e)
			continue
		}
		rd.shown[e.table] = true
		count[e.table] = max(count[e.table], e.index+1)
		rd.given[path] = e
		rd.lines[path] = e.line
		if e.table != "" && rd.lines[e.table] == 0 {
			rd.lines[e.table] = e.line
		}
	}
	for _, t := range tables() {
		switch {
		case t.name == "water":
			if rd.shown["water"] && !rd.shown["pot"] {
				rd.wrong(rd.lines["water"], "water", "", "there is no pot to hold it", "a [pot] table, or no [water]")
			}
		case t.optional:
			t.grow(rd.f, count[t.name])
		}
	}
}

// unknown reports a key nobody knows, with the nearest that is known.
func (rd *reader) unknown(e entry) {
	if _, ok := e.value.(other); ok && e.key == "" {
		e.key = e.table
	}
	text, accept := "unknown key", ""
	if e.table == "schedule" && pours(e.key) {
		text = "refused: nothing is poured or laid on after lighting; vapour flashes back along the stream and a cold charge smokes"
		accept = "let it go out and cool, then charge and light it anew"
	} else {
		var names []string
		for _, k := range keyTable() {
			if k.Table == e.table {
				names = append(names, k.Name)
			}
		}
		accept = nearest(e.key, names)
		if other := elsewhere(e); other != "" {
			accept = other
		}
	}
	rd.wrong(e.line, e.path(), literal(e.value), text, accept)
	rd.spoiled[keyPath(e.table, e.index, e.list, "")] = true
}

func pours(key string) bool {
	for _, p := range []string{"add", "pour", "refuel", "squirt", "starter", "alcohol", "fuel", "relight"} {
		if strings.HasPrefix(key, p) {
			return true
		}
	}
	return false
}

// elsewhere finds a key of that name in another table, when the table it
// stands in has none like it.
func elsewhere(e entry) string {
	var found []string
	for _, k := range keyTable() {
		if k.Name == e.key && k.Table != e.table || k.Path() == strings.ReplaceAll(e.key, "_", ".") {
			found = append(found, k.Path())
		}
	}
	if len(found) == 1 {
		return found[0]
	}
	return ""
}

func tableNames() []string {
	var names []string
	for _, t := range tables() {
		if t.name != "" {
			names = append(names, t.name)
		}
	}
	return names
}

// nearest names the nearest known word first, then what else there is.
func nearest(wrong string, names []string) string {
	best, far := "", math.MaxInt
	for _, n := range names {
		if d := fuel.Far(strings.ToLower(wrong), n); d < far {
			best, far = n, d
		}
	}
	if best == "" {
		return ""
	}
	rest := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == best })
	if len(rest) == 0 {
		return best
	}
	return best + " (nearest), or " + strings.Join(rest, ", ")
}

// apply reads every given value and fills what is left, stage by stage.
func (rd *reader) apply() {
	assumed := map[string]bool{}
	for stage := direct; stage <= late; stage++ {
		rd.each(func(k Key, i int, list bool) {
			path := keyPath(k.Table, i, list, k.Name)
			e, ok := rd.given[path]
			switch {
			case ok && k.readStage() == stage:
				rd.value(k, i, e)
				assumed[path] = e.assumed
			case !ok && k.fill != nil && k.stage == stage && k.applies(rd.f, i) && rd.alternative(k, i, list) == "":
				assumed[path] = k.fill(rd.f, i)
			}
		})
	}
	rd.each(func(k Key, i int, list bool) {
		path := keyPath(k.Table, i, list, k.Name)
		if assumed[path] {
			rd.f.Assumed = append(rd.f.Assumed, path)
		}
		rd.demand(k, i, list)
	})
	rd.together()
}

// readStage is when a given value is read.
func (k Key) readStage() int {
	if k.fill != nil {
		return direct
	}
	return k.stage
}

// each calls do for every key of every part there is, in file order.
func (rd *reader) each(do func(k Key, i int, list bool)) { eachKey(rd.f, do) }

func eachKey(f *Firing, do func(k Key, i int, list bool)) {
	keys := keyTable()
	for _, t := range tables() {
		n := t.has(f)
		if t.name == "fan" {
			n = 1 // its keys say whether it is there
		}
		for i := range n {
			for _, k := range keys {
				if k.Table == t.name {
					do(k, i, t.list)
				}
			}
		}
	}
}

// alternative is another key given for the same value, "" when there is none.
func (rd *reader) alternative(k Key, i int, list bool) string {
	for _, o := range rivals(k) {
		if path := keyPath(k.Table, i, list, o.Name); rd.given[path].line > 0 {
			return path
		}
	}
	return ""
}

// twice is the key that says already what k says again, "" when none does.
// Of two keys given for one value only one is reported.
func (rd *reader) twice(k Key, i int, list bool) string {
	if k.Instead == "" {
		return ""
	}
	for n, o := range rivals(k) {
		path := keyPath(k.Table, i, list, o.Name)
		if rd.given[path].line > 0 && (o.Instead == "" || n < before(k)) {
			return path
		}
	}
	return ""
}

// rivals are the other keys for the same value, in file order.
func rivals(k Key) []Key {
	base := k.Name
	if k.Instead != "" {
		base = k.Instead
	}
	var list []Key
	for _, o := range keyTable() {
		if o.Table == k.Table && o.Name != k.Name && (o.Name == base || o.Instead == base) {
			list = append(list, o)
		}
	}
	return list
}

// before is how many of a key's rivals stand before it in file order.
func before(k Key) int {
	n := 0
	for _, o := range keyTable() {
		switch {
		case o.Path() == k.Path():
			return n
		case slices.ContainsFunc(rivals(k), func(r Key) bool { return r.Path() == o.Path() }):
			n++
		}
	}
	return n
}

func (rd *reader) value(k Key, i int, e entry) {
	if k.Table == "air" && k.Name == "altitude" && rd.given["air.pressure"].line > 0 {
		rd.compareAltitude(k, e)
		return
	}
	if o := rd.twice(k, i, e.list); o != "" {
		rd.wrong(e.line, e.path(), literal(e.value), "says the same as "+o, "one of the two")
		return
	}
	if err := k.read(rd.f, i, e.value); err != nil {
		rd.report(e, err)
	}
}

func (rd *reader) report(e entry, err error) {
	var p *problem
	if errors.As(err, &p) {
		rd.wrong(e.line, e.path(), literal(e.value), p.text, p.accept)
		return
	}
	rd.wrong(e.line, e.path(), literal(e.value), err.Error(), "")
}

// compareAltitude sets an altitude beside the pressure that was given.
func (rd *reader) compareAltitude(k Key, e entry) {
	var other Firing
	if err := k.read(&other, 0, e.value); err != nil {
		rd.report(e, err)
		return
	}
	const weather = 4000 // what weather moves the pressure at one place by, at most about [Pa]
	p, std := rd.f.Conditions.Air.Pressure, other.Conditions.Air.Pressure
	if p > 0 && math.Abs(p-std) > weather {
		show := func(v float64) string { return quantity.Show(quantity.Pressure, v, quantity.Metric, 3) }
		given := rd.given["air.pressure"]
		rd.wrong(given.line, "air.pressure", literal(given.value), fmt.Sprintf("does not go with the altitude of %s, where it is about %s: a pressure reduced to sea level?", literal(e.value), show(std)), show(std-weather)+" to "+show(std+weather)+", or no altitude")
	}
}

// demand reports a key that must be given and is not.
func (rd *reader) demand(k Key, i int, list bool) {
	path := keyPath(k.Table, i, list, k.Name)
	if k.fill != nil || k.Optional || k.Instead != "" || !k.applies(rd.f, i) || rd.given[path].line > 0 || rd.alternative(k, i, list) != "" {
		return
	}
	if k.Name == "diameter" || k.Name == "height" {
		if rd.given[keyPath(k.Table, i, list, "can")].line > 0 {
			return
		}
	}
	table := keyPath(k.Table, i, list, "")
	if rd.spoiled[table] || rd.spoiled[""] && !rd.shown[k.Table] {
		return
	}
	if k.Table != "" && !rd.shown[k.Table] {
		if !slices.ContainsFunc(rd.problems, func(p Problem) bool { return p.Key == table }) {
			rd.wrong(0, table, "", "missing", `a [`+k.Table+`] table with at least a can, or diameter and height`)
		}
		return
	}
	accept := k.Range
	for _, o := range keyTable() {
		if o.Table == k.Table && o.Instead == k.Name {
			accept += ", or " + o.Name
		}
	}
	rd.wrong(rd.lines[table], path, "", "missing", accept)
}

// together checks what only several keys can get wrong.
func (rd *reader) together() {
	c := &rd.f.Conditions
	for i, r := range rd.f.Design.Rows {
		row := fmt.Sprintf("row[%d]", i+1)
		for _, key := range []string{"height", "below_rim", "circle"} {
			ok := r.OnBase() == (key == "circle")
			if e, given := rd.given[row+"."+key]; given && !ok && r.On != "" && !(key == "circle" && r.Circle == 0) {
				rd.wrong(e.line, e.path(), literal(e.value), fmt.Sprintf("a row on the %s has no %s", r.On, key), otherPlace(r))
			}
		}
		if e, given := rd.given[row+".below_rim"]; given && r.On != "" && !r.OnBase() {
			if _, tall, ok := rd.f.Design.Wall(r.On); !ok {
				rd.wrong(e.line, e.path(), literal(e.value), fmt.Sprintf("the design has no %s to measure from", r.On), "another sheet, or the part it is cut in")
			} else if r.Height <= 0 && tall > 0 {
				rd.wrong(e.line, e.path(), literal(e.value), fmt.Sprintf("lies below the base of a wall of %s", quantity.Show(quantity.Length, tall, quantity.Metric, 4)), "less than that")
			}
		}
	}
	if rd.shown["fan"] && rd.f.Design.Fan == (stove.Fan{}) && len(rd.problems) == 0 {
		rd.wrong(rd.lines["fan"], "fan", "", "has no flow", "primary or secondary above 0, or no [fan]")
	}
	if c.Fuel.analysed() {
		a := fuel.Analysis{Carbon: c.Fuel.Carbon, Hydrogen: c.Fuel.Hydrogen, Oxygen: c.Fuel.Oxygen, Nitrogen: c.Fuel.Nitrogen, Ash: c.Fuel.Ash}
		for _, name := range []string{"carbon", "hydrogen", "oxygen", "nitrogen", "ash"} {
			if _, ok := rd.given["fuel."+name]; !ok {
				rd.wrong(rd.lines["fuel"], "fuel."+name, "", "missing: a dry analysis has all five", "carbon, hydrogen, oxygen, nitrogen and ash, or none of them")
				return
			}
		}
		if err := a.Check(); err != nil && len(rd.problems) == 0 {
			rd.wrong(rd.given["fuel.carbon"].line, "fuel.carbon", literal(rd.given["fuel.carbon"].value), err.Error(), "a dry analysis that adds up to 100 %")
		}
	}
}

func otherPlace(r stove.Row) string {
	if r.OnBase() {
		return "circle, or no place for a filled base"
	}
	return "height or below_rim"
}
