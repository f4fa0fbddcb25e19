package stove

import (
	"fmt"
	"math"
	"strings"
)

// Change is one difference between two versions.
type Change struct {
	Key      string // of the design file, as in the later version
	From, To string // as text; "" when the part was or is not there
	Text     string // in words: "secondary row: 16 → 24 holes"
	Use      bool   // comes with use (a surface ages), not a change the maker made
}

// Changed counts the changes the maker made. More than one at a time, and a
// better burn does not say which of them did it.
func Changed(changes []Change) int {
	n := 0
	for _, c := range changes {
		if !c.Use {
			n++
		}
	}
	return n
}

// Difference says in words what differs from version a to version b. Names
// are words only and do not count. A can swapped for another size is one
// change.
func Difference(a, b Design) []Change {
	var c Changes
	c.can("fuel_can", "fuel can", &a.FuelCan, &b.FuelCan)
	c.can("outer_can", "outer can", a.OuterCan, b.OuterCan)
	c.Length("standoff", "gap under the fuel can", a.Standoff, b.Standoff)
	c.Length("lift", "gap under the stove", a.Lift, b.Lift)
	c.Length("annulus", "open slot round the rim", a.Annulus, b.Annulus)
	c.rows(a, b)
	c.ring(a.Ring, b.Ring)
	c.riser(a.Riser, b.Riser)
	c.stand(a.Stand, b.Stand)
	c.skirt(a.Skirt, b.Skirt)
	c.shields(a.Shields, b.Shields)
	c.plate(a.Plate, b.Plate)
	c.Number("fan.primary", "primary air from the fan", a.Fan.Primary*1e3, b.Fan.Primary*1e3, "g/s")
	c.Number("fan.secondary", "secondary air from the fan", a.Fan.Secondary*1e3, b.Fan.Secondary*1e3, "g/s")
	return c
}

// Changes collects differences.
type Changes []Change

// Words notes that a text differs.
func (c *Changes) Words(key, what, a, b string) {
	if a != b {
		*c = append(*c, Change{Key: key, From: a, To: b, Text: fmt.Sprintf("%s: %s → %s", what, orNone(a), orNone(b))})
	}
}

// Yes notes that a property came or went.
func (c *Changes) Yes(key, what string, a, b bool) { c.Words(key, what, yes(a), yes(b)) }

// Length notes that a length differs [m].
func (c *Changes) Length(key, what string, a, b float64) {
	c.Number(key, what, a*1e3, b*1e3, "mm")
}

// Number notes that a number differs by more than rounding, with as many
// decimals as it takes to show it.
func (c *Changes) Number(key, what string, a, b float64, unit string) {
	if same(a, b) {
		return
	}
	from, to := apart(a, b)
	if unit != "" && unit != "°" {
		unit = " " + unit
	}
	c.Words(key, what, from+unit, to+unit)
}

// Part notes that a part was added or taken away; true when it was one of
// these, so that nothing else need be said.
func (c *Changes) Part(key, what string, before, after bool, detail string) bool {
	switch {
	case !before && !after:
		return true
	case before && !after:
		*c = append(*c, Change{Key: key, From: what, Text: what + " taken away"})
		return true
	case !before && after:
		text := what + " added"
		if detail != "" {
			text += ", " + detail
		}
		*c = append(*c, Change{Key: key, To: what, Text: text})
		return true
	}
	return false
}

func (c *Changes) can(key, what string, a, b *Can) {
	detail := ""
	if b != nil {
		detail = b.Size()
	}
	if c.Part(key, what, a != nil, b != nil, detail) {
		return
	}
	swapped := a.Code != b.Code && a.Code != "" && b.Code != "" ||
		!same(a.Diameter, b.Diameter) && !same(a.Height, b.Height)
	if swapped {
		from, to := a.Size(), b.Size()
		if from == to {
			from, to = a.Code, b.Code
		}
		c.Words(key, what, from, to)
	} else {
		c.Length(key+".diameter", what+" diameter", a.Diameter, b.Diameter)
		c.Length(key+".height", what+" height", a.Height, b.Height)
		c.Length(key+".wall", what+" sheet", a.Wall, b.Wall)
		c.Length(key+".mouth", what+" mouth", a.Mouth, b.Mouth)
	}
	c.Words(key+".metal", what+" metal", string(a.Metal), string(b.Metal))
	if a.Surface != b.Surface {
		c.Words(key+".surface", what+" surface", string(a.Surface), string(b.Surface))
		(*c)[len(*c)-1].Use = true
	}
	c.Yes(key+".open_base", what+" base cut out", a.OpenBase, b.OpenBase)
}

// Size is the can's code and size in words.
func (c Can) Size() string {
	size := fmt.Sprintf("%s × %s", strings.TrimSuffix(mm(c.Diameter), " mm"), mm(c.Height))
	if c.Code != "" {
		return fmt.Sprintf("%s (%s)", c.Code, size)
	}
	return size
}

// String is the hole's size in words: "4.5 mm", "12 x 3 mm slot".
func (h Hole) String() string {
	if h.Shape == Round || h.Shape == "" {
		return mm(h.Width)
	}
	return fmt.Sprintf("%s x %s %s", decimal(h.Width*1e3, 2), mm(h.Height), h.Shape)
}

// Label is what to call row i in a sentence.
func (d Design) Label(i int) string {
	if name := d.Rows[i].Name; name != "" {
		if strings.Contains(name, "row") {
			return name
		}
		return name + " row"
	}
	return fmt.Sprintf("row %d (%s)", i+1, d.Rows[i].On)
}

// pair matches the rows of two versions: by name within a sheet, then by the
// nearest place within a sheet. Unmatched rows are -1.
func pair(a, b Design) (ofA []int, ofB []int) {
	ofA, ofB = make([]int, len(a.Rows)), make([]int, len(b.Rows))
	for i := range ofA {
		ofA[i] = -1
	}
	for j := range ofB {
		ofB[j] = -1
	}
	match := func(i, j int) { ofA[i], ofB[j] = j, i }
	for i, r := range a.Rows {
		for j, s := range b.Rows {
			if ofB[j] < 0 && r.Name != "" && r.Name == s.Name && r.On == s.On {
				match(i, j)
				break
			}
		}
	}
	for {
		best, bi, bj := math.Inf(1), -1, -1
		for i, r := range a.Rows {
			for j, s := range b.Rows {
				if ofA[i] >= 0 || ofB[j] >= 0 || r.On != s.On {
					continue
				}
				far := math.Abs(r.Height-s.Height) + math.Abs(r.Circle-s.Circle)/2 + math.Abs(r.Hole.Width-s.Hole.Width)
				if far < best {
					best, bi, bj = far, i, j
				}
			}
		}
		if bi < 0 {
			return ofA, ofB
		}
		match(bi, bj)
	}
}

func (c *Changes) rows(a, b Design) {
	ofA, ofB := pair(a, b)
	for i, j := range ofA {
		if j < 0 {
			r := a.Rows[i]
			c.Part("row", a.Label(i), true, false, "")
			(*c)[len(*c)-1].From = fmt.Sprintf("%d × %s", r.Count, r.Hole)
		}
	}
	for j, i := range ofB {
		key, s := fmt.Sprintf("row[%d]", j+1), b.Rows[j]
		if i < 0 {
			c.Part(key, b.Label(j), false, true, fmt.Sprintf("%d holes of %s on the %s", s.Count, s.Hole, s.On))
			(*c)[len(*c)-1].To = fmt.Sprintf("%d × %s", s.Count, s.Hole)
			continue
		}
		r, what := a.Rows[i], b.Label(j)
		if r.Count != s.Count {
			*c = append(*c, Change{Key: key + ".count", From: fmt.Sprint(r.Count), To: fmt.Sprint(s.Count), Text: fmt.Sprintf("%s: %d → %d holes", what, r.Count, s.Count)})
		}
		if r.Hole.Shape != s.Hole.Shape || !same(r.Hole.Width, s.Hole.Width) || !same(r.Hole.Height, s.Hole.Height) {
			if from, to := r.Hole.String(), s.Hole.String(); from != to {
				c.Words(key+".hole", what+" hole", from, to)
			} else {
				c.Length(key+".hole", what+" hole", r.Hole.Width, s.Hole.Width)
				c.Length(key+".hole", what+" hole height", r.Hole.Height, s.Hole.Height)
			}
		}
		c.Length(key+".height", what+" height", r.Height, s.Height)
		c.Length(key+".circle", what+" circle", r.Circle, s.Circle)
		c.Words(key+".edge", what+" edge", string(r.Edge), string(s.Edge))
		c.Number(key+".slant", what+" slant", r.Slant*180/math.Pi, s.Slant*180/math.Pi, "°")
	}
}

func (c *Changes) ring(a, b *Ring) {
	detail := ""
	if b != nil {
		detail = "bore " + mm(b.Bore)
	}
	if c.Part("ring", "ring", a != nil, b != nil, detail) {
		return
	}
	c.Length("ring.bore", "ring bore", a.Bore, b.Bore)
	c.Length("ring.wall", "ring sheet", a.Wall, b.Wall)
	c.Words("ring.metal", "ring metal", string(a.Metal), string(b.Metal))
	c.Length("ring.height", "ring height above the rim", a.Height, b.Height)
	c.Number("ring.slits", "slits in the ring", float64(a.Slits), float64(b.Slits), "")
	c.Length("ring.slit", "length of the ring's slits", a.Slit, b.Slit)
	c.Number("ring.twist", "twist of the ring's tongues", a.Twist*180/math.Pi, b.Twist*180/math.Pi, "°")
}

func (c *Changes) riser(a, b *Riser) {
	detail := ""
	if b != nil {
		detail = fmt.Sprintf("%s high", mm(b.Height))
	}
	if c.Part("riser", "riser", a != nil, b != nil, detail) {
		return
	}
	c.Length("riser.bore", "riser bore", a.Bore, b.Bore)
	c.Length("riser.height", "riser height", a.Height, b.Height)
	c.Length("riser.wall", "riser sheet", a.Wall, b.Wall)
	c.Words("riser.metal", "riser metal", string(a.Metal), string(b.Metal))
}

func (c *Changes) stand(a, b *Stand) {
	detail := ""
	if b != nil {
		detail = mm(b.Height) + " high"
	}
	if c.Part("stand", "pot stand", a != nil, b != nil, detail) {
		return
	}
	c.Length("stand.height", "pot stand height", a.Height, b.Height)
	c.Length("stand.diameter", "pot stand diameter", a.Diameter, b.Diameter)
	c.Yes("stand.closed", "pot stand with a closed wall", a.Closed, b.Closed)
	c.Length("stand.gap", "gap under the pot", a.Gap, b.Gap)
	c.Length("stand.wall", "pot stand sheet", a.Wall, b.Wall)
	c.Words("stand.metal", "pot stand metal", string(a.Metal), string(b.Metal))
}

func (c *Changes) skirt(a, b *Skirt) {
	detail := ""
	if b != nil {
		detail = "gap " + mm(b.Gap)
	}
	if c.Part("skirt", "skirt round the pot", a != nil, b != nil, detail) {
		return
	}
	c.Length("skirt.gap", "skirt gap", a.Gap, b.Gap)
	c.Length("skirt.height", "skirt height", a.Height, b.Height)
}

func (c *Changes) shields(a, b []Shield) {
	for i := 0; i < len(a) || i < len(b); i++ {
		key := fmt.Sprintf("shield[%d]", i+1)
		if c.Part(key, "shield", i < len(a), i < len(b), "") {
			continue
		}
		c.Yes(key+".under", "shield under the base", a[i].Under, b[i].Under)
		c.Length(key+".gap", "shield gap", a[i].Gap, b[i].Gap)
	}
}

func (c *Changes) plate(a, b *Plate) {
	detail := ""
	if b != nil {
		detail = b.Material
	}
	if c.Part("plate", "plate under the stove", a != nil, b != nil, detail) {
		return
	}
	c.Words("plate.material", "plate", a.Material, b.Material)
	c.Length("plate.thickness", "plate thickness", a.Thickness, b.Thickness)
	c.Length("plate.gap", "gap above the plate", a.Gap, b.Gap)
	c.Length("plate.diameter", "plate diameter", a.Diameter, b.Diameter)
}

// same: equal but for rounding in reading a unit.
func same(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b))
}

// apart writes two different numbers with enough decimals to tell them apart.
func apart(a, b float64) (string, string) {
	for places := 2; places < 15; places++ {
		if x, y := decimal(a, places), decimal(b, places); x != y {
			return x, y
		}
	}
	return fmt.Sprint(a), fmt.Sprint(b)
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}
