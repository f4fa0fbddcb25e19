package bed_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"toplit/internal/outside"
	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/physics/gas"
)

const (
	molarVolume = 22.414e-3 // normal cubic metre per mole
	oxygenInAir = 0.20946
	airMass     = 28.9655e-3
)

func species(t *testing.T, name string) fuel.Fuel {
	t.Helper()
	f, err := fuel.ByName(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// dryGas is the gas of one kilogram of dry fuel with the air's nitrogen, the
// steam taken out: fractions in %, volume [Nm3], and heating values of the
// permanent gases by volume [MJ/Nm3].
type dryGas struct {
	CO, H2, CO2, CH4, N2, Volume, LHV, HHV float64
}

func made(f *bed.Feed, in bed.GasIn) dryGas {
	out := f.Gas(in)
	g := out.Gas
	steam := g[gas.H2]*44.004e3 + 2*g[gas.CH4]*44.004e3
	heat := g.LHV()
	g[gas.H2O] = 0
	g[gas.N2] += in.Oxygen * (1 - oxygenInAir) / oxygenInAir
	n := g.Moles()
	return dryGas{100 * g[gas.CO] / n, 100 * g[gas.H2] / n, 100 * g[gas.CO2] / n, 100 * g[gas.CH4] / n, 100 * g[gas.N2] / n,
		n * molarVolume, heat / n / molarVolume / 1e6, (heat + steam) / n / molarVolume / 1e6}
}

func oxygen(airFuel float64) float64 { return airFuel * oxygenInAir / airMass }

// batch is the fifteen runs: measured, and ours from the measured char, tar and
// air (by the nitrogen balance), each wood with its own analysis.
func batch(t *testing.T) (measured, ours [8]float64, sd [8]float64) {
	t.Helper()
	file, err := os.Open("testdata/batch_runs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	woods := map[string]fuel.Analysis{ // spruce as fir, oak and poplar of Miles et al.; birch and willow as the typical broadleaf of ISO 17225-1
		"spruce": species(t, "softwood chips").Analysis,
		"oak":    species(t, "hardwood chips").Analysis,
		"poplar": species(t, "twigs").Analysis,
		"birch":  {Carbon: 0.49, Hydrogen: 0.062, Oxygen: 0.44, Nitrogen: 0.001, Ash: 0.003},
		"willow": {Carbon: 0.49, Hydrogen: 0.062, Oxygen: 0.44, Nitrogen: 0.001, Ash: 0.003},
	}
	n := float64(len(rows) - 1)
	for _, r := range rows[1:] {
		v := make([]float64, len(r))
		for i := 1; i < len(r)-1; i++ {
			if v[i], err = strconv.ParseFloat(r[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		M, perKg, dry := v[1]/100, v[9], 1-v[1]/100
		moles := perKg / molarVolume / dry // dry gas per kg dry fuel
		f := bed.NewFeed(woods[r[0]], fuel.Analysis{})
		got := made(&f, bed.GasIn{
			Moisture: fuel.DryBasis(M),
			Oxygen:   v[2] / 100 * moles * oxygenInAir / (1 - oxygenInAir),
			Char:     v[10] / 100 / dry,
			Tar:      v[8] / 1000 * perKg / dry,
			Methane:  v[6] / 100 * moles * gas.CH4.MolarMass(),
		})
		for i, m := range []float64{v[4], v[3], v[5], v[6], v[2], perKg / dry, v[7]} {
			measured[i] += m / n
			sd[i] += m * m / n
		}
		for i, o := range []float64{got.CO, got.H2, got.CO2, got.CH4, got.N2, got.Volume, got.LHV} {
			ours[i] += o / n
		}
	}
	for i := range sd {
		sd[i] = math.Sqrt(max(sd[i]-measured[i]*measured[i], 0) * n / (n - 1))
	}
	return measured, ours, sd
}

func TestWoodGasOutside(t *testing.T) {
	const law = "wood gas"
	src := "Sarker, Nielsen 2015, mean of 15 batch runs; tolerance two standard deviations of the runs"
	m, o, sd := batch(t)
	row := func(i int, name, unit string, used bool) outside.Row {
		return outside.Row{Law: law, Name: "batch runs, " + name, Source: src, Unit: unit, Published: m[i], Ours: o[i], Tol: 2 * sd[i], Used: used}
	}
	// A throated gasifier is hot enough for equilibrium at 1100 K, ratio 1.0.
	pellets := species(t, "softwood pellets")
	f := bed.NewFeed(pellets.Analysis, fuel.Analysis{})
	X := fuel.DryBasis(0.095)
	throat := made(&f, bed.GasIn{Moisture: X, Oxygen: 0.272 * pellets.Analysis.OxygenDemand(), Char: 0.109, Tar: 0.01, Methane: bed.Methane * 0.891, Shift: 1.0})
	bi := "Biagini et al. 2016, Bioresour. Technol. 201:156, throated gasifier; tolerance two standard deviations of the batch runs"
	// Pine chips top-lit: char and moisture as measured, air by our prior.
	pine := species(t, "softwood chips")
	f2 := bed.NewFeed(pine.Analysis, fuel.Analysis{})
	X2 := fuel.DryBasis(0.10)
	toplit := made(&f2, bed.GasIn{Moisture: X2, Oxygen: oxygen(bed.AirFuel(bed.AirNeed, X2)), Char: 0.12, Tar: 0.026, Methane: bed.Methane * 0.88})
	// What is remembered of top-lit gas at low velocity.
	y := bed.Yield(bed.YieldIn{Velocity: 0.02, Size: pine.Size, Density: pine.Density, Moisture: X2})
	low := made(&f2, bed.GasIn{Moisture: X2, Oxygen: oxygen(bed.AirFuel(bed.AirNeed, X2)), Char: y, Tar: bed.TarPrior(0.02, pine.Size), Methane: bed.Methane * (1 - y)})
	mem := "top-lit stoves at low velocity, range [memory]"
	volatiles := func(a fuel.Analysis) float64 { return (a.LHV() - 0.2*fuel.StoveChar().LHV()) / 0.8 / 1e6 }
	outside.Check(t,
		row(0, "CO", "%", true), row(1, "H2", "%", true), row(2, "CO2", "%", true), row(3, "CH4", "%", true),
		row(4, "N2", "%", false), row(5, "gas", "Nm3/kg", false), row(6, "net heat", "MJ/Nm3", false),
		outside.Row{Law: law, Name: "throated, CO", Source: bi, Unit: "%", Published: 21.3, Ours: throat.CO, Tol: 2 * sd[0]},
		outside.Row{Law: law, Name: "throated, H2", Source: bi, Unit: "%", Published: 16.4, Ours: throat.H2, Tol: 2 * sd[1]},
		outside.Row{Law: law, Name: "throated, CO2", Source: bi, Unit: "%", Published: 12.4, Ours: throat.CO2, Tol: 2 * sd[2]},
		outside.Row{Law: law, Name: "throated, N2", Source: bi, Unit: "%", Published: 47.3, Ours: throat.N2, Tol: 2 * sd[4]},
		outside.Row{Law: law, Name: "throated, net heat", Source: bi, Unit: "MJ/Nm3", Published: 5.5, Ours: throat.LHV, Tol: 2 * sd[6]},
		outside.Row{Law: law, Name: "top-lit pine chips, gross heat", Source: "James, Castorena, Yuan 2021, BioResources 16:6629, measured 3.61 to 3.67; airflow not stated, ours ± 17 %", Unit: "MJ/m3", Published: 3.64, Ours: toplit.HHV, Tol: 0.8},
		outside.Row{Law: law, Name: "top-lit, low velocity, CO", Source: mem, Unit: "%", Published: 14, Ours: low.CO, Tol: 3},
		outside.Row{Law: law, Name: "top-lit, low velocity, H2", Source: mem, Unit: "%", Published: 6, Ours: low.H2, Tol: 3},
		outside.Row{Law: law, Name: "top-lit, low velocity, CO2", Source: mem, Unit: "%", Published: 12, Ours: low.CO2, Tol: 2},
		outside.Row{Law: law, Name: "top-lit, low velocity, N2", Source: mem, Unit: "%", Published: 53, Ours: low.N2, Tol: 3},
		outside.Row{Law: law, Name: "heat of softwood volatiles", Source: "FSRI cone calorimeter of MaCFP pine, 15 to 16.5 MJ/kg lost in flaming", Unit: "MJ/kg", Published: 15.75, Ours: volatiles(pine.Analysis), Tol: 0.75},
	)
}
