package sim

import (
	"math"

	"toplit/firing"
	"toplit/physics/bed"
	"toplit/physics/draft"
	"toplit/physics/fuel"
	"toplit/physics/gas"
	"toplit/physics/heat"
	"toplit/physics/water"
	"toplit/stove"
)

// newSite reads a firing once for all samples of a band.
func newSite(f *firing.Firing, n nodes) (*site, error) {
	l, err := newLayout(f)
	if err != nil {
		return nil, err
	}
	s := &site{layout: l, cond: f.Conditions, n: n}
	s.air0()
	s.fanP, s.fanS = f.Design.Fan.Primary, f.Design.Fan.Secondary
	if err := s.readFuel(&f.Conditions.Fuel); err != nil {
		return nil, err
	}
	if err := s.readStarter(&f.Conditions.Starter); err != nil {
		return nil, err
	}
	if s.wallEm, err = emissionOf(s.fuelSurface, s.wallMetal); err != nil {
		return nil, err
	}
	if s.outerEm, err = emissionOf(s.outerSurface, stove.Tinplate); err != nil {
		return nil, err
	}
	if err := s.laws(); err != nil {
		return nil, err
	}
	if err := s.readPot(); err != nil {
		return nil, err
	}
	if depth := s.fuelDepth(); depth > s.height*1.1 { // a tenth may be heaped
		return nil, lack("charge stands %.0f mm deep, the fuel can is %.0f mm; load less or take a taller can", 1000*depth, 1000*s.height)
	}
	if s.soil, err = groundOf(f.Conditions.Ground, s.floorArea, n.grounds); err != nil {
		return nil, err
	}
	s.shape = newIndex(2+len(s.rows), s.n.walls, s.outerNodes(), s.n.grounds)
	s.pattern, err = sparsity(&s.shape)
	return s, err
}

func (s *site) readFuel(c *firing.Fuel) error {
	species := c.Species
	if species == "" {
		species = "softwood pellets"
	}
	fu, err := fuel.ByName(species)
	if err != nil {
		return err
	}
	if c.Carbon > 0 {
		fu.Analysis = fuel.Analysis{Carbon: c.Carbon, Hydrogen: c.Hydrogen, Oxygen: c.Oxygen, Nitrogen: c.Nitrogen, Ash: c.Ash}
		if err := fu.Analysis.Check(); err != nil {
			return err
		}
	}
	fu.Moisture = c.Moisture // 0 is oven-dry, not "unknown": the reader fills what is left out
	if c.BulkDensity > 0 {
		fu.Bulk = c.BulkDensity
	}
	if c.Size > 0 {
		fu.Size = c.Size
	}
	if c.Length > 0 {
		fu.Length = c.Length
	}
	if !(fu.Moisture >= 0 && fu.Moisture < 0.6) {
		return lack("fuel moisture %.3g, want 0 to 0.6 kg water per kg wet fuel", fu.Moisture)
	}
	s.fuel = fu
	a := fu.Analysis
	s.el = a.Elements()
	s.hDry = a.Formation() + fuel.WoodHeat(s.T0)
	s.lhvDry = a.LHV()
	s.stoich = a.AirDemand()
	ch := fuel.StoveChar()
	s.char = newCharStuff(ch)
	s.charStoich = ch.AirDemand()
	s.feed = bed.NewFeed(a, ch)
	te := fuel.Tar().Elements()
	s.tar = tarStuff{
		lhv: fuel.TarLHV(), oxygen: fuel.Tar().OxygenDemand(), moles: 1 / fuel.TarMolarMass,
		carbon: te[gas.Carbon], hydrogen: te[gas.Hydrogen], oxygenE: te[gas.Oxygen],
	}
	return nil
}

// laws builds the pressure laws of the openings.
func (s *site) laws() error {
	law := func(o opening) (*draft.Discharge, error) {
		count := max(1, int(math.Round(o.n)))
		return draft.NewHoles(draft.Holes{
			Count: count, Diameter: o.d, Area: o.area / float64(count), Thickness: min(o.wall, 9*o.d), Edge: edgeOf(o.edge),
		})
	}
	var err error
	if s.base.area > 0 {
		if s.baseLaw, err = law(s.base); err != nil {
			return err
		}
	}
	for _, r := range s.rows {
		w, err := law(r)
		if err != nil {
			return err
		}
		s.rowLaw = append(s.rowLaw, w)
	}
	if s.inlet.area > 0 {
		if s.inletLaw, err = law(s.inlet); err != nil {
			return err
		}
	}
	// The flame begins at the rows above the fuel.
	depth := s.fuelDepth()
	var z, a float64
	for _, r := range s.rows {
		if r.height > depth {
			z += r.height * r.area
			a += r.area
		}
	}
	s.zJets = s.height
	if a > 0 {
		s.zJets = min(z/a, s.height)
	}
	return nil
}

func edgeOf(e stove.Edge) draft.Edge {
	switch e {
	case stove.PunchedIn:
		return draft.BurrTrailing
	case stove.PunchedOut:
		return draft.BurrFacing
	}
	return draft.Sharp
}

// fuelDepth is how deep the charge lies [m].
func (s *site) fuelDepth() float64 {
	c := s.cond.Charge
	switch {
	case c.Depth > 0:
		return c.Depth
	case c.Volume > 0:
		return c.Volume / s.area
	default:
		return c.Mass / s.fuel.Bulk / s.area
	}
}

func (s *site) readPot() error {
	s.tBoil = water.SaturationTemperature(s.P)
	s.tSat = s.tBoil
	p := s.cond.Pot
	if p == nil {
		s.potC = 100
		return nil
	}
	if !(p.Diameter > 0.02) || !(p.Height > 0) || !(p.Mass > 0) {
		return lack("pot of diameter %.4g m, height %.4g m, mass %.4g kg: want all positive, diameter above 0.02", p.Diameter, p.Height, p.Mass)
	}
	metal := p.Metal
	if metal == "" {
		metal = stove.Stainless
	}
	md, err := heat.MetalOf(string(metal))
	if err != nil {
		return err
	}
	s.potC = p.Mass * md.Cp(373)
	if s.potEm, err = emissionOf(stove.Oxidised, metal); err != nil {
		return err
	}
	if t := s.cond.Water.Target; t > 0 {
		s.tSat = min(t, s.tBoil)
	}
	return nil
}

// reset makes m the model of a sample, keeping its storage.
func (m *model) reset(s *site, p Params, w widths) error {
	x := s.shape
	m.site, m.p, m.w, m.index = s, p, w, x
	if m.part == nil {
		m.part = wholeShares()
	}
	if len(m.dE) != x.dim || len(m.dFlow) != x.flows || len(m.hotPart) != x.walls {
		m.dE, m.yj, m.fj, m.scale = make([]float64, x.dim), make([]float64, x.dim), make([]float64, x.dim), make([]float64, x.dim)
		m.dFlow, m.rawAbove = make([]float64, x.flows), make([]float64, x.flows)
		m.dE0, m.cap = make([]float64, x.dim), make([]float64, x.dim)
		m.hotPart, m.gasPart, m.flamePart, m.openPart = make([]float64, x.walls), make([]float64, x.walls), make([]float64, x.walls), make([]float64, x.walls)
	}
	m.on = parts{ring: true, riser: true, stand: true}

	// Charge: a mass stays a mass; a volume or depth takes the sampled density.
	M := min(max(s.fuel.Moisture+p[pMoisture], 0), 0.6)
	m.x = M / (1 - M)
	bulk := s.fuel.Bulk * p[pBulkDensity] * (1 - s.fuel.Moisture) / (1 - M) // dry bulk density does not know the moisture error
	wet := s.cond.Charge.Mass
	switch {
	case s.cond.Charge.Volume > 0:
		wet = s.cond.Charge.Volume * bulk
	case s.cond.Charge.Depth > 0:
		wet = s.cond.Charge.Depth * s.area * bulk
	}
	if !(wet > 0.001) {
		return lack("charge of %.4g kg, want more than 1 g", wet)
	}
	m.dry0 = wet * (1 - M)
	m.water0 = wet * M
	m.rhoDry = bulk * (1 - M)
	m.front.fill(s, &m.p, m.x)
	typical := bed.Yield(bed.YieldIn{Velocity: 0.02, Size: s.fuel.Size, Density: s.fuel.Density, Moisture: m.x, Charred: s.fuel.Charred()})
	m.rhoChar = typical * m.rhoDry / bed.CharHeight
	m.layerC = m.front.layer * m.rhoDry * s.area * 1700
	raw := bed.NewLayer(s.fuel, 1, s.bore)
	raw.Fines = s.cond.Fuel.Fines
	m.kRaw = newBedLoss(raw)
	char := bed.CharLayer(raw, 1)
	m.kChar = newBedLoss(char)
	m.charSize, m.charVoid = char.Size, char.Void
	m.charTable.fill(char.Size, s.P, p[pCOSplit], p[pVoidBurning])

	m.start0 = s.cond.Starter.Mass
	m.cover = s.starter.Covered(m.start0, s.area)
	m.startTime = max(s.starter.Duration(m.start0, s.area), 10) * p[pStarterTime]

	m.holeK = 1 / (p[pHoles] * p[pHoles])
	m.leakArea = p[pLeaks] * s.holesArea
	if s.reactorOnly {
		m.leakArea = 0
	}
	m.leakLoss = draft.Loss{Area: max(m.leakArea, 1e-12), Diameter: 1e-3, K: 2.7, Laminar: 60}
	m.setTop()
	m.setMetal()
	m.tFlameMin = p[pCriticalFlame]
	m.mix = m.mixing()
	m.openAir = 1.3
	m.amb4 = pow4(s.T0)
	m.vapour0 = s.cond.Air.Humidity * water.SaturationPressure(s.T0)
	m.hWater = fuel.LiquidWater() + fuel.WaterCp*(s.T0-gas.T0)
	m.setScale()
	return nil
}

func (s *site) outerNodes() int {
	if s.double {
		return s.n.outers
	}
	return 0
}

// mixing is the share of the gas that burns once the flame stands: a ring or
// many jets mix better than a plain can. [judgement, from the oxygen and CO
// left by controlled pellet burners (Krüger 2021) and can stoves]
func (m *model) mixing() float64 {
	lo, hi := 0.80, 0.97
	if m.ringArea > 0 {
		lo, hi = 0.90, 0.99
	}
	return lo + (hi-lo)*m.p[pMixing]
}

// setTop sums the losses of throat, column and outlet for the parts that
// stand on the stove now.
func (m *model) setTop() {
	s := m.site
	throat := s.throat
	free := !m.on.stand && !m.on.riser || s.standOpen
	f := min(throat/s.area, 1)
	edge := 0.707 * cubeRootish(1-f)
	k := (1 - f + edge) * (1 - f + edge) // plate between equal pipes, Idelchik 4-14
	if free {
		k = (1 + edge) * (1 + edge) // into the open, the velocity is lost
	}
	m.topK = k / (throat * throat)
	m.ringK = m.topK * m.p[pRing]
	m.topLin = 150 * max(k, 0.5) / (s.throatD * throat)
	if free {
		if m.on.pot && s.potHeight > 0 { // what leaves between ring and pot
			a := math.Pi * max(s.throatD, 0.02) * s.potHeight
			m.topK += 1 / (a * a)
		}
		return
	}
	c := s.columnArea
	if m.on.riser && s.riserArea > 0 && s.riserArea < c {
		r := s.riserArea / c
		m.topK += (0.5*(1-r) + (1-r)*(1-r)) / (s.riserArea * s.riserArea)
	}
	if m.on.pot {
		a := math.Pi*s.standD*s.gap + s.windows
		if a < 1e-6 {
			a = 1e-6
		}
		d := 2 * max(s.gap, 1e-4)
		m.topK += 2.7 / (a * a)
		m.topLin += 60 / (d * a)
		if g := s.skirtGap; g > 0 {
			b := math.Pi * (s.cond.Pot.Diameter + g) * g
			m.topK += 1.5 / (b * b)
			m.topLin += 24 * s.skirtH / (g * g * b) // 12 µ v L/s², as half ρ v² over ρ v
		}
	} else {
		a := c + s.windows
		m.topK += 1 / (a * a)
	}
}

// cubeRootish is x^0.375.
func cubeRootish(x float64) float64 {
	r := math.Sqrt(math.Sqrt(math.Sqrt(max(x, 0))))
	return r * r * r
}

// bedLoss is the pressure drop of a layer per metre in the flow [Pa].
type bedLoss struct{ lin, quad float64 }

func newBedLoss(l bed.Layer) bedLoss {
	l.Depth = 1
	a, b := l.Coefficients(1, 1)
	return bedLoss{a, b}
}

// drop is the loss over the height h for the flow f [kg/s] of density rho and
// viscosity mu.
func (b bedLoss) drop(f, rho, mu, h float64) float64 {
	return f * (b.lin*mu + b.quad*math.Abs(f)) / rho * h
}

// setScale sets the typical size of each component, for tolerances and
// differences.
func (m *model) setScale() {
	for i := range m.scale {
		m.scale[i] = 300
	}
	m.scale[iRaw], m.scale[iChar], m.scale[iStart] = m.dry0, m.dry0, max(m.start0, 1e-3)
	m.scale[iVolatile] = 0.01 * m.dry0
	m.scale[iLit], m.scale[iVel], m.scale[iFlame] = 1, 0.02, 1
	for i := range m.flows {
		m.scale[iFlow+i] = 3e-4
	}
	m.scale[m.water] = 30
	m.scale[m.mass] = max(m.cond.Water.Mass, 0.1)
}

// start writes the state at lighting.
func (m *model) start(y []float64) {
	clear(y)
	y[iRaw] = m.dry0
	y[iStart] = m.start0
	T := m.T0
	for _, i := range []int{iTBed, iTGas, iTFlame, iTAir} {
		y[i] = T
	}
	warm := T
	if m.cond.Warm > 0 {
		warm = m.cond.Warm
	}
	for i := m.solids; i < m.active; i++ {
		y[i] = T
	}
	y[m.water] = T - m.tBoil
	for i := m.wall; i <= m.top; i++ {
		y[i] = warm
	}
	if m.cond.Pot != nil {
		tw := m.cond.Water.Temperature
		if tw == 0 {
			tw = T
		}
		y[m.pot], y[m.water] = tw, tw-m.tBoil
	}
	y[m.mass] = m.cond.Water.Mass
	if m.fanP > 0 {
		y[iFlow] = m.fanP
	}
}
