package sim

import (
	"math"

	"toplit/physics/heat"
	"toplit/physics/water"

	"toplit/physics/gas"
)

// heatflow is stage two of the right-hand side: heat between gas, bed, metal,
// pot, ground and surroundings, and the sum of all flows into each stock.
type heatflow struct {
	q        [nQuads]float64
	potBase  float64 // into the pot's base from gas and flame [W]
	potSide  float64
	potRad   float64
	steam    float64 // [kg/s]
	coreT    float64 // gas temperature the pot's base sees [K]
	wallHot  float64
	baseNet  float64
	groundIn float64
	hBase    float64
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
	flameEmiss    = 0.12 // of a small partly yellow flame
)

func sq(x float64) float64   { return x * x }
func pow4(x float64) float64 { return sq(sq(x)) }

// film is natural convection from a surface dT hotter than the air, joined
// with the wind's forced convection: √(h_n² + h_f²) [W/m2 K].
func (m *model) film(c, dT float64) float64 {
	h := c * softQuarter(dT)
	return math.Sqrt(h*h + m.films.wind)
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
	return -c * math.Expm1(-r)
}

// stageTwo adds up the joules. E is dE, one entry per component of the state
// that is a temperature; m.q collects what crosses the boundary.
func (m *model) stageTwo(y []float64) {
	E := m.dE
	clear(E)
	q := &m.q
	*q = [nQuads]float64{}
	TB, T1, T2, TA := y[iTBed], y[iTGas], y[iTFlame], y[iTAir]
	T0 := m.T0

	// --- bed: fuel and air in, gas out ---
	air := positive(m.mPrim, m.w.reversal)
	base := y[m.base]
	hAirAnn := m.airH + 1012*(TA-T0)
	m.in(fRawBed, iTBed, m.rate*(m.hDry+m.x*m.hWater))
	m.in(fStartBed, iTBed, m.startHeat)
	m.move(fAirBed, iTAir, iTBed, (air-m.unlit)*hAirAnn)
	m.move(fAirGas, iTAir, iTGas, m.unlit*hAirAnn)
	m.move(fBedGas, iTBed, iTGas, m.hBedGas)
	m.move(fFlameBed, iTFlame, iTBed, m.backHeat)
	ba := saturate(2*6*m.area, air*1012+1e-6)
	m.move(fBaseAir, m.base, iTBed, ba*(base-TA))
	q[qWallOut] += ba * (base - TA)

	// --- zone of wood gas, zone of flame ---
	h1 := m.bedGas.FastH(T1) + m.tarFlow*m.tar.h(T1)
	m.move(fGasFlame, iTGas, iTFlame, h1)
	m.move(fAirFlame, iTAir, iTFlame, m.rowIn*hAirAnn)
	amb := m.airIn - m.rowIn + m.topIn + m.entrained + m.startRate*m.starter.air
	m.in(fAmbFlame, iTFlame, amb*m.airH)
	m.in(fStartFlame, iTFlame, m.startRate*m.starter.h-m.startHeat)
	m.in(fAirIn, iTAir, (air+m.rowIn)*m.airH)
	q[qAir] = air + m.rowIn + amb
	q[qPrimary] = air
	q[qSecondary] = m.airIn
	q[qHead] = m.head

	// --- bed to can, base, pot and sky ---
	kBed := 0.08 + 5.6e-10*TB*TB*TB // Kunii and Smith evaluated for pellets, 500 to 1300 K [W/m K]
	hBW := m.p[pBedWall] / (m.fuel.Size/(2*kBed) + m.bore/(8*kBed))
	dz := m.height / float64(m.walls)
	inner := math.Pi * m.bore
	hot0, hot1 := m.hRaw-m.front.layer*m.there, m.zTop
	exposedAll := positive(m.height-hot1, m.w.height)
	up := m.viewUp()
	Tenv := T0
	if m.walls > 0 {
		Tenv = y[m.wall+m.walls-1]
	}
	hr := 4 * bedEmissivity * sigma * cube(0.5*(TB+Tenv))
	hi := m.cpBed/m.area + kBed/(0.5*m.hChar+m.front.layer)
	uTop := m.p[pBedRadiation] * hi * hr / (hi + hr) * m.area * m.lit
	for i := 0; i < m.walls; i++ {
		k := m.wall + i
		Tw := y[k]
		z0, z1 := float64(i)*dz, float64(i+1)*dz
		w := m.w.height
		ov := ramp(z1-hot0, w) - ramp(z0-hot0, w) - ramp(z1-hot1, w) + ramp(z0-hot1, w)
		ab := ramp(z1-hot1, w) - ramp(z0-hot1, w) // above the bed
		fl := ramp(z1-m.zJets, w) - ramp(z0-m.zJets, w)
		gs := max(ab-fl, 0)
		qb := hBW * inner * ov * m.lit * (TB - Tw)
		qt := 0.0
		if ab > 0 {
			qt = uTop * (1 - up) * ab / exposedAll * (TB - Tw)
		}
		q1 := inner * gs * (4*(T1-Tw) + gasEmissivity*sigma*(pow4(T1)-pow4(Tw)))
		q2 := inner * fl * (6*(T2-Tw) + flameEmiss*sigma*(pow4(T2)-pow4(Tw)))
		m.move(fBedWall, iTBed, k, qb+qt)
		m.move(fGasWall, iTGas, k, q1)
		m.move(fFlameWall, iTFlame, k, q2)
		q[qWallIn] += qb + qt + q1 + q2
		outside := inner * dz
		if m.double {
			ha := m.films.annulus * (0.0045 + 7.1e-5*0.5*(Tw+TA))
			ha = math.Sqrt(ha*ha + sq(m.films.wallL*softQuarter(Tw-TA)))
			qa := ha * outside * (Tw - TA)
			m.move(fWallAir, k, iTAir, qa)
			j := m.outerAt(i)
			qr := m.emis.annulus * sigma * outside * (pow4(Tw) - pow4(y[j]))
			m.move(fWallOuter, k, j, qr)
			q[qWallOut] += qa
		} else {
			qa := outside * (m.film(m.films.wallL, Tw-T0)*(Tw-T0) + m.emis.wall*sigma*(pow4(Tw)-pow4(T0)))
			m.out(fWallOut, k, qa)
			q[qWallAir] += qa
			q[qWallOut] += qa
		}
	}
	top, pot := y[m.top], y[m.pot]
	open := m.throat / m.area
	toTop := uTop * up * (1 - min(open, 1)) * (TB - top)
	m.move(fBedTop, iTBed, m.top, toTop)
	q[qWallIn] += toTop
	through := uTop * up * min(open, 1)
	if m.on.pot {
		r := through * m.viewPot() * (TB - pot)
		m.move(fBedPot, iTBed, m.pot, r)
		m.potRad = r
		q[qPotIn] += r
		s := through * (1 - m.viewPot()) * (TB - T0)
		m.out(fBedSky, iTBed, s)
		q[qSky] += s
	} else {
		m.potRad = 0
		s := through * (TB - T0)
		m.out(fBedSky, iTBed, s)
		q[qSky] += s
	}
	near := m.lit * math.Exp(-m.hRaw/m.front.layer)
	qb := hBW * m.area * near * (TB - base)
	m.move(fBedBase, iTBed, m.base, qb)
	q[qWallIn] += qb

	m.outerCan(y)
	m.topMetal(y)
	m.potAndWater(y)
	m.below(y)

	// --- gas out ---
	flue := m.hFlue - m.potBase - m.potSide
	m.out(fFlueOut, iTFlame, flue)
	q[qGasOut] = flue
	q[qUnburned] = m.unburned
	q[qSensible] = m.hFlue - m.flueCold - m.potBase - m.potSide
	f := &m.flue
	q[qCarbon] = f[gas.CO] + f[gas.CO2] + f[gas.CH4] + m.flueTar*m.tar.carbon
	q[qHydrogen] = 2*(f[gas.H2]+f[gas.H2O]) + 4*f[gas.CH4] + m.flueTar*m.tar.hydrogen
	q[qOxygen] = f[gas.CO] + 2*(f[gas.CO2]+f[gas.O2]) + f[gas.H2O] + m.flueTar*m.tar.oxygenE
	q[qNitrogen] = 2 * f[gas.N2]
	q[qDry] = m.rate
	q[qBurned] = m.heatBurned
	q[qPotGas] = m.potBase + m.potSide + m.potRad
}

func cube(x float64) float64 { return x * x * x }

// outerCan: the outer can takes the inner's radiation and gives to the air in
// the annulus and outside.
func (m *model) outerCan(y []float64) {
	if !m.double {
		return
	}
	T0, TA := m.T0, y[iTAir]
	area := math.Pi * m.outerD * m.outerH / float64(m.outers)
	for j := 0; j < m.outers; j++ {
		k := m.outer + j
		T := y[k]
		ha := m.films.annulus * (0.0045 + 7.1e-5*0.5*(T+TA))
		qa := ha * area * (T - TA)
		m.move(fOuterAir, k, iTAir, qa)
		qo := area * (m.film(m.films.outerL, T-T0)*(T-T0) + m.emis.outer*sigma*(pow4(T)-pow4(T0)))
		m.out(fOuterOut, k, qo)
		m.q[qWallOut] += qa + qo
		m.q[qWallAir] += qo
	}
}

// topMetal: ring, riser and stand between flame and surroundings.
func (m *model) topMetal(y []float64) {
	T, T2, T0 := y[m.top], y[iTFlame], m.T0
	a := m.ringArea
	out := 0.0
	if m.on.stand || m.on.riser {
		a += m.topArea
		out = m.topArea
	}
	in := a * (7*(T2-T) + flameEmiss*sigma*(pow4(T2)-pow4(T)))
	m.move(fFlameTop, iTFlame, m.top, in)
	qo := (out + 1e-3) * (m.film(m.films.topL, T-T0)*(T-T0) + m.emis.wall*sigma*(pow4(T)-pow4(T0)))
	m.out(fTopOut, m.top, qo)
	m.q[qWallIn] += in
	m.q[qWallOut] += qo
	m.q[qWallAir] += qo
	if m.on.pot && out > 0 {
		r := min(m.topArea, m.potArea) * 0.35 * m.emis.wall * sigma * (pow4(T) - pow4(y[m.pot]))
		m.move(fTopPot, m.top, m.pot, r)
		m.q[qWallOut] += r
		m.q[qPotIn] += r
	}
}

// potAndWater: the flame heats the pot, the pot its water, the water steams.
// The films are those that package heat checks on pots over a gas flame.
func (m *model) potAndWater(y []float64) {
	m.potBase, m.potSide, m.steam = 0, 0, 0
	if m.cond.Pot == nil {
		return
	}
	T, Tw, mass, T0 := y[m.pot], m.tBoil+y[m.water], y[m.mass], m.T0
	if m.on.pot {
		m.potInFlame(y, T)
		m.move(fPotBase, iTFlame, m.pot, m.potBase)
		m.move(fPotSide, iTFlame, m.pot, m.potSide)
		m.q[qPotIn] += m.potBase + m.potSide
	} else {
		loss := m.potSideArea * (m.film(m.films.potL, T-T0)*(T-T0) + m.emis.pot*sigma*(pow4(T)-pow4(T0)))
		m.out(fPotAir, m.pot, loss)
		m.q[qPotAir] += loss
		m.q[qPotOut] += loss
	}
	wet := max(mass, 0) / (max(mass, 0) + dryPot)
	toWater := potWater * m.wetArea * wet * (T - Tw)
	m.move(fPotWater, m.pot, m.water, toWater)
	// Surface: evaporation by vapour pressure, and dry heat.
	lid := 1.0
	if m.cond.Pot.Lid {
		lid = m.p[pLid]
	}
	ev := m.p[pEvaporation] * lid * heat.Evaporation(water.SaturationPressure(min(Tw, 400)), m.vapour0) * m.waterArea * wet
	dry := m.waterArea * surfaceFilm * (Tw - T0) * wet
	hfg := water.LatentHeat(min(Tw, 400))
	net := toWater - ev - dry
	flash := max(mass, 0) * cWater / flashTime * ramp(y[m.water], m.w.boil/4) // water that got too hot
	boil := step(y[m.water]+m.w.boil/2, m.w.boil)*positive(net, 1e-2)*min(1, wet*4) + flash*wet
	m.steam = (ev + boil) / hfg
	m.out(fSteam, m.water, ev+boil)
	m.out(fWaterAir, m.water, dry)
	m.q[qSteam] = m.steam * (hfg + cWater*(Tw-T0))
	m.q[qPotAir] += dry
	m.q[qPotOut] += dry + m.q[qSteam]
}

// potInFlame is what gas and flame give the pot's base and side.
func (m *model) potInFlame(y []float64, T float64) {
	T2 := y[iTFlame]
	theta := min(max(y[iFlame], 0), 1)
	share := m.topOut / (m.topOut + m.airOut + 1e-9) // of the gas that leaves by the throat
	c := m.cFlue * share
	// A hot core reaches the base when the flame is as tall as its room.
	m.coreT = T2 + flameCore*theta*m.contact()*positive(m.tFlame-T2, 1)
	speed, width := heat.Arrival(m.topOut, m.rhoFlame, m.airRho, m.throatD, m.potHeight)
	f := heat.FlueFilm(0.5*(m.coreT+T), m.P)
	m.hBase = heat.BaseCoefficient(f, width, speed, m.potHeight, m.cond.Pot.Diameter, heat.BaseFactor*m.p[pPotBase], m.coreT-T)
	base := saturate(m.hBase*m.potArea, c) * (m.coreT - T)
	// The flame's own radiation, a disc as wide as the jet.
	wet := (m.flue[gas.CO2] + m.flue[gas.H2O]) / (m.flue.Moles() + 1e-12) * m.P
	disc := min(math.Pi/4*width*width, m.potArea)
	base += disc * heat.FlameEmissivity(wet, m.potHeight, 0) * theta * sigma * (pow4(m.coreT) - pow4(T))
	m.potBase = base
	// What is left rises along the side.
	past := max(T2-base/(c+1e-3), min(T, m.T0))
	film := heat.FlueFilm(0.5*(past+T), m.P)
	if m.skirtGap > 0 {
		u := m.topOut / (m.rhoFlame * math.Pi * (m.cond.Pot.Diameter + m.skirtGap) * m.skirtGap)
		h := m.p[pPotSide] * heat.SkirtCoefficient(film, m.skirtGap, m.skirtH, u)
		a := math.Pi * m.cond.Pot.Diameter * min(m.skirtH, m.cond.Pot.Height)
		m.potSide = saturate(h*a, c) * (past - T)
		return
	}
	h := m.p[pPotSide] * heat.SideCoefficient(film, m.cond.Pot.Height, speed, past-T)
	side := heat.Side{
		Diameter: m.cond.Pot.Diameter, Height: m.cond.Pot.Height, Flow: m.topOut * 1, Cp: m.cFlue / (m.topOut + m.airOut + 1e-9),
		Rho: m.rhoFlame * T2 / past, RhoAir: m.airRho, Speed: speed,
	}
	m.potSide = side.Heat(h, past, T, m.T0)
}

const (
	flameCore   = 0.25 // share of the flame root's excess temperature that the base sees in full contact [judgement]
	surfaceFilm = 6.0  // dry heat of an open water surface [W/m2 K]: total less evaporation of the open-tank table, 5 to 8
)

// flashTime is how fast water above its boiling point sheds the surplus [s].
const flashTime = 2.0

// dryPot is the water at which a pot's bottom is half dry [kg].
const dryPot = 5e-4

// below: base to floor to ground.
func (m *model) below(y []float64) {
	Tb, T0 := y[m.base], m.T0
	Tg := y[m.ground]
	target, em, gap := m.ground, m.groundEm, m.floorGap
	if m.hasFloor {
		target, em = m.floor, m.floorEmissivity
		Tg = y[m.floor]
	}
	r := m.bore / 2
	F := r * r / (r*r + gap*gap)
	eff := 1 / (1/m.emis.base + 1/em - 1)
	air := 0.03 / gap * m.area
	down := F*eff*sigma*m.area*(pow4(Tb)-pow4(Tg)) + air*F*(Tb-Tg)
	m.move(fBaseDown, m.base, target, down)
	side := (1-F)*m.emis.base*sigma*m.area*(pow4(Tb)-pow4(T0)) + 3*m.area*(Tb-T0)
	m.out(fBaseOut, m.base, side)
	m.q[qWallOut] += side
	m.q[qWallAir] += side
	if m.hasFloor {
		Tf, T := y[m.floor], y[m.ground]
		q := m.floorArea * (0.3*sigma*(pow4(Tf)-pow4(T)) + 0.03/m.floorGroundGap*(Tf-T))
		m.move(fFloorGround, m.floor, m.ground, q)
		m.q[qWallOut] += q
		m.q[qGroundIn] += q
	} else {
		m.q[qWallOut] += down
		m.q[qGroundIn] += down
	}
	g := &m.soil
	for i := 0; i+1 < m.grounds; i++ {
		k := m.ground + i
		m.move(fGround, k, k+1, g.link[i]*(y[k]-y[k+1]))
	}
	k := m.ground + m.grounds - 1
	d := g.link[m.grounds-1] * (y[k] - T0)
	m.out(fDeep, k, d)
	m.q[qDeep] = d
}

// outerAt is the outer can's node beside the fuel can's node i.
func (m *model) outerAt(i int) int { return m.outer + i*m.outers/m.walls }
