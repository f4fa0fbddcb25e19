package stove

import (
	"fmt"
	"math"
)

// ligament is the least metal to leave beside a hole [m].
func ligament(h Hole) float64 { return math.Max(h.Narrow()/2, ligamentLeast) }

// Wall is the diameter and height of the sheet a wall row is cut in; false
// for a base or a part that is not there [m].
func (d Design) Wall(p Place) (diameter, height float64, ok bool) {
	switch {
	case p == FuelBody:
		return d.FuelCan.Diameter, d.FuelCan.Height, true
	case p == OuterBody && d.OuterCan != nil:
		return d.OuterCan.Diameter, d.OuterCan.Height, true
	case p == RiserWall && d.Riser != nil:
		return d.Riser.Bore + 2*d.Riser.Wall, d.Riser.Height, true
	case p == StandWall && d.Stand != nil && d.Stand.Closed:
		return d.Stand.Diameter, d.Stand.Height, true
	}
	return 0, 0, false
}

// Base is the can whose base a base row is cut in.
func (d Design) Base(p Place) (Can, bool) {
	switch {
	case p == FuelBase:
		return d.FuelCan, true
	case p == OuterBase && d.OuterCan != nil:
		return *d.OuterCan, true
	}
	return Can{}, false
}

// rows checks every row by itself and against the others in its sheet.
func (c *checker) rows() {
	for i, r := range c.d.Rows {
		if r.OnBase() {
			c.baseRow(i, r)
		} else {
			c.wallRow(i, r)
		}
	}
	for _, p := range Places() {
		rows := c.d.RowsOn(p)
		for a, i := range rows {
			for _, j := range rows[a+1:] {
				if c.d.Rows[i].OnBase() {
					c.basePair(i, j)
				} else {
					c.wallPair(i, j)
				}
			}
		}
	}
}

func (c *checker) wallRow(i int, r Row) {
	dia, tall, ok := c.d.Wall(r.On)
	if !ok {
		return // reported by top
	}
	key := fmt.Sprintf("row[%d]", i+1)
	round := math.Pi * dia
	least := ligament(r.Hole)
	most := int(round / (r.Hole.Width + least))
	between := round/float64(r.Count) - r.Hole.Width
	if r.Count == 1 {
		between = round - r.Hole.Width
	}
	switch {
	case r.Hole.Width > dia/2:
		c.add(Error, key+".hole", mm(r.Hole.Width), fmt.Sprintf("too wide to cut in a wall of %s diameter", mm(dia)), "up to "+mm(dia/2))
		return
	case between <= 0:
		c.add(Error, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("%d holes of %s do not fit round %s: they overlap", r.Count, mm(r.Hole.Width), mm(round)), fmt.Sprintf("up to %d", most))
	case between < least:
		c.add(Warning, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("only %s of metal is left between two holes", mm(between)), fmt.Sprintf("up to %d, which leaves %s", most, mm(least)))
	case between < 2*marginLeast && r.Count > 1:
		c.add(Note, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("set the side seam midway between two holes: that leaves it %s on either side", mm(between/2)), "")
	}
	switch {
	case r.Top() >= tall:
		c.add(Error, key+".height", mm(r.Height), fmt.Sprintf("the hole reaches %s, beyond the top of a wall of %s", mm(r.Top()), mm(tall)), "up to "+mm(tall-marginLeast-r.Hole.Tall()/2))
	case r.Bottom() <= 0:
		c.add(Error, key+".height", mm(r.Height), "the hole runs into the base", "at least "+mm(marginLeast+r.Hole.Tall()/2))
	case r.Top() > tall-marginLeast:
		c.add(Warning, key+".height", mm(r.Height), fmt.Sprintf("only %s from the rim", mm(tall-r.Top())), "up to "+mm(tall-marginLeast-r.Hole.Tall()/2))
	case r.Bottom() < marginLeast:
		c.add(Warning, key+".height", mm(r.Height), fmt.Sprintf("only %s from the base", mm(r.Bottom())), "at least "+mm(marginLeast+r.Hole.Tall()/2))
	}
}

// wallPair: two rows whose heights overlap have to share the circumference.
func (c *checker) wallPair(i, j int) {
	a, b := c.d.Rows[i], c.d.Rows[j]
	dia, _, ok := c.d.Wall(a.On)
	if !ok {
		return
	}
	key := fmt.Sprintf("row[%d].height", j+1)
	gap := math.Max(a.Bottom(), b.Bottom()) - math.Min(a.Top(), b.Top())
	least := math.Max(ligament(a.Hole), ligament(b.Hole))
	if gap >= least {
		return
	}
	need := float64(a.Count)*(a.Hole.Width+least) + float64(b.Count)*(b.Hole.Width+least)
	apart := (a.Hole.Tall()+b.Hole.Tall())/2 + least
	accept := fmt.Sprintf("%s or more from %s", mm(apart), mm(a.Height))
	switch {
	case need > math.Pi*dia && gap <= 0:
		c.add(Error, key, mm(b.Height), fmt.Sprintf("overlaps row %d: the holes of both do not fit side by side round the wall", i+1), accept)
	case need > math.Pi*dia:
		c.add(Warning, key, mm(b.Height), fmt.Sprintf("only %s above or below row %d, and there is no room to stagger the two", mm(gap), i+1), accept)
	default:
		c.add(Note, key, mm(b.Height), fmt.Sprintf("at nearly the height of row %d: set its holes between the other's", i+1), "")
	}
}

func (c *checker) baseRow(i int, r Row) {
	can, ok := c.d.Base(r.On)
	if !ok {
		return
	}
	key := fmt.Sprintf("row[%d]", i+1)
	least := ligament(r.Hole)
	reach := math.Max(r.Hole.Width, r.Hole.Tall()) / 2
	edge := can.Bore()/2 - marginLeast
	if r.Circle == 0 {
		if most := field(can.Bore()-2*marginLeast, 2*reach, least); r.Count > most {
			s, text := Warning, "leave less metal between them than a drilled base should keep"
			if r.Count > field(can.Bore(), 2*reach, 0) {
				s, text = Error, "do not fit in the base: they overlap"
			}
			c.add(s, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("%d holes of %s %s", r.Count, mm(r.Hole.Width), text), fmt.Sprintf("up to %d", most))
		}
		return
	}
	switch out := r.Circle/2 + reach; {
	case out >= can.Bore()/2:
		c.add(Error, key+".circle", mm(r.Circle), fmt.Sprintf("the holes run into the edge of a base of %s", mm(can.Bore())), "up to "+mm(2*(edge-reach)))
	case out > edge+1e-12:
		c.add(Warning, key+".circle", mm(r.Circle), fmt.Sprintf("only %s from the edge of the base", mm(can.Bore()/2-out)), "up to "+mm(2*(edge-reach)))
	}
	if r.Count < 2 {
		return
	}
	most := 1
	if chord := r.Hole.Width + least; chord < r.Circle {
		most = int(math.Pi / math.Asin(chord/r.Circle))
	}
	switch between := r.Circle*math.Sin(math.Pi/float64(r.Count)) - r.Hole.Width; {
	case between <= 0:
		c.add(Error, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("%d holes of %s do not fit on a circle of %s: they overlap", r.Count, mm(r.Hole.Width), mm(r.Circle)), fmt.Sprintf("up to %d", most))
	case between < least:
		c.add(Warning, key+".count", fmt.Sprint(r.Count), fmt.Sprintf("only %s of metal is left between two holes", mm(between)), fmt.Sprintf("up to %d, which leaves %s", most, mm(least)))
	}
}

// basePair: two circles of holes in one base need metal between them.
func (c *checker) basePair(i, j int) {
	a, b := c.d.Rows[i], c.d.Rows[j]
	if a.Circle == 0 || b.Circle == 0 {
		c.add(Note, fmt.Sprintf("row[%d].circle", j+1), mm(b.Circle), fmt.Sprintf("shares the base with row %d, one of them a filled field: keep the holes apart when marking out", i+1), "")
		return
	}
	gap := math.Abs(a.Circle-b.Circle)/2 - (a.Hole.Tall()+b.Hole.Tall())/2
	least := math.Max(ligament(a.Hole), ligament(b.Hole))
	if gap >= least {
		return
	}
	circle := math.Min(a.Circle, b.Circle)
	need := float64(a.Count)*(a.Hole.Width+least) + float64(b.Count)*(b.Hole.Width+least)
	key, apart := fmt.Sprintf("row[%d].circle", j+1), a.Hole.Tall()+b.Hole.Tall()+2*least
	accept := fmt.Sprintf("%s or more from %s", mm(apart), mm(a.Circle))
	switch {
	case need > math.Pi*circle && gap <= 0:
		c.add(Error, key, mm(b.Circle), fmt.Sprintf("overlaps row %d: the holes of both do not fit on one circle", i+1), accept)
	case need > math.Pi*circle:
		c.add(Warning, key, mm(b.Circle), fmt.Sprintf("only %s from row %d, and there is no room to stagger the two", mm(gap), i+1), accept)
	default:
		c.add(Note, key, mm(b.Circle), fmt.Sprintf("nearly on the circle of row %d: set its holes between the other's", i+1), "")
	}
}

// field is how many holes of a diameter go into a disc on a triangular
// lattice with metal of width least between them, the lattice centred on a
// hole or on the middle of three, whichever holds more. A cleverer pattern
// may place one or two more.
func field(disc, hole, least float64) int {
	pitch := hole + least
	room := (disc-hole)/2 + 1e-12
	if room < 0 || !(pitch > 0) {
		return 0
	}
	if room/pitch > 60 { // too many to count one by one: area over area of a lattice cell
		return int(2 * math.Pi / math.Sqrt(3) * (room / pitch) * (room / pitch))
	}
	n := int(room/pitch) + 2
	best := 1
	for _, origin := range [][2]float64{{0, 0}, {pitch / 2, pitch / (2 * math.Sqrt(3))}} {
		count := 0
		for row := -2 * n; row <= 2*n; row++ {
			y := float64(row)*pitch*math.Sqrt(3)/2 - origin[1]
			for col := -2 * n; col <= 2*n; col++ {
				x := (float64(col)+float64(row&1)/2)*pitch - origin[0]
				if x*x+y*y <= room*room {
					count++
				}
			}
		}
		best = max(best, count)
	}
	return best
}
