package draft

import "math"

// Gravity is the standard acceleration of free fall [m/s2] (CGPM 1901).
const Gravity = 9.80665

// Head returns the pressure [Pa] a column of height [m] and density inside
// [kg/m3] gains against the air outside: g h (outside - inside). The height is
// that of the column which meets the outside at both ends; an open pot stand
// adds none.
func Head(height, outside, inside float64) float64 {
	return Gravity * height * (outside - inside)
}

// WindHead returns the pressure difference [Pa] a wind of mean speed u [m/s]
// and gust intensity (standard deviation/mean) puts between inlet and outlet
// whose pressure coefficients differ by dcp:
//
//	dcp rho u^2 (1 + gust^2)/2
//
// The mean of the square, because the pressure and not the speed is averaged.
func WindHead(dcp, rho, u, gust float64) float64 {
	return 0.5 * dcp * rho * u * u * (1 + gust*gust)
}

// PressureSpread returns the range of the difference of pressure coefficients
// between the inlets and the outlet of a stove: in the open evenly from -0.3
// to 0.3, behind one shroud normal with mean 0 and standard deviation 0.05
// [judgement: no measurement of a stove in wind was found].
func PressureSpread(shrouded bool) (half float64, normal bool) {
	if shrouded {
		return 0.05, true
	}
	return 0.3, false
}

// FlowFactor returns (Ta/T) sqrt((T-Ta)/Ta), to which the mass flow of a
// chimney with a fixed loss coefficient is proportional. It peaks with 1/2 at
// T = 2 Ta: hotter gas than that draws no more air.
func FlowFactor(t, ta float64) float64 {
	return ta / t * math.Sqrt((t-ta)/ta)
}

// Chimney is the single-column model of a stove.
type Chimney struct {
	Area     float64 // [m2]
	Height   float64 // [m]
	Pressure float64 // [Pa]
	Ambient  float64 // [K]
	Loss     float64 // share of the power that does not heat the column, 0 to 1
	C        float64 // all flow losses as one discharge coefficient
	HeatCp   float64 // specific heat of the gas [J/kg K]
	GasR     float64 // gas constant of the gas [J/kg K]
}

// Draw returns the gas temperature [K] and mass flow [kg/s] of the chimney at
// power q [W].
//
//	m = C A P/(R T) sqrt(2 g h (T-Ta)/Ta),  m cp (T-Ta) = q (1 - loss)
//
// Source: the form of Agenbroad, DeFoort, Kirkpatrick & Kreutzer 2011, Energy
// for Sustainable Development 15:160-168 [equations from memory]; C is theirs
// to fit. With y = sqrt(T-Ta) it is k y^3 = q (y^2 + Ta), one positive root.
func (c Chimney) Draw(q float64) (t, m float64) {
	q *= 1 - c.Loss
	k := c.C * c.Area * c.Pressure / c.GasR * math.Sqrt(2*Gravity*c.Height/c.Ambient) * c.HeatCp
	if !(q > 0) || !(k > 0) {
		return c.Ambient, 0
	}
	b := q / k
	// Right of the root the cubic is convex and rising, so Newton falls on it
	// without crossing: each term alone bounds y.
	y := b + math.Cbrt(b*c.Ambient)
	for range 100 {
		step := (y*y*y - b*(y*y+c.Ambient)) / (3*y*y - 2*b*y)
		y -= step
		if step <= 1e-15*y {
			break
		}
	}
	return c.Ambient + y*y, q / (c.HeatCp * y * y)
}
