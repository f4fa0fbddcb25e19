package sim

import "toplit/physics/gas"

func moistAir(T, p, rh float64) gas.Mix {
	xv := rh * vapour(T) / p
	return gas.Mix{gas.N2: 0.78112 * (1 - xv), gas.O2: 0.20946 * (1 - xv), gas.Ar: 0.00934 * (1 - xv), gas.CO2: 0.0004 * (1 - xv), gas.H2O: xv}
}

type cover struct{ Conductivity, Density, HeatCapacity float64 }

func coverOf(string) (cover, error) { return cover{0.29, 1600, 890}, nil }
