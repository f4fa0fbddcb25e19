// Package water holds what a pot needs of water between freezing and a little
// above boiling: the saturation line, latent heat, and the density, heat
// capacity and enthalpy of the liquid.
//
// All functions are cheap enough for hot loops: the saturation line is the
// exact form of IAPWS-IF97 region 4, which needs square roots but no power
// function, and the rest are short polynomials fitted to IF97 values with the
// error stated at each function.
//
// Source: IAPWS R7-97(2012), Release on the IAPWS Industrial Formulation 1997.
// It does not know superheated steam (see package gas for water vapour in
// mixtures), ice, dissolved gases or salts. A salt content that a cook would
// taste raises the boiling point by less than 0.5 K.
//
// The equations stand in docs/model/water.md.
package water

import "math"

const (
	// TripleT is the temperature of the triple point [K].
	TripleT = 273.16
	// CriticalT and CriticalP end the saturation line [K], [Pa].
	CriticalT = 647.096
	CriticalP = 22.064e6
	// MolarMass of water [kg/mol].
	MolarMass = 18.015268e-3

	lowestT = 253.15 // [K], the saturation line is held below, over supercooled water
	zeroC   = 273.15 // [K]
)

// region4 is the coefficients n1 to n10 of IAPWS R7-97, table 34, typed from
// memory and proved by the release's six verification values (see the check).
var region4 = [11]float64{0,
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2,
	0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2,
	-0.48232657361591e4, 0.40511340542057e6, -0.23855557567849,
	0.65017534844798e3,
}

// SaturationPressure is the vapour pressure of water [Pa] at T [K].
//
//	ϑ = T + n9/(T − n10),  A = ϑ² + n1·ϑ + n2,  B = n3·ϑ² + n4·ϑ + n5,
//	C = n6·ϑ² + n7·ϑ + n8,  p = [2C / (−B + √(B² − 4AC))]⁴ MPa
//
// IAPWS R7-97(2012), eq. (30). Range: 273.15 to 647.096 K, where it is within
// 0.02 % of the reference formulation; down to 253.15 K it stands for
// supercooled water (within 0.04 % of Murphy, Koop 2005 [memory]), and outside it
// is held at the ends.
func SaturationPressure(T float64) float64 {
	p, _ := SaturationPressureSlope(T)
	return p
}

// SaturationPressureSlope is the vapour pressure [Pa] and its slope dp/dT
// [Pa/K] at T [K]; the slope is zero where the pressure is held.
func SaturationPressureSlope(T float64) (p, slope float64) {
	n := &region4
	t := math.Min(math.Max(T, lowestT), CriticalT)
	d := 1 / (t - n[10])
	θ := t + n[9]*d
	A := θ*(θ+n[1]) + n[2]
	B := θ*(n[3]*θ+n[4]) + n[5]
	C := θ*(n[6]*θ+n[7]) + n[8]
	root := math.Sqrt(B*B - 4*A*C)
	q := 2 * C / (root - B) // p^¼ [MPa^¼]
	p = 1e6 * q * q * q * q
	if t != T {
		return p, 0
	}
	// A·q² + B·q + C = 0 gives dq/dθ.
	dA, dB, dC := 2*θ+n[1], 2*n[3]*θ+n[4], 2*n[6]*θ+n[7]
	dq := -(q*(q*dA+dB) + dC) / (2*A*q + B)
	return p, 4 * p / q * dq * (1 - n[9]*d*d)
}

// SaturationTemperature is the boiling point of water [K] at pressure p [Pa].
//
//	β = (p/MPa)^¼,  E = β² + n3·β + n6,  F = n1·β² + n4·β + n7,
//	G = n2·β² + n5·β + n8,  D = 2G / (−F − √(F² − 4EG)),
//	T = [n10 + D − √((n10 + D)² − 4·(n9 + n10·D))] / 2
//
// IAPWS R7-97(2012), eq. (31), the exact inverse of SaturationPressure. Range:
// 611.2 Pa to 22.064 MPa; held at 103 Pa (over supercooled water) and at the
// critical point.
func SaturationTemperature(p float64) float64 {
	n := &region4
	p = math.Min(math.Max(p, lowestP), CriticalP)
	β2 := math.Sqrt(p * 1e-6)
	β := math.Sqrt(β2)
	E := β2 + n[3]*β + n[6]
	F := n[1]*β2 + n[4]*β + n[7]
	G := n[2]*β2 + n[5]*β + n[8]
	D := 2 * G / (-F - math.Sqrt(F*F-4*E*G))
	s := n[10] + D
	return 0.5 * (s - math.Sqrt(s*s-4*(n[9]+n[10]*D)))
}

// lowestP is the vapour pressure at lowestT [Pa].
var lowestP = SaturationPressure(lowestT)

// EvaporationDrive is the vapour pressure difference that drives evaporation
// from water at T [K] into air of vapour pressure vapour [Pa]; negative when
// the air condenses on the water [Pa].
func EvaporationDrive(T, vapour float64) float64 { return SaturationPressure(T) - vapour }
