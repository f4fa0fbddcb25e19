package sim

import (
	"math"

	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// Dim is the length of the state, quadratures included.
func (m *model) Dim() int { return m.dim }

// Rate is the right-hand side: a pure function of t and y.
func (m *model) Rate(t float64, y, dy []float64) {
	if !m.sane(y) { // a trial point no stove reaches: the solver shortens its step
		for i := range dy {
			dy[i] = math.NaN()
		}
		return
	}
	m.stageOne(t, y)
	m.stageTwo(y)
	m.assemble(y, dy)
}

// sane says that every temperature is one the property tables know and that
// nothing is a NaN.
func (m *model) sane(y []float64) bool {
	for _, v := range y[:iTBed] {
		if v-v != 0 {
			return false
		}
	}
	for _, v := range y[iTBed : iTAir+1] {
		if !(v > 150 && v < 3500) {
			return false
		}
	}
	for _, v := range y[m.solids:m.water] {
		if !(v > 150 && v < 3500) {
			return false
		}
	}
	least := -5e-7 * m.dry0
	if y[iRaw] < least || y[iChar] < least || y[iVolatile] < least || y[iStart] < least || y[m.mass] < least {
		return false
	}
	if y[m.water] > 0.01 && y[m.mass] > dryPot {
		return false
	}
	w := y[m.water] + y[m.mass]
	return w-w == 0 && y[m.water] < 1500
}

// capacities writes the heat capacity of every temperature of the state.
func (m *model) capacities(y []float64) {
	c := m.cap
	c[iTBed] = max(y[iChar]+y[iVolatile], 0)*fuel.CharCp(y[iTBed]) + m.layerC
	c[iTGas], c[iTFlame], c[iTAir] = gasMass, gasMass, gasMass
	for i := m.wall; i < m.wall+m.walls; i++ {
		c[i] = m.wallC * steelCp(y[i])
	}
	for i := m.outer; i < m.outer+m.outers; i++ {
		c[i] = m.outerC * steelCp(y[i])
	}
	c[m.base] = m.baseMass * steelCp(y[m.base])
	c[m.floor] = m.floorC * steelCp(y[m.floor])
	c[m.top] = m.topMass * steelCp(y[m.top])
	c[m.pot] = m.potC
	c[m.water] = (max(y[m.mass], 0) + waterFloor) * cWater
	c[m.mass] = 1 // not a temperature
	copy(c[m.index.ground:], m.soil.cap)
}

// assemble turns flows into rates of the state.
func (m *model) assemble(y, dy []float64) {
	m.capacities(y)
	dy[iRaw] = -m.rate
	dChar := m.charMade - m.charEat
	dy[iChar] = dChar
	dVol := m.volMade - m.volOut
	dy[iVolatile] = dVol
	dy[iStart] = -m.startRate
	dy[iLit] = m.dLit
	dy[iVel] = (positive(m.mPrim, m.w.reversal)/(m.airRho*m.area) - y[iVel]) / m.front.memory
	dy[iFlame] = m.dFlame
	for i, v := range m.dFlow {
		dy[iFlow+i] = v
	}
	dy[iTBed] = (m.dE[iTBed] - dChar*m.char.solid.h(y[iTBed]) - dVol*m.char.volatile.h(y[iTBed])) / m.cap[iTBed]
	for i := iTGas; i <= iTAir; i++ {
		dy[i] = m.dE[i] / gasMass
	}
	for i := m.solids; i < m.active; i++ {
		dy[i] = m.dE[i] / m.cap[i]
	}
	dy[m.mass] = -m.steam
	copy(dy[m.quad:], m.q[:])
}

// waterFloor keeps the water node's heat capacity positive when the pot boils
// dry [kg].
const waterFloor = 1e-3

// Jacobian differences the right-hand side column by column. For a solid only
// the groups it takes part in are computed anew.
func (m *model) Jacobian(t float64, y, f, jac []float64) {
	n := m.active
	copy(m.yj, y)
	yj := m.yj
	for j := 0; j < m.solids; j++ {
		if j == iStart && y[j] < 1e-6*m.start0 { // burned out: only its own decay is left
			if y[j] > 0 {
				jac[j*n+j] = -1 / (m.startTime * m.w.starter)
			}
			continue
		}
		yj[j] = y[j] + m.increment(j, y[j])
		m.Rate(t, yj, m.fj)
		id := 1 / (yj[j] - y[j])
		for i, v := range m.fj {
			jac[i*n+j] = (v - f[i]) * id
		}
		yj[j] = y[j]
	}
	m.stageOne(t, y)
	m.prepare(y)
	m.capacities(y)
	for j := m.solids; j < n; j++ {
		m.solidColumn(j, y, yj, f, jac)
	}
}

// solidColumn is the column of a solid: the change of its groups' flows.
func (m *model) solidColumn(j int, y, yj, f, jac []float64) {
	n := m.active
	dE := m.dE
	clear(dE)
	m.q = [nQuads]float64{}
	m.steam = 0
	m.groups(j, y)
	steam, q0 := m.steam, m.q
	copy(m.dE0, dE[:n])
	clear(dE)
	m.q = [nQuads]float64{}
	yj[j] = y[j] + m.increment(j, y[j])
	m.steam = 0
	m.groups(j, yj)
	d := yj[j] - y[j]
	id := 1 / d
	for i := iTBed; i < n; i++ {
		if v := dE[i] - m.dE0[i]; v != 0 {
			jac[i*n+j] = v * id / m.cap[i]
		}
	}
	for i := range m.q {
		if v := m.q[i] - q0[i]; v != 0 {
			jac[(m.quad+i)*n+j] = v * id
		}
	}
	jac[m.mass*n+j] = -(m.steam - steam) * id
	// Where the heat capacity itself changes, so does what the old flow does.
	k := j
	if j == m.mass {
		k = m.water
	}
	old := m.cap[k]
	switch {
	case j == m.mass:
		m.cap[k] = (max(yj[m.mass], 0) + waterFloor) * cWater
	case j >= m.wall && j <= m.top:
		m.cap[k] = old * steelCp(yj[j]) / steelCp(y[j])
	}
	if now := m.cap[k]; now != old {
		jac[k*n+j] = ((f[k]*old+(dE[k]-m.dE0[k]))/now - f[k]) * id
		m.cap[k] = old
	}
	yj[j] = y[j]
}

// groups evaluates every group the solid of component j takes part in.
func (m *model) groups(j int, y []float64) {
	switch {
	case j < m.outer:
		i := j - m.wall
		m.wallGroup(y, i)
		if i > 0 {
			m.wallLink(y, i-1)
		}
		if i+1 < m.walls {
			m.wallLink(y, i)
		}
	case j < m.base:
		for i := range m.walls {
			if m.outerAt(i) == j {
				m.wallGroup(y, i)
			}
		}
		m.outerGroup(y, j-m.outer)
	case j == m.base:
		m.baseGroup(y)
	case j == m.floor:
		m.baseGroup(y)
		m.floorGroup(y)
	case j == m.top:
		m.topGroup(y)
		m.potGroup(y)
	case j == m.pot:
		m.potGroup(y)
		m.waterGroup(y)
	case j == m.water || j == m.mass:
		m.waterGroup(y)
	default:
		i := j - m.index.ground
		if i == 0 {
			m.baseGroup(y)
			m.floorGroup(y)
		} else {
			m.groundLink(y, i-1)
		}
		m.groundLink(y, i)
	}
}

func (m *model) increment(j int, v float64) float64 {
	const root = 1.5e-8
	return root * max(math.Abs(v), m.scale[j])
}

// steelCp is the heat capacity of carbon steel [J/kg K] at T [K]: EN 1993-1-2
// 3.4.1.2, 425 + 0.773θ − 1.69e-3θ² + 2.22e-6θ³ for 20 to 600 °C, held at its
// 600 °C value above (the peak at 735 °C left out).
func steelCp(T float64) float64 {
	t := min(max(T-273.15, 0), 600)
	return 425 + t*(0.773+t*(-1.69e-3+t*2.22e-6))
}

// steelHeat is its integral from 0 °C [J/kg].
func steelHeat(T float64) float64 {
	th := T - 273.15
	t := min(max(th, 0), 600)
	return t*(425+t*(0.773/2+t*(-1.69e-3/3+t*2.22e-6/4))) + (th-t)*steelCp(T)
}

func viscosity(T float64) float64 { return gas.ViscosityFlue(T) }
