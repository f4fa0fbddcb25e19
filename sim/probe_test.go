package sim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

func TestProbe(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	sob := rand.New(rand.NewPCG(1, 2))
	var sumN, sumY [nPriors]float64
	var nN, nY float64
	shown := 0
	for range 128 {
		u := make([]float64, nPriors)
		for j := range u {
			u[j] = sob.Float64()
		}
		if err := b.run(s, draw(u), shippedWidths, shippedTol, 20); err != nil {
			continue
		}
		never := math.IsNaN(b.seen.m.FlameOut) || b.seen.m.FlameOut < 600
		for j := range u {
			if never {
				sumN[j] += u[j]
			} else {
				sumY[j] += u[j]
			}
		}
		if never {
			nN++
			if shown < 3 {
				shown++
				p := draw(u)
				for j, pr := range priors {
					fmt.Printf("%s %.3g; ", pr.Name, p[j])
				}
				fmt.Println()
				for i, tt := range b.track.t {
					if i > 12 {
						break
					}
					y := b.track.y[i]
					b.stageOne(tt, y)
					b.stageTwo(y)
					fmt.Printf("%5.0f raw %5.1f st %.2f lit %.2f u %.2f fl %.2f mp %6.3f ms %6.3f lk %.3f TB %4.0f T1 %4.0f T2 %4.0f TA %3.0f P %5.0f rate %.4f tf %4.0f pilot %.2f\n", tt, y[iRaw]*1e3, y[iStart]*1e3, y[iLit], y[iVel]*100, y[iFlame], y[iFlow]*1e3, y[iFlow+1]*1e3, y[iFlow+2]*1e3, y[iTBed], y[iTGas], y[iTFlame], y[iTAir], b.heatBurned, b.rate*1e3, b.tFlame, b.pilot(y))
				}
			}
		} else {
			nY++
		}
	}
	fmt.Println(nN, nY)
	for j, pr := range priors {
		fmt.Printf("%-16s never %.2f ever %.2f\n", pr.Name, sumN[j]/nN, sumY[j]/nY)
	}
}
