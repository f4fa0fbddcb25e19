package size

import (
	"math"
	"testing"

	"toplit/internal/outside"
)

// The trade's formulas against values worked out apart from this program and
// against one published stove. The sizes a search ends at have no outside value:
// no published can stove states its holes, its fuel and its burn together.
func TestSizingRulesAgainstOutside(t *testing.T) {
	const (
		law  = "sizing rules"
		calc = "worked out apart from this program (Python): ṁ = Cd·A·√(2ρΔp), Cd 0.6, air of 300 K as 1.18 and of 400 K as 0.88 kg/m3"
		need = "worked out apart from this program: 6 kg air per kg oven-dry wood (Kubler, Wood and Fiber Science), 17.5 MJ/kg"
	)
	rho := func(T float64) float64 { return math.Round(101325/(287.05*T)*100) / 100 }
	var rows []outside.Row
	for _, x := range []struct {
		name      string
		T, dp     float64
		published float64 // [g/s per cm2]
	}{
		{"air of 300 K through 1 cm2 at 0.3 Pa", 300, 0.3, 0.0505},
		{"air of 300 K through 1 cm2 at 0.5 Pa", 300, 0.5, 0.0652},
		{"air of 300 K through 1 cm2 at 1 Pa", 300, 1, 0.0922},
		{"air of 300 K through 1 cm2 at 1.5 Pa", 300, 1.5, 0.1129},
		{"air of 300 K through 1 cm2 at 2 Pa", 300, 2, 0.1304},
		{"air of 400 K through 1 cm2 at 0.5 Pa", 400, 0.5, 0.0563},
		{"air of 400 K through 1 cm2 at 1 Pa", 400, 1, 0.0796},
		{"air of 400 K through 1 cm2 at 2 Pa", 400, 2, 0.1126},
	} {
		rows = append(rows, outside.Row{Law: law, Name: x.name, Source: calc, Unit: "g/s", Published: x.published, Ours: 1e3 * HoleFlow(1e-4, x.dp, rho(x.T)), Tol: 0.00005})
	}
	flow := AirFor(1500, 1.5)
	rows = append(rows,
		outside.Row{Law: law, Name: "air for 1 kW, no excess", Source: need, Unit: "g/s", Published: 0.343, Ours: 1e3 * AirFor(1000, 1), Tol: 0.0005},
		outside.Row{Law: law, Name: "air for 1 kW, excess 1.5", Source: need, Unit: "g/s", Published: 0.514, Ours: 1e3 * AirFor(1000, 1.5), Tol: 0.0005},
		outside.Row{Law: law, Name: "holes for 1.5 kW, excess 1.5, 0.8 Pa, 300 K", Source: calc + "; " + need, Unit: "cm2", Published: 9.4, Ours: 1e4 * HoleArea(flow, 0.8, rho(300)), Tol: 0.1},
		outside.Row{Law: law, Name: "holes for 1.5 kW, excess 1.5, 0.8 Pa, 400 K", Source: calc + "; " + need, Unit: "cm2", Published: 10.8, Ours: 1e4 * HoleArea(flow, 0.8, rho(400)), Tol: 0.1},
		outside.Row{Law: law, Name: "burn time of a 130 mm bed of pellets, 12 g/min on 100 mm", Source: "Mukunda et al. 2010, Current Science 98(5):627: about 1 h; bulk density 650 kg/m3, ISO 17225-2 class A1 600 to 750 [memory]",
			Unit: "min", Published: 60, Ours: BurnTime(0.13, 650, 0.012/60/(math.Pi/4*0.01)) / 60, Tol: 10},
		outside.Row{Law: law, Name: "ring over bore, 76 in 127 mm", Source: "Aprovecho Research Center, natural draft practice", Unit: "1", Published: 76.0 / 127, Ours: rule(ruleRing).Low, Tol: 0.005, Used: true},
	)
	outside.Check(t, rows...)
}
