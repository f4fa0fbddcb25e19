package sim

import (
	"math"
	"testing"
)

// TestLedgerOfTheDemo closes every balance of one burn and accounts for all of
// its heat.
func TestLedgerOfTheDemo(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		t.Fatal(err)
	}
	l := b.ledger(b.track.y[0], b.solver.Y())
	for _, c := range []struct {
		what     string
		gap, tol float64
	}{
		{"carbon", l.CarbonGap, 1e-5}, {"hydrogen", l.HydrogenGap, 1e-5}, {"oxygen", l.OxygenGap, 1e-5}, {"nitrogen", l.NitrogenGap, 1e-5},
		{"energy", l.EnergyGap, 1e-3}, {"walls", l.WallsGap, 5e-3}, {"pot", l.PotGap, 5e-3}, {"ground", l.GroundGap, 5e-3},
	} {
		if !(math.Abs(c.gap) < c.tol) {
			t.Errorf("%s gap %.3g, want below %.0e", c.what, c.gap, c.tol)
		}
	}
	// What is still hot when the burn is over is all that may be left.
	if r := l.Rest / l.Fuel; math.Abs(r) > 0.02 {
		t.Errorf("%.1f %% of the heat has no destination", 100*r)
	}
}
