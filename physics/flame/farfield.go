package flame

import "math"

// The far field: where the flame ends and only its heat is left. For pots that
// stand in the flame these are sanity checks only.

// McCaffrey is the temperature rise on the axis of a free flame and plume [K]
// of Q [W] at the height z [m] in air at T [K]:
//
//	ΔT = (κ/(0.9·√(2g)))²·(z/Q^0.4)^(2η−1)·T
//
// Q in kW; κ, η = 6.8, ½ below z/Q^0.4 = 0.08; 1.9, 0 to 0.2; 1.1, −⅓ above
// (FDS technical reference, plume correlations). The published pieces do not
// quite meet; neither do ours.
func McCaffrey(Q, z, T float64) float64 {
	if !(Q > 0) || !(z > 0) {
		return 0
	}
	x := z / math.Pow(Q/1000, 0.4)
	kappa, eta := 6.8, 0.5
	switch {
	case x > 0.2:
		kappa, eta = 1.1, -1.0/3
	case x > 0.08:
		kappa, eta = 1.9, 0
	}
	k := kappa / (0.9 * math.Sqrt(2*gravity))
	return k * k * math.Pow(x, 2*eta-1) * T
}

// HeskestadPlume is the temperature rise on the axis above the flame [K]:
//
//	ΔT = 9.1·(T/(g·cp²·ρ²))^⅓·Q_c^⅔·(z − z0)^(−5/3),  z0 = 0.083·Q^0.4 − 1.02·D
//
// for the fire Q and its convected part Qc [W], diameter D, height z [m], air
// of density rho and temperature T (FDS technical reference).
func HeskestadPlume(Q, Qc, D, z, rho, T float64) float64 {
	z0 := 0.083*math.Pow(max(Q, 0)/1000, 0.4) - 1.02*D
	if !(z > z0) || !(Qc > 0) {
		return 0
	}
	cp := 1.0 // kJ/kg K, as the source's constants want it
	return 9.1 * math.Cbrt(T/(gravity*cp*cp*rho*rho)) * math.Pow(Qc/1000, 2.0/3) * math.Pow(z-z0, -5.0/3)
}

// Alpert is the temperature rise under a wide ceiling [K] at the height H and
// the distance r from the axis [m]: 16.9·Q^⅔/H^(5/3) for r/H ≤ 0.18, else
// 5.38·(Q/r)^⅔/H, Q in kW (Alpert 1972, FDS technical reference).
func Alpert(Q, H, r float64) float64 {
	if !(Q > 0) || !(H > 0) {
		return 0
	}
	q := Q / 1000
	if r <= 0.18*H {
		return 16.9 * math.Pow(q, 2.0/3) / math.Pow(H, 5.0/3)
	}
	return 5.38 * math.Pow(q/r, 2.0/3) / H
}

// PointSource is the radiation on a target that faces the flame [W/m²] at the
// distance x from the axis and the height z [m] for the fire Q [W], its
// radiated share and its height L [m]:
//
//	q″ = cos θ·χ·Q/(4·π·R²),  R² = x² + (z − L/3)²,  cos θ = x/R
//
// (FDS technical reference).
func PointSource(Q, radiated, x, z, L float64) float64 {
	R2 := x*x + (z-L/3)*(z-L/3)
	if !(R2 > 0) {
		return 0
	}
	return radiated * Q / (4 * math.Pi * R2) * x / math.Sqrt(R2)
}

// SolidFlame is the radiation on a target at ground level [W/m²] from a sooty
// flame taken as a cylinder of diameter D and height L [m] at the distance x
// from its axis, with the emissive power 58·10^(−0.00823·D) kW/m² of Shokri,
// Beyler 1989 and the view factors of a cylinder (FDS technical reference,
// whose text prints 0.0823 but whose own table needs 0.00823). Made for large
// sooty fires: an upper bound for a stove.
func SolidFlame(D, L, x float64) float64 {
	if !(D > 0) || !(L > 0) || !(x > D/2) {
		return 0
	}
	H, S := 2*L/D, 2*x/D
	A := (H*H + S*S + 1) / (2 * S)
	B := (1 + S*S) / (2 * S)
	a := math.Sqrt(A*A - 1)
	ta := math.Atan(math.Sqrt((A + 1) * (S - 1) / ((A - 1) * (S + 1))))
	b := math.Sqrt(B*B - 1)
	tb := math.Atan(math.Sqrt((B + 1) * (S - 1) / ((B - 1) * (S + 1))))
	horizontal := (B-1/S)/(math.Pi*b)*tb - (A-1/S)/(math.Pi*a)*ta
	vertical := math.Atan(H/math.Sqrt(S*S-1))/(math.Pi*S) - H/(math.Pi*S)*math.Atan(math.Sqrt((S-1)/(S+1))) + A*H/(math.Pi*S*a)*ta
	return 58e3 * math.Pow(10, -0.00823*D) * math.Hypot(horizontal, vertical)
}

// Radiated is the prior share of a flame's heat that leaves as radiation: 0.05
// to 0.15 blue, 0.15 to 0.25 yellow, our judgement; measured 0.17 to 0.27 on a
// 0.3 m gas burner of 14 to 57 kW (McCaffrey's flames in the MaCFP database).
// yellow runs from 0 (blue) to 1.
func Radiated(yellow float64) float64 { return 0.10 + 0.10*min(max(yellow, 0), 1) }
