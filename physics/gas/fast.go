package gas

import "math"

// The table of the core gases: h and cp every 20 K, read by cubic Hermite
// interpolation. 1000 K, where the NASA ranges meet, is a node.
const (
	fastLow   = 200.0 // [K]
	fastStep  = 20.0  // [K]
	fastNodes = 141
	fastHigh  = fastLow + fastStep*(fastNodes-1) // 3000 K
)

type fastNode struct {
	h  [NCore]float64 // [J/mol]
	ch [NCore]float64 // cp times the step [J/mol]
}

// fastTable is filled once at start and never written again.
var fastTable = func() (t [fastNodes]fastNode) {
	for i := range t {
		for sp := range NCore {
			T := fastLow + fastStep*float64(i)
			t[i].h[sp] = Species(sp).H(T)
			t[i].ch[sp] = Species(sp).Cp(T) * fastStep
		}
	}
	return t
}()

// fastAt finds the interval that holds T, how far T is into it (0 to 1), and
// how many steps T lies outside the table.
func fastAt(T float64) (a, b *fastNode, u, out float64) {
	x := (T - fastLow) * (1 / fastStep)
	if !(x > 0) {
		return &fastTable[0], &fastTable[1], 0, x
	}
	if x >= fastNodes-1 {
		return &fastTable[fastNodes-2], &fastTable[fastNodes-1], 1, x - (fastNodes - 1)
	}
	i := int(x)
	return &fastTable[i], &fastTable[i+1], x - float64(i), 0
}

// hermite is the weights of h(a), h(b), ch(a), ch(b) in the value.
func hermite(u float64) (ha, hb, ca, cb float64) {
	v := 1 - u
	hb = u * u * (3 - 2*u)
	return 1 - hb, hb, u * v * v, -u * u * v
}

// slope is the same for the derivative by T.
func slope(u float64) (ha, hb, ca, cb float64) {
	hb = 6 * u * (1 - u) * (1 / fastStep)
	return -hb, hb, (1 + u*(3*u-4)) * (1 / fastStep), u * (3*u - 2) * (1 / fastStep)
}

// FastH writes the absolute molar enthalpy of each core gas at T [K] to h
// [J/mol]. Within 1 J/mol of Species.H from 200 to 3000 K; outside it goes on
// in a straight line, so a solver that strays gets finite numbers.
func FastH(T float64, h *[NCore]float64) {
	a, b, u, out := fastAt(T)
	ha, hb, ca, cb := hermite(u)
	if out != 0 { // u is then 0 or 1: the node itself, and its cp
		ca, cb = out*(1-u), out*u
	}
	for i := range h {
		h[i] = ha*a.h[i] + hb*b.h[i] + ca*a.ch[i] + cb*b.ch[i]
	}
}

// FastHCp writes h [J/mol] and cp [J/mol K] of each core gas at T [K]. cp is
// the exact derivative of the interpolated h, so Newton steps see one smooth
// function; it is within 0.02 J/mol K of Species.Cp.
func FastHCp(T float64, h, cp *[NCore]float64) {
	a, b, u, out := fastAt(T)
	ha, hb, ca, cb := hermite(u)
	if out != 0 {
		ca, cb = out*(1-u), out*u
	}
	sa, sb, ta, tb := slope(u)
	for i := range h {
		ah, bh, ac, bc := a.h[i], b.h[i], a.ch[i], b.ch[i]
		h[i] = ha*ah + hb*bh + ca*ac + cb*bc
		cp[i] = sa*ah + sb*bh + ta*ac + tb*bc
	}
}

// FastH is the absolute enthalpy of the mixture [J] at T [K] by the table.
func (m *Mix) FastH(T float64) float64 {
	h, _ := m.FastHCp(T)
	return h
}

// FastHCp is the absolute enthalpy [J] and heat capacity [J/K] of the mixture
// at T [K] by the table.
func (m *Mix) FastHCp(T float64) (h, cp float64) {
	a, b, u, out := fastAt(T)
	ha, hb, ca, cb := hermite(u)
	if out != 0 {
		ca, cb = out*(1-u), out*u
	}
	sa, sb, ta, tb := slope(u)
	Ah := m.dot((*Mix)(&a.h))
	Bh := m.dot((*Mix)(&b.h))
	Ac := m.dot((*Mix)(&a.ch))
	Bc := m.dot((*Mix)(&b.ch))
	return ha*Ah + hb*Bh + ca*Ac + cb*Bc, sa*Ah + sb*Bh + ta*Ac + tb*Bc
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
