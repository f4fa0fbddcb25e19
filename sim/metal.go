package sim

import (
	"fmt"
	"math"

	"toplit/firing"
	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/physics/gas"
	"toplit/stove"
)

// setMetal fills masses, films and emissivities of the stove and the pot.
func (m *model) setMetal() {
	const steel = 7850.0
	s := m.site
	m.wallC = math.Pi * s.bore * s.height / float64(m.walls) * s.wallT * steel
	m.outerC = 1
	if s.double {
		m.outerC = math.Pi * s.outerD * s.outerH / float64(m.outers) * s.outerT * steel
	}
	m.baseMass = max((s.area-s.base.area)*s.wallT*steel, 0.005)
	m.floorC = max(s.floorMass, 0.05)

	c := func(l float64) float64 { return 1.42 / quarter(max(l, 0.01)) } // laminar plate in air, Nu = 0.59 Ra^(1/4)
	m.films.wallL, m.films.outerL, m.films.topL = c(s.height), c(max(s.outerH, 0.01)), c(max(s.columnH, 0.05))
	wind2 := s.wind*s.wind + m.p[pWindCalm]*m.p[pWindCalm]
	d := s.bore
	if s.double {
		d = s.outerD
	}
	// Cylinder in cross-flow, Nu = 0.683 Re^0.466 (Hilpert, Re 40 to 4000 [memory]).
	re := math.Sqrt(wind2) * d / 1.5e-5
	hw := 0.683 * math.Pow(re, 0.466) * 0.026 / d
	if s.cond.Air.Shelter != firing.Open && s.cond.Air.Shelter != "" {
		hw *= 0.5
	}
	m.films.wind = hw * hw
	if s.double {
		m.films.annulus = 4.86 / (2 * s.annGap)
	}
	u := m.p[pEmissivity]
	m.emis.wall = surfaceEmissivity(s.fuelSurface, u)
	m.emis.outer = surfaceEmissivity(s.outerSurface, u)
	m.emis.base = m.emis.wall
	if s.double {
		m.emis.annulus = 1 / (1/m.emis.wall + s.bore/s.outerD*(1/m.emis.outer-1))
	}
	m.emis.pot = 0.3
	m.groundEm = 0.93 // soils and litter 0.9 to 0.97 [memory]
	if p := s.cond.Pot; p != nil {
		m.potArea = math.Pi / 4 * p.Diameter * p.Diameter
		m.waterArea = m.potArea
		depth := s.cond.Water.Mass / 1000 / m.potArea
		m.potSideArea = math.Pi * p.Diameter * p.Height
		m.wetArea = m.potArea + math.Pi*p.Diameter*min(depth, p.Height)
		m.films.potL = c(p.Height)
		m.films.potBase, m.films.potSide = potBaseFilm, potSideFilm
	}
}

// surfaceEmissivity is the emissivity of a steel can's surface at the place u
// (0 to 1) in the range of its state.
func surfaceEmissivity(s stove.Surface, u float64) float64 {
	lo, hi := 0.3, 0.6 // tin melted and oxidising: what most of a burn sees
	switch s {
	case stove.Bright:
		lo, hi = 0.05, 0.1
	case stove.Oxidised, stove.Painted:
		lo, hi = 0.7, 0.9
	}
	return lo + (hi-lo)*u
}

// Films of the pot at the anchor of the gas flame (package heat has the check).
const (
	potBaseFilm = 28.0   // [W/m2 K]
	potSideFilm = 12.0   // [W/m2 K]
	potWater    = 1200.0 // metal to water, stirred by its own convection [W/m2 K, memory]
)

// baseFilm is the coefficient of the pot's base in the flame [W/m2 K].
func (m *model) baseFilm(Tg, Tp float64) float64 { return m.p[pPotBase] * m.films.potBase }

// sideShare is how much of the gas's heat above ambient is left, on average, in
// what rises along the pot's side: an open flame draws in cold air, a skirt
// keeps it out.
func (m *model) sideShare() float64 {
	if m.skirtGap > 0 {
		return 0.85
	}
	return 0.45
}

// contact is how fully the flame reaches the pot: flame height against the
// room it has.
func (m *model) contact() float64 {
	if m.potHeight <= 0 {
		return 1
	}
	kw := max(m.heatBurned, 0) / 1000
	L := flameHeight(kw, m.throatD)
	return step(L/m.potHeight-1, 0.8)
}

// flameHeight is Heskestad's mean flame height [m] of kw kilowatt over the
// diameter d [m]: 0.235·Q^0.4 − 1.02·d.
func flameHeight(kw, d float64) float64 {
	if kw <= 1e-6 {
		return 0
	}
	return max(0.235*math.Exp(0.4*math.Log(kw))-1.02*d, 0)
}

// viewUp is the view factor from the bed's top to the throat's plane.
func (m *model) viewUp() float64 {
	h := max(m.height-m.zTop, 0.005)
	r := m.bore / 2
	R := r / h
	S := 1 + (1+R*R)/(R*R)
	return 0.5 * (S - math.Sqrt(max(S*S-4, 0)))
}

// viewPot is the share of what passes the throat that meets the pot's base.
func (m *model) viewPot() float64 {
	h := max(m.potHeight, 0.005)
	r1, r2 := m.throatD/2, m.cond.Pot.Diameter/2
	R1, R2 := r1/h, r2/h
	S := 1 + (1+R2*R2)/(R1*R1)
	k := R2 / R1
	return 0.5 * (S - math.Sqrt(max(S*S-4*k*k, 0)))
}

// groundStuff is the ground under the stove in nodes: node 0 is the surface.
type groundStuff struct{ cap, link []float64 }

// groundOf cuts the ground below an area [m2] into n nodes whose spacing grows
// with depth.
func groundOf(g firing.Ground, area float64, n int) (groundStuff, error) {
	cover := g.Cover
	if cover == "" {
		cover = "mineral soil"
	}
	c, err := coverOf(cover)
	if err != nil {
		return groundStuff{}, err
	}
	k, rc := c.Conductivity, c.Density*c.HeatCapacity
	below, deepK, deepRC := g.Depth, k, rc
	if g.Below != "" && g.Depth > 0 {
		b, err := coverOf(g.Below)
		if err != nil {
			return groundStuff{}, err
		}
		deepK, deepRC = b.Conductivity, b.Density*b.HeatCapacity
	}
	at := func(z float64) (float64, float64) {
		if below > 0 && z > below {
			return deepK, deepRC
		}
		return k, rc
	}
	// Depth reached by heat in an hour, three times over.
	depth := 3 * math.Sqrt(4*k/rc*3600)
	if depth <= 0 || math.IsNaN(depth) {
		return groundStuff{}, fmt.Errorf("ground cover %q has no depth of heating", cover)
	}
	z := make([]float64, n+1)
	for i := range z {
		u := float64(i) / float64(n)
		z[i] = depth * u * u
	}
	out := groundStuff{cap: make([]float64, n), link: make([]float64, n)}
	for i := 0; i < n; i++ {
		lo := z[i]
		if i > 0 {
			lo = 0.5 * (z[i-1] + z[i])
		}
		hi := 0.5 * (z[i] + z[i+1])
		_, r := at(0.5 * (lo + hi))
		out.cap[i] = r * (hi - lo) * area
		kk, _ := at(0.5 * (z[i] + z[i+1]))
		out.link[i] = kk * area / (z[i+1] - z[i])
	}
	return out, nil
}

// boiling is the temperature at which water boils at the pressure p [Pa].
func boiling(p float64) float64 {
	T := 373.15
	for range 20 {
		T -= (vapour(T) - p) / ((vapour(T+0.01) - vapour(T)) / 0.01)
	}
	return T
}

func (s *site) readStarter(c *firing.Starter) error {
	kind := c.Kind
	if kind == "" {
		kind = "alcohol"
	}
	b, err := bed.StarterByName(kind)
	if err != nil {
		return err
	}
	// What it is made of: an alcohol, a wax or oil, or wood. Only the element
	// balance needs it; the heat is the table's.
	a := fuel.Analysis{Carbon: 0.521, Hydrogen: 0.131, Oxygen: 0.348}
	switch {
	case b.LHV > 35e6:
		a = fuel.Analysis{Carbon: 0.856, Hydrogen: 0.144}
	case b.LHV < 25e6 && kind != "gel":
		a = fuel.Analysis{Carbon: 0.51, Hydrogen: 0.06, Oxygen: 0.43}
	}
	e := a.Elements()
	s.starter = starterStuff{Starter: b, el: e}
	st := &s.starter
	o2 := e[gas.Carbon] + e[gas.Hydrogen]/4 - e[gas.Oxygen]/2
	st.products[gas.CO2] = e[gas.Carbon]
	st.products[gas.H2O] = e[gas.Hydrogen] / 2
	st.products[gas.O2] = -o2
	st.air = starterAir * o2 / s.airO2
	st.h = b.LHV + st.products.H(gas.T0)
	return nil
}

// starterAir is the air the starter's open flame draws over what it needs.
// [judgement]
const starterAir = 1.5
