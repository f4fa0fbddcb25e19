package sim

import (
	"math"

	"toplit/physics/bed"
	"toplit/physics/gas"
)

// charTable holds what the char layer does as functions of its temperature
// alone, so that a step of the integration reads them instead of evaluating
// exponentials: bed.Char's rates, the split of CO and CO2, and how fast CO burns
// in the voids.
type charTable struct {
	nodes [charNodes]charNode
}

type charNode struct {
	o2, co2  float64 // surface rates [m/s]
	still    float64 // transfer without flow [m/s]
	moving   float64 // transfer by flow, over the mass flux to the power 0.6
	split    float64 // logarithm of CO/CO2 at the surface
	voidRate float64 // of CO burning in the voids [1/s]
	stretch  float64 // velocity over the mass flux [m3/kg]
}

const (
	charNodes = 64
	charLow   = 500.0 // [K]; colder char does nothing
	charStep  = 25.0  // [K]
)

// fill tables the layer for pieces of size d [m] at the pressure P [Pa].
//
// The voids: CO leaving the surface burns while there is oxygen, the share 1 −
// exp(−t/τ), τ by Howard, Williams and Fine 1973, −d[CO]/dt = 1.3e14·[CO]·
// [H2O]^½·[O2]^½·exp(−30000 cal/RT) mol, cm³, s [memory], with 7 % oxygen, the
// mean of a zone where it falls from air to nothing, and 1.5 % water. Char
// takes radicals out of the gas, hence the wide prior on the rate (voids).
func (c *charTable) fill(d, P, blend, voids float64) {
	for i := range c.nodes {
		T := charLow + charStep*float64(i)
		n := &c.nodes[i]
		n.o2, n.co2 = bed.CharO2(T), bed.CharCO2(T)
		at0, at1 := bed.Transfer(0, d, T, P), bed.Transfer(1, d, T, P)
		n.still, n.moving = at0, at1-at0
		n.split = math.Log(bed.CarbonRatio(T, blend))
		conc := P / (gas.R * T) * 1e-6 // [mol/cm3]
		n.voidRate = voids * 1.3e14 * conc * math.Sqrt(0.015*0.07) * math.Exp(-15098/T)
		n.stretch = rAir * T / P
	}
}

// at reads the table at T [K] by cubic interpolation; below it the rates fade
// to nothing.
func (c *charTable) at(T float64) (n charNode) {
	x := (T - charLow) / charStep
	if x <= 1 {
		n = c.nodes[1]
		f := max(x, 0)
		f *= f
		n.o2 *= f
		n.co2 *= f
		n.voidRate *= f
		return n
	}
	i := min(int(x), charNodes-3)
	v := min(x-float64(i), 1)
	v2 := v * v
	v3 := v2 * v
	wa, wb, wc, wd := 0.5*(2*v2-v-v3), 0.5*(2-5*v2+3*v3), 0.5*(v+4*v2-3*v3), 0.5*(v3-v2)
	p, q, r, s := &c.nodes[i-1], &c.nodes[i], &c.nodes[i+1], &c.nodes[i+2]
	n.o2 = wa*p.o2 + wb*q.o2 + wc*r.o2 + wd*s.o2
	n.co2 = wa*p.co2 + wb*q.co2 + wc*r.co2 + wd*s.co2
	n.still = wa*p.still + wb*q.still + wc*r.still + wd*s.still
	n.moving = wa*p.moving + wb*q.moving + wc*r.moving + wd*s.moving
	n.split = wa*p.split + wb*q.split + wc*r.split + wd*s.split
	n.voidRate = wa*p.voidRate + wb*q.voidRate + wc*r.voidRate + wd*s.voidRate
	n.stretch = wa*p.stretch + wb*q.stretch + wc*r.stretch + wd*s.stretch
	return n
}

// charBurned is what oxygen did to hot char.
type charBurned struct {
	eaten   float64 // char [kg/s]
	oxygen  float64 // O2 taken [mol/s]
	co, co2 float64 // made [mol/s]
	h2, h2o float64
}

// charBurn lets the oxygen that the front left meet the char layer
// (bed.Char), and the CO2 made there meet more char. Each carbon brings the
// char's own hydrogen and oxygen with it. air [kg/s] flows up, o2 [mol/s] is
// the oxygen in it that meets char, T [K] the bed.
func (m *model) charBurn(T, air, o2 float64) charBurned {
	if m.hChar <= 0 || o2 <= 0 {
		return charBurned{}
	}
	n := m.charTable.at(T)
	G := air/m.area + 1e-9
	u := G * n.stretch
	h := n.still + n.moving*math.Exp(0.6*math.Log(G))
	surface := 6 * (1 - m.charVoid) / m.charSize * m.hChar
	used := o2 * (1 - math.Exp(-surface*n.o2*h/((n.o2+h)*u)))
	// In the zone that still holds oxygen the CO burns in the voids; CO2 turns
	// back to CO only above it: a thick layer feeds a blue flame, a thin one
	// glows without. A layer thinner than the zone leaves oxygen in the gas, and
	// the CO burns above it just as well.
	zone := m.p[pCharZone] * m.charSize
	burned := 1 - math.Exp(-n.voidRate*zone*m.charVoid/(u+1e-3))
	depth := ramp(m.hChar-zone, m.w.height)
	again := 1 - math.Exp(-6*(1-m.charVoid)/m.charSize*depth*n.co2*h/((n.co2+h)*u))
	r := math.Exp(n.split)
	r = (1 - burned) * r / (1 + burned*r)
	el := &m.char.solid.el
	oc, hc := el[gas.Oxygen]/el[gas.Carbon], el[gas.Hydrogen]/el[gas.Carbon]
	carbon := 2 * used / ((2+r)/(1+r) + burned*hc/2 - oc) // from the oxygen balance; hydrogen burns as CO does
	water := burned * carbon * hc / 2
	co2 := carbon / (1 + r)
	co := carbon - co2
	g := co2 * again // C + CO2 = 2 CO
	more := g / (1 - oc)
	co += g + more
	co2 -= g
	carbon += more
	return charBurned{eaten: carbon / el[gas.Carbon], oxygen: used, co: co, co2: co2, h2: carbon*hc/2 - water, h2o: water}
}
