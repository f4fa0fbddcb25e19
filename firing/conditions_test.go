package firing

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

func nested(t testing.TB) *Firing {
	t.Helper()
	f, err := ReadFile("testdata/golden/nested.toml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestCheckConditions(t *testing.T) {
	for _, x := range Check(*nested(t)) {
		if x.Severity != stove.Note {
			t.Errorf("%s: %s", x.Severity, x)
		}
	}
	for name, c := range map[string]struct {
		change   func(*Firing)
		severity stove.Severity
		want     string
	}{
		"design errors too": {func(f *Firing) { f.Design.FuelCan.Metal = stove.Galvanised }, stove.Error, "metal fume fever"},
		"no density":        {func(f *Firing) { f.Conditions.Fuel.BulkDensity = 0 }, stove.Error, "fuel.bulk_density = 0 kg/m3: out of range"},
		"not a number":      {func(f *Firing) { f.Conditions.Air.Temperature = math.NaN() }, stove.Error, "air.temperature"},
		"two charges":       {func(f *Firing) { f.Conditions.Charge.Depth = 0.05 }, stove.Error, "2 ways of giving the charge"},
		"no charge":         {func(f *Firing) { f.Conditions.Charge = Charge{} }, stove.Error, "0 ways of giving the charge"},
		"negative charge":   {func(f *Firing) { f.Conditions.Charge.Mass = -1 }, stove.Error, "no fuel"},
		"into the jets":     {func(f *Firing) { f.Conditions.Charge = Charge{Depth: 0.105} }, stove.Warning, "into the jets at 102.5 mm"},
		"over the jets":     {func(f *Firing) { f.Conditions.Charge = Charge{Volume: 0.85e-3} }, stove.Error, "charge.volume = 850 mL: fills the can to 111.3 mm, above the jets"},
		"over the rim":      {func(f *Firing) { f.Conditions.Charge = Charge{Depth: 0.2} }, stove.Error, "over the rim"},
		"falls through":     {func(f *Firing) { f.Conditions.Fuel.Size = 2e-3 }, stove.Warning, "fall through"},
		"coarse":            {func(f *Firing) { f.Conditions.Fuel.Size = 0.04 }, stove.Warning, "bridge"},
		"long":              {func(f *Firing) { f.Conditions.Fuel.Length = 0.2 }, stove.Note, "upright"},
		"skirt alone":       {func(f *Firing) { f.Conditions.Pot = nil; f.Design.Skirt = &stove.Skirt{Gap: 6e-3, Height: 0.1} }, stove.Warning, "no pot to put it round"},
		"no stand":          {func(f *Firing) { f.Design.Stand = nil }, stove.Error, "closes the stove"},
		"falls in":          {func(f *Firing) { f.Design.Stand.Closed, f.Design.Stand.Diameter = true, 0.14; windows(f) }, stove.Error, "falls into the stand"},
		"narrow pot":        {func(f *Firing) { f.Conditions.Pot.Diameter = 0.045; f.Conditions.Water.Mass = 0.1 }, stove.Warning, "flame passes it by"},
		"pot in the flame":  {func(f *Firing) { f.Design.Stand.Height = 0.015 }, stove.Warning, "quenches the flame"},
		"wide pot":          {func(f *Firing) { f.Conditions.Pot.Diameter = 0.4 }, stove.Warning, "knocked off"},
		"full pot":          {func(f *Firing) { f.Conditions.Water.Mass = 1.1 }, stove.Warning, "boils over"},
		"empty pot":         {func(f *Firing) { f.Conditions.Water.Mass = 0 }, stove.Warning, "overheats"},
		"zinc pot":          {func(f *Firing) { f.Conditions.Pot.Metal = stove.Galvanised }, stove.Error, "zinc in food"},
		"unsteady":          {func(f *Firing) { f.Design.Stand.Height = 0.12; f.Conditions.Water.Mass = 0.8 }, stove.Warning, "tips at a tilt of 15."},
		"hardly steady":     {func(f *Firing) { f.Design.Stand.Height = 0.04; f.Conditions.Water.Mass = 0.9 }, stove.Note, "tips at a tilt of 19."},
		"tall riser": {func(f *Firing) {
			f.Design.Stand, f.Conditions.Pot = nil, nil
			f.Conditions.Schedule = nil
			f.Design.Riser = &stove.Riser{Bore: 0.1, Height: 1.5, Wall: 1e-3, Metal: stove.MildSteel}
		}, stove.Error, "riser.height: the loaded stove tips"},
		"species":             {func(f *Firing) { f.Conditions.Fuel.Species = "hay" }, stove.Error, "not in the fuel catalogue"},
		"analysis":            {func(f *Firing) { f.Conditions.Fuel.Carbon = 0.5 }, stove.Error, "adds up to 100 %"},
		"damp":                {func(f *Firing) { f.Conditions.Fuel.Moisture = 0.25 }, stove.Warning, "lights late"},
		"fines":               {func(f *Firing) { f.Conditions.Fuel.Fines = 0.2 }, stove.Warning, "sieve"},
		"petrol":              {func(f *Firing) { f.Conditions.Starter.Kind = "gasoline" }, stove.Error, "refused"},
		"unknown starter":     {func(f *Firing) { f.Conditions.Starter.Kind = "hope" }, stove.Error, "table of starters"},
		"no starter":          {func(f *Firing) { f.Conditions.Starter.Mass = 0 }, stove.Error, "nothing lights the top"},
		"mean starter":        {func(f *Firing) { f.Conditions.Starter.Mass = 1e-3 }, stove.Warning, "only part of the top"},
		"lavish starter":      {func(f *Firing) { f.Conditions.Starter.Mass = 0.05 }, stove.Warning, "flares"},
		"shelter":             {func(f *Firing) { f.Conditions.Air.Shelter = "tent" }, stove.Error, "not known"},
		"storm":               {func(f *Firing) { f.Conditions.Air.Wind = 10 }, stove.Warning, "local fire authority"},
		"breeze":              {func(f *Firing) { f.Conditions.Air.Wind = 3 }, stove.Note, "windward"},
		"hot":                 {func(f *Firing) { f.Conditions.Warm = 400 }, stove.Error, "too hot to charge"},
		"warm":                {func(f *Firing) { f.Conditions.Warm = 340 }, stove.Warning, "liquid starter"},
		"no temperature":      {func(f *Firing) { f.Conditions.Warm = -5 }, stove.Error, "stove_temperature"},
		"unknown ground":      {func(f *Firing) { f.Conditions.Ground.Cover = "lava" }, stove.Error, "catalogue of covers"},
		"green grass":         {func(f *Firing) { f.Conditions.Ground.Cover = "green grass" }, stove.Warning, "smoulders"},
		"layer":               {func(f *Firing) { f.Conditions.Ground.Depth = -1 }, stove.Error, "not a thickness"},
		"wooden plate":        {func(f *Firing) { f.Design.Plate = &stove.Plate{Material: "wood deck", Thickness: 0.02, Diameter: 0.3} }, stove.Error, "the plate itself burns"},
		"unknown plate":       {func(f *Firing) { f.Design.Plate = &stove.Plate{Material: "x", Thickness: 0.02, Diameter: 0.3} }, stove.Error, "catalogue of covers"},
		"poured":              {func(f *Firing) { f.act("pour alcohol", 60, JetsLit) }, stove.Error, "nothing is poured"},
		"unknown act":         {func(f *Firing) { f.act("sing", 60, "") }, stove.Error, "not an act"},
		"no riser":            {func(f *Firing) { f.act(RiserOn, 60, "") }, stove.Error, "no riser in this design"},
		"before lighting":     {func(f *Firing) { f.act(RingOn, -60, "") }, stove.Error, "out of range"},
		"twice":               {func(f *Firing) { f.act(PotOn, 600, JetsLit) }, stove.Error, "twice in a row"},
		"off before on":       {func(f *Firing) { f.Conditions.Schedule = []Action{{PotOff, 60, JetsLit}, {PotOn, 90, JetsLit}} }, stove.Error, "comes off before"},
		"pot never on":        {func(f *Firing) { f.Conditions.Schedule = nil }, stove.Warning, "never goes on"},
		"warm enough already": {func(f *Firing) { f.Conditions.Water.Target = f.Conditions.Water.Temperature }, stove.Error, "that warm at lighting"},
	} {
		t.Run(name, func(t *testing.T) {
			f := nested(t)
			c.change(f)
			var all []string
			for _, x := range Check(*f) {
				if x.Severity == c.severity && strings.Contains(x.String(), c.want) {
					return
				}
				all = append(all, string(x.Severity)+": "+x.String())
			}
			t.Errorf("no %s with %q among:\n%s", c.severity, c.want, strings.Join(all, "\n"))
		})
	}
}

func (f *Firing) act(do Act, at float64, after Moment) {
	f.Conditions.Schedule = append(f.Conditions.Schedule, Action{do, at, after})
}

func windows(f *Firing) {
	f.Design.Stand.Wall = 0.2e-3
	f.Design.Rows = append(f.Design.Rows, stove.Row{On: stove.StandWall, Count: 8, Hole: stove.Hole{Shape: stove.Round, Width: 0.015}, Height: 0.02})
}

func TestDifferenceConditions(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Firing)
		want   string
		count  int
	}{
		"design":    {func(f *Firing) { f.Design.Rows[1].Count = 24 }, "secondary row: 16 → 24 holes", 1},
		"fuel":      {func(f *Firing) { f.Conditions.Fuel.Species = "twigs" }, "fuel: softwood pellets → twigs", 1},
		"moisture":  {func(f *Firing) { f.Conditions.Fuel.Moisture = 0.1 }, "fuel moisture: 8.00 % → 10.0 %", 1},
		"charge":    {func(f *Firing) { f.Conditions.Charge.Mass = 0.301 }, "charge: 300.00 g → 301.00 g", 1},
		"by volume": {func(f *Firing) { f.Conditions.Charge = Charge{Volume: 0.5e-3} }, "charge: 300.00 g → 500.00 mL", 1},
		"by depth":  {func(f *Firing) { f.Conditions.Charge = Charge{Depth: 0.09} }, "charge: 300.00 g → 90.000 mm deep", 1},
		"starter":   {func(f *Firing) { f.Conditions.Starter = Starter{"wax", 0.008} }, "starter: alcohol → wax\nstarter: 10.0 g → 8.00 g", 2},
		"weather":   {func(f *Firing) { f.Conditions.Air.Wind = 2; f.Conditions.Air.Temperature += 3 }, "air temperature: 12.0 °C → 15.0 °C\nwind: 1.00 m/s → 2.00 m/s", 0},
		"shelter":   {func(f *Firing) { f.Conditions.Air.Shelter = Shroud }, "shelter: open → shroud", 1},
		"lid":       {func(f *Firing) { f.Conditions.Pot.Lid = false }, "lid: yes → no", 1},
		"no pot":    {func(f *Firing) { f.Conditions.Pot = nil }, "pot taken away", 1},
		"water":     {func(f *Firing) { f.Conditions.Water.Mass = 0.7; f.Conditions.Water.Target = 366.15 }, "water: 500 g → 700 g\nwater target: boil → 93.0 °C", 2},
		"ground":    {func(f *Firing) { f.Conditions.Ground.Cover = "rock" }, "ground: mineral soil → rock", 1},
		"schedule":  {func(f *Firing) { f.Conditions.Schedule = []Action{{PotOn, 300, ""}} }, "pot on: jets lit + 1:00 → 5:00", 1},
		"snuffed":   {func(f *Firing) { f.act(Snuff, 0, FlameOut) }, "snuff: none → flame-out", 1},
		"warm":      {func(f *Firing) { f.Conditions.Warm = 330 }, "stove at lighting: as the air → 56.9 °C", 0},
		"fine":      {func(f *Firing) { f.Conditions.Fuel.Size = 6.001e-3 }, "piece size: 6 mm → 6.001 mm", 1},
		"analysed":  {func(f *Firing) { f.Conditions.Fuel.Ash = 0.01 }, "ash in the dry fuel: 0 % → 1.00 %", 1},
	} {
		t.Run(name, func(t *testing.T) {
			a, b := nested(t), nested(t)
			c.change(b)
			changes := Difference(*a, *b)
			var lines []string
			for _, x := range changes {
				lines = append(lines, x.Text)
			}
			if got := strings.Join(lines, "\n"); got != c.want {
				t.Errorf("got:\n%s\nwant:\n%s", got, c.want)
			}
			if n := stove.Changed(changes); n != c.count {
				t.Errorf("%d changes, want %d", n, c.count)
			}
		})
	}
}

func TestLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := nested(&testing.T{})
		depth := rapid.Float64Range(0.01, 0.11).Draw(t, "depth")
		f.Conditions.Fuel.BulkDensity = rapid.Float64Range(50, 900).Draw(t, "bulk")
		f.Conditions.Charge = Charge{Depth: depth}
		l := f.Load()
		for _, c := range []Charge{{Mass: l.Mass}, {Volume: l.Volume}, {Depth: l.Depth}} {
			f.Conditions.Charge = c
			m := f.Load()
			if math.Abs(m.Mass-l.Mass) > 1e-12 || math.Abs(m.Depth-depth) > 1e-12 || math.Abs(m.Volume-l.Volume) > 1e-15 {
				t.Fatalf("%+v by %+v, want %+v", m, c, l)
			}
		}
	})
}

func TestEvents(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range Events() {
		if seen[e.Code] || seen[e.Name] || e.Tap == "" || strings.ToLower(e.Code) != e.Code || strings.ContainsAny(e.Code, " ,;") {
			t.Errorf("event %+v", e)
		}
		seen[e.Code], seen[e.Name] = true, true
		if got, ok := EventByCode(e.Code); !ok || got.Name != e.Name {
			t.Errorf("%s not found by its code", e.Code)
		}
	}
	if _, ok := EventByCode("boiled over"); ok {
		t.Error("an event nobody has")
	}
	moments := map[Moment]bool{}
	for _, m := range Moments() {
		moments[m.Moment] = true
	}
	for _, e := range Events() {
		if e.Moment != "" && !moments[e.Moment] {
			t.Errorf("%s: no moment %q", e.Code, e.Moment)
		}
	}
	for _, p := range Phases() {
		if len(p.From) == 0 || p.What == "" {
			t.Errorf("phase %+v", p)
		}
	}
	// every event and phase name stands on the page of words, where there is one
	if text, err := os.ReadFile("../docs/words.md"); err == nil {
		for _, e := range Events() {
			if !bytes.Contains(text, []byte(e.Name)) {
				t.Logf("docs/words.md does not have %q", e.Name)
			}
		}
	}
}

func TestWhen(t *testing.T) {
	for text, want := range map[string]Action{
		"5:00": {At: 300}, "1:04:35": {At: 3875}, "5 min": {At: 300}, "90 s": {At: 90}, "0:00": {},
		"jets lit": {After: JetsLit}, "Jets Lit + 1:00": {At: 60, After: JetsLit}, "flame-out+30 s": {At: 30, After: FlameOut},
		"flame out": {After: FlameOut}, "front at grate + 0:30": {At: 30, After: FrontBottom}, "lit + 2:00": {At: 120},
	} {
		at, after, err := ParseWhen(text)
		if err != nil || at != want.At || after != want.After {
			t.Errorf("%q: %v %v %v", text, at, after, err)
		}
	}
	for _, text := range []string{"", "5", "-1:00", "25:00:00", "jets", "jets lit - 1:00", "jets lit + ", "jets lit + 1:00 + 1:00", "+ 1:00"} {
		if at, after, err := ParseWhen(text); err == nil {
			t.Errorf("%q read as %v %v", text, at, after)
		}
	}
}

func TestHoleText(t *testing.T) {
	for text, want := range map[string]string{
		"4.5 mm": "4.5 mm", "ø 4.5 mm": "4.5 mm", "3/16 in": "4.7625 mm", "3/16\"": "4.7625 mm", "#7": "5.1054 mm", "F": "6.5278 mm", "no. 7": "5.1054 mm", "6mm round": "6 mm",
		"12 x 3 mm slot": "12 mm x 3 mm slot", "12×3 mm slot": "12 mm x 3 mm slot", "1/2 in x 1/8 in Slot": "12.7 mm x 3.175 mm slot", "12 mm * 0.3 cm rectangle": "12 mm x 3 mm rectangle", "1/2 x 1/8 in slot": "12.7 mm x 3.175 mm slot", "15 x 10 mm triangle": "15 mm x 10 mm triangle",
	} {
		h, err := ParseHole(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got := FormatHole(h, quantity.Metric); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	for _, text := range []string{"", "5", "xx", "5 mm x", "5 x 5", "5 mm x 3 mm x 2 mm slot", "slot", "#200", "0 mm", "200 mm", "5 g", "-5 mm", "5 x mm slot"} {
		if h, err := ParseHole(text); err == nil {
			t.Errorf("%q read as %+v", text, h)
		}
	}
}

// stove keeps its own table of densities because rooms of one floor do not
// use each other; the two must not drift apart.
func TestDensitiesAgree(t *testing.T) {
	for _, m := range metals() {
		row, err := catalogue.MetalNamed(string(m))
		if err != nil || row.Density != m.Density() {
			t.Errorf("%s: %g in the catalogue, %g in stove, %v", m, row.Density, m.Density(), err)
		}
	}
}

func ExampleDifference() {
	a, _ := ReadFile("testdata/golden/nested.toml")
	b, _ := ReadFile("testdata/golden/nested.toml")
	_ = Set(b, "row[2].count", "24")
	_ = Set(b, "charge.mass", "0.6 lb")
	changes := Difference(*a, *b)
	for _, c := range changes {
		fmt.Println(c.Text)
	}
	fmt.Println(stove.Changed(changes), "changes")
	// Output:
	// secondary row: 16 → 24 holes
	// charge: 300.00 g → 272.16 g
	// 2 changes
}

func ExampleExamine() {
	file := "format = 1\n[fuel_can]\ncan = \"404x700\"\nmetal = \"galvanised\"\n[fan]\nprimary = \"12 L/min\"\n"
	_, problems := Examine(strings.NewReader(file), "stove.toml")
	for _, p := range problems {
		fmt.Println(p.Severity, p.Error())
	}
	// Output:
	// error stove.toml:4: fuel_can.metal = galvanised: heated zinc gives off zinc oxide fume, which brings metal fume fever hours later; accepted: tinplate, steel or stainless
}
