package gas

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed nasa9.csv
var nasaCSV string

// nasa is filled once from the embedded table and never written again.
var nasa = mustReadNASA(nasaCSV)

type substance struct {
	name      string
	elements  Elements
	mass      float64 // [kg/mol]
	condensed bool
	formation float64 // printed enthalpy at 298.15 K [J/mol], to check the coefficients
	low       float64 // [K]
	part      [3]nasaPart
	parts     int
}

// nasaPart is one temperature range of the nine-coefficient form.
type nasaPart struct {
	high float64 // upper end [K]
	a    [7]float64
	b    [2]float64
}

// mustReadNASA panics on a damaged table: the table is part of the program,
// so this is found by the first test, never by a user.
func mustReadNASA(text string) [NSpecies]substance {
	out, err := readNASA(text)
	if err != nil {
		panic(err)
	}
	return out
}

func readNASA(text string) (out [NSpecies]substance, err error) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return out, fmt.Errorf("nasa9.csv: %w", err)
	}
	n := -1
	for line, row := range rows[1:] {
		num := func(col int) float64 {
			v, e := strconv.ParseFloat(row[col], 64)
			if e != nil && err == nil {
				err = fmt.Errorf("nasa9.csv: line %d: %w", line+2, e)
			}
			return v
		}
		if n < 0 || out[n].name != row[0] {
			if n++; n >= NSpecies {
				return out, fmt.Errorf("nasa9.csv: line %d: more than %d species", line+2, NSpecies)
			}
			out[n] = substance{name: row[0], condensed: row[7] != "gas", formation: num(9), low: num(10)}
			for e := range out[n].elements {
				out[n].elements[e] = num(1 + e)
			}
			out[n].mass = out[n].elements.Mass()
			if printed := num(8) / 1000; math.Abs(printed/out[n].mass-1) > 2e-6 {
				return out, fmt.Errorf("nasa9.csv: line %d: molar mass %g kg/mol does not match its elements, %g kg/mol", line+2, printed, out[n].mass)
			}
		}
		s := &out[n]
		if s.parts == len(s.part) {
			return out, fmt.Errorf("nasa9.csv: line %d: more than %d ranges", line+2, len(s.part))
		}
		p := &s.part[s.parts]
		s.parts++
		p.high = num(11)
		for i := range p.a {
			p.a[i] = num(12 + i)
		}
		p.b = [2]float64{num(19), num(20)}
	}
	if err == nil && n != NSpecies-1 {
		err = fmt.Errorf("nasa9.csv: %d species, %d wanted", n+1, NSpecies)
	}
	return out, err
}

// limit finds the range that serves T and T held within the data. Data that
// begin at 300 K are used down to 298.15 K, so that the standard state is
// inside; beyond the data cp stays as at the end of the range.
func (s *substance) limit(T float64) (*nasaPart, float64) {
	low := s.low
	if low == 300 {
		low = T0
	}
	for i := 0; i < s.parts; i++ {
		if p := &s.part[i]; T <= p.high {
			return p, math.Max(T, low)
		}
	}
	p := &s.part[s.parts-1]
	return p, p.high
}

func (p *nasaPart) cp(T float64) float64 {
	a := &p.a
	return (a[0]/T+a[1])/T + a[2] + T*(a[3]+T*(a[4]+T*(a[5]+T*a[6])))
}

func (p *nasaPart) h(T float64) float64 {
	a := &p.a
	return -a[0]/T + a[1]*math.Log(T) + p.b[0] + T*(a[2]+T*(a[3]/2+T*(a[4]/3+T*(a[5]/4+T*a[6]/5))))
}

func (p *nasaPart) s(T float64) float64 {
	a := &p.a
	return -(a[0]/(2*T)+a[1])/T + a[2]*math.Log(T) + p.b[1] + T*(a[3]+T*(a[4]/2+T*(a[5]/3+T*a[6]/4)))
}

// Cp is the molar heat capacity at constant pressure [J/mol K] at T [K].
//
//	cp/R = a1/T² + a2/T + a3 + a4·T + a5·T² + a6·T³ + a7·T⁴
//
// McBride, Zehe, Gordon 2002, NASA TP-2002-211556, eq. (1). Range: Range();
// outside it cp stays as at the end. Accuracy: that of the source, about
// 0.1 % for the core gases; methane above 1500 K differs by up to 7 % between
// published tables.
func (sp Species) Cp(T float64) float64 {
	p, t := nasa[sp].limit(T)
	return R * p.cp(t)
}

// H is the absolute molar enthalpy, heat of formation included [J/mol], at
// T [K]; the elements at 298.15 K are zero.
//
//	h/RT = −a1/T² + a2·ln T/T + a3 + a4·T/2 + a5·T²/3 + a6·T³/4 + a7·T⁴/5 + b1/T
//
// NASA TP-2002-211556, eq. (2). Outside Range() it goes on with constant cp.
func (sp Species) H(T float64) float64 {
	p, t := nasa[sp].limit(T)
	h := p.h(t)
	if t != T {
		h += p.cp(t) * (T - t)
	}
	return R * h
}

// S is the molar entropy at 1 bar [J/mol K] at T [K].
//
//	s/R = −a1/2T² − a2/T + a3·ln T + a4·T + a5·T²/2 + a6·T³/3 + a7·T⁴/4 + b2
//
// NASA TP-2002-211556, eq. (3). Outside Range() it goes on with constant cp.
func (sp Species) S(T float64) float64 {
	p, t := nasa[sp].limit(T)
	s := p.s(t)
	if t != T {
		s += p.cp(t) * math.Log(T/t)
	}
	return R * s
}

// G is the molar Gibbs energy at 1 bar, H − T·S [J/mol], at T [K].
func (sp Species) G(T float64) float64 { return sp.H(T) - T*sp.S(T) }

// reduced is H/RT, cp/R and G/RT at T, whose logarithm is given.
func (s *substance) reduced(T, logT float64) (h, cp, g float64) {
	p, t := s.limit(T)
	if t != T {
		c := p.cp(t)
		h = (p.h(t) + c*(T-t)) / T
		return h, c, h - p.s(t) - c*math.Log(T/t)
	}
	a, r := &p.a, 1/T
	cp = (a[0]*r+a[1])*r + a[2] + T*(a[3]+T*(a[4]+T*(a[5]+T*a[6])))
	h = (-a[0]*r+a[1]*logT+p.b[0])*r + a[2] + T*(a[3]*(1./2)+T*(a[4]*(1./3)+T*(a[5]*(1./4)+T*a[6]*(1./5))))
	e := -(a[0]*r*(1./2)+a[1])*r + a[2]*logT + p.b[1] + T*(a[3]+T*(a[4]*(1./2)+T*(a[5]*(1./3)+T*a[6]*(1./4))))
	return h, cp, h - e
}
