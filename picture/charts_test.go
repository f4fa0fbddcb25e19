package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/drawing"
)

// ticksOf reads an axis back from its numbers: value against place.
func ticksOf(t rapid.TB, s *drawing.Sheet, keep func(drawing.Text) bool, along func(drawing.Text) float64) func(place float64) float64 {
	t.Helper()
	var v, p []float64
	for _, x := range texts(s) {
		if n, err := strconv.ParseFloat(x.Content, 64); err == nil && keep(x) {
			v, p = append(v, n), append(p, along(x))
		}
	}
	if len(v) < 2 {
		t.Fatalf("%d numbers on the axis; want two or more", len(v))
	}
	last := len(v) - 1
	return func(place float64) float64 { return v[0] + (place-p[0])/(p[last]-p[0])*(v[last]-v[0]) }
}

// The curves stand where the axes' own numbers say.
func TestBurnChartIsTrueToItsAxes(t *testing.T) {
	b := sampleBurn()
	s := BurnChart(b, ChartOptions{})
	ts := 3.2
	minutes := ticksOf(t, s, func(x drawing.Text) bool { return x.Anchor == drawing.Middle }, func(x drawing.Text) float64 { return x.At.X })
	power := ticksOf(t, s, func(x drawing.Text) bool { return x.Anchor == drawing.End }, func(x drawing.Text) float64 { return x.At.Y + 0.35*ts })
	water := ticksOf(t, s, func(x drawing.Text) bool { return x.Anchor == drawing.Start }, func(x drawing.Text) float64 { return x.At.Y + 0.35*ts })
	at := func(c Curve, v []float64, t float64) float64 {
		for i := 1; i < len(c.Times); i++ {
			if c.Times[i] >= t {
				f := (t - c.Times[i-1]) / (c.Times[i] - c.Times[i-1])
				return v[i-1] + f*(v[i]-v[i-1])
			}
		}
		return v[len(v)-1]
	}
	all := readSVG(t, s)
	check := func(layer string, c Curve, bounds [][]float64, y func(float64) float64, scale func(float64) float64, tol float64) {
		t.Helper()
		lines := pick(all, "curves", layer)
		if len(lines) != len(bounds) {
			t.Fatalf("%d lines on %s; want %d", len(lines), layer, len(bounds))
		}
		for i, l := range lines {
			if len(l.points) < 20 {
				t.Errorf("%s: %d points", layer, len(l.points))
			}
			for _, p := range l.points {
				tt := math.Max(c.Times[0], math.Min(c.Times[len(c.Times)-1], minutes(p.X)*60))
				if got, want := y(p.Y), scale(at(c, bounds[i], tt)); math.Abs(got-want) > tol {
					t.Errorf("%s at %.1f min: %.3f; want %.3f", layer, tt/60, got, want)
				}
			}
		}
	}
	f, w := b.Firepower, b.Water
	celsius := func(k float64) float64 { return k - 273.15 }
	check(onPredicted, f, [][]float64{f.Mid}, power, kilo, 0.01)
	check(onBand, f, [][]float64{f.Low, f.High}, power, kilo, 0.01)
	check(onWater, w, [][]float64{w.Mid}, water, celsius, 0.3)
	check(onWaterBand, w, [][]float64{w.Low, w.High}, water, celsius, 0.3)

	// The moments' lines through the field and the bars under it.
	var lines, bars []float64
	for _, o := range pick(all, "moment lines", onHidden) {
		lines = append(lines, minutes(o.points[0].X)*60)
	}
	for _, o := range pick(all, "moments", onPredicted) {
		if len(o.points) == 2 && o.points[0].Y == o.points[1].Y {
			bars = append(bars, minutes(o.points[0].X)*60, minutes(o.points[1].X)*60)
		}
	}
	want := []float64{175, 300, 639, 1450, 2820}
	for i, v := range want {
		if i >= len(lines) || math.Abs(lines[i]-v) > 1 {
			t.Fatalf("moment lines at %v s; want %v", lines, want)
		}
	}
	want = []float64{130, 260, 571, 730, 1180, 1600, 2380, 3300}
	for i, v := range want {
		if i >= len(bars) || math.Abs(bars[i]-v) > 1 {
			t.Fatalf("bars at %v s; want %v", bars, want)
		}
	}
}

func TestBurnChartSaysWhatItShows(t *testing.T) {
	for name, c := range map[string]struct {
		burn  Burn
		words []string
	}{
		"predicted": {sampleBurn(), []string{"firepower, kW", "water, °C", "minutes after lighting", "8 of 10 burns", "lighting", "steady gas flame", "char",
			"boil 10:39", "boil  10:39 (9:31–12:10), 5:39 after pot on", "pot on 5:00", "never in 12 % of burns", "Outdoors only.", "learned from 13 burns"}},
		"measured": {measuredBurn(), []string{"measured", "measured 11:28", "flame-out 22:58"}},
		"short":    {shortBurn(), []string{"boil  never reached", "jets lit  2:00 (1:20 to never), never in 22 % of burns"}},
	} {
		s := BurnChart(c.burn, ChartOptions{})
		tidy(t, s)
		for _, w := range c.words {
			if !has(s, w) {
				t.Errorf("%s: does not say %q", name, w)
			}
		}
	}
	if s := BurnChart(shortBurn(), ChartOptions{}); has(s, "water") {
		t.Error("names water though nothing is heated")
	}
	f := ChartOptions{Temperature: func(k float64) float64 { return k*1.8 - 459.67 }, TemperatureUnit: "°F"}
	if s := BurnChart(sampleBurn(), f); !has(s, "water, °F") || !has(s, "200") {
		t.Error("no axis in °F")
	}
}

func drawCurve(t *rapid.T, name string, lo, hi float64) Curve {
	n := rapid.SampledFrom([]int{0, 1, 2, 3, 40}).Draw(t, name+" n")
	var c Curve
	at := 0.0
	band := rapid.Bool().Draw(t, name+" band")
	for range n {
		at += rapid.Float64Range(0, 200).Draw(t, "step")
		v := rapid.Float64Range(lo, hi).Draw(t, "value")
		if rapid.IntRange(0, 12).Draw(t, "odd") == 0 {
			v = rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -1e5, 1e13}).Draw(t, "odd value")
		}
		c.Times = append(c.Times, at)
		c.Mid = append(c.Mid, v)
		if band {
			c.Low, c.High = append(c.Low, v*0.9), append(c.High, v*1.1)
		}
	}
	return c
}

func TestAnyBurnIsTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		moment := func(name string) float64 {
			if rapid.IntRange(0, 5).Draw(t, name+" odd") == 0 {
				return rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -5, 1e9}).Draw(t, name)
			}
			return rapid.Float64Range(0, 4000).Draw(t, name)
		}
		b := Burn{
			Title:     rapid.SampledFrom([]string{"", "Burn 3", strings.Repeat("a long title ", 20)}).Draw(t, "title"),
			Note:      rapid.SampledFrom([]string{"", "from priors alone, because this stove has not been burned yet; one weighed burn narrows it"}).Draw(t, "note"),
			Firepower: drawCurve(t, "power", 0, 5000), Water: drawCurve(t, "water", 260, 375),
			MeasuredPower: drawCurve(t, "measured power", 0, 5000), MeasuredWater: drawCurve(t, "measured water", 260, 375),
		}
		at := 0.0
		for range rapid.IntRange(0, 7).Draw(t, "phases") {
			to := at + rapid.Float64Range(-20, 900).Draw(t, "phase")
			b.Phases = append(b.Phases, Phase{rapid.SampledFrom([]string{"lighting", "steady gas flame", "char", "a phase that has a long name"}).Draw(t, "phase name"), at, to})
			at = to
		}
		for range rapid.IntRange(0, 12).Draw(t, "moments") {
			m := Moment{Name: rapid.SampledFrom([]string{"boil", "flame-out", "pot on", "front at grate"}).Draw(t, "name"), Low: moment("low"), Mid: moment("mid"), High: moment("high"), Never: rapid.SampledFrom([]float64{0, 0.1, 1}).Draw(t, "never")}
			if rapid.Bool().Draw(t, "has measured") {
				m.Measured = moment("measured")
			}
			if rapid.Bool().Draw(t, "has note") {
				m.Note = "5:40 after pot on"
			}
			b.Moments = append(b.Moments, m)
		}
		o := ChartOptions{White: rapid.Bool().Draw(t, "white")}
		if rapid.Bool().Draw(t, "own size") {
			o.Width, o.Height, o.TextSize = rapid.Float64Range(1, 300).Draw(t, "w"), rapid.Float64Range(1, 200).Draw(t, "h"), rapid.Float64Range(0.1, 6).Draw(t, "ts")
		}
		tidy(t, BurnChart(b, o))
	})
}

func drawStreams(t *rapid.T, name string) (out []Stream) {
	for range rapid.IntRange(0, 9).Draw(t, name) {
		s := Stream{Name: rapid.SampledFrom([]string{"water and steam", "ground", "a stream of heat with a long name"}).Draw(t, "stream"), Energy: rapid.Float64Range(0, 2e6).Draw(t, "energy"), Kind: Kind(rapid.IntRange(0, 6).Draw(t, "kind"))}
		switch rapid.IntRange(0, 9).Draw(t, "odd") {
		case 0:
			s.Energy = rapid.SampledFrom([]float64{0, -1e5, math.NaN(), math.Inf(1), 1e-9}).Draw(t, "odd energy")
		case 1, 2, 3:
			s.Low, s.High = 0.8*s.Energy, 1.2*s.Energy
		}
		out = append(out, s)
	}
	return out
}

func TestAnyHeatIsTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Heat{Note: rapid.SampledFrom([]string{"", "a note that is somewhat long " + strings.Repeat("x ", 60)}).Draw(t, "note"), In: drawStreams(t, "in"), Out: drawStreams(t, "out")}
		var o ChartOptions
		if rapid.Bool().Draw(t, "own size") {
			o.Width, o.Height, o.TextSize = rapid.Float64Range(1, 300).Draw(t, "w"), rapid.Float64Range(1, 200).Draw(t, "h"), rapid.Float64Range(0.1, 6).Draw(t, "ts")
		}
		s := HeatFlow(h, o)
		tidy(t, s)
		sum, shown := 0, 0
		for _, x := range texts(s) {
			if v, ok := strings.CutSuffix(x.Content, " %"); ok && x.Bold {
				n, err := strconv.Atoi(v)
				if err != nil {
					t.Fatalf("share %q", x.Content)
				}
				sum += n
				shown++
			}
		}
		if shown > 0 && sum != 100 {
			t.Errorf("%d shares add to %d %%", shown, sum)
		}
	})
}

// The ledger put right has equal sides, positive streams, and gains or loses
// nothing.
func TestBalancedLedger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := Heat{In: drawStreams(t, "in"), Out: drawStreams(t, "out")}
		net := 0.0
		add := func(list []Stream, sign float64) {
			for _, s := range list {
				if isNumber(s.Energy) {
					net += sign * s.Energy
				}
			}
		}
		add(h.In, 1)
		add(h.Out, -1)
		b := h.Balanced()
		in, out, gap := 0.0, 0.0, 0.0
		for _, s := range b.In {
			in += s.Energy
			if s.Kind == Unknown && s.Name == "not accounted for" {
				gap -= s.Energy
			}
		}
		for _, s := range b.Out {
			out += s.Energy
			if s.Kind == Unknown && s.Name == "not accounted for" {
				gap += s.Energy
			}
		}
		most := math.Max(in, out)
		if math.Abs(in-out) > 6e-4*most {
			t.Errorf("sides %g and %g", in, out)
		}
		if math.Abs(gap-net) > 6e-4*most {
			t.Errorf("not accounted for %g; the ledger is out by %g", gap, net)
		}
		for _, s := range append(b.In, b.Out...) {
			if !(s.Energy > 0) {
				t.Errorf("stream of %g J", s.Energy)
			}
		}
	})
}

func TestPercents(t *testing.T) {
	got := Percents([]Stream{{Energy: 1}, {Energy: 1}, {Energy: 1}})
	if got[0] != 34 || got[1] != 33 || got[2] != 33 {
		t.Errorf("three equal streams: %v; want 34, 33, 33", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		var s []Stream
		total := 0.0
		for range rapid.IntRange(1, 20).Draw(t, "n") {
			e := rapid.Float64Range(1e-6, 1).Draw(t, "e")
			s = append(s, Stream{Energy: e})
			total += e
		}
		sum := 0
		for i, p := range Percents(s) {
			sum += p
			if math.Abs(float64(p)-100*s[i].Energy/total) >= 1 {
				t.Errorf("%g of %g is shown as %d %%", s[i].Energy, total, p)
			}
		}
		if sum != 100 {
			t.Errorf("sum %d", sum)
		}
	})
}

// A ribbon is as thick as its share of the bar.
func TestRibbonsAreTrueToTheirShares(t *testing.T) {
	h := sampleHeat()
	s := HeatFlow(h, ChartOptions{})
	all := readSVG(t, s)
	total := 0.0
	for _, v := range h.In {
		total += v.Energy
	}
	for _, v := range h.Out {
		list := pick(all, v.Name, onGrid)
		if len(list) != 1 {
			t.Fatalf("%d outlines of %s", len(list), v.Name)
		}
		p := list[0].points
		if got, want := p[0].Y-p[len(p)-1].Y, v.Energy/total*70; math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.2f mm thick at the bar; want %.2f", v.Name, got, want)
		}
	}
}

// Blocks pushed apart keep their order, do not overlap, stay in the room when
// they fit, and one alone stands at its wish.
func TestSettle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		wish, size := make([]float64, n), make([]float64, n)
		sum, at := 0.0, 0.0
		for i := range n {
			at += rapid.Float64Range(0, 20).Draw(t, "step")
			wish[i], size[i] = at, rapid.Float64Range(0.5, 15).Draw(t, "size")
			sum += size[i]
		}
		room := sum + rapid.Float64Range(0, 100).Draw(t, "spare")
		got := settle(wish, size, room)
		for i := range n {
			if got[i]-size[i]/2 < -1e-9 || got[i]+size[i]/2 > room+1e-9 {
				t.Errorf("block %d at %g of size %g leaves the room of %g", i, got[i], size[i], room)
			}
			if i > 0 && got[i]-size[i]/2 < got[i-1]+size[i-1]/2-1e-9 {
				t.Errorf("blocks %d and %d overlap", i-1, i)
			}
		}
		// No block can move to its wish without pushing another.
		for i := range n {
			lo, hi := 0.0, room
			if i > 0 {
				lo = got[i-1] + size[i-1]/2
			}
			if i < n-1 {
				hi = got[i+1] - size[i+1]/2
			}
			if want := math.Max(lo+size[i]/2, math.Min(hi-size[i]/2, wish[i])); math.Abs(want-got[i]) > 1e-6 && n == 1 {
				t.Errorf("a lone block at %g; want %g", got[i], want)
			}
		}
	})
	got := settle([]float64{10, 10}, []float64{4, 4}, 100)
	if got[0] != 8 || got[1] != 12 {
		t.Errorf("two blocks of 4 that both want 10 stand at %v; want 8 and 12", got)
	}
}

func TestRunsThrough(t *testing.T) {
	box := drawing.Box{Min: drawing.Point{X: 0, Y: 0}, Max: drawing.Point{X: 10, Y: 4}}
	for _, c := range []struct {
		a, b drawing.Point
		want bool
	}{
		{drawing.Point{X: -5, Y: 2}, drawing.Point{X: 15, Y: 2}, true},
		{drawing.Point{X: -5, Y: 5}, drawing.Point{X: 15, Y: 5}, false},
		{drawing.Point{X: -1, Y: 3}, drawing.Point{X: 3, Y: 7}, false},
		{drawing.Point{X: -1, Y: 1}, drawing.Point{X: 4, Y: 6}, true},
		{drawing.Point{X: 5, Y: -9}, drawing.Point{X: 5, Y: -1}, false},
		{drawing.Point{X: 5, Y: -9}, drawing.Point{X: 5, Y: 1}, true},
	} {
		if got := runsThrough(c.a, c.b, box); got != c.want {
			t.Errorf("%v to %v: %v", c.a, c.b, got)
		}
	}
}

func TestClockAndSteps(t *testing.T) {
	for s, want := range map[float64]string{0: "0:00", 59.6: "1:00", 639: "10:39", 4520: "75:20", -75: "−1:15"} {
		if got := clock(s); got != want {
			t.Errorf("%g s is %q; want %q", s, got, want)
		}
	}
	for _, c := range []struct{ span, step float64 }{{7, 1}, {55, 10}, {130, 30}, {0.8, 0.25}} {
		if got := minuteStep(c.span, 7); got != c.step {
			t.Errorf("%g min in steps of %g; want %g", c.span, got, c.step)
		}
	}
}
