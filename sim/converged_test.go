package sim

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"sync"
	"testing"

	"toplit/firing"
	"toplit/internal/designs"
)

// Convergence: at the shipped tolerances every moment within 0.2 % (or 1 s)
// and every figure within 0.3 % of a reference run that is tight in all
// respects at once. Where a design does not agree, each respect is tightened
// alone to see which one moves it.

// setting is one way of computing a burn.
type setting struct {
	name  string
	w     widths
	tol   tolerances
	nodes nodes
}

var shippedSetting = setting{"as shipped", shippedWidths, shippedTol, shippedNodes}

func referenceSetting() setting {
	return setting{"reference", shippedWidths.quarter(), tolerances{rtol: 1e-9, max: shippedTol.max}, nodes{4 * shippedNodes.walls, 4 * shippedNodes.outers, 4 * shippedNodes.grounds}}
}

// oneTighter are the shipped setting with one respect as in the reference.
func oneTighter() []setting {
	ref := referenceSetting()
	at := func(name string, change func(s *setting)) setting {
		s := shippedSetting
		s.name = name
		change(&s)
		return s
	}
	return []setting{
		at("tolerance", func(s *setting) { s.tol = ref.tol }),
		at("wall nodes", func(s *setting) { s.nodes.walls = ref.nodes.walls }),
		at("outer nodes", func(s *setting) { s.nodes.outers = ref.nodes.outers }),
		at("ground nodes", func(s *setting) { s.nodes.grounds = ref.nodes.grounds }),
		at("width flame", func(s *setting) { s.w.flame = ref.w.flame }),
		at("width height", func(s *setting) { s.w.height = ref.w.height }),
		at("width boil", func(s *setting) { s.w.boil = ref.w.boil }),
		at("width oxygen", func(s *setting) { s.w.oxygen = ref.w.oxygen }),
		at("width front", func(s *setting) { s.w.front = ref.w.front }),
		at("width starter", func(s *setting) { s.w.starter = ref.w.starter }),
		at("width glow", func(s *setting) { s.w.glow = ref.w.glow }),
		at("width reversal", func(s *setting) { s.w.reversal = ref.w.reversal }),
	}
}

// figuresOf runs a firing with median parameters.
func figuresOf(b *burner, f *firing.Firing, c setting) (figures, error) {
	s, err := newSite(f, c.nodes)
	if err != nil {
		return figures{}, err
	}
	b.phases = [4]float64{}
	if err := b.run(s, MedianParams(), c.w, c.tol, 20); err != nil {
		return figures{}, err
	}
	return b.figures(), nil
}

// apart is how far two runs are from each other, in units of what is allowed:
// 1 is just inside. It names the figure that is furthest off.
func apart(a, ref *figures) (size float64, worst Figure) {
	for i := range a {
		d := apartIn(Figure(i), a[i], ref[i])
		if !(d <= size) {
			size, worst = d, Figure(i)
		}
	}
	return size, worst
}

// smallest is the size of a figure below which its share no longer counts: no one
// reads the third digit of a ratio of two airs when there is no second air.
func smallest(f Figure) float64 {
	switch figureInfo[f].Unit {
	case "1":
		return 0.1
	case "W":
		return 10
	case "Pa":
		return 0.05
	}
	return 0
}

// mostBurnOut is where CO burn-out is as good as endless: 3 is wanted, and the
// law runs away exponentially in a cool flame.
const mostBurnOut = 100

func apartIn(f Figure, a, ref float64) float64 {
	if math.IsNaN(a) || math.IsNaN(ref) {
		if math.IsNaN(a) && math.IsNaN(ref) {
			return 0
		}
		return math.Inf(1)
	}
	if f == FBurnOut {
		a, ref = min(a, mostBurnOut), min(ref, mostBurnOut)
	}
	d := math.Abs(a - ref)
	if d == 0 {
		return 0
	}
	switch info := figureInfo[f]; {
	case info.Moment:
		return d / max(1, 2e-3*math.Abs(ref))
	case info.Unit == "s": // differences of moments
		return d / max(1, 3e-3*math.Abs(ref))
	default:
		return d / (3e-3 * max(math.Abs(ref), smallest(f)))
	}
}

// agreement is one design beside its reference.
type agreement struct {
	seed  uint64
	size  float64
	worst Figure
	a, r  float64
	cause string
	alone []float64
	err   error
}

func testConverged(t *testing.T, n int) {
	out := make([]agreement, n)
	var mu sync.Mutex
	byFigure := map[Figure]float64{}
	inParallel(n, func(b *burner, i int) {
		seed := uint64(i + 1)
		f, err := designs.Random(seed)
		if err != nil {
			out[i].err = err
			return
		}
		g := agreement{seed: seed}
		a, err := figuresOf(b, f, shippedSetting)
		if err == nil {
			var r figures
			if r, err = figuresOf(b, f, referenceSetting()); err == nil {
				g.size, g.worst = apart(&a, &r)
				g.a, g.r = a[g.worst], r[g.worst]
				if g.size > 1 {
					g.cause, g.alone = causesOf(b, f, g.worst, &a, &r)
				}
				mu.Lock()
				for k := range a {
					if d := apartIn(Figure(k), a[k], r[k]); !math.IsInf(d, 1) {
						byFigure[Figure(k)] = max(byFigure[Figure(k)], d)
					}
				}
				mu.Unlock()
			}
		}
		g.err = err
		out[i] = g
	})
	bad := 0
	sort.Slice(out, func(i, j int) bool { return out[i].size > out[j].size })
	var text strings.Builder
	for _, g := range out {
		if g.err != nil {
			t.Errorf("design %d: %v", g.seed, g.err)
			continue
		}
		if g.size > 1 {
			bad++
			if bad <= 20 {
				fmt.Fprintf(&text, "\n  design %d: %s %.6g, reference %.6g, %.3g times what is allowed; %s", g.seed, g.worst, g.a, g.r, g.size, g.cause)
			}
		}
	}
	t.Logf("%d of %d designs within 0.2 %% (or 1 s) of every moment and 0.3 %% of every figure of the reference", n-bad, n)
	var figs []Figure
	for f := range byFigure {
		figs = append(figs, f)
	}
	sort.Slice(figs, func(i, j int) bool { return byFigure[figs[i]] > byFigure[figs[j]] })
	for _, f := range figs[:min(8, len(figs))] {
		t.Logf("  %-26s at most %.2f of what is allowed", f, byFigure[f])
	}
	for i, c := range oneTighter() {
		moved, worst := 0, 0.0
		for _, g := range out {
			if g.alone != nil && g.alone[i] > 1 {
				moved++
			}
			if g.alone != nil && !math.IsInf(g.alone[i], 1) {
				worst = max(worst, g.alone[i])
			}
		}
		t.Logf("  %-16s tightened alone moves %3d designs by more than is allowed, at most %.3g times", c.name, moved, worst)
	}
	t.Logf("%d of %d designs are not converged%s", bad, n, text.String())
	if 100*bad > mayMiss*n {
		t.Errorf("%d of %d designs are not converged, more than %d in 100", bad, n, mayMiss)
	}
}

// mayMiss is how many designs in a hundred may miss the limits above. All should
// hold them; docs/model/properties.md says which terms keep the rest from it.
const mayMiss = 40

// causesOf tightens one respect after the other, says what each moves of the
// way to the reference, and how far each alone moves any figure.
func causesOf(b *burner, f *firing.Firing, k Figure, a, r *figures) (text string, alone []float64) {
	type moved struct {
		name  string
		share float64
		never bool
	}
	var list []moved
	for _, c := range oneTighter() {
		g, err := figuresOf(b, f, c)
		if err != nil {
			list = append(list, moved{c.name + " (fails)", 0, false})
			alone = append(alone, math.Inf(1))
			continue
		}
		size, _ := apart(a, &g)
		alone = append(alone, size)
		switch {
		case math.IsNaN(a[k]) || math.IsNaN(r[k]):
			if math.IsNaN(g[k]) != math.IsNaN(a[k]) {
				list = append(list, moved{c.name, 1, true})
			}
		case math.IsNaN(g[k]):
			list = append(list, moved{c.name, 1, true})
		default:
			list = append(list, moved{c.name, (g[k] - a[k]) / (r[k] - a[k]), false})
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return math.Abs(list[i].share) > math.Abs(list[j].share) })
	var s []string
	for _, m := range list[:min(3, len(list))] {
		if m.never {
			s = append(s, m.name+" decides whether it comes")
		} else if math.Abs(m.share) > 0.1 {
			s = append(s, fmt.Sprintf("%s %.0f %%", m.name, 100*m.share))
		}
	}
	if s == nil {
		return "no one respect alone", alone
	}
	return strings.Join(s, ", "), alone
}
