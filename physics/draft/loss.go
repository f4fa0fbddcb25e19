package draft

import (
	"fmt"
	"math"
)

// Loss takes (K + Laminar/Re) of the velocity head in Area, Re formed with
// Diameter. With Laminar zero its slope vanishes at zero flow.
type Loss struct {
	Area     float64 // the velocity is taken in [m2]
	Diameter float64 // hydraulic, for Re; unused when Laminar is 0 [m]
	K        float64 // [1]
	Laminar  float64 // zeta Re of the viscous part [1]
}

// Drop returns the pressure lost [Pa] and its slope [Pa s/kg]; see [Element].
func (x Loss) Drop(m, rho, mu float64) (dp, slope float64) {
	half := 1 / (2 * rho * x.Area)
	quad := x.K * half / x.Area
	var lin float64
	if x.Laminar != 0 {
		lin = x.Laminar * mu * half / x.Diameter
	}
	a := math.Abs(m)
	return m * (quad*a + lin), 2*quad*a + lin
}

// FixedCd is a group of holes with the same discharge coefficient at every
// flow, dp = (m/(cd A))^2/(2 rho): for comparison with published networks,
// not for stoves.
func FixedCd(area, cd float64) Loss { return Loss{Area: area, K: 1 / (cd * cd)} }

// hooper is Laminar/K of a fitting: K grows by about 1 + 150/Re at small Re
// (two-term form after Hooper 1981 [memory]).
const hooper = 150

// Fitting returns the loss of a fitting whose coefficient k holds at large
// Re, with its growth by 1 + 150/Re at small Re. Accuracy at Re < 1000: a
// factor of 1.5 [judgement].
func Fitting(area, diameter, k float64) (Loss, error) {
	if !(area > 0) || !(diameter > 0) || !(k >= 0) || math.IsInf(area+diameter+k, 0) {
		return Loss{}, fmt.Errorf("fitting: area %g m2, diameter %g m, coefficient %g, want positive numbers", area, diameter, k)
	}
	return Loss{Area: area, Diameter: diameter, K: k, Laminar: hooper * k}, nil
}

// Loss coefficients on the velocity in the small area, Re > 1e4.
const (
	EntrySharp = 0.5 // flush sharp entry from a large space (Idelchik; Crane; Blevins, as in the library fluids)
	Exit       = 1.0 // into a large space: the whole velocity head
	Mitre      = 1.2 // 90 degree mitre bend (Rennels & Hudson, as in the library fluids); Crane gives 0.98
)

// Expansion returns K of a sudden expansion from area fraction f of the large
// space, (1-f)^2 (Borda-Carnot; Idelchik diagram 4-1). Re > 3300.
func Expansion(f float64) float64 { return (1 - f) * (1 - f) }

// Contraction returns K of a sudden contraction to area fraction f,
// 0.5 (1-f)^0.75 (Idelchik diagram 4-9, as in the Modelica Standard Library).
// Re > 1e4.
func Contraction(f float64) float64 {
	q := math.Sqrt(math.Sqrt(1 - f))
	return 0.5 * q * q * q
}

// ContractionRennels returns K of a sudden contraction to diameter ratio beta:
// K = 0.0696 (1 - beta^5) lambda^2 + (lambda - 1)^2 with
// lambda = 1 + 0.622 (1 - 0.215 beta^2 - 0.785 beta^5).
// Source: Rennels & Hudson 2012, Pipe Flow, as in the library fluids; kept to
// set beside [Contraction].
func ContractionRennels(beta float64) float64 {
	b2 := beta * beta
	b5 := b2 * b2 * beta
	l := 1 + 0.622*(1-0.215*b2-0.785*b5)
	return 0.0696*(1-b5)*l*l + (l-1)*(l-1)
}
