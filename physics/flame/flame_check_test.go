package flame_test

import (
	"math"
	"strconv"
	"testing"

	"toplit/internal/outside"
	"toplit/physics/flame"
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// jetCase is a row of stove-scale values worked from the formulas: J, best
// count, single-jet reach over diameter and Reynolds number of a 6 mm hole.
func TestJetsOutside(t *testing.T) {
	const law = "jets"
	const p, R = 101325.0, 287.05
	mu := func(T float64) float64 { return 1.458e-6 * math.Pow(T, 1.5) / (T + 110.4) }
	rho := func(T float64) float64 { return p / (R * T) }
	speed := func(dp, T float64) float64 { return 0.95 * math.Sqrt(2*dp/rho(T)) }
	J := func(dp, Tj, Ug, Tg float64) float64 {
		return flame.MomentumRatio(rho(Tj), speed(dp, Tj), rho(Tg), Ug)
	}
	src := "worked with air at 101325 Pa, velocity coefficient 0.95"
	hold := "Holdeman 1993 form n = π·√(2J)/C with C = 2.5 [memory], worked"
	leb := "Lefebvre, Gas Turbine Combustion, ch. 4 [memory], worked"
	re := flame.Jet{Diameter: 6e-3, Density: rho(350), Speed: speed(0.5, 350)}.Reynolds(mu(350))
	reHot := flame.Jet{Diameter: 6e-3, Density: rho(500), Speed: speed(1, 500)}.Reynolds(mu(500))
	outside.Check(t,
		outside.Row{Law: law, Name: "J at 0.5 Pa, 350 K into 0.5 m/s at 900 K", Source: src, Unit: "1", Published: 9.2, Ours: J(0.5, 350, 0.5, 900), Tol: 0.05},
		outside.Row{Law: law, Name: "J at 1.0 Pa, 350 K into 1 m/s at 900 K", Source: src, Unit: "1", Published: 4.6, Ours: J(1, 350, 1, 900), Tol: 0.05},
		outside.Row{Law: law, Name: "J at 1.5 Pa, 400 K into 1 m/s at 1100 K", Source: src, Unit: "1", Published: 8.4, Ours: J(1.5, 400, 1, 1100), Tol: 0.05},
		outside.Row{Law: law, Name: "best count at J 1", Source: hold, Unit: "1", Published: 1.78, Ours: flame.BestCount(1, 0), Tol: 0.005},
		outside.Row{Law: law, Name: "best count at J 4", Source: hold, Unit: "1", Published: 3.55, Ours: flame.BestCount(4, 0), Tol: 0.005},
		outside.Row{Law: law, Name: "best count at J 16", Source: hold, Unit: "1", Published: 7.11, Ours: flame.BestCount(16, 0), Tol: 0.005},
		outside.Row{Law: law, Name: "best count at J 50", Source: hold, Unit: "1", Published: 12.57, Ours: flame.BestCount(50, 0), Tol: 0.005},
		outside.Row{Law: law, Name: "single reach over diameter, J 9.2", Source: leb, Unit: "1", Published: 3.5, Ours: flame.SingleReach(1, 9.2, math.Pi/2), Tol: 0.05},
		outside.Row{Law: law, Name: "single reach over diameter, J 18.4", Source: leb, Unit: "1", Published: 4.9, Ours: flame.SingleReach(1, 18.4, math.Pi/2), Tol: 0.05},
		outside.Row{Law: law, Name: "single reach over diameter, J 5.6", Source: leb, Unit: "1", Published: 2.7, Ours: flame.SingleReach(1, 5.6, math.Pi/2), Tol: 0.05},
		outside.Row{Law: law, Name: "Reynolds number, 6 mm, 0.5 Pa, 350 K", Source: src, Unit: "1", Published: 276, Ours: re, Tol: 1},
		outside.Row{Law: law, Name: "Reynolds number, 6 mm, 1 Pa, 500 K", Source: src, Unit: "1", Published: 254, Ours: reHot, Tol: 1},
	)
}

func TestSwirlOutside(t *testing.T) {
	const law = "swirl"
	src := "flat vanes, (2/3)(1 − z³)/(1 − z²) tan φ [memory], worked"
	row := func(name string, z, degrees, want float64) outside.Row {
		return outside.Row{Law: law, Name: name, Source: src, Unit: "1", Published: want, Ours: flame.SwirlVanes(z, degrees*math.Pi/180), Tol: 0.0006}
	}
	outside.Check(t,
		row("no hub, 15°", 0, 15, 0.179), row("no hub, 30°", 0, 30, 0.385), row("no hub, 45°", 0, 45, 0.667), row("no hub, 60°", 0, 60, 1.155),
		row("hub 0.5, 15°", 0.5, 15, 0.208), row("hub 0.5, 30°", 0.5, 30, 0.449), row("hub 0.5, 45°", 0.5, 45, 0.778), row("hub 0.5, 60°", 0.5, 60, 1.347),
	)
}

func TestFlameHeightOutside(t *testing.T) {
	const law = "flame height"
	hk := "Heskestad, as in the FDS technical reference, worked"
	h := func(kW, mm, want float64) outside.Row {
		return outside.Row{Law: law, Name: "Heskestad, " + ftoa(kW) + " kW on " + ftoa(mm) + " mm", Source: hk, Unit: "m", Published: want, Ours: flame.Heskestad(kW*1e3, mm/1e3), Tol: 0.0006}
	}
	D := math.Sqrt(4 * 0.09 / math.Pi)
	rp := "Roper 1977 [memory], worked"
	q := flame.Qstar(1500, 0.08, 1.2041, 293.15)
	outside.Check(t,
		h(0.5, 80, 0.097), h(1, 60, 0.174), h(1.5, 80, 0.195), h(2, 100, 0.208), h(3, 40, 0.324), h(3, 80, 0.283),
		outside.Row{Law: law, Name: "Heskestad, 100 kW on 0.09 m2", Source: "FDS technical reference, point source example", Unit: "m", Published: 1.07, Ours: flame.HeskestadQ(flame.Qstar(100e3, D, 1.2, 293.15), D), Tol: 0.01},
		outside.Row{Law: law, Name: "Q* of 1.5 kW on 80 mm", Source: "worked", Unit: "1", Published: 0.75, Ours: q, Tol: 0.01},
		outside.Row{Law: law, Name: "Q* of 3 kW on 40 mm", Source: "worked", Unit: "1", Published: 8.5, Ours: flame.Qstar(3000, 0.04, 1.2041, 293.15), Tol: 0.1},
		outside.Row{Law: law, Name: "Roper, methane 1.0 L/min", Source: rp, Unit: "m", Published: 0.222, Ours: flame.Roper(1e-3/60, 293.15, 293.15, 9.52), Tol: 0.001},
		outside.Row{Law: law, Name: "Roper, methane 0.3 L/min", Source: rp, Unit: "m", Published: 0.0666, Ours: flame.Roper(0.3e-3/60, 293.15, 293.15, 9.52), Tol: 0.0003},
		outside.Row{Law: law, Name: "Roper, wood gas 0.4 L/min", Source: rp, Unit: "m", Published: 0.0134, Ours: flame.Roper(0.4e-3/60, 293.15, 293.15, 1.07), Tol: 0.0001},
	)
}

func ftoa(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }

func TestFarFieldOutside(t *testing.T) {
	const law = "far field"
	const T = 295.15
	fds := "FDS verification: correlations of the technical reference"
	D := math.Sqrt(4 * 1.075 / math.Pi)
	d := math.Sqrt(4 * 0.09 / math.Pi)
	L := flame.HeskestadQ(flame.Qstar(100e3, d, 1.2, 293.15), d)
	src := fds + ", 100 kW on 0.09 m2"
	outside.Check(t,
		outside.Row{Law: law, Name: "McCaffrey, 1245 kW at 6 m", Source: fds + "; g 9.81 there", Unit: "°C", Published: 153.21, Ours: flame.McCaffrey(1245e3, 6, T) + 22, Tol: 0.12},
		outside.Row{Law: law, Name: "Heskestad plume, 1245 kW at 6 m", Source: fds + ", 40 % radiated", Unit: "°C", Published: 133.78, Ours: flame.HeskestadPlume(1245e3, 0.6*1245e3, D, 6, 353/T, T) + 22, Tol: 0.1},
		outside.Row{Law: law, Name: "Alpert, 410 kW, 5.9 m off under 3.72 m", Source: fds, Unit: "°C", Published: 46.45, Ours: flame.Alpert(410e3, 3.72, 5.9) + 22, Tol: 0.01},
		outside.Row{Law: law, Name: "point source at 0.50 m", Source: src + ", 35 % radiated", Unit: "kW/m2", Published: 6.01, Ours: flame.PointSource(100e3, 0.35, 0.5, 0, L) / 1e3, Tol: 0.02},
		outside.Row{Law: law, Name: "point source at 0.75 m", Source: src + ", 35 % radiated", Unit: "kW/m2", Published: 3.65, Ours: flame.PointSource(100e3, 0.35, 0.75, 0, L) / 1e3, Tol: 0.02},
		outside.Row{Law: law, Name: "point source at 1.00 m", Source: src + ", 35 % radiated", Unit: "kW/m2", Published: 2.33, Ours: flame.PointSource(100e3, 0.35, 1, 0, L) / 1e3, Tol: 0.02},
		outside.Row{Law: law, Name: "solid flame at 0.50 m", Source: src, Unit: "kW/m2", Published: 11.18, Ours: flame.SolidFlame(d, L, 0.5) / 1e3, Tol: 0.05},
		outside.Row{Law: law, Name: "solid flame at 0.75 m", Source: src, Unit: "kW/m2", Published: 6.90, Ours: flame.SolidFlame(d, L, 0.75) / 1e3, Tol: 0.05},
		outside.Row{Law: law, Name: "solid flame at 1.00 m", Source: src, Unit: "kW/m2", Published: 4.69, Ours: flame.SolidFlame(d, L, 1) / 1e3, Tol: 0.05},
	)
}

func TestBurnoutOutside(t *testing.T) {
	const law = "CO burn-out"
	ms := func(k float64) float64 { return 1000 * math.Log(100) / k }
	hw := func(T, o2 float64) float64 { return ms(flame.Howard(T, 0.1, o2, 101325)) }
	dg := func(T, o2 float64) float64 { return ms(flame.DryerGlassman(T, 0.1, o2, 101325)) }
	h := "Howard, Williams, Fine 1973 [memory], 99 % at 10 % H2O, worked"
	d := "Dryer, Glassman 1973 [memory], 99 % at 10 % H2O, worked"
	V := math.Pi / 4 * 0.08 * 0.08 * 0.1
	outside.Check(t,
		outside.Row{Law: law, Name: "Howard, 900 K, 5 % O2", Source: h, Unit: "ms", Published: 714, Ours: hw(900, 0.05), Tol: 3},
		outside.Row{Law: law, Name: "Howard, 1000 K, 5 % O2", Source: h, Unit: "ms", Published: 148, Ours: hw(1000, 0.05), Tol: 1},
		outside.Row{Law: law, Name: "Howard, 1100 K, 5 % O2", Source: h, Unit: "ms", Published: 41, Ours: hw(1100, 0.05), Tol: 0.5},
		outside.Row{Law: law, Name: "Howard, 1200 K, 1 % O2", Source: h, Unit: "ms", Published: 32, Ours: hw(1200, 0.01), Tol: 0.5},
		outside.Row{Law: law, Name: "Howard, 1300 K, 5 % O2", Source: h, Unit: "ms", Published: 5.9, Ours: hw(1300, 0.05), Tol: 0.1},
		outside.Row{Law: law, Name: "Howard, 1000 K, 1 % O2", Source: h, Unit: "ms", Published: 331, Ours: hw(1000, 0.01), Tol: 2},
		outside.Row{Law: law, Name: "Dryer, 900 K, 5 % O2", Source: d, Unit: "ms", Published: 1790, Ours: dg(900, 0.05), Tol: 10},
		outside.Row{Law: law, Name: "Dryer, 1000 K, 5 % O2", Source: d, Unit: "ms", Published: 207, Ours: dg(1000, 0.05), Tol: 2},
		outside.Row{Law: law, Name: "Dryer, 1100 K, 1 % O2", Source: d, Unit: "ms", Published: 53, Ours: dg(1100, 0.01), Tol: 0.6},
		outside.Row{Law: law, Name: "Dryer, 1150 K, 5 % O2", Source: d, Unit: "ms", Published: 17, Ours: dg(1150, 0.05), Tol: 0.5},
		outside.Row{Law: law, Name: "Dryer, 1300 K, 5 % O2", Source: d, Unit: "ms", Published: 2.4, Ours: dg(1300, 0.05), Tol: 0.05},
		outside.Row{Law: law, Name: "residence in 80 by 100 mm at 1 g/s, 1150 K", Source: "worked: 0.503 L, 0.307 kg/m3", Unit: "ms", Published: 154, Ours: 1000 * flame.Residence(V, 101325/(287.05*1150), 1e-3), Tol: 1},
	)
}

// wood is the fuel of the equilibrium table: C 50.3, H 6.1, O 43.2, N 0.1 %.
var wood = fuel.Analysis{Carbon: 0.503, Hydrogen: 0.061, Oxygen: 0.432, Nitrogen: 0.001}

func TestOxygenOutside(t *testing.T) {
	const law = "oxygen and lambda"
	rule := "λ = 20.95/(20.95 − O2), worked"
	eq := "equilibrium of wood in air, NASA-9 data, 21/79 air, worked; dry, the oxygen in NO added"
	r := func(o2, want float64) outside.Row {
		return outside.Row{Law: law, Name: "λ at " + ftoa(o2) + " % O2", Source: rule, Unit: "1", Published: want, Ours: flame.LambdaFromOxygen(o2 / 100), Tol: 0.006}
	}
	e := func(lambda, xO2, xNO, xH2O float64) outside.Row {
		return outside.Row{Law: law, Name: "dry O2 of wood at λ " + ftoa(lambda), Source: eq, Unit: "%", Published: 100 * (xO2 + xNO/2) / (1 - xH2O), Ours: 100 * flame.DryOxygen(wood, lambda), Tol: 0.1}
	}
	outside.Check(t,
		r(3, 1.17), r(6, 1.40), r(10, 1.91), r(12, 2.34), r(15, 3.52),
		e(1.5, 0.06278, 0.0023788, 0.088774), e(2, 0.097726, 0.00091658, 0.068259), e(2.5, 0.11922, 0.00034107, 0.055351), e(3, 0.13376, 0.000132, 0.046536),
		outside.Row{Law: law, Name: "λ of a controlled burner at 2 % O2", Source: "Krüger 2021, Energies 14:3913, abstract, about 2 vol%, λ about 1.1", Unit: "1", Published: 1.1, Ours: flame.LambdaFromOxygen(0.02), Tol: 0.05},
	)
}

func TestCOSlopeOutside(t *testing.T) {
	const law = "CO against oxygen"
	src := "Beyler hood experiments, methanol, ethanol, acetone; open data of the firemodels project, commit 39d8b73, bins"
	bin := func(from, to, lo, hi float64, used bool) outside.Row {
		return outside.Row{Law: law, Name: "CO/CO2 at " + ftoa(from*100) + " to " + ftoa(to*100) + " % O2", Source: src, Unit: "kg/kg", Published: (lo + hi) / 2, Ours: flame.COSlope((from + to) / 2), Tol: (hi - lo) / 2, Used: used}
	}
	outside.Check(t,
		bin(0, 0.01, 0.20, 0.24, true), bin(0.01, 0.02, 0.06, 0.17, false), bin(0.02, 0.04, 0.006, 0.15, false),
		bin(0.04, 0.07, 0.002, 0.03, false), bin(0.07, 0.10, 0.001, 0.005, false), bin(0.10, 0.13, 0.0004, 0.002, true), bin(0.13, 0.17, 0.0002, 0.002, true),
		outside.Row{Law: law, Name: "CO per fuel at CO/CO2 0.01", Source: "1833·r/(1 + 1.571·r) for half carbon, worked", Unit: "g/kg", Published: 18, Ours: 1000 * flame.COPerFuel(0.01, 0.5), Tol: 0.5},
		outside.Row{Law: law, Name: "flaming peat stays below 0.02", Source: "Lin, Sun, Huang 2019, CO/CO2 < 0.02 flaming; at 10 % O2 by mass", Unit: "1", Published: 0.01, Ours: flame.COSlope(0.10), Tol: 0.01},
	)
}

func TestFlameTemperatureOutside(t *testing.T) {
	const law = "flame temperature estimate"
	src := "equilibrium with 11 species, GRI-Mech 3.0 thermodynamics, air 21/79, worked; wood gas 20 CO, 17 H2, 2 CH4, 11 CO2, 50 N2"
	air := gas.Mix{gas.N2: 0.79, gas.O2: 0.21}
	woodGas := gas.Mix{gas.CO: 0.20, gas.H2: 0.17, gas.CH4: 0.02, gas.CO2: 0.11, gas.N2: 0.50}
	want := map[float64][5]float64{298.15: {1886, 1712, 1564, 1410, 1152}, 873.15: {2080, 1911, 1746, 1572, 1278}, 1073.15: {2145, 1983, 1814, 1633, 1326}}
	for _, Tg := range []float64{298.15, 873.15, 1073.15} {
		for i, lambda := range []float64{1, 1.3, 1.6, 2, 3} {
			got := flame.Burning{Fuel: woodGas, FuelT: Tg, Air: air, AirT: 298.15, Lambda: lambda}.Temperature()
			outside.Check(t, outside.Row{Law: law, Name: "wood gas at " + ftoa(Tg) + " K, λ " + ftoa(lambda), Source: src + "; tolerance as stated for the estimate", Unit: "K", Published: want[Tg][i], Ours: got, Tol: 10})
		}
	}
	// The points the dissociation term was fitted to.
	gasA := gas.Mix{gas.CO: 0.20, gas.H2: 0.18, gas.CH4: 0.02, gas.CO2: 0.12, gas.N2: 0.48}
	for i, phi := range []float64{1, 0.8, 0.6, 0.5} {
		eq := [4]float64{1896.2, 1748.8, 1541.9, 1415.0}[i]
		got := flame.Burning{Fuel: gasA, FuelT: 298.15, Air: air, AirT: 298.15, Lambda: 1 / phi}.Temperature()
		outside.Check(t, outside.Row{Law: law, Name: "gas A at φ " + ftoa(phi), Source: "equilibrium with NASA-9 data, worked", Unit: "K", Published: eq, Ours: got, Tol: 10, Used: true})
	}
}
