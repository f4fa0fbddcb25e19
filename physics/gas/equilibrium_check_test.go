package gas

import (
	"fmt"
	"math"
	"testing"

	"toplit/internal/outside"
)

const rp1311 = "Gordon, McBride 1996, NASA RP-1311 part II"

// example1 is hydrogen in the air that burns it exactly.
func example1() Elements {
	e := StandardAir.Elements()
	e[Hydrogen] = 4 * (e[Oxygen]/2 - e[Carbon])
	return e
}

// example3 is one kilogram of air and a liquid fuel.
func example3() Feed {
	return Feed{
		Elements: Elements{Carbon: 4.0331842, Hydrogen: 7.1820928, Nitrogen: 50.920563, Oxygen: 13.681266, Argon: 0.30535774},
		H:        317.84e3,
	}
}

// All mole fractions printed for example 1 at one atmosphere.
func TestExample1(t *testing.T) {
	for T, want := range map[float64]map[Species]float64{
		3000: {H2O: .20730, H2: .06728, O2: .01876, N2: .58568, OH: .04517, O: .01540, H: .04075, NO: .01230, Ar: .00710, CO: .00017, CO2: .00007},
		2000: {H2O: .34207, H2: .00306, O2: .00102, N2: .64414, OH: .00113, NO: .00048, H: .00009},
	} {
		q, err := EquilibriumAt(example1(), T, 101325, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for sp, x := range want {
			if math.Abs(q.X(sp)-x) > 1.01e-5 {
				t.Errorf("%g K, %v: ours %.6f, printed %.5f", T, sp, q.X(sp), x)
			}
		}
	}
}

func TestCheckEquilibrium(t *testing.T) {
	const law = "chemical equilibrium"
	var rows []outside.Row
	add := func(name, source string, published, ours, tol float64) {
		rows = append(rows, outside.Row{Law: law, Name: name, Source: source, Unit: "1", Published: published, Ours: ours, Tol: tol})
	}
	type want struct {
		sp     Species
		x, tol float64
	}
	for _, c := range []struct {
		T    float64
		want []want
	}{
		{3000, []want{{H2O, .20730, 1e-5}, {H2, .06728, 1e-5}, {OH, .04517, 1e-5}, {NO, .01230, 1e-5}}},
		{2000, []want{{H2O, .34207, 1e-5}, {OH, .00113, 1e-5}}},
	} {
		q, err := EquilibriumAt(example1(), c.T, 101325, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range c.want {
			add(fmt.Sprintf("H2 in air at %g K, %v", c.T, w.sp), rp1311+", example 1", w.x, q.X(w.sp), w.tol)
		}
	}
	q, err := EquilibriumFlame(example3(), 1e5, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []want{{CO, .0091860, 1e-6}, {CO2, .10716, 1e-5}, {H2O, .099015, 1e-6}, {O2, .029599, 1e-6}, {NO, .0061447, 1e-6}} {
		add(fmt.Sprintf("fuel flame at 1 bar, %v", w.sp), rp1311+", example 3", w.x, q.X(w.sp), w.tol)
	}
	const janaf = "Chase 1998, NIST-JANAF thermochemical tables, 4th ed."
	add("log Kp of H2 + ½O2 = H2O at 1500 K", janaf, 5.724, LogKp(1500, Term{H2, -1}, Term{O2, -0.5}, Term{H2O, 1}), 0.001)
	add("log Kp of CO + ½O2 = CO2 at 1000 K (tables differ by 0.002)", janaf, 20.6786-10.4611, LogKp(1000, Term{CO, -1}, Term{O2, -0.5}, Term{CO2, 1}), 0.002)
	add("log Kp of C + CO2 = 2CO at 1000 K (tables differ by 0.003)", janaf, 2*10.4611-20.6786, LogKp(1000, Term{Graphite, -1}, Term{CO2, -1}, Term{CO, 2}), 0.003)
	add("log Kp of C + 2H2 = CH4 at 1000 K", janaf, -1.0181, LogKp(1000, Term{Graphite, -1}, Term{H2, -2}, Term{CH4, 1}), 0.001)
	outside.Check(t, rows...)
}

func TestCheckFlameTemperature(t *testing.T) {
	const law = "adiabatic flame temperature"
	flame := func(f Feed, p float64) float64 {
		q, err := EquilibriumFlame(f, p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		return q.T
	}
	// dry is a fuel with phi times the amount that 21/79 air can burn.
	dry := func(m Mix, carbon, phi float64) Feed {
		need := m.OxygenDemand() + carbon
		return Feed{}.PlusMix(m, T0).Plus(Graphite, carbon, T0).Plus(O2, need/phi, T0).Plus(N2, need/phi*79/21, T0)
	}
	// wood of C 50.3 H 6.1 O 43.2 N 0.1 %, higher heating value 20.2 MJ/kg dry.
	wood := func(moisture, lambda float64) Feed {
		c, h, o, n := 0.503/12.011e-3, 0.061/1.008e-3, 0.432/15.999e-3, 0.001/14.007e-3
		e := Elements{Carbon: c, Hydrogen: h, Oxygen: o, Nitrogen: n}
		f := Feed{e, FormationEnthalpy(e, 20.2e6-CondensationHeat(h))}
		need := lambda * (c + h/4 - o/2)
		return f.Plus(LiquidWater, moisture/(1-moisture)/18.01528e-3, T0).Plus(O2, need, T0).Plus(N2, need*79/21, T0)
	}
	gasA := Mix{CO: .20, H2: .18, CH4: .02, CO2: .12, N2: .48}
	const (
		gri     = "other data: GRI-Mech 3.0 polynomials (Smith et al. 1999), 21/79 air, solved with scipy (data differ by up to 1.9 K)"
		library = "same data, other solver: NASA-9 coefficients solved with scipy 1.10, 21/79 air"
	)
	row := func(name, source string, published, ours, tol float64) outside.Row {
		return outside.Row{Law: law, Name: name, Source: source, Unit: "K", Published: published, Ours: ours, Tol: tol}
	}
	frozen, _, err := dry(Mix{CH4: 1}, 0, 1).FrozenFlame()
	if err != nil {
		t.Fatal(err)
	}
	outside.Check(t,
		row("fuel and air at 100 bar (source has more species)", rp1311+", example 3", 2418.66, flame(example3(), 100e5), 0.03),
		row("fuel and air at 10 bar (source has more species)", rp1311+", example 3", 2390.59, flame(example3(), 10e5), 0.02),
		row("fuel and air at 1 bar", rp1311+", example 3", 2338.84, flame(example3(), 1e5), 0.01),
		row("CH4, exact air", "Turns 2000, An introduction to combustion, 2nd ed., table B.1 [memory]", 2226, flame(dry(Mix{CH4: 1}, 0, 1), 101325), 3),
		row("CH4, exact air, other data", gri, 2224.52, flame(dry(Mix{CH4: 1}, 0, 1), 101325), 1.9),
		row("H2, exact air, other data", gri, 2379.92, flame(dry(Mix{H2: 1}, 0, 1), 101325), 1.9),
		row("CO, exact air, other data", gri, 2383.60, flame(dry(Mix{CO: 1}, 0, 1), 101325), 1.9),
		row("graphite, 1.25 times the air, other data", gri, 2073.13, flame(dry(Mix{}, 1, 0.8), 101325), 1.9),
		row("wood gas, exact air, other data", gri, 1896.47, flame(dry(gasA, 0, 1), 101325), 1.9),
		row("wood gas, twice the air, other data", gri, 1415.05, flame(dry(gasA, 0, 0.5), 101325), 1.9),
		row("CH4, exact air, no dissociation", library, 2325.10, frozen, 0.05),
		row("dry wood, exact air", library, 2232.4, flame(wood(0, 1), 101325), 0.1),
		row("dry wood, twice the air", library, 1526.2, flame(wood(0, 2), 101325), 0.1),
		row("wood of 10 % moisture, 1.5 times the air", library, 1780.3, flame(wood(0.1, 1.5), 101325), 0.1),
		row("wood of 20 % moisture, 1.5 times the air", library, 1724.5, flame(wood(0.2, 1.5), 101325), 0.1),
	)
}
