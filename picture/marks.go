package picture

import (
	"fmt"
	"math"
	"sort"

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
	broken   bool    // its dimension line rests on an assumed value
	column   int     // of its dimension line, counted from the stove
}

func (m *mark) measures() bool { return m.to > m.from }

// saying puts a label's value together from pieces, each with the keys of the
// design file it shows, so that exactly what was assumed is marked as such.
type saying struct {
	s       *scene
	pieces  []string // with the words that lead on from the piece before
	assumed []bool
}

func (s *scene) say(text string, keys ...string) *saying {
	return (&saying{s: s}).and("", text, keys...)
}

// and adds a piece; joint is what stands between it and the one before.
func (w *saying) and(joint, text string, keys ...string) *saying {
	w.pieces = append(w.pieces, joint+text)
	w.assumed = append(w.assumed, w.s.assumed.any(keys...))
	return w
}

// text is the value in words, and whether any of it was assumed. Pieces that
// follow each other share one remark.
func (w *saying) text() (string, bool) {
	out, any := "", false
	for i, p := range w.pieces {
		out += p
		any = any || w.assumed[i]
		if w.assumed[i] && (i == len(w.pieces)-1 || !w.assumed[i+1]) {
			out += " (assumed)"
		}
	}
	return out, any
}

// adder adds a label; part are the keys whose change makes it a changed one,
// reach the keys the length of its dimension line rests on.
type adder func(right bool, m mark, name string, w *saying, part []string, reach ...string)

const left, right = false, true

// marks are the labels of everything drawn, in a fixed order.
func (s *scene) marks(o *Options) []*mark {
	var out []*mark
	add := func(right bool, m mark, name string, w *saying, part []string, reach ...string) {
		m.right, m.name = right, name
		m.value, m.assumed = w.text()
		m.mirrored = !right && !m.measures() && m.r != 0
		m.changed = s.changed.any(part...)
		m.broken = s.assumed.any(reach...)
		if m.measures() {
			m.h = (m.from + m.to) / 2
		}
		out = append(out, &m)
	}
	s.potMarks(o, add)
	s.topMarks(o, add)
	for i := range s.d.Rows {
		s.rowMark(o, i, add)
	}
	s.canMarks(o, add)
	s.fuelMark(o, add)
	s.groundMarks(o, add)
	columns(out, left)
	columns(out, right)
	return out
}

// keysOf are properties of a part of the design file.
func keysOf(part string, names ...string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = part + "." + n
	}
	return out
}

func (s *scene) potMarks(o *Options, add adder) {
	p, l := s.c.Pot, o.Length
	if p == nil || p.Diameter == 0 || p.Height == 0 {
		return
	}
	kind := "pot"
	if p.Metal != "" {
		kind = string(p.Metal) + " pot"
	}
	size := s.say("Ø "+l(p.Diameter), "pot.diameter").and(" × ", l(p.Height)+" high", "pot.height")
	if p.Lid {
		size.and(", ", "lid on", "pot.lid")
	}
	add(right, mark{from: s.potBase, to: s.potTop, edge: p.Diameter / 2}, kind, size, []string{"pot"}, "pot.height")
	if s.water > 0 && !s.waterInside(o) {
		water := s.say(o.Mass(s.c.Water.Mass), "water.mass")
		if s.overfull {
			water.and(", ", "more than the pot holds")
		} else {
			water.and(", ", l(s.water)+" deep", "water.mass", "pot.diameter")
		}
		add(left, mark{r: -0.4 * p.Diameter, h: s.potBase + potSheet + 0.6*s.water}, "water", water, []string{"water"})
	}
	if k := s.d.Skirt; k != nil && k.Height > 0 {
		add(left, mark{r: -p.Diameter/2 - k.Gap, h: s.potBase + 0.5*k.Height}, "skirt",
			s.say(l(k.Gap)+" off the pot", "skirt.gap").and(" × ", l(k.Height)+" high", "skirt.height"), []string{"skirt"})
	}
}

func (s *scene) topMarks(o *Options, add adder) {
	d, l := s.d, o.Length
	if st := d.Stand; st != nil {
		if st.Gap > 0 && s.c.Pot != nil {
			add(right, mark{from: s.standTop, to: s.potBase, edge: st.Diameter / 2}, "gap under pot", s.say(l(st.Gap), "stand.gap"), []string{"stand.gap"}, "stand.gap")
		}
		kind := "open stand"
		if st.Closed {
			kind = "closed stand"
		}
		if st.Height > 0 {
			add(right, mark{from: s.riserTop, to: s.standTop, edge: st.Diameter / 2}, kind,
				s.say("Ø "+l(st.Diameter), "stand.diameter").and(" × ", l(st.Height)+" high", "stand.height"),
				keysOf("stand", "height", "diameter", "closed", "wall", "metal"), "stand.height")
		}
	}
	if r := d.Riser; r != nil && r.Height > 0 {
		add(right, mark{from: s.onRing, to: s.riserTop, edge: r.Bore/2 + r.Wall}, "riser",
			s.say("bore Ø "+l(r.Bore), "riser.bore").and(" × ", l(r.Height)+" high", "riser.height"), []string{"riser"}, "riser.height")
	}
	if r := d.Ring; r != nil {
		w := s.say("bore Ø "+l(r.Bore), "ring.bore")
		if r.Height > 0 {
			w.and(", ", l(r.Height)+" above the rim", "ring.height")
		}
		if r.Slits > 0 {
			w.and(", ", fmt.Sprintf("%d slits", r.Slits), "ring.slits").and(" of ", l(r.Slit), "ring.slit")
			if math.Abs(r.Twist) > 0.01 {
				w.and(" twisted ", decimal(math.Abs(r.Twist)*180/math.Pi, 0)+"°", "ring.twist")
			}
		}
		add(left, mark{r: -math.Min(r.Bore/2+2e-3, s.ringEdge()), h: s.ring + r.Wall/2}, "ring", w, []string{"ring"})
	}
}

func (s *scene) canMarks(o *Options, add adder) {
	d, l := s.d, o.Length
	size := func(key string, c stove.Can) *saying {
		w := s.say("Ø "+l(c.Diameter), key+".diameter").and(" × ", l(c.Height)+" high", key+".height")
		if c.Mouth > 0 && c.Mouth < c.Bore() {
			w.and(", ", "mouth Ø "+l(c.Mouth), key+".mouth")
		}
		if c.OpenBase {
			w.and(", ", "base cut out", key+".open_base")
		}
		return w
	}
	if d.FuelCan.Height > 0 {
		add(left, mark{from: s.fuelBase, to: s.fuelRim, edge: d.FuelCan.Diameter / 2}, "fuel can", size("fuel_can", d.FuelCan), []string{"fuel_can"}, "fuel_can.height")
	}
	if c := d.OuterCan; c != nil && c.Height > 0 {
		add(right, mark{from: s.outerBase, to: s.outerRim, edge: c.Diameter / 2}, "outer can", size("outer_can", *c), []string{"outer_can"}, "outer_can.height")
		if w := math.Min(d.Annulus, s.annulus()); w > 0 {
			add(left, mark{r: -d.FuelCan.Diameter/2 - w/2, h: math.Min(s.fuelRim, s.outerRim)}, "open slot", s.say(l(d.Annulus)+" wide round the rim", "annulus"), []string{"annulus"})
		}
	}
	if d.Standoff > 0 {
		add(left, mark{from: s.fuelBase - d.Standoff, to: s.fuelBase, edge: d.FuelCan.Diameter / 2}, "gap under fuel can", s.say(l(d.Standoff), "standoff"), []string{"standoff"}, "standoff")
	}
	for i, sh := range d.Shields {
		key := fmt.Sprintf("shield[%d]", i+1)
		foot, top := s.shieldSpan()
		if !sh.Under && top > foot {
			add(right, mark{r: s.shields[i], h: foot + (top-foot)*math.Min(0.3+0.1*float64(i), 0.9)}, "shield", s.say(l(sh.Gap)+" off the body", key+".gap"), []string{key})
		} else if h, r, ok := s.underShield(sh); ok {
			add(right, mark{r: 0.8 * r, h: h}, "shield", s.say(l(sh.Gap)+" under the base", key+".gap"), []string{key})
		}
	}
	if f := d.Fan; f.Primary > 0 || f.Secondary > 0 {
		w := s.say(decimal(f.Primary*1e3, 3)+" g/s primary", "fan.primary").and(", ", decimal(f.Secondary*1e3, 3)+" g/s secondary", "fan.secondary")
		add(right, mark{r: d.FuelCan.Diameter / 2, h: s.fuelBase + 0.1*d.FuelCan.Height}, "fan air", w, []string{"fan"})
	}
}

func (s *scene) fuelMark(o *Options, add adder) {
	c := s.c.Charge
	amount, density := "", ""
	switch {
	case length(c.Depth) > 0:
	case c.Mass > 0:
		amount, density = o.Mass(c.Mass), "fuel.bulk_density"
	case c.Volume > 0:
		amount = decimal(c.Volume*1e6, 0) + " ml"
	}
	what := s.c.Fuel.Species
	if what == "" {
		what = "fuel"
	}
	keys := []string{"charge"}
	if density != "" {
		keys = append(keys, density)
	}
	r := s.d.FuelCan.Bore() / 2
	switch {
	case s.level > 0:
		depth := o.Length(s.level) + " deep"
		if s.heaped {
			depth = "heaped over the rim"
		}
		w := s.say(depth, keys...)
		if amount != "" {
			w = s.say(amount, "charge").and(", ", depth, keys...)
		}
		add(left, mark{from: s.fuelFloor, to: s.fuelFloor + s.level, edge: r}, what, w, keys, keys...)
	case amount != "" && !s.levelKnown:
		add(left, mark{r: -0.6 * r, h: s.fuelFloor}, what, s.say(amount, "charge").and(", ", "depth not known"), keys)
	}
}

func (s *scene) groundMarks(o *Options, add adder) {
	d, l := s.d, o.Length
	if lift := d.Lift; lift > 0 {
		base, r := s.fuelBase-d.Standoff, d.FuelCan.Diameter/2
		if d.OuterCan != nil {
			base, r = s.outerBase, d.OuterCan.Diameter/2
		}
		add(right, mark{from: base - lift, to: base, edge: r}, "lift", s.say(l(lift), "lift"), []string{"lift"}, "lift")
	}
	if p := d.Plate; p != nil {
		name := p.Material
		if name == "" {
			name = "plate"
		}
		r := s.halfWide
		w := s.say(l(p.Thickness)+" thick", "plate.thickness")
		if p.Diameter > 0 {
			r = math.Min(r, p.Diameter/2)
			w = s.say("Ø "+l(p.Diameter), "plate.diameter").and(" × ", l(p.Thickness)+" thick", "plate.thickness")
		}
		add(right, mark{r: 0.93 * r, h: p.Thickness / 2}, name, w, keysOf("plate", "material", "thickness", "diameter"))
		if p.Gap > 0 {
			add(right, mark{from: s.plateTop, to: s.plateTop + p.Gap, edge: s.half}, "gap over plate", s.say(l(p.Gap), "plate.gap"), []string{"plate.gap"}, "plate.gap")
		}
	}
	if g := s.c.Ground; g.Cover != "" {
		w := s.say(g.Cover, "ground.cover")
		if depth := length(g.Depth); depth > 0 {
			w.and(", ", l(depth)+" deep", "ground.depth")
			if g.Below != "" {
				w.and(" over ", g.Below, "ground.below")
			}
		}
		add(left, mark{r: -s.halfWide, h: -1.5 / s.k}, "ground", w, []string{"ground"})
	}
}

func (s *scene) rowMark(o *Options, i int, add adder) {
	r, l := s.d.Rows[i], o.Length
	if r.Count <= 0 {
		return
	}
	key := fmt.Sprintf("row[%d]", i+1)
	size := "Ø " + l(r.Hole.Width)
	if r.Hole.Shape != stove.Round && r.Hole.Shape != "" {
		size = fmt.Sprintf("%s %s × %s", r.Hole.Shape, l(r.Hole.Width), l(r.Hole.Height))
	}
	name := r.Name
	if name == "" {
		name = plainName(r.On)
	}
	w := s.say(fmt.Sprint(r.Count), key+".count").and(" × ", size, key+".hole")
	wall := func(radius, foot, rim float64) {
		up, down := r.Height, rim-foot-r.Height
		place := l(up) + " up"
		switch {
		case down < 0:
			place += ", above its wall"
		case down < up && r.On != stove.StandWall && r.On != stove.RiserWall:
			place = l(down) + " below the rim"
		}
		w.and(", ", place, key+".height")
		add(left, mark{r: -radius, h: math.Min(foot+r.Height, rim)}, name, w, []string{key})
	}
	base := func(c stove.Can, h float64) {
		if r.Circle > 0 {
			w.and(" on a circle of ", "Ø "+l(r.Circle), key+".circle")
		}
		at := 0.0
		if cuts := rowCuts(r, c.Bore()); len(cuts) > 0 {
			last := cuts[len(cuts)-1]
			at = (last.lo + last.hi) / 2
		}
		add(right, mark{r: math.Min(at, c.Diameter/2), h: h}, name, w, []string{key})
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
		if m.broken {
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
