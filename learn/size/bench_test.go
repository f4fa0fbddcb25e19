package size

import (
	"context"
	"testing"

	"toplit/firing"
	"toplit/quantity"
)

var benchWish = Wish{FuelCan: Can{Name: "404x414"}, AnyOuter: true, Pot: &Pot{}, Water: firing.Water{Mass: 1}, BoilIn: 600}

func BenchmarkDesign(b *testing.B) {
	for name, o := range map[string]Options{"full": {}, "quick": {Quick: true}} {
		b.Run(name, func(b *testing.B) {
			burns := 0
			for b.Loop() {
				r, err := Design(context.Background(), benchWish, o)
				if err != nil {
					b.Fatal(err)
				}
				burns = r.Burns
			}
			b.ReportMetric(float64(burns), "burns/op")
		})
	}
}

// BenchmarkPaper is what a trial costs besides its burns.
func BenchmarkPaper(b *testing.B) {
	s, err := newSpace(benchWish, quantity.Metric)
	if err != nil {
		b.Fatal(err)
	}
	c := s.first()
	for b.Loop() {
		f, err := s.sized(c).read()
		if err != nil {
			b.Fatal(err)
		}
		firing.Check(*f)
	}
}
