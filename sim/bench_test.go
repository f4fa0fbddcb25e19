//go:build unix

package sim

import (
	"context"
	"runtime"
	"syscall"
	"testing"
	"time"
)

// BenchmarkPredict is one burn of 50 minutes on one core, its figures included.
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
		r.figures()
	}
}

// BenchmarkBand is a band of 256 on all cores; use is processor time over wall
// time and cores.
func BenchmarkBand(b *testing.B) {
	f := demo()
	if _, err := Predict(context.Background(), f, Options{}); err != nil {
		b.Fatal(err)
	}
	used := processor(b)
	start := time.Now()
	for b.Loop() {
		if _, err := Predict(context.Background(), f, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	wall := time.Since(start)
	b.ReportMetric(100*float64(processor(b)-used)/float64(wall)/float64(runtime.GOMAXPROCS(0)), "%use")
}

func processor(b *testing.B) time.Duration {
	var r syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &r); err != nil {
		b.Skip(err)
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

// BenchmarkRate is one right-hand side, and its heat exchange alone.
func BenchmarkRate(b *testing.B) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		b.Fatal(err)
	}
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
	b.Run("heat", func(b *testing.B) {
		for b.Loop() {
			r.stageTwo(y)
			r.assemble(y, dy)
		}
	})
}
