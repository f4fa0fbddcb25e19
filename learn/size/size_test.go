package size

import (
	"bytes"
	"context"
	"errors"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"toplit/firing"
	"toplit/physics/bed"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// few is enough to see that a result holds together; how good it is is seen
// with more (docs/model/sizing.md).
var few = Options{Samples: 16, own: &effort{trials: 24, more: 4, field: 2, coarse: 6, medium: 12}}

func drills(t testing.TB, names ...string) []catalogue.Drill {
	t.Helper()
	var list []catalogue.Drill
	for _, n := range names {
		d, err := catalogue.ParseDrill(n)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, d)
	}
	return list
}

func TestWorlds(t *testing.T) {
	lid := true
	for name, w := range map[string]Wish{
		"drinks can": {
			FuelCan: Can{Diameter: 0.066, Height: 0.115}, AnyOuter: true, Pot: &Pot{Diameter: 0.1, Height: 0.09}, Water: firing.Water{Mass: 0.3},
			Drills: drills(t, "3 mm", "4 mm", "5 mm", "6 mm", "8 mm", "10 mm", "12 mm"),
		},
		"food cans": {
			Name: "404 in 603", FuelCan: Can{Name: "404x414"}, Outer: Can{Name: "603x700"}, Pot: &Pot{Lid: &lid}, Water: firing.Water{Mass: 1}, BoilIn: 600,
			Drills: drills(t, "1/8 in", "3/16 in", "7/32 in", "1/4 in", "3/8 in", "1/2 in"),
		},
		"paint cans": {
			FuelCan: Can{Name: "paint quart"}, Outer: Can{Name: "paint gallon"}, Pot: &Pot{}, Water: firing.Water{Mass: 0.5}, FlameFor: 1800,
			Starter: firing.Starter{Kind: "wood shavings"}, Altitude: 2000,
		},
		"chips": {
			FuelCan: Can{Name: "No. 10"}, AnyOuter: true, Fuel: firing.Fuel{Species: "softwood chips", Moisture: 0.10}, Pot: &Pot{Diameter: 0.2, Height: 0.15}, Water: firing.Water{Mass: 1},
			Charge: firing.Charge{Volume: 1.5e-3}, Also: map[string]string{"air.shelter": "windscreen"},
		},
		"no pot": {
			FuelCan: Can{Name: "404x700", Surface: stove.Oxidised}, AnyOuter: true, FlameFor: 1500,
		},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r, err := Design(context.Background(), w, few)
			if err != nil {
				t.Fatal(err)
			}
			holds(t, w, r)
			if name == "chips" && r.Firing.Conditions.Charge.Volume != 1.5e-3 {
				t.Errorf("a given charge became %+v", r.Firing.Conditions.Charge)
			}
			if name == "chips" && r.Firing.Conditions.Air.Shelter != firing.Windscreen {
				t.Errorf("shelter %q", r.Firing.Conditions.Air.Shelter)
			}
			if name == "no pot" && (r.Boil != nil || r.Firing.Design.Riser == nil) {
				t.Errorf("boil %v, riser %v", r.Boil, r.Firing.Design.Riser)
			}
			if name == "paint cans" && r.Firing.Conditions.Air.Pressure > 80e3 {
				t.Errorf("pressure %.0f Pa at 2000 m", r.Firing.Conditions.Air.Pressure)
			}
		})
	}
}

// holds checks what must be so of every result.
func holds(t *testing.T, w Wish, r *Result) {
	t.Helper()
	sound(t, r.Firing)
	list := w.Drills
	if len(list) == 0 {
		list, _ = catalogue.Drills("metric half")
	}
	for i, row := range r.Firing.Design.Rows {
		ok := false
		for _, d := range list {
			ok = ok || math.Abs(d.Diameter-row.Hole.Width) < 1e-9
		}
		if !ok || row.Hole.Shape != stove.Round {
			t.Errorf("row %d: no drill on hand makes a %s hole", i+1, row.Hole)
		}
		if row.Count%2 != 0 {
			t.Errorf("row %d: %d holes do not fold evenly", i+1, row.Count)
		}
	}
	starter := r.Firing.Conditions.Starter
	k, err := bed.StarterByName(starter.Kind)
	if err != nil || k.Covered(starter.Mass, r.Firing.Design.FuelCan.Area()) < 1-1e-9 {
		t.Errorf("%g kg of %s does not cover the top (%v)", starter.Mass, starter.Kind, err)
	}
	assumedAreReal(t, r.Firing)
	reasonsAreWritten(t, r)
	if len(r.Alternatives) != 2 {
		t.Errorf("%d alternatives", len(r.Alternatives))
	}
	seen := map[string]bool{}
	for _, a := range r.Alternatives {
		sound(t, a.Firing)
		d := firing.Difference(*r.Firing, *a.Firing)
		if len(d) == 0 || a.Change == "" || a.Trade == "" || a.Prediction == nil {
			t.Errorf("alternative %q does not differ or says nothing: %q %q", a.Name, a.Change, a.Trade)
		}
		if seen[a.Change] {
			t.Errorf("both alternatives are %q", a.Change)
		}
		seen[a.Change] = true
	}
	if p := r.Prediction; p == nil || p.Failed != 0 || p.Samples != few.Samples {
		t.Errorf("prediction %+v", p)
	}
	for _, x := range r.Targets {
		if x.Sentence == "" || x.Chance < 0 || x.Chance > 1 {
			t.Errorf("target %+v", x)
		}
		if !x.Met {
			found := false
			for _, s := range r.Warnings {
				found = found || s == x.Sentence
			}
			if !found {
				t.Errorf("the missed wish %q is no warning", x.Sentence)
			}
		}
	}
	if b := r.Boil; b != nil {
		if b.Chance < chance && b.Enough == 0 && !strings.Contains(b.Sentence, "no charge that fits this can boils it with 90 % chance") {
			t.Errorf("boils in %.2f and says %q", b.Chance, b.Sentence)
		}
		if b.Chance >= chance && b.Enough == 0 {
			t.Errorf("boils in %.2f and enough is none", b.Chance)
		}
	}
	if r.Burns <= 0 || r.Tried <= 0 {
		t.Errorf("%d tried, %d burns", r.Tried, r.Burns)
	}
}

// sound: the checks find no error, no hole is too near another, the charge lies
// below the jets, and the file that is written reads back to the same firing.
func sound(t *testing.T, f *firing.Firing) {
	t.Helper()
	for _, x := range firing.Check(*f) {
		if x.Severity == stove.Error || x.Severity == stove.Warning && strings.HasPrefix(x.Key, "row") {
			t.Errorf("%s: %s", x.Severity, x)
		}
	}
	jets, ok := f.Design.JetLevel()
	if l := f.Load(); !ok || l.Depth > jets-0.0095 || l.Mass <= 0 {
		t.Errorf("charge %+v under jets at %g (%v)", l, jets, ok)
	}
	var b bytes.Buffer
	if err := firing.Write(&b, f, firing.Options{}); err != nil {
		t.Fatal(err)
	}
	back, err := firing.Read(&b, "back")
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(back, f) {
		t.Errorf("written and read back it differs: %v", firing.Difference(*f, *back))
	}
}

func assumedAreReal(t *testing.T, f *firing.Firing) {
	t.Helper()
	known := map[string]bool{}
	for _, k := range firing.Keys() {
		known[k.Path()] = true
	}
	number := regexp.MustCompile(`\[[0-9]+\]`)
	for _, a := range f.Assumed {
		if !known[number.ReplaceAllString(a, "")] {
			t.Errorf("assumed %q is no key", a)
		}
	}
	for _, sized := range []string{"standoff", "ring.bore", "stand.height", "stand.gap", "charge.mass", "starter.mass", "row[1].count", "row[1].hole"} {
		for _, a := range f.Assumed {
			if a == sized {
				t.Errorf("%s is sized, not assumed", a)
			}
		}
	}
}

// reasonsAreWritten: every reason stands in the file above its key.
func reasonsAreWritten(t *testing.T, r *Result) {
	t.Helper()
	var b bytes.Buffer
	if err := firing.Write(&b, r.Firing, firing.Options{Reasons: r.Reasons, Bare: true}); err != nil {
		t.Fatal(err)
	}
	for key, why := range r.Reasons {
		if strings.TrimSpace(why) == "" || !strings.Contains(b.String(), "# "+why+"\n") {
			t.Errorf("the reason of %q is not written: %q", key, why)
		}
	}
	for _, key := range []string{"row[1]", "row[2]", "ring", "standoff", "charge", "starter"} {
		if !regexp.MustCompile(`[0-9]`).MatchString(r.Reasons[key]) {
			t.Errorf("reason of %s has no number: %q", key, r.Reasons[key])
		}
	}
	for i := range r.Firing.Design.Rows {
		if r.Reasons[row(i+1)] == "" {
			t.Errorf("row %d has no reason", i+1)
		}
	}
}

// TestSameWishSameDesign: whatever the number of workers and whatever was
// burned before.
func TestSameWishSameDesign(t *testing.T) {
	w := Wish{FuelCan: Can{Name: "No. 300"}, Pot: &Pot{Diameter: 0.1, Height: 0.09}, Water: firing.Water{Mass: 0.2}, Outer: Can{Name: "404x414"}}
	var first *Result
	for _, workers := range []int{1, 2} {
		o := few
		o.Workers = workers
		r, err := Design(context.Background(), w, o)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = r
			continue
		}
		if !reflect.DeepEqual(first.Firing, r.Firing) || first.Tried != r.Tried || first.Burns != r.Burns {
			t.Errorf("%d workers: %v", workers, firing.Difference(*first.Firing, *r.Firing))
		}
		if !reflect.DeepEqual(first.Prediction.Figures, r.Prediction.Figures) {
			t.Errorf("%d workers: other figures", workers)
		}
		if !reflect.DeepEqual(first.Reasons, r.Reasons) {
			t.Errorf("%d workers: other reasons", workers)
		}
		for i := range r.Alternatives {
			if first.Alternatives[i].Change != r.Alternatives[i].Change || first.Alternatives[i].Trade != r.Alternatives[i].Trade {
				t.Errorf("%d workers: other alternative %d", workers, i)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		wish Wish
		want string
	}{
		{Wish{}, "no fuel can"},
		{Wish{FuelCan: Can{Strip: 0.34}}, "no height"},
		{Wish{FuelCan: Can{Height: 0.1}}, "no diameter"},
		{Wish{FuelCan: Can{Strip: 0.3, Diameter: 0.1, Height: 0.1}}, "give one of them"},
		{Wish{FuelCan: Can{Name: "no such can"}}, "nearest are"},
		{Wish{FuelCan: Can{Name: "No. 3"}, BoilIn: 300}, "no pot"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Pot: &Pot{}, BoilIn: math.NaN()}, "boil time"},
		{Wish{FuelCan: Can{Name: "No. 3"}, FlameFor: 1e9}, "flame time"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Outer: Can{Name: "No. 2 1/2"}}, "does not go into"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Outer: Can{Diameter: 0.11, Height: 0.14}}, "at least 3 mm"},
		{Wish{FuelCan: Can{Name: "404x700"}, Outer: Can{Name: "502x510"}}, "no air would be led"},
		{Wish{FuelCan: Can{Name: "No. 3", Metal: stove.Aluminium}}, "aluminium sags"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Fuel: firing.Fuel{Moisture: 0.5}}, "so wet"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Fuel: firing.Fuel{Species: "pine cones"}}, "less than a bed"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Starter: firing.Starter{Kind: "petrol"}}, "refused"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Also: map[string]string{"row.count": "12"}}, "cannot be given"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Also: map[string]string{"ring.bore": "50 mm"}}, "cannot be given"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Also: map[string]string{"air.breeze": "1 m/s"}}, "unknown key"},
		{Wish{FuelCan: Can{Name: "No. 3"}, Drills: []catalogue.Drill{{Name: "?"}}}, "is none"},
		{Wish{FuelCan: Can{Diameter: 0.5, Height: 0.5}}, "outside what is sized"},
	} {
		_, err := Design(context.Background(), c.wish, few)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, want %q", c.wish, err, c.want)
		}
	}
	if _, err := Design(context.Background(), Wish{FuelCan: Can{Name: "No. 3"}}, Options{Samples: 3}); err == nil {
		t.Error("3 samples were taken")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Design(ctx, Wish{FuelCan: Can{Name: "No. 3"}}, few); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// TestOutOfReach: what cannot be had is said, with the nearest there is.
func TestOutOfReach(t *testing.T) {
	t.Parallel()
	w := Wish{FuelCan: Can{Name: "No. 300"}, Outer: Can{Name: "404x414"}, Pot: &Pot{Diameter: 0.16, Height: 0.12}, Water: firing.Water{Mass: 2}, BoilIn: 60, Charge: firing.Charge{Mass: 0.4}}
	r, err := Design(context.Background(), w, few)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, r.Firing)
	all := strings.Join(append(r.Warnings, r.Notes...), "\n")
	for _, want := range []string{"Boil within 1:00 wished", "does not fit", "no charge that fits this can boils it"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not said:\n%s", want, all)
		}
	}
	if len(r.Targets) != 1 || r.Targets[0].Met || r.Targets[0].Chance != 0 {
		t.Errorf("targets %+v", r.Targets)
	}
}
