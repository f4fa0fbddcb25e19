package stove

import (
	"math"
	"testing"

	"toplit/internal/outside"
)

const inch = 25.4e-3

func drilled(n int, d float64) Row {
	return Row{On: FuelBody, Count: n, Hole: Hole{Shape: Round, Width: d}, Height: 0.1}
}

// Hole counts, sizes and can sizes are the published ones; the published
// side is what their authors (or a handbook) give for the area, the ratio or
// the mass.
func TestAreasOutside(t *testing.T) {
	const law = "areas and ratios"
	two := Design{
		FuelCan:  Can{Diameter: 85e-3, Height: 130e-3},
		OuterCan: &Can{Diameter: 100e-3, Height: 175e-3},
		Ring:     &Ring{Bore: 63e-3},
	}
	twoRing, twoArea := two.RingToBore()
	big := Design{FuelCan: Can{Diameter: 5 * inch, Height: 0.2}, Ring: &Ring{Bore: 3 * inch}}
	bigRing, bigArea := big.RingToBore()
	fan := Design{FuelCan: Can{Diameter: 100e-3, Height: 130e-3}}
	drinks := Design{FuelCan: Can{Diameter: 66e-3, Height: 115e-3}, Rows: []Row{
		{On: FuelBase, Count: 12, Hole: Hole{Shape: Round, Width: inch / 8}},
		{On: FuelBody, Count: 10, Hole: Hole{Shape: Round, Width: inch * 3 / 16}, Height: 115e-3 - 12.7e-3},
	}}
	sp, _ := drinks.SecondaryToPrimary(drinks.FillLevel())
	const page = "can-stove page, soloreisender.de 2014, dimensions paragraph"
	const ring = "Aprovecho newsletter on the ring of a TLUD: 3 in hole in a 5 in stove"
	const hiker = "hiker recipe, ynyoo.com: 12 × 1/8 in base, 10 × 3/16 in below the rim"
	outside.Check(t,
		outside.Row{Law: law, Name: "ring to bore, 63 in 85 mm", Source: page, Unit: "1", Published: 0.74, Ours: twoRing, Tol: 0.005},
		outside.Row{Law: law, Name: "ring to bore area, 63 in 85 mm", Source: page, Unit: "1", Published: 0.55, Ours: twoArea, Tol: 0.005},
		outside.Row{Law: law, Name: "annulus 100/85 mm", Source: page, Unit: "mm", Published: 7.5, Ours: two.AnnulusGap() * 1e3, Tol: 0.05},
		outside.Row{Law: law, Name: "ring to bore, 3 in 5 in", Source: ring, Unit: "1", Published: 0.60, Ours: bigRing, Tol: 0.005},
		outside.Row{Law: law, Name: "ring to bore area, 3 in 5 in", Source: ring, Unit: "1", Published: 0.36, Ours: bigArea, Tol: 0.005},
		outside.Row{Law: law, Name: "base holes 12 × 1/8 in", Source: hiker, Unit: "mm²", Published: 95, Ours: drinks.Area(FuelBase) * 1e6, Tol: 0.5},
		outside.Row{Law: law, Name: "jets 10 × 3/16 in", Source: hiker, Unit: "mm²", Published: 178, Ours: drinks.Area(FuelBody) * 1e6, Tol: 0.5},
		outside.Row{Law: law, Name: "secondary to primary", Source: hiker, Unit: "1", Published: 1.88, Ours: sp, Tol: 0.01},
		outside.Row{Law: law, Name: "18 × 5 mm", Source: "Varunkumar, Rajan & Mukunda 2012, 100 × 130 mm rig", Unit: "mm²", Published: 353, Ours: drilled(18, 5e-3).Area() * 1e6, Tol: 0.5},
		outside.Row{Law: law, Name: "18 × 5 mm to 100 mm bore", Source: "Varunkumar, Rajan & Mukunda 2012, 100 × 130 mm rig", Unit: "1", Published: 0.045, Ours: fan.RowToBore(drilled(18, 5e-3)), Tol: 0.0005},
		outside.Row{Law: law, Name: "drill 1/4 in", Source: "drill table, fractional inch sizes with area", Unit: "mm²", Published: 31.669, Ours: drilled(1, inch/4).Area() * 1e6, Tol: 0.0005},
		outside.Row{Law: law, Name: "drill no. 7 (0.201 in)", Source: "ASME B94.11M number drills [memory], table with area", Unit: "mm²", Published: 20.471, Ours: drilled(1, 0.201*inch).Area() * 1e6, Tol: 0.0005},
		outside.Row{Law: law, Name: "charge of a 240 × 325 mm reactor at 109.1 kg/m³", Source: "Pare 2013, open research notes on rice-husk stoves, baseline sheet: 1.604 kg", Unit: "kg", Published: 1.604, Ours: Design{FuelCan: Can{Diameter: 0.240, Height: 0.325}}.Brimful() * 109.1, Tol: 0.0005},
		outside.Row{Law: law, Name: "charge of a 250 × 216 mm reactor at 109.1 kg/m³", Source: "Pare 2013, open research notes on rice-husk stoves, equal-volume design: 1.157 kg", Unit: "kg", Published: 1.157, Ours: Design{FuelCan: Can{Diameter: 0.250, Height: 0.216}}.Brimful() * 109.1, Tol: 0.0005},
	)
}

// Filled cans weighed before filling: APEAL's table of down-gauging. The
// sheet of body and ends is published, the sizes (73 × 109.5 and 99 × 118 mm)
// are the trade's for these volumes [memory]. Tinplate is sold to ±5 % of its
// thickness [memory]; lacquer and the opening tab (about 2 g [memory]) come
// on top, which our figure leaves out.
func TestCanMassOutside(t *testing.T) {
	const source = "APEAL, Steel, the sustainable packaging solution, table of can weights 1980-2004"
	full := func(dia, height, body, one, other float64) float64 {
		side, end, _ := sheets(Can{Diameter: dia, Height: height, Wall: body}, true)
		return (side*body + end*(one+other)) * Tinplate.Density() * 1e3
	}
	row := func(name string, published, ours float64) outside.Row {
		return outside.Row{Law: "sheet mass", Name: name, Source: source, Unit: "g", Published: published, Ours: ours, Tol: outside.Rel(published, 0.05)}
	}
	outside.Check(t,
		row("425 ml can, 1980", 59.9, full(73e-3, 109.5e-3, 0.19e-3, 0.22e-3, 0.22e-3)),
		row("425 ml can, 1992", 49.5, full(73e-3, 109.5e-3, 0.14e-3, 0.22e-3, 0.19e-3)),
		row("425 ml can, 2004", 45.4, full(73e-3, 109.5e-3, 0.13e-3, 0.20e-3, 0.17e-3)),
		row("850 ml can, 1980", 103.3, full(99e-3, 118e-3, 0.22e-3, 0.23e-3, 0.23e-3)),
		row("850 ml can, 1992", 96, full(99e-3, 118e-3, 0.19e-3, 0.24e-3, 0.20e-3)),
		row("850 ml can, 2004", 87.5, full(99e-3, 118e-3, 0.17e-3, 0.23e-3, 0.19e-3)),
	)
}

// Textbook problems, the protocol's cosines, and one bored-out cylinder whose
// centre of gravity the solver has to find first.
func TestTipAngleOutside(t *testing.T) {
	const law = "tip angle"
	deg := func(r, h float64) float64 { return TipAngle(r, h) * 180 / math.Pi }
	cyl := Design{FuelCan: Can{Diameter: 0.12, Height: 0.20, Wall: 1e-9, Metal: MildSteel, OpenBase: true}}
	// a unit cylinder with a cone as wide and high bored from its base, of
	// which a negative mass takes the place
	_, h := Centre(Load{Mass: 1, Height: 0.5}, Load{Mass: -1.0 / 3, Height: 0.25})
	outside.Check(t,
		outside.Row{Law: law, Name: "tilted cylinder 12 × 16 ft", Source: "Math Principles in Everyday Life, 12 December 2012", Unit: "°", Published: 36.870, Ours: deg(6, 8), Tol: 0.0005},
		outside.Row{Law: law, Name: "cylinder 12 × 20 cm, tangent", Source: "OCR examination M2 2007 Q1: tan = 6/10", Unit: "1", Published: 0.6, Ours: math.Tan(cyl.Stability().Angle), Tol: 0.0005},
		outside.Row{Law: law, Name: "centre 1 ft over a 3 ft base", Source: "homemadetools.net forum, tool stand design", Unit: "°", Published: 56.3, Ours: deg(1.5, 1), Tol: 0.05},
		outside.Row{Law: law, Name: "bored-out cylinder, tangent × h/r", Source: "Applied Mathematics 1975, ch. 16: arctan 8r/5h", Unit: "1", Published: 1.6, Ours: math.Tan(TipAngle(1, h)), Tol: 1e-9},
		outside.Row{Law: law, Name: "ratio 0.940", Source: "biomass stove safety protocol, tipping test [memory]", Unit: "1", Published: 0.940, Ours: math.Cos(SteadyAngle), Tol: 0.0005, Used: true},
		outside.Row{Law: law, Name: "ratio 0.961", Source: "biomass stove safety protocol, tipping test [memory]", Unit: "1", Published: 0.961, Ours: math.Cos(FairAngle), Tol: 0.0005, Used: true},
		outside.Row{Law: law, Name: "ratio 0.978", Source: "biomass stove safety protocol, tipping test [memory]", Unit: "1", Published: 0.978, Ours: math.Cos(LeastAngle), Tol: 0.0005, Used: true},
	)
}
