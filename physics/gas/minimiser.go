package gas

import "math"

const (
	converged = 1e-9 // largest relative change of a converged mixture
	maxSteps  = 300
	unknowns  = NElements + 3 // element potentials, graphite, ln n, ln T
	lowestT   = 150.0         // [K]; steps of an adiabatic problem stay between
	highestT  = 7000.0        // [K]
)

// minimiser is one equilibrium problem, scaled to one mole of atoms. Species
// and elements are numbered among those present.
type minimiser struct {
	element [NElements]Element
	b       [NElements]float64 // moles of each element
	ne      int

	gas [NSpecies]Species
	a   [NSpecies][NElements]float64 // atoms in each gas
	ng  int

	logP  float64
	T     float64
	H     float64 // enthalpy over R [K], when adiabatic
	fixed bool    // the temperature is given

	fixedT float64 // that temperature, else NaN

	ln         [NSpecies]float64 // ln of the moles of each gas
	lnN        float64           // ln of the moles of gas
	pi         [NElements]float64
	solid      float64 // moles of graphite
	withSolid  bool
	iterations int

	h, cp, g    [NSpecies]float64 // H/RT, cp/R, G/RT of each gas at T and 1 bar
	hs, cps, gs float64           // of graphite
}

// addGases takes the gases that can be made of the elements present.
func (s *minimiser) addGases(only []Species) {
	allowed := func(sp Species) bool {
		for _, o := range only {
			if o == sp {
				return true
			}
		}
		return only == nil
	}
	var present [NElements]bool
	for _, el := range s.element[:s.ne] {
		present[el] = true
	}
next:
	for sp := range Species(NSpecies) {
		if sp.Condensed() || sp == StandardAir || !allowed(sp) {
			continue
		}
		atoms := sp.Elements()
		for el, n := range atoms {
			if n != 0 && !present[el] {
				continue next
			}
		}
		s.gas[s.ng] = sp
		for k, el := range s.element[:s.ne] {
			s.a[s.ng][k] = atoms[el]
		}
		s.ng++
	}
}

// missing finds an element that nothing allowed can hold.
func (s *minimiser) missing(graphite bool) (Element, bool) {
next:
	for k, el := range s.element[:s.ne] {
		if graphite && el == Carbon {
			continue
		}
		for j := range s.ng {
			if s.a[j][k] > 0 {
				continue next
			}
		}
		return el, true
	}
	return 0, false
}

// start is the first guess: equal amounts, and 3000 K where T is not known.
func (s *minimiser) start(T, H float64) {
	s.T, s.fixedT, s.H, s.fixed = T, T, H, !math.IsNaN(T)
	if !s.fixed {
		s.T = 3000
	}
	s.lnN, s.solid, s.pi = math.Log(0.5), 0, [NElements]float64{}
	for j := range s.ng {
		s.ln[j] = s.lnN - math.Log(float64(s.ng))
	}
	s.properties()
}

// properties evaluates the thermodynamic functions at the present T.
func (s *minimiser) properties() {
	logT := math.Log(s.T)
	for j := range s.ng {
		s.h[j], s.cp[j], s.g[j] = nasa[s.gas[j]].reduced(s.T, logT)
	}
	s.hs, s.cps, s.gs = nasa[Graphite].reduced(s.T, logT)
}

// solve steps until the mixture stands still and returns the last change.
func (s *minimiser) solve() (change float64) {
	for range maxSteps {
		s.iterations++
		x, ok := s.newton()
		if !ok {
			return math.Inf(1)
		}
		change = s.apply(&x)
		if !s.fixed {
			s.properties()
		}
		if change <= converged {
			if change = s.imbalance(); change <= converged {
				return change
			}
		}
	}
	return change
}

// imbalance is the largest relative error of the element balances: large when
// the step has gone to zero although the atoms find no place.
func (s *minimiser) imbalance() (worst float64) {
	var sum [NElements]float64
	for j := range s.ng {
		n := math.Exp(s.ln[j])
		for k := range s.ne {
			sum[k] += s.a[j][k] * n
		}
	}
	for k, el := range s.element[:s.ne] {
		if el == Carbon {
			sum[k] += s.solid
		}
		worst = math.Max(worst, math.Abs(sum[k]/s.b[k]-1))
	}
	return worst
}

// tryGraphite lets solid carbon form when the gas is supersaturated with it,
// and takes it away again when it would be negative: the phase test of RP-1311,
// sec. 3.4.
func (s *minimiser) tryGraphite(change float64) float64 {
	if change <= converged && s.supersaturation() <= 0 {
		return change
	}
	gasOnly := *s
	with := math.Inf(1)
	s.withSolid = true
	if change <= converged {
		with = s.solve()
	}
	if with > converged { // afresh: the gas alone led astray
		s.start(s.fixedT, s.H)
		with = s.solve()
	}
	if with <= converged && s.solid >= 0 {
		return with
	}
	if change <= converged {
		gasOnly.iterations = s.iterations
		*s = gasOnly
	}
	return change
}

// supersaturation is Σ a·π − µ/RT of graphite: above zero, carbon wants out.
func (s *minimiser) supersaturation() float64 {
	for k, el := range s.element[:s.ne] {
		if el == Carbon {
			return s.pi[k] - s.gs
		}
	}
	return math.Inf(-1)
}

// newton solves the reduced equations for the element potentials and the steps
// of graphite, ln n and ln T, in this order; RP-1311, eqs. (2.24) to (2.27).
func (s *minimiser) newton() (x [unknowns]float64, ok bool) {
	var m [unknowns][unknowns + 1]float64
	n := s.ne
	solid, total, temp := -1, 0, -1
	if s.withSolid {
		solid = n
		n++
	}
	total = n
	n++
	if !s.fixed {
		temp = n
		n++
	}
	rhs := unknowns

	N := math.Exp(s.lnN)
	var sum, sumH, sumCp, sumMu, sumHMu, sumHH float64
	for k := range s.ne {
		m[k][rhs] = s.b[k]
	}
	for j := range s.ng {
		nj := math.Exp(s.ln[j])
		mu := s.g[j] + s.ln[j] - s.lnN + s.logP
		h := s.h[j]
		sum += nj
		sumH += nj * h
		sumCp += nj * s.cp[j]
		sumMu += nj * mu
		sumHMu += nj * h * mu
		sumHH += nj * h * h
		for k := range s.ne {
			ank := s.a[j][k] * nj
			if ank == 0 {
				continue
			}
			for i := range k + 1 {
				m[k][i] += ank * s.a[j][i]
			}
			m[k][total] += ank
			m[k][rhs] += ank * (mu - 1)
			if temp >= 0 {
				m[k][temp] += ank * h
			}
		}
	}
	for k := range s.ne {
		for i := range k {
			m[i][k] = m[k][i]
		}
		m[total][k] = m[k][total]
		if temp >= 0 {
			m[temp][k] = m[k][temp]
		}
	}
	// A mixture of exact proportions at low temperature (water alone, say)
	// leaves one potential open: hold it weakly at its last value.
	for k := range s.ne {
		hold := 1e-13 * m[k][k]
		m[k][k] += hold
		m[k][rhs] += hold * s.pi[k]
	}
	m[total][total] = sum - N
	m[total][rhs] = N - sum + sumMu
	if temp >= 0 {
		m[total][temp] = sumH
		m[temp][total] = sumH
		m[temp][temp] = sumCp + sumHH + s.solid*s.cps
		m[temp][rhs] = s.H/s.T - sumH - s.solid*s.hs + sumHMu
	}
	if solid >= 0 {
		for k, el := range s.element[:s.ne] {
			if el == Carbon {
				m[k][solid], m[solid][k] = 1, 1
				m[k][rhs] -= s.solid
			}
		}
		m[solid][rhs] = s.gs
		if temp >= 0 {
			m[solid][temp], m[temp][solid] = s.hs, s.hs
		}
	}
	y, ok := eliminate(&m, n)
	copy(x[:s.ne], y[:s.ne])
	if solid >= 0 {
		x[NElements] = y[solid]
	}
	x[NElements+1] = y[total]
	if temp >= 0 {
		x[NElements+2] = y[temp]
	}
	return x, ok
}

// apply takes the step, shortened as RP-1311, eqs. (3.1) to (3.3), and returns
// the largest relative change it would have made at full length.
func (s *minimiser) apply(x *[unknowns]float64) (change float64) {
	dSolid, dN, dT := x[NElements], x[NElements+1], x[NElements+2]
	N := math.Exp(s.lnN)
	var d [NSpecies]float64
	longest := 5 * math.Max(math.Abs(dN), math.Abs(dT))
	shortest := 1.0
	for j := range s.ng {
		mu := s.g[j] + s.ln[j] - s.lnN + s.logP
		step := dN + s.h[j]*dT - mu
		for k := range s.ne {
			step += s.a[j][k] * x[k]
		}
		d[j] = step
		share := s.ln[j] - s.lnN
		change = math.Max(change, math.Exp(share)*math.Abs(step))
		if share > -18.420681 { // mole fraction 1e-8
			longest = math.Max(longest, step)
		} else if step >= 0 && step-dN > 0 {
			// a trace gas grows to no more than 1e-4 in one step
			shortest = math.Min(shortest, math.Abs((-share-9.2103404)/(step-dN)))
		}
	}
	change = math.Max(change, math.Max(math.Abs(dN), math.Abs(dT)))
	change = math.Max(change, math.Abs(dSolid)/N)
	f := math.Min(1, shortest)
	if longest > 2 {
		f = math.Min(f, 2/longest)
	}
	if f < 1 {
		change = math.Max(change, 2*converged) // a shortened step is not the last
	}
	for j := range s.ng {
		s.ln[j] += f * d[j]
	}
	s.lnN += f * dN
	s.solid += f * dSolid
	s.T = math.Min(math.Max(s.T*math.Exp(f*dT), lowestT), highestT)
	copy(s.pi[:], x[:s.ne])
	return change
}

// eliminate solves the first n of the equations by Gauss elimination with row
// pivoting; the last column is the right-hand side.
func eliminate(m *[unknowns][unknowns + 1]float64, n int) (x [unknowns]float64, ok bool) {
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		if !(math.Abs(m[p][c]) > 0) {
			return x, false
		}
		m[c], m[p] = m[p], m[c]
		for r := c + 1; r < n; r++ {
			f := m[r][c] / m[c][c]
			if f == 0 {
				continue
			}
			for k := c; k < n; k++ {
				m[r][k] -= f * m[c][k]
			}
			m[r][unknowns] -= f * m[c][unknowns]
		}
	}
	for r := n - 1; r >= 0; r-- {
		v := m[r][unknowns]
		for k := r + 1; k < n; k++ {
			v -= m[r][k] * x[k]
		}
		if x[r] = v / m[r][r]; math.IsNaN(x[r]) || math.IsInf(x[r], 0) {
			return x, false
		}
	}
	return x, true
}
