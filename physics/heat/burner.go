package heat

import (
	"fmt"
	"math"

	"toplit/physics/gas"
)

// PotOnBurner is a pot on a gas flame, to set the functions the burn model
// calls beside measured efficiencies. Not a stove: the gas is methane burnt
// with AirRatio times its air, mixed and adiabatic before it meets the pot.
type PotOnBurner struct {
	Power    float64 // lower heating value per time [W]
	AirRatio float64 // all the air in the gas that meets the base over the air needed, >= 1
	Burner   float64 // diameter the flame leaves from [m]
	Gap      float64 // burner to base [m]

	Pot      float64 // base diameter [m]
	Height   float64 // wetted height of the side [m]
	Water    float64 // [kg]
	Shell    float64 // heat capacity of the pot itself [J/K]
	Lid      bool
	LidLeak  float64 // part of the open evaporation a lid leaves
	Emission float64 // emissivity of the side

	Air      float64 // [K]
	Pressure float64 // [Pa]

	BaseFactor float64 // 0 means [BaseFactor]
	SideFactor float64 // 0 means 1
}

// Parts is what the water and pot gain and lose [W].
type Parts struct {
	Base, Flame, Side, Radiated, Surface float64
	BaseH, SideH                         float64 // coefficients [W/m2 K]
	Gas, Leaving                         float64 // gas under and past the base [K]
}

// Net is the heat the pot and water keep [W].
func (p Parts) Net() float64 { return p.Base + p.Flame + p.Side - p.Radiated - p.Surface }

// Flow returns the burnt gas of the burner: its flow per second and
// temperature [K].
func (b PotOnBurner) flow() (gas.Mix, float64, error) {
	if !(b.AirRatio >= 1) || !(b.Power > 0) {
		return gas.Mix{}, 0, fmt.Errorf("pot on burner: power %g W, air ratio %g, want a positive power and at least 1", b.Power, b.AirRatio)
	}
	fuel := b.Power / gas.CH4.LHV() // [mol/s]
	feed := gas.Feed{}.Plus(gas.CH4, fuel, b.Air).
		Plus(gas.O2, 2*fuel*b.AirRatio, b.Air).
		Plus(gas.N2, 2*fuel*b.AirRatio*79.05/20.95, b.Air)
	t, mix, err := feed.FrozenFlame()
	return mix, t, err
}

// At returns the heat flows with the water and pot at t [K], vapour pressures
// of the water and of the air's moisture [Pa].
func (b PotOnBurner) At(t, vapour, airVapour float64) (Parts, error) {
	mix, hot, err := b.flow()
	if err != nil {
		return Parts{}, err
	}
	bf, sf := b.BaseFactor, b.SideFactor
	if bf == 0 {
		bf = BaseFactor
	}
	if sf == 0 {
		sf = 1
	}
	m := mix.Mass()
	rhoAir := b.Pressure / (airR * b.Air)
	rho := mix.Density(hot, b.Pressure)
	area := math.Pi / 4 * b.Pot * b.Pot

	p := Parts{Gas: hot}
	speed, width := Arrival(m, rho, rhoAir, b.Burner, b.Gap)
	p.BaseH = BaseCoefficient(FlueFilm(0.5*(hot+t), b.Pressure), width, speed, b.Gap, b.Pot, bf, hot-t)
	mcp := (mix.H(hot) - mix.H(t)) / (hot - t)
	p.Base = Passing(p.BaseH, area, mcp, hot, t)
	p.Leaving = mix.T(mix.H(hot)-p.Base, 0.5*(hot+t))

	// The clear flame under the base, a disc as wide as the jet, seen whole.
	triatomic := (mix[gas.CO2] + mix[gas.H2O]) / mix.Moles() * b.Pressure
	seen := math.Min(math.Pi/4*width*width, area)
	p.Flame = seen * FlameEmissivity(triatomic, b.Gap, 0) * Sigma * FourthPowers(hot, t)

	past := 0.5 * (p.Leaving + t)
	p.SideH = sf * SideCoefficient(FlueFilm(past, b.Pressure), b.Height, speed, p.Leaving-t)
	side := Side{
		Diameter: b.Pot, Height: b.Height, Flow: m, Cp: mix.Cp(past) / m,
		Rho: mix.Density(p.Leaving, b.Pressure), RhoAir: rhoAir, Speed: speed,
	}
	p.Side = side.Heat(p.SideH, p.Leaving, t, b.Air)
	p.Radiated = Small(b.Emission, t, b.Air) * math.Pi * b.Pot * b.Height

	if b.Lid {
		// The lid is nearly as hot as the water; it radiates as the side does.
		p.Surface = area * (b.LidLeak*Evaporation(vapour, airVapour) + Small(b.Emission, t, b.Air) +
			Disc(AirFilm(0.5*(t+b.Air), b.Pressure), b.Pot, t-b.Air)*(t-b.Air))
	} else {
		p.Surface = area * (Evaporation(vapour, airVapour) + OpenWater(b.Pot, t, b.Air, b.Pressure))
	}
	return p, nil
}

// Efficiency returns the part of the fuel's heat that has warmed the water from
// one temperature to another [K], and the time it took [s]; vapour gives the
// saturation pressure of water [Pa]. It is an error if the water never gets
// there.
func (b PotOnBurner) Efficiency(from, to float64, vapour func(t float64) float64, airVapour float64) (share, seconds float64, err error) {
	const steps = 20
	const cw = 4186 // [J/kg K], 20-90 °C
	dt := (to - from) / steps
	for i := range steps {
		t := from + (float64(i)+0.5)*dt
		p, err := b.At(t, vapour(t), airVapour)
		if err != nil {
			return 0, 0, err
		}
		net := p.Net()
		if !(net > 0) {
			return 0, 0, fmt.Errorf("pot on burner: the water stops at %.1f K, want it to reach %.1f K", t, to)
		}
		seconds += (b.Water*cw + b.Shell) * dt / net
	}
	return b.Water * cw * (to - from) / (b.Power * seconds), seconds, nil
}
