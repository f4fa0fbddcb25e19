package gas

import "math"

// The table of the core gases: in steps of 20 K the cubic that has h and cp of
// the NASA form at both ends. 1000 K, where the NASA ranges meet, is a node.
const (
	fastLow   = 200.0 // [K]
	fastStep  = 20.0  // [K]
	fastSteps = 140
	fastHigh  = fastLow + fastStep*fastSteps // 3000 K
)

// fastRow is h = c0 + u·(c1 + u·(c2 + u·c3)) [J/mol] of each core gas, u the
// distance from the row's start in steps.
type fastRow struct{ c0, c1, c2, c3 Mix }

// fastTable is the enthalpies, with a row for each step between a straight line
// below and one above. It is filled once at start and never written again.
var fastTable = func() (t [fastSteps + 2]fastRow) {
	for sp := range NCore {
		h := func(i int) float64 { return Species(sp).H(fastLow + fastStep*float64(i)) }
		c := func(i int) float64 { return Species(sp).Cp(fastLow+fastStep*float64(i)) * fastStep }
		fillRows(&t, sp, h, c)
	}
	return t
}()

// fillRows writes the rows of one gas from its value and its slope, per step,
// at each node.
func fillRows(t *[fastSteps + 2]fastRow, sp int, value, slope func(node int) float64) {
	v, c := value(0), slope(0)
	t[0].c0[sp], t[0].c1[sp] = v, c
	for i := range fastSteps {
		r, nextV, nextC := &t[i+1], value(i+1), slope(i+1)
		rise := nextV - v
		r.c0[sp], r.c1[sp] = v, c
		r.c2[sp] = 3*rise - 2*c - nextC
		r.c3[sp] = c + nextC - 2*rise
		v, c = nextV, nextC
	}
	end := &t[fastSteps+1]
	end.c0[sp], end.c1[sp] = v, c
}

// fastIndex finds the row for T and how far T lies from its start, in steps.
func fastIndex(T float64) (row int, u float64) {
	x := (T - fastLow) * (1 / fastStep)
	if x >= 0 && x < fastSteps {
		i := int(x)
		return i + 1, x - float64(i)
	}
	if x >= fastSteps {
		return fastSteps + 1, x - fastSteps
	}
	return 0, x
}

func fastAt(T float64) (*fastRow, float64) {
	i, u := fastIndex(T)
	return &fastTable[i], u
}

// FastH writes the absolute molar enthalpy of each core gas at T [K] to h
// [J/mol]. Within 0.01 J/mol of Species.H from 200 to 3000 K; outside it goes
// on in a straight line, so a solver that strays gets finite numbers.
func FastH(T float64, h *[NCore]float64) {
	r, u := fastAt(T)
	for i := range h {
		h[i] = r.c0[i] + u*(r.c1[i]+u*(r.c2[i]+u*r.c3[i]))
	}
}

// FastHCp writes h [J/mol] and cp [J/mol K] of each core gas at T [K]. cp is
// the exact derivative of the interpolated h, so Newton steps see one smooth
// function; it is within 0.002 J/mol K of Species.Cp.
func FastHCp(T float64, h, cp *[NCore]float64) {
	r, u := fastAt(T)
	for i := range h {
		c1, c2, c3 := r.c1[i], r.c2[i], r.c3[i]
		h[i] = r.c0[i] + u*(c1+u*(c2+u*c3))
		cp[i] = (c1 + u*(2*c2+u*3*c3)) * (1 / fastStep)
	}
}

// FastH is the absolute enthalpy of the mixture [J] at T [K] by the table.
func (m *Mix) FastH(T float64) float64 {
	r, u := fastAt(T)
	return m.dot(&r.c0) + u*(m.dot(&r.c1)+u*(m.dot(&r.c2)+u*m.dot(&r.c3)))
}

// FastHCp is the absolute enthalpy [J] and heat capacity [J/K] of the mixture
// at T [K] by the table.
func (m *Mix) FastHCp(T float64) (h, cp float64) {
	r, u := fastAt(T)
	c1, c2, c3 := m.dot(&r.c1), m.dot(&r.c2), m.dot(&r.c3)
	return m.dot(&r.c0) + u*(c1+u*(c2+u*c3)), (c1 + u*(2*c2+u*3*c3)) * (1 / fastStep)
}

// Bounds of FastT [K].
const (
	fastTMin = 1.0
	fastTMax = 10000.0
)

// FastT is the temperature [K] at which the mixture has the enthalpy H [J],
// from the table, by Newton steps kept inside a bracket. The result is held
// between 1 and 10000 K; guess [K] only saves time. An empty mixture gives the
// guess back.
func (m *Mix) FastT(H, guess float64) float64 {
	if m.Moles() == 0 {
		return guess
	}
	T := guess
	if !(T >= fastTMin) || T > fastTMax {
		T = 1000
	}
	lo, hi := fastTMin, fastTMax
	for range 100 {
		h, cp := m.FastHCp(T)
		if h < H {
			lo = T
		} else {
			hi = T
		}
		step := (H - h) / cp
		next := T + step
		if !(next >= lo && next <= hi) {
			next = 0.5 * (lo + hi)
			if hi-lo <= 1e-12*hi {
				return next
			}
		} else if math.Abs(step) <= 1e-8*next { // the next error is its square
			return next
		}
		T = next
	}
	return T
}
