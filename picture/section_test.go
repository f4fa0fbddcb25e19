package picture

import (
	"math"
	"sort"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/drawing"
	"toplit/firing"
	"toplit/stove"
)

// ruler measures a section with its own scale bar and from its own ground.
type ruler struct {
	mm     float64 // sheet per mm of stove
	ground float64
	axis   float64
}

func measureWith(t rapid.TB, s *drawing.Sheet, all []outline) ruler {
	t.Helper()
	long := 0.0
	for _, x := range texts(s) {
		if v, ok := strings.CutSuffix(x.Content, " mm of stove"); ok {
			long, _ = strconv.ParseFloat(v, 64)
		}
	}
	bar := around(pick(all, "scale bar", onThin))
	ground := around(pick(all, "ground", onWall))
	if long == 0 || ground.Empty() {
		t.Fatal("no scale bar or no ground")
	}
	return ruler{(bar.Max.X - bar.Min.X) / long, ground.Max.Y, (ground.Min.X + ground.Max.X) / 2}
}

// same compares a length on the sheet with one of the stove [mm, m].
func (r ruler) same(t rapid.TB, what string, sheet, metres float64) {
	t.Helper()
	if want := metres * 1e3 * r.mm; math.Abs(sheet-want) > 0.05 {
		t.Errorf("%s: %.3f mm on the sheet; want %.3f (%.1f mm of stove)", what, sheet, want, metres*1e3)
	}
}

// gaps are the stretches between upright outlines on one side of the axis.
func (r ruler) gaps(list []outline, right bool) (out []span) {
	var pieces []span
	for _, o := range list {
		b := o.box()
		if (b.Min.X > r.axis) == right && b.Max.X-b.Min.X < b.Max.Y-b.Min.Y {
			pieces = append(pieces, span{b.Min.Y, b.Max.Y})
		}
	}
	sort.Slice(pieces, func(i, j int) bool { return pieces[i].lo < pieces[j].lo })
	for i := 1; i < len(pieces); i++ {
		out = append(out, span{pieces[i-1].hi, pieces[i].lo})
	}
	return out
}

// The drawing says what the design says: every length, measured on the sheet
// with the drawing's own scale bar.
func TestSectionIsTrueToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c := twoCan()
		mm := func(name string, lo, hi float64) float64 {
			return math.Round(rapid.Float64Range(lo, hi).Draw(t, name)*10) / 1e4
		}
		d.FuelCan.Diameter, d.FuelCan.Height = mm("fuel can", 60, 120), mm("fuel can height", 90, 200)
		d.OuterCan.Diameter, d.OuterCan.Height = d.FuelCan.Diameter+mm("annulus", 20, 60), mm("outer can height", 120, 260)
		d.Standoff = mm("standoff", 10, 60)
		d.Rows[0].Hole.Width, d.Rows[0].Circle = mm("base hole", 3, 8), mm("circle", 20, 50)
		d.Rows[1].Hole.Width, d.Rows[1].Height = mm("hole", 4, 8), d.FuelCan.Height-mm("below rim", 8, 30)
		d.Ring.Bore = mm("ring", 20, 58)
		d.Stand.Diameter, d.Stand.Height, d.Stand.Gap = mm("stand", 60, 150), mm("stand height", 20, 120), mm("gap", 4, 30)
		d.Plate.Thickness, d.Plate.Gap = mm("plate", 1, 20), mm("plate gap", 0, 15)
		c.Pot.Diameter, c.Pot.Height = mm("pot", 80, 240), mm("pot height", 60, 160)
		c.Water.Mass = rapid.Float64Range(0.1, 0.25).Draw(t, "water")
		c.Charge.Mass = rapid.Float64Range(0.05, 0.12).Draw(t, "charge")

		sheet := Section(d, c, Options{})
		all := readSVG(t, sheet)
		r := measureWith(t, sheet, all)
		base := r.ground + (d.Plate.Thickness+d.Plate.Gap)*1e3*r.mm

		outer := around(pick(all, "outer_can", onWall))
		r.same(t, "outer can diameter", outer.Max.X-outer.Min.X, d.OuterCan.Diameter)
		r.same(t, "outer can height", outer.Max.Y-outer.Min.Y, d.OuterCan.Height)
		r.same(t, "outer can over plate", outer.Min.Y-base, 0)
		fuel := around(pick(all, "fuel_can", onWall))
		r.same(t, "fuel can diameter", fuel.Max.X-fuel.Min.X, d.FuelCan.Diameter)
		r.same(t, "fuel can height", fuel.Max.Y-fuel.Min.Y, d.FuelCan.Height)
		r.same(t, "standoff", fuel.Min.Y-outer.Min.Y, d.OuterCan.Wall+d.Standoff)
		r.same(t, "centred", fuel.Max.X-r.axis, d.FuelCan.Diameter/2)

		for _, right := range []bool{false, true} {
			gaps := r.gaps(pick(all, "fuel_can", onWall), right)
			if len(gaps) != 1 {
				t.Fatalf("%d gaps in the fuel can's wall; want the secondary row", len(gaps))
			}
			r.same(t, "secondary hole", gaps[0].hi-gaps[0].lo, d.Rows[1].Hole.Width)
			r.same(t, "secondary row", (gaps[0].hi+gaps[0].lo)/2-fuel.Min.Y, d.Rows[1].Height)
		}
		var floor []span
		for _, o := range pick(all, "fuel_can", onWall) {
			if b := o.box(); b.Max.Y-b.Min.Y < 0.5*(b.Max.X-b.Min.X) {
				floor = append(floor, span{b.Min.X, b.Max.X})
			}
		}
		sort.Slice(floor, func(i, j int) bool { return floor[i].lo < floor[j].lo })
		if len(floor) != 3 {
			t.Fatalf("%d pieces of base; want three round two holes", len(floor))
		}
		r.same(t, "base hole", floor[1].lo-floor[0].hi, d.Rows[0].Hole.Width)
		r.same(t, "base circle", (floor[2].lo+floor[1].hi)/2-(floor[1].lo+floor[0].hi)/2, d.Rows[0].Circle)

		ring := pick(all, "ring", onEmber)
		if len(ring) != 2 {
			t.Fatalf("%d pieces of ring; want two", len(ring))
		}
		a, b := ring[0].box(), ring[1].box()
		r.same(t, "ring bore", math.Max(a.Min.X, b.Min.X)-math.Min(a.Max.X, b.Max.X), d.Ring.Bore)
		stand := around(pick(all, "stand", onWall))
		r.same(t, "stand diameter", stand.Max.X-stand.Min.X, d.Stand.Diameter)
		r.same(t, "stand height", stand.Max.Y-fuel.Max.Y, d.Stand.Height)
		pot := drawing.NoBox()
		for _, o := range pick(all, "pot", onWall) {
			if o.box().Max.Y < stand.Max.Y+(d.Stand.Gap+c.Pot.Height)*1e3*r.mm+0.05 { // without the lid
				pot = pot.Union(o.box())
			}
		}
		r.same(t, "gap under the pot", pot.Min.Y-stand.Max.Y, d.Stand.Gap)
		r.same(t, "pot diameter", pot.Max.X-pot.Min.X, c.Pot.Diameter)
		r.same(t, "pot height", pot.Max.Y-pot.Min.Y, c.Pot.Height)
		water := around(pick(all, "water", onWash))
		inside := c.Pot.Diameter - 2*potSheet
		r.same(t, "water", water.Max.Y-water.Min.Y, c.Water.Mass/998.2/(math.Pi/4*inside*inside))
		charge := around(pick(all, "fuel", onWash))
		bore := d.FuelCan.Bore()
		r.same(t, "fuel depth", charge.Max.Y-charge.Min.Y, c.Charge.Mass/c.Fuel.BulkDensity/(math.Pi/4*bore*bore))
		r.same(t, "fuel width", charge.Max.X-charge.Min.X, bore)
	})
}

// A lifted single wall stands its lift above the ground, with its pot on the
// open stand.
func TestLiftedStove(t *testing.T) {
	d, c := drinksCan()
	s := Section(d, c, Options{})
	all := readSVG(t, s)
	r := measureWith(t, s, all)
	fuel := around(pick(all, "fuel_can", onWall))
	r.same(t, "lift", fuel.Min.Y-r.ground, d.Lift)
	r.same(t, "fuel can", fuel.Max.Y-fuel.Min.Y, d.FuelCan.Height)
	pot := around(pick(all, "pot", onWall))
	r.same(t, "pot", pot.Min.Y-fuel.Max.Y, d.Stand.Height)
	if gaps := r.gaps(pick(all, "fuel_can", onWall), true); len(gaps) != 1 {
		t.Errorf("%d gaps in the wall; want one row", len(gaps))
	}
}

// Dimension lines are as long as what they measure.
func TestDimensionLines(t *testing.T) {
	d, c := twoCan()
	s := Section(d, c, Options{})
	all := readSVG(t, s)
	r := measureWith(t, s, all)
	left := map[float64]bool{}
	for _, o := range pick(all, "dimensions", onDim) {
		if b := o.box(); b.Max.X == b.Min.X {
			left[math.Round((b.Max.Y-b.Min.Y)/r.mm*10)/10] = true
		}
	}
	for _, want := range []float64{178, 124, 53.8, 72, 12, 90, 28.7} {
		if !left[want] {
			t.Errorf("no dimension line of %g mm among %v", want, left)
		}
	}
}

func TestSectionSamplesAreTidy(t *testing.T) {
	for _, s := range samples() {
		t.Run(s.name, func(t *testing.T) { tidy(t, Section(s.design, s.conditions, s.options)) })
	}
}

func TestSectionNamesEverything(t *testing.T) {
	for name, words := range map[string][]string{
		"two-can": {"Tea stove", "scale 1 : 2.5", "Ø 157 × 178 high", "Ø 105 × 124 high", "24 × Ø 6,", "10 below the rim", "12 × Ø 4.5", "bore Ø 66",
			"Ø 118 × 72 high", "gap under pot 12", "158 g, 28.7 deep", "473 g water", "Ø 128 × 90 high", "100 mm of stove", "mineral soil", "open way for air"},
		"drinks-can": {"8 × Ø 5", "7 × Ø 4", "lift 15", "60 deep (assumed)", "Ø 60 (assumed) ×", "assumed, not given", "dry litter"},
		"paint-can":  {"bore Ø 99 × 250 high", "12 slits of 10 twisted 20°", "30 × triangle 10 × 9", "mouth Ø 150", "2400 ml", "40 × slot 12 × 3"},
		"open-stand": {"open stand", "skirt", "7 off the pot", "(changed)", "shield", "10 off the body", "8 under the base", "tile", "base cut out", "open slot"},
		"gallon":     {"1000 g", "depth not known", "48 × Ø 8"},
	} {
		for _, s := range samples() {
			if s.name != name {
				continue
			}
			sheet := Section(s.design, s.conditions, s.options)
			for _, w := range words {
				if !has(sheet, w) {
					t.Errorf("%s does not say %q", name, w)
				}
			}
		}
	}
}

// Nothing turns the caution off.
func TestOutdoorsOnly(t *testing.T) {
	for _, s := range samples() {
		for _, o := range []Options{s.options, {Width: 1, Height: 1, TextSize: 2}, {Width: 400, TextSize: 9, White: true}} {
			sheet := Section(s.design, s.conditions, o)
			if !has(sheet, "Outdoors only.") || !strings.Contains(sheet.Note, "Outdoors only.") {
				t.Errorf("%s: no caution", s.name)
			}
		}
	}
	if s := Section(stove.Design{}, firing.Conditions{}, Options{}); !has(s, "Outdoors only.") {
		t.Error("empty design: no caution")
	}
}

// An assumed value is hatched and says so; a given one is neither.
func TestAssumedIsMarked(t *testing.T) {
	d, c := twoCan()
	plain := Section(d, c, Options{})
	marked := Section(d, c, Options{Assumed: []string{"stand.height", "water.mass"}})
	if has(plain, "assumed") {
		t.Error("says assumed though everything is given")
	}
	if !has(marked, "72 high (assumed)") || has(marked, "Ø 118 (assumed)") || !has(marked, "assumed, not given") {
		t.Error("the stand's height is not said to be assumed")
	}
	count := func(s *drawing.Sheet, layer, part string) int { return len(pick(readSVG(t, s), part, layer)) }
	if a, b := count(plain, onHatch, "water"), count(marked, onHatch, "water"); a != 0 || b != 1 {
		t.Errorf("water hatched %d and %d times; want 0 given, 1 assumed", a, b)
	}
	if a, b := count(plain, onAssumed, "dimensions"), count(marked, onAssumed, "dimensions"); a != 0 || b != 1 {
		t.Errorf("broken dimension lines %d and %d; want 0 given, 1 assumed", a, b)
	}
	if a, b := count(plain, onHatch, "dimensions"), count(marked, onHatch, "dimensions"); a != 0 || b != 2 {
		t.Errorf("hatched squares %d and %d; want 0 given, 2 assumed", a, b)
	}
}

// The ring carries the accent; once something is marked as changed, only that
// does.
func TestEmberMarksTheRingOrTheChange(t *testing.T) {
	d, c := twoCan()
	for _, k := range []struct {
		changed []string
		want    map[string]bool
	}{
		{nil, map[string]bool{"ring": true}},
		{[]string{"stand.height"}, map[string]bool{"stand": true, "dimensions": true}},
		{[]string{"outer_can"}, map[string]bool{"outer_can": true, "dimensions": true}},
	} {
		got := map[string]bool{}
		for _, o := range readSVG(t, Section(d, c, Options{Changed: k.changed})) {
			if o.layer == onEmber {
				got[o.part] = true
			}
		}
		if len(got) != len(k.want) {
			t.Errorf("changed %v: ember on %v; want %v", k.changed, got, k.want)
		}
		for p := range k.want {
			if !got[p] {
				t.Errorf("changed %v: no ember on %s", k.changed, p)
			}
		}
	}
}

func TestLengthsInTheReadersUnit(t *testing.T) {
	d, c := twoCan()
	o := Options{
		Length: func(m float64) string { return decimal(m/0.0254, 2) + " in" }, Unit: "inches",
		Mass: func(kg float64) string { return decimal(kg/0.028349523125, 1) + " oz" },
	}
	s := Section(d, c, o)
	for _, w := range []string{"Lengths in inches", "Ø 6.18 in", "0.47 in", "16.7 oz water"} {
		if !has(s, w) {
			t.Errorf("does not say %q", w)
		}
	}
	tidy(t, s)
}

// drawDesign is any stove a design can say, sensible or not.
func drawDesign(t *rapid.T) (stove.Design, firing.Conditions, Options) {
	odd := rapid.IntRange(0, 9).Draw(t, "odd") == 0 // one in ten with wild numbers
	l := func(name string, lo, hi float64) float64 {
		if odd && rapid.IntRange(0, 4).Draw(t, name+" wild") == 0 {
			return rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e-9, 5, 1e12}).Draw(t, name)
		}
		return rapid.Float64Range(lo, hi).Draw(t, name) * 1e-3
	}
	maybe := func(name string) bool { return rapid.Bool().Draw(t, name) }
	can := func(name string, lo, hi float64) stove.Can {
		c := stove.Can{Diameter: l(name+" d", lo, hi), Height: l(name+" h", 40, 350), Wall: l(name+" wall", 0.1, 1), OpenBase: rapid.IntRange(0, 4).Draw(t, name+" open") == 0}
		if rapid.IntRange(0, 3).Draw(t, name+" lid") == 0 {
			c.Mouth = l(name+" mouth", 20, 150)
		}
		return c
	}
	d := stove.Design{
		Name:    rapid.SampledFrom([]string{"", "A", "Stove with a rather long name that goes on and on, version 12 <b> & more", strings.Repeat("W", 150)}).Draw(t, "name"),
		FuelCan: can("fuel can", 40, 170), Standoff: l("standoff", 0, 60),
	}
	if maybe("two walls") {
		o := can("outer can", 60, 300)
		d.OuterCan = &o
		d.Annulus = l("annulus", 0, 10)
	}
	if maybe("lift") {
		d.Lift = l("lift h", 1, 40)
	}
	for range rapid.IntRange(0, 9).Draw(t, "rows") {
		d.Rows = append(d.Rows, stove.Row{
			Name:  rapid.SampledFrom([]string{"", "secondary row", "a row with a long name of its own"}).Draw(t, "row name"),
			On:    rapid.SampledFrom([]stove.Place{stove.FuelBody, stove.FuelBase, stove.OuterBody, stove.OuterBase, stove.RiserWall, stove.StandWall}).Draw(t, "on"),
			Count: rapid.IntRange(0, 120).Draw(t, "count"), Height: l("row h", 0, 300), Circle: rapid.SampledFrom([]float64{0, 0.03, 0.09}).Draw(t, "circle"),
			Hole: stove.Hole{Shape: rapid.SampledFrom([]stove.Shape{stove.Round, stove.Slot, stove.Rectangle, stove.Triangle, ""}).Draw(t, "shape"), Width: l("hole w", 1, 30), Height: l("hole h", 1, 20)},
		})
	}
	if maybe("ring") {
		d.Ring = &stove.Ring{Bore: l("ring bore", 10, 150), Wall: l("ring wall", 0.2, 2), Height: l("ring h", 0, 30), Slits: rapid.IntRange(0, 20).Draw(t, "slits"), Slit: l("slit", 0, 20), Twist: rapid.Float64Range(-1, 1).Draw(t, "twist")}
	}
	if maybe("riser") {
		d.Riser = &stove.Riser{Bore: l("riser bore", 30, 150), Height: l("riser h", 20, 600), Wall: l("riser wall", 0.2, 1)}
	}
	if maybe("stand") {
		d.Stand = &stove.Stand{Diameter: l("stand d", 40, 260), Height: l("stand h", 5, 150), Closed: maybe("closed"), Wall: l("stand wall", 0.2, 3), Gap: l("stand gap", 0, 30)}
	}
	if maybe("skirt") {
		d.Skirt = &stove.Skirt{Gap: l("skirt gap", 1, 30), Height: l("skirt h", 10, 200)}
	}
	for range rapid.IntRange(0, 3).Draw(t, "shields") {
		d.Shields = append(d.Shields, stove.Shield{Under: maybe("under"), Gap: l("shield gap", 0, 40)})
	}
	if maybe("plate") {
		d.Plate = &stove.Plate{Material: "steel plate", Thickness: l("plate t", 0, 50), Gap: l("plate gap", 0, 60), Diameter: l("plate d", 0, 900)}
	}
	if maybe("fan") {
		d.Fan = stove.Fan{Primary: 2e-4, Secondary: 1e-3}
	}
	c := firing.Conditions{
		Fuel:   firing.Fuel{Species: rapid.SampledFrom([]string{"", "softwood pellets", "beech chips", "a fuel with quite a long name to it"}).Draw(t, "species"), BulkDensity: rapid.SampledFrom([]float64{0, 200, 650}).Draw(t, "bulk"), Size: l("size", 0, 30), Length: l("length", 0, 60)},
		Charge: rapid.SampledFrom([]firing.Charge{{}, {Mass: 0.158}, {Volume: 2.4e-4}, {Depth: 0.06}, {Mass: 5}}).Draw(t, "charge"),
		Ground: rapid.SampledFrom([]firing.Ground{{}, {Cover: "mineral soil"}, {Cover: "dry litter", Depth: 0.03, Below: "organic soil"}}).Draw(t, "ground"),
	}
	if maybe("pot") {
		c.Pot = &firing.Pot{Metal: rapid.SampledFrom([]stove.Metal{"", stove.MildSteel, stove.Titanium}).Draw(t, "pot metal"), Diameter: l("pot d", 60, 300), Height: l("pot h", 30, 250), Lid: maybe("lid")}
		c.Water.Mass = rapid.SampledFrom([]float64{0, 0.473, 3, 100, math.NaN()}).Draw(t, "water")
	}
	all := []string{"fuel_can.diameter", "outer_can", "standoff", "row[1].count", "row[2].hole", "ring.bore", "stand.height", "stand.gap", "skirt", "shield[1].gap", "plate.thickness", "charge.mass", "pot.diameter", "water.mass", "ground.cover", "riser.bore", "lift"}
	set := func(name string) []string {
		return rapid.SliceOfNDistinct(rapid.SampledFrom(all), 0, 8, rapid.ID[string]).Draw(t, name)
	}
	o := Options{Assumed: set("assumed"), White: maybe("white")}
	if maybe("versions") {
		o.Changed = set("changed")
	}
	if maybe("own size") {
		o.Width, o.Height, o.TextSize = rapid.Float64Range(1, 400).Draw(t, "w"), rapid.Float64Range(1, 600).Draw(t, "h"), rapid.Float64Range(1, 6).Draw(t, "ts")
	}
	return d, c, o
}

// Any design, sensible or not, gives a picture that can be printed and read.
func TestAnyDesignIsTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, c, o := drawDesign(t)
		s := Section(d, c, o)
		tidy(t, s)
		if !has(s, cautionLead) {
			t.Error("no caution")
		}
		small := Small(d, c, SmallOptions{Changed: o.Changed})
		tidy(t, small)
		if w, h := Extent(d, c); math.IsNaN(w+h) || w < 0 || h < 0 {
			t.Errorf("extent %g × %g", w, h)
		}
	})
}

func TestSmallKeepsAScale(t *testing.T) {
	d, c := twoCan()
	s := Small(d, c, SmallOptions{Width: 60, Height: 80, Scale: 0.2})
	b := around(pick(readSVG(t, s), "outer_can", onWall))
	if got := b.Max.X - b.Min.X; math.Abs(got-157*0.2) > 0.01 {
		t.Errorf("outer can %g mm wide at 1 : 5; want %g", got, 157*0.2)
	}
	if len(texts(s)) != 0 {
		t.Error("the small section has words")
	}
}

func BenchmarkSection(b *testing.B) {
	d, c := twoCan()
	for b.Loop() {
		Section(d, c, Options{})
	}
}
