package air

import (
	"math"

	"toplit/physics/water"
)

// The standard atmosphere below 11 km, ISO 2533:1975, table 1 and clause 2.
const (
	seaT    = 288.15    // [K]
	seaP    = 101325.0  // [Pa]
	lapse   = 0.0065    // [K/m]
	gravity = 9.80665   // [m/s²]
	airR    = 287.05287 // specific gas constant of the standard's air [J/kg K]
	earth   = 6356766.0 // nominal radius of the Earth [m]

	lowest  = -5000.0 // [m]
	highest = 11000.0
)

func held(H float64) float64 { return math.Min(math.Max(H, lowest), highest) }

// StandardTemperature is the temperature of the standard atmosphere [K] at the
// geopotential altitude H [m]: T = 288.15 − 0.0065·H. ISO 2533:1975. Range
// −5000 to 11000 m, held outside.
func StandardTemperature(H float64) float64 { return seaT - lapse*held(H) }

// StandardPressure is the pressure of the standard atmosphere [Pa] at the
// geopotential altitude H [m]: p = 101325·(T/288.15)^(g/(R·0.0065)), the
// exponent being 5.25588. ISO 2533:1975. Range −5000 to 11000 m, held
// outside. Weather moves the true pressure by ±2 kPa.
func StandardPressure(H float64) float64 {
	return seaP * math.Pow(StandardTemperature(H)/seaT, gravity/(airR*lapse))
}

// StandardDensity is the density of the standard atmosphere [kg/m³] at the
// geopotential altitude H [m], p/(287.05287·T).
func StandardDensity(H float64) float64 {
	return StandardPressure(H) / (airR * StandardTemperature(H))
}

// PressureAltitude is the geopotential altitude [m] at which the standard
// atmosphere has the pressure p [Pa]; the inverse of StandardPressure, held
// between −5000 and 11000 m.
func PressureAltitude(p float64) float64 {
	return held((seaT / lapse) * (1 - math.Pow(math.Max(p, 0)/seaP, airR*lapse/gravity)))
}

// Geopotential is the geopotential altitude [m] of the geometric height z [m]
// above sea level, H = r·z/(r + z), r = 6356766 m; ISO 2533:1975, eq. (8). Half
// a metre at 1800 m.
func Geopotential(z float64) float64 { return earth * z / (earth + z) }

// BoilingPointAt is the temperature at which water boils [K] in the standard
// atmosphere at the geopotential altitude H [m]. Weather moves it by ±0.55 K.
func BoilingPointAt(H float64) float64 {
	return water.SaturationTemperature(StandardPressure(H))
}
