package sim

import (
	"math"

	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// front is what the pyrolysis front makes of a kilogram of dry fuel, tabled
// over the superficial velocity the bed remembers, and how the top is lit.
type front struct {
	oxygen   float64 // O2 eaten [mol/kg dry]
	ash      float64 // [kg/kg dry]
	nodes    [frontNodes]product
	tGlow    float64 // bed temperature at which the front takes hold [K]
	dieTime  float64 // of a lit patch gone cold [s]
	top      float64 // layer that must be heated to light [kg dry/m2]
	flameLag float64 // [s]
	memory   float64 // of the velocity [s]
	depth    float64 // raw depth over which the front fades when it meets the grate [m]
	layer    float64 // depth of the layer the front works in [m]
}

// product is what one kilogram of dry fuel turns into.
type product struct {
	gas       gas.Mix // [mol]
	tar, char float64 // [kg], char without ash
}

const (
	frontNodes = 72
	frontTop   = 0.8 // sqrt of the largest velocity tabled [sqrt(m/s)]
)

// products gives the char yield and tar [kg/kg dry] and the gas [mol/kg dry]
// at the remembered velocity u [m/s], by cubic interpolation in its root.
// Every node closes the elements, and the weights add up to one, so what is
// interpolated closes them too.
func (f *front) products(u float64, g *gas.Mix) (char, tar float64) {
	s := math.Sqrt(max(u, 0)) * ((frontNodes - 3) / frontTop)
	i := int(s)
	if i > frontNodes-4 {
		i, s = frontNodes-4, float64(frontNodes-3)
	}
	v := s - float64(i)
	a, b, c, d := &f.nodes[i], &f.nodes[i+1], &f.nodes[i+2], &f.nodes[i+3]
	v2, v3 := v*v, v*v*v
	wa := 0.5 * (2*v2 - v - v3)
	wb := 0.5 * (2 - 5*v2 + 3*v3)
	wc := 0.5 * (v + 4*v2 - 3*v3)
	wd := 0.5 * (v3 - v2)
	for k := range g {
		g[k] = wa*a.gas[k] + wb*b.gas[k] + wc*c.gas[k] + wd*d.gas[k]
	}
	return wa*a.char + wb*b.char + wc*c.char + wd*d.char, wa*a.tar + wb*b.tar + wc*c.tar + wd*d.tar
}

// fill tables the front for one set of parameters.
func (f *front) fill(s *site, p *Params, x float64) {
	f.oxygen = bed.AirFuel(p[pAirNeed], x) * s.airO2
	f.ash = s.feed.Ash
	for i := range f.nodes {
		r := frontTop * float64(i-1) / (frontNodes - 3)
		u := r * math.Abs(r)
		yc := bed.Yield(bed.YieldIn{Velocity: u, Size: s.fuel.Size, Density: s.fuel.Density, Moisture: x, Charred: s.fuel.Charred(), Offset: p[pCharOffset]})
		out := s.feed.Gas(bed.GasIn{
			Moisture: x, Oxygen: f.oxygen, Char: yc * (1 - f.ash),
			Tar: min(bed.TarPrior(u, s.fuel.Size)*p[pTar], 0.3), Methane: bed.Methane * (1 - yc), Shift: p[pWaterGas],
		})
		f.nodes[i] = product{gas: out.Gas, tar: out.Tar, char: out.Char + out.Carbon}
	}
	f.layer = 1.5 * s.fuel.Size
	f.depth = frontDepth * s.fuel.Size
	f.top = bed.TopLayer(s.fuel)
	f.tGlow = bed.Ignition + 50
	f.dieTime = bed.Dying
	f.flameLag = 1.5
	f.memory = 30
}

type tarStuff struct {
	lhv, oxygen, moles        float64 // [J/kg], [mol O2/kg], [mol/kg]
	carbon, hydrogen, oxygenE float64 // atoms [mol/kg]
}

func (tarStuff) h(T float64) float64  { return fuel.TarEnthalpy(T) }
func (tarStuff) cp(T float64) float64 { return fuel.TarCp(T) }

// starterStuff is the starter: it burns in its own air to complete products.
type starterStuff struct {
	air      float64 // it draws [kg/kg]
	products gas.Mix // its own part of the products: CO2 and H2O made, O2 taken [mol/kg]
	h        float64 // absolute enthalpy [J/kg]
	el       gas.Elements
	bed.Starter
}

const rAir = 287.05 // gas constant of dry air [J/kg K]

// frontDepth is the raw depth, in piece sizes, over which the front fades when
// it meets the grate. Fronts are 10 to 20 mm thick (from burning flux and the
// flux that wood surfaces give under radiation), two or three pellets; the last
// pieces below are heated from one side only. [judgement]
const frontDepth = 0.5
