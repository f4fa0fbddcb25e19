package sim

import (
	"math"

	"toplit/firing"
	"toplit/physics/bed"
	"toplit/physics/flame"
	"toplit/physics/fuel"
	"toplit/physics/gas"
	"toplit/physics/heat"
	"toplit/stove"
	"toplit/stove/catalogue"
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
	m.emis.wall = s.wallEm.at(u)
	m.emis.outer = s.outerEm.at(u)
	m.emis.base = m.emis.wall
	if s.double {
		m.emis.annulus = 1 / (1/m.emis.wall + s.bore/s.outerD*(1/m.emis.outer-1))
	}
	m.emis.pot = s.potEm.at(u)
	m.groundEm = 0.93 // soils and litter 0.9 to 0.97 [memory]
	if p := s.cond.Pot; p != nil {
		m.potArea = math.Pi / 4 * p.Diameter * p.Diameter
		m.waterArea = m.potArea
		depth := s.cond.Water.Mass / 1000 / m.potArea
		m.potSideArea = math.Pi * p.Diameter * p.Height
		m.wetArea = m.potArea + math.Pi*p.Diameter*min(depth, p.Height)
		m.films.potL = c(p.Height)
	}
}

// emission is the range of a surface's emissivity.
type emission struct{ low, high float64 }

func (e emission) at(u float64) float64 { return e.low + (e.high-e.low)*u }

// emissionOf reads a can's or pot's surface; a can nobody described has its tin
// melted and oxidising, which is what most of a burn sees.
func emissionOf(s stove.Surface, metal stove.Metal) (emission, error) {
	if s == "" {
		s = stove.Melted
	}
	if metal == "" {
		metal = stove.Tinplate
	}
	e, err := heat.SurfaceOf(string(s), string(metal))
	if err != nil {
		return emission{}, err
	}
	return emission{e.Low, e.High}, nil
}

// potWater is the coefficient from a pot's metal to water stirred by its own
// convection [W/m2 K, memory].
const potWater = 1200.0

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

// flameHeight is the mean flame height [m] of kw kilowatt over the diameter d
// [m], by Heskestad (package flame).
func flameHeight(kw, d float64) float64 {
	if kw <= 1e-6 {
		return 0
	}
	return max(flame.Heskestad(1000*kw, d), 0)
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

// groundStuff is the ground under the stove as a chain of stores: store 0 is
// the surface.
type groundStuff struct{ cap, link []float64 }

// groundOf lays out the ground below an area [m2] in n stores.
func groundOf(g firing.Ground, area float64, n int) (groundStuff, error) {
	cover := g.Cover
	if cover == "" {
		cover = "mineral soil"
	}
	c, err := catalogue.Cover(cover)
	if err != nil {
		return groundStuff{}, err
	}
	layers := []heat.Layer{{Thickness: g.Depth, K: c.Conductivity, C: c.VolumetricHeat()}}
	if g.Below != "" && g.Depth > 0 {
		b, err := catalogue.Cover(g.Below)
		if err != nil {
			return groundStuff{}, err
		}
		layers = append(layers, heat.Layer{Thickness: 1, K: b.Conductivity, C: b.VolumetricHeat()})
	}
	grid, err := heat.NewGrid(layers, n, 60, 7200)
	if err != nil {
		return groundStuff{}, err
	}
	out := groundStuff{cap: make([]float64, n), link: make([]float64, n)}
	for i := range n {
		out.cap[i], out.link[i] = grid.C[i]*area, grid.G[i]*area
	}
	return out, nil
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
