package bed

import (
	"math"

	"toplit/numeric"
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// Priors of the wood gas.
const (
	// Shift is the frozen water-gas ratio CO2·H2/(CO·H2O) of the gas. Element
	// balances on the fifteen batch runs of Sarker, Nielsen 2015 (Energy Conv.
	// Manage. 103:801; data set of Ascher et al. 2022) give 0.19 to 0.51, mean
	// 0.35; a throated gasifier reaches 0.9 (Biagini et al. 2016), equilibrium
	// at 1100 K is 1.0. Multiply or divide by 1.6.
	Shift = 0.35
	// Methane is the methane made per kilogram of volatiles [kg/kg]: 1.7 ± 0.5
	// mol per kilogram of fuel in the same batch runs; Neves et al. 2011 give
	// 0.146 kg per kg CO [memory].
	Methane = 0.030
)

// TarPrior is the tar made per kilogram of dry fuel [kg/kg] at the superficial
// velocity u [m/s] for the piece size d [m]:
//
//	0.10·(3 cm/s / u)^0.3·(d/10 mm)^0.5, between 0.01 and 0.15
//
// The size exponent and the level lie between James, Yuan, Boyette 2016 (12.9
// g/m³ for small chips, 93.5 g/m³ at 30 mm, about 2 m³ of gas per kilogram) and
// the remembered 20 to 90 g/m³ at low velocity; little tar at high velocity
// after Reed et al. 1999 [memory]. Multiply or divide by 1.8.
func TarPrior(u, d float64) float64 {
	const low, high = 0.01, 0.15
	if d <= 0 {
		d = 6.5e-3
	}
	u = max(math.Abs(u), 1e-4)
	t := 0.10 * math.Pow(0.03/u, 0.3) * math.Sqrt(d/10e-3)
	return low + numeric.SoftMin(t, high-low, 0.2)
}

// Feed is a fuel made ready for the gas law: the elements and enthalpies of
// the dry fuel and of its ash-free char. Make it once per fuel with NewFeed.
type Feed struct {
	Fuel          gas.Elements // [mol/kg dry fuel]
	Char          gas.Elements // [mol/kg ash-free char]
	Ash           float64      // ash, sulfur and what the analysis leaves open [kg/kg dry fuel]
	FuelFormation float64      // enthalpy at 298.15 K, elements zero [J/kg dry fuel]
	CharFormation float64      // [J/kg ash-free char]
	mostChar      float64      // char that would use an element of the fuel up [kg/kg dry fuel]
}

// NewFeed prepares a dry fuel and the char it leaves; the zero charOf means
// fuel.StoveChar. Ash in charOf is left out.
func NewFeed(dry, charOf fuel.Analysis) Feed {
	if charOf == (fuel.Analysis{}) {
		charOf = fuel.StoveChar()
	}
	charOf = charOf.AshFree()
	f := Feed{
		Fuel:          dry.Elements(),
		Char:          charOf.Elements(),
		Ash:           max(1-dry.Carbon-dry.Hydrogen-dry.Oxygen-dry.Nitrogen, 0),
		FuelFormation: dry.Formation(),
		CharFormation: charOf.Formation(),
		mostChar:      1,
	}
	for _, el := range []gas.Element{gas.Carbon, gas.Hydrogen, gas.Oxygen, gas.Nitrogen} {
		if per := f.Char[el]; per > 0 {
			f.mostChar = min(f.mostChar, f.Fuel[el]/per)
		}
	}
	return f
}

// GasIn is what happens to one kilogram of dry fuel at the front.
type GasIn struct {
	Moisture float64 // X, dry basis [kg water/kg dry fuel]
	Oxygen   float64 // O2 eaten [mol/kg dry fuel]
	Char     float64 // ash-free char left [kg/kg dry fuel]
	Tar      float64 // tar asked for [kg/kg dry fuel]
	Methane  float64 // methane asked for [kg/kg dry fuel]
	Shift    float64 // water-gas ratio, 0 for the prior
	Soft     float64 // relative width of the corners where an element runs short, 0 for 0.05
}

// GasOut is what the front makes of it, per kilogram of dry fuel.
type GasOut struct {
	Gas    gas.Mix // [mol]: CO, CO2, H2, H2O, CH4, N2 of the fuel and oxygen left over; the air's nitrogen is not in it
	Tar    float64 // [kg]
	Char   float64 // ash-free, of the composition asked for [kg]
	Carbon float64 // bare carbon that found no oxygen [kg]; zero in any working bed
	Heat   float64 // heat set free at 298.15 K, water of the fuel leaving as steam [J]
}

// LHV is the heat the gas still holds [J/kg dry fuel], tar included.
func (g GasOut) LHV() float64 { return g.Gas.LHV() + g.Tar*tarLHV }

// OxygenDemand is the O2 the gas still needs [mol/kg dry fuel], tar included,
// oxygen left over not subtracted.
func (g GasOut) OxygenDemand() float64 { return g.Gas.OxygenDemand() + g.Tar*tarOxygen }

// EnergyPerOxygen is LHV over the mass of oxygen the gas needs [J/kg O2]; zero
// when nothing burns.
func (g GasOut) EnergyPerOxygen() float64 {
	d := g.OxygenDemand()
	if d <= 0 {
		return 0
	}
	return g.LHV() / (d * gas.O2.MolarMass())
}

// Elements is all atoms out: gas, tar, char, bare carbon [mol/kg dry fuel].
func (f *Feed) Elements(g GasOut) gas.Elements {
	e := g.Gas.Elements()
	e = e.Plus(tarElements, g.Tar)
	e = e.Plus(f.Char, g.Char)
	e[gas.Carbon] += g.Carbon / gas.AtomicMass(gas.Carbon)
	return e
}

// What stays the same for every kilogram.
var (
	tarElements  = fuel.Tar().Elements()
	tarOxygen    = fuel.Tar().OxygenDemand()
	tarLHV       = fuel.TarLHV()
	tarFormation = fuel.TarFormation()
	waterMass    = gas.H2O.MolarMass()
	waterLiquid  = fuel.LiquidWater()
	methaneMass  = gas.CH4.MolarMass()
	carbonMass   = gas.AtomicMass(gas.Carbon)
	formation    = func() (h [gas.NCore]float64) {
		for i := range h {
			h[i] = gas.Species(i).H(gas.T0)
		}
		return h
	}()
)

const gasSoft = 0.05

// Gas is the gas a kilogram of dry fuel turns into: what the char, the tar and
// the methane do not take of carbon, hydrogen and oxygen becomes CO, CO2, H2 and
// H2O such that all elements close and the four stand in the frozen water-gas
// ratio K,
//
//	CO + CO2 = C,  H2 + H2O = H/2,  CO + 2·CO2 + H2O = O,  CO2·H2 = K·CO·H2O
//
// a quadratic in CO2 with exactly one root that leaves nothing negative. The
// heat follows from the enthalpies of formation of what goes in and out.
//
// Where an element runs short, first char, then tar and methane give way
// smoothly; carbon that finds no oxygen stays as carbon; oxygen that finds
// nothing to burn stays as O2. So the result exists for every input.
//
// Accuracy: CO ± 3 and H2 ± 3 points of dry gas against the batch runs of
// Sarker, Nielsen 2015. Equilibrium is not claimed; one lumped tar stands for
// everything that condenses, and C2 gases count as methane.
func (f *Feed) Gas(in GasIn) GasOut {
	w := width(in.Soft, gasSoft)
	K := in.Shift
	if K <= 0 {
		K = Shift
	}
	var out GasOut
	out.Char = numeric.SoftMin(max(in.Char, 0), f.mostChar, w)
	C := f.Fuel[gas.Carbon] - out.Char*f.Char[gas.Carbon]
	H := f.Fuel[gas.Hydrogen] - out.Char*f.Char[gas.Hydrogen]
	O := f.Fuel[gas.Oxygen] - out.Char*f.Char[gas.Oxygen]
	N := f.Fuel[gas.Nitrogen] - out.Char*f.Char[gas.Nitrogen]

	// Tar and methane take at most four fifths of what is left of an element.
	tar, ch4 := max(in.Tar, 0), max(in.Methane, 0)/methaneMass
	scale := 1.0
	if needC := tar*tarElements[gas.Carbon] + ch4; needC > 0 {
		scale = numeric.SoftMin(scale, 0.8*C/needC, w)
	}
	if needH := tar*tarElements[gas.Hydrogen] + 4*ch4; needH > 0 {
		scale = numeric.SoftMin(scale, 0.8*H/needH, w)
	}
	if needO := tar * tarElements[gas.Oxygen]; needO > 0 {
		scale = numeric.SoftMin(scale, 0.8*O/needO, w)
	}
	scale = max(scale, 0)
	tar *= scale
	ch4 *= scale
	out.Tar = tar
	steam := max(in.Moisture, 0) / waterMass
	C = max(C-tar*tarElements[gas.Carbon]-ch4, 0)
	H = max(H-tar*tarElements[gas.Hydrogen]-4*ch4+2*steam, 0)
	O = max(O-tar*tarElements[gas.Oxygen]+steam+2*max(in.Oxygen, 0), 0)

	// Carbon needs an oxygen each to leave; the rest stays.
	gone := numeric.SoftMin(C, O, w)
	out.Carbon = (C - gone) * carbonMass
	C = gone
	// Everything burned needs 2C + H/2; the rest stays oxygen.
	used := max(numeric.SoftMin(O, 2*C+H/2, w), C)
	out.Gas[gas.O2] = (O - used) / 2
	O = used

	co2 := shift(C, H/2, O, K)
	out.Gas[gas.CO2] = co2
	out.Gas[gas.CO] = max(C-co2, 0)
	out.Gas[gas.H2O] = max(O-C-co2, 0)
	out.Gas[gas.H2] = max(H/2-out.Gas[gas.H2O], 0)
	out.Gas[gas.CH4] = ch4
	out.Gas[gas.N2] = max(N, 0) / 2

	out.Heat = f.FuelFormation + max(in.Moisture, 0)*waterLiquid - out.Tar*tarFormation - out.Char*f.CharFormation
	for i, n := range out.Gas {
		out.Heat -= n * formation[i]
	}
	return out
}

// shift is the CO2 [mol] in a gas of C carbon, H2 hydrogen pairs and O oxygen
// atoms in the water-gas ratio K, for C ≤ O ≤ 2C + H2. With x = CO2:
//
//	(K − 1)·x² − (K·O + H2 − O + C)·x + K·C·(O − C) = 0
func shift(C, H2, O, K float64) float64 {
	high := min(C, O-C)     // CO and H2O not negative
	low := max(0, O-C-H2)   // H2 not negative
	a := K - 1              // quadratic a·x² − b·x + c
	b := K*O + (H2 - O + C) //
	c := K * C * (O - C)    // ≥ 0
	d := math.Sqrt(max(b*b-4*a*c, 0))
	var x float64
	if b+d > 0 { // the root that tends to c/b for K → 1
		x = 2 * c / (b + d)
	}
	return min(max(x, low), max(high, low))
}
