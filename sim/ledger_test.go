package sim

import (
	"fmt"
	"testing"
)

func TestLedgerSmoke(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		t.Fatal(err)
	}
	fmt.Printf("%+v\n", b.ledger(b.track.y[0], b.solver.Y()))
}
