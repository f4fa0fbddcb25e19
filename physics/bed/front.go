package bed

import "toplit/numeric"

// Air need of the front with dry fuel: kilograms of primary air per kilogram
// of dry fuel. Varunkumar, Rajan, Mukunda 2012 (Energy Conv. Manage. 53:135)
// found it constant over their range of flow; 1.5 is [memory] of that group's
// figure, Mehta, Richards 2017 (Energies 10:1529, abstract) report the best gas
// at 1.8.
const (
	AirNeed   = 1.5
	AirNeedSD = 0.25
)

// AirPerMoisture is the further air per kilogram of water in the fuel [kg/kg].
// Drying and superheating one kilogram of water takes about 2.6 MJ, one
// kilogram of air burning wood gas gives 0.232 · 9 MJ: 1.25, rounded.
const AirPerMoisture = 1.2

// AirFuel is the primary air the front needs [kg air per kg dry fuel] at the
// moisture X on dry basis [kg/kg]: need + 1.2·X. need is AirNeed unless a
// user's burns say otherwise.
func AirFuel(need, X float64) float64 { return need + AirPerMoisture*X }

// FrontIn is what the front sees.
type FrontIn struct {
	Air      float64 // primary air mass flux over the bore [kg/m² s]; reverse flow counts as none
	Need     float64 // air need of dry fuel, 0 for AirNeed [kg/kg]
	Moisture float64 // X, dry basis [kg/kg]
	Layer    float64 // temperature of the burning layer above the front [K]
	Fuel     float64 // temperature of the fuel below it [K]
	Loss     float64 // heat the front loses to the wall per bed area [W/m²]
	Soft     float64 // relative width of the corner between the limits, 0 for 0.2
}

// FrontOut is how fast the front eats fuel.
type FrontOut struct {
	Flux     float64 // dry fuel [kg/m² s]
	ByOxygen float64 // what the air alone would allow [kg/m² s]
	ByHeat   float64 // what heating the next layer allows [kg/m² s]
}

// Capped reports whether heat, not air, sets the pace, by more than 1 %.
func (f FrontOut) Capped() bool { return f.Flux < 0.99*f.ByOxygen }

// Constants of the heat balance at the front.
const (
	Ignition       = 600.0  // temperature at which a piece joins the front [K]; 573 to 623
	frontEmission  = 0.8    // effective emissivity of the burning layer
	frontCp        = 1700.0 // mean heat capacity of wood up to Ignition [J/kg K]
	frontAirCp     = 1050.0 // of air [J/kg K]
	moistureHeat   = 2.6e6  // to dry and superheat [J per kg water]
	stefan         = 5.670374e-8
	frontSoft      = 0.2
	frontHeatWidth = 2e3 // [W/m²] rounding of the blow-off corner
)

// Front is the dry fuel flux at a front that travels against the air:
//
//	by oxygen  G/(need + 1.2·X)
//	by heat    [ε·σ·(T_layer⁴ − T_ig⁴) − G·c_air·(T_ig − T_fuel) − loss] / [c·(T_ig − T_fuel) + X·2.6 MJ/kg]
//
// and the lesser of the two with a rounded corner. The first holds for all
// natural-draft stoves; the second is the usual radiation balance of a packed
// front (form as in Saastamoinen et al. 2000, Combust. Flame 123:214) and gives
// blow-off where the air carries off more than radiation brings.
//
// Range: 0.005 to 0.3 kg/m² s of air. Accuracy: ± 17 % of the flux from the
// air need alone, ± 40 % on absolute front speed against published curves. With
// no air the flux is zero; a top that only smoulders is Smoulder's business.
func Front(in FrontIn) FrontOut {
	need := in.Need
	if need <= 0 {
		need = AirNeed
	}
	G := max(in.Air, 0)
	X := max(in.Moisture, 0)
	out := FrontOut{ByOxygen: G / AirFuel(need, X)}
	rise := max(Ignition-in.Fuel, 1)
	T2, I2 := in.Layer*in.Layer, Ignition*Ignition
	net := frontEmission*stefan*(T2*T2-I2*I2) - G*frontAirCp*rise - in.Loss
	w := width(in.Soft, frontSoft)
	out.ByHeat = numeric.SoftPlus(net, frontHeatWidth*w/frontSoft) / (frontCp*rise + X*moistureHeat)
	out.Flux = numeric.SoftMin(out.ByOxygen, out.ByHeat, w)
	return out
}

// FrontSpeed is how fast the front moves down [m/s]: dry flux over the dry
// bulk density.
func FrontSpeed(dryFlux, dryBulk float64) float64 {
	if !(dryBulk > 0) {
		return 0
	}
	return dryFlux / dryBulk
}

// SmoulderFlux is the fuel flux of a bed that smoulders downward with no air
// blown or drawn through it, 0.0030 to 0.0042 kg/m² s: radiata pine flour of 204
// to 234 kg/m³ at 0.84 to 1.08 mm/min, Kim, Kim, Rie 2017, BioResources
// 12:7552 (abstract). A floor for a front that is alight.
const SmoulderFlux = 0.0035
