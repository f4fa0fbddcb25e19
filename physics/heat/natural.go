package heat

import "math"

// ChurchillChu returns the mean Nusselt number of natural convection on an
// isothermal vertical wall:
//
//	Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}^2
//
// Source: Churchill & Chu 1975 (Incropera 6e eq. 9.26), as in the library ht.
// All Ra to 1e12. Accuracy about 10 %.
func ChurchillChu(ra, pr float64) float64 {
	r := 0.825 + 0.387*math.Cbrt(math.Sqrt(ra))/math.Pow(1+math.Pow(0.492/pr, 9.0/16), 8.0/27)
	return r * r
}

// wallFactor is 0.387/[1 + (0.492/Pr)^(9/16)]^(8/27) at [Prandtl].
const wallFactor = 0.3240755

// Wall returns the mean coefficient [W/m2 K] of natural convection on a
// vertical wall of a height [m] that differs from the gas by dt [K]:
// [ChurchillChu] at the fixed Prandtl number. With dt = 0 it is what
// conduction leaves; coefficient times dt has a continuous slope there.
// Cans count as plane while diameter/height >= 35/Gr^(1/4) (Incropera 6e),
// 0.56 for a hot 130 mm can; more slender ones lose up to 10 % more, see
// [Slender].
func Wall(f Film, height, dt float64) float64 {
	r := 0.825 + wallFactor*math.Cbrt(math.Sqrt(f.rayleigh(height, dt)))
	return r * r * f.K / height
}

// Slender returns Nu of a slender vertical cylinder over that of a plane wall
// of the same height, at Grashof number gr and height/diameter l:
//
//	1 + B [sqrt(32) Gr^(-1/4) l]^C,  B = 0.0571322 + 0.20305 Pr^-0.43,
//	C = 0.9165 - 0.0043 sqrt(Pr) + 0.01333 ln Pr + 0.0004809/Pr
//
// Source: Popiel 2008 with the Churchill-Chu wall, as in the library ht.
func Slender(gr, l, pr float64) float64 {
	b := 0.0571322 + 0.20305*math.Pow(pr, -0.43)
	c := 0.9165 - 0.0043*math.Sqrt(pr) + 0.01333*math.Log(pr) + 0.0004809/pr
	return 1 + b*math.Pow(math.Sqrt(32)/math.Sqrt(math.Sqrt(gr))*l, c)
}

// McAdams returns the mean Nusselt number of natural convection on a
// horizontal plate. assisted: a hot face up or a cold face down, where the
// layer at the plate leaves it.
//
//	assisted Nu = 0.54 Ra^(1/4) to Ra 1e7, 0.15 Ra^(1/3) above; else 0.27 Ra^(1/4)
//
// Source: McAdams 1954 (Incropera 6e eqs. 9.30-9.32), as in the library ht.
// Length area/perimeter; Ra 1e4-1e11 assisted, 1e5-1e10 else.
func McAdams(ra float64, assisted bool) float64 {
	q := math.Sqrt(math.Sqrt(ra))
	switch {
	case !assisted:
		return 0.27 * q
	case ra <= 1e7:
		return 0.54 * q
	}
	return 0.15 * math.Cbrt(ra)
}

// discConduction is Nu on diameter/4 of a disc facing still gas: 4 k/(pi r)
// from a disc into a half space, exact.
const discConduction = 2 / math.Pi

// Disc returns the coefficient [W/m2 K] of natural convection on one face of a
// horizontal disc of a diameter [m]. dt [K] is positive where the layer at the
// face leaves it (hot face up, cold face down): then [McAdams] assisted, else
// stable; both joined to conduction into still gas, so that coefficient times
// dt runs through zero with a continuous slope. Laminar form only: Ra of a
// disc up to 0.3 m stays below 1e7.
func Disc(f Film, diameter, dt float64) float64 {
	l := diameter / 4
	c := 0.54
	if dt < 0 {
		c = 0.27
	}
	nu := c * math.Sqrt(math.Sqrt(f.rayleigh(l, dt)))
	return either(nu, discConduction) * f.K / l
}
