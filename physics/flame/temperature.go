package flame

import (
	"math"

	"toplit/physics/fuel"
	"toplit/physics/gas"
)

// Burning is a gas that meets air and burns.
type Burning struct {
	Fuel   gas.Mix // wood gas, its nitrogen and steam included [mol]
	Tar    float64 // vapour carried with it [kg]
	FuelT  float64 // [K]
	Air    gas.Mix // composition of the air [mol], any amount
	AirT   float64 // [K]
	Lambda float64 // air over what burns the gas where they meet, 0 for 1
	Loss   float64 // share of the heat set free that radiates or is quenched away on the way, 0 to 1
}

// Tar that finds no oxygen counts as 0.96 CO, 0.04 CH4 and 0.84 H2 per carbon of
// CH1.84O0.96: its elements, so that the heat balance stays closed.
var (
	tarElements = fuel.Tar().Elements()
	tarOxygen   = fuel.Tar().OxygenDemand()
	tarLHV      = fuel.TarLHV()
	tarAsGas    = func() (m gas.Mix) {
		c := tarElements[gas.Carbon]
		m[gas.CO] = tarElements[gas.Oxygen]
		m[gas.CH4] = c - m[gas.CO]
		m[gas.H2] = tarElements[gas.Hydrogen]/2 - 2*m[gas.CH4]
		return m
	}()
)

// Products is the gas after complete burning and its enthalpy [J] with the
// loss taken off, and the λ it was made with. Without anything to burn it is
// the fuel gas alone.
func (b Burning) Products() (out gas.Mix, H, lambda float64) {
	lambda = b.Lambda
	if lambda <= 0 {
		lambda = 1
	}
	need := b.Fuel.OxygenDemand() + b.Tar*tarOxygen - b.Fuel[gas.O2]
	H = b.Fuel.FastH(b.FuelT) + b.Tar*fuel.TarEnthalpy(b.FuelT)
	out = b.Fuel.Plus(tarAsGas, b.Tar)
	if need > 0 && b.Air[gas.O2] > 0 {
		k := lambda * need / b.Air[gas.O2]
		out = out.Plus(b.Air, k)
		H += k * b.Air.FastH(b.AirT)
	}
	burned := out.Burned(1)
	H -= b.Loss * (b.Fuel.LHV() + b.Tar*tarLHV - burned.LHV())
	return burned, H, lambda
}

// Dissociation, fitted: the equilibrium temperature lies below the undissociated
// one T by 22.6 K·exp((T − 1919 K)/250 K), times 1 at λ = 1 falling to 0.55 at
// high λ. Fitted to wood in air and CO/H2 gas (element-potential equilibrium
// with NASA-9 data, λ 1 to 3).
const (
	dissociation    = 22.6
	dissociationAt  = 1919.0
	dissociationPer = 250.0
)

// Temperature is the flame temperature where gas and air meet [K]: the enthalpy
// balance for complete burning, less an estimate for dissociation. Cheap: one
// Newton search, no equilibrium.
//
// Accuracy against equilibrium with the same inputs: 10 K for wood gas and wood
// up to 2250 K, 15 K for methane, up to 110 K low for hydrogen and 160 K for dry
// CO at λ = 1, where nothing like them burns in a stove. With Loss the result is
// as good as the loss.
func (b Burning) Temperature() float64 {
	products, H, lambda := b.Products()
	T := products.FastT(H, 1500)
	share := 0.55
	if lambda < 4 {
		share += 0.45 * math.Exp(-math.Abs(lambda-1)/0.2)
	}
	return T - dissociation*share*math.Exp((min(T, 2700)-dissociationAt)/dissociationPer)
}

// Critical flame temperature: the adiabatic temperature of the leanest flame
// that still carries itself, 1450 ± 100 K for lean CO/H2/N2 mixtures [memory].
const (
	Critical   = 1450.0
	CriticalSD = 100.0
)

// Holds says how surely a flame of the temperature T [K] holds, 0 to 1: a
// smooth step of the given width [K] (0 for 30) about the critical temperature
// (0 for Critical). One half at the critical temperature itself.
func Holds(T, critical, width float64) float64 {
	if critical <= 0 {
		critical = Critical
	}
	if width <= 0 {
		width = 30
	}
	return 0.5 * (1 + math.Tanh((T-critical)/(2*width)))
}
