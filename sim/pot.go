package sim

import (
	"math"

	"toplit/physics/gas"
	"toplit/physics/heat"
	"toplit/physics/water"
)

// potGroup: gas, flame, bed and stand heat the pot. The films are those that
// package heat checks on pots over a gas flame.
func (m *model) potGroup(y []float64) {
	m.potBase, m.potSide, m.potRad = 0, 0, 0
	if m.cond.Pot == nil {
		return
	}
	T, T0 := y[m.pot], m.T0
	if m.on.pot {
		m.potInFlame(y, T)
		m.move(fPotBase, iTFlame, m.pot, m.potBase)
		m.move(fPotSide, iTFlame, m.pot, m.potSide)
		m.out(fFlueOut, iTFlame, -m.potBase-m.potSide)
		m.potRad = m.upPot * (y[iTBed] - T)
		m.move(fBedPot, iTBed, m.pot, m.potRad)
		side := min(m.topArea, m.potArea) * standView * m.emis.wall * sigma * (pow4(y[m.top]) - pow4(T))
		if !m.on.stand && !m.on.riser {
			side = 0
		}
		m.move(fTopPot, m.top, m.pot, side)
		m.q[qWallOut] += side
		m.q[qPotIn] += m.potBase + m.potSide + m.potRad + side
		m.q[qGasOut] -= m.potBase + m.potSide
		m.q[qSensible] -= m.potBase + m.potSide
		m.q[qPotGas] += m.potBase + m.potSide + m.potRad
	} else {
		loss := m.potSideArea * (m.film(m.films.potL, T-T0)*(T-T0) + m.emis.pot*sigma*(pow4(T)-m.amb4))
		m.out(fPotAir, m.pot, loss)
		m.q[qPotAir] += loss
		m.q[qPotOut] += loss
	}
}

// waterGroup: the pot warms its water, the water steams.
func (m *model) waterGroup(y []float64) {
	m.steam = 0
	if m.cond.Pot == nil {
		return
	}
	T, Tw, mass, T0 := y[m.pot], m.tBoil+y[m.water], y[m.mass], m.T0
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
	out := m.steam * (hfg + cWater*(Tw-T0))
	m.q[qSteam] += out
	m.q[qPotAir] += dry
	m.q[qPotOut] += dry + out
}

// underPot computes what meets the pot, before the pot cools it.
func (m *model) underPot(y []float64) {
	T2 := y[iTFlame]
	theta := min(max(y[iFlame], 0), 1)
	m.throughC = m.cFlue * m.topOut / (m.topOut + m.airOut + 1e-9) // of the gas, what leaves by the throat
	// A hot core reaches the base when the flame is as tall as its room.
	m.coreT = T2 + m.p[pFlameCore]*theta*m.contact()*positive(m.tFlame-T2, 1)
	m.jetSpeed, m.jetWidth = heat.Arrival(m.topOut, m.rhoFlame, m.airRho, m.throatD, m.potHeight)
	// The flame's own radiation, a disc as wide as the jet.
	wet := (m.flue[gas.CO2] + m.flue[gas.H2O]) / (m.flue.Moles() + 1e-12) * m.P
	disc := min(math.Pi/4*m.jetWidth*m.jetWidth, m.potArea)
	m.flameGlow = disc * heat.FlameEmissivity(wet, m.potHeight, sootPerYellow*m.yellow) * theta * sigma
}

// potInFlame is what gas and flame give the pot's base and side.
func (m *model) potInFlame(y []float64, T float64) {
	T2, c, speed := y[iTFlame], m.throughC, m.jetSpeed
	f := heat.FlueFilm(0.5*(m.coreT+T), m.P)
	m.hBase = heat.BaseCoefficient(f, m.jetWidth, speed, m.potHeight, m.cond.Pot.Diameter, heat.BaseFactor*m.p[pPotBase], m.coreT-T)
	// The stream as a whole gives no more than it has above the pot.
	lift := positive(T2-T, 1) + 1
	base := saturate(m.hBase*m.potArea*positive(m.coreT-T, 1)/lift, c)*lift - saturate(m.hBase*m.potArea, c)*positive(T-m.coreT, 1)
	base += m.flameGlow * (pow4(m.coreT) - pow4(T))
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
		Diameter: m.cond.Pot.Diameter, Height: m.cond.Pot.Height, Flow: m.topOut, Cp: m.cFlue / (m.topOut + m.airOut + 1e-9),
		Rho: m.rhoFlame * T2 / past, RhoAir: m.airRho, Speed: speed,
	}
	m.potSide = side.Heat(h, past, T, m.T0)
}

const (
	standView     = 0.35 // share of the stand's inner wall that the pot's base fills, seen from it [judgement]
	sootPerYellow = 3.0  // absorption of soot in a flame of tar and methane alone [1/m]: wood gas flames, a third of whose heat that is, get 1 of the 1 to 5 of yellow ones [judgement]
	surfaceFilm   = 6.0  // dry heat of an open water surface [W/m2 K]: total less evaporation of the open-tank table, 5 to 8
)

// flashTime is how fast water above its boiling point sheds the surplus [s].
const flashTime = 2.0

// dryPot is the water at which a pot's bottom is half dry [kg].
const dryPot = 5e-4
