package sim

import "testing"

func BenchmarkPredict(b *testing.B) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		b.Fatal(err)
	}
	r := new(burner)
	b.ReportAllocs()
	for b.Loop() {
		if err := r.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRate(b *testing.B) {
	s, _ := newSite(demo(), shippedNodes)
	r := new(burner)
	if err := r.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
		b.Fatal(err)
	}
	y := r.track.y[30]
	dy := make([]float64, r.dim)
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			r.Rate(600, y, dy)
		}
	})
	b.Run("solids", func(b *testing.B) {
		for b.Loop() {
			r.stageTwo(y)
			r.assemble(y, dy)
		}
	})
}
