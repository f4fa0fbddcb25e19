package gas

import (
	"fmt"
	"testing"

	"toplit/internal/outside"
)

// formationG is the Gibbs energy of forming one mole of sp from the elements.
func formationG(sp Species, T float64) float64 {
	e := sp.Elements()
	return sp.G(T) - e[Carbon]*Graphite.G(T) - e[Hydrogen]/2*H2.G(T) - e[Oxygen]/2*O2.G(T) - e[Nitrogen]/2*N2.G(T)
}

func TestCheckThermodynamics(t *testing.T) {
	const law = "gas thermodynamics"
	const janaf = "Chase 1998, NIST-JANAF thermochemical tables, 4th ed."
	row := func(name, unit string, published, ours, tol float64) outside.Row {
		return outside.Row{Law: law, Name: name, Source: janaf, Unit: unit, Published: published, Ours: ours, Tol: tol}
	}
	outside.Check(t,
		row("cp of CO2 at 1000 K", "J/mol K", 54.308, CO2.Cp(1000), 0.005),
		row("cp of CO at 1500 K", "J/mol K", 35.217, CO.Cp(1500), 0.005),
		row("cp of H2 at 2000 K", "J/mol K", 34.280, H2.Cp(2000), 0.005),
		row("cp of graphite at 1000 K", "J/mol K", 21.610, Graphite.Cp(1000), 0.005),
		row("cp of H2O at 1500 K (the two tables differ by 0.5 %)", "J/mol K", 47.090, H2O.Cp(1500), 0.25),
		row("cp of CH4 at 1000 K (the two tables differ by 2.6 %)", "J/mol K", 71.795, CH4.Cp(1000), 1.9),
		row("entropy of O2 at 1000 K (tables differ by 0.01)", "J/mol K", 243.578, O2.S(1000), 0.01),
		row("entropy of H2 at 2000 K", "J/mol K", 188.418, H2.S(2000), 0.002),
		row("heating O2 from 298 to 2000 K (tables differ by 0.05 %)", "kJ/mol", 59.175, (O2.H(2000)-O2.H(T0))/1e3, 0.03),
		row("heating H2O from 298 to 1000 K", "kJ/mol", 26.000, (H2O.H(1000)-H2O.H(T0))/1e3, 0.005),
		row("forming CO2 at 1000 K, Gibbs energy", "kJ/mol", -395.886, formationG(CO2, 1000)/1e3, 0.02),
		row("forming CO at 1500 K, Gibbs energy", "kJ/mol", -243.740, formationG(CO, 1500)/1e3, 0.02),
		row("forming H2O at 1000 K, Gibbs energy", "kJ/mol", -192.590, formationG(H2O, 1000)/1e3, 0.02),
		row("forming CH4 at 1000 K, Gibbs energy (heats of formation differ by 0.27)", "kJ/mol", 19.492, formationG(CH4, 1000)/1e3, 0.27),
		row("forming NO at 1500 K, Gibbs energy (heats of formation differ by 0.98)", "kJ/mol", 71.425, formationG(NO, 1500)/1e3, 1.0),
	)
}

func TestCheckTransport(t *testing.T) {
	const law = "gas transport"
	row := func(name, source, unit string, published, ours, tol float64) outside.Row {
		return outside.Row{Law: law, Name: name, Source: source, Unit: unit, Published: published, Ours: ours, Tol: outside.Rel(published, tol)}
	}
	const (
		lj      = "Lemmon, Jacobsen 2004, Int. J. Thermophys. 25, 21, table of check values"
		ljAir   = "Lemmon, Jacobsen 2004, Int. J. Thermophys. 25, 21, air, evaluated with the iapws library 1.5.3"
		svehla  = "Svehla 1995, NASA TM-4647"
		µ, λ    = "µPa s", "mW/m K"
		airUnit = 0.001 // our fit is not the source's formula; the source states 1 % and 2 %
	)
	µOf := func(sp Species, T float64) float64 { return 1e6 * Viscosity(sp, T) }
	λOf := func(sp Species, T float64) float64 { return 1e3 * Conductivity(sp, T) }
	air := Mix{N2: .780847, O2: .20946, Ar: .009293, CO2: .0004}
	rows := []outside.Row{
		row("viscosity of N2 at 300 K (stated 0.5 %)", lj, µ, 17.8771, µOf(N2, 300), 0.005),
		row("viscosity of O2 at 300 K (stated 1 %)", lj, µ, 20.6307, µOf(O2, 300), 0.01),
		row("viscosity of CO2 at 2000 K (stated 1 %)", "Laesecke, Muzny 2017, J. Phys. Chem. Ref. Data 46, 013107, check value", µ, 66.079, µOf(CO2, 2000), 0.01),
		row("conductivity of N2 at 300 K (stated 2 %)", lj, λ, 25.9361, λOf(N2, 300), 0.02),
		row("conductivity of CO2 at 250 K (stated 1 % [memory])", "Huber et al. 2016, J. Phys. Chem. Ref. Data 45, 013102, check value", λ, 12.99, λOf(CO2, 250), 0.01),
		row("conductivity of CH4 at 400 K (both sources 2.5 % [memory], together 3.5 %)", "Friend, Ely, Ingham 1989, J. Phys. Chem. Ref. Data 18, 583, check value", λ, 49.96, λOf(CH4, 400), 0.035),
		row("conductivity of H2 at 298.15 K (stated 1 to 2 % [memory])", "Assael et al. 2011, J. Phys. Chem. Ref. Data 40, 033101, check value", λ, 185.67, λOf(H2, 298.15), 0.02),
		row("viscosity of steam at 1500 K (ours extends IAPWS R12-08)", svehla, µ, 1e-1*transport.viscosity[H2O].at(1500), µOf(H2O, 1500), 0.02),
		row("conductivity of steam at 1500 K (ours extends IAPWS R15-11)", svehla, λ, 1e-1*transport.conductivity[H2O].at(1500), λOf(H2O, 1500), 0.05),
		row("viscosity of air at 1000 K by mixing its gases (stated 1 %)", ljAir, µ, 43.2798, 1e6*air.Viscosity(1000), 0.01),
		row("conductivity of air at 1000 K by mixing its gases (stated 2 %, mixing rule 3 %)", ljAir, λ, 67.6771, 1e3*air.Conductivity(1000), 0.04),
		row("viscosity of air at 450 K", ljAir, µ, 25.1240, 1e6*AirViscosity(450), airUnit),
		row("viscosity of air at 1100 K", ljAir, µ, 46.0515, 1e6*AirViscosity(1100), airUnit),
		row("viscosity of air at 1800 K", ljAir, µ, 63.4710, 1e6*AirViscosity(1800), airUnit),
		row("conductivity of air at 1500 K", ljAir, λ, 91.7816, 1e3*AirConductivity(1500), airUnit),
	}
	// what set our forms
	used := []outside.Row{
		row("viscosity of steam at 873.15 K, 1 kg/m3", "IAPWS R12-08, table 4", µ, 32.619287, µOf(H2O, 873.15), 0.001),
		row("conductivity of steam at 298.15 K, zero density", "IAPWS R15-11, table 4", λ, 18.4341883, λOf(H2O, 298.15), 5e-9),
		row("conductivity of steam at 873.15 K, zero density", "IAPWS R15-11, table 4", λ, 79.1034659, λOf(H2O, 873.15), 5e-9),
	}
	for _, p := range airPoints(t) {
		if p.used && (p.T == 300 || p.T == 1000) {
			used = append(used,
				row(fmt.Sprintf("viscosity of air at %g K, fitted point", p.T), ljAir, µ, p.mu, 1e6*AirViscosity(p.T), airUnit),
				row(fmt.Sprintf("conductivity of air at %g K, fitted point", p.T), ljAir, λ, p.k, 1e3*AirConductivity(p.T), airUnit))
		}
	}
	for i := range used {
		used[i].Used = true
	}
	outside.Check(t, append(rows, used...)...)
}

// Every tabulated value of air, fitted or left out, not only those in the rows.
func TestAirTable(t *testing.T) {
	for _, p := range airPoints(t) {
		for _, v := range [][2]float64{{1e6 * AirViscosity(p.T), p.mu}, {1e3 * AirConductivity(p.T), p.k}} {
			if e := v[0]/v[1] - 1; e < -0.0005 || e > 0.0005 {
				t.Errorf("at %g K: %g, table %g (%+.3f %%)", p.T, v[0], v[1], 100*e)
			}
		}
	}
}
