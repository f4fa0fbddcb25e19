package sim

import (
	"toplit/firing"
	"toplit/numeric"
	"toplit/physics/air"
	"toplit/physics/bed"
	"toplit/physics/draft"
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// Widths of the smooth switches. A reference run divides them by four; the
// figures must not move (docs/performance.md).
type widths struct {
	flame    float64 // flame temperature over which the flame state gives way [K]
	height   float64 // edges of the hot layer and of the fuel level [m]
	boil     float64 // below saturation over which heating turns into boiling [K]
	oxygen   float64 // rounding of "whichever is less" [1]
	front    float64 // corner between oxygen and heat at the front [1]
	starter  float64 // tail of the starter, share of its dose [1]
	glow     float64 // bed temperature over which the front takes hold [K]
	reversal float64 // flow around which an opening turns [kg/s]
}

var shippedWidths = widths{flame: 3, height: 0.0005, boil: 0.2, oxygen: 0.01, front: 0.05, starter: 0.02, glow: 60, reversal: 1e-7}

func (w widths) quarter() widths {
	w.flame /= 4
	w.height /= 4
	w.boil /= 4
	w.oxygen /= 4
	w.front /= 4
	w.starter /= 1 // physical: the last of the starter burns from a thinning film
	w.glow /= 1    // physical, not numerical: the range over which wood chars
	w.reversal /= 4
	return w
}

// nodes is how finely the solids are cut.
type nodes struct{ walls, outers, grounds int }

var shippedNodes = nodes{walls: 12, outers: 2, grounds: 6}

// model is one firing with one value of every uncertain parameter: the
// constants of the right-hand side and its work space. It is not shared
// between goroutines.
type model struct {
	*site
	index
	p  Params
	w  widths
	on parts // what stands on the stove now

	// charge
	dry0, water0       float64 // dry fuel and its moisture [kg]
	x                  float64 // moisture on dry basis
	rhoDry             float64 // dry mass per volume of raw bed [kg/m3]
	rhoChar            float64 // char mass per volume of char layer [kg/m3]
	start0             float64 // starter [kg]
	startTime          float64 // [s]
	cover              float64 // share of the top it covers
	charTable          charTable
	charSize, charVoid float64
	front              front
	kRaw, kChar        bedLoss
	wallC, outerC      float64 // areal mass of a node [kg]
	films              films
	leakArea           float64 // [m2]
	leakLoss           draft.Loss
	holeK              float64 // factor on hole pressure from the prior
	emis               emissivities
	mix                float64 // burned share once lit
	tFlameMin          float64

	layerC                                   float64 // heat capacity of the layer the front works in [J/K]
	baseMass                                 float64 // [kg]
	floorC                                   float64 // [kg]
	ringK                                    float64 // of the throat alone, with its prior [1/m4]
	topK                                     float64 // loss of ring, column and gap over area squared [1/m4]
	topLin                                   float64 // its viscous part [1/m3]
	vapour0                                  float64 // of the ambient air [Pa]
	amb4                                     float64 // fourth power of the ambient temperature [K4]
	groundEm                                 float64
	potArea, potSideArea, wetArea, waterArea float64
	openAir                                  float64    // air an open flame draws, in units of its need
	hWater                                   float64    // absolute enthalpy of the fuel's water [J/kg]
	phases                                   [4]float64 // of the gusts

	part    *shares
	scale   []float64 // typical size of each component
	yj, fj  []float64
	dE, dE0 []float64 // joules per second into each stock
	cap     []float64 // heat capacity of each temperature [J/K]

	gasflow  // values of the last call, stage one
	heatflow // and two
}

// site is what does not change between the samples of a band.
type site struct {
	*layout
	shape              index
	pattern            *numeric.Pattern
	cond               firing.Conditions
	fuel               fuel.Fuel
	el                 gas.Elements // of the dry fuel [mol/kg]
	feed               bed.Feed
	hDry               float64 // absolute enthalpy of dry fuel at the ambient temperature [J/kg]
	lhvDry             float64 // [J/kg]
	stoich, charStoich float64 // air that burns a kilogram of dry fuel, of char [kg/kg]
	char               charStuff
	tar                tarStuff
	starter            starterStuff
	T0, P              float64
	airMix             gas.Mix // one kilogram of air [mol]
	airH               float64 // its absolute enthalpy at T0 [J/kg]
	airRho             float64
	cold               [gas.NCore]float64 // enthalpy of each gas at T0 [J/mol]
	tarCold            float64
	airO2              float64 // [mol/kg]
	wind               float64
	gusts              float64
	fanP               float64
	fanS               float64

	baseLaw                *draft.Discharge
	rowLaw                 []*draft.Discharge
	inletLaw               *draft.Discharge
	zJets                  float64 // where the flame begins: mean height of the rows above the fuel
	n                      nodes
	soil                   groundStuff
	wallEm, outerEm, potEm emission
	potC                   float64 // heat capacity of the pot [J/K]
	tSat                   float64 // water's end temperature [K]
	tBoil                  float64 // local saturation [K]
}

// parts says what stands on the stove and whether the burn goes on.
type parts struct{ ring, riser, stand, pot, snuffed bool }

const (
	gravity = 9.80665     // standard, CGPM 1901 [m/s2]
	sigma   = 5.670374e-8 // Stefan-Boltzmann [W/m2 K4]
	gasMass = 3.0         // heat capacity of a gas node: about 2 s of flow [J/K]
	inert   = 300.0       // inertance of a flow path, length over area [1/m]
	cWater  = 4186.0      // liquid water, 20 to 90 °C within 0.3 % [J/kg K]
)

// air0 fills the site's air from the conditions.
func (s *site) air0() {
	a := s.cond.Air
	s.T0, s.P = a.Temperature, a.Pressure
	if s.T0 == 0 {
		s.T0 = 288.15
	}
	if s.P == 0 {
		s.P = 101325
	}
	s.airMix = air.State{T: s.T0, P: s.P, RH: a.Humidity}.Mix()
	s.airMix = s.airMix.Times(1 / s.airMix.Mass())
	s.airH = s.airMix.H(s.T0)
	s.airRho = s.airMix.Density(s.T0, s.P)
	s.airO2 = s.airMix[gas.O2]
	s.wind, s.gusts = a.Wind, a.Gusts
	gas.FastH(s.T0, &s.cold)
	s.tarCold = s.tar.h(s.T0)
}
