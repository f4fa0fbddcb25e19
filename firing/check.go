package firing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"toplit/physics/bed"
	"toplit/physics/fuel"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Check looks for what would keep this firing from working or make it unsafe:
// all that stove.Check finds, and what only the conditions tell. It never
// says that a firing is safe. Burn outdoors only and follow local fire rules.
func Check(f Firing) []stove.Finding {
	c := &checker{f: f, out: stove.Check(f.Design)}
	sound := !stove.Refused(c.out)
	if c.numbers() && sound {
		c.charge()
		c.pot()
		if !stove.Refused(c.out) {
			c.tipping()
		}
	}
	c.fuel()
	c.starter()
	c.weather()
	c.ground()
	c.schedule()
	return c.out
}

type checker struct {
	f   Firing
	out []stove.Finding
}

func (c *checker) add(s stove.Severity, key, value, text, accept string) {
	c.out = append(c.out, stove.Finding{Severity: s, Key: key, Value: value, Text: text, Accept: accept})
}

// show writes an amount for a sentence.
func show(kind quantity.Kind, v float64) string {
	if kind == quantity.Length && math.Abs(v) < 10 {
		return strings.TrimSuffix(strconv.FormatFloat(v*1e3, 'f', 1, 64), ".0") + " mm"
	}
	return quantity.Show(kind, v, quantity.Metric, 3)
}

// numbers reports what a design file could not hold; a Firing made by a
// program may. False when the rest of the checks would make no sense.
func (c *checker) numbers() bool {
	k := c.f.Conditions
	before := len(c.out)
	need := func(kind quantity.Kind, key string, v, least, most float64) {
		if !(v >= least*(1-1e-9) && v <= most*(1+1e-9)) {
			c.add(stove.Error, key, quantity.Format(kind, v, quantity.Metric), "out of range", span(kind, least, most))
		}
	}
	need(quantity.Density, "fuel.bulk_density", k.Fuel.BulkDensity, 20, 1200)
	need(quantity.Length, "fuel.size", k.Fuel.Size, 0.3e-3, 0.1)
	need(quantity.Ratio, "fuel.moisture", k.Fuel.Moisture, 0, 0.7)
	need(quantity.Mass, "starter.mass", k.Starter.Mass, 0, 1)
	need(quantity.Temperature, "air.temperature", k.Air.Temperature, 228.15, 333.15)
	need(quantity.Pressure, "air.pressure", k.Air.Pressure, 45000, 110000)
	need(quantity.Ratio, "air.humidity", k.Air.Humidity, 0, 1)
	need(quantity.Speed, "air.wind", k.Air.Wind, 0, 20)
	need(quantity.Ratio, "air.gusts", k.Air.Gusts, 0, 2)
	given := 0
	for _, v := range []float64{k.Charge.Mass, k.Charge.Volume, k.Charge.Depth} {
		if v != 0 {
			given++
		}
	}
	if given != 1 {
		c.add(stove.Error, "charge", "", fmt.Sprintf("%d ways of giving the charge", given), "one of mass, volume and depth")
	}
	if l := c.f.Load(); given == 1 && !(l.Mass > 0 && l.Depth > 0) {
		c.add(stove.Error, "charge", "", "no fuel", "more than nothing")
	}
	if p := k.Pot; p != nil {
		need(quantity.Mass, "pot.mass", p.Mass, 5e-3, 20)
		need(quantity.Length, "pot.diameter", p.Diameter, 0.03, 0.8)
		need(quantity.Length, "pot.height", p.Height, 0.01, 0.8)
		need(quantity.Mass, "water.mass", k.Water.Mass, 0, 50)
		need(quantity.Temperature, "water.temperature", k.Water.Temperature, 273.15, 373.15)
	}
	return len(c.out) == before
}

// charge sets the fuel level beside the jets and the rim, and the pieces
// beside holes and bore.
func (c *checker) charge() {
	d, l, size := c.f.Design, c.f.Load(), c.f.Conditions.Fuel.Size
	key, value := "charge.depth", show(quantity.Length, l.Depth)
	switch g := c.f.Conditions.Charge; {
	case g.Mass > 0:
		key, value = "charge.mass", show(quantity.Mass, g.Mass)
	case g.Volume > 0:
		key, value = "charge.volume", show(quantity.Volume, g.Volume)
	}
	upTo := func(level float64) string {
		v := d.VolumeTo(math.Max(0, level))
		return fmt.Sprintf("up to %s, which is %s or %s deep", show(quantity.Mass, v*c.f.Conditions.Fuel.BulkDensity), show(quantity.Volume, v), show(quantity.Length, math.Max(0, level)))
	}
	jets, have := d.JetLevel()
	top := jets
	for _, i := range d.RowsOn(stove.FuelBody) {
		top = math.Max(top, d.Rows[i].Top())
	}
	switch deep := fmt.Sprintf("fills the can to %s", show(quantity.Length, l.Depth)); {
	case l.Depth > d.FuelCan.Depth()*(1+1e-9):
		c.add(stove.Error, key, value, fmt.Sprintf("%s, over the rim at %s", deep, show(quantity.Length, d.FuelCan.Depth())), upTo(d.FillLevel()))
	case have && l.Depth >= top:
		c.add(stove.Error, key, value, fmt.Sprintf("%s, above the jets at %s: no secondary air reaches the gas", deep, show(quantity.Length, jets)), upTo(jets))
	case have && l.Depth > jets*(1+1e-9):
		c.add(stove.Warning, key, value, fmt.Sprintf("%s, into the jets at %s", deep, show(quantity.Length, jets)), upTo(jets))
	}
	for _, i := range d.RowsOn(stove.FuelBase) {
		if h := d.Rows[i].Hole; h.Narrow() > size && size > 0 {
			c.add(stove.Warning, fmt.Sprintf("row[%d].hole", i+1), h.String(), fmt.Sprintf("pieces of %s fall through", show(quantity.Length, size)), "holes narrower than the fuel, or a grate")
		}
	}
	piece := math.Max(size, c.f.Conditions.Fuel.Length)
	if bore := d.FuelCan.Bore(); size > bore/4 {
		c.add(stove.Warning, "fuel.size", show(quantity.Length, size), fmt.Sprintf("too coarse for a bore of %s: the pieces bridge and the front runs ahead between them", show(quantity.Length, bore)), "up to "+show(quantity.Length, bore/4))
	} else if piece > bore*1.5 {
		c.add(stove.Note, "fuel.length", show(quantity.Length, piece), "pieces longer than the can is wide have to stand upright: fill the gaps with small stuff", "")
	}
}

// pot checks the pot against stand and stove, and the water against the pot.
func (c *checker) pot() {
	d, p, w := c.f.Design, c.f.Conditions.Pot, c.f.Conditions.Water
	if p == nil {
		if d.Skirt != nil {
			c.add(stove.Warning, "skirt", "", "there is no pot to put it round", "a [pot], or no [skirt]")
		}
		return
	}
	opening := d.FuelCan.Opening()
	if d.Riser != nil {
		opening = d.Riser.Bore
	}
	switch s := d.Stand; {
	case s == nil:
		c.add(stove.Error, "pot", "", "without a pot stand the pot closes the stove: no way out for the gas", "a [stand]")
	case p.Diameter < s.Diameter && s.Gap == 0 && s.Closed:
		c.add(stove.Error, "pot.diameter", show(quantity.Length, p.Diameter), fmt.Sprintf("falls into the stand of %s", show(quantity.Length, s.Diameter)), "more than "+show(quantity.Length, s.Diameter))
	case p.Diameter < opening/2:
		c.add(stove.Warning, "pot.diameter", show(quantity.Length, p.Diameter), fmt.Sprintf("much narrower than the opening of %s: most of the flame passes it by", show(quantity.Length, opening)), "about the opening or more")
	}
	if s := d.Stand; s != nil {
		if gap := s.Height + s.Gap; gap < 0.020 && !s.Closed {
			c.add(stove.Warning, "stand.height", show(quantity.Length, s.Height), "so near that the pot quenches the flame: smoke and soot (a builder saw it at 19 mm and not 25 mm higher)", "25 mm to 60 mm is common practice")
		}
	}
	if base := d.Diameter(); p.Diameter > 2.5*base {
		c.add(stove.Warning, "pot.diameter", show(quantity.Length, p.Diameter), fmt.Sprintf("more than 2.5 times as wide as the stove of %s: easily knocked off", show(quantity.Length, base)), "up to "+show(quantity.Length, 2.5*base))
	}
	switch full, v := p.PotVolume(), w.Mass/waterDensity(w.Temperature); {
	case v > full:
		c.add(stove.Error, "water.mass", show(quantity.Mass, w.Mass), fmt.Sprintf("more than the pot holds, %s", show(quantity.Volume, full)), "up to "+show(quantity.Mass, 0.85*full*waterDensity(w.Temperature)))
	case v > 0.9*full:
		c.add(stove.Warning, "water.mass", show(quantity.Mass, w.Mass), fmt.Sprintf("fills the pot of %s so far that it boils over onto the stove", show(quantity.Volume, full)), "up to "+show(quantity.Mass, 0.85*full*waterDensity(w.Temperature)))
	case w.Mass == 0:
		c.add(stove.Warning, "water.mass", show(quantity.Mass, 0), "an empty pot over the flame overheats", "more than 0 g, or no [pot]")
	}
	if w.Target > 0 && w.Target <= w.Temperature {
		c.add(stove.Error, "water.target", show(quantity.Temperature, w.Target), "the water is that warm at lighting", "more than "+show(quantity.Temperature, w.Temperature)+`, or "boil"`)
	}
	if m := p.Metal; m == stove.Galvanised {
		c.add(stove.Error, "pot.metal", string(m), "zinc in food and zinc fume", "aluminium, stainless, steel, copper or titanium")
	}
}

// tipping sets the loaded stove's tip angle beside the safety protocol's
// limits of 20, 16 and 12 degrees [memory].
func (c *checker) tipping() {
	s := c.f.Stability()
	angle := fmt.Sprintf("%.1f°", s.Angle*180/math.Pi)
	text := fmt.Sprintf("the loaded stove tips at a tilt of %s (%s, centre of gravity at %s over a base of %s)", angle, show(quantity.Mass, s.Mass), show(quantity.Length, s.Height), show(quantity.Length, 2*s.Base))
	const wider = "20° or more: a wider outer can, a lower stand, less water"
	key := "fuel_can.height"
	switch {
	case c.f.Design.Stand != nil:
		key = "stand.height"
	case c.f.Design.Riser != nil:
		key = "riser.height"
	}
	switch {
	case s.Angle < stove.LeastAngle:
		c.add(stove.Error, key, "", text+": do not light it like this", wider)
	case s.Angle < stove.FairAngle:
		c.add(stove.Warning, key, "", text, wider)
	case s.Angle < stove.SteadyAngle:
		c.add(stove.Note, key, "", text, "")
	}
}

func (c *checker) fuel() {
	k := c.f.Conditions.Fuel
	if _, err := fuel.ByName(k.Species); err != nil {
		c.add(stove.Error, "fuel.species", k.Species, "not in the fuel catalogue", speciesKey().Range)
	}
	if k.analysed() {
		a := fuel.Analysis{Carbon: k.Carbon, Hydrogen: k.Hydrogen, Oxygen: k.Oxygen, Nitrogen: k.Nitrogen, Ash: k.Ash}
		if err := a.Check(); err != nil {
			c.add(stove.Error, "fuel.carbon", show(quantity.Ratio, k.Carbon), err.Error(), "a dry analysis that adds up to 100 %")
		}
	}
	switch m := show(quantity.Ratio, k.Moisture); {
	case k.Moisture > 0.35:
		c.add(stove.Error, "fuel.moisture", m, "so wet that the front stalls and only smokes", "up to 35 %; 8 % to 15 % burns well")
	case k.Moisture > 0.20:
		c.add(stove.Warning, "fuel.moisture", m, "wet fuel lights late and smokes; the front may stall", "up to 20 %")
	}
	if k.Fines > 0.1 {
		c.add(stove.Warning, "fuel.fines", show(quantity.Ratio, k.Fines), "fines clog the base and make the front run unevenly: sieve them out", "up to 10 %")
	}
}

func (c *checker) starter() {
	s := c.f.Conditions.Starter
	if reason := refusedStarter(s.Kind); reason != "" {
		c.add(stove.Error, "starter.kind", s.Kind, reason, starterKey().Range)
		return
	}
	b, err := bed.StarterByName(s.Kind)
	if err != nil {
		c.add(stove.Error, "starter.kind", s.Kind, "not in the table of starters", starterKey().Range)
		return
	}
	area := c.f.Design.FuelCan.Area()
	dose := b.Dose(area)
	if !(dose > 0) {
		return
	}
	accept := fmt.Sprintf("%s to %s; %s covers the top", show(quantity.Mass, dose/2), show(quantity.Mass, 2*dose), show(quantity.Mass, dose))
	switch m := show(quantity.Mass, s.Mass); {
	case s.Mass == 0:
		c.add(stove.Error, "starter.mass", m, "nothing lights the top", accept)
	case s.Mass > 8*dose:
		c.add(stove.Error, "starter.mass", m, "an absurd dose: it is a fire of its own, and the charge smokes after it", accept)
	case s.Mass > 4*dose:
		c.add(stove.Warning, "starter.mass", m, "far more than covers the top: it flares, then smokes", accept)
	case s.Mass < dose/4:
		c.add(stove.Warning, "starter.mass", m, "lights only part of the top: one side burns ahead or it goes out", accept)
	}
}

// ground looks for what burns under the stove.
func (c *checker) ground() {
	g, plate := c.f.Conditions.Ground, c.f.Design.Plate
	if !(g.Depth >= 0) {
		c.add(stove.Error, "ground.depth", show(quantity.Length, g.Depth), "not a thickness", "0 mm or more")
	}
	const clear = "mineral soil, rock, sand, tile or brick; clear 1.5 m round it and follow local fire rules"
	cover, err := catalogue.Cover(g.Cover)
	switch {
	case err != nil:
		c.add(stove.Error, "ground.cover", g.Cover, "not in the catalogue of covers", clear)
	case cover.Combustible && cover.Moisture == "dry" && plate == nil:
		c.add(stove.Error, "ground.cover", g.Cover, "burns, and nothing lies between it and the stove", clear)
	case cover.Combustible:
		c.add(stove.Warning, "ground.cover", g.Cover, "burns or smoulders once it is dried out, days later too", clear)
	}
	if plate == nil {
		return
	}
	switch m, err := catalogue.Cover(plate.Material); {
	case err != nil:
		c.add(stove.Error, "plate.material", plate.Material, "not in the catalogue of covers", `"steel plate", "tile" or "brick"`)
	case m.Combustible:
		c.add(stove.Error, "plate.material", plate.Material, "the plate itself burns", `"steel plate", "tile" or "brick"`)
	}
}

func (c *checker) weather() {
	a := c.f.Conditions.Air
	switch a.Shelter {
	case Open, Windscreen, Shroud, "":
	default:
		c.add(stove.Error, "air.shelter", string(a.Shelter), "not known", `"open", "windscreen" or "shroud"`)
	}
	switch w := show(quantity.Speed, a.Wind); {
	case a.Wind > 8:
		c.add(stove.Warning, "air.wind", w, "a strong wind carries sparks: do not light an open fire in it; ask the local fire authority", "up to 5 m/s, and no dry wind at all")
	case a.Wind > 2 && a.Shelter != Shroud:
		c.add(stove.Note, "air.wind", w, "more than the draft of a small stove: holes on the windward side take over", "")
	}
	if t := c.f.Conditions.Warm; t != 0 && !(t >= 230 && t <= 900) {
		c.add(stove.Error, "stove_temperature", show(quantity.Temperature, t), "out of range", span(quantity.Temperature, 230, 900))
	} else if t > 373.15 {
		c.add(stove.Error, "stove_temperature", show(quantity.Temperature, t), "too hot to charge and light: starter and fuel flash in a hot stove", "up to 100 °C; let it cool")
	} else if t > 323.15 {
		c.add(stove.Warning, "stove_temperature", show(quantity.Temperature, t), "a hot stove must not be charged with liquid starter", "up to 50 °C")
	}
}

// schedule checks the acts against what there is to act on. A thing done
// twice in a row or before its part is on is a slip of the pen.
func (c *checker) schedule() {
	k, d := c.f.Conditions, c.f.Design
	there := map[Act]bool{
		PotOn: k.Pot != nil, PotOff: k.Pot != nil, RingOn: d.Ring != nil, RingOff: d.Ring != nil,
		RiserOn: d.Riser != nil, RiserOff: d.Riser != nil, StandOn: d.Stand != nil, StandOff: d.Stand != nil, Snuff: true, End: true,
	}
	last := map[string]Action{}
	for _, a := range k.Schedule {
		key := "schedule." + keyOf(a.Do)
		value := FormatWhen(a)
		known, ok := there[a.Do]
		switch {
		case !ok && pours(string(a.Do)):
			c.add(stove.Error, key, value, "refused: nothing is poured or laid on after lighting; vapour flashes back along the stream and a cold charge smokes", "let it go out and cool, then charge and light it anew")
			continue
		case !ok:
			c.add(stove.Error, key, value, "not an act of a schedule", actNames())
			continue
		case !known:
			c.add(stove.Error, key, value, fmt.Sprintf("there is no %s in this design", partOf(a.Do)), "the part, or no such line")
			continue
		case !(a.At >= 0 && a.At <= latest):
			c.add(stove.Error, key, value, "out of range", "0:00 to 24:00:00")
			continue
		}
		if a.Do == Snuff || a.Do == End {
			continue
		}
		part := partOf(a.Do)
		if b, ok := last[part]; ok && b.After == a.After && b.Do == a.Do {
			c.add(stove.Error, key, value, fmt.Sprintf("%s twice in a row", a.Do), "on and off in turn")
		} else if !ok && a.Do == PotOff {
			if !potGoesOn(k.Schedule, a) {
				c.add(stove.Error, key, value, "the pot comes off before it goes on", "later than pot_on")
			}
		}
		last[part] = a
	}
	if k.Pot != nil && !potGoesOn(k.Schedule, Action{Do: PotOff, At: math.Inf(1), After: GlowEnd}) {
		c.add(stove.Warning, "schedule.pot_on", "", "there is a pot but it never goes on", `a line pot_on = "jets lit + 1:00"`)
	}
}

// potGoesOn: some line may put the pot on before a given one. Times after
// different moments cannot be compared and count as before.
func potGoesOn(list []Action, off Action) bool {
	for _, a := range list {
		if a.Do == PotOn && (a.After != off.After || a.At < off.At) {
			return true
		}
	}
	return false
}
