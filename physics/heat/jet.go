package heat

import (
	"fmt"
	"math"
)

// Martin returns the mean Nusselt number, on the nozzle diameter, of a round
// turbulent jet on a plate out to radius r: hd = distance/diameter, rd =
// r/diameter.
//
//	Nu/Pr^0.42 = G 2 Re^(1/2) (1 + 0.005 Re^0.55)^(1/2)
//	G = 2 A^(1/2) (1 - 2.2 A^(1/2))/[1 + 0.2 (hd - 6) A^(1/2)],  A = 1/(4 rd^2)
//
// Source: Martin 1977, Adv. Heat Transfer 13 (Incropera 6e eq. 7.75). Refused
// outside 2000 <= Re <= 4e5, 2 <= hd <= 12, 0.004 <= A <= 0.04: beyond A 0.04 it
// runs to negative values. Stove jets have Re 100-800 and do not reach it.
func Martin(re, pr, hd, rd float64) (float64, error) {
	a := 1 / (4 * rd * rd)
	switch {
	case !(re >= 2000 && re <= 4e5):
		return 0, fmt.Errorf("jet correlation: Reynolds number %g, want 2000 to 400000", re)
	case !(hd >= 2 && hd <= 12):
		return 0, fmt.Errorf("jet correlation: distance/diameter %g, want 2 to 12", hd)
	case !(a >= 0.004*(1-1e-9) && a <= 0.04*(1+1e-9)):
		return 0, fmt.Errorf("jet correlation: nozzle area/plate area %g, want 0.004 to 0.04 (radius 2.5 to 7.9 diameters)", a)
	}
	s := math.Sqrt(a)
	g := 2 * s * (1 - 2.2*s) / (1 + 0.2*(hd-6)*s)
	return g * 2 * math.Sqrt(re*(1+0.005*math.Pow(re, 0.55))) * math.Pow(pr, 0.42), nil
}

// stagnation is 0.763 Pr^0.4 at [Prandtl].
const stagnation = 0.763 * 0.8670402

// Stagnation returns the coefficient [W/m2 K] at the centre of a laminar jet
// of a diameter [m] and speed u [m/s] that meets a plate a gap [m] away:
//
//	h = 0.763 Pr^0.4 k sqrt(a/nu)
//
// a the rate at which the flow spreads along the plate [1/s]: (pi/4) u/D for
// a free jet, u/(2 gap) for gas that fills a narrow gap, root of the squares.
// Source: Sibulkin 1952 [memory]; the free jet's a [memory]; the gap's is
// continuity.
func Stagnation(f Film, diameter, u, gap float64) float64 {
	free := math.Pi / 4 / diameter
	narrow := 0.5 / gap
	return stagnation * f.K * math.Sqrt(math.Abs(u)*math.Sqrt(free*free+narrow*narrow)/f.Nu)
}
