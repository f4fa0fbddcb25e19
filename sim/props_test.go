package sim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"toplit/firing"
	"toplit/internal/designs"
)

// Property tests: what must hold for every valid design. `make test` draws 200
// designs, `make props` as many as TOPLIT_PROPS says. What they found when this
// was written stands in docs/model/properties.md.

// propsDesigns is how many designs are drawn.
func propsDesigns(t *testing.T) int {
	if s := os.Getenv("TOPLIT_PROPS"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 {
			t.Fatalf("TOPLIT_PROPS = %q, want a number of designs", s)
		}
		return n
	}
	if testing.Short() {
		return 40
	}
	return 200
}

const (
	propsDraws = 3   // parameter draws per design beside the median
	propsGrid  = 2.0 // spacing of the states looked at [s]

	// What is allowed: gaps of the ledger, a rounding's worth of mass below zero,
	// and the width over which heating turns into boiling.
	allowElement = 1e-5
	allowEnergy  = 1e-3
	allowPart    = 5e-3
	allowMass    = 1e-6
	allowBoil    = 0.02 // [K]
	allowCold    = 0.5  // below what everything starts at [K]
	allowChilled = 5.0  // the same with a pot, which its water cools as it evaporates [K]
)

// inParallel calls f for 0 to n-1 on all cores, each with a burner of its own.
func inParallel(n int, f func(b *burner, i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			b := new(burner)
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				f(b, i)
			}
		}()
	}
	wg.Wait()
}

// drawn are the parameters and gust phases of draw k of a design; draw 0 is
// the median.
func drawn(seed uint64, k int, phases *[4]float64) Params {
	*phases = [4]float64{}
	if k == 0 {
		return MedianParams()
	}
	r := rand.New(rand.NewPCG(seed, uint64(k)))
	u := make([]float64, nPriors)
	for i := range u {
		u[i] = r.Float64()
	}
	for i := range phases {
		phases[i] = 2 * math.Pi * r.Float64()
	}
	return draw(u)
}

// fault is one design that broke a property.
type fault struct {
	seed uint64
	draw int
	size float64 // how far over what is allowed, 1 = just
	text string
}

// tally gathers the faults of one property and how often it was looked at.
type tally struct {
	mu     sync.Mutex
	looked int
	worst  float64
	faults []fault
}

// note takes one look: size above 1 is a fault.
func (y *tally) note(seed uint64, draw int, size float64, format string, a ...any) {
	y.mu.Lock()
	defer y.mu.Unlock()
	y.looked++
	if size > y.worst || math.IsNaN(size) {
		y.worst = size
	}
	if !(size <= 1) {
		y.faults = append(y.faults, fault{seed, draw, size, fmt.Sprintf(format, a...)})
	}
}

// report fails the test for the designs that broke the property, the worst
// first, and returns a line for the table.
func (y *tally) report(t *testing.T) {
	sort.Slice(y.faults, func(i, j int) bool {
		a, b := y.faults[i], y.faults[j]
		if a.size != b.size {
			return a.size > b.size || math.IsNaN(a.size)
		}
		return a.seed < b.seed || a.seed == b.seed && a.draw < b.draw
	})
	bad := map[uint64]bool{}
	for _, f := range y.faults {
		bad[f.seed] = true
	}
	if len(y.faults) == 0 {
		if y.looked == 0 {
			t.Error("never looked at: the draws miss it")
		}
		return
	}
	var b strings.Builder
	for i, f := range y.faults {
		if i == 12 {
			fmt.Fprintf(&b, "\n  and %d more", len(y.faults)-i)
			break
		}
		fmt.Fprintf(&b, "\n  design %d draw %d, %.3g times what is allowed: %s\n      %s", f.seed, f.draw, f.size, f.text, designs.Describe(designs.For(t, f.seed)))
	}
	t.Errorf("%d of %d looks in %d designs%s", len(y.faults), y.looked, len(bad), b.String())
}

// survey is what is looked at in every run of every design.
type survey struct {
	accepted, solved, ledger, finite, mass, cold, boil, gasRaw, gasChar tally
	energyGap, elementGap, partGap                                      atomicMax
	steps, runs                                                         atomic.Int64
}

type atomicMax struct {
	mu sync.Mutex
	v  float64
}

func (m *atomicMax) up(v float64) {
	m.mu.Lock()
	m.v = max(m.v, math.Abs(v))
	m.mu.Unlock()
}

// look runs one design with every draw.
func (v *survey) look(b *burner, seed uint64, f *firing.Firing) {
	s, err := newSite(f, shippedNodes)
	if err != nil {
		v.accepted.note(seed, 0, 2, "%v", err)
		return
	}
	v.accepted.note(seed, 0, 0, "")
	for k := range propsDraws + 1 {
		var ph [4]float64
		p := drawn(seed, k, &ph)
		b.phases = ph
		if err := b.run(s, p, shippedWidths, shippedTol, propsGrid); err != nil {
			v.solved.note(seed, k, 2, "%v", err)
			continue
		}
		v.solved.note(seed, k, 0, "")
		v.steps.Add(int64(b.solver.Stats().Steps + b.solver.Stats().Rejected))
		v.runs.Add(1)
		v.balance(b, seed, k)
		v.states(b, seed, k)
	}
}

// balance looks at the closed ledger.
func (v *survey) balance(b *burner, seed uint64, k int) {
	l := b.ledger(b.track.y[0], b.solver.Y())
	size, name, gap := 0.0, "", 0.0
	for _, g := range ledgerGaps(&l) {
		if r := math.Abs(g.gap) / g.allow; !(r <= size) {
			size, name, gap = r, g.name, g.gap
		}
	}
	v.ledger.note(seed, k, size, "%s gap %.3g", name, gap)
	v.elementGap.up(max(math.Abs(l.CarbonGap), math.Abs(l.HydrogenGap), math.Abs(l.OxygenGap), math.Abs(l.NitrogenGap)))
	v.energyGap.up(l.EnergyGap)
	v.partGap.up(max(math.Abs(l.WallsGap), math.Abs(l.PotGap), math.Abs(l.GroundGap)))
}

type ledgerGap struct {
	name       string
	gap, allow float64
}

func ledgerGaps(l *Ledger) []ledgerGap {
	return []ledgerGap{
		{"carbon", l.CarbonGap, allowElement}, {"hydrogen", l.HydrogenGap, allowElement},
		{"oxygen", l.OxygenGap, allowElement}, {"nitrogen", l.NitrogenGap, allowElement},
		{"energy", l.EnergyGap, allowEnergy},
		{"walls", l.WallsGap, allowPart}, {"pot", l.PotGap, allowPart}, {"ground", l.GroundGap, allowPart},
	}
}

// states looks at every stored state of the run just ended.
func (v *survey) states(b *burner, seed uint64, k int) {
	nan, low, lowAt, lowOf := "", 0.0, 0.0, ""
	cold, coldAt, coldOf := math.Inf(1), 0.0, 0
	hot, hotAt := math.Inf(-1), 0.0
	charge := b.dry0 + b.water0
	parts := [][2]int{{iTBed, iTAir + 1}, {b.wall, b.top + 1}, {b.ground, b.ground + b.grounds}}
	least := b.T0
	if b.cond.Warm > 0 {
		least = min(least, b.cond.Warm)
	}
	if b.cond.Pot != nil {
		least = min(least, b.track.y[0][b.pot])
	}
	masses := []struct {
		name string
		i    int
	}{{"raw", iRaw}, {"char", iChar}, {"volatiles", iVolatile}, {"starter", iStart}, {"water", b.mass}}
	for j, t := range b.track.t {
		y := b.track.y[j]
		for i, x := range y {
			if x-x != 0 && nan == "" {
				nan = fmt.Sprintf("component %d is %g at %.0f s", i, x, t)
			}
		}
		for _, p := range parts {
			for i := p[0]; i < p[1]; i++ {
				if y[i] < cold {
					cold, coldAt, coldOf = y[i], t, i
				}
			}
		}
		for _, m := range masses {
			if r := -y[m.i] / charge; r > low {
				low, lowAt, lowOf = r, t, m.name
			}
		}
		if b.cond.Pot != nil && y[b.mass] > dryPot && y[b.water] > hot {
			hot, hotAt = y[b.water], t
		}
	}
	if nan != "" {
		v.finite.note(seed, k, 2, "%s", nan)
	} else {
		v.finite.note(seed, k, 0, "")
	}
	allow := allowCold
	if b.cond.Pot != nil && b.cond.Water.Mass > 0 {
		allow = allowChilled
	}
	v.cold.note(seed, k, (least-cold)/allow, "component %d at %.2f K at %.0f s, nothing starts below %.2f", coldOf, cold, coldAt, least)
	v.mass.note(seed, k, low/allowMass, "%s at %.3g of the charge at %.0f s", lowOf, -low, lowAt)
	if b.cond.Pot != nil {
		v.boil.note(seed, k, max(hot, 0)/allowBoil, "%.4f K above saturation at %.0f s", hot, hotAt)
	}
	v.gas(b, seed, k)
}

// gas looks at the heating value of the gas leaving the bed per oxygen it
// needs, while the front is above the grate and once the raw fuel is gone.
func (v *survey) gas(b *burner, seed uint64, k int) {
	every := max(1, int(10/b.track.grid))
	peak := 0.0
	eval := func(j int) {
		b.with(b.track.on[j])
		b.stageOne(b.track.t[j], b.track.y[j])
	}
	for j := 0; j < len(b.track.t); j += every {
		eval(j)
		peak = max(peak, b.rate)
	}
	type extreme struct{ v, t float64 }
	far := func(e *extreme, x, lo, hi, t float64) {
		r := (x - 0.5*(lo+hi)) / (0.5 * (hi - lo)) // −1 to 1 inside
		if math.Abs(r) > math.Abs(e.v) {
			*e = extreme{r, t}
		}
	}
	var raw, char extreme
	rawSeen, charSeen := false, false
	for j := 0; j < len(b.track.t); j += every {
		eval(j)
		y, t := b.track.y[j], b.track.t[j]
		need := (b.bedGas.OxygenDemand() + b.tarFlow*b.tar.oxygen) * molarO2 // [kg/s]
		if need < 1e-6 {
			continue
		}
		e := (b.bedGas.LHV() + b.tarFlow*b.tar.lhv) / need / 1e6
		switch {
		case y[iRaw] > frontEnd*b.dry0 && b.rate > 0.01*peak:
			far(&raw, e, 12.5, 17.0, t)
			rawSeen = true
		case y[iRaw] < 1e-4*b.dry0 && b.rate < 1e-4*peak:
			far(&char, e, 15.1, 17.8, t)
			charSeen = true
		}
	}
	if rawSeen {
		v.gasRaw.note(seed, k, math.Abs(raw.v), "%.2f MJ/kg O2 at %.0f s, front above the grate, want 12.5 to 17.0", 14.75+raw.v*2.25, raw.t)
	}
	if charSeen {
		v.gasChar.note(seed, k, math.Abs(char.v), "%.2f MJ/kg O2 at %.0f s, raw fuel gone, want 15.1 to 17.8", 16.45+char.v*1.35, char.t)
	}
}

const molarO2 = 31.998e-3 // [kg/mol]

func TestProps(t *testing.T) {
	n := propsDesigns(t)
	fs := make([]*firing.Firing, n)
	for i := range fs {
		fs[i] = designs.For(t, uint64(i+1))
	}
	var v survey
	inParallel(n, func(b *burner, i int) { v.look(b, uint64(i+1), fs[i]) })
	for _, p := range []struct {
		name string
		y    *tally
	}{
		{"accepted", &v.accepted}, {"solved", &v.solved}, {"ledger", &v.ledger}, {"finite", &v.finite}, {"no_negative_mass", &v.mass}, {"not_colder_than_all", &v.cold},
		{"not_above_saturation", &v.boil}, {"gas_while_raw", &v.gasRaw}, {"gas_of_char", &v.gasChar},
	} {
		t.Run(p.name, func(t *testing.T) { p.y.report(t) })
	}
	t.Logf("%d designs, %d runs, %d steps each on average; largest gaps: element %.2g, energy %.2g, part %.2g", n, v.runs.Load(), v.steps.Load()/max(v.runs.Load(), 1), v.elementGap.v, v.energyGap.v, v.partGap.v)
}

func TestPropsConverged(t *testing.T) {
	testConverged(t, propsDesigns(t))
}

func TestPropsSigns(t *testing.T) {
	testSigns(t, propsDesigns(t))
}
