package fuel

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/physics/gas"
)

func drawAnalysis(t *rapid.T) Analysis {
	a := Analysis{
		Carbon:   rapid.Float64Range(0.4, 0.6).Draw(t, "C"),
		Hydrogen: rapid.Float64Range(0.02, 0.08).Draw(t, "H"),
		Oxygen:   rapid.Float64Range(0.1, 0.45).Draw(t, "O"),
		Nitrogen: rapid.Float64Range(0, 0.02).Draw(t, "N"),
		Ash:      rapid.Float64Range(0, 0.2).Draw(t, "A"),
	}
	return a.Normal()
}

// The net heating value of ISO 18125 and the one that follows from the enthalpy
// of formation are two roads to one number.
func TestLHVBothWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawAnalysis(t)
		e := a.Elements()
		byFormation := a.Formation() - e[gas.Carbon]*enthalpyCO2 - e[gas.Hydrogen]/2*enthalpySteam
		if d := math.Abs(byFormation - a.LHV()); d > 8e3 {
			t.Fatalf("LHV by ISO %g, by formation %g J/kg: %g apart", a.LHV(), byFormation, d)
		}
	})
}

func TestElementsBackAndForth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawAnalysis(t).AshFree()
		b := FromElements(a.Elements())
		for _, d := range []float64{a.Carbon - b.Carbon, a.Hydrogen - b.Hydrogen, a.Oxygen - b.Oxygen, a.Nitrogen - b.Nitrogen} {
			if math.Abs(d) > 1e-12 {
				t.Fatalf("%+v became %+v", a, b)
			}
		}
	})
}

// Every row of the catalogue says where it comes from, every fuel is whole.
func TestCatalogue(t *testing.T) {
	if _, err := read(); err != nil {
		t.Fatal(err)
	}
	for _, f := range Catalogue() {
		if err := f.Analysis.Check(); err != nil {
			t.Errorf("%s: %v", f.Name, err)
		}
		if f.Family == "" || f.Bulk <= 0 || f.Density <= f.Bulk || f.Size <= 0 || f.Length < f.Size || f.Moisture <= 0 || f.Volatiles <= 0 {
			t.Errorf("%s: something is missing: %+v", f.Name, f)
		}
		for _, r := range Rows(f.Name) {
			if r.Source == "" || (r.Quantity != "family" && (r.Unit == "" || r.SD <= 0)) {
				t.Errorf("%s, %s: no source, unit or uncertainty", f.Name, r.Quantity)
			}
		}
	}
	if Rows("no such fuel") != nil {
		t.Error("rows of a fuel that is not there")
	}
}

func TestParseSaysWhere(t *testing.T) {
	for text, want := range map[string]string{
		"a,b,c,d,e,f\nx,carbon,none,1,u,s\n":   "line 2",
		"a,b,c,d,e,f\nx,colour,1,1,u,s\n":      `unknown quantity "colour"`,
		"a,b,c,d,e,f\nx,carbon,1,1,u,s\ny,z\n": "fuel catalogue",
	} {
		if _, err := parse(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: error %v does not say %q", text, err, want)
		}
	}
}

func TestByName(t *testing.T) {
	for _, name := range []string{"softwood pellets", "Softwood-Pellets", "SOFTWOOD pellets"} {
		if f, err := ByName(name); err != nil || f.Name != "softwood pellets" {
			t.Errorf("%q: %v, %v", name, f.Name, err)
		}
	}
	for name, near := range map[string]string{"pellets": "softwood pellets", "birch chips": "hardwood chips", "rice husks": "rice husk", "coconuts": "coconut shell"} {
		if _, err := ByName(name); err == nil || !strings.Contains(err.Error(), near) {
			t.Errorf("%q: error %v does not name %q", name, err, near)
		}
	}
}

func TestMoistureByDrying(t *testing.T) {
	M, sd, err := MoistureByDrying(0.220, 0.200, 0.020, 0.0005)
	if err != nil || math.Abs(M-0.1) > 1e-12 {
		t.Fatalf("moisture %g, %v", M, err)
	}
	if want := 0.0005 / 0.2 * math.Sqrt(0.81+1+0.01); math.Abs(sd-want) > 1e-12 {
		t.Errorf("uncertainty %g, want %g", sd, want)
	}
	for _, bad := range [][3]float64{{0.1, 0.2, 0}, {0.2, 0.05, 0.05}, {0.2, 0.1, -1}, {math.NaN(), 0.1, 0}} {
		if _, _, err := MoistureByDrying(bad[0], bad[1], bad[2], 0.001); err == nil {
			t.Errorf("%v accepted", bad)
		}
	}
}

func TestBasesAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		M := rapid.Float64Range(0, 0.9).Draw(t, "M")
		if got := WetBasis(DryBasis(M)); math.Abs(got-M) > 1e-12 {
			t.Fatalf("%g became %g", M, got)
		}
	})
}

// Sensible heats are the integrals of the heat capacities, and zero at 298 K.
func TestHeatsAreIntegrals(t *testing.T) {
	for _, f := range []struct {
		name  string
		h, cp func(float64) float64
	}{{"wood", WoodHeat, WoodCp}, {"char", CharHeat, CharCp}, {"tar", TarEnthalpy, TarCp}} {
		for T := 255.0; T < 1700; T += 37 {
			got := (f.h(T+0.01) - f.h(T-0.01)) / 0.02
			if math.Abs(got-f.cp(T)) > 1e-3*f.cp(T) {
				t.Errorf("%s at %g K: slope %g, heat capacity %g", f.name, T, got, f.cp(T))
			}
		}
	}
	if math.Abs(WoodHeat(gas.T0)) > 1e-6 || math.Abs(CharHeat(gas.T0)) > 1e-6 || math.Abs(TarEnthalpy(gas.T0)-TarFormation()) > 1e-6 {
		t.Error("sensible heat at 298.15 K is not zero")
	}
}

func TestCharred(t *testing.T) {
	for name, want := range map[string]bool{"softwood chips": false, "rice husk": false, "charcoal": true} {
		f, _ := ByName(name)
		if got := f.Charred() > 0; got != want {
			t.Errorf("%s: charred %g", name, f.Charred())
		}
	}
	if (Fuel{}).Charred() != 0 || (Fuel{}).Void() != 0 || (Fuel{}).Volume(1) != 0 {
		t.Error("the empty fuel is not empty")
	}
}

func TestCheckAnalysis(t *testing.T) {
	good := Analysis{Carbon: 0.5, Hydrogen: 0.06, Oxygen: 0.43, Ash: 0.01}
	if err := good.Check(); err != nil {
		t.Error(err)
	}
	for _, bad := range []Analysis{{}, {Carbon: 0.5, Hydrogen: 0.3, Oxygen: 0.2}, {Carbon: 0.5, Hydrogen: 0.06, Oxygen: 0.3}, {Carbon: math.NaN(), Hydrogen: 0.06, Oxygen: 0.43}} {
		if bad.Check() == nil {
			t.Errorf("%+v accepted", bad)
		}
	}
}

// Dry wood of C 50.3, H 6.1, O 43.2, N 0.1 %.
func ExampleAnalysis() {
	a := Analysis{Carbon: 0.503, Hydrogen: 0.061, Oxygen: 0.432, Nitrogen: 0.001}
	fmt.Printf("gross %.2f, net dry %.2f, net at 8 %% water %.2f MJ/kg\n", a.HHV()/1e6, a.LHV()/1e6, a.WetLHV(0.08)/1e6)
	fmt.Printf("air %.3f kg/kg\n", a.AirDemand())
	// Output:
	// gross 20.28, net dry 18.95, net at 8 % water 17.24 MJ/kg
	// air 6.017 kg/kg
}

func ExampleByName() {
	_, err := ByName("pellets")
	fmt.Println(err)
	// Output:
	// fuel: no species "pellets" in the catalogue; nearest are "softwood pellets", "hardwood pellets", "nut shells"
}
