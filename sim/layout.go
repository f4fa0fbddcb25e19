package sim

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"toplit/firing"
	"toplit/stove"
)

// layout is the geometry of a firing as the equations see it: which opening
// leads from where to where, at what height, how long each hot column is and
// how much metal stands in the fire. It holds no uncertain parameter.
type layout struct {
	bore, area  float64 // of the fuel can [m], [m2]
	height      float64 // inside, base to rim [m]
	reactorOnly bool    // a bore, a depth and a fan: no openings, no draft

	base    opening   // all holes in the fuel can's base together
	rows    []opening // holes in the fuel can's body, one row each
	inlet   opening   // all holes of the outer can together; n = 0 for a single wall
	double  bool
	annGap  float64 // width of the annulus [m]
	annArea float64 // [m2]
	outerD  float64 // outer can's diameter [m]
	outerH  float64
	topSlot float64 // open slot at the annulus top [m2]
	plenum  float64 // area of the gap under the fuel can's base, 0 when nothing is under it [m2]

	throat     float64 // area the flame passes: ring bore and slits, or the can's mouth [m2]
	throatD    float64 // its diameter [m]
	swirlSine  float64 // sine of the ring's twist times the share of area in slits
	standD     float64
	standOpen  bool    // the flame burns in the open above the can
	columnH    float64 // closed stand and riser above the ring [m]
	columnArea float64 // [m2]
	riserH     float64
	riserArea  float64
	windows    float64 // openings in the stand's wall [m2]
	gap        float64 // pot gap [m]
	potHeight  float64 // from the ring to the pot's base [m]
	flameRoom  float64 // same, counted for the flame [m]

	skirtGap, skirtH float64

	wallT, outerT   float64 // sheet thickness [m]
	wallMetal       stove.Metal
	fuelSurface     stove.Surface
	outerSurface    stove.Surface
	topMass         float64 // ring, riser and stand [kg]
	topArea         float64 // one side of the stand and riser wall [m2]
	ringArea        float64 // plate area of the ring facing the bed [m2]
	floorMass       float64 // outer can's floor, plate and under-shields [kg]
	floorArea       float64
	floorGap        float64 // under the fuel can's base to the floor or the ground [m]
	hasFloor        bool
	floorGroundGap  float64
	floorEmissivity float64

	holesArea float64 // all holes together, for the leak prior [m2]
}

// opening is a group of equal holes.
type opening struct {
	n      float64 // number of holes
	d      float64 // hydraulic diameter [m]
	area   float64 // total [m2]
	height float64 // centre above the fuel can's base, inside [m]
	wall   float64 // sheet thickness [m]
	edge   stove.Edge
	slant  float64
}

// errLayout wraps everything a design can lack.
var errLayout = errors.New("design cannot be burned")

func lack(format string, a ...any) error {
	return fmt.Errorf("%w: %s", errLayout, fmt.Sprintf(format, a...))
}

// join puts rows together into one group with the same total area; the
// diameter is weighted by area, the height too.
func join(rows []opening) opening {
	var o opening
	for _, r := range rows {
		o.n += r.n
		o.area += r.area
		o.d += r.d * r.area
		o.height += r.height * r.area
		o.wall += r.wall * r.area
		o.edge = r.edge
	}
	if o.area > 0 {
		o.d /= o.area
		o.height /= o.area
		o.wall /= o.area
		o.n = o.area / (math.Pi / 4 * o.d * o.d)
	}
	return o
}

func newLayout(f *firing.Firing) (*layout, error) {
	d := &f.Design
	c := d.FuelCan
	l := &layout{bore: c.Bore(), height: c.Height, wallT: c.Wall, wallMetal: c.Metal, fuelSurface: c.Surface}
	if !(l.bore > 0.01 && l.bore < 1) {
		return nil, lack("fuel can bore %.4g m, want 0.01 to 1", l.bore)
	}
	if !(l.height > 0.01 && l.height < 2) {
		return nil, lack("fuel can height %.4g m, want 0.01 to 2", l.height)
	}
	if l.wallT <= 0 {
		l.wallT = 0.25e-3
	}
	l.area = math.Pi / 4 * l.bore * l.bore

	var base, inlets []opening
	var standWall float64
	shift := d.Standoff // outer can's base to fuel can's base
	for _, r := range d.Rows {
		a, dh := r.Hole.Area(), r.Hole.Hydraulic()
		if r.Count < 1 || a <= 0 {
			return nil, lack("row %q: %d holes of %.4g m2, want at least one hole with an area", r.Name, r.Count, a)
		}
		o := opening{n: float64(r.Count), d: dh, area: float64(r.Count) * a, height: r.Height, edge: r.Edge, slant: r.Slant, wall: l.wallT}
		l.holesArea += o.area
		switch r.On {
		case stove.FuelBase:
			o.height = 0
			base = append(base, o)
		case stove.FuelBody:
			l.rows = append(l.rows, o)
		case stove.OuterBody:
			o.height = r.Height - shift
			inlets = append(inlets, o)
		case stove.OuterBase:
			o.height = -shift
			inlets = append(inlets, o)
		default: // stand and riser walls
			standWall += o.area
		}
	}
	slices.SortStableFunc(l.rows, func(a, b opening) int { return cmp.Compare(a.height, b.height) })
	l.base = join(base)
	if c.OpenBase {
		l.base = opening{n: 1, d: l.bore, area: 0.6 * l.area, wall: l.wallT} // a grate or mesh in place of the base
	}

	if o := d.OuterCan; o != nil {
		l.double = true
		l.outerD, l.outerH, l.outerT, l.outerSurface = o.Diameter, o.Height, o.Wall, o.Surface
		if l.outerT <= 0 {
			l.outerT = 0.25e-3
		}
		l.annGap = (o.Bore() - c.Diameter) / 2
		if l.annGap <= 0.0005 {
			return nil, lack("outer can bore %.4g m leaves no annulus round the fuel can's %.4g m", o.Bore(), c.Diameter)
		}
		l.annArea = math.Pi / 4 * (o.Bore()*o.Bore() - c.Diameter*c.Diameter)
		if o.OpenBase && d.Lift > 0 {
			inlets = append(inlets, opening{n: 1, d: 2 * d.Lift, area: math.Pi * o.Diameter * d.Lift, height: -shift, wall: l.outerT})
		}
		if o.OpenBase && len(inlets) == 0 { // stands flat on uneven ground: a crack of half a millimetre
			inlets = append(inlets, opening{n: 1, d: 1e-3, area: math.Pi * o.Diameter * 0.5e-3, height: -shift, wall: l.outerT})
		}
		l.inlet = join(inlets)
		l.topSlot = math.Pi * (c.Diameter + d.Annulus) * d.Annulus
		l.plenum = math.Pi * c.Diameter * max(d.Standoff, 0.5e-3)
	} else if d.Standoff+d.Lift > 0 {
		l.plenum = math.Pi * c.Diameter * (d.Standoff + d.Lift)
	} else {
		l.plenum = math.Pi * c.Diameter * 0.5e-3
	}

	l.reactorOnly = d.Fan.Primary > 0 && l.base.area == 0 && len(l.rows) == 0
	if !l.reactorOnly {
		if l.base.area == 0 && len(l.rows) == 0 && d.Fan.Primary == 0 {
			return nil, lack("no hole leads air into the fuel can; give a row on the fuel can's base or body, or a fan flow")
		}
		if l.double && l.inlet.area == 0 && l.topSlot == 0 && d.Fan.Primary == 0 {
			return nil, lack("no hole leads air into the outer can; give a row on its body or base, or an open base with a lift")
		}
	}
	l.top(d, f.Conditions.Pot, standWall)
	l.bottom(d)
	return l, nil
}

// top lays out ring, riser, stand and pot gap.
func (l *layout) top(d *stove.Design, pot *firing.Pot, standWall float64) {
	const steel = 7850.0
	l.throatD = l.bore
	if m := d.FuelCan.Mouth; m > 0 && m < l.bore {
		l.throatD = m
	}
	l.throat = math.Pi / 4 * l.throatD * l.throatD
	if r := d.Ring; r != nil && r.Bore > 0 {
		l.throatD = min(r.Bore, l.throatD)
		l.throat = math.Pi / 4 * l.throatD * l.throatD
		slits := 0.0
		if r.Slits > 0 && r.Twist != 0 { // twisted tongues open a wedge each
			slits = float64(r.Slits) * r.Slit * r.Slit * math.Abs(math.Sin(r.Twist)) / 2
			l.swirlSine = math.Sin(r.Twist) * slits / (slits + l.throat)
			l.throat += slits
		}
		l.ringArea = max(l.area-math.Pi/4*r.Bore*r.Bore, 0)
		l.topMass += l.ringArea * max(r.Wall, 0.2e-3) * steel
	}
	l.standOpen = true
	l.gap = 0.01
	l.columnArea = l.area
	if r := d.Riser; r != nil && r.Height > 0 {
		l.standOpen = false
		l.riserH, l.riserArea = r.Height, math.Pi/4*r.Bore*r.Bore
		l.columnH += r.Height
		l.columnArea = l.riserArea
		a := math.Pi * r.Bore * r.Height
		l.topArea += a
		l.topMass += a * max(r.Wall, 0.2e-3) * steel
		l.potHeight += r.Height
	}
	l.standD = l.bore
	if s := d.Stand; s != nil {
		l.gap = s.Gap
		l.standD = s.Diameter
		if l.standD <= 0 {
			l.standD = l.bore
		}
		l.potHeight += s.Height + s.Gap
		if s.Closed {
			l.standOpen = false
			l.windows = standWall
			l.columnH += s.Height
			l.columnArea = math.Pi / 4 * l.standD * l.standD
			a := math.Pi * l.standD * s.Height
			l.topArea += a
			l.topMass += a * max(s.Wall, 0.2e-3) * steel
		}
	} else if pot != nil {
		l.potHeight += l.gap
	}
	l.flameRoom = l.potHeight
	if s := d.Skirt; s != nil {
		l.skirtGap, l.skirtH = s.Gap, s.Height
	}
	if l.topMass < 0.01 {
		l.topMass = 0.01 // the rim itself: keeps the node's heat capacity physical
	}
}

// bottom lays out what is under the fuel can.
func (l *layout) bottom(d *stove.Design) {
	const steel = 7850.0
	l.floorGap = max(d.Standoff+d.Lift, 1e-3)
	l.floorEmissivity = 0.3
	foot := d.FuelCan.Diameter
	if l.double {
		foot = l.outerD
	}
	l.floorArea = math.Pi / 4 * foot * foot
	if l.double {
		l.floorGap = max(d.Standoff, 1e-3)
		if !d.OuterCan.OpenBase {
			l.hasFloor = true
			l.floorMass += l.floorArea * l.outerT * steel
			l.floorGroundGap = max(d.Lift, 1e-3)
		} else {
			l.floorGap += d.Lift
		}
	}
	if p := d.Plate; p != nil {
		l.hasFloor = true
		a := math.Pi / 4 * p.Diameter * p.Diameter
		if a <= 0 {
			a = l.floorArea
		}
		l.floorMass += a * max(p.Thickness, 0.2e-3) * steel
		l.floorGroundGap = max(p.Gap, 1e-3)
	}
	for _, s := range d.Shields {
		if s.Under {
			l.hasFloor = true
			l.floorMass += l.floorArea * 0.25e-3 * steel
			l.floorGroundGap = max(s.Gap, 1e-3)
			l.floorEmissivity = 0.1
		}
	}
}
