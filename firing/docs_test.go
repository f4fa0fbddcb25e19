package firing

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"toplit/internal/outside"
	"toplit/quantity"
	"toplit/stove"
)

// keyRows is the table of keys as docs/design-file.md has it.
func keyRows(table string) string {
	var b strings.Builder
	b.WriteString("| key | what | takes | accepted | when left out | why |\n|---|---|---|---|---|---|\n")
	cell := strings.NewReplacer("|", "\\|", "\n", " ")
	for _, k := range Keys() {
		if k.Table != table {
			continue
		}
		left := k.Default
		switch {
		case k.Instead != "":
			left = "in place of `" + k.Instead + "`"
		case left == "":
			left = "must be given"
			for _, o := range Keys() {
				if o.Table == k.Table && o.Instead == k.Name {
					left = "must be given, this way or another"
				}
			}
		case k.Optional:
			left += " (nothing is assumed)"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s | %s |\n", k.Name, cell.Replace(k.What), cell.Replace(k.Takes), cell.Replace(k.Range), cell.Replace(left), cell.Replace(k.Source))
	}
	return b.String()
}

// Every key stands on the page with what it takes, its range, its default and
// why, word for word as in the code; and every example there can be read.
func TestPage(t *testing.T) {
	path := filepath.Join(outside.Root(), "docs", "design-file.md")
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	page := string(raw)
	for _, tb := range tables() {
		name := tb.name
		if name == "" {
			name = "top"
		}
		begin, end := "<!-- keys of "+name+" -->\n", "<!-- end -->\n"
		at := strings.Index(page, begin)
		if at < 0 {
			t.Errorf("no table of the keys of %s", name)
			continue
		}
		head, rest := page[:at+len(begin)], page[at+len(begin):]
		to := strings.Index(rest, end)
		if to < 0 {
			t.Fatalf("table of the keys of %s has no end", name)
		}
		if want := keyRows(tb.name); *update {
			page = head + want + rest[to:]
		} else if d := cmp.Diff(want, rest[:to]); d != "" {
			t.Errorf("keys of %s: go test ./firing -run Page -update writes them\n%s", name, d)
		}
	}
	if *update {
		if err := os.WriteFile(path, []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	blocks := regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllStringSubmatch(page, -1)
	if len(blocks) < 3 {
		t.Errorf("%d examples", len(blocks))
	}
	for i, m := range blocks {
		f, problems := Examine(strings.NewReader(m[1]), fmt.Sprintf("example %d", i+1))
		if f == nil {
			t.Errorf("%v", problems)
		}
		for _, p := range problems {
			if p.Severity == stove.Error {
				t.Errorf("%v", p)
			}
		}
	}
	for _, a := range Events() {
		if !strings.Contains(page, a.Code) || !strings.Contains(page, a.Tap) {
			t.Errorf("event %s is not on the page", a.Code)
		}
	}
	for _, m := range Moments() {
		if !strings.Contains(page, string(m.Moment)) || !strings.Contains(page, m.What) {
			t.Errorf("moment %s is not on the page", m.Moment)
		}
	}
	for _, p := range Phases() {
		if !strings.Contains(page, p.Name) {
			t.Errorf("phase %s is not on the page", p.Name)
		}
	}
}

// Every default can be read by its own key, says why it is what it is, and
// comes out in range.
func TestDefaults(t *testing.T) {
	f := &Firing{}
	for _, tb := range tables() {
		if tb.optional && tb.name != "water" && tb.name != "fan" {
			tb.grow(f, 1)
		}
	}
	f.Design.Rows[0].On = stove.FuelBody
	f.Design.FuelCan.Diameter, f.Design.FuelCan.Height = 0.1, 0.12
	f.Design.OuterCan.Diameter, f.Design.OuterCan.Height = 0.12, 0.14
	for stage := early; stage <= late; stage++ {
		eachKey(f, func(k Key, i int, list bool) {
			if k.fill == nil || k.stage != stage || !k.applies(f, i) {
				return
			}
			if !k.fill(f, i) {
				t.Errorf("%s: its default %q cannot be read", k.Path(), k.Default)
			}
			text := k.write(f, i, quantity.Metric)
			doc, err := parse([]byte("x = "+text), "")
			if err != nil {
				t.Errorf("%s: default written %s: %v", k.Path(), text, err)
				return
			}
			if err := k.read(f, i, doc.entries[0].value); err != nil {
				t.Errorf("%s: default %s: %v", k.Path(), text, err)
			}
		})
	}
	seen := map[string]bool{}
	for _, k := range Keys() {
		if seen[k.Path()] {
			t.Errorf("%s twice", k.Path())
		}
		seen[k.Path()] = true
		if k.What == "" || k.Takes == "" || k.Range == "" {
			t.Errorf("%s: %+v", k.Path(), k)
		}
		if k.fill != nil && (k.Source == "" || k.Default == "") {
			t.Errorf("%s has a default without a reason", k.Path())
		}
		if k.read == nil || k.write == nil && k.Instead == "" {
			t.Errorf("%s cannot be read or written", k.Path())
		}
	}
	if len(seen) < 80 {
		t.Errorf("%d keys", len(seen))
	}
}

func TestSetAndGet(t *testing.T) {
	f := nested(t)
	for _, c := range [][3]string{
		{"row[2].count", "24", "24"}, {"row[2].hole", "#7", "5.1054 mm"}, {"row[2].below_rim", "15 mm", ""}, {"ring.bore", "2 5/8 in", "66.675 mm"},
		{"fuel_can.strip", "31.1 cm", ""}, {"pot.lid", "no", "false"}, {"charge.volume", "2 cups", "2 cup"}, {"charge.depth", "9 cm", "90 mm"},
		{"schedule.pot_on", "3:00, jets lit + 2:00", `["3:00", "jets lit + 2:00"]`}, {"air.altitude", "1500 m", ""}, {"fuel_can.can", "603x700", "603x700"},
		{"name", `my "best" one`, `my "best" one`}, {"fan.primary", "0.2 g/s", "12 g/min"}, {"ring.slits", "12", "12"}, {"annulus", "closed", "closed"}, {"starter.kind", "Wax", "wax"},
	} {
		if err := Set(f, c[0], c[1]); err != nil {
			t.Errorf("%s: %v", c[0], err)
			continue
		}
		if got, err := Get(f, c[0], quantity.Metric); err != nil || got != c[2] {
			t.Errorf("%s = %s reads back %s, %v; want %s", c[0], c[1], got, err, c[2])
		}
		for _, a := range f.Assumed {
			if a == c[0] {
				t.Errorf("%s is set and still assumed", a)
			}
		}
	}
	if f.Conditions.Charge != (Charge{Depth: 0.09}) {
		t.Errorf("charge %+v: the last way of giving it counts", f.Conditions.Charge)
	}
	near := func(what string, got, want, tol float64) {
		if got < want-tol || got > want+tol {
			t.Errorf("%s %g, want %g", what, got, want)
		}
	}
	near("pressure at 1500 m", f.Conditions.Air.Pressure, 84556, 10) // ISO 2533
	near("body of a 603x700 can", f.Design.FuelCan.Diameter, 0.1539, 0.0005)
	for _, c := range [][2]string{
		{"row[9].count", "3"}, {"riser.height", "10 cm"}, {"ring.bore", "70"}, {"row[1].count", "many"}, {"pot.lid", "perhaps"}, {"starter.kind", "petrol"}, {"", ""}, {"row.count", "3"},
	} {
		if err := Set(f, c[0], c[1]); err == nil {
			t.Errorf("%s = %s was taken", c[0], c[1])
		}
	}
	if _, err := Get(f, "ring.boar", quantity.Metric); err == nil || !strings.Contains(err.Error(), "ring.bore") {
		t.Errorf("a slip: %v", err)
	}
}

// What was assumed follows what is set; what was given stays.
func TestSetRefills(t *testing.T) {
	f, err := ReadFile("testdata/golden/single.toml")
	if err != nil {
		t.Fatal(err)
	}
	before := f.Clone()
	if err := Set(f, "fuel.species", "twigs"); err != nil {
		t.Fatal(err)
	}
	if f.Conditions.Fuel.BulkDensity != 160 || f.Conditions.Fuel.Moisture != 0.14 {
		t.Errorf("twigs as pellets: %+v", f.Conditions.Fuel)
	}
	if err := Set(f, "fuel_can.can", "603x700"); err != nil {
		t.Fatal(err)
	}
	if f.Conditions.Starter.Mass <= before.Conditions.Starter.Mass {
		t.Errorf("the starter of the small can in the large: %+v", f.Conditions.Starter)
	}
	if err := Add(f, "pot"); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]Action{{PotOn, 60, JetsLit}}, f.Conditions.Schedule); d != "" {
		t.Error(d)
	}
	var b strings.Builder
	if err := Write(&b, f, Options{}); err != nil {
		t.Fatal(err)
	}
	g, err := Read(strings.NewReader(b.String()), "again")
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(f, g); d != "" {
		t.Error(d)
	}
	if before.Conditions.Pot != nil || before.Conditions.Fuel.Species != "softwood pellets" || before.Design.FuelCan.Code != "401x411" {
		t.Error("the clone changed with its original")
	}
	if p := g.Packing(); p.Diameter < 0.15 || p.Height <= 0 {
		t.Errorf("packing %+v", p)
	}
}

func TestAddAndRemove(t *testing.T) {
	f, err := ReadFile("testdata/golden/single.toml")
	if err != nil {
		t.Fatal(err)
	}
	rows := f.Design.Rows
	for _, part := range []string{"outer_can", "row", "ring", "riser", "stand", "skirt", "shield", "shield", "plate", "pot"} {
		if err := Add(f, part); err != nil {
			t.Errorf("%v", err)
		}
	}
	if len(f.Design.Rows) != 3 || len(rows) != 2 || f.Design.Rows[0] != rows[0] || len(f.Design.Shields) != 2 {
		t.Errorf("rows %v, shields %v", f.Design.Rows, f.Design.Shields)
	}
	for _, key := range []string{"ring.wall", "row[3].edge", "shield[2].gap", "pot.mass", "water.mass"} {
		if !strings.Contains(strings.Join(f.Assumed, " "), key) {
			t.Errorf("%s is not among the assumed", key)
		}
	}
	for _, part := range []string{"ring", "hat", "water", "fuel_can"} {
		if err := Add(f, part); err == nil {
			t.Errorf("%s was added", part)
		}
	}
	_ = Set(f, "shield[2].under", "yes")
	for _, part := range []string{"row[3]", "row[1]", "ring", "riser", "stand", "skirt", "shield[1]", "plate", "outer_can", "pot"} {
		if err := Remove(f, part); err != nil {
			t.Errorf("%v", err)
		}
	}
	d := f.Design
	if len(d.Rows) != 1 || d.Rows[0] != rows[1] || d.Ring != nil || d.Riser != nil || len(d.Shields) != 1 || !d.Shields[0].Under || f.Conditions.Pot != nil || f.Conditions.Water != (Water{}) {
		t.Errorf("left: %+v", d)
	}
	for _, a := range f.Assumed {
		if _, _, err := find(f, a); err != nil {
			t.Errorf("assumed of a part that is gone: %s", a)
		}
	}
	if !strings.Contains(strings.Join(f.Assumed, " "), "shield[1].gap") {
		t.Errorf("the second shield is the first now: %v", f.Assumed)
	}
	for _, part := range []string{"ring", "row[2]", "row[0]", "row", "fuel_can", "row[x]"} {
		if err := Remove(f, part); err == nil {
			t.Errorf("%s was taken out", part)
		}
	}
}
