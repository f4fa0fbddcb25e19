package sim

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"toplit/firing"
	"toplit/stove"
)

func predict(t *testing.T, f *firing.Firing, o Options) *Prediction {
	t.Helper()
	p, err := Predict(context.Background(), f, o)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// text writes all of a prediction, so that NaN equals NaN.
func text(p *Prediction) string { return fmt.Sprintf("%v", *p) }

func TestPredictDemo(t *testing.T) {
	p := predict(t, demo(), Options{Samples: 64})
	if p.Failed != 0 {
		t.Errorf("%d samples failed", p.Failed)
	}
	for i, q := range p.Figures {
		if q.Never < 1 && !(q.P10 <= q.P50 && q.P50 <= q.P90) {
			t.Errorf("%s: %v is out of order", Figure(i), q)
		}
	}
	for _, f := range []Figure{FJetsLit, FFlameOut, FGlowEnd, FTimeToBoil, FFirepower, FEfficiency} {
		if p.Figures[f].Never > 0.5 {
			t.Errorf("%s: never in %.0f %% of an ordinary stove's burns", f, 100*p.Figures[f].Never)
		}
	}
	if len(p.Limits) == 0 || !strings.ContainsAny(p.Limits[0].Sentence, "0123456789") {
		t.Errorf("limits %v, want a sentence with a number", p.Limits)
	}
	if len(p.Drivers["time_to_boil_s"]) == 0 {
		t.Error("nothing drives the time to boil")
	}
	var about []string
	for _, c := range p.Cautions {
		about = append(about, c.About)
	}
	for _, must := range []string{"outdoors", "carbon monoxide", "ground", "hot surfaces", "coatings and zinc", "local fire rules"} {
		if !strings.Contains(strings.Join(about, ","), must) {
			t.Errorf("no caution about %s", must)
		}
	}
	for _, c := range p.Curves {
		if len(c.P10) != len(p.Time) || len(c.P90) != len(p.Time) {
			t.Fatalf("curve %s has %d points, times %d", c.Key, len(c.P10), len(p.Time))
		}
		for k := range c.P10 {
			if math.IsNaN(c.P50[k]) || c.P10[k] > c.P50[k] || c.P50[k] > c.P90[k] {
				t.Fatalf("curve %s at %.0f s: %g %g %g", c.Key, p.Time[k], c.P10[k], c.P50[k], c.P90[k])
			}
		}
	}
}

func TestPredictIsTheSameOnOneCoreAndMany(t *testing.T) {
	one := predict(t, demo(), Options{Samples: 32, Workers: 1})
	many := predict(t, demo(), Options{Samples: 32, Workers: 3})
	if text(one) != text(many) {
		t.Error("the result depends on the number of workers")
	}
	other := predict(t, demo(), Options{Samples: 32, Seed: 2})
	if text(one) == text(other) {
		t.Error("another seed gives the same band")
	}
}

func TestPredictReusesItsBurners(t *testing.T) {
	single := &firing.Firing{Design: stove.Design{
		FuelCan: stove.Can{Diameter: 0.066, Height: 0.11, Wall: 0.1e-3}, Standoff: 0.01,
		Rows: []stove.Row{
			{On: stove.FuelBase, Count: 8, Hole: stove.Hole{Shape: stove.Round, Width: 0.005}},
			{On: stove.FuelBody, Count: 4, Height: 0.05, Hole: stove.Hole{Shape: stove.Round, Width: 0.004}},
			{On: stove.FuelBody, Count: 8, Height: 0.1, Hole: stove.Hole{Shape: stove.Round, Width: 0.004}},
		}},
		Conditions: firing.Conditions{Charge: firing.Charge{Mass: 0.1}, Starter: firing.Starter{Mass: 0.004}},
	}
	first := predict(t, single, Options{Samples: 8, Workers: 1})
	predict(t, demo(), Options{Samples: 8, Workers: 1})
	if again := predict(t, single, Options{Samples: 8, Workers: 1}); text(first) != text(again) {
		t.Error("a burner remembers the design before")
	}
}

func TestPredictSaysWhatADesignLacks(t *testing.T) {
	f := demo()
	f.Design.Rows = nil
	_, err := Predict(context.Background(), f, Options{Samples: 4})
	if !errors.Is(err, ErrDesign) {
		t.Errorf("error %v, want ErrDesign", err)
	}
	f = demo()
	f.Conditions.Charge = firing.Charge{Mass: 5}
	if _, err := Predict(context.Background(), f, Options{Samples: 4}); !errors.Is(err, ErrDesign) {
		t.Errorf("5 kg in a one litre can: %v, want ErrDesign", err)
	}
}

func TestPredictStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Predict(ctx, demo(), Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
}

func TestScheduleWaitsForItsMoment(t *testing.T) {
	f := demo()
	f.Conditions.Schedule = []firing.Action{{Do: firing.PotOn, After: firing.JetsLit, At: 60}, {Do: firing.PotOff, After: firing.Boil}}
	s, err := newSite(f, shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
		t.Fatal(err)
	}
	m := b.seen.m
	if d := m.PotOn - m.JetsLit; math.Abs(d-60) > 0.5 {
		t.Errorf("pot on %.2f s after the jets, want 60", d)
	}
	if b.on.pot {
		t.Error("pot still on after the boil")
	}
}

// TestMoreSamplesMoveLittle holds the number of samples to its purpose: twice
// as many move the 10 and 90 % points of a figure by less than 5 %.
func TestMoreSamplesMoveLittle(t *testing.T) {
	a := predict(t, demo(), Options{})
	b := predict(t, demo(), Options{Samples: 512})
	for i := range a.Figures {
		p, q := a.Figures[i], b.Figures[i]
		if i == int(FSwirl) || p.Never > 0.2 {
			continue
		}
		for _, v := range [][2]float64{{p.P10, q.P10}, {p.P90, q.P90}} {
			if math.Abs(v[0]/v[1]-1) > 0.05 && i != int(FBurnOut) && i != int(FJetsLit) {
				t.Errorf("%s: %.4g with 256 samples, %.4g with 512", Figure(i), v[0], v[1])
			}
		}
	}
}
