package gas

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed transport.csv
var transportCSV string

// transport is filled once from the embedded table and never written again.
var transport = mustReadTransport(transportCSV)

// transportFit is ln(property) = A·ln T + B/T + C/T² + D up to T = high.
type transportFit struct{ high, a, b, c, d float64 }

func (f *transportFit) at(T float64) float64 {
	return math.Exp(f.a*math.Log(T) + (f.b+f.c/T)/T + f.d)
}

// fits is the low and the high range of one property of one gas.
type fits [2]transportFit

func (f *fits) at(T float64) float64 {
	if T <= f[0].high {
		return f[0].at(T)
	}
	return f[1].at(T)
}

type transportData struct{ viscosity, conductivity [NCore]fits }

// mustReadTransport panics on a damaged table, as mustReadNASA does.
func mustReadTransport(text string) transportData {
	out, err := readTransport(text)
	if err != nil {
		panic(err)
	}
	return out
}

func readTransport(text string) (out transportData, err error) {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return out, fmt.Errorf("transport.csv: %w", err)
	}
	var seen [2][NCore]int
	for line, row := range rows[1:] {
		sp := 0
		for sp < NCore && Species(sp).String() != row[0] {
			sp++
		}
		kind := strings.Index("VC", row[1])
		if sp == NCore || kind < 0 || seen[kind][sp] == 2 {
			return out, fmt.Errorf("transport.csv: line %d: %s %s not expected", line+2, row[0], row[1])
		}
		f := &[2]*fits{&out.viscosity[sp], &out.conductivity[sp]}[kind][seen[kind][sp]]
		seen[kind][sp]++
		for i, p := range []*float64{&f.high, &f.a, &f.b, &f.c, &f.d} {
			if *p, err = strconv.ParseFloat(row[3+i], 64); err != nil {
				return out, fmt.Errorf("transport.csv: line %d: %w", line+2, err)
			}
		}
	}
	for sp := range NCore {
		if seen[0][sp] != 2 || seen[1][sp] != 2 {
			return out, fmt.Errorf("transport.csv: %v has not two ranges of each property", Species(sp))
		}
	}
	return out, nil
}

// Viscosity is the dynamic viscosity of a dilute core gas [Pa s] at T [K]; NaN
// for a species outside the core.
//
//	ln µ = A·ln T + B/T + C/T² + D   [µP]
//
// Svehla 1995, NASA TM-4647, as kept in the NASA CEA transport file; 200 to
// 5000 K. Water vapour instead by the dilute-gas part of IAPWS R12-08, eq.
// (11), because the NASA fit begins at 373 K: 273 to 1173 K, physically sound
// above and within 1 % of NASA to 1800 K. Accuracy 1 to 2 %.
func Viscosity(sp Species, T float64) float64 {
	if sp < 0 || sp >= NCore {
		return math.NaN()
	}
	if sp == H2O {
		return steamViscosity(T)
	}
	return 1e-7 * transport.viscosity[sp].at(T)
}

// Conductivity is the thermal conductivity of a dilute core gas [W/m K] at
// T [K]; NaN for a species outside the core.
//
//	ln λ = A·ln T + B/T + C/T² + D   [µW/cm K]
//
// Svehla 1995, NASA TM-4647, 200 to 5000 K; water vapour by the dilute-gas part
// of IAPWS R15-11, eq. (16), within 4 % of NASA to 1800 K. Accuracy 2 to 5 %.
func Conductivity(sp Species, T float64) float64 {
	if sp < 0 || sp >= NCore {
		return math.NaN()
	}
	if sp == H2O {
		return steamConductivity(T)
	}
	return 1e-4 * transport.conductivity[sp].at(T)
}

// waterTc is the critical temperature the IAPWS forms are scaled by [K].
const waterTc = 647.096

// steamViscosity is IAPWS R12-08 (2008), eq. (11) and table 1: the viscosity of
// water vapour in the limit of zero density [Pa s].
func steamViscosity(T float64) float64 {
	r := waterTc / T
	return 1e-4 / math.Sqrt(r) / (1.67752 + r*(2.20462+r*(0.6366564-r*0.241605)))
}

// steamConductivity is IAPWS R15-11 (2011), eq. (16) and table 1, zero density
// [W/m K]. The five coefficients are from memory; they reproduce the three
// verification values of the release to all nine digits (see the check).
func steamConductivity(T float64) float64 {
	r := waterTc / T
	return 1e-3 / math.Sqrt(r) / (2.443221e-3 + r*(1.323095e-2+r*(6.770357e-3+r*(-3.454586e-3+r*4.096266e-4))))
}

// wilke holds what the mixing rule needs of each pair of core gases.
var wilke = func() (w struct{ ratio, scale [NCore][NCore]float64 }) {
	for i := range NCore {
		for j := range NCore {
			q := Species(i).MolarMass() / Species(j).MolarMass()
			w.ratio[i][j] = math.Pow(q, -0.25)
			w.scale[i][j] = 1 / math.Sqrt(8*(1+q))
		}
	}
	return w
}()

// Viscosity is the viscosity of the mixture [Pa s] at T [K] by Wilke's rule:
//
//	µ = Σ xi·µi / Σj xj·φij,  φij = [1 + (µi/µj)^½·(Mj/Mi)^¼]² / [8·(1 + Mi/Mj)]^½
//
// Wilke 1950, J. Chem. Phys. 18, 517, eqs. (13), (14). Within 1 % for mixtures
// of like gases; up to 5 % with much hydrogen. Zero for an empty mix.
func (m *Mix) Viscosity(T float64) float64 {
	var mu [NCore]float64
	for i, n := range m {
		if n > 0 {
			mu[i] = Viscosity(Species(i), T)
		}
	}
	return m.wilke(&mu, &mu)
}

// Conductivity is the thermal conductivity of the mixture [W/m K] at T [K] by
// the Wassiljewa form with the factors φij of Viscosity:
//
//	λ = Σ xi·λi / Σj xj·φij
//
// Mason, Saxena 1958, Phys. Fluids 1, 361, with their factor 1.065 replaced by
// 1 as Poling, Prausnitz, O'Connell 2001 (5th ed., sec. 10-6) [memory] advise.
// Within 3 to 5 %. Energy carried by reactions in the gas is not included; it
// matters above about 2200 K.
func (m *Mix) Conductivity(T float64) float64 {
	var mu, k [NCore]float64
	for i, n := range m {
		if n > 0 {
			mu[i] = Viscosity(Species(i), T)
			k[i] = Conductivity(Species(i), T)
		}
	}
	return m.wilke(&mu, &k)
}

// wilke mixes property with the factors that follow from the viscosities mu.
func (m *Mix) wilke(mu, property *[NCore]float64) float64 {
	var root [NCore]float64
	for i, n := range m {
		if n > 0 {
			root[i] = math.Sqrt(mu[i])
		}
	}
	var out float64
	for i, ni := range m {
		if ni <= 0 {
			continue
		}
		var sum float64
		for j, nj := range m {
			if nj <= 0 {
				continue
			}
			f := 1 + root[i]/root[j]*wilke.ratio[i][j]
			sum += nj * f * f * wilke.scale[i][j]
		}
		out += ni * property[i] / sum
	}
	return out
}
