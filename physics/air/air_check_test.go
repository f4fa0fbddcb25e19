package air

import (
	"fmt"
	"testing"

	"toplit/internal/outside"
)

func TestCheckStandardAtmosphere(t *testing.T) {
	const law = "standard atmosphere"
	const library = "U.S. Standard Atmosphere 1976, evaluated with the fluids library 1.0.22"
	var rows []outside.Row
	add := func(name, unit string, published, ours, tol float64) {
		rows = append(rows, outside.Row{Law: law, Name: name, Source: library, Unit: unit, Published: published, Ours: ours, Tol: tol})
	}
	for _, c := range []struct{ z, p float64 }{{-200, 103750.88}, {500, 95461.29}, {1000, 89876.29}, {1609.344, 83431.77}, {2000, 79501.42}, {3000, 70121.16}, {5000, 54048.29}} {
		add(fmt.Sprintf("pressure at %g m height", c.z), "Pa", c.p, StandardPressure(Geopotential(c.z)), 0.05) // its gas constant differs in the seventh digit
	}
	for _, c := range []struct{ z, T float64 }{{1000, 281.651}, {3000, 268.659}} {
		add(fmt.Sprintf("temperature at %g m height", c.z), "K", c.T, StandardTemperature(Geopotential(c.z)), 0.001)
	}
	for _, c := range []struct{ z, rho float64 }{{0, 1.224999}, {1500, 1.058104}, {4000, 0.819346}} {
		add(fmt.Sprintf("density at %g m height", c.z), "kg/m3", c.rho, StandardDensity(Geopotential(c.z)), 2e-6)
	}
	outside.Check(t, rows...)
}

func TestCheckBoilingPoint(t *testing.T) {
	const law = "boiling point by altitude"
	var rows []outside.Row
	for _, c := range []struct{ H, t float64 }{{-200, 100.6385}, {0, 99.9743}, {500, 98.3125}, {1000, 96.6488}, {1500, 94.9830}, {2000, 93.3151}, {2500, 91.6449}, {3000, 89.9723}, {4000, 86.6193}, {5000, 83.2549}} {
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("at %g m, standard day", c.H),
			Source: "ISO 2533:1975 with IAPWS-IF97, evaluated with the iapws library 1.5.3", Unit: "°C",
			Published: c.t, Ours: BoilingPointAt(c.H) - 273.15, Tol: 1e-4})
	}
	outside.Check(t, rows...)
}

func TestCheckMoistAir(t *testing.T) {
	const law = "moist air"
	const cipm = "Picard et al. 2008, Metrologia 45, 149 (CIPM-2007)"
	var rows []outside.Row
	add := func(name, source, unit string, published, ours, tol float64) {
		rows = append(rows, outside.Row{Law: law, Name: name, Source: source, Unit: unit, Published: published, Ours: ours, Tol: tol})
	}
	for _, c := range []struct{ p, t, rh, rho float64 }{
		{101325, 20, 0, 1.204557}, {101325, 20, 0.5, 1.199314}, {101325, 25, 1, 1.170359}, {95000, 15, 0.8, 1.142772},
	} {
		s := State{T: 273.15 + c.t, P: c.p, RH: c.rh}
		add(fmt.Sprintf("density by CIPM-2007, %g Pa, %g °C, humidity %g", c.p, c.t, c.rh), cipm, "kg/m3", c.rho, DensityCIPM(s), 1e-6)
	}
	for _, c := range []struct{ p, t, rh, rho float64 }{
		{101325, 0, 0.5, 1.291578}, {101325, 20, 0.5, 1.199314}, {101325, 30, 0.8, 1.150013}, {101325, 40, 1, 1.096558}, {95000, 10, 0.3, 1.167630},
	} {
		s := State{T: 273.15 + c.t, P: c.p, RH: c.rh}
		add(fmt.Sprintf("density as ideal gas, %g Pa, %g °C, humidity %g (ideal gas costs 0.07 %%)", c.p, c.t, c.rh), cipm, "kg/m3", c.rho, s.Density(), outside.Rel(c.rho, 0.0007))
	}
	for _, c := range []struct{ t, rh, x float64 }{{10, 0.5, 0.006084}, {20, 1, 0.023179}, {30, 0.5, 0.021047}, {40, 0.8, 0.058580}} {
		s := State{T: 273.15 + c.t, P: 101325, RH: c.rh}
		add(fmt.Sprintf("vapour fraction at %g °C, humidity %g", c.t, c.rh), cipm, "1", c.x, s.VapourFraction(), outside.Rel(c.x, 0.001))
	}
	s := State{T: 288.15, P: 101325}
	add("density of dry air at 15 °C, 101325 Pa (its air weighs 28.9644 g/mol)", "ISO 2533:1975, table 1", "kg/m3", 1.225, s.Density(), 0.0001)
	dry := Dry()
	rows = append(rows, outside.Row{Law: law, Name: "molar mass of dry air", Source: cipm, Unit: "g/mol",
		Published: 28.96546, Ours: 1e3 * dry.MolarMass(), Tol: 1e-4, Used: true})
	outside.Check(t, rows...)
}
