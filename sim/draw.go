package sim

import (
	"math"

	"toplit/physics/gas"
)

// draw: each air flow is pushed by the heads of the hot columns and the wind
// and held back by what it passes; inertance turns the difference into an
// acceleration.
func (m *model) draw(t float64, y []float64) {
	T1, T2, TA, TB := y[iTGas], y[iTFlame], y[iTAir], y[iTBed]
	for i := range m.dFlow {
		m.dFlow[i] = 0
	}
	rhoA := m.airRho
	perRT := m.P / gas.R
	// Molar masses: what flows, or air where nothing does.
	const trace = 1e-6
	mBed := (m.bedGas.Mass() + m.tarFlow + trace*0.02896) / (m.bedGas.Moles() + m.tarFlow*m.tar.moles + trace)
	mFl := (m.flue.Mass() + m.flueTar + trace*0.02896) / (m.flue.Moles() + m.flueTar*m.tar.moles + trace)
	rho1 := perRT * mBed / T1
	rhoB := perRT * mBed / TB
	rho2 := perRT * mFl / T2
	rhoAnn := rhoA * m.T0 / TA
	m.rhoFlame = rho2

	// Top: throat, column, gap, in the mean flow upward. The starter's own air
	// comes and goes through the open mouth and does not count.
	up := m.topOut - m.topIn + m.startRate
	muF := viscosity(T2)
	dpTop := m.topDrop(up, rho2, muF)
	m.lossRing, m.lossGap = m.ringK*up*math.Abs(up)/(2*rho2), 0
	m.lossGap = dpTop - m.lossRing
	column := gravity * (rhoA - rho2) * m.columnHeight()
	pJ := dpTop - column // at the rim, above the ambient at that height

	wind := m.windHead(t)
	m.wind0 = wind
	zJ := m.zJets
	zTop := min(m.zTop, zJ)
	head2 := gravity * (rhoA - rho2) * (m.height - zJ)
	head1 := gravity * (rhoA - rho1) * (zJ - zTop)
	headB := gravity * (rhoA - rhoB) * m.hChar * m.lit

	// Inlet of a double wall: everything but the leak comes through it.
	var pIn, zIn float64
	muA := viscosity(TA)
	total := y[iFlow]
	for i := range m.rows {
		total += y[iFlow+1+i]
	}
	if m.double && m.inletLaw != nil {
		dp, _ := m.inletLaw.Drop(total, rhoA, viscosity(m.T0))
		pIn = wind - dp*m.holeK
		zIn = m.inlet.height
	} else {
		pIn = wind
	}
	annHead := 0.0
	if m.double {
		annHead = gravity * (rhoA - rhoAnn)
	}

	// Lost in the raw layer above each row that opens into it, and above the
	// base: each stretch carries what came in below it.
	muB := viscosity(TB)
	lossChar := m.kChar.drop(m.mPrim+m.made, rhoB, muB, m.hChar) * m.p[pCharBed]
	lossRaw, through, low := 0.0, m.mPrim, m.hRaw
	for i := len(m.rows) - 1; i >= 0; i-- { // from the highest down
		z := m.hRaw - ramp(m.hRaw-m.rows[i].height, m.w.height)
		lossRaw += m.kRaw.drop(through, rhoAnn, muA, low-z) * m.p[pRawBed]
		m.rawAbove[i] = lossRaw
		through -= y[iFlow+1+i] * m.inBed(i)
		low = z
	}
	lossRaw += m.kRaw.drop(through, rhoAnn, muA, low) * m.p[pRawBed]
	m.lossRaw, m.lossChar = lossRaw, lossChar
	if m.fanP == 0 && m.baseLaw != nil {
		f := y[iFlow]
		dp, _ := m.baseLaw.Drop(f, rhoAnn, muA)
		drop := dp*m.holeK + f*math.Abs(f)*1.5/(2*rhoAnn*m.plenum*m.plenum)
		drop += lossRaw + lossChar
		m.lossBase = dp * m.holeK
		m.dFlow[0] = (pIn - annHead*zIn + headB + head1 + head2 - drop - pJ) / inert
	}
	m.head = headB + head1 + head2 + column + annHead*(m.height-zIn)*0.5
	if m.fanS == 0 {
		for i := range m.rows {
			f := y[iFlow+1+i]
			z := m.rows[i].height
			dp, _ := m.rowLaw[i].Drop(f, rhoAnn, muA)
			drop := dp * m.holeK
			if m.double && z > 0 { // friction of the annulus on the way up
				drop += 12 * muA * z / (rhoAnn * m.annGap * m.annGap * m.annArea) * (total - y[iFlow])
			}
			inside := pJ - gravity*(rhoA-rho2)*(m.height-max(z, zJ)) - gravity*(rhoA-rho1)*max(zJ-max(z, zTop), 0)
			if s := m.inBed(i); s > 0 {
				inside += s * (m.rawAbove[i] + lossChar - headB)
			}
			m.dFlow[1+i] = (pIn + annHead*(z-zIn) - drop - inside) / inert
		}
	}
	if m.leakArea > 0 {
		f := y[iFlow+m.flows-1]
		dp, _ := m.leakLoss.Drop(f, rhoA, viscosity(m.T0))
		m.dFlow[m.flows-1] = (wind*0.5 - dp - pJ) / inert
	}
}

func (m *model) columnHeight() float64 {
	h := 0.0
	if m.on.riser {
		h += m.riserH
	}
	if m.on.stand {
		h += m.columnH - m.riserH
	}
	return h
}

// windHead is the pressure at the inlets less that at the outlet [Pa].
func (m *model) windHead(t float64) float64 {
	u2 := m.wind*m.wind + m.p[pWindCalm]*m.p[pWindCalm]
	q := 0.5 * m.airRho * u2 * (1 + m.gusts*m.gusts)
	if m.gusts > 0 {
		q *= 1 + m.gusts*m.gust(t)
	}
	return q * m.p[pWindCp] * m.sheltered()
}

func (m *model) sheltered() float64 {
	switch m.cond.Air.Shelter {
	case "shroud":
		return 0.05 / 0.3
	case "windscreen":
		return 0.4
	}
	return 1
}

// topDrop is the loss of ring, column and pot gap [Pa] for the upward flow f.
func (m *model) topDrop(f, rho, mu float64) float64 {
	a := math.Abs(f)
	half := 1 / (2 * rho)
	q := m.topK * half
	lin := m.topLin * mu * half
	return m.p[pRing] * f * (q*a + lin)
}

// gust is the fluctuation of the wind about its mean, standard deviation one:
// four slow waves with seeded phases. Faster gusts than half a minute pass the
// stove's own lag and count only through their mean square.
func (m *model) gust(t float64) float64 {
	g := 0.0
	for i, ph := range m.phases {
		g += math.Sin(2*math.Pi*t/gustPeriods[i] + ph)
	}
	return g * 0.7071
}

var gustPeriods = [4]float64{31, 67, 139, 293} // [s], incommensurate
