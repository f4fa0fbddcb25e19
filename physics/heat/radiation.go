package heat

import "math"

// FourthPowers returns t1^4 - t2^4 [K4].
func FourthPowers(t1, t2 float64) float64 {
	a, b := t1*t1, t2*t2
	return (a - b) * (a + b)
}

// Small returns the net flux [W/m2] from a surface of emissivity e at t to
// surroundings at ts that are large against it: e sigma (t^4 - ts^4).
func Small(e, t, ts float64) float64 { return e * Sigma * FourthPowers(t, ts) }

// GreyFactor returns the factor on a1 sigma (T1^4 - T2^4) for two grey diffuse
// surfaces that see only each other or, by the view factor f12 from 1 to 2,
// each other and nothing that sends heat back:
//
//	1/[(1-e1)/e1 + 1/f12 + (1-e2)/e2 a1/a2]
//
// Two-surface enclosure (Incropera 6e table 13.3); with f12 < 1 the rest is
// taken as lost to a cold space, exact for black surfaces.
func GreyFactor(e1, e2, f12, a1, a2 float64) float64 {
	return 1 / ((1-e1)/e1 + 1/f12 + (1-e2)/e2*a1/a2)
}

// Between returns the factor on sigma (T1^4 - T2^4) per area of the inner wall
// for long coaxial cans of inner and outer diameter: 1/[1/e1 + (1-e2)/e2 d1/d2]
// (Incropera 6e table 13.3). Equal diameters give parallel plates.
func Between(inner, outer, eInner, eOuter float64) float64 {
	return 1 / (1/eInner + (1-eOuter)/eOuter*inner/outer)
}

// Shields returns the flux [W/m2] between parallel walls at t1 and t2 with n
// shields between, all of emissivity e: sigma (T1^4 - T2^4)/[(n+1)(2/e - 1)]
// (Incropera 6e section 13.3.3). Exact for plates; no convection in the gaps.
func Shields(t1, t2, e float64, n int) float64 {
	return Sigma * FourthPowers(t1, t2) / (float64(n+1) * (2/e - 1))
}

// Discs returns the view factor from a disc of radius r1 to a coaxial disc of
// radius r2 a distance [m] away:
//
//	[S - sqrt(S^2 - 4 (r2/r1)^2)]/2,  S = 1 + (1 + R2^2)/R1^2,  R = r/distance
//
// Exact (Incropera 6e table 13.2).
func Discs(r1, r2, distance float64) float64 {
	// Multiplied through by (r1/distance)^2: defined for every distance > 0.
	a, b, l := r1*r1, r2*r2, distance*distance
	s := a + b + l
	// The smaller root as a quotient: no cancellation for distant discs.
	return 2 * b / (s + math.Sqrt(s*s-4*a*b))
}

// UnderDisc returns the view factor from a point of the ground under the
// centre of a disc of a radius, a gap [m] below it: r^2/(r^2 + gap^2), exact.
func UnderDisc(radius, gap float64) float64 {
	return radius * radius / (radius*radius + gap*gap)
}

// BedToPot returns the net radiation [W] from a char bed or ring opening of
// radius rb at tb to a pot base of radius rp a distance above:
// eb sigma A F (Tb^4 - Tp^4), the pot black (soot) and what passes it lost.
// open is the part of the view a ring leaves, 1 without a ring.
func BedToPot(eb, tb, rb, tp, rp, distance, open float64) float64 {
	return open * eb * Sigma * math.Pi * rb * rb * Discs(rb, rp, distance) * FourthPowers(tb, tp)
}

// PointSource returns the flux [W/m2] on a target that faces a flame of power q
// [W] and radiated share chi at a distance r [m]: cos chi q/(4 pi r^2)
// (fire practice; FDS Correlation Guide). Not closer than a flame diameter.
func PointSource(q, chi, r, cosine float64) float64 {
	return cosine * chi * q / (4 * math.Pi * r * r)
}

// freeFlame returns the length [m] of a free fire of power q [W] on a burner
// of a diameter [m]: L/D = 3.7 Q*^0.4 - 1.02 in the form of the FDS Correlation
// Guide (Heskestad), Q* = q/(1110 kW/m^2.5 D^2.5) in air of 20 °C; not below 0.
func freeFlame(q, diameter float64) float64 {
	return math.Max(0, 3.7*math.Pow(q/1110e3, 0.4)-1.02*diameter)
}

// PointSourceOnGround is [PointSource] of a fire of power q [W] on a burner of
// a diameter, centred at a third of its length, on an upright target at height
// z and distance x [m] that faces the axis (FDS Correlation Guide).
func PointSourceOnGround(q, chi, diameter, x, z float64) float64 {
	r := math.Hypot(x, z-freeFlame(q, diameter)/3)
	return PointSource(q, chi, r, x/r)
}

// CylinderToGround returns the view factor from a ground target a distance x
// from the axis to an upright cylinder of a length and diameter [m] standing
// on the ground, target turned for the most heat: sqrt(FH^2 + FV^2), the two
// exact factors (FDS Correlation Guide, after Beyler, SFPE Handbook).
// x > diameter/2; 1 at the cylinder's foot.
func CylinderToGround(length, diameter, x float64) float64 {
	s := 2 * x / diameter
	if s <= 1 {
		return 1
	}
	h := 2 * length / diameter
	if h <= 0 {
		return 0
	}
	a := (h*h + s*s + 1) / (2 * s)
	b := (1 + s*s) / (2 * s)
	up := math.Sqrt((s - 1) / (s + 1))
	atA := math.Atan(math.Sqrt((a + 1) * (s - 1) / ((a - 1) * (s + 1))))
	atB := math.Atan(math.Sqrt((b + 1) * (s - 1) / ((b - 1) * (s + 1))))
	ra := math.Sqrt(a*a - 1)
	fh := ((b-1/s)/math.Sqrt(b*b-1)*atB - (a-1/s)/ra*atA) / math.Pi
	fv := (math.Atan(h/math.Sqrt(s*s-1))/s - h/s*math.Atan(up) + a*h/(s*ra)*atA) / math.Pi
	return math.Hypot(fh, fv)
}

// SolidFlame returns the flux [W/m2] of a sooty free fire of power q [W] on a
// burner of a diameter [m] on a ground target a distance x from its axis:
// E F with E = 58e3 10^(-0.00823 D) (Shokri & Beyler 1989; the FDS Correlation
// Guide prints 0.0823, its own numbers need 0.00823). E is of large sooty
// fires: an upper bound for a stove.
func SolidFlame(q, diameter, x float64) float64 {
	return 58e3 * math.Pow(10, -0.00823*diameter) * CylinderToGround(freeFlame(q, diameter), diameter, x)
}

// FlameEmissivity returns the emissivity of a clear flame of a path [m] that
// holds a partial pressure p [Pa] of water vapour and carbon dioxide, plus soot
// of absorption coefficient soot [1/m]: 1 - exp(-(kappa p + soot) path), kappa =
// 5.4e-5 1/(Pa m), a Planck mean near 1500 K for flue gas [memory], good to a
// factor 1.5; soot 0 for a blue flame, 1 to 5 for a yellow one of wood gas
// [judgement].
func FlameEmissivity(p, path, soot float64) float64 {
	const kappa = 5.4e-5
	return -math.Expm1(-(kappa*p + soot) * path)
}
