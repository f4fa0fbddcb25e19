package heat

import (
	"math"

	"toplit/physics/gas"
)

// Film is what convection needs of a gas, at the mean of gas and surface.
type Film struct {
	T  float64 // [K]
	K  float64 // conductivity [W/m K]
	Nu float64 // kinematic viscosity [m2/s]
}

// Gas constants of air and of the reference flue gas [J/kg K].
const (
	airR  = 287.05
	flueR = 284.3 // 29.24 g/mol, of gas.ReferenceFlue
)

// AirFilm returns the properties of dry air at t [K] and p [Pa].
func AirFilm(t, p float64) Film {
	return Film{T: t, K: gas.AirConductivity(t), Nu: gas.AirViscosity(t) * airR * t / p}
}

// FlueFilm returns the properties of wood flue gas at t [K] and p [Pa].
func FlueFilm(t, p float64) Film {
	mu, k := gas.TransportFlue(t)
	return Film{T: t, K: k, Nu: mu * flueR * t / p}
}

// rayleigh is g beta |dT| L^3/(nu alpha) with beta = 1/T of the film.
func (f Film) rayleigh(length, dt float64) float64 {
	return gravity * math.Abs(dt) / f.T * length * length * length * Prandtl / (f.Nu * f.Nu)
}

// either joins two coefficients so that the larger rules: their fourth powers
// add (smooth, 19 % above either where they are equal, as mixed convection
// that helps itself is).
func either(a, b float64) float64 {
	a *= a
	b *= b
	return math.Sqrt(math.Sqrt(a*a + b*b))
}
