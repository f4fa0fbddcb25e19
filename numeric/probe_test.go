package numeric

import (
"toplit/numeric/problems"
	"fmt"
	"math"
	"testing"
	"time"
)

type pr struct{}

func (pr) Dim() int                       { return 1 }
func (pr) Rate(t float64, y, d []float64) { d[0] = -1e4*(y[0]-math.Cos(t)) - math.Sin(t) }

type nonl struct{}

func (nonl) Dim() int { return 2 }

// y1'=-2 y1 + y2^2 .. solution y1=exp(-2t), y2=exp(-t), nonautonomous mixture
func (nonl) Rate(t float64, y, d []float64) {
	d[0] = -2*y[0] + (y[1]*y[1]-math.Exp(-2*t))*5
	d[1] = y[0] - y[1]*y[1] - y[1]*(1+y[1]) + math.Exp(-2*t)
}
func TestProbe(t *testing.T) {
	var s Solver
	for _, p := range problems.All() {
		for _, rt := range []float64{1e-3, 1e-4, 1e-6, 1e-8, 1e-10, 1e-12} {
			for k, sys := range []System{p.Sys, plain{p.Sys}} {
				t0 := time.Now()
				for r := 0; r < 5; r++ {
					if err := s.Reset(sys, 0, p.Start, Options{RTol: rt, ATol: rt * p.Scale, Autonomous: true}); err != nil {
						t.Fatal(err)
					}
					if _, err := s.Integrate(p.End, nil, nil); err != nil {
						t.Fatal(err)
					}
				}
				fmt.Printf("%s %d %.0e err %.2e  %v %+v\n", p.Name, k, rt, p.Error(s.Y()), time.Since(t0)/5, s.Stats())
			}
		}
	}
	// order
	for _, sys := range []System{pr{}, nonl{}} {
		prev := 0.
		pd := 0.
		for n := 4; n <= 128; n *= 2 {
			y0 := []float64{1, 1}[:sys.Dim()]
			s.Reset(sys, 0, y0, Options{RTol: 1e-1, ATol: 1e10})
			h := 2.0 / float64(n)
			e, ed := 0., 0.
			for i := 0; i < n; i++ {
				s.hnext = h
				_, err := s.Step(float64(i+1) * h)
				if err != nil {
					t.Fatal(err)
				}
				ex := func(x float64) float64 {
					if sys.Dim() == 1 {
						return math.Cos(x)
					}
					return math.Exp(-2 * x)
				}
				e = math.Max(e, math.Abs(s.Y()[0]-ex(s.T())))
				for _, x := range []float64{.25, .5, .75} {
					tt := s.Prev() + x*h
					ed = math.Max(ed, math.Abs(s.AtOne(tt, 0)-ex(tt)))
				}
			}
			fmt.Println(n, e, math.Log2(prev/e), ed, math.Log2(pd/ed), s.Stats())
			prev = e
			pd = ed
		}
	}
}
