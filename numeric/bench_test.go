package numeric

import (
	"testing"

	"toplit/numeric/problems"
)

// The problems at a loose and a tight tolerance, with their own Jacobians.
func benchProblem(b *testing.B, name string) {
	for _, p := range problems.All() {
		if p.Name != name {
			continue
		}
		for _, c := range []struct {
			name string
			tol  float64
		}{{"1e-4", 1e-4}, {"1e-9", 1e-9}} {
			b.Run(c.name, func(b *testing.B) {
				var s Solver
				b.ReportAllocs()
				for b.Loop() {
					if err := s.Reset(p.Sys, 0, p.Start, Options{RTol: c.tol, ATol: c.tol * p.Scale, Autonomous: true}); err != nil {
						b.Fatal(err)
					}
					if _, err := s.Integrate(p.End, nil, nil); err != nil {
						b.Fatal(err)
					}
				}
				st := s.Stats()
				b.ReportMetric(float64(st.Steps), "steps")
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(st.Steps+st.Rejected), "ns/step")
			})
		}
	}
}

func BenchmarkROBER(b *testing.B) { benchProblem(b, "ROBER") }
func BenchmarkHIRES(b *testing.B) { benchProblem(b, "HIRES") }
func BenchmarkOREGO(b *testing.B) { benchProblem(b, "OREGO") }
func BenchmarkVDPOL(b *testing.B) { benchProblem(b, "VDPOL") }
