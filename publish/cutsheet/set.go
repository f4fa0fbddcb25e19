package cutsheet

import (
	"fmt"

	"toplit/stove"
)

// Set is the cut sheets of one design.
type Set struct {
	Title  string
	Design stove.Design // as it will be cut, with the drills on hand
	Wanted stove.Design // as designed
	Parts  []Part       // what is printed, in the order it is worked on
	Rows   []Row        // what is drilled, one for every row of the design
	Loose  []Piece      // every part of the stove, for the list of parts
	Done   []string     // parts on which nothing is left to do
	Notes  []string     // what to heed when marking out, in sentences

	options Options
}

// Kind is what a part is printed as.
type Kind string

// The kinds of parts.
const (
	Wrap  Kind = "strip"          // goes round a wall
	Disc  Kind = "disc"           // lies on an end
	Round Kind = "round"          // is cut out round: ring, plate, shield
	Blank Kind = "blank"          // is cut out and rolled: skirt, shield
	Legs  Kind = "circle of legs" // places the legs of an open stand
	Gauge Kind = "gauge"          // reads drilled holes back
)

// Part is one thing to print. Lengths are millimetres.
type Part struct {
	Letter string // "A"
	Name   string // "fuel can body"
	Kind   Kind
	Place  stove.Place // of a strip or disc
	Across float64     // diameter: outside of a wall, inside of an end, of a round part
	Tall   float64     // height of a wall or blank
	Around float64     // of a strip from seam to seam along the paper's middle; of a blank without its overlap
	From   float64     // lower edge of the strip above the part's base
	To     float64     // its upper edge
	Tabs   int         // to cut at the foot of a stand or riser and bend out
	Edge   float64     // metal kept free at rims, bases and the edges of ends
	Holes  []Hole
	Ring   *Opening // of a ring

	code    string    // trade code the diameter is taken from, "" when it was measured
	lying   bool      // printed on pages that lie
	inside  bool      // the words that say how a strip is laid stand on it
	fromRim bool      // a strip that is laid by its upper edge
	joints  []float64 // where a long strip goes on on the next page [mm]
}

// Opening is the middle of a ring [mm].
type Opening struct {
	Bore   float64
	Slits  int
	Slit   float64 // length outward from the bore
	Twist  float64 // of the tongues between the slits [rad]
	Was    float64 // bore as it is now, when it is made wider; else 0
	Height float64 // above the rim
}

// Piece is one line of the list of parts.
type Piece struct {
	Name, Size, Note string
}

// count counts the holes in a state.
func (p Part) count(s State) int {
	n := 0
	for _, h := range p.Holes {
		if h.State == s {
			n++
		}
	}
	return n
}

// wasAll is how wide the holes of a row are now, when all of its work is to
// make them wider [mm].
func (p Part) wasAll(row int) (was float64, all bool) {
	for _, h := range p.Holes {
		if h.Row != row || h.State == There {
			continue
		}
		if h.State == New || !h.round() {
			return 0, false
		}
		was, all = h.Was.Width, true
	}
	return was, all
}

// work says whether anything is left to do on the part.
func (p Part) work() bool { return len(p.Holes) == 0 || p.count(There) < len(p.Holes) }

// letter names the parts A to Z, then AA and on.
func letter(i int) string {
	if i >= 26 {
		return letter(i/26-1) + letter(i%26)
	}
	return string(rune('A' + i))
}

// Plan lays a design out. The error is a *Refused when the design cannot be
// cut as drawn; it names the nearest design that can be.
func Plan(d stove.Design, o Options) (*Set, error) {
	o, err := o.filled()
	if err != nil {
		return nil, err
	}
	if bad := unmeasured(d); len(bad) > 0 {
		return nil, &Refused{Findings: bad}
	}
	if o.Parent != nil {
		if bad := unmeasured(*o.Parent); len(bad) > 0 {
			return nil, &Refused{Findings: bad, parent: true}
		}
	}
	l := lay(d, o)
	if bad := l.refused(); len(bad) > 0 {
		return nil, refuse(l, bad)
	}
	s := &Set{Title: d.Name, Design: l.d, Wanted: d.Clone(), Rows: l.rows, options: o}
	if s.Title == "" {
		s.Title = "stove without a name"
	}
	for _, p := range l.parts {
		if !p.work() {
			s.Done = append(s.Done, p.Name)
			continue
		}
		if o.Parent != nil && l.same(p) {
			s.Done = append(s.Done, p.Name)
			continue
		}
		s.Parts = append(s.Parts, p)
	}
	if g, ok := gauge(s); ok {
		s.Parts = append(s.Parts, g)
	}
	var printed []Part
	for _, p := range s.Parts {
		printed = append(printed, p.bands()...)
	}
	s.Parts = printed
	for i := range s.Parts {
		p := &s.Parts[i]
		p.Letter = letter(i)
		if p.Kind == Wrap || p.Kind == Blank {
			s.split(p)
		}
	}
	for _, p := range s.Parts {
		for i := range s.Rows {
			if was, all := p.wasAll(i); all {
				s.Rows[i].from(was, o)
			}
		}
	}
	s.Loose = pieces(l.d, o)
	s.Notes = l.notes
	return s, nil
}

// unmeasured finds sizes that are no sizes, which nothing can be laid out with.
func unmeasured(d stove.Design) []stove.Finding {
	var bad []stove.Finding
	say := func(ok bool, key, value, text, accept string) {
		if !ok {
			bad = append(bad, stove.Finding{Severity: stove.Error, Key: key, Value: value, Text: text, Accept: accept})
		}
	}
	size := func(key string, v float64) {
		say(v > 0 && v < 100, key, length(v*1e3, 0), "not a length", "more than 0 mm")
	}
	none := func(key string, v float64) {
		say(v >= 0 && v < 100, key, length(v*1e3, 0), "not a length", "0 mm or more")
	}
	can := func(key string, c stove.Can) {
		size(key+".diameter", c.Diameter)
		size(key+".height", c.Height)
		size(key+".wall", c.Wall)
		say(c.Bore() > 0, key+".wall", length(c.Wall*1e3, 0), "leaves no bore", "0.1 mm to 2 mm")
	}
	can("fuel_can", d.FuelCan)
	if d.OuterCan != nil {
		can("outer_can", *d.OuterCan)
	}
	if r := d.Ring; r != nil {
		size("ring.bore", r.Bore)
		size("ring.wall", r.Wall)
		none("ring.slit", r.Slit)
		say(r.Slits >= 0 && r.Slits <= 1000, "ring.slits", fmt.Sprint(r.Slits), "not a number of slits", "0 to 64")
	}
	if r := d.Riser; r != nil {
		size("riser.bore", r.Bore)
		size("riser.height", r.Height)
		size("riser.wall", r.Wall)
	}
	if s := d.Stand; s != nil {
		size("stand.diameter", s.Diameter)
		size("stand.height", s.Height)
		none("stand.wall", s.Wall)
	}
	if s := d.Skirt; s != nil {
		none("skirt.gap", s.Gap)
		size("skirt.height", s.Height)
	}
	for i, s := range d.Shields {
		none(fmt.Sprintf("shield[%d].gap", i+1), s.Gap)
	}
	if p := d.Plate; p != nil {
		size("plate.diameter", p.Diameter)
	}
	for i, r := range d.Rows {
		key := fmt.Sprintf("row[%d]", i+1)
		say(r.Count >= 1 && r.Count <= 10000, key+".count", fmt.Sprint(r.Count), "not a number of holes", "1 to 1000")
		size(key+".hole", r.Hole.Width)
		if !outline(r.Hole).round() {
			size(key+".hole", r.Hole.Height)
		}
		if r.OnBase() {
			none(key+".circle", r.Circle)
		} else {
			size(key+".height", r.Height)
		}
	}
	return bad
}
