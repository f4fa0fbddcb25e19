package size

import (
	"fmt"
	"math"
	"slices"

	"toplit/firing"
	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Spacing as package stove asks for it; its Check has the last word.
const (
	ligamentLeast = 3e-3 // metal between two holes, or half the hole if that is more [m]
	marginLeast   = 5e-3 // from a hole to a rim, seam or base [m]
)

// niceCounts are numbers of holes that a folded strip or a compass divides a
// circle into.
var niceCounts = [...]int{4, 6, 8, 12, 16, 18, 24, 32, 36, 48}

// choice is one design: an index into each grid of the space.
type choice struct {
	pd, pc int // primary: drill, count
	jd, jc int // jets: drill, count
	ring   int
	top    int // height of stand or riser
	gap    int // pot gap
	charge int
}

// space is every design that can be built for a wish: grids of round sizes.
type space struct {
	words
	aim   aim
	wish  Wish
	start *paper
	base  *firing.Firing // the wish with defaults, before anything is sized
	fuel  fuel.Fuel

	double, pot   bool
	chosenOuter   bool
	primaryDrills []catalogue.Drill
	jetDrills     []catalogue.Drill
	inletDrills   []catalogue.Drill
	counts        []int
	rings         []float64
	heights       []float64
	gaps          []float64
	charges       []float64 // that fit the can [kg]
	given         bool      // the maker gave the charge
	standoff      float64   // [m]
	proud         float64   // fuel can's rim above the outer can's [m]
	riserBore     float64
	dose          float64 // of the starter [kg], 0 when given
	notes         []string
}

// newSpace reads a wish and lays out the grids.
func newSpace(w Wish, units quantity.System) (*space, error) {
	s := &space{words: words{units}, wish: w, aim: aim{w.BoilIn, w.FlameFor}, start: w.start(), counts: niceCounts[:]}
	var err error
	if s.base, err = s.start.read(); err != nil {
		return nil, err
	}
	if w.AnyOuter && !w.Outer.given() {
		if err := s.findOuter(); err != nil {
			return nil, err
		}
	}
	f := s.base
	c := f.Conditions
	s.pot, s.double = c.Pot != nil, f.Design.OuterCan != nil
	if w.BoilIn > 0 && !s.pot {
		return nil, fmt.Errorf("water is to be boiled but there is no pot to hold it")
	}
	if s.fuel, err = fuel.ByName(c.Fuel.Species); err != nil {
		return nil, err
	}
	s.fuel.Moisture, s.fuel.Bulk, s.fuel.Size = c.Fuel.Moisture, c.Fuel.BulkDensity, c.Fuel.Size
	if b := f.Design.FuelCan.Bore(); b < 0.04 || b > 0.35 {
		return nil, fmt.Errorf("fuel can bore %.0f mm is outside what is sized here: 40 to 350 mm", b*1e3)
	}
	if err := s.walls(); err != nil {
		return nil, err
	}
	if err := s.tools(); err != nil {
		return nil, err
	}
	s.tops()
	s.given = w.Charge != (firing.Charge{})
	if err := s.loads(); err != nil {
		return nil, err
	}
	if w.Starter.Mass == 0 {
		k, err := bed.StarterByName(c.Starter.Kind)
		if err != nil {
			return nil, err
		}
		s.dose = math.Ceil(k.Dose(f.Design.FuelCan.Area())*2e3-1e-9) / 2e3
	}
	return s, nil
}

// findOuter takes the outer can of the catalogue that suits best, or goes on
// without one: annulus and height by the shop rules, and a stove that does not
// tip.
func (s *space) findOuter() error {
	best := math.Inf(1)
	var found string
	for i, o := range fits(s.base) {
		if i == 8 {
			break
		}
		w := s.wish
		w.Outer, w.AnyOuter = Can{Name: o.Name}, false
		t, err := newSpace(w, s.units)
		if err != nil {
			continue
		}
		c := t.first()
		if !t.valid(c) {
			continue
		}
		f, err := t.sized(c).read()
		if err != nil {
			continue
		}
		worse := rule(ruleAnnulus).Off(f.Design.AnnulusGap()) + t.standoff/f.Design.FuelCan.Height +
			math.Max(0, stove.SteadyAngle-f.Stability().Angle)/(2*math.Pi/180)
		if worse < best-1e-9 {
			best, found = worse, o.Name
		}
	}
	if found == "" {
		s.notes = append(s.notes, "No can of the catalogue takes the fuel can with room for air round and under it: sized as a single wall.")
		return nil
	}
	s.chosenOuter = true
	s.start.word("outer_can", "can", found)
	var err error
	s.base, err = s.start.read()
	return err
}

// walls sets how the two cans stand.
func (s *space) walls() error {
	d := s.base.Design
	if !s.double {
		s.standoff = 0.015
		if s.units == quantity.US {
			s.standoff = inch * 5 / 8
		}
		return nil
	}
	if gap := d.AnnulusGap(); gap < ligamentLeast {
		if gap <= 0 {
			return fmt.Errorf("the fuel can of %.0f mm does not go into the outer can of %.0f mm: an outer can at least 10 mm wider is needed", d.FuelCan.Diameter*1e3, d.OuterCan.Diameter*1e3)
		}
		return fmt.Errorf("the outer can of %.0f mm leaves %.1f mm round the fuel can of %.0f mm: at least 3 mm is needed, 5 to 13 mm is common practice", d.OuterCan.Diameter*1e3, gap*1e3, d.FuelCan.Diameter*1e3)
	}
	s.standoff, s.proud = under(s.base)
	if s.proud > d.FuelCan.Height/4 {
		return fmt.Errorf("the outer can is %.0f mm tall, the fuel can %.0f mm: no air would be led to holes near its rim; an outer can of at least %.0f mm is needed", d.OuterCan.Height*1e3, d.FuelCan.Height*1e3, math.Ceil((d.FuelCan.Height*0.75+0.01)*1e3))
	}
	if s.proud > 0 {
		s.notes = append(s.notes, fmt.Sprintf("The fuel can stands %s out of the outer can: close the space between them at the outer can's rim with a plate.", s.length(s.proud)))
	}
	return nil
}

// tools sorts the drills on hand by what they may be used for.
func (s *space) tools() error {
	list := slices.Clone(s.wish.Drills)
	if len(list) == 0 {
		var err error
		if list, err = s.usual(); err != nil {
			return err
		}
	}
	slices.SortStableFunc(list, func(a, b catalogue.Drill) int {
		switch {
		case a.Diameter < b.Diameter:
			return -1
		case a.Diameter > b.Diameter:
			return 1
		}
		return 0
	})
	list = thin(list)
	size := math.Min(s.fuel.Size, 0.012)
	s.primaryDrills = within(list, 2.8e-3, size*(1+1e-9))
	s.jetDrills = within(list, 2.8e-3, 0.0105)
	s.inletDrills = within(list, 5e-3, 0.017)
	if len(s.primaryDrills) == 0 { // nothing on hand is narrower than the fuel, or all is hair-fine
		near, _ := catalogue.Nearest(math.Max(size, 2.8e-3), list)
		s.primaryDrills = []catalogue.Drill{near}
	}
	if len(s.jetDrills) == 0 {
		near, _ := catalogue.Nearest(6e-3, list)
		s.jetDrills = []catalogue.Drill{near}
	}
	if len(s.inletDrills) == 0 {
		s.inletDrills = list[len(list)-1:]
	}
	return nil
}

// usual are the drills a shop has: half millimetres, or thirty-seconds of an
// inch; common practice, no source.
func (s *space) usual() ([]catalogue.Drill, error) {
	if s.units != quantity.US {
		s.notes = append(s.notes, "No drills were named: half millimetres from 1 to 13 mm are taken to be on hand.")
		return catalogue.Drills("metric half")
	}
	all, err := catalogue.Drills("fractional")
	var list []catalogue.Drill
	for i, d := range all { // by 64ths
		if (i+1)%2 == 0 && d.Diameter < 12.8e-3 {
			list = append(list, d)
		}
	}
	s.notes = append(s.notes, "No drills were named: thirty-seconds of an inch up to 1/2 in are taken to be on hand.")
	return list, err
}

// thin leaves out drills so near to a neighbour that the choice is idle: of
// each half millimetre the one nearest to its mark.
func thin(list []catalogue.Drill) []catalogue.Drill {
	const grid = 0.5e-3
	var out []catalogue.Drill
	mark := math.Inf(-1)
	for _, d := range list {
		m := math.Round(d.Diameter / grid)
		if n := len(out); n > 0 && m == mark {
			if math.Abs(d.Diameter-m*grid) < math.Abs(out[n-1].Diameter-m*grid) {
				out[n-1] = d
			}
			continue
		}
		mark = m
		out = append(out, d)
	}
	return out
}

func within(list []catalogue.Drill, least, most float64) []catalogue.Drill {
	var out []catalogue.Drill
	for _, d := range list {
		if d.Diameter >= least && d.Diameter <= most {
			out = append(out, d)
		}
	}
	return out
}

// inch is the grid of a maker who measures in inches.
const inch = 0.0254 // [m]

// tops lays out ring, stand or riser, and gap, in round sizes of the maker's
// units.
func (s *space) tops() {
	d := s.base.Design
	bore := d.FuelCan.Bore()
	us := s.units == quantity.US
	grid := func(from, to, step, unit float64) []float64 {
		var list []float64
		for k := math.Ceil(from/step/unit - 1e-9); k*step*unit < to-1e-9; k++ {
			list = append(list, math.Round(k*step*unit*1e7)/1e7)
		}
		return list
	}
	step, unit := 2.0, 1e-3
	switch {
	case us && bore > 0.09:
		step, unit = 0.25, inch
	case us:
		step, unit = 0.125, inch
	case bore > 0.09:
		step = 5
	}
	r := rule(ruleRing)
	s.rings = grid(0.5*bore, math.Min(0.9*bore, d.FuelCan.Opening()-2e-3), step, unit)
	if len(s.rings) == 0 {
		s.rings = []float64{math.Round(r.Mid()*bore*1e3) / 1e3}
	}
	if s.pot {
		s.heights = grid(0.020, 0.155, 10, 1e-3)
		s.gaps = []float64{0.006, 0.008, 0.010, 0.012, 0.015, 0.020, 0.025, 0.030}
		if us {
			s.heights = grid(0.75*inch, 6.1*inch, 0.5, inch)
			s.gaps = []float64{inch / 4, inch * 5 / 16, inch * 3 / 8, inch / 2, inch * 5 / 8, inch * 3 / 4, inch, inch * 1.25}
		}
		return
	}
	s.heights = grid(0.060, 0.250, 20, 1e-3)
	if us {
		s.heights = grid(2.5*inch, 10*inch, 0.75, inch)
	}
	s.gaps = []float64{0}
	s.riserBore = math.Floor(bore*1e3) / 1e3
}

// loads lays out the charges, rounded as a kitchen scale and a maker would.
func (s *space) loads() error {
	d := s.base.Design
	narrow, wide := s.jetDrills[0].Diameter/2, s.jetDrills[len(s.jetDrills)-1].Diameter/2
	most := s.room(s.jetMost() - narrow)
	least := math.Max(0.03, 3*s.fuel.Size) * d.FuelCan.Area() * s.fuel.Bulk
	unit := 1e-3
	if s.units == quantity.US {
		unit = 0.45359237 / 16 / 20 // a twentieth of an ounce, so that 5 of them are a quarter
	}
	steps := 0
	for {
		m := math.Round(float64(steps)*unit*1e7) / 1e7
		if m > most+1e-9 {
			break
		}
		if m >= least-1e-9 {
			s.charges = append(s.charges, m)
		}
		switch {
		case steps < 200:
			steps += 5
		case steps < 500:
			steps += 10
		case steps < 1000:
			steps += 20
		default:
			steps += 50
		}
	}
	if s.given {
		return s.capped(most, s.room(s.jetMost()-wide))
	}
	if len(s.charges) == 0 {
		return fmt.Errorf("the fuel can holds %s below the jets, less than a bed of 30 mm or three pieces (%s): a larger can or finer fuel is needed", s.mass(math.Max(most, 0)), s.mass(least))
	}
	return nil
}

// capped reduces a given charge to what fits below the jets: to what leaves room
// for wide ones when it is more than fits below the narrowest.
func (s *space) capped(most, roomy float64) error {
	load := s.base.Load().Mass
	if load <= most {
		return nil
	}
	cap := math.Floor(roomy*1e3) / 1e3
	if !(cap > 0) {
		return fmt.Errorf("the fuel can is too low: nothing fits below the jets")
	}
	s.notes = append(s.notes, fmt.Sprintf("The charge of %s does not fit: %s is the most that stays below the jets, and is taken.", s.mass(load), s.mass(cap)))
	s.start.tables["charge"] = map[string]string{"mass": text(quantity.Mass, cap)}
	var err error
	s.base, err = s.start.read()
	return err
}

// room is the charge that fits below jets whose lower edge is at a height [kg].
func (s *space) room(level float64) float64 {
	return s.base.Design.VolumeTo(level-rule(ruleFuel).Low) * s.fuel.Bulk
}

// jetMost is the height no jet's centre lies above: near the fuel can's rim and
// clear below the outer can's [m].
func (s *space) jetMost() float64 {
	below := 0.012
	if s.units == quantity.US {
		below = inch / 2
	}
	return s.base.Design.FuelCan.Height - s.proud - below
}

// jetHeight is the height of the jets' centre above the fuel can's base [m].
func (s *space) jetHeight(c choice) float64 {
	low := s.base.Design.FuelCan.Height - marginLeast - s.jetDrills[c.jd].Diameter/2 - 1e-5
	return math.Floor(math.Min(s.jetMost(), low-s.proud)*1e5+1e-3) / 1e5
}

// standoffOf is the gap under the fuel can [m]: as the two cans stand, or on
// legs, twice as open as the holes above it.
func (s *space) standoffOf(c choice) float64 {
	if s.double {
		return s.standoff
	}
	need := 2 * s.primaryArea(c) / (math.Pi * s.base.Design.FuelCan.Diameter)
	return math.Max(s.standoff, math.Ceil(need*1e3)/1e3)
}

func holes(d catalogue.Drill, n int) float64 {
	return float64(n) * math.Pi / 4 * d.Diameter * d.Diameter
}

func (s *space) primaryArea(c choice) float64 { return holes(s.primaryDrills[c.pd], s.counts[c.pc]) }
func (s *space) jetArea(c choice) float64     { return holes(s.jetDrills[c.jd], s.counts[c.jc]) }

// between is the metal left between holes on a circle, less what has to stay;
// negative when they stand too close.
func between(chord, hole float64) float64 { return chord - hole - math.Max(hole/2, ligamentLeast) }

// circle is one circle of primary holes.
type circle struct {
	name   string
	count  int
	circle float64 // [m]
}

// circles places the primary holes: up to twelve on one circle, more on two,
// so that each hole serves about the same area of the bed.
func (s *space) circles(c choice) []circle {
	n, bore := s.counts[c.pc], s.base.Design.FuelCan.Bore()
	round := func(v float64) float64 { return math.Round(v*1e3) / 1e3 }
	edge := math.Floor((bore-2*marginLeast-s.primaryDrills[c.pd].Diameter)*1e3) / 1e3
	if n <= 12 {
		return []circle{{"primary", n, math.Min(round(0.65*bore), edge)}}
	}
	inner := n / 3
	switch n {
	case 16:
		inner = 4
	case 32:
		inner = 8
	}
	return []circle{{"primary, inner", inner, round(0.38 * bore)}, {"primary, outer", n - inner, math.Min(round(0.76*bore), edge)}}
}

// inlet is the row of the outer can: of the patterns that open at least twice
// the holes inside, the one with the fewest holes; else the widest there is.
type inletRow struct {
	drill catalogue.Drill
	count int
}

func (s *space) inlet(c choice) inletRow {
	want := rule(ruleInlet).Low * (s.primaryArea(c) + s.jetArea(c))
	round := math.Pi * s.base.Design.OuterCan.Diameter
	var best inletRow
	area := 0.0
	for i := len(s.inletDrills) - 1; i >= 0; i-- {
		d := s.inletDrills[i]
		for _, n := range s.counts {
			if between(round/float64(n), d.Diameter) < 0 {
				break
			}
			a := holes(d, n)
			switch {
			case area < want && a > area, // nothing wide enough yet
				a >= want && n < best.count,
				a >= want && n == best.count && a < area:
				best, area = inletRow{d, n}, a
			}
		}
	}
	return best
}

// valid says whether a choice lies in the grids and its holes leave enough
// metal.
func (s *space) valid(c choice) bool {
	in := func(i, n int) bool { return i >= 0 && i < n }
	if !in(c.pd, len(s.primaryDrills)) || !in(c.pc, len(s.counts)) || !in(c.jd, len(s.jetDrills)) || !in(c.jc, len(s.counts)) ||
		!in(c.ring, len(s.rings)) || !in(c.top, len(s.heights)) || !in(c.gap, len(s.gaps)) || !in(c.charge, max(1, len(s.charges))) {
		return false
	}
	d := s.base.Design
	hole := s.primaryDrills[c.pd].Diameter
	rows := s.circles(c)
	for _, r := range rows {
		if between(r.circle*math.Sin(math.Pi/float64(r.count)), hole) < 0 || r.circle <= hole {
			return false
		}
	}
	if len(rows) == 2 && between((rows[1].circle-rows[0].circle)/2, hole) < 0 {
		return false
	}
	jet := s.jetDrills[c.jd].Diameter
	if between(math.Pi*d.FuelCan.Diameter/float64(s.counts[c.jc]), jet) < 0 {
		return false
	}
	if s.double && s.inlet(c).count == 0 {
		return false
	}
	load := s.base.Load().Mass
	if !s.given {
		load = s.charges[c.charge]
	}
	if load > s.room(s.jetHeight(c)-jet/2)+1e-9 {
		return false
	}
	return true
}
