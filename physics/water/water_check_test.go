package water

import (
	"fmt"
	"math"
	"testing"

	"toplit/internal/outside"
)

const release = "IAPWS R7-97(2012), table 35"

func TestCheckSaturation(t *testing.T) {
	const law = "saturation line"
	var rows []outside.Row
	for _, c := range []struct{ T, p float64 }{{300, 0.353658941e-2}, {500, 0.263889776e1}, {600, 0.123443146e2}} {
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("pressure at %g K", c.T), Source: release, Unit: "MPa",
			Published: c.p, Ours: SaturationPressure(c.T) / 1e6, Tol: outside.Rel(c.p, 5e-9)})
	}
	for _, c := range []struct{ p, T float64 }{{0.1, 372.755919}, {1, 453.035632}, {10, 584.149488}} {
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("temperature at %g MPa", c.p), Source: "IAPWS R7-97(2012), table 36", Unit: "K",
			Published: c.T, Ours: SaturationTemperature(c.p * 1e6), Tol: 1e-6})
	}
	// The vapour pressure equation of the metrologists' air density formula.
	cipm := func(T float64) float64 {
		return math.Exp(1.2378847e-5*T*T - 1.9121316e-2*T + 33.93711047 - 6.3431645e3/T)
	}
	for _, tc := range []float64{15, 20, 27} {
		p := cipm(zeroC + tc)
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("pressure at %g °C, other equation", tc),
			Source: "Picard et al. 2008, Metrologia 45, 149, eq. (A1.1); stated 0.1 % near 20 °C [memory]", Unit: "Pa",
			Published: p, Ours: SaturationPressure(zeroC + tc), Tol: outside.Rel(p, 0.001)})
	}
	for _, c := range []struct{ p, t float64 }{{70, 89.93151}, {84.56, 94.98428}, {101.325, 99.97430}} {
		rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("temperature at %g kPa", c.p), Source: "iapws library 1.5.3, IF97", Unit: "°C",
			Published: c.t, Ours: SaturationTemperature(c.p*1e3) - zeroC, Tol: 1e-5})
	}
	outside.Check(t, rows...)
}

func TestCheckLiquid(t *testing.T) {
	const library = "iapws library 1.5.3, IF97 (our stated error)"
	var rows []outside.Row
	add := func(law, property, unit string, ours func(T float64) float64, within float64, some ...float64) {
		for _, p := range points(t, property) {
			for _, s := range some {
				if math.Abs(s-p.t) > 1e-9 {
					continue
				}
				rows = append(rows, outside.Row{Law: law, Name: fmt.Sprintf("%s at %g °C", property, p.t), Source: library, Unit: unit,
					Published: p.v, Ours: ours(zeroC + p.t), Tol: within, Used: p.used})
			}
		}
	}
	kilo := func(f func(float64) float64) func(float64) float64 {
		return func(T float64) float64 { return f(T) / 1e3 }
	}
	add("latent heat", "latent", "kJ/kg", kilo(LatentHeat), 0.02, 0.01, 5, 15, 20, 25, 60, 92, 95, 97, 99, 100)
	rows = append(rows, outside.Row{Law: "latent heat", Name: "at 0 °C as meteorology states it", Source: "WMO-No. 8 (2018), 2.501 MJ/kg [memory]", Unit: "kJ/kg",
		Published: 2501, Ours: LatentHeat(zeroC) / 1e3, Tol: 0.5})
	add("liquid water", "density", "kg/m3", Density, 0.01, 15, 20, 45, 75, 95)
	add("liquid water", "cp", "kJ/kg K", kilo(Cp), 0.0006, 15, 20, 45, 75, 95)
	add("liquid water", "enthalpy", "kJ/kg", kilo(Enthalpy), 0.01, 10, 25, 60, 90, 99)
	outside.Check(t, rows...)
}
