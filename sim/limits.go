package sim

import (
	"fmt"
	"math"
	"slices"

	"toplit/firing"
	"toplit/stove"
)

// Limit is what holds a stove back, in a sentence with a number. Weight
// orders them: 1 is a named condition met just so.
type Limit struct {
	Condition string  `json:"condition"`
	Sentence  string  `json:"sentence"`
	Weight    float64 `json:"weight"`
}

// limits names what holds the median burn back, at the middle of its flame.
func (b *burner) limits(f *figures) []Limit {
	t0, t1 := f[FJetsLit], f[FFlameOut]
	if math.IsNaN(t0) {
		return []Limit{{"never lights", "With median values the jets never light: more starter over the whole top, drier fuel, or more primary air.", 10}}
	}
	if g := f[FFrontAtGrate]; math.IsNaN(t1) || g < t1 { // over the wood-gas phase
		t1 = g
	}
	if math.IsNaN(t1) || t1 <= t0 {
		t1 = t0 + 60
	}
	k := &b.track
	j := min(int(0.5*(t0+t1)/k.grid), len(k.t)-1)
	y := k.y[j]
	defer b.with(b.on)
	b.with(k.on[j])
	b.stageOne(k.t[j], y)
	b.stageTwo(y)
	head := max(b.head, 1e-6)
	share := func(x float64) float64 { return math.Abs(x) / head }
	lambda := 0.0
	if b.need > 0 {
		lambda = b.have / b.need
	}
	_, _, burn := b.flameState(y)
	flame := flameHeight(b.heatBurned/1000, b.throatD)
	var l []Limit
	add := func(cond string, weight float64, format string, a ...any) {
		if weight >= 1 {
			l = append(l, Limit{cond, fmt.Sprintf(format, a...), weight})
		}
	}
	if !b.standOpen {
		add("starved of secondary air", 1.1/max(lambda, 0.01), "Starved of secondary air: the jets give %.1f times the oxygen the gas needs; 1.4 or more burns it clean.", lambda)
	}
	add("over-aired", lambda/2.5, "Over-aired: the jets give %.1f times the oxygen the gas needs; above about 2.5 the mixed gas is too cool to burn out its CO.", lambda)
	if b.on.pot && !b.standOpen {
		add("pot gap chokes", share(b.lossGap)/0.4, "Pot gap and column take %.0f %% of the draft: a wider gap lets more air through.", 100*share(b.lossGap))
	}
	add("ring chokes", share(b.lossRing)/0.4, "The ring takes %.0f %% of the draft: a wider bore lets more air through.", 100*share(b.lossRing))
	add("char layer chokes", share(b.lossChar)/0.4, "The char layer takes %.0f %% of the draft: a shallower charge or more draft height would keep the power up.", 100*share(b.lossChar))
	add("raw bed chokes", share(b.lossRaw)/0.4, "The raw fuel takes %.0f %% of the draft: sieve out the fines or load less deep.", 100*share(b.lossRaw))
	add("primary holes choke", share(b.lossBase)/0.5, "The primary holes take %.0f %% of the draft: they set the power.", 100*share(b.lossBase))
	add("wind-driven", share(b.wind0)/0.5, "Wind pushes with %.0f %% of the draft: shield it, or put all openings behind one shroud.", 100*share(b.wind0))
	if b.on.pot && b.potHeight > 0 {
		add("quenched on the pot", flame/b.potHeight/1.5, "The flame would stand %.0f mm tall, the pot is %.0f mm away: it is cooled before it has burned out.", 1000*flame, 1000*b.potHeight)
	}
	if burn < 3 {
		add("short burn-out", 3/max(burn, 0.01), "Gas stays %.1f times as long in the flame as its CO needs to burn; 3 is wanted.", burn)
	}
	slices.SortStableFunc(l, func(a, c Limit) int {
		switch {
		case a.Weight > c.Weight:
			return -1
		case a.Weight < c.Weight:
			return 1
		}
		return 0
	})
	return l
}

// Caution is a warning that goes with a prediction. None can be switched off.
type Caution struct {
	About string `json:"about"`
	Text  string `json:"text"`
}

// cautions are the ones every burn has and those this one calls for. They
// defer to local rules and licensed practice.
func cautions(f *firing.Firing, p *Prediction) []Caution {
	c := []Caution{
		{"outdoors", "Outdoors only. Never in a tent, vehicle, garage, porch or room, not for a minute and not to warm up: this fire makes carbon monoxide all the time."},
		{"carbon monoxide", "Carbon monoxide is strongest after flame-out, when nothing can be smelled. Stay outside until the char is cold; never carry glowing char indoors."},
		{"ground", groundCaution(p)},
		{"hot surfaces", fmt.Sprintf("Walls, base and stand burn skin at a touch; the base may reach %.0f °C. Gloves, long pliers, nothing loose; keep children away.", p.Figures[FBaseMax].P90-273.15)},
		{"coatings and zinc", "Burn off linings and paint outdoors, upwind, without food. No galvanised or brass-plated parts near heat: zinc fume makes ill hours later. No aluminium in the fire."},
		{"local fire rules", "It cannot be turned off. Check today's fire rules: where open fires are banned, do not light. Local codes and licensed practice come first."},
		{"stand by", "Water or a lid at hand, attended until cold. If it goes out smoking, stand aside: the gas can light with a puff."},
	}
	if k := f.Conditions.Starter.Kind; k != "kindling" && k != "wood shavings" && k != "birch bark" && k != "fatwood" {
		c = append(c, Caution{"starter", "Measure the starter, soak it in away from the stove, close and move the bottle, then light. Never add liquid to a lit or hot stove. Never petrol."})
	}
	for _, can := range []*stove.Can{&f.Design.FuelCan, f.Design.OuterCan} {
		if can != nil && can.Surface == stove.Painted {
			c = append(c, Caution{"first fire", "A painted or lined can smokes and stinks on its first fire: burn it off empty, outdoors, before any food."})
			break
		}
	}
	return c
}

func groundCaution(p *Prediction) string {
	t := p.Figures[FGroundMax].P90 - 273.15
	s := fmt.Sprintf("The ground under it may reach %.0f °C, most in the char phase.", t)
	if t > 90 {
		return s + " Litter, roots and peat can take fire under the stove and smoulder unseen: stand it on bare mineral soil or stone cleared 1.5 m round, on a plate with an air gap, and drown the spot afterwards."
	}
	return s + " Clear litter 1.5 m round, stand it on bare mineral soil or stone, and feel the ground afterwards."
}
