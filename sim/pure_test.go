package sim

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"toplit/firing"
	"toplit/internal/designs"
)

// sameBits says that two slices hold the same numbers to the last bit.
func sameBits(a, b []float64) (int, bool) {
	for i := range a {
		if math.Float64bits(a[i]) != math.Float64bits(b[i]) {
			return i, false
		}
	}
	return 0, len(a) == len(b)
}

// states are points of a burn and points no burn passes: the Jacobian and the
// stages of a step look there too.
func states(b *burner, r *rand.Rand, n int) (ts []float64, ys [][]float64) {
	for range n {
		j := r.IntN(len(b.track.t))
		y := append([]float64(nil), b.track.y[j]...)
		for i := range b.active {
			if r.Float64() < 0.3 {
				y[i] += 0.02 * b.scale[i] * (2*r.Float64() - 1)
			}
		}
		if b.sane(y) {
			ts, ys = append(ts, b.track.t[j]), append(ys, y)
		}
	}
	return ts, ys
}

// TestRatePure: the right-hand side is a pure function of time and state: in
// shuffled order, on a model that has just burned something else, and after
// its Jacobian was asked for, it gives the same bits.
func TestRatePure(t *testing.T) {
	other, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	inParallel(24, func(b *burner, k int) {
		seed := uint64(k + 1)
		f, err := designs.Random(seed)
		if err != nil {
			t.Error(err)
			return
		}
		s, err := newSite(f, shippedNodes)
		if err != nil {
			t.Error(err)
			return
		}
		var ph [4]float64
		p := drawn(seed, 1, &ph)
		b.phases = ph
		if err := b.run(s, p, shippedWidths, shippedTol, 20); err != nil {
			t.Errorf("design %d: %v", seed, err)
			return
		}
		r := rand.New(rand.NewPCG(seed, 7))
		ts, ys := states(b, r, 60)
		want := make([][]float64, len(ts))
		for i := range ts {
			want[i] = make([]float64, b.dim)
			b.Rate(ts[i], ys[i], want[i])
		}
		got := make([]float64, b.dim)
		check := func(m *model, how string) {
			for _, i := range r.Perm(len(ts)) {
				m.Rate(ts[i], ys[i], got)
				if c, ok := sameBits(got, want[i]); !ok {
					t.Errorf("design %d, %s: component %d at t = %.0f s is %v, was %v", seed, how, c, ts[i], got[c], want[i][c])
					return
				}
			}
		}
		check(&b.model, "shuffled")
		jac := make([]float64, b.dim*b.active)
		for _, i := range r.Perm(len(ts))[:5] {
			clear(jac)
			b.Jacobian(ts[i], ys[i], want[i], jac)
		}
		check(&b.model, "after its Jacobian")

		// Another model that has burned another stove before.
		fresh := new(burner)
		if err := fresh.run(other, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
			t.Error(err)
			return
		}
		on := b.on
		if err := fresh.model.reset(s, p, shippedWidths); err != nil {
			t.Error(err)
			return
		}
		fresh.phases, fresh.on = ph, on
		fresh.setTop()
		check(&fresh.model, "on another model")
	})
}

// TestJacobianWhole: the Jacobian by groups is that of differences of the
// whole right-hand side, over random designs and states.
func TestJacobianWhole(t *testing.T) {
	inParallel(24, func(b *burner, k int) {
		seed := uint64(k + 101)
		f, err := designs.Random(seed)
		if err != nil {
			t.Error(err)
			return
		}
		s, err := newSite(f, nodes{3 + k%4, 1 + k%3, 6})
		if err != nil {
			t.Error(err)
			return
		}
		b.phases = [4]float64{}
		if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
			t.Errorf("design %d: %v", seed, err)
			return
		}
		r := rand.New(rand.NewPCG(seed, 8))
		n := b.active
		f0, f1 := make([]float64, b.dim), make([]float64, b.dim)
		jac := make([]float64, b.dim*n)
		bad := 0
		for range 6 {
			j := r.IntN(len(b.track.t))
			at, y := b.track.t[j], append([]float64(nil), b.track.y[j]...)
			b.Rate(at, y, f0)
			clear(jac)
			b.Jacobian(at, y, f0, jac)
			for c := range n {
				if c == iStart && y[c] < 1e-6*b.start0 {
					continue // a starter burned out keeps its own decay only
				}
				old := y[c]
				y[c] += b.increment(c, old)
				d := y[c] - old
				b.Rate(at, y, f1)
				y[c] = old
				for i := range f0 {
					want, got := (f1[i]-f0[i])/d, jac[i*n+c]
					// What rounding leaves of a difference: a few units of the largest
					// sum that goes into a rate: some kilowatts over some joules per kelvin,
					// and for a gas its temperature over its hundredths of a second.
					sum := 1.0
					if i >= iTBed && i <= iTAir {
						sum = 100
					}
					noise := 1e-13 * (math.Abs(f0[i]) + math.Abs(f1[i]) + sum) / math.Abs(d)
					if math.Abs(want-got) > 1e-4*math.Max(math.Abs(want), math.Abs(got))+noise {
						bad++
						if bad <= 3 {
							t.Errorf("design %d, t = %.0f s: d f[%d]/d y[%d] is %.8g by groups, %.8g by differences", seed, at, i, c, got, want)
						}
					}
				}
			}
		}
	})
}

// sameNumbers compares two predictions to the last bit. NaN equals NaN.
func sameNumbers(a, b reflect.Value, path string) string {
	switch a.Kind() {
	case reflect.Float32, reflect.Float64:
		if math.Float64bits(a.Float()) != math.Float64bits(b.Float()) && !(math.IsNaN(a.Float()) && math.IsNaN(b.Float())) {
			return path
		}
	case reflect.Struct:
		for i := range a.NumField() {
			if p := sameNumbers(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name); p != "" {
				return p
			}
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return path
		}
		for i := range a.Len() {
			if p := sameNumbers(a.Index(i), b.Index(i), path); p != "" {
				return p
			}
		}
	case reflect.Map:
		if a.Len() != b.Len() {
			return path
		}
		for _, k := range a.MapKeys() {
			if !b.MapIndex(k).IsValid() {
				return path
			}
			if p := sameNumbers(a.MapIndex(k), b.MapIndex(k), path+"."+k.String()); p != "" {
				return p
			}
		}
	case reflect.String:
		if a.String() != b.String() {
			return path
		}
	case reflect.Int, reflect.Int64:
		if a.Int() != b.Int() {
			return path
		}
	case reflect.Uint64:
		if a.Uint() != b.Uint() {
			return path
		}
	case reflect.Bool:
		if a.Bool() != b.Bool() {
			return path
		}
	default:
		return path + " of kind " + a.Kind().String() + " is not compared"
	}
	return ""
}

// TestPredictRepeats: the same seed gives the same prediction to the last bit,
// on one core or many and whatever was predicted before; another seed gives
// another.
func TestPredictRepeats(t *testing.T) {
	predict := func(f *firing.Firing, o Options) *Prediction {
		p, err := Predict(context.Background(), f, o)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	last := demo()
	for seed := uint64(1); seed <= 12; seed++ {
		f := designs.For(t, seed)
		one := predict(f, Options{Samples: 9, Seed: 5, Workers: 1})
		if one.Failed > 0 {
			t.Errorf("design %d: %d of %d samples failed", seed, one.Failed, one.Samples)
		}
		predict(last, Options{Samples: 3, Seed: 1, Workers: 2}) // leaves its traces in the pool
		last = f
		for _, workers := range []int{2, 5} {
			many := predict(designs.Clone(f), Options{Samples: 9, Seed: 5, Workers: workers})
			if p := sameNumbers(reflect.ValueOf(one).Elem(), reflect.ValueOf(many).Elem(), "prediction"); p != "" {
				t.Errorf("design %d: %s differs between 1 and %d workers", seed, p, workers)
			}
		}
		other := predict(f, Options{Samples: 9, Seed: 6, Workers: 2})
		other.Seed = one.Seed
		if sameNumbers(reflect.ValueOf(one).Elem(), reflect.ValueOf(other).Elem(), "prediction") == "" {
			t.Errorf("design %d: seeds 5 and 6 give the same prediction", seed)
		}
	}
}

// TestLaterActs: what is done to the stove at a time does not change what the
// prediction says about the time before. Curves are read from stored states
// once the burn is over, so they must know what stood on the stove when.
func TestLaterActs(t *testing.T) {
	const at = 900.0
	curves := func(f *firing.Firing) []curvePoint {
		s, err := newSite(f, shippedNodes)
		if err != nil {
			t.Fatal(err)
		}
		b := new(burner)
		if err := b.run(s, MedianParams(), shippedWidths, signTol, 20); err != nil {
			t.Fatal(err)
		}
		var out []curvePoint
		for k := range b.track.t {
			out = append(out, b.point(k))
		}
		return out
	}
	base := demo()
	base.Design.Riser = nil
	whole := curves(base)
	for _, act := range []firing.Act{firing.Snuff, firing.PotOff, firing.RingOff, firing.StandOff} {
		f := designs.Clone(base)
		f.Conditions.Schedule = append(f.Conditions.Schedule, firing.Action{Do: act, At: at})
		cut := curves(f)
		if why := apartBefore(whole, cut, int(at/20)-1); why != "" {
			t.Errorf("%s at %.0f s: %s", act, at, why)
		}
	}
}

// apartBefore is where two sets of curves first differ before a point.
func apartBefore(whole, cut []curvePoint, end int) string {
	for k := range end {
		for c := range nCurves {
			a, b := float64(whole[k][c]), float64(cut[k][c])
			if math.Abs(a-b) > 1e-3*math.Max(math.Abs(a), math.Abs(b))+1e-9 {
				return fmt.Sprintf("%s at %d s is %.5g, without it %.5g", curveInfo[c].key, k*20, b, a)
			}
		}
	}
	return ""
}

// TestActsAfterMoments: an act tied to a moment waits for it, with no delay
// too.
func TestActsAfterMoments(t *testing.T) {
	f := demo()
	f.Conditions.Schedule = []firing.Action{{Do: firing.PotOn, After: firing.JetsLit}}
	s, err := newSite(f, shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	b := new(burner)
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
		t.Fatal(err)
	}
	if m := b.seen.m; !(math.Abs(m.PotOn-m.JetsLit) < 0.01*m.JetsLit+1) {
		t.Errorf("pot on at %.1f s, jets lit at %.1f s, want the same", m.PotOn, m.JetsLit)
	}
}

// TestBurnersAreReused: a burner that has burned one stove burns the next as a
// new one does, whatever the number of its rows, walls and nodes.
func TestBurnersAreReused(t *testing.T) {
	used := new(burner)
	for k := range 40 {
		seed := uint64(1 + k*37%200)
		f := designs.For(t, seed)
		s, err := newSite(f, nodes{3 + k%3, 1 + k%2, 5 + k%4})
		if err != nil {
			t.Fatal(err)
		}
		fresh := new(burner)
		if err := fresh.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
			t.Fatalf("design %d: %v", seed, err)
		}
		used.phases = [4]float64{}
		if err := used.run(s, MedianParams(), shippedWidths, shippedTol, 20); err != nil {
			t.Fatalf("design %d on a used burner: %v", seed, err)
		}
		if i, ok := sameBits(fresh.solver.Y(), used.solver.Y()); !ok {
			t.Errorf("design %d: component %d ends at %v on a used burner, at %v on a new one", seed, i, used.solver.Y()[i], fresh.solver.Y()[i])
		}
		a, b := fresh.figures(), used.figures()
		if i, ok := sameBits(a[:], b[:]); !ok {
			t.Errorf("design %d: %s is %v on a used burner, %v on a new one", seed, Figure(i), b[i], a[i])
		}
	}
}
