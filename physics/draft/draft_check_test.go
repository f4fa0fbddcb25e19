package draft

import (
	"fmt"
	"math"
	"testing"

	"toplit/internal/outside"
)

func row(law, name, source, unit string, published, ours, tol float64) outside.Row {
	return outside.Row{Law: law, Name: name, Source: source, Unit: unit, Published: published, Ours: ours, Tol: tol}
}

func used(r outside.Row) outside.Row { r.Used = true; return r }

func TestHoleDischarge(t *testing.T) {
	const law = "hole discharge"
	small := must(t, Holes{Count: 1, Diameter: 4e-3})
	// Water jets: Re from head and coefficient, 1.1e-6 m2/s (16 °C) and, for
	// Mair's, 1.24e-6 (51-55 °F).
	jet := func(ft, inch, nu float64) float64 {
		d := inch * 0.0254
		re := 0.61 * math.Sqrt(2*Gravity*ft*0.3048) * d / nu
		return must(t, Holes{Count: 1, Diameter: d}).Cd(re)
	}
	const eb = "Encyclopaedia Britannica 11th ed. vol. 14, Hydraulics, round orifice 0.196 sq in"
	const scatter = 0.005 // between this table and Unwin's formula for the same hole
	for _, c := range []struct{ ft, c float64 }{{2, 0.613}, {4, 0.608}, {10, 0.605}} {
		outside.Check(t, row(law, fmt.Sprintf("Cd at a head of %g ft", c.ft), eb, "1", c.c, jet(c.ft, 0.4996, 1.1e-6), scatter))
	}
	outside.Check(t,
		used(row(law, "Cd at a head of 1 ft", eb, "1", 0.620, jet(1, 0.4996, 1.1e-6), scatter)),
		used(row(law, "Cd at a head of 20 ft", eb, "1", 0.603, jet(20, 0.4996, 1.1e-6), scatter)))
	const mair = "Unwin's fit to Mair, Proc. Inst. Civ. Eng. 84, in Encyclopaedia Britannica 11th ed. vol. 14"
	for _, c := range []struct{ ft, in float64 }{{1, 1}, {4, 1}, {1, 3}} {
		outside.Check(t, row(law, fmt.Sprintf("Cd of %g in at %g ft", c.in, c.ft), mair, "1",
			0.6075+0.0098/math.Sqrt(c.ft)-0.0037*c.in, jet(c.ft, c.in, 1.24e-6), scatter))
	}
	const johansen = "Johansen 1930, Proc. R. Soc. A 126 [memory]: 0.65 to 0.75 about Re 100-400"
	outside.Check(t,
		row(law, "hump at Re 100", johansen, "1", 0.70, small.Cd(100), 0.05),
		row(law, "hump at Re 200", johansen, "1", 0.70, small.Cd(200), 0.05),
		row(law, "hump at Re 400", johansen, "1", 0.70, small.Cd(400), 0.05),
		row(law, "sharp edge at Re 5e4", "constants table of a public reactor-safety library, Re above about 1e4", "1", 0.61, small.Cd(5e4), 0.005),
		row(law, "sharp orifice in a large wall, large Re", "Rennels & Hudson 2012, Pipe Flow, orifice 1/sqrt(1.0696) / 1.622", "1", 1/(1.622*math.Sqrt(1.0696)), small.Cd(9e5), 0.001),
		row(law, "zeta Re of a thin plate at Re 5", "Idelchik diagram 8-5 as condensed by Electronics Cooling, May 1998: 30 below Re 10", "1", 30, 5/(small.Cd(5)*small.Cd(5)), 0.5),
	)
	outside.Check(t, used(row(law, "zeta Re in creeping flow, thin wall", "Sampson 1891: dp = 3 mu Q/r^3 [memory]", "1", 12*math.Pi, 1e-3/math.Pow(small.Cd(1e-3), 2), 1e-6)))

	// The table itself, through the line in beta^4: C of the plates in a pipe.
	const holl = "Hollingshead 2011 as typed in CalebBell/fluids"
	for _, c := range []struct{ beta, rePipe, c float64 }{{0.5, 100, 0.702}, {0.7, 100, 0.781}, {0.6, 500, 0.707}, {0.5, 10, 0.585}} {
		f := c.beta * c.beta
		x := must(t, Holes{Count: 1, Diameter: 0.05, Before: f})
		cd := x.Cd(c.rePipe / c.beta)
		ours := math.Sqrt((1 - f*f) / (1/(cd*cd) - f*f))
		outside.Check(t, used(row(law, fmt.Sprintf("plate of beta %g at pipe Re %g", c.beta, c.rePipe), holl, "1", c.c, ours, 0.06*c.c)))
	}
}

func TestThickAndPlateOrifice(t *testing.T) {
	const law = "thick and plate orifice"
	const thick = "Idelchik diagrams 4-12, 4-15 as coded in the Modelica Standard Library, evaluated"
	for _, c := range []struct{ l, z float64 }{{0.05, 2.823}, {0.2, 2.741}, {0.5, 2.487}, {1, 1.764}, {2, 1.606}} {
		outside.Check(t, row(law, fmt.Sprintf("zeta of a hole of length/diameter %g", c.l), thick, "1", c.z, ThickPlate(0, 0, c.l), 0.0006))
	}
	for _, c := range []struct{ f, z float64 }{{0.1, 241.6}, {0.3, 18.7}, {0.5, 4.23}} {
		outside.Check(t, row(law, fmt.Sprintf("grid of open fraction %g, on approach velocity", c.f), thick, "1", c.z, ThickPlate(c.f, c.f, 0.05)/(c.f*c.f), 0.006*c.z))
	}
	const sharp = "Idelchik diagram 4-14 as documented in the Modelica Standard Library, evaluated"
	for _, c := range []struct{ f, z, tol float64 }{{0.05, 1080, 0.5}, {0.2, 52.6, 0.05}, {0.4, 8.76, 0.005}} {
		outside.Check(t, row(law, fmt.Sprintf("sharp plate of open fraction %g, on approach velocity", c.f), sharp, "1", c.z, SharpPlate(c.f, c.f)/(c.f*c.f), c.tol))
	}
	const licht = "Lichtarowicz, Duggins & Markland 1965, test values of a public reactor-safety library"
	outside.Check(t,
		row(law, "long bore, Re 2e4, length/diameter 2", licht, "1", 0.8088166, Lichtarowicz(2e4, 2), 1e-7),
		row(law, "long bore, Re 100, length/diameter 2", licht, "1", 0.4284155, Lichtarowicz(100, 2), 1e-7),
	)
	// The element against the same bores, and against Idelchik between.
	x := must(t, Holes{Count: 1, Diameter: 1e-3, Thickness: 2e-3})
	outside.Check(t, used(row(law, "element, Re 100, length/diameter 2", licht, "1", 0.4284155, x.Cd(100), 1e-4)))
	x = must(t, Holes{Count: 1, Diameter: 1e-3, Thickness: 0.5e-3})
	outside.Check(t, row(law, "element, Re 1e5, length/diameter 0.5", thick, "1", 0.634, x.Cd(1e5), 0.03*0.634))
	x = must(t, Holes{Count: 1, Diameter: 1e-3, Before: 0.4, After: 0.4})
	outside.Check(t, row(law, "element, plate of open fraction 0.4, Re 9e5", sharp, "1", 8.76, 1/math.Pow(x.Cd(9e5)*0.4, 2), 0.05*8.76))
}

func TestFittings(t *testing.T) {
	const law = "fittings"
	const lib = "Rennels & Hudson 2012 as in the library fluids"
	for _, c := range []struct{ beta, k float64 }{{0.2, 0.5619}, {0.4, 0.5301}, {0.6, 0.4386}, {0.8, 0.2303}} {
		outside.Check(t, row(law, fmt.Sprintf("sharp contraction to diameter ratio %g", c.beta), lib, "1", c.k, ContractionRennels(c.beta), 5e-5))
	}
	for _, c := range []struct{ beta, k float64 }{{0.2, 0.9216}, {0.4, 0.7056}, {0.6, 0.4096}, {0.8, 0.1296}} {
		outside.Check(t, row(law, fmt.Sprintf("sudden expansion from diameter ratio %g", c.beta), "library fluids", "1", c.k, Expansion(c.beta*c.beta), 5e-5))
	}
	const diagram = "Idelchik diagram 4-9, table as typed in a public code"
	for _, c := range []struct{ f, a, tol float64 }{{0.2, 0.85, 0.005}, {0.4, 0.68, 0.005}, {0.6, 0.503, 0.0005}, {0.8, 0.300, 0.001}, {0.9, 0.178, 0.0005}} {
		outside.Check(t, row(law, fmt.Sprintf("sudden contraction to area fraction %g, over that from a large space", c.f), diagram, "1", c.a, Contraction(c.f)/EntrySharp, c.tol))
	}
	outside.Check(t, row(law, "sharp contraction from a large space", "Rennels & Hudson 2012 as in the library fluids; others 0.5, so the spread of sources", "1", 0.57, Contraction(0), 0.07))
}

func TestAnnulusFriction(t *testing.T) {
	const law = "annulus friction"
	const white = "exact laminar solution, evaluated with scipy; the same in White, Fluid Mechanics [memory]"
	for _, c := range []struct{ k, f float64 }{{0.05, 86.27}, {0.10, 89.37}, {0.25, 93.21}, {0.5, 95.25}, {0.7, 95.80}, {0.8, 95.92}, {0.9, 95.98}, {0.95, 96.00}} {
		outside.Check(t, row(law, fmt.Sprintf("f Re at radius ratio %g", c.k), white, "1", c.f, 64/AnnulusShape(c.k), 0.005))
	}
	// Through the element: laminar flow at small Re.
	fRe := func(c Channel) float64 {
		ch, err := NewChannel(c)
		if err != nil {
			t.Fatal(err)
		}
		const mu, rho, re = 2e-5, 1.1, 100.0
		m := re * mu * c.Area / c.Wet
		dp, _ := ch.Drop(m, rho, mu)
		v := m / rho / c.Area
		return dp / (0.5 * rho * v * v) * c.Wet / c.Length * re
	}
	outside.Check(t,
		row(law, "f Re of a tube", "Hagen-Poiseuille, exact", "1", 64, fRe(Tube(0.05, 0.2)), 1e-6),
		row(law, "f Re of a flat slot", "plane Poiseuille, exact", "1", 96, fRe(Slot(4e-3, 0.3, 0.1)), 1e-6),
	)
	even, _ := Annulus(0.100, 0.112, 0.12, 0)
	half, _ := Annulus(0.100, 0.112, 0.12, 0.5)
	touching, _ := Annulus(0.100, 0.112, 0.12, 1)
	const lubrication = "narrow-gap lubrication form q = 1 + 1.5 e^2"
	outside.Check(t,
		row(law, "flow at eccentricity 0.5 over centred", lubrication, "1", 1.375, fRe(even)/fRe(half), 1e-6),
		row(law, "flow with cans touching over centred", lubrication+", 2.5 as printed", "1", 2.5, fRe(even)/fRe(touching), 1e-6),
	)
	outside.Check(t, row(law, "turbulent f of a smooth pipe at Re 1e4", "Prandtl's smooth-pipe law, 0.0309 [memory]", "1", 0.0309, DarcyFriction(1e4), 0.0005))
}

func TestDraftHead(t *testing.T) {
	const law = "draft head"
	ra := density(101325, 293.15)
	const source = "hydrostatics of air (R 287.05, 293.15 K, 101325 Pa), evaluated with scipy"
	for _, c := range []struct{ h, ti, dp float64 }{
		{0.05, 373.15, 0.127}, {0.05, 1073.15, 0.429}, {0.10, 573.15, 0.577}, {0.10, 1273.15, 0.909},
		{0.15, 873.15, 1.177}, {0.15, 1073.15, 1.287}, {0.30, 1073.15, 2.575},
	} {
		outside.Check(t, row(law, fmt.Sprintf("%g m at %g K", c.h, c.ti), source, "Pa", c.dp, Head(c.h, ra, density(101325, c.ti)), 0.0006))
	}
	for _, c := range []struct{ t, dp float64 }{{330, 0.158}, {373, 0.303}, {450, 0.494}} {
		outside.Check(t, row(law, fmt.Sprintf("annulus of 0.12 m at %g K", c.t), source, "Pa", c.dp, Head(0.12, ra, density(101325, c.t)), 0.0006))
	}
	const stack = "stack effect 0.0342 K/m P h (1/To - 1/Ti), general building practice [memory]"
	for _, c := range []struct{ h, ti float64 }{{0.15, 1073.15}, {3, 323.15}} {
		p := 0.0342 * 101325 * c.h * (1/293.15 - 1/c.ti)
		outside.Check(t, row(law, fmt.Sprintf("stack of %g m at %g K", c.h, c.ti), stack, "Pa", p, Head(c.h, ra, density(101325, c.ti)), 0.00005/0.0342*p))
	}
}

func TestFlowNetwork(t *testing.T) {
	const law = "flow network"
	const source = "reference network, balance solved with scipy (fixed Cd 0.595)"
	for _, c := range []struct {
		name        string
		p, ring     float64
		n           int
		d, m, dpHol float64
	}{
		{"ring 45 mm, 24 x 6 mm", 101325, 0.045, 24, 6e-3, 0.3421, 0.4068},
		{"ring 60 mm, 24 x 6 mm", 101325, 0.060, 24, 6e-3, 0.4994, 0.8669},
		{"ring 80 mm, 24 x 6 mm", 101325, 0.080, 24, 6e-3, 0.5703, 1.1303},
		{"ring 60 mm, 24 x 4 mm", 101325, 0.060, 24, 4e-3, 0.2476, 1.0786},
		{"ring 60 mm, 12 x 6 mm", 101325, 0.060, 12, 6e-3, 0.2759, 1.0584},
		{"ring 60 mm, 24 x 6 mm, 3000 m", 70121, 0.060, 24, 6e-3, 0.3198, 0.5135},
	} {
		n := reference(c.p, c.ring, c.n, c.d)
		x := []float64{0}
		if _, err := n.Solve(x); err != nil {
			t.Fatal(err)
		}
		outside.Check(t,
			row(law, "secondary flow, "+c.name, source, "g/s", c.m, x[0]*1e3, 0.00006),
			row(law, "drop over holes, "+c.name, source, "Pa", c.dpHol, n.Passages[0].Drop, 0.00006))
	}
	// Two openings and a buoyant column; the closed form is in the source.
	n := &Network{Loops: 1, Passages: []Passage{
		{Element: FixedCd(3e-4, 1), Rho: 1.2, Mu: 1.8e-5, Head: Head(0.2, 1.2, 0.4), Loop: [MaxLoops]float64{1}},
		{Element: FixedCd(10e-4, 1), Rho: 0.4, Mu: 4e-5, Loop: [MaxLoops]float64{1}},
	}}
	x := []float64{0}
	if _, err := n.Solve(x); err != nil {
		t.Fatal(err)
	}
	outside.Check(t,
		row(law, "two openings and a column, flow", "closed form, evaluated with scipy", "g/s", 0.5165892, x[0]*1e3, 1e-7),
		row(law, "two openings and a column, head", "closed form, evaluated with scipy", "Pa", 1.569064, n.Passages[0].Head, 1e-6))
}

func TestChimneyModel(t *testing.T) {
	const law = "chimney model"
	const source = "lumped chimney of Agenbroad et al. 2011 (form from memory), solved with scipy"
	for _, c := range []struct{ d, h, q, c, t, m, lambda float64 }{
		{0.10, 0.30, 3000, 0.35, 1050.4, 3.601, 3.60},
		{0.10, 0.30, 3000, 0.60, 694.3, 6.798, 6.80},
		{0.10, 0.30, 5000, 0.35, 1840.1, 2.938, 1.76},
		{0.10, 0.30, 5000, 0.60, 1023.7, 6.222, 3.73},
		{0.076, 0.15, 1500, 0.35, 1283.8, 1.377, 2.75},
		{0.076, 0.25, 1500, 0.35, 1001.0, 1.927, 3.85},
	} {
		x := Chimney{Area: math.Pi / 4 * c.d * c.d, Height: c.h, Pressure: 101325, Ambient: 293.15, C: c.c, HeatCp: 1100, GasR: 287.05}
		temp, m := x.Draw(c.q)
		name := fmt.Sprintf("D %g m, h %g m, %g W, C %g", c.d, c.h, c.q, c.c)
		outside.Check(t,
			row(law, "temperature, "+name, source, "K", c.t, temp, 0.06),
			row(law, "flow, "+name, source, "g/s", c.m, m*1e3, 0.0006))
	}
	for _, c := range []struct{ r, f, tol float64 }{{2, 0.5, 1e-9}, {3, 0.4714, 5e-5}, {4, 0.433, 5e-4}} {
		outside.Check(t, row(law, fmt.Sprintf("flow factor at T = %g Ta", c.r), "closed form, evaluated", "1", c.f, FlowFactor(c.r*300, 300), c.tol))
	}
}

func TestWindPressure(t *testing.T) {
	const law = "wind pressure"
	for _, c := range []struct{ u, p, tol float64 }{{1, 0.6, 0.05}, {2, 2.4, 0.05}, {3, 5.4, 0.15}, {5, 15, 0.5}} {
		outside.Check(t, row(law, fmt.Sprintf("at %g m/s", c.u), "dynamic pressure of air, 1.2 kg/m3, evaluated", "Pa", c.p, WindHead(1, 1.2, c.u, 0), c.tol))
	}
	outside.Check(t, row(law, "0.613 u^2 at 10 m/s", "structural wind codes, 0.613 N s2/m4 at 1.225 kg/m3 [memory]", "Pa", 61.3, WindHead(1, 1.225, 10, 0), 0.05))
}
