package sim

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"

	"toplit/firing"
	"toplit/numeric"
	"toplit/physics/gas"
	"toplit/stove"
)

// The ledger can fail: every flow of heat and of atoms is left out, doubled or
// turned round, on one of its two sides, and the ledger has to notice by the
// same thresholds that hold for a sound burn. What it cannot notice is a flow
// that moves too little in any of the stoves here; those are listed with what
// they move.

// mutantStoves are firings that between them use every flow.
func mutantStoves() map[string]*firing.Firing {
	tea := demo()
	single := demo()
	single.Design.OuterCan, single.Design.Ring = nil, nil
	single.Design.Standoff = 0.02
	single.Design.Rows = single.Design.Rows[:2]
	single.Design.Stand = &stove.Stand{Diameter: 0.105, Height: 0.04, Gap: 0.005}
	single.Conditions.Pot.Lid = false
	single.Conditions.Schedule = []firing.Action{{Do: firing.PotOn, At: 60}, {Do: firing.PotOff, At: 700}}
	bare := demo()
	bare.Design.OuterCan.OpenBase = false
	bare.Design.Lift = 0.005
	bare.Conditions.Pot = nil
	bare.Conditions.Schedule = nil
	wood := demo()
	wood.Conditions.Fuel.Species = "hardwood chips"
	wood.Conditions.Charge = firing.Charge{Depth: 0.09}
	wood.Conditions.Starter = firing.Starter{Kind: "kindling", Mass: 0.03}
	wood.Design.Rows[0].Count = 30
	wood.Design.Plate = &stove.Plate{Material: "steel plate", Thickness: 1e-3, Gap: 0.002, Diameter: 0.2}
	wood.Conditions.Water.Mass = 0.05
	wood.Conditions.Schedule = []firing.Action{{Do: firing.PotOn}}
	return map[string]*firing.Firing{"tea": tea, "single wall": single, "no pot": bare, "chips": wood}
}

var mutantOrder = []string{"tea", "single wall", "no pot", "chips"}

// noticed is by how much the worst gap of a ledger exceeds what is allowed,
// and its name.
func noticed(l *Ledger) (size float64, name string) {
	for _, g := range ledgerGaps(l) {
		if r := math.Abs(g.gap) / g.allow; r > size || math.IsNaN(r) {
			size, name = r, g.name
		}
	}
	return size, name
}

// mutant is one flow spoiled on one side.
type mutant struct {
	flow   int
	side   string // "taken" or "given"
	factor float64
}

func (u mutant) spoil(s *shares) {
	if u.side == "taken" {
		s.take[u.flow] = u.factor
	} else {
		s.give[u.flow] = u.factor
	}
}

func (u mutant) String() string {
	how := map[float64]string{0: "left out", 2: "doubled", -1: "turned round"}[u.factor]
	return fmt.Sprintf("%s, %s side %s", flowNames[u.flow], u.side, how)
}

// moved is the heat a flow moves in the burn just run, on the side given, and
// whether that side is there at all: the time integral of the difference that
// doubling it makes to the sums [J].
func moved(b *burner, flow int, side string) (joule float64, there bool) {
	sums := func(y []float64) float64 {
		b.stageTwo(y)
		total := 0.0
		for _, e := range b.dE[:b.active] {
			total += e
		}
		return total
	}
	whole, twice := wholeShares(), wholeShares()
	mutant{flow, side, 2}.spoil(twice)
	defer func() { b.part = whole }()
	for j, t := range b.track.t {
		y := b.track.y[j]
		b.with(b.track.on[j])
		b.stageOne(t, y)
		b.part = whole
		a := sums(y)
		b.part = twice
		joule += math.Abs(sums(y)-a) * b.track.grid
	}
	nan := wholeShares()
	mutant{flow, side, math.NaN()}.spoil(nan)
	b.part = nan
	y := b.track.y[len(b.track.y)/2]
	b.stageOne(b.track.t[len(b.track.y)/2], y)
	return joule, math.IsNaN(sums(y))
}

func TestLedgerNoticesHeat(t *testing.T) {
	stoves := mutantStoves()
	type amount struct{ joule, share float64 } // moved, and over what the burn released
	most := map[[2]int]amount{}                // by flow and side
	sites := map[string]*site{}
	b := new(burner)
	sides := []string{"taken", "given"}
	used := map[[2]int][]string{}
	for _, name := range mutantOrder {
		s, err := newSite(stoves[name], shippedNodes)
		if err != nil {
			t.Fatal(err)
		}
		sites[name] = s
		b.phases = [4]float64{}
		if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 10); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		l := b.ledger(b.track.y[0], b.solver.Y())
		if size, gap := noticed(&l); size > 1 {
			t.Errorf("%s: sound burn, %s gap %.3g times what is allowed", name, gap, size)
		}
		for f := range nFlows {
			for k, side := range sides {
				j, there := moved(b, f, side)
				if !there {
					continue
				}
				key := [2]int{f, k}
				used[key] = append(used[key], name)
				if share := j / math.Max(l.Fuel-l.RawLeft-l.CharLeft, 1); share > most[key].share {
					most[key] = amount{j, share}
				}
			}
		}
	}
	type result struct {
		mutant
		caught, by string
		size       float64
	}
	var all []result
	for f := range nFlows {
		there := false
		for k, side := range sides {
			if used[[2]int{f, k}] == nil {
				continue
			}
			there = true
			for _, factor := range []float64{0, 2, -1} {
				all = append(all, result{mutant: mutant{f, side, factor}})
			}
		}
		if !there {
			t.Errorf("flow %q is used in none of the stoves here", flowNames[f])
		}
	}
	var mu sync.Mutex
	inParallel(len(all), func(b *burner, i int) {
		r := all[i]
		key := [2]int{r.flow, slices.Index(sides, r.side)}
		for _, name := range used[key] {
			b.part = wholeShares()
			r.spoil(b.part)
			b.phases = [4]float64{}
			if err := b.run(sites[name], MedianParams(), shippedWidths, shippedTol, 0); err != nil {
				if r.caught == "" {
					r.caught, r.by, r.size = name, "burn cannot be computed", math.Inf(1)
				}
				continue
			}
			y0 := make([]float64, b.dim)
			b.model.start(y0)
			l := b.ledger(y0, b.solver.Y())
			if size, gap := noticed(&l); size > 1 && !(r.size >= size && !math.IsInf(r.size, 1)) {
				r.caught, r.by, r.size = name, gap+" gap", size
			} else if r.caught == "" {
				r.size = max(r.size, size)
			}
		}
		mu.Lock()
		all[i] = r
		mu.Unlock()
	})
	caught, flows := 0, map[int]bool{}
	var table strings.Builder
	for _, r := range all {
		key := [2]int{r.flow, slices.Index(sides, r.side)}
		m := most[key]
		if r.caught != "" {
			caught++
			flows[r.flow] = true
			fmt.Fprintf(&table, "\n  %-64s %-24s %8.3g times, %s", r.mutant, r.by, r.size, r.caught)
			continue
		}
		fmt.Fprintf(&table, "\n  %-64s not noticed: moves at most %.3g J, %.2g %% of the heat", r.mutant, m.joule, 100*m.share)
		// Turned round or doubled, the error is the flow itself or twice that: a
		// flow of three thousandths of the heat is over every threshold.
		if m.share > 3e-3 {
			t.Errorf("%s is not noticed (%.3g of what is allowed), though the flow moves %.2g %% of the heat", r.mutant, r.size, 100*m.share)
		}
	}
	t.Logf("%d of %d mutants of %d flows noticed, in %d flows%s", caught, len(all), nFlows, len(flows), table.String())
	if caught < 25 || len(flows) < 25 {
		t.Errorf("only %d mutants in %d flows noticed, want 25 in 25", caught, len(flows))
	}
}

// atomMutant spoils a flow of matter between the computation of the gas and
// its entry in the balances.
type atomMutant struct {
	name  string
	spoil func(m *model, k float64)
}

func atomMutants() []atomMutant {
	flue := func(s gas.Species) func(m *model, k float64) {
		return func(m *model, k float64) { m.flue[s] *= k }
	}
	return []atomMutant{
		{"CO in the flue gas", flue(gas.CO)},
		{"CO2 in the flue gas", flue(gas.CO2)},
		{"H2 in the flue gas", flue(gas.H2)},
		{"H2O in the flue gas", flue(gas.H2O)},
		{"CH4 in the flue gas", flue(gas.CH4)},
		{"O2 in the flue gas", flue(gas.O2)},
		{"N2 in the flue gas", flue(gas.N2)},
		{"tar in the flue gas", func(m *model, k float64) { m.flueTar *= k }},
		{"fuel turned", func(m *model, k float64) { m.rate *= k }},
		{"char made", func(m *model, k float64) { m.charMade *= k }},
		{"char eaten", func(m *model, k float64) { m.charEat *= k }},
		{"volatiles of the char made", func(m *model, k float64) { m.volMade *= k }},
		{"volatiles driven out", func(m *model, k float64) { m.volOut *= k }},
		{"starter burned", func(m *model, k float64) { m.startRate *= k }},
		{"air by rows and leaks", func(m *model, k float64) { m.airIn *= k }},
		{"air through the bed", func(m *model, k float64) { m.mPrim *= k }},
	}
}

// spoiled is the right-hand side with a flow of matter spoiled. It has no
// Jacobian of its own: that one knows only the sound model.
type spoiled struct {
	m *model
	f func(m *model)
}

func (s spoiled) Dim() int { return s.m.dim }

func (s spoiled) Rate(t float64, y, dy []float64) {
	if !s.m.sane(y) {
		for i := range dy {
			dy[i] = math.NaN()
		}
		return
	}
	s.m.stageOne(t, y)
	s.f(s.m)
	s.m.stageTwo(y)
	s.m.assemble(y, dy)
}

func TestLedgerNoticesAtoms(t *testing.T) {
	s, err := newSite(demo(), shippedNodes)
	if err != nil {
		t.Fatal(err)
	}
	const end = 1500.0
	until := func(b *burner, f func(m *model)) (Ledger, error) {
		if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 0); err != nil { // sets scales
			return Ledger{}, err
		}
		if err := b.model.reset(s, MedianParams(), shippedWidths); err != nil {
			return Ledger{}, err
		}
		b.model.start(b.y)
		opt := numeric.Options{RTol: shippedTol.rtol, ATols: b.atol, MaxStep: 60, Quadratures: nQuads, FirstStep: 0.01, Autonomous: true, MaxSteps: 5000}
		if err := b.solver.Reset(spoiled{&b.model, f}, 0, b.y, opt); err != nil {
			return Ledger{}, err
		}
		for b.solver.T() < end {
			if _, err := b.solver.Step(end); err != nil {
				if b.solver.T() < 200 {
					return Ledger{}, err
				}
				break // long enough to tell
			}
		}
		return b.ledger(b.y, b.solver.Y()), nil
	}
	sound, err := until(new(burner), func(*model) {})
	if err != nil {
		t.Fatal(err)
	}
	if size, gap := noticed(&sound); size > 1 {
		t.Fatalf("sound burn: %s gap %.3g times what is allowed", gap, size)
	}
	type result struct {
		by   string
		size float64
		err  error
	}
	list := atomMutants()
	factors := []float64{0, 2, -1}
	out := make([]result, len(list)*len(factors))
	inParallel(len(out), func(b *burner, i int) {
		u, k := list[i/len(factors)], factors[i%len(factors)]
		l, err := until(b, func(m *model) { u.spoil(m, k) })
		r := &out[i]
		r.err = err
		if err == nil {
			for _, g := range ledgerGaps(&l)[:4] { // the elements
				if v := math.Abs(g.gap) / g.allow; v > r.size {
					r.size, r.by = v, g.name
				}
			}
		}
	})
	var table strings.Builder
	for i, r := range out {
		name := fmt.Sprintf("%s, %s", list[i/len(factors)].name, map[float64]string{0: "left out", 2: "doubled", -1: "turned round"}[factors[i%len(factors)]])
		switch {
		case r.err != nil:
			fmt.Fprintf(&table, "\n  %-40s burn cannot be computed: %v", name, r.err)
		case r.size > 1:
			fmt.Fprintf(&table, "\n  %-40s %s gap %.3g times what is allowed", name, r.by, r.size)
		default:
			t.Errorf("%s is not noticed: largest element gap %.3g of what is allowed", name, r.size)
		}
	}
	t.Logf("%d mutants of matter%s", len(out), table.String())
}
