package size

import (
	"fmt"
	"math"
	"strings"

	"toplit/physics/bed"
	"toplit/quantity"
	"toplit/sim"
	"toplit/stove"
)

// teller puts a result into sentences in the maker's units.
type teller struct {
	*searcher
	o *outcome
	r *Result
}

// reasons are by key of the design file, as its writer puts them above the
// lines.
func (t *teller) reasons() map[string]string {
	m := map[string]string{}
	s, c, f := t.space, t.o.c, t.o.f
	d, fig := f.Design, &t.r.Prediction.Figures
	bore := d.FuelCan.Area()
	p, j := s.primaryArea(c), s.jetArea(c)

	rows := s.circles(c)
	drill := s.primaryDrills[c.pd]
	whole := fmt.Sprintf("%d x %s in the base: %s, %s of the bore; gives about %.2f g/s of primary air, which turns %s to char in %s",
		s.counts[c.pc], t.hole(drill), t.area(p), percent(p/bore), 1e3*t.primaryAir(), t.mass(f.Load().Mass), clock(fig[sim.FFrontAtGrate].P50))
	m["row[1]"] = whole + ". Drill them small first: a hole can be widened, not narrowed."
	if len(rows) == 2 {
		m["row[1]"] = fmt.Sprintf("%d of %s. Drill them small first: a hole can be widened, not narrowed.", rows[0].count, whole)
		m["row[2]"] = fmt.Sprintf("The other %d of the %d primary holes, on a circle of %s, so that each serves about as much of the bed.", rows[1].count, s.counts[c.pc], t.length(rows[1].circle))
	}
	at := len(rows) + 1
	m[row(at)] = fmt.Sprintf("%d x %s, %s below the rim: %s, %s of the bore and %s times the primary holes; excess air %s, between %.1f and %.1f in %s of the samples.",
		s.counts[c.jc], t.hole(s.jetDrills[c.jd]), t.length(d.FuelCan.Height-s.jetHeight(c)), t.area(j), percent(j/bore), one(j/p), band(fig[sim.FExcessAir], one), airLeast, airMost, share(t.r.Shares.Air))
	if s.double {
		in := s.inlet(c)
		open := holes(in.drill, in.count)
		m[row(at+1)] = fmt.Sprintf("%d x %s low in the outer can: %s, %s times the %s of holes inside, so that those set the air.", in.count, t.hole(in.drill), t.area(open), one(open/(p+j)), t.area(p+j))
		if open < 1.5*(p+j) {
			m[row(at+1)] = fmt.Sprintf("%d x %s low in the outer can: %s, %s times the %s of holes inside, the most these drills open; it throttles the air a little.", in.count, t.hole(in.drill), t.area(open), one(open/(p+j)), t.area(p+j))
		}
	}
	r := rule(ruleRing)
	ratio := s.rings[c.ring] / d.FuelCan.Bore()
	m["ring"] = fmt.Sprintf("%s is %.2f of the bore; %.2f to %.2f is shop practice: narrower mixes better and throttles the draft, wider gives power and lets gas by.", t.length(s.rings[c.ring]), ratio, r.Low, r.High)
	if s.pot {
		tabs := t.length(s.gaps[c.gap])
		m["stand"] = fmt.Sprintf("%s of closed wall and a slot of %s put the pot %s above the ring and give a draft of %s Pa; lower would cool the flame before it has burned out, taller would draw more cold air and waste heat. Set the pot on three screws or tabs that stand %s out of the wall's top.",
			t.length(s.heights[c.top]), tabs, t.length(s.heights[c.top]+s.gaps[c.gap]), one(fig[sim.FDraft].P50), tabs)
	} else {
		m["riser"] = fmt.Sprintf("A tube of %s on the ring gives a draft of %s Pa; without a pot stand nothing else does. About %s is called crucial for natural draft.", t.length(s.heights[c.top]), one(fig[sim.FDraft].P50), t.length(rule(ruleRiser).Low))
	}
	m["standoff"] = t.standoff(p)
	m["charge"] = t.chargeReason()
	m["starter"] = t.starter()
	if s.chosenOuter {
		m["outer_can"] = fmt.Sprintf("Chosen from the catalogue: leaves %s all round the fuel can (%s to %s is shop practice) and %s under it.", t.length(d.AnnulusGap()), t.length(rule(ruleAnnulus).Low), t.length(rule(ruleAnnulus).High), t.length(d.Standoff))
	}
	return m
}

func row(n int) string { return fmt.Sprintf("row[%d]", n) }

func (t *teller) standoff(holes float64) string {
	d := t.o.f.Design
	open := fmt.Sprintf("opens %s, %s times the primary holes", t.area(d.Curtain()), one(d.Curtain()/holes))
	if !t.double {
		return fmt.Sprintf("%s under the can on three screws, brackets or stones %s.", t.length(d.Standoff), open)
	}
	if t.proud > 0 {
		return fmt.Sprintf("%s on three screws or washers %s.", t.length(d.Standoff), open)
	}
	return fmt.Sprintf("%s puts both rims level, so that the ring closes the space between the cans; hang the fuel can from the ring or set it on three screws. It %s.", t.length(d.Standoff), open)
}

func (t *teller) chargeReason() string {
	f := t.o.f
	l := f.Load()
	jets, _ := f.Design.JetLevel()
	text := fmt.Sprintf("%s (%s as poured, %s deep) leaves %s free below the jets", t.mass(l.Mass), quantity.Show(quantity.Volume, l.Volume, t.units, 2), t.length(l.Depth), t.length(jets-l.Depth))
	switch b := t.r.Boil; {
	case b != nil:
		return text + ". " + b.Sentence
	case t.given:
		return text + "."
	}
	return fmt.Sprintf("%s and burns %s.", text, band(t.r.Prediction.Figures[sim.FFlameTime], clock))
}

func (t *teller) starter() string {
	f := t.o.f
	k, err := bed.StarterByName(f.Conditions.Starter.Kind)
	if err != nil {
		return ""
	}
	area, m := f.Design.FuelCan.Area(), f.Conditions.Starter.Mass
	text := fmt.Sprintf("%s of %s covers the whole top of %s", t.mass(m), k.Kind, t.area(area))
	if cover := k.Covered(m, area); cover < 0.995 {
		text = fmt.Sprintf("%s of %s covers %s of the top; %s would cover it all", t.mass(m), k.Kind, share(cover), t.mass(k.Dose(area)))
	}
	return text + ". " + k.Note
}

// boil says with what chance the charge boils the water.
func (t *teller) boil(b Boil) string {
	water := t.mass(t.o.f.Conditions.Water.Mass) + " of water"
	n := t.r.Prediction.Samples
	said := fmt.Sprintf("It boils %s in %s of %d samples", water, share(b.Chance), n)
	if t.base.Conditions.Water.Target > 0 {
		said = fmt.Sprintf("It brings %s to %s in %s of %d samples", water, quantity.Show(quantity.Temperature, t.base.Conditions.Water.Target, t.units, 3), share(b.Chance), n)
	}
	switch {
	case b.Enough == 0 && b.Best > b.Chance+0.005 && b.At != t.o.f.Load().Mass:
		return said + fmt.Sprintf("; no charge that fits this can boils it with 90 %% chance through these holes; best is %s with %s.", share(b.Best), t.mass(b.At))
	case b.Enough == 0:
		return said + fmt.Sprintf("; no charge that fits this can boils it with 90 %% chance through these holes; best is %s.", share(b.Best))
	case b.Chance < chance && b.Enough > t.o.f.Load().Mass:
		return said + fmt.Sprintf("; %s would do so in 90 %%.", t.mass(b.Enough))
	case b.Chance >= chance && t.given && b.Enough < t.o.f.Load().Mass:
		return said + fmt.Sprintf("; %s would do so in 90 %%.", t.mass(b.Enough))
	case t.given || t.wish.FlameFor > 0:
		return said + "."
	}
	if t.o.c.charge == 0 {
		return said + "; less would make no bed."
	}
	return said + ", the smallest charge found that does so in 90 %."
}

// primaryAir is the mean of the median curve while the front travels [kg/s].
func (t *teller) primaryAir() float64 {
	p := t.r.Prediction
	from, to := p.Figures[sim.FJetsLit].P50, p.Figures[sim.FFrontAtGrate].P50
	for _, c := range p.Curves {
		if c.Key != "primary_air_kg_s" {
			continue
		}
		sum, n := 0.0, 0.0
		for i, at := range p.Time {
			if at >= from && at <= to {
				sum += c.P50[i]
				n++
			}
		}
		if n > 0 {
			return sum / n
		}
	}
	return math.NaN()
}

// targets sets the wishes beside the band.
func (t *teller) targets() []Target {
	var out []Target
	p := t.r.Prediction
	if w := t.wish.BoilIn; w > 0 {
		x := Target{What: "boil", Wished: w, Got: p.Figures[sim.FTimeToBoil]}
		x.reached(p.Values(sim.FTimeToBoil), func(v float64) bool { return v <= slack*w })
		x.Sentence = fmt.Sprintf("Boil within %s wished, %s after pot on predicted, in time in %s of the samples.", clock(w), band(x.Got, clock), share(x.Chance))
		if !x.Met {
			x.Sentence += t.short(func(a Alternative) (float64, bool) {
				v := a.Prediction.Figures[sim.FTimeToBoil].P50
				return v, v < 0.97*x.Got.P50 || !isThere(x.Got.P50) && isThere(v)
			})
		}
		out = append(out, x)
	}
	if w := t.wish.FlameFor; w > 0 {
		x := Target{What: "flame", Wished: w, Got: p.Figures[sim.FFlameTime]}
		x.reached(flames(p), func(v float64) bool { return v*slack >= w })
		x.Sentence = fmt.Sprintf("Flame for %s wished; the front is at the grate after %s, and the last flame out after %s; wood gas burns that long in %s of the samples.",
			clock(w), band(p.Figures[sim.FFrontAtGrate], clock), band(x.Got, clock), share(x.Chance))
		if !x.Met {
			x.Sentence += t.short(func(a Alternative) (float64, bool) {
				v := came(flames(a.Prediction), 0.5)
				return v, v > 1.03*came(flames(p), 0.5)
			})
		}
		out = append(out, x)
	}
	return out
}

// slack is by how much a median may miss a wished time and still count as
// meeting it: far less than the band.
const slack = 1.05

// reached counts the samples that meet the wish.
func (x *Target) reached(v []float64, met func(float64) bool) {
	n := 0
	for _, v := range v {
		if isThere(v) && met(v) {
			n++
		}
	}
	x.Chance = float64(n) / float64(len(v))
	x.Met = x.Chance >= 0.5
}

// short says what stands against a wish and which alternative comes nearer.
func (t *teller) short(nearer func(a Alternative) (float64, bool)) string {
	text := ""
	for _, a := range t.r.Alternatives {
		if v, ok := nearer(a); ok {
			text = fmt.Sprintf(" The %s alternative comes to %s, at a price.", a.Name, clock(v))
		}
	}
	if limit := t.holdsBack(); limit != "" {
		text += " " + limit
	}
	return text
}

// holdsBack names what stands against more: sizes at the end of what can be
// built, then what the median burn says.
func (t *teller) holdsBack() string {
	s, c := t.space, t.o.c
	var list []string
	if !s.given {
		k := c
		k.charge++
		if !s.valid(k) {
			list = append(list, fmt.Sprintf("The can holds %s below the jets and no more.", t.mass(s.charges[c.charge])))
		}
	}
	if s.primaryArea(c) > rule(rulePrimary).High*t.o.f.Design.FuelCan.Area()*0.97 {
		list = append(list, "The primary holes are as wide as shop practice knows or wider; more would hardly help, the bed itself now holds the air back.")
	}
	for i, l := range t.o.limits {
		if i == 2 {
			break
		}
		list = append(list, l.Sentence)
	}
	return strings.Join(list, " ")
}

// spare notes a can much taller than its charge.
func (t *teller) spare() {
	jets, ok := t.o.f.Design.JetLevel()
	free := jets - t.o.f.Load().Depth
	if !ok || t.given || free < 0.05 {
		return
	}
	// As much can above the fuel as the shop rules want.
	enough := t.o.f.Design.FuelCan.Height - free + rule(ruleFuel).High
	t.r.Notes = append(t.r.Notes, fmt.Sprintf("The charge leaves %s free below the jets: a fuel can of the same width and about %s tall would hold it and warm less metal; it would have to be sized anew.", t.length(free), t.length(math.Ceil(enough*200)/200)))
}

// warnings are what the checks found and the wishes that cannot be met.
func (t *teller) warnings() []string {
	var list []string
	for _, x := range t.r.Targets {
		if !x.Met {
			list = append(list, x.Sentence)
		}
	}
	if b := t.r.Boil; b != nil && b.Chance < chance {
		list = append(list, b.Sentence)
	}
	if l := t.r.Shares.Lights; l < 0.9 {
		list = append(list, fmt.Sprintf("The jets light in only %s of the samples: drier fuel and a starter over the whole top help.", share(l)))
	}
	if a := t.r.Shares.Air; a < 0.5 {
		list = append(list, fmt.Sprintf("The excess air is between %.1f and %.1f in only %s of the samples: try it and widen or plug jets.", airLeast, airMost, share(a)))
	}
	for _, x := range t.o.findings {
		if x.Severity == stove.Warning {
			list = append(list, x.String())
		}
	}
	return list
}

// trade says what an alternative gains and costs, both by the same samples.
func (t *teller) trade(a Alternative) string {
	n := min(a.Prediction.Samples, t.r.Prediction.Samples)
	mid := func(p *sim.Prediction, f sim.Figure) float64 { return came(p.Values(f)[:n], 0.5) }
	var list []string
	pair := func(what string, f sim.Figure, show func(float64) string) {
		now, then := mid(t.r.Prediction, f), mid(a.Prediction, f)
		if isThere(now) || isThere(then) {
			list = append(list, fmt.Sprintf("%s %s in place of %s", what, show(then), show(now)))
		}
	}
	if t.boils() {
		pair("boil", sim.FTimeToBoil, clock)
	}
	pair("front at the grate", sim.FFrontAtGrate, clock)
	pair("firepower", sim.FFirepower, func(v float64) string { return quantity.Show(quantity.Power, v, t.units, 2) })
	pair("excess air", sim.FExcessAir, one)
	if t.boils() {
		boils := func(p *sim.Prediction) string {
			k := 0
			for _, v := range p.Values(sim.FBoil)[:n] {
				if isThere(v) {
					k++
				}
			}
			return share(float64(k) / float64(n))
		}
		list = append(list, fmt.Sprintf("boils in %s of %d samples in place of %s", boils(a.Prediction), n, boils(t.r.Prediction)))
	}
	return strings.Join(list, ", ") + "."
}
