package sim

import "math"

// Figure is one number of a burn. NaN means it never came.
type Figure int

// The moments, then the figures, in the order they are shown. Moments count
// from lighting.
const (
	FJetsLit Figure = iota
	FBoil
	FFrontAtGrate
	FYellowGone
	FFlameOut
	FGlowEnd
	FTimeToBoil
	FFlameTime
	FHeatTime
	FFirepower
	FFirepowerGross
	FCookingPower
	FFuelFlux
	FCharYield
	FEfficiency
	FEfficiencyChar
	FSecondaryPrimary
	FExcessAir
	FDraft
	FSwirl
	FJetReach
	FBurnOut
	FBaseMax
	FGroundMax
	nFigures
)

// FigureInfo names a figure for people and machines.
type FigureInfo struct {
	Key, Unit, Name string
	Moment          bool
	Basis           string // what it is reckoned from
}

// Figures describes every Figure, in order.
func Figures() []FigureInfo { return append([]FigureInfo(nil), figureInfo[:]...) }

var figureInfo = [nFigures]FigureInfo{
	{"jets_lit_s", "s", "jets lit", true, "after lighting: flame state first above one half"},
	{"boil_s", "s", "boil", true, "after lighting: water at local saturation, or at its target"},
	{"front_at_grate_s", "s", "front at grate", true, "after lighting: 3 % of the charge left raw"},
	{"yellow_gone_s", "s", "yellow gone", true, "after lighting: tar and methane below 12 % of the flame's heat, for good"},
	{"flame_out_s", "s", "flame-out", true, "after lighting: last gas flame below one half, for good"},
	{"glow_end_s", "s", "glow end", true, "after lighting: bed below 773 K, for good"},
	{"time_to_boil_s", "s", "time to boil", false, "from pot on"},
	{"flame_time_s", "s", "flame time", false, "lit to flame-out"},
	{"heat_time_s", "s", "usable heat", false, "lit to glow end"},
	{"firepower_mean_W", "W", "firepower", false, "net heating value as fired less that of the char made, jets lit to front at grate"},
	{"firepower_gross_W", "W", "firepower, char included", false, "net heating value as fired of the fuel turned, jets lit to front at grate"},
	{"cooking_power_W", "W", "cooking power", false, "heat into water and steam, pot on to front at grate"},
	{"fuel_flux_kg_m2_s", "kg/m2 s", "fuel flux", false, "fuel as fired per bore area, jets lit to front at grate"},
	{"char_yield", "1", "char yield", false, "char and ash per dry fuel turned, when the front is at the grate"},
	{"efficiency", "1", "efficiency", false, "heat into water and steam over the heating value as fired turned, pot on to front at grate, no char credit"},
	{"efficiency_char_credit", "1", "efficiency with char credit", false, "the same, less the heating value of the char made"},
	{"secondary_primary_air", "1", "secondary to primary air", false, "by mass, jets lit to front at grate"},
	{"excess_air", "1", "excess air ratio", false, "all air over what fuel less char needs, jets lit to front at grate"},
	{"draft_Pa", "Pa", "draft", false, "mean buoyant head, jets lit to front at grate"},
	{"swirl_number", "1", "swirl number", false, "angular over axial momentum at the throat, mean of the flame"},
	{"jet_penetration_ratio", "1", "jet reach", false, "upper bound of the jets' reach over half the bore, mean of the flame"},
	{"co_burnout_ratio", "1", "CO burn-out", false, "time in the flame over the time 99 % of CO needs, mean of the flame; 3 or more is wanted"},
	{"base_temperature_max_K", "K", "hottest base", false, "of the fuel can's base"},
	{"ground_temperature_max_K", "K", "hottest ground", false, "ground surface under the stove"},
}

// String is the figure's key.
func (f Figure) String() string { return figureInfo[f].Key }

type figures [nFigures]float64

// figures reads the run that has just ended.
func (b *burner) figures() figures {
	var f figures
	m := &b.seen.m
	for i := range f {
		f[i] = math.NaN()
	}
	f[FJetsLit], f[FBoil], f[FFrontAtGrate], f[FYellowGone], f[FFlameOut], f[FGlowEnd] = m.JetsLit, m.Boil, m.FrontAtGrate, m.YellowGone, m.FlameOut, m.GlowEnd
	f[FTimeToBoil] = m.Boil - m.PotOn
	f[FFlameTime] = m.FlameOut
	f[FHeatTime] = m.GlowEnd
	f[FBaseMax], f[FGroundMax] = b.seen.baseMax, b.seen.groundMax

	// Over the wood-gas phase: from the jets to the front's arrival at the
	// grate, or to the flame's end when that is sooner.
	t0, y0 := m.JetsLit, b.seen.atJets
	if math.IsNaN(t0) {
		t0, y0 = 0, b.y
	}
	t1, y1 := m.FrontAtGrate, b.seen.atGrate
	if math.IsNaN(t1) || m.FlameOut < t1 && m.FlameOut > t0+60 {
		t1, y1 = m.FlameOut, b.seen.atOut
	}
	if math.IsNaN(t1) || !(t1 > t0+1) {
		return f
	}
	dt := t1 - t0
	q0, q1 := y0[b.quad:], y1[b.quad:]
	dry := q1[qDry] - q0[qDry]
	char := b.charHeat(y1) - b.charHeat(y0)
	lhv := b.lhvDry - b.x*2.443e6
	f[FFirepowerGross] = dry * lhv / dt
	f[FFirepower] = (dry*lhv - char) / dt
	f[FFuelFlux] = dry * (1 + b.x) / (b.area * dt)
	if turned := q1[qDry]; turned > 0 {
		f[FCharYield] = (y1[iChar] + y1[iVolatile] + turned*b.front.ash) / turned
	}
	primary, secondary := q1[qPrimary]-q0[qPrimary], q1[qSecondary]-q0[qSecondary]
	f[FSecondaryPrimary] = secondary / math.Max(primary, 1e-12)
	need := dry*b.stoich - (y1[iChar]+y1[iVolatile]-y0[iChar]-y0[iVolatile])*b.charStoich
	f[FExcessAir] = (q1[qAir] - q0[qAir]) / math.Max(need, 1e-12)
	f[FDraft] = (q1[qHead] - q0[qHead]) / dt

	if b.cond.Pot != nil && !math.IsNaN(m.PotOn) {
		p0, p1 := math.Max(m.PotOn, 0), t1
		yp := b.seen.atPot
		if p1 > p0+1 && len(yp) > 0 {
			qp := yp[b.quad:]
			heat := b.useful(yp, y1)
			d := q1[qDry] - qp[qDry]
			c := b.charHeat(y1) - b.charHeat(yp)
			f[FCookingPower] = heat / (p1 - p0)
			if d > 1e-5 {
				f[FEfficiency] = heat / (d * lhv)
				if net := d*lhv - c; net > 0 {
					f[FEfficiencyChar] = heat / net
				}
			}
		}
	}
	b.flameMeans(&f, t0, t1)
	return f
}

// charHeat is the heating value of the char in the stove [J].
func (m *model) charHeat(y []float64) float64 {
	return y[iChar]*m.char.solid.lhv + y[iVolatile]*m.char.volatile.lhv
}

// useful is the heat the water took between two states: warming and steam [J].
func (m *model) useful(y0, y1 []float64) float64 {
	w := func(y []float64) float64 { return y[m.mass] * cWater * (m.tBoil + y[m.water] - m.T0) }
	return w(y1) - w(y0) + y1[m.quad+qSteam] - y0[m.quad+qSteam]
}

// flameMeans averages what is cheap to know only at instants over the gas
// flame: at eight evenly spaced times of the stored track.
func (b *burner) flameMeans(f *figures, t0, t1 float64) {
	const n = 8
	k := &b.track
	defer b.with(b.on)
	if len(k.t) < 2 {
		return
	}
	var swirl, reach, burn float64
	for i := range n {
		t := t0 + (t1-t0)*(float64(i)+0.5)/n
		x := t / k.grid
		j := min(int(x), len(k.t)-2)
		u := min(x-float64(j), 1)
		y := k.work
		for c := range y {
			y[c] = k.y[j][c]*(1-u) + k.y[j+1][c]*u
		}
		b.with(k.on[j])
		b.stageOne(t, y)
		s, r, o := b.flameState(y)
		swirl += s / n
		reach += r / n
		burn += o / n
	}
	f[FSwirl], f[FJetReach], f[FBurnOut] = swirl, reach, burn
}

// flameState is swirl number, jet reach over half the bore, and residence over
// CO burn-out time at one instant, after stageOne.
func (m *model) flameState(y []float64) (swirl, reach, burnout float64) {
	T2 := y[iTFlame]
	var count, area float64
	var flow, angular float64
	for i, r := range m.rows {
		if m.inBed(i) > 0.5 {
			continue
		}
		q := max(y[iFlow+1+i], 0)
		count += r.n
		area += r.area
		flow += q
		if r.slant != 0 {
			uj := q / (m.airRho * m.T0 / y[iTAir] * r.area)
			angular += q * uj * math.Sin(r.slant) * m.bore / 2
		}
	}
	total := m.topOut + 1e-12
	ut := total / (m.rhoFlame * m.throat)
	axial := total * ut * m.throatD / 2
	swirl = (angular + total*ut*m.swirlSine*m.throatD/3) / axial
	if area > 0 && flow > 0 {
		rhoJ := m.airRho * m.T0 / y[iTAir]
		uj := flow / (rhoJ * area * 0.65) // speed in the contracted jet
		rhoG := m.P / (rAir * y[iTGas])
		ugas := m.bedMass() / (rhoG * m.area)
		J := rhoJ * uj * uj / (rhoG*ugas*ugas + 1e-9)
		d := math.Sqrt(area/count*4/math.Pi) * 0.8 // effective diameter, d √Cd
		reach = 1.25 * d * math.Sqrt(J) * m.bedMass() / (m.bedMass() + flow) / (m.bore / 2)
	}
	// Time from the jets to the pot, or to the end of the column, at flame speed.
	room := max(m.height-m.zJets+m.flameRoom, 0.02)
	vol := room * math.Min(m.area, math.Max(m.throat, 1e-6)*1.5)
	t := vol * m.rhoFlame / total
	hot := 0.5 * (T2 + m.tFlame)
	burnout = t / coTime(hot, m.P)
	return swirl, reach, burnout
}

// coTime is the time in which 99 % of CO burns with 5 % oxygen and 10 % water
// [s]: Howard, Williams and Fine 1973 [memory].
func coTime(T, p float64) float64 {
	c := p / (8.314462618 * T) * 1e-6
	return 4.605 / (1.3e14 * c * math.Sqrt(0.10*0.05) * math.Exp(-15098/T))
}
