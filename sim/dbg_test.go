package sim

import (
	"fmt"
	"math"
	"testing"

	"toplit/numeric"
	"toplit/physics/gas"
)

func TestDbg(t *testing.T) {
	pts, _ := numeric.NewPoints(nPriors+24, 5)
	b := new(burner)
	u := make([]float64, nPriors+24)
	var s1, s0 [nPriors]float64
	var n1, n0 float64
	shown := 0
	for i := range 256 {
		pts.At(uint32(i), u)
		s, err := newSite(practiceStove(u[nPriors:]), shippedNodes)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.run(s, draw(u[:nPriors]), shippedWidths, shippedTol, 20); err != nil {
			t.Fatal(err)
		}
		f := b.figures()
		long := f[FFlameOut]-f[FFrontAtGrate] > 400
		for j := range nPriors {
			if long {
				s1[j] += u[j]
			} else {
				s0[j] += u[j]
			}
		}
		if long {
			n1++
			if shown < 3 {
				shown++
				for k, tt := range b.track.t {
					if k%6 != 0 || tt < f[FFrontAtGrate]-200 {
						continue
					}
					y := b.track.y[k]
					b.stageOne(tt, y)
					n := b.bedGas.Moles()
					fmt.Printf("%5.0f TB %4.0f T1 %4.0f char %.1f h %.1f zone %.1f  CO %.3f CO2 %.3f H2 %.3f O2 %.3f CH4 %.4f tf %.0f lim %.0f\n", tt, y[iTBed], y[iTGas], y[iChar]*1e3, b.hChar*1e3, b.p[pCharZone]*b.charSize*1e3, b.bedGas[gas.CO]/n, b.bedGas[gas.CO2]/n, b.bedGas[gas.H2]/n, b.bedGas[gas.O2]/n, b.bedGas[gas.CH4]/n, b.tFlame, b.tFlameMin)
				}
				fmt.Println(f[FFrontAtGrate], f[FFlameOut], f[FGlowEnd])
			}
		} else if !math.IsNaN(f[FFlameOut]) {
			n0++
		}
	}
	fmt.Println(n1, n0)
	for j := range nPriors {
		if a, c := s1[j]/n1, s0[j]/n0; math.Abs(a-c) > 0.08 {
			fmt.Printf("%s long %.2f short %.2f\n", priors[j].Name, a, c)
		}
	}
}
