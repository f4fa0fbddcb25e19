package sim

import (
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// charStuff is the char the front leaves, in two parts: the solid that stays
// when it is heated through, and what further heat drives out of it, hydrogen
// and CO. Fresh char of a top-lit bed was made at about 700 °C; when its own
// burning takes it to 950 °C the difference leaves within minutes and feeds the
// last, blue flame.
type charStuff struct {
	made     fuel.Analysis // as the front leaves it
	share    float64       // of volatiles in it
	solid    stuff
	volatile stuff
	h2, co   float64 // that a kilogram of volatiles leaves as [mol/kg]
}

// stuff is a solid as the balances see it.
type stuff struct {
	el  gas.Elements // [mol/kg]
	hf  float64      // enthalpy at 298.15 K [J/kg]
	lhv float64      // [J/kg]
}

func (s *stuff) h(T float64) float64 { return s.hf + fuel.CharHeat(T) }

const (
	charMadeAt  = fuel.CharTemperature // [K]
	charHotAt   = 1223.15              // 950 °C: hottest char bed seen in updraft stoves (Deng et al., 950 to 1050 °C) [K]
	volatileLag = 60.0                 // time in which char gives up what its temperature no longer holds [s, judgement]
)

// newCharStuff splits char made at charMadeAt into what it still is at
// charHotAt (composition by Neves et al. 2011, fuel.Char) and the rest, its
// oxygen leaving as CO and its hydrogen as H2.
func newCharStuff(made fuel.Analysis) charStuff {
	made = made.AshFree()
	hot := fuel.Char(charHotAt)
	// Share v such that carbon leaves only with oxygen: (made − (1−v)·hot) has
	// C:O = 1:1 in moles.
	ratio := gas.AtomicMass(gas.Carbon) / gas.AtomicMass(gas.Oxygen)
	v := 1 - (made.Carbon-ratio*made.Oxygen)/(hot.Carbon-ratio*hot.Oxygen)
	c := charStuff{made: made, share: v}
	part := func(whole, rest float64) float64 { return (whole - (1-v)*rest) / v }
	c.solid = stuff{el: hot.Elements(), hf: hot.Formation(), lhv: hot.LHV()}
	var e gas.Elements
	me := made.Elements()
	for i := range e {
		e[i] = part(me[i], c.solid.el[i])
	}
	c.volatile = stuff{el: e, hf: part(made.Formation(), c.solid.hf), lhv: part(made.LHV(), c.solid.lhv)}
	c.h2, c.co = e[gas.Hydrogen]/2, e[gas.Carbon]
	return c
}

// devolatilise is how fast the char gives up volatiles [kg/s]: with the char
// that is eaten, and what its temperature T [K] no longer holds.
func (m *model) devolatilise(T float64, y []float64) float64 {
	v, solid := max(y[iVolatile], 0), max(y[iChar], 0)
	held := (charHotAt - T) / (charHotAt - charMadeAt) // share still held, of what fresh char holds
	held = 1 - ramp(1-ramp(held, 0.1), 0.1)
	keeps := held * m.char.share / (1 - m.char.share) * solid
	over := max(v-keeps, 0) // exactly nothing leaves at what is held: a rounded corner would let it go below
	return v/(solid+1e-6*m.dry0)*m.charEat + over*over/(over+1e-4*m.dry0)/volatileLag
}
