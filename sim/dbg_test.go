package sim

import (
	"fmt"
	"math"
	"testing"

	"toplit/numeric"
)

func TestDbg(t *testing.T) {
	pts, _ := numeric.NewPoints(nPriors+caseDice+1, 11)
	u := make([]float64, nPriors+caseDice+1)
	for _, c := range []struct {
		id string
		i  int
	}{{"PAINTCAN-ND-170x200", 369}, {"FAN-CAMP-LARGE", 13}, {"FAN-CAMP-LARGE", 31}, {"FAN-CAMP-LARGE", 38}} {
		pts.At(uint32(c.i), u)
		f, err := invent(statedCases[c.id], u[nPriors:nPriors+caseDice])
		if err != nil {
			t.Fatal(err)
		}
		s, err := newSite(f, shippedNodes)
		if err != nil {
			fmt.Println(err)
			continue
		}
		b := new(burner)
		err = b.run(s, draw(u[:nPriors]), shippedWidths, shippedTol, 20)
		fmt.Println(c.id, c.i, err, b.solver.Stats())
		y := b.solver.Y()
		dy := make([]float64, b.dim)
		b.Rate(b.solver.T(), y, dy)
		for i := range b.active {
			fmt.Printf("%d: y %.5g dy %.4g;  ", i, y[i], dy[i])
			if math.IsNaN(dy[i]) {
				fmt.Print("NAN ")
			}
		}
		fmt.Printf("\n bed %+v\n", b.gasflow.bedGas)
		fmt.Printf("there %.4g lit %.4g glow %.3g mPrim %.4g zTop %.4g H %.4g need %.3g have %.3g burn %.3g tf %.5g\n", b.there, b.lit, b.glow, b.mPrim, b.zTop, b.height, b.need, b.have, b.burn, b.tFlame)
	}
}
