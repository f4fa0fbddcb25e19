// Package stove is one exact geometry of a can stove: its cans, hole rows,
// ring, riser, stand and shields, in metres and kilograms. It measures
// (areas, ratios, volumes, mass, packing, tip angle), checks and compares
// drawings; it knows nothing of fire.
//
// Range: round cans with upright walls; beads, necks and the step of a seamed
// base are not drawn. Sources: plain geometry; densities in metals.csv; the
// spacing rules of Check are judgement and say so.
//
// What it will not do: say which holes feed what, or that a stove is safe.
//
// See docs/model/areas.md.
package stove

import "slices"

// Design is one exact geometry. Lengths are in metres, angles in radians.
// The zero value of an optional part means the part is not there.
type Design struct {
	Name     string
	FuelCan  Can     // holds the charge
	OuterCan *Can    // stands round the fuel can; nil for a single wall
	Standoff float64 // gap under the fuel can's base: to the outer can's floor, or to what the stove stands on [m]
	Lift     float64 // gap under the stove's lowest edge: legs, feet, pebbles, 0 when it stands flat [m]
	Annulus  float64 // width of an open slot round the top of the annulus, 0 when the rim closes it [m]
	Rows     []Row   // every row of holes, in any order
	Ring     *Ring
	Riser    *Riser
	Stand    *Stand
	Skirt    *Skirt
	Shields  []Shield
	Plate    *Plate // base plate under the stove
	Fan      Fan    // measured air flows in place of natural draft
}

// Clone is a copy that shares nothing with the design.
func (d Design) Clone() Design {
	d.OuterCan, d.Ring, d.Riser = copied(d.OuterCan), copied(d.Ring), copied(d.Riser)
	d.Stand, d.Skirt, d.Plate = copied(d.Stand), copied(d.Skirt), copied(d.Plate)
	d.Rows, d.Shields = slices.Clone(d.Rows), slices.Clone(d.Shields)
	return d
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

// Can is one metal can. Diameter is outside the body, never over the seam.
type Can struct {
	Code     string  // trade code such as "404x700" when that is how it was named
	Diameter float64 // outside diameter of the body [m]
	Height   float64 // overall height [m]
	Wall     float64 // sheet thickness [m]
	Metal    Metal   // what the sheet is
	Surface  Surface // state of the surface, which sets its emissivity
	Mouth    float64 // diameter of the open top, 0 for the full bore [m]
	OpenBase bool    // the base is cut out
}

// Bore is the inside diameter of the body [m].
func (c Can) Bore() float64 { return c.Diameter - 2*c.Wall }

// Metal is what a sheet is made of.
type Metal string

// The metals a design may name.
const (
	Tinplate   Metal = "tinplate"
	MildSteel  Metal = "steel"
	Stainless  Metal = "stainless"
	Aluminium  Metal = "aluminium"
	Galvanised Metal = "galvanised"
	Copper     Metal = "copper"   // pots only
	Titanium   Metal = "titanium" // pots only
)

// Surface is the state of a metal surface.
type Surface string

// The surface states; Painted is burnt off before the first real burn.
const (
	Bright   Surface = "bright"   // unburned tin or clean stainless
	Melted   Surface = "melted"   // tin melted and oxidising, after a burn or two
	Oxidised Surface = "oxidised" // blue-grey to black, after many burns
	Painted  Surface = "painted"
)

// Place is the sheet a row of holes is cut in.
type Place string

// The sheets that may carry holes.
const (
	FuelBody  Place = "fuel can body"
	FuelBase  Place = "fuel can base"
	OuterBody Place = "outer can body"
	OuterBase Place = "outer can base"
	RiserWall Place = "riser wall"
	StandWall Place = "stand wall"
)

// Row is one row of equal holes. What it does (primary air, air through the
// fuel, secondary air, outlet) follows from the burn, not from its name.
type Row struct {
	Name   string // the maker's word for it
	On     Place
	Count  int
	Hole   Hole
	Height float64 // body or wall: centre above that part's own base [m]
	Circle float64 // base: diameter of the circle the centres lie on, 0 for a filled field [m]
	Edge   Edge
	Slant  float64 // angle of the hole's axis from radial, gives swirl [rad]
}

// Shape is the outline of a hole.
type Shape string

// The outlines a hole may have. A Slot has round ends (two drillings and the
// strip between), a Rectangle square ones (cut with snips or a chisel).
const (
	Round     Shape = "round"
	Slot      Shape = "slot"
	Rectangle Shape = "rectangle"
	Triangle  Shape = "triangle"
)

// Hole is one opening: Width is the diameter of a round hole, the length of a
// slot or rectangle or the base of a triangle, and lies along the
// circumference; Height is unused for a round hole [m].
type Hole struct {
	Shape  Shape
	Width  float64
	Height float64
}

// Edge is how the hole was made, which moves its discharge.
type Edge string

// The edges a hole may have.
const (
	Drilled    Edge = "drilled"
	PunchedIn  Edge = "punched in"  // burr on the fire side
	PunchedOut Edge = "punched out" // burr on the air side
)

// Ring is the concentrator ring.
type Ring struct {
	Bore   float64 // diameter of the central opening [m]
	Wall   float64 // sheet thickness [m]
	Metal  Metal
	Height float64 // above the fuel can's rim [m]
	Slits  int     // radial slits cut outward from the bore
	Slit   float64 // length of a slit [m]
	Twist  float64 // angle the tongues between slits are bent to [rad]
}

// Riser is a tube on top of the stove that adds draft height.
type Riser struct {
	Bore   float64 // [m]
	Height float64 // [m]
	Wall   float64 // [m]
	Metal  Metal
}

// Stand carries the pot. A closed stand is a wall that adds draft height; an
// open one (legs, wires) adds none.
type Stand struct {
	Diameter float64 // of the wall or of the circle of legs [m]
	Height   float64 // from the fuel can's rim, ring or riser top to the stand's top [m]
	Closed   bool
	Wall     float64 // [m]
	Metal    Metal
	Gap      float64 // slot between the stand's top and the pot's base [m]
}

// Skirt is a wall round the pot's side.
type Skirt struct {
	Gap    float64 // between pot side and skirt [m]
	Height float64 // [m]
}

// Shield is a bright sheet round the body or under the base.
type Shield struct {
	Under bool    // under the base instead of round the body
	Gap   float64 // from the part it shields [m]
}

// Plate is what the stove stands on.
type Plate struct {
	Material  string  // a name of the catalogue's covers: "steel plate", "tile", "brick", "sand"
	Thickness float64 // [m]
	Gap       float64 // air gap between the stove's base and the plate [m]
	Diameter  float64 // [m]
}

// Fan gives measured air flows; zero means natural draft.
type Fan struct {
	Primary   float64 // [kg/s]
	Secondary float64 // [kg/s]
}
