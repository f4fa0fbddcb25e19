package flame

import "math"

// Swirl is the swirl number S = G_θ/(G_x·R): axial flux of angular momentum
// over axial momentum times radius (definition on the NIST spray combustion
// page), for jets that enter at the radius rj [m] slanted by the angle slant
// [rad] from radial into a round section of radius R [m] through which the
// whole flow [kg/s] of the density rho [kg/m³] leaves:
//
//	S = ṁ_j·U_j·sin(slant)·r_j·ρ·π·R²/(ṁ²·R)
//
// For holes cut fully tangential it is the geometric π·r_j·R/A_t·(ṁ_j/ṁ)². No
// loss of angular momentum on the way is counted, so it is an upper bound; at
// the pascal of draft of a natural-draft stove swirl is real but weak.
func Swirl(jetFlow, jetSpeed, slant, rj, flow, rho, R float64) float64 {
	if !(flow > 0) || !(R > 0) {
		return 0
	}
	return jetFlow * jetSpeed * math.Sin(slant) * rj * rho * math.Pi * R / (flow * flow)
}

// SwirlTangential is the geometric swirl number of tangential holes of total
// area At [m²] at the radius rj in a section of radius R [m] that carry the
// share of the flow: π·r_j·R/A_t·share² [memory].
func SwirlTangential(rj, R, At, share float64) float64 {
	if !(At > 0) {
		return 0
	}
	return math.Pi * rj * R / At * share * share
}

// SwirlVanes is that of flat vanes in an axial flow: (2/3)·(1 − z³)/(1 − z²)·tan φ
// with the hub ratio z and the vane angle φ [rad] [memory]; the factor is 2/3
// for plug flow, 1/2 for solid-body rotation. Bent tongues of a slit ring are
// such vanes.
func SwirlVanes(z, angle float64) float64 {
	if z >= 1 {
		return math.Tan(angle) // the limit of a thin ring
	}
	z = max(z, 0)
	return 2.0 / 3 * (1 + z + z*z) / (1 + z) * math.Tan(angle)
}

// Strength says in words what a swirl number does. Thresholds 0.4 and 0.6 after
// the NIST page; they depend on how S is defined (Vignat, Durox, Candel 2022).
func Strength(S float64) string {
	switch S = math.Abs(S); {
	case S < 0.05:
		return "none"
	case S < 0.4:
		return "weak"
	case S <= 0.6:
		return "depends on the geometry"
	}
	return "central recirculation"
}
