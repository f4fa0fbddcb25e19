package sim

// The state of a burn: one vector of active components followed by the
// quadratures. Masses are in kg, temperatures in K, flows in kg/s.
//
// The order matters for speed: everything that shapes the gas comes first, the
// solids that only trade heat come after iSolids, so that a column of the
// Jacobian for a solid needs only the heat exchange anew.
const (
	iRaw      = iota // dry fuel not yet reached by the front
	iChar            // solid char, without ash and what heat still drives out of it
	iVolatile        // what heat still drives out of the char: hydrogen and CO
	iStart           // starter not yet burned
	iLit             // share of the top that burns
	iVel             // superficial velocity remembered by the char yield [m/s]
	iFlame           // flame state: 0 none, 1 burning
	iTBed            // hot layer: char and the layer the front works in
	iTGas            // wood gas between fuel and jets
	iTFlame          // gas above the jets
	iTAir            // air in the annulus
	iFlow            // first air flow; the rest follow
)

// index is where the parts of variable number stand.
type index struct {
	flows       int // air flows: bed, each body row, leak
	walls       int // axial nodes of the fuel can
	outers      int // axial nodes of the outer can
	grounds     int
	solids      int // first solid
	wall, outer int
	base, floor int
	top, pot    int
	water, mass int // water temperature above its boiling point, and mass
	ground      int
	active      int
	quad        int // first quadrature
	dim         int
}

// Quadratures, counted from index.quad: what crossed the boundary.
const (
	qAir       = iota // air drawn in [kg]
	qCarbon           // carbon out with gas [mol]
	qHydrogen         // [mol H]
	qOxygen           // [mol O]
	qNitrogen         // [mol N]
	qGasOut           // absolute enthalpy of the gas leaving [J]
	qWallAir          // stove metal to the surroundings [J]
	qPotAir           // pot and water surface to the surroundings, steam apart [J]
	qSteam            // enthalpy of the steam [J]
	qDeep             // ground below the last node [J]
	qSky              // bed's radiation past everything [J]
	qWallIn           // into the metal of the stove [J]
	qWallOut          // out of it [J]
	qPotIn            // into pot and water [J]
	qPotOut           // out of pot and water [J]
	qGroundIn         // into the ground [J]
	qSensible         // heat of the gas leaving above ambient [J]
	qUnburned         // heating value of the gas leaving [J]
	qDry              // dry fuel the front has turned [kg]
	qBurned           // heating value burned in the gas flame [J]
	qPotGas           // given to the pot by gas and flame [J]
	qPrimary          // air through the bed [kg]
	qSecondary        // air through holes and leaks above the fuel [kg]
	qHead             // buoyant head over time [Pa s]
	nQuads
)

func newIndex(flows, walls, outers, grounds int) index {
	x := index{flows: flows, walls: walls, outers: outers, grounds: grounds}
	n := iFlow + flows
	x.solids = n
	next := func(k int) int { n += k; return n - k }
	x.wall = next(walls)
	x.outer = next(outers)
	x.base = next(1)
	x.floor = next(1)
	x.top = next(1)
	x.pot = next(1)
	x.water = next(1)
	x.mass = next(1)
	x.ground = next(grounds)
	x.active = n
	x.quad = n
	x.dim = n + nQuads
	return x
}
