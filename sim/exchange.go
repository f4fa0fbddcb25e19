package sim

import (
	"math"

	"toplit/physics/gas"
)

// heatflow is stage two of the right-hand side: heat between gas, bed, metal,
// pot, ground and surroundings, and the sum of all flows into each stock. It is
// built of groups, one for each solid, so that a column of the Jacobian
// computes anew only the groups its solid takes part in.
type heatflow struct {
	q [nQuads]float64

	// from the gas side alone, for all groups (prepare)
	hBedWall  float64   // bed to can [W/m2 K]
	near      float64   // share of the base that lies under hot bed
	upWall    float64   // bed's top to the can above it, per exposed metre [W/m K]
	upTop     float64   // to ring and stand [W/K]
	upPot     float64   // through the throat to the pot [W/K]
	upSky     float64   // and past it [W/K]
	toBaseAir float64   // base to primary air [W/K]
	hotPart   []float64 // length of each wall node beside hot bed, gas, flame [m]
	gasPart   []float64
	flamePart []float64
	openPart  []float64
	gas4      float64 // fourth powers of the gas temperatures [K4]
	flame4    float64
	jetSpeed  float64 // under the pot [m/s], [m]
	jetWidth  float64
	flameGlow float64 // radiating power of the flame under the pot [W/K4]
	throughC  float64 // heat capacity flow past the pot [W/K]

	// of the last evaluation, for figures and limits
	potBase, potSide, potRad float64 // into the pot [W]
	steam                    float64 // [kg/s]
	coreT                    float64 // gas temperature the pot's base sees [K]
	hBase                    float64 // [W/m2 K]
}

// films holds the coefficients that do not change during a burn.
type films struct {
	wallL, outerL, topL, potL float64 // 1.42 / L^(1/4) of each surface [W/m2 K^1.25]
	wind                      float64 // forced convection round a can [W/m2 K], squared
	annulus                   float64 // conduction across the annulus, Nu 4.86 [1/m]
}

type emissivities struct{ wall, outer, pot, annulus, base float64 }

const (
	bedEmissivity = 0.85 // char and wood surface
	gasEmissivity = 0.08 // wood gas a can's width thick [judgement]
	flameEmiss    = 0.12 // of a small partly yellow flame [judgement]
	gasFilm       = 4.0  // laminar wood gas in a can, Nu about 4.4 [W/m2 K]
	flameFilm     = 6.0  // gas above the jets on the can [W/m2 K]
	standFilm     = 7.0  // developing laminar flow in a stand, Nu 11 [W/m2 K]
	cpAir         = 1012.0
)

func sq(x float64) float64   { return x * x }
func cube(x float64) float64 { return x * x * x }
func pow4(x float64) float64 { return sq(sq(x)) }

// film is natural convection from a surface dT hotter than the air, joined
// with the wind's forced convection: √(h_n² + h_f²) [W/m2 K].
func (m *model) film(c, dT float64) float64 {
	return math.Sqrt(c*c*rounded(dT) + m.films.wind)
}

// saturate keeps an exchange below what a stream of heat capacity flow c can
// give: c·(1 − exp(−hA/c)).
func saturate(hA, c float64) float64 {
	if c < 1e-9 {
		return 0
	}
	r := hA / c
	if r < 1e-3 {
		return hA * (1 - r/2)
	}
	return c * (1 - math.Exp(-r))
}

// stageTwo adds up the joules. dE has one entry per component of the state that
// is a temperature; m.q collects what crosses the boundary.
func (m *model) stageTwo(y []float64) {
	clear(m.dE)
	m.q = [nQuads]float64{}
	m.prepare(y)
	m.gasGroup(y)
	for i := range m.walls {
		m.wallGroup(y, i)
	}
	for i := range m.walls - 1 {
		m.wallLink(y, i)
	}
	for j := range m.outers {
		m.outerGroup(y, j)
	}
	m.baseGroup(y)
	m.floorGroup(y)
	m.topGroup(y)
	m.potGroup(y)
	m.waterGroup(y)
	for i := range m.grounds {
		m.groundLink(y, i)
	}
}

// prepare computes what the groups need from the gas side.
func (m *model) prepare(y []float64) {
	TB, T1 := y[iTBed], y[iTGas]
	m.gas4, m.flame4 = pow4(T1), pow4(y[iTFlame])
	kBed := 0.08 + 5.6e-10*TB*TB*TB // Kunii and Smith evaluated for pellets, 500 to 1300 K [W/m K]
	m.hBedWall = m.p[pBedWall] / (m.fuel.Size/(2*kBed) + m.bore/(8*kBed))
	m.near = m.lit * math.Exp(-m.hRaw/m.front.layer)
	air := positive(m.mPrim, m.w.reversal)
	m.toBaseAir = saturate(2*6*m.area, air*cpAir+1e-6)

	// The bed's top is cooler than its mean by what gas and conduction bring up.
	hr := 4 * bedEmissivity * sigma * cube(0.5*(TB+T1))
	hi := m.cpBed/m.area + kBed/(0.5*m.hChar+m.front.layer)
	out := m.p[pBedRadiation] * hi * hr / (hi + hr) * m.area * m.lit
	up := m.viewUp()
	open := min(m.throat/m.area, 1)
	m.upWall = out * (1 - up) / positive(m.height-m.zTop, m.w.height)
	m.upTop = out * up * (1 - open)
	m.upPot, m.upSky = 0, out*up*open
	if m.on.pot {
		m.underPot(y)
		v := m.viewPot()
		m.upPot, m.upSky = m.upSky*v, m.upSky*(1-v)
	}

	hot0, hot1 := m.hRaw-m.front.layer*m.there, m.zTop
	dz, w := m.height/float64(m.walls), m.w.height
	a0, a1, aj := ramp(-hot0, w), ramp(-hot1, w), ramp(-m.zJets, w)
	for i := range m.walls {
		z := float64(i+1) * dz
		b0, b1, bj := ramp(z-hot0, w), ramp(z-hot1, w), ramp(z-m.zJets, w)
		m.hotPart[i] = (b0 - a0 - b1 + a1) * m.lit
		m.openPart[i] = b1 - a1
		m.flamePart[i] = bj - aj
		m.gasPart[i] = max(b1-a1-bj+aj, 0)
		a0, a1, aj = b0, b1, bj
	}
}

// gasGroup is every flow that no solid takes part in.
func (m *model) gasGroup(y []float64) {
	T1, TA, T0 := y[iTGas], y[iTAir], m.T0
	q := &m.q
	air := positive(m.mPrim, m.w.reversal)
	hAir := m.airH + cpAir*(TA-T0)
	m.in(fRawBed, iTBed, m.rate*(m.hDry+m.x*m.hWater))
	m.in(fStartBed, iTBed, m.startHeat)
	m.move(fAirBed, iTAir, iTBed, (air-m.unlit)*hAir)
	m.move(fAirGas, iTAir, iTGas, m.unlit*hAir)
	m.move(fBedGas, iTBed, iTGas, m.hBedGas)
	m.move(fFlameBed, iTFlame, iTBed, m.backHeat)
	m.move(fGasFlame, iTGas, iTFlame, m.bedGas.FastH(T1)+m.tarFlow*m.tar.h(T1))
	m.move(fAirFlame, iTAir, iTFlame, m.rowIn*hAir)
	amb := m.airIn - m.rowIn + m.topIn + m.entrained + m.startRate*m.starter.air
	m.in(fAmbFlame, iTFlame, amb*m.airH)
	m.in(fStartFlame, iTFlame, m.startRate*m.starter.h-m.startHeat)
	m.in(fAirIn, iTAir, (air+m.rowIn)*m.airH)
	m.out(fFlueOut, iTFlame, m.hFlue)
	sky := m.upSky * (y[iTBed] - T0)
	m.out(fBedSky, iTBed, sky)
	q[qSky] += sky
	q[qAir] += air + m.rowIn + amb
	q[qPrimary] += air
	q[qSecondary] += m.airIn
	q[qHead] += m.head
	q[qGasOut] += m.hFlue
	q[qUnburned] += m.unburned
	q[qSensible] += m.hFlue - m.flueCold
	f := &m.flue
	q[qCarbon] += f[gas.CO] + f[gas.CO2] + f[gas.CH4] + m.flueTar*m.tar.carbon
	q[qHydrogen] += 2*(f[gas.H2]+f[gas.H2O]) + 4*f[gas.CH4] + m.flueTar*m.tar.hydrogen
	q[qOxygen] += f[gas.CO] + 2*(f[gas.CO2]+f[gas.O2]) + f[gas.H2O] + m.flueTar*m.tar.oxygenE
	q[qNitrogen] += 2 * f[gas.N2]
	q[qDry] += m.rate
	q[qBurned] += m.heatBurned
}

// wallGroup: node i of the fuel can between bed, gas, flame and what is outside.
func (m *model) wallGroup(y []float64, i int) {
	k := m.wall + i
	Tw, TB, T1, T2, TA, T0 := y[k], y[iTBed], y[iTGas], y[iTFlame], y[iTAir], m.T0
	q := &m.q
	inner := math.Pi * m.bore
	w4 := pow4(Tw)
	qb := (m.hBedWall*inner*m.hotPart[i] + m.upWall*m.openPart[i]) * (TB - Tw)
	q1 := inner * m.gasPart[i] * (gasFilm*(T1-Tw) + gasEmissivity*sigma*(m.gas4-w4))
	q2 := inner * m.flamePart[i] * (flameFilm*(T2-Tw) + flameEmiss*sigma*(m.flame4-w4))
	m.move(fBedWall, iTBed, k, qb)
	m.move(fGasWall, iTGas, k, q1)
	m.move(fFlameWall, iTFlame, k, q2)
	q[qWallIn] += qb + q1 + q2
	outside := inner * m.height / float64(m.walls)
	if m.double {
		ha := m.films.annulus * (0.0045 + 7.1e-5*0.5*(Tw+TA)) // conductivity of air, 300 to 700 K within 4 %
		ha = math.Sqrt(ha*ha + sq(m.films.wallL)*rounded(Tw-TA))
		qa := ha * outside * (Tw - TA)
		m.move(fWallAir, k, iTAir, qa)
		j := m.outerAt(i)
		m.move(fWallOuter, k, j, m.emis.annulus*sigma*outside*(w4-pow4(y[j])))
		q[qWallOut] += qa
		return
	}
	qa := outside * (m.film(m.films.wallL, Tw-T0)*(Tw-T0) + m.emis.wall*sigma*(w4-m.amb4))
	m.out(fWallOut, k, qa)
	q[qWallAir] += qa
	q[qWallOut] += qa
}

// outerGroup: node j of the outer can gives to the annulus and outside; what it
// takes from the fuel can is in the wall groups.
func (m *model) outerGroup(y []float64, j int) {
	k := m.outer + j
	T, TA, T0 := y[k], y[iTAir], m.T0
	area := math.Pi * m.outerD * m.outerH / float64(m.outers)
	qa := m.films.annulus * (0.0045 + 7.1e-5*0.5*(T+TA)) * area * (T - TA)
	m.move(fOuterAir, k, iTAir, qa)
	qo := area * (m.film(m.films.outerL, T-T0)*(T-T0) + m.emis.outer*sigma*(pow4(T)-m.amb4))
	m.out(fOuterOut, k, qo)
	m.q[qWallOut] += qa + qo
	m.q[qWallAir] += qo
}

// baseGroup: the fuel can's base between bed, primary air and what is below.
func (m *model) baseGroup(y []float64) {
	T, T0 := y[m.base], m.T0
	q := &m.q
	qb := m.hBedWall * m.area * m.near * (y[iTBed] - T)
	m.move(fBedBase, iTBed, m.base, qb)
	qa := m.toBaseAir * (T - y[iTAir])
	m.move(fBaseAir, m.base, iTBed, qa)
	q[qWallIn] += qb
	q[qWallOut] += qa
	target, em := m.index.ground, m.groundEm
	if m.hasFloor {
		target, em = m.floor, m.floorEmissivity
	}
	Tg := y[target]
	r := m.bore / 2
	F := r * r / (r*r + m.floorGap*m.floorGap)
	down := F * m.area * (sigma/(1/m.emis.base+1/em-1)*(pow4(T)-pow4(Tg)) + 0.03/m.floorGap*(T-Tg))
	m.move(fBaseDown, m.base, target, down)
	side := m.area * ((1-F)*m.emis.base*sigma*(pow4(T)-m.amb4) + 3*(T-T0))
	m.out(fBaseOut, m.base, side)
	q[qWallOut] += side
	q[qWallAir] += side
	if !m.hasFloor {
		q[qWallOut] += down
		q[qGroundIn] += down
	}
}

// floorGroup: the outer can's floor or the plate to the ground.
func (m *model) floorGroup(y []float64) {
	if !m.hasFloor {
		return
	}
	T, Tg := y[m.floor], y[m.index.ground]
	down := m.floorArea * (0.3*sigma*(pow4(T)-pow4(Tg)) + 0.03/m.floorGroundGap*(T-Tg))
	m.move(fFloorGround, m.floor, m.index.ground, down)
	m.q[qWallOut] += down
	m.q[qGroundIn] += down
}

// topGroup: ring, riser and stand between bed, flame and surroundings.
func (m *model) topGroup(y []float64) {
	T, T2, T0 := y[m.top], y[iTFlame], m.T0
	a, out := m.ringArea, 1e-3
	if m.on.stand || m.on.riser {
		a += m.topArea
		out += m.topArea
	}
	t4 := pow4(T)
	up := m.upTop * (y[iTBed] - T)
	m.move(fBedTop, iTBed, m.top, up)
	in := a * (standFilm*(T2-T) + flameEmiss*sigma*(m.flame4-t4))
	m.move(fFlameTop, iTFlame, m.top, in)
	qo := out * (m.film(m.films.topL, T-T0)*(T-T0) + m.emis.wall*sigma*(t4-m.amb4))
	m.out(fTopOut, m.top, qo)
	m.q[qWallIn] += up + in
	m.q[qWallOut] += qo
	m.q[qWallAir] += qo
}

// groundLink: store i of the ground to the next, the last to the depth.
func (m *model) groundLink(y []float64, i int) {
	k := m.index.ground + i
	if i == m.grounds-1 {
		d := m.soil.link[i] * (y[k] - m.T0)
		m.out(fDeep, k, d)
		m.q[qDeep] += d
		return
	}
	m.move(fGround, k, k+1, m.soil.link[i]*(y[k]-y[k+1]))
}

// outerAt is the outer can's node beside the fuel can's node i.
func (m *model) outerAt(i int) int { return m.outer + i*m.outers/m.walls }

// wallLink is conduction along the fuel can from one node to the next.
func (m *model) wallLink(y []float64, i int) {
	k := m.wall + i
	m.move(fWallAlong, k, k+1, wallCond*math.Pi*m.bore*m.wallT*float64(m.walls)/m.height*(y[k]-y[k+1]))
}

// wallCond is steel near 400 °C [W/m K, EN 1993-1-2 gives 39 there].
const wallCond = 40.0
