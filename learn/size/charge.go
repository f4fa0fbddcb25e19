package size

import (
	"errors"
	"math"

	"toplit/firing"
	"toplit/sim"
)

// chance is with what probability the chosen charge has to boil the water.
const chance = 0.9

// Boil is what is said of the charge and the water.
type Boil struct {
	Chance   float64 // that the firing's charge boils the water
	Enough   float64 // smallest charge that boils it with nine of ten samples, 0 when none that fits does [kg]
	Best     float64 // the highest chance found with any charge
	At       float64 // and the charge it was found with [kg]
	Sentence string
}

// tried is one charge over the band.
type tried struct {
	mass  float64
	boils float64 // share of samples
	flame float64 // median flame of wood gas, 0 where it never lit [s]
}

// charger looks for the charge of a design.
type charger struct {
	*searcher
	opt     Options
	f       *firing.Firing // its charge is changed
	masses  []float64      // that fit below its jets, rising
	from    int            // where to begin
	samples int
	seen    map[int]tried
}

func (q *searcher) newCharger(o *outcome, opt Options) *charger {
	h := &charger{searcher: q, opt: opt, f: o.f, samples: q.effort.medium, seen: map[int]tried{}}
	jet := q.jetHeight(o.c) - q.jetDrills[o.c.jd].Diameter/2
	for _, m := range q.charges {
		if m <= q.room(jet)+1e-9 {
			h.masses = append(h.masses, m)
		}
	}
	if len(h.masses) > 0 {
		h.from = nearest(h.masses, o.f.Load().Mass)
	}
	return h
}

// loaded is a firing with another charge.
func loaded(f *firing.Firing, mass float64) *firing.Firing {
	g := *f
	g.Conditions.Charge = firing.Charge{Mass: mass}
	return &g
}

func (h *charger) at(i int) (tried, error) {
	if t, ok := h.seen[i]; ok {
		return t, nil
	}
	p, err := h.predict(loaded(h.f, h.masses[i]), h.samples, h.opt)
	if err != nil {
		return tried{}, err
	}
	t := tried{mass: h.masses[i], boils: h.shares(p).Boils, flame: came(flames(p), 0.5)}
	h.seen[i] = t
	return t, nil
}

// enough says whether a charge does what is asked of it. Nine in ten of few
// samples is rounded: the last half sample does not decide.
func (h *charger) enough(t tried) bool {
	if h.boils() && t.boils < chance-0.5/float64(h.samples) {
		return false
	}
	return !(h.wish.FlameFor > 0) || t.flame >= h.wish.FlameFor
}

// smallest is the first of n that is enough, by strides and then by halves from
// where the search stood: a larger charge boils more surely until the bed grows
// so deep that it chokes itself. False when none is.
func smallest(n, from int, enough func(i int) (bool, error)) (int, bool, error) {
	i := min(max(from, 0), n-1)
	low, high := -1, -1 // largest known not enough below high, smallest known enough
	ok, err := enough(i)
	if err != nil {
		return i, false, err
	}
	if ok {
		high = i
		for stride := 2; high > 0; stride *= 2 {
			k := max(0, high-stride)
			if ok, err = enough(k); err != nil {
				return i, false, err
			}
			if !ok {
				low = k
				break
			}
			high = k
		}
	} else {
		low = i
		for stride := 2; high < 0; stride *= 2 {
			if low == n-1 {
				return i, false, nil
			}
			k := min(n-1, low+stride)
			if ok, err = enough(k); err != nil {
				return i, false, err
			}
			if ok {
				high = k
			} else {
				low = k
			}
		}
	}
	for high-low > 1 {
		k := (low + high) / 2
		if ok, err = enough(k); err != nil {
			return i, false, err
		}
		if ok {
			high = k
		} else {
			low = k
		}
	}
	return high, true, nil
}

// most is the charge that comes nearest to what is asked: the surest boil, then
// the longest flame, then the smallest.
func (h *charger) most() int {
	best, found := tried{boils: -1}, 0
	for i := range h.masses {
		t, ok := h.seen[i]
		if !ok {
			continue
		}
		flame, bestFlame := t.flame, best.flame
		if h.wish.FlameFor == 0 {
			flame, bestFlame = 0, 0
		}
		if t.boils > best.boils+1e-9 || t.boils > best.boils-1e-9 && flame > bestFlame {
			best, found = t, i
		}
	}
	return found
}

// errDeeper ends the search for a charge: more fuel makes the boil less sure.
var errDeeper = errors.New("a deeper bed chokes itself")

// needs says whether a wish sizes the charge; without one the can is filled to
// below the jets.
func (s *space) needs() bool { return s.boils() || s.wish.FlameFor > 0 }

// charge finds the charge of a design over the band. The charger is nil when
// none was needed.
func (q *searcher) charge(o *outcome, opt Options) (mass float64, h *charger, err error) {
	h = q.newCharger(o, opt)
	switch {
	case len(h.masses) == 0 || q.given && !q.boils():
		return o.f.Load().Mass, nil, nil
	case !q.needs():
		return h.masses[len(h.masses)-1], nil, nil
	}
	surest := 0.0
	i, ok, err := smallest(len(h.masses), h.from, func(i int) (bool, error) {
		t, err := h.at(i)
		if err != nil {
			return false, err
		}
		surest = max(surest, t.boils)
		if t.boils < surest-0.1 && i > h.from {
			return false, errDeeper
		}
		return h.enough(t), nil
	})
	if errors.Is(err, errDeeper) {
		ok, err = false, nil
	}
	if !ok {
		i = h.most()
	}
	return h.masses[i], h, err
}

// roughly finds the charge of a design by single burns: what boils with the odds
// against it, and burns as long as is aimed at.
func (q *searcher) roughly(o *outcome) *outcome {
	if q.given || !q.needs() {
		return o
	}
	n := len(q.newCharger(o, Options{}).masses)
	if n == 0 {
		return o
	}
	at := func(i int) *outcome {
		c := o.c
		c.charge = i
		return q.get(c)
	}
	i, ok, _ := smallest(n, o.c.charge, func(i int) (bool, error) {
		x := at(i)
		if x == nil || x.why != nil || q.boils() && !isThere(x.hard[sim.FBoil]) {
			return false, nil
		}
		return !(q.aim.flame > 0) || gasFlame(x.fig[sim.FFlameTime], x.fig[sim.FFrontAtGrate]) >= q.aim.flame, nil
	})
	if x := at(i); ok && x != nil && buildable(x) == nil {
		return x
	}
	return o
}

// short: no charge that was tried is enough.
func (h *charger) short() bool {
	for _, t := range h.seen {
		if h.enough(t) {
			return false
		}
	}
	return true
}

// boil says how the charge and the water go together; share is the final band's
// of the firing, which counts for more than what fewer samples found of a charge
// that was chosen.
func (h *charger) boil(f *firing.Firing, share float64, given bool) Boil {
	b := Boil{Chance: share, Best: share, At: f.Load().Mass}
	if share >= chance {
		b.Enough = b.At
	}
	if !given {
		return b
	}
	for _, t := range h.seen {
		if t.boils > b.Best+1e-9 || math.Abs(t.boils-b.Best) <= 1e-9 && t.mass < b.At {
			b.Best, b.At = t.boils, t.mass
		}
		if t.boils >= chance && (b.Enough == 0 || t.mass < b.Enough) {
			b.Enough = t.mass
		}
	}
	return b
}
