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
	w := y[m.water] + y[m.mass]
	return w-w == 0 && y[m.water] < 1500
}

// assemble turns flows into rates of the state.
func (m *model) assemble(y, dy []float64) {
	T := y[iTBed]
	dy[iRaw] = -m.rate
	dChar := m.charMade - m.charEat
	dy[iChar] = dChar
	dy[iStart] = -m.startRate
	dy[iLit] = m.dLit
	dy[iVel] = (positive(m.mPrim, m.w.reversal)/(m.airRho*m.area) - y[iVel]) / m.front.memory
	dy[iFlame] = m.dFlame
	for i, v := range m.dFlow {
		dy[iFlow+i] = v
	}
	dy[iTBed] = (m.dE[iTBed] - dChar*m.char.h(T)) / (max(y[iChar], 0)*fuel.CharCp(T) + m.layerC)
	dy[iTGas] = m.dE[iTGas] / gasMass
	dy[iTFlame] = m.dE[iTFlame] / gasMass
	dy[iTAir] = m.dE[iTAir] / gasMass
	for i := 0; i < m.walls; i++ {
		k := m.wall + i
		dy[k] = m.dE[k] / (m.wallC * steelCp(y[k]))
	}
	for i := 0; i < m.outers; i++ {
		k := m.outer + i
		dy[k] = m.dE[k] / (m.outerC * steelCp(y[k]))
	}
	dy[m.base] = m.dE[m.base] / (m.baseMass * steelCp(y[m.base]))
	dy[m.floor] = m.dE[m.floor] / (m.floorC * steelCp(y[m.floor]))
	dy[m.top] = m.dE[m.top] / (m.topMass * steelCp(y[m.top]))
	dy[m.pot] = m.dE[m.pot] / m.potC
	dy[m.water] = m.dE[m.water] / ((max(y[m.mass], 0) + waterFloor) * cWater)
	dy[m.mass] = -m.steam
	for i := 0; i < m.grounds; i++ {
		dy[m.ground+i] = m.dE[m.ground+i] / m.soil.cap[i]
	}
	copy(dy[m.quad:], m.q[:])
}

// waterFloor keeps the water node's heat capacity positive when the pot boils
// dry [kg].
const waterFloor = 1e-3

// Jacobian differences the right-hand side column by column. For a solid only
// the heat exchange is computed anew.
func (m *model) Jacobian(t float64, y, f, jac []float64) {
	n := m.active
	copy(m.yj, y)
	yj := m.yj
	column := func(j int, d float64) {
		id := 1 / d
		for i := range f {
			jac[i*n+j] = (m.fj[i] - f[i]) * id
		}
	}
	for j := 0; j < m.solids; j++ {
		d := m.increment(j, y[j])
		yj[j] = y[j] + d
		m.Rate(t, yj, m.fj)
		column(j, yj[j]-y[j])
		yj[j] = y[j]
	}
	m.stageOne(t, y)
	for j := m.solids; j < n; j++ {
		d := m.increment(j, y[j])
		yj[j] = y[j] + d
		m.stageTwo(yj)
		m.assemble(yj, m.fj)
		column(j, yj[j]-y[j])
		yj[j] = y[j]
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
