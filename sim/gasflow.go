package sim

import (
	"math"

	"toplit/physics/bed"
	"toplit/physics/gas"
)

// gasflow is stage one of the right-hand side: what burns, what gas it makes
// and how the air flows. It depends on the components before index.solids
// only.
type gasflow struct {
	// bed
	hRaw, hChar, zTop float64 // heights [m]
	lit, glow, there  float64
	mPrim             float64 // air through the bed, signed [kg/s]
	rate              float64 // dry fuel turned by the front [kg/s]
	charMade, charEat float64 // solid char [kg/s]
	volMade, volOut   float64 // volatiles of the char [kg/s]
	bedGas            gas.Mix // leaving the bed [mol/s]
	tarFlow           float64 // [kg/s]
	unlit             float64 // air through the part that does not burn [kg/s]
	hBedGas, cpBed    float64 // absolute enthalpy of that at the bed's temperature [W]
	startRate         float64 // starter burning [kg/s]
	startHeat         float64 // of which into the bed [W]
	dLit              float64

	// flame
	rowIn         float64 // of airIn: through rows and fan, from the annulus [kg/s]
	airIn, airOut float64 // through rows and leak into the flame zone, and back out [kg/s]
	entrained     float64 // [kg/s]
	burn          float64 // share of the combustible gas that burns
	flue          gas.Mix // after burning [mol/s]
	flueTar       float64 // [kg/s]
	hFlue         float64 // absolute enthalpy at iTFlame [W]
	tFlame        float64 // of the flame where gas meets air [K]
	dFlame        float64
	flueCold      float64 // the same at the ambient temperature [W]
	cFlue         float64 // heat capacity flow [W/K]
	topOut, topIn float64 // through the throat [kg/s]
	made          float64 // gas made from solids [kg/s]
	need, have    float64 // oxygen needed and there [mol/s]
	heatBurned    float64 // [W]
	yellow        float64 // share of tar and methane in the gas's heat
	backHeat      float64 // from flame on the fuel's own surface into it [W]
	unburned      float64 // heating value leaving [W]
	rhoFlame      float64

	dFlow    []float64
	rawAbove []float64 // lost in the raw layer above each row [Pa]
	head     float64   // total buoyant head [Pa]

	// where it is spent [Pa]
	lossRing, lossGap, lossBase, lossRaw, lossChar, wind0 float64
}

// stageOne computes everything that the gas does.
func (m *model) stageOne(t float64, y []float64) {
	m.bed(y)
	m.light(y)
	m.flame(y)
	m.draw(t, y)
}

// bed: the front takes its air, the char what is left, and the gas leaves at
// the bed's temperature.
func (m *model) bed(y []float64) {
	raw, char := y[iRaw], y[iChar]+y[iVolatile]
	T := y[iTBed]
	m.lit = min(max(y[iLit], 0), 1)
	m.glow = step(T-m.front.tGlow, m.w.glow)
	m.hRaw = max(raw, 0) / (m.rhoDry * m.area)
	m.hChar = max(char, 0) / (m.rhoChar * m.area)
	m.zTop = m.hRaw + m.hChar

	// Air through base and through rows that open into the bed.
	m.mPrim = y[iFlow]
	for i := range m.rows {
		m.mPrim += y[iFlow+1+i] * m.inBed(i)
	}
	air := positive(m.mPrim, m.w.reversal)

	// Front: as fast as the oxygen or the heat allows, while there is raw fuel.
	e0 := m.front.oxygen // mol O2 per kg dry
	flux := bed.Front(bed.FrontIn{Air: air / m.area, Need: m.p[pAirNeed], Moisture: m.x, Layer: T + layerPeak, Fuel: m.T0, Loss: -m.startFlux(y), Soft: m.w.front})
	m.there = 1 - math.Exp(-m.hRaw/m.front.depth)
	m.rate = m.lit * m.area * flux.Flux * m.there
	if m.on.snuffed {
		m.rate = 0
	}
	left := max(m.lit*air*m.airO2-m.rate*e0, 0)

	var g gas.Mix
	yc, tar := m.front.products(y[iVel], &g)
	m.charMade, m.volMade = m.rate*yc*(1-m.char.share), m.rate*yc*m.char.share

	// Char: what oxygen is left meets hot char on its way.
	ch := m.charBurn(T, air, left)
	m.charEat = ch.eaten
	m.volOut = m.devolatilise(T, y)
	if m.on.snuffed {
		m.charEat, m.volOut, ch = 0, 0, charBurned{}
	}

	var out gas.Mix
	for i := range out {
		out[i] = m.rate*g[i] + m.lit*air*m.airMix[i]
	}
	out[gas.O2] -= m.rate*e0 + ch.oxygen
	out[gas.CO] += ch.co + m.volOut*m.char.co
	out[gas.CO2] += ch.co2
	out[gas.H2] += ch.h2 + m.volOut*m.char.h2
	out[gas.H2O] += ch.h2o
	m.tarFlow = m.rate * tar
	h, cp := out.FastHCp(T)
	m.unlit = (1 - m.lit) * air // passes the part that does not burn, cold
	for i := range out {
		out[i] += m.unlit * m.airMix[i]
	}
	m.bedGas = out
	m.hBedGas = h + m.tarFlow*m.tar.h(T)
	m.cpBed = cp + m.tarFlow*m.tar.cp(T)
	m.made = m.rate*(1+m.x) - m.charMade - m.volMade - m.rate*m.front.ash + m.charEat + m.volOut
}

// light: the starter burns down and lights a growing share of the top.
func (m *model) light(y []float64) {
	s := max(y[iStart], 0)
	m.startRate = 0
	if m.start0 > 0 && !m.on.snuffed {
		m.startRate = m.start0 / m.startTime * s / (s + m.w.starter*m.start0)
	}
	heat := m.startRate * m.starter.LHV
	m.startHeat = m.starter.Share * heat
	burning := s / (s + m.w.starter*m.start0 + 1e-9)
	flux := m.startFlux(y)
	m.dLit = bed.Lighting(bed.LightIn{
		Share: m.lit, Cover: m.cover, Heat: flux,
		Moisture: m.x, Layer: m.front.top, Fuel: m.T0, Bore: m.bore,
	})
	m.dLit -= m.lit * (1 - m.glow) * (1 - burning) / m.front.dieTime
	if m.on.snuffed {
		m.dLit = 0
	}
}

// layerPeak is how much hotter the burning layer at the front is than the hot
// layer's mean [K]: peaks of 1170 to 1270 K are given for velocities at which
// the balance of the whole layer ends near 1100. It matters only where heat,
// not oxygen, sets the front's pace. [judgement]
const layerPeak = 100.0

// startFlux is the heat the burning starter gives the top it covers [W/m2].
func (m *model) startFlux(y []float64) float64 {
	s := max(y[iStart], 0)
	return s / (s + m.w.starter*m.start0 + 1e-9) * m.starter.Heat() / m.p[pStarterTime]
}

// flame: air joins the gas, and the gas burns as far as the flame state, the
// oxygen and the mixing allow.
func (m *model) flame(y []float64) {
	T1, T2, TA := y[iTGas], y[iTFlame], y[iTAir]
	theta := min(max(y[iFlame], 0), 1)

	// Air into the zone above the fuel and gas out of it, hole by hole.
	var in, out float64
	for i := range m.rows {
		f := y[iFlow+1+i] * (1 - m.inBed(i))
		p := positive(f, m.w.reversal)
		in += p
		out += p - f
	}
	in += m.fanS
	m.rowIn = in
	leak := y[iFlow+m.flows-1]
	p := positive(leak, m.w.reversal)
	in += p
	out += p - leak
	m.airIn, m.airOut = in, out
	down := positive(m.mPrim, m.w.reversal) - m.mPrim // gas pushed back down through the bed
	net := m.bedMass() + in - out - down
	m.topOut = positive(net, m.w.reversal)
	m.topIn = m.topOut - net

	// The starter's own little fire draws the air it needs.
	startAir := m.startRate * m.starter.air

	fuelNeed := m.bedGas.OxygenDemand() + m.tarFlow*m.tar.oxygen
	free := max(m.bedGas[gas.O2], 0)
	have := free + (in+m.topIn)*m.airO2
	m.entrained = 0
	if m.standOpen { // the flame stands in the open and draws what the jets do not give
		short := positive(fuelNeed*m.openAir-have, 1e-7)
		m.entrained = theta * short / m.airO2
		have += m.entrained * m.airO2
	}
	m.need, m.have = fuelNeed, have
	m.burn = theta * least(m.mix, have/(fuelNeed+1e-9), m.w.oxygen)

	lhv := m.bedGas.LHV() + m.tarFlow*m.tar.lhv
	m.heatBurned = m.burn * lhv
	m.yellow = (m.tarFlow*m.tar.lhv + m.bedGas[gas.CH4]*802.6e3) / (lhv + 1)
	m.backHeat = surfaceFlame * theta * lhv * least(1, free/(fuelNeed+1e-9), m.w.oxygen)
	m.unburned = lhv - m.heatBurned
	fl := m.bedGas
	b := m.burn
	airMass := in + m.topIn + m.entrained + startAir
	for i := range fl {
		fl[i] += airMass*m.airMix[i] + m.startRate*m.starter.products[i]
	}
	tb := b * m.tarFlow
	co, h2, ch4 := b*m.bedGas[gas.CO], b*m.bedGas[gas.H2], b*m.bedGas[gas.CH4]
	fl[gas.CO] -= co
	fl[gas.H2] -= h2
	fl[gas.CH4] -= ch4
	fl[gas.CO2] += co + ch4 + tb*m.tar.carbon
	fl[gas.H2O] += h2 + 2*ch4 + tb*m.tar.hydrogen/2
	fl[gas.O2] -= b * fuelNeed
	m.flue = fl
	m.flueTar = m.tarFlow - tb
	h, cp := fl.FastHCp(T2)
	m.hFlue = h + m.flueTar*m.tar.h(T2)
	m.cFlue = cp + m.flueTar*m.tar.cp(T2)
	m.flueCold = m.flueTar * m.tarCold
	for i, n := range fl {
		m.flueCold += n * m.cold[i]
	}

	// The flame's temperature where gas meets just enough air, or with the air
	// already in it when that is more.
	m.tFlame = m.flameTemperature(T1, TA, lhv, fuelNeed, free)
	pilot := 1 - (1-m.pilot(y))*(1-step(theta-0.25, 0.3))
	limit := m.tFlameMin + hydrogenLowers*(woodGasHydrogen-m.bedGas[gas.H2]*241.8e3/(lhv+1))
	m.dFlame = (pilot*step(m.tFlame-limit, m.w.flame) - theta) / m.front.flameLag
}

// surfaceFlame is the share of its heat that a flame burning on the fuel's own
// surface gives back to it: gas that leaves the bed with oxygen still in it
// burns right there, as in the first minute. Wood in the open returns about a
// third. [judgement]
const surfaceFlame = 0.3

// pilot is how surely something lights the gas: the starter's flame, or gas
// hot enough to light itself.
func (m *model) pilot(y []float64) float64 {
	p := 0.0
	if m.start0 > 0 {
		s := max(y[iStart], 0) / m.start0
		p = s / (s + 0.05)
	}
	return max(p, step(y[iTGas]-selfLight, 60))
}

const selfLight = 900 // CO and H2 in air light themselves above about 880 to 930 K [memory]

// flameTemperature is the temperature where gas meets just enough air, burned
// without loss but for the rim's, by mean heat capacities [K]. Gas that has
// more air in it than it needs burns lean and gets none added.
func (m *model) flameTemperature(T1, TA, lhv, need, free float64) float64 {
	g := &m.bedGas
	// Mean heat capacities 300 to 1800 K [J/mol K], from the NASA-9 enthalpies.
	c := 32.3*(g[gas.N2]+g[gas.CO]) + 34.2*g[gas.O2] + 20.8*g[gas.Ar] + 51.3*g[gas.CO2] + 30.4*g[gas.H2] + 41.0*g[gas.H2O] + 75*g[gas.CH4] + 2300*m.tarFlow
	more := positive(need-free, 1e-8) / m.airO2
	ca := 1140 * more
	product := c + ca + 4*need // the products of one O2 carry about 4 J/K more than what made them
	mixed := (c*T1 + ca*TA + 1e-6*TA) / (c + ca + 1e-6)
	return mixed + (lhv-flameLoss)/(product+1e-3)
}

// The flame temperature at which a flame goes out depends on what burns: at
// the lean limits of CO (12.5 %) and of hydrogen (9 %, downward) in air it is
// about 1450 and 1000 K [limits from memory, temperatures computed]. The prior
// is for the CO and hydrogen mixtures of wood gas, whose hydrogen carries about
// a quarter of the heat; gas from char has less and goes out hotter.
const (
	hydrogenLowers  = 450.0
	woodGasHydrogen = 0.25
)

// flameLoss is what the smallest flame loses to its rim [W]; it decides only
// when almost no gas is left. [judgement]
const flameLoss = 5.0

func (m *model) bedMass() float64 { return positive(m.mPrim, m.w.reversal) + m.made }

// inBed is the share of a row that opens into the fuel.
func (m *model) inBed(i int) float64 {
	return step(m.zTop-m.rows[i].height, max(m.rows[i].d, 0.5*m.fuel.Size))
}
