package gas

import "math"

// quartic is a polynomial in s = √(T/1000 K).
type quartic [5]float64

func (q *quartic) at(T float64) float64 { return q.of(root(T)) }

func root(T float64) float64 { return math.Sqrt(max(T, 100) * 1e-3) }

func (q *quartic) of(s float64) float64 {
	return q[0] + s*(q[1]+s*(q[2]+s*(q[3]+s*q[4])))
}

// The fits below are refitted from their points by a test.
var (
	airViscosity     = quartic{-6.02985, 31.86495, 35.55927, -25.87462, 7.779151}   // [µPa s]
	airConductivity  = quartic{-7.694438, 36.50736, 62.48335, -34.12719, 10.53429}  // [mW/m K]
	flueViscosity    = quartic{-0.2576913, 0.611576, 80.24759, -51.92411, 13.30772} // [µPa s]
	flueConductivity = quartic{-2.138206, 13.36524, 70.18891, -16.80578, 3.861058}  // [mW/m K]
)

// AirViscosity is the viscosity of dry air near 1 bar [Pa s] at T [K]: own fit
// to 14 values of Lemmon, Jacobsen 2004, Int. J. Thermophys. 25, 21, between
// 200 and 2000 K; within 0.05 % of them and of ten values left out, which
// themselves are good to 1 %. The usual Sutherland form is 4 % lower at 1000 K
// and 6.6 % lower at 1500 K. Held below 100 K.
func AirViscosity(T float64) float64 { return 1e-6 * airViscosity.at(T) }

// AirConductivity is the thermal conductivity of dry air near 1 bar [W/m K] at
// T [K]: own fit as for AirViscosity, within 0.05 % of the values of Lemmon,
// Jacobsen 2004, which are good to 2 %.
func AirConductivity(T float64) float64 { return 1e-3 * airConductivity.at(T) }

// ReferenceFlue is the flue gas (mole fractions) that ViscosityFlue and
// ConductivityFlue are fitted to: dry wood of 50 % carbon with 10 % water,
// wet basis, burned completely with 1.5 times the air it needs.
func ReferenceFlue() Mix { return Mix{N2: 0.703, O2: 0.062, Ar: 0.0085, CO2: 0.121, H2O: 0.1055} }

// ViscosityFlue is the viscosity of wood flue gas [Pa s] at T [K], a quick fit
// to Mix.Viscosity of ReferenceFlue between 250 and 2000 K, within 0.05 % of
// it. Other flue gases of 1 to 3 times the needed air and 0 to 30 % fuel
// moisture are missed by −5 to +7 % at 300 K and by 2 % above 900 K; for wood
// gas before its flame it is 2 to 6 % high. Held below 100 K.
func ViscosityFlue(T float64) float64 { return 1e-6 * flueViscosity.at(T) }

// ConductivityFlue is the thermal conductivity of wood flue gas [W/m K] at
// T [K], as ViscosityFlue; within 0.05 % of the mixture rule for ReferenceFlue,
// and within 8 % for the flue gases named there. Wood gas before its flame
// conducts 15 to 75 % better because of its hydrogen: use Mix.FastConductivity.
func ConductivityFlue(T float64) float64 { return 1e-3 * flueConductivity.at(T) }

// TransportFlue is ViscosityFlue and ConductivityFlue at once.
func TransportFlue(T float64) (viscosity, conductivity float64) {
	s := root(T)
	return 1e-6 * flueViscosity.of(s), 1e-3 * flueConductivity.of(s)
}

// rows builds a table of the core gases from a property and its slope.
func rows(f func(sp Species, T float64) float64) (t [fastSteps + 2]fastRow) {
	const d = 0.5 // half the step of the numerical slope [K]
	for sp := range NCore {
		value := func(i int) float64 { return f(Species(sp), fastLow+fastStep*float64(i)) }
		slope := func(i int) float64 {
			T := fastLow + fastStep*float64(i)
			return (f(Species(sp), T+d) - f(Species(sp), T-d)) / (2 * d) * fastStep
		}
		fillRows(&t, sp, value, slope)
	}
	return t
}

// Tables for the quick mixing rules, filled once at start.
var (
	rootMass = func() (w Mix) {
		for i := range w {
			w[i] = math.Sqrt(Species(i).MolarMass())
		}
		return w
	}()
	viscosityRows = rows(func(sp Species, T float64) float64 { return Viscosity(sp, T) * rootMass[sp] })
	conductRows   = rows(Conductivity)
	resistRows    = rows(func(sp Species, T float64) float64 { return 1 / Conductivity(sp, T) })
)

// FastViscosity is the viscosity of the mixture [Pa s] at T [K] by the rule of
// Herning, Zipperer 1936:
//
//	µ = Σ xi·µi·√Mi / Σ xi·√Mi
//
// from a table of the core gases. Within 2 % of Mix.Viscosity for flue gas and
// 3 % for wood gas with up to 20 % hydrogen, for about a tenth of its time.
// Linear outside 200 to 3000 K; NaN for an empty mix.
func (m *Mix) FastViscosity(T float64) float64 {
	return m.rowValue(&viscosityRows, T) / m.dot(&rootMass)
}

// FastConductivity is the thermal conductivity of the mixture [W/m K] at T [K],
// the mean of the parallel and the series mixture of the gases:
//
//	λ = ½·(Σ xi·λi + 1 / Σ (xi/λi))
//
// Burgoyne, Weinberg 1953 [memory]. Within 1 % of Mix.Conductivity for flue
// gas and 3.5 % for wood gas with up to 20 % hydrogen. Linear outside 200 to
// 3000 K; NaN for an empty mix.
func (m *Mix) FastConductivity(T float64) float64 {
	n := m.Moles()
	return 0.5 * (m.rowValue(&conductRows, T)/n + n/m.rowValue(&resistRows, T))
}

func (m *Mix) rowValue(t *[fastSteps + 2]fastRow, T float64) float64 {
	i, u := fastIndex(T)
	r := &t[i]
	return m.dot(&r.c0) + u*(m.dot(&r.c1)+u*(m.dot(&r.c2)+u*m.dot(&r.c3)))
}
