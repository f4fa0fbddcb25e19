package sim

import (
	"math"

	"toplit/physics/gas"
)

// Ledger is what went where in one burn: the balance of each element and of
// energy, and the heat by destination. A gap is what went in, less what went
// out, less what is stored, over the scale named.
type Ledger struct {
	// Gaps that must be near zero.
	CarbonGap   float64 `json:"carbon_gap" desc:"carbon unaccounted for, over the charge's"`
	HydrogenGap float64 `json:"hydrogen_gap" desc:"hydrogen, over the charge's"`
	OxygenGap   float64 `json:"oxygen_gap" desc:"oxygen, over the charge's"`
	NitrogenGap float64 `json:"nitrogen_gap" desc:"nitrogen, over that of the air drawn in"`
	EnergyGap   float64 `json:"energy_gap" desc:"energy, over what the burn released"`
	WallsGap    float64 `json:"walls_gap" desc:"heat of the stove's metal, over what it took in"`
	PotGap      float64 `json:"pot_gap" desc:"heat of pot and water, over what they took in"`
	GroundGap   float64 `json:"ground_gap" desc:"heat of the ground, over what it took in"`

	// Where the heating value of the charge and the starter went [J]. They add
	// up to Fuel within the energy gap.
	Fuel     float64 `json:"fuel_J"`
	Water    float64 `json:"water_J"`
	Steam    float64 `json:"steam_J"`
	PotMetal float64 `json:"pot_metal_J"`
	PotLoss  float64 `json:"pot_to_air_J"`
	Metal    float64 `json:"stove_metal_J"`
	WallLoss float64 `json:"stove_to_air_J"`
	HotGas   float64 `json:"hot_gas_J"`
	Unburned float64 `json:"unburned_gas_J"`
	CharLeft float64 `json:"char_left_J"`
	RawLeft  float64 `json:"raw_left_J"`
	Ground   float64 `json:"ground_J"`
	Sky      float64 `json:"radiated_past_pot_J"`
	Rest     float64 `json:"rest_J" desc:"heat still in bed and gas, and rounding"`
}

// elements is the atoms stored in the state [mol].
func (m *model) elements(y []float64) gas.Elements {
	var e gas.Elements
	e = e.Plus(m.el, y[iRaw])
	e = e.Plus(gas.H2O.Elements(), y[iRaw]*m.x/gas.H2O.MolarMass())
	e = e.Plus(m.char.solid.el, y[iChar])
	e = e.Plus(m.char.volatile.el, y[iVolatile])
	e = e.Plus(m.starter.el, y[iStart])
	return e
}

// stored is the enthalpy of every stock [J]: fuel and bed, stove metal, pot
// and water, ground.
func (m *model) stored(y []float64) (bed, metal, pot, ground float64) {
	T := y[iTBed]
	bed = y[iRaw]*(m.hDry+m.x*m.hWater) + y[iStart]*m.starter.h + y[iChar]*m.char.solid.h(T) + y[iVolatile]*m.char.volatile.h(T) + m.layerC*T
	bed += gasMass * (y[iTGas] + y[iTFlame] + y[iTAir])
	for i := range m.walls {
		metal += m.wallC * steelHeat(y[m.wall+i])
	}
	for i := range m.outers {
		metal += m.outerC * steelHeat(y[m.outer+i])
	}
	metal += m.baseMass*steelHeat(y[m.base]) + m.floorC*steelHeat(y[m.floor]) + m.topMass*steelHeat(y[m.top])
	pot = m.potC*y[m.pot] + (y[m.mass]+waterFloor)*cWater*(m.tBoil+y[m.water]-m.T0)
	for i := range m.grounds {
		ground += m.soil.cap[i] * y[m.ground+i]
	}
	return bed, metal, pot, ground
}

// ledger compares the states y0 and y1 with what crossed the boundary.
func (m *model) ledger(y0, y1 []float64) Ledger {
	var l Ledger
	q := y1[m.quad:]
	e0, e1 := m.elements(y0), m.elements(y1)
	in := m.airMix.Elements()
	gap := func(el gas.Element, out int, scale float64) float64 {
		return (e0[el] + in[el]*q[qAir] - e1[el] - q[out]) / scale
	}
	l.CarbonGap = gap(gas.Carbon, qCarbon, e0[gas.Carbon])
	l.HydrogenGap = gap(gas.Hydrogen, qHydrogen, e0[gas.Hydrogen])
	l.OxygenGap = gap(gas.Oxygen, qOxygen, e0[gas.Oxygen])
	l.NitrogenGap = gap(gas.Nitrogen, qNitrogen, math.Max(e0[gas.Nitrogen]+in[gas.Nitrogen]*q[qAir], 1e-9))

	b0, w0, p0, g0 := m.stored(y0)
	b1, w1, p1, g1 := m.stored(y1)
	dryBurned := y0[iRaw] - y1[iRaw]
	released := dryBurned*m.lhvDry - (m.charHeat(y1) - m.charHeat(y0)) + (y0[iStart]-y1[iStart])*m.starter.LHV
	scale := math.Max(released, 1000)
	out := q[qGasOut] - q[qAir]*m.airH + q[qWallAir] + q[qPotAir] + q[qSteam] + q[qDeep] + q[qSky]
	l.EnergyGap = (b0 + w0 + p0 + g0 - b1 - w1 - p1 - g1 - out) / scale
	part := func(d, in, out float64) float64 { return (in - out - d) / math.Max(in, 1000) }
	l.WallsGap = part(w1-w0, q[qWallIn], q[qWallOut])
	l.PotGap = part(p1-p0, q[qPotIn], q[qPotOut])
	l.GroundGap = part(g1-g0, q[qGroundIn], q[qDeep])

	l.Fuel = y0[iRaw]*m.lhvDry - y0[iRaw]*m.x*2.443e6 + y0[iStart]*m.starter.LHV
	l.Water = p1 - p0 - m.potC*(y1[m.pot]-y0[m.pot])
	l.Steam = q[qSteam]
	l.PotMetal = m.potC * (y1[m.pot] - y0[m.pot])
	l.PotLoss = q[qPotAir]
	l.Metal = w1 - w0
	l.WallLoss = q[qWallAir]
	l.HotGas = q[qSensible]
	l.Unburned = q[qUnburned]
	l.CharLeft = m.charHeat(y1)
	l.RawLeft = y1[iRaw] * (m.lhvDry - m.x*2.443e6)
	l.Ground = g1 - g0 + q[qDeep]
	l.Sky = q[qSky]
	l.Rest = l.Fuel - l.Water - l.Steam - l.PotMetal - l.PotLoss - l.Metal - l.WallLoss - l.HotGas - l.Unburned - l.CharLeft - l.RawLeft - l.Ground - l.Sky
	return l
}
