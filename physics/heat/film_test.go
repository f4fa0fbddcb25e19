package heat

import (
	"testing"
	"toplit/physics/gas"
)

func TestFlueConstantIsThatOfTheReferenceFlue(t *testing.T) {
	m := gas.ReferenceFlue()
	if r := gas.R / m.MolarMass(); r < flueR-0.1 || r > flueR+0.1 {
		t.Errorf("flue gas constant %g J/kg K, the reference flue has %g", flueR, r)
	}
}
