package designs

import (
	"bytes"
	"reflect"
	"testing"

	"toplit/firing"
	"toplit/quantity"
	"toplit/stove"
)

const many = 3000

// TestValid: every seed gives a firing that the checks accept, and a second
// drawing of the seed is the same.
func TestValid(t *testing.T) {
	thrown := 0
	for seed := range uint64(many) {
		f, err := Random(seed)
		if err != nil {
			t.Fatal(err)
		}
		if !Valid(f) {
			t.Fatalf("seed %d is refused", seed)
		}
		for again := range uint64(tries) {
			d := newDice(seed, again)
			g := new(firing.Firing)
			drawStove(d, &g.Design)
			drawConditions(d, g)
			if Valid(g) {
				break
			}
			thrown++
		}
		if seed < 200 {
			if g := For(t, seed); !reflect.DeepEqual(f, g) {
				t.Fatalf("seed %d gives two firings", seed)
			}
			if g := For(t, seed+1); reflect.DeepEqual(f.Design.FuelCan, g.Design.FuelCan) {
				t.Fatalf("seeds %d and %d give the same can", seed, seed+1)
			}
		}
	}
	t.Logf("%d firings, %d drawings thrown away", many, thrown)
	if thrown > many {
		t.Errorf("%d drawings thrown away for %d firings: the draws miss what the checks accept", thrown, many)
	}
}

// TestCorners: what the tests of the model rely on is really drawn, each in at
// least one firing of a hundred.
func TestCorners(t *testing.T) {
	seen := map[string]int{}
	note := func(what string, yes bool) {
		if yes {
			seen[what]++
		} else {
			seen[what] += 0
		}
	}
	for seed := range uint64(many) {
		f := For(t, seed)
		d, c := &f.Design, &f.Conditions
		level := f.Load().Depth
		rows, through, jets := 0, false, false
		for _, r := range d.Rows {
			if r.On == stove.FuelBody {
				rows++
				through = through || r.Height < level
				jets = jets || r.Height > level
			}
		}
		note("single wall", d.OuterCan == nil)
		note("double wall, closed base", d.OuterCan != nil && !d.OuterCan.OpenBase)
		note("double wall, open base on a lift", d.OuterCan != nil && d.OuterCan.OpenBase && d.Lift > 0)
		note("slot round the annulus", d.Annulus > 0)
		note("grate", d.FuelCan.OpenBase)
		note("no body row", rows == 0)
		note("four body rows", rows == 4)
		note("holes through the fuel", through)
		note("jets", jets)
		note("slanted holes", anyRow(d, func(r stove.Row) bool { return r.Slant != 0 }))
		note("slots, triangles, rectangles", anyRow(d, func(r stove.Row) bool { return r.Hole.Shape != stove.Round }))
		note("holes in the outer base", len(d.RowsOn(stove.OuterBase)) > 0)
		note("windows in the stand", len(d.RowsOn(stove.StandWall)) > 0)
		note("ring", d.Ring != nil)
		note("ring with slits", d.Ring != nil && d.Ring.Slits > 0)
		note("riser", d.Riser != nil)
		note("closed stand", d.Stand.Closed)
		note("open stand", !d.Stand.Closed)
		note("skirt", d.Skirt != nil && c.Pot != nil)
		note("plate", d.Plate != nil)
		note("shield", len(d.Shields) > 0)
		note("fan reactor", d.Fan.Primary > 0 && len(d.RowsOn(stove.FuelBase)) == 0)
		note("fan for the jets", d.Fan.Secondary > 0)
		note("no pot", c.Pot == nil)
		note("water that boils dry", c.Pot != nil && c.Water.Mass < 0.05)
		note("more than a litre of water", c.Pot != nil && c.Water.Mass > 1)
		note("target below boiling", c.Water.Target > 0)
		note("lid", c.Pot != nil && c.Pot.Lid)
		note("above 2500 m", c.Air.Pressure < 74700)
		note("wind above 2 m/s", c.Air.Wind > 2)
		note("no wind", c.Air.Wind == 0)
		note("gusts", c.Air.Wind > 0.5 && c.Air.Gusts > 0)
		note("moisture above 20 %", c.Fuel.Moisture > 0.20)
		note("moisture below 2 %", c.Fuel.Moisture < 0.02)
		note("charge by mass", c.Charge.Mass > 0)
		note("charge by volume", c.Charge.Volume > 0)
		note("charge by depth", c.Charge.Depth > 0)
		note("warm stove", c.Warm > 0)
		note("water as warm as the air, no wind", c.Pot != nil && c.Water.Temperature == c.Air.Temperature && c.Air.Wind == 0 && c.Warm == 0)
		for _, a := range c.Schedule {
			note(string(a.Do), true)
			note("after "+string(a.After), true)
		}
		for _, s := range []string{"softwood pellets", "twigs", "rice husk", "nut shells", "softwood chips", "sticks", "charcoal"} {
			note(s, c.Fuel.Species == s)
		}
	}
	for what, n := range seen {
		if n < many/200 {
			t.Errorf("%s: only %d of %d firings", what, n, many)
		}
	}
}

func anyRow(d *stove.Design, is func(stove.Row) bool) bool {
	for _, r := range d.Rows {
		if is(r) {
			return true
		}
	}
	return false
}

// TestFile: a random firing survives the design file.
func TestFile(t *testing.T) {
	for seed := range uint64(100) {
		f := For(t, seed)
		var b bytes.Buffer
		if err := firing.Write(&b, f, firing.Options{Units: quantity.Metric}); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		g, err := firing.Read(bytes.NewReader(b.Bytes()), "random.toml")
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		if g.Assumed = f.Assumed; !reflect.DeepEqual(f, g) {
			t.Errorf("seed %d: the design file gives another firing back", seed)
		}
	}
}

func TestCloneSharesNothing(t *testing.T) {
	for seed := range uint64(50) {
		f := For(t, seed)
		g := Clone(f)
		if !reflect.DeepEqual(f, g) {
			t.Fatalf("seed %d: a copy differs", seed)
		}
		g.Design.Stand.Height *= 2
		for i := range g.Design.Rows {
			g.Design.Rows[i].Count++
		}
		if g.Conditions.Pot != nil {
			g.Conditions.Pot.Mass++
		}
		for i := range g.Conditions.Schedule {
			g.Conditions.Schedule[i].At++
		}
		if !reflect.DeepEqual(f, For(t, seed)) {
			t.Fatalf("seed %d: a change of the copy changed the firing", seed)
		}
	}
}
