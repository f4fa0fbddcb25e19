package picture

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"toplit/drawing"
	"toplit/stove"
)

// mark is a label of a section before it is placed: where it points in the
// stove, and the height it measures when it carries a dimension line.
type mark struct {
	label
	r, h     float64 // what it points at [m]
	from, to float64 // the ends of its dimension; equal when it has none [m]
	edge     float64 // radius its extension lines begin at [m]
	column   int     // of its dimension line, counted from the stove
}

func (m *mark) measures() bool { return m.to > m.from }

// marks are the labels of everything drawn, in a fixed order.
func (s *scene) marks(o *Options) []*mark {
	var out []*mark
	add := func(right bool, m mark, name, value string, list ...string) {
		m.right, m.name, m.value = right, name, value
		m.mirrored = !right && !m.measures() && m.r != 0
		m.assumed = s.assumed.any(list...)
		m.changed = s.changed.any(list...)
		if m.measures() {
			m.h = (m.from + m.to) / 2
		}
		out = append(out, &m)
	}
	const left, right = false, true
	l := o.Length
	d := s.d

	if p := s.c.Pot; p != nil && p.Diameter > 0 && p.Height > 0 {
		kind := "pot"
		if p.Metal != "" {
			kind = string(p.Metal) + " pot"
		}
		lid := ""
		if p.Lid {
			lid = ", lid on"
		}
		add(right, mark{from: s.potBase, to: s.potTop, edge: p.Diameter / 2}, kind, fmt.Sprintf("Ø %s × %s high%s", l(p.Diameter), l(p.Height), lid), "pot.diameter", "pot.height", "pot.lid")
		if s.water > 0 && !s.waterInside(o) {
			value := fmt.Sprintf("%s, %s deep", o.Mass(s.c.Water.Mass), l(s.water))
			if s.overfull {
				value = o.Mass(s.c.Water.Mass) + ", more than the pot holds"
			}
			add(left, mark{r: -0.4 * p.Diameter, h: s.potBase + potSheet + 0.6*s.water}, "water", value, "water.mass")
		}
		if k := d.Skirt; k != nil && k.Height > 0 {
			add(left, mark{r: -p.Diameter/2 - k.Gap, h: s.potBase + 0.5*k.Height}, "skirt", fmt.Sprintf("%s off the pot × %s high", l(k.Gap), l(k.Height)), "skirt")
		}
	}
	if st := d.Stand; st != nil {
		if st.Gap > 0 && s.c.Pot != nil {
			add(right, mark{from: s.standTop, to: s.potBase, edge: st.Diameter / 2}, "gap under pot", l(st.Gap), "stand.gap")
		}
		kind := "open stand"
		if st.Closed {
			kind = "closed stand"
		}
		if st.Height > 0 {
			add(right, mark{from: s.riserTop, to: s.standTop, edge: st.Diameter / 2}, kind, fmt.Sprintf("Ø %s × %s high", l(st.Diameter), l(st.Height)), "stand.height", "stand.diameter", "stand.closed")
		}
	}
	if r := d.Riser; r != nil && r.Height > 0 {
		add(right, mark{from: s.onRing, to: s.riserTop, edge: r.Bore/2 + r.Wall}, "riser", fmt.Sprintf("bore Ø %s × %s high", l(r.Bore), l(r.Height)), "riser.bore", "riser.height")
	}
	if r := d.Ring; r != nil {
		value := "bore Ø " + l(r.Bore)
		if r.Height > 0 {
			value += fmt.Sprintf(", %s above the rim", l(r.Height))
		}
		if r.Slits > 0 {
			value += fmt.Sprintf(", %d slits of %s", r.Slits, l(r.Slit))
			if r.Twist != 0 {
				value += fmt.Sprintf(" twisted %s°", decimal(math.Abs(r.Twist)*180/math.Pi, 0))
			}
		}
		add(left, mark{r: -math.Min(r.Bore/2+2e-3, s.ringEdge()), h: s.ring + r.Wall/2}, "ring", value, "ring.bore", "ring.height", "ring.slits", "ring.slit", "ring.twist")
	}
	for i := range d.Rows {
		s.rowMark(o, i, add)
	}
	s.canMarks(o, add)
	s.fuelMark(o, add)
	s.groundMarks(o, add)
	for side := range 2 {
		columns(out, side == 1)
	}
	return out
}

type adder func(right bool, m mark, name, value string, keys ...string)

func (s *scene) canMarks(o *Options, add adder) {
	d, l := s.d, o.Length
	size := func(c stove.Can) string {
		v := fmt.Sprintf("Ø %s × %s high", l(c.Diameter), l(c.Height))
		if c.Mouth > 0 && c.Mouth < c.Bore() {
			v += ", mouth Ø " + l(c.Mouth)
		}
		if c.OpenBase {
			v += ", base cut out"
		}
		return v
	}
	of := func(key string) []string {
		return []string{key + ".diameter", key + ".height", key + ".mouth", key + ".open_base"}
	}
	if d.FuelCan.Height > 0 {
		add(false, mark{from: s.fuelBase, to: s.fuelRim, edge: d.FuelCan.Diameter / 2}, "fuel can", size(d.FuelCan), of("fuel_can")...)
	}
	if c := d.OuterCan; c != nil && c.Height > 0 {
		add(true, mark{from: s.outerBase, to: s.outerRim, edge: c.Diameter / 2}, "outer can", size(*c), of("outer_can")...)
		if w := math.Min(d.Annulus, s.annulus()); w > 0 {
			add(false, mark{r: -d.FuelCan.Diameter/2 - w/2, h: math.Min(s.fuelRim, s.outerRim)}, "open slot", l(d.Annulus)+" wide round the rim", "annulus")
		}
	}
	if d.Standoff > 0 {
		add(false, mark{from: s.fuelBase - d.Standoff, to: s.fuelBase, edge: d.FuelCan.Diameter / 2}, "gap under fuel can", l(d.Standoff), "standoff")
	}
	for i, sh := range d.Shields {
		key := fmt.Sprintf("shield[%d]", i+1)
		foot, top := s.shieldSpan()
		if !sh.Under && top > foot {
			add(true, mark{r: s.shields[i], h: foot + (top-foot)*(0.3+0.1*float64(i))}, "shield", l(sh.Gap)+" off the body", key)
		} else if h, r, ok := s.underShield(sh); ok {
			add(true, mark{r: 0.8 * r, h: h}, "shield", l(sh.Gap)+" under the base", key)
		}
	}
	if f := d.Fan; f.Primary > 0 || f.Secondary > 0 {
		var v []string
		if f.Primary > 0 {
			v = append(v, decimal(f.Primary*1e3, 3)+" g/s primary")
		}
		if f.Secondary > 0 {
			v = append(v, decimal(f.Secondary*1e3, 3)+" g/s secondary")
		}
		add(true, mark{r: d.FuelCan.Diameter / 2, h: s.fuelBase + 0.1*d.FuelCan.Height}, "fan air", strings.Join(v, ", "), "fan")
	}
}

func (s *scene) fuelMark(o *Options, add adder) {
	c := s.c.Charge
	amount := ""
	switch {
	case c.Mass > 0:
		amount = o.Mass(c.Mass)
	case c.Volume > 0:
		amount = decimal(c.Volume*1e6, 0) + " ml"
	}
	what := s.c.Fuel.Species
	if what == "" {
		what = "fuel"
	}
	list := []string{"charge", "fuel.bulk_density"}
	r := s.d.FuelCan.Bore() / 2
	switch {
	case s.level > 0:
		value := o.Length(s.level) + " deep"
		if s.heaped {
			value = "heaped over the rim"
		}
		if amount != "" {
			value = amount + ", " + value
		}
		add(false, mark{from: s.fuelFloor, to: s.fuelFloor + s.level, edge: r}, what, value, list...)
	case amount != "" && !s.levelKnown:
		add(false, mark{r: -0.6 * r, h: s.fuelFloor}, what, amount+", depth not known", list...)
	}
}

func (s *scene) groundMarks(o *Options, add adder) {
	l := o.Length
	d := s.d
	if lift := d.Lift; lift > 0 {
		base, r := s.fuelBase-d.Standoff, d.FuelCan.Diameter/2
		if d.OuterCan != nil {
			base, r = s.outerBase, d.OuterCan.Diameter/2
		}
		add(true, mark{from: base - lift, to: base, edge: r}, "lift", l(lift), "lift")
	}
	if p := d.Plate; p != nil {
		name := p.Material
		if name == "" {
			name = "plate"
		}
		value := l(p.Thickness) + " thick"
		r := s.halfWide
		if p.Diameter > 0 {
			value = fmt.Sprintf("Ø %s × %s thick", l(p.Diameter), l(p.Thickness))
			r = math.Min(r, p.Diameter/2)
		}
		add(true, mark{r: 0.93 * r, h: p.Thickness / 2}, name, value, "plate.material", "plate.thickness", "plate.diameter")
		if p.Gap > 0 {
			add(true, mark{from: s.plateTop, to: s.plateTop + p.Gap, edge: s.half}, "gap over plate", l(p.Gap), "plate.gap")
		}
	}
	if g := s.c.Ground; g.Cover != "" {
		value := g.Cover
		if depth := length(g.Depth); depth > 0 {
			value += fmt.Sprintf(", %s deep", l(depth))
			if g.Below != "" {
				value += " over " + g.Below
			}
		}
		add(false, mark{r: -s.halfWide, h: -1.5 / s.k}, "ground", value, "ground")
	}
}

func (s *scene) rowMark(o *Options, i int, add adder) {
	r, l := s.d.Rows[i], o.Length
	if r.Count <= 0 {
		return
	}
	size := "Ø " + l(r.Hole.Width)
	if r.Hole.Shape != stove.Round && r.Hole.Shape != "" {
		size = fmt.Sprintf("%s %s × %s", r.Hole.Shape, l(r.Hole.Width), l(r.Hole.Height))
	}
	value := fmt.Sprintf("%d × %s", r.Count, size)
	name := r.Name
	if name == "" {
		name = plainName(r.On)
	}
	key := fmt.Sprintf("row[%d]", i+1)
	list := []string{key + ".count", key + ".hole", key + ".height", key + ".circle"}
	wall := func(radius, foot, rim float64) {
		up, down := r.Height, rim-foot-r.Height
		switch {
		case down < 0:
			value += fmt.Sprintf(", %s up, above its wall", l(up))
		case down < up && r.On != stove.StandWall && r.On != stove.RiserWall:
			value += fmt.Sprintf(", %s below the rim", l(down))
		default:
			value += fmt.Sprintf(", %s up", l(up))
		}
		add(false, mark{r: -radius, h: math.Min(foot+r.Height, rim)}, name, value, list...)
	}
	base := func(c stove.Can, h float64) {
		if r.Circle > 0 {
			value += " on a circle of Ø " + l(r.Circle)
		}
		at := 0.0
		if cuts := rowCuts(r, c.Bore()); len(cuts) > 0 {
			last := cuts[len(cuts)-1]
			at = (last.lo + last.hi) / 2
		}
		add(true, mark{r: math.Min(at, c.Diameter/2), h: h}, name, value, list...)
	}
	switch r.On {
	case stove.FuelBody:
		wall(s.d.FuelCan.Diameter/2, s.fuelBase, s.fuelRim)
	case stove.OuterBody:
		if s.d.OuterCan != nil {
			wall(s.d.OuterCan.Diameter/2, s.outerBase, s.outerRim)
		}
	case stove.RiserWall:
		if s.d.Riser != nil {
			wall(s.d.Riser.Bore/2+s.d.Riser.Wall, s.onRing, s.riserTop)
		}
	case stove.StandWall:
		if s.d.Stand != nil && s.d.Stand.Closed {
			wall(s.d.Stand.Diameter/2, s.riserTop, s.standTop)
		}
	case stove.FuelBase:
		if !s.d.FuelCan.OpenBase {
			base(s.d.FuelCan, s.fuelBase+s.d.FuelCan.Wall/2)
		}
	case stove.OuterBase:
		if s.d.OuterCan != nil && !s.d.OuterCan.OpenBase {
			base(*s.d.OuterCan, s.outerBase+s.d.OuterCan.Wall/2)
		}
	}
}

// plainName is what a row without a name is called.
func plainName(on stove.Place) string {
	switch on {
	case stove.FuelBody:
		return "fuel can holes"
	case stove.FuelBase:
		return "base holes"
	case stove.OuterBody:
		return "outer can holes"
	case stove.OuterBase:
		return "outer base holes"
	case stove.RiserWall:
		return "riser holes"
	case stove.StandWall:
		return "stand holes"
	}
	return "holes"
}

// waterText is the label inside the pot.
func (s *scene) waterText(o *Options) string { return o.Mass(s.c.Water.Mass) + " water" }

// waterInside reports whether the water's label fits in the water.
func (s *scene) waterInside(o *Options) bool {
	w := (s.c.Pot.Diameter - 2*potSheet) * s.k
	return !s.aside && !s.overfull && !s.assumed.has("water.mass") && !s.changed.has("water.mass") &&
		s.water*s.k > 1.7*o.TextSize && drawing.TextWidth(s.waterText(o), o.TextSize, false)+4 < w
}

// columns gives the dimension lines of one side columns so that none overlaps
// another in its column, the short ones next to the stove. Lines that only
// touch make a chain.
func columns(marks []*mark, right bool) {
	var list []*mark
	for _, m := range marks {
		if m.right == right && m.measures() {
			list = append(list, m)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].to-list[i].from < list[j].to-list[j].from })
	for i, m := range list {
		for taken := true; taken; {
			taken = false
			for _, o := range list[:i] {
				if o.column == m.column && m.from < o.to-1e-6 && o.from < m.to-1e-6 {
					m.column++
					taken = true
					break
				}
			}
		}
	}
}

// bars draws the dimension lines and points the labels at them. reach is
// where the first column may begin, from the axis [mm].
func (s *scene) bars(marks []*mark, reach float64) {
	for _, m := range marks {
		if !m.measures() {
			continue
		}
		dir := -1.0
		if m.right {
			dir = 1
		}
		x := s.cx + dir*(reach+barStart+barStep*float64(m.column))
		m.target.X = x
		layer := onDim
		if m.assumed {
			layer = onAssumed
		}
		if m.changed {
			layer = onEmber
		}
		s.line(layer, x, m.lo, x, m.hi)
		for _, y := range []float64{m.lo, m.hi} {
			s.line(onDim, x-0.9, y, x+0.9, y)
			from := s.cx + dir*(m.edge*s.k+0.8)
			s.line(onLeader, from, y, x-dir*0.9, y)
		}
	}
}

// Dimension lines: the first column's distance from the ground line's end and
// the step between columns [mm].
const (
	barStart = 1.5
	barStep  = 3.0
)
