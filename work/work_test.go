package work

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"toplit/firing"
	"toplit/quantity"
	"toplit/sim"
)

func demo(t *testing.T, name string) *Design {
	t.Helper()
	text, err := demoFiles.ReadFile("demo/" + name)
	if err != nil {
		t.Fatal(err)
	}
	d, err := Open(bytes.NewReader(text), name)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDemoStovesAreInventedSaySoAndAreAccepted(t *testing.T) {
	dir := t.TempDir()
	done, err := Demo(DemoOptions{Dir: dir})
	if err != nil {
		t.Fatal(err)
	}
	if len(done.Files) < 3 {
		t.Errorf("%d files", len(done.Files))
	}
	for _, f := range done.Files {
		text, err := os.ReadFile(f.Path)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(string(text), "# Invented") || !strings.HasSuffix(f.Name, "(invented)") {
			t.Errorf("%s does not say that it is invented", f.Path)
		}
		if !strings.Contains(string(text), "outdoors") {
			t.Errorf("%s does not say outdoors", f.Path)
		}
		c := Check(bytes.NewReader(text), f.Path)
		if err := c.Refused(); err != nil {
			t.Error(err)
		}
		for _, p := range c.of("warning") {
			t.Errorf("a demo with a warning: %v", p)
		}
	}
}

func TestPredictionInJSON(t *testing.T) {
	p, err := Predict(context.Background(), demo(t, "tea-stove.toml"), PredictOptions{Samples: 8})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := p.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	var v struct {
		Format  int
		Samples int
		Seed    uint64
		Model   string
		Design  string
		Moments map[string]map[string]*float64
		Figures map[string]map[string]*float64
		Curves  map[string]json.RawMessage
		Ledger  map[string]float64
	}
	if err := json.Unmarshal(b.Bytes(), &v); err != nil {
		t.Fatal(err)
	}
	if v.Format != 1 || v.Samples != 8 || v.Seed != 1 || v.Model != sim.ModelVersion || v.Design != "tea stove (invented)" {
		t.Errorf("head: %+v", v)
	}
	for i, info := range sim.Figures() {
		in, out := v.Figures, v.Moments
		if info.Moment {
			in, out = out, in
		}
		q, ok := in[info.Key]
		if _, twice := out[info.Key]; twice || !ok {
			t.Errorf("%s: %v %v", info.Key, ok, twice)
			continue
		}
		want := p.Figures[i]
		same := func(got *float64, want float64) bool {
			if math.IsNaN(want) {
				return got == nil
			}
			return got != nil && math.Abs(*got-want) <= 1e-5*math.Abs(want)
		}
		if !same(q["p10"], want.P10) || !same(q["p50"], want.P50) || !same(q["p90"], want.P90) || !same(q["share_never"], want.Never) {
			t.Errorf("%s: %v, want %v", info.Key, q, want)
		}
	}
	var times []float64
	if err := json.Unmarshal(v.Curves["time_s"], &times); err != nil || len(times) != len(p.Time) {
		t.Errorf("time_s: %d of %d, %v", len(times), len(p.Time), err)
	}
	for _, c := range p.Curves {
		var q map[string][]*float64
		if err := json.Unmarshal(v.Curves[c.Key], &q); err != nil || len(q["p10"]) != len(times) || len(q["p50"]) != len(times) || len(q["p90"]) != len(times) {
			t.Errorf("curve %s: %v", c.Key, err)
		}
	}
	// Every stream of heat is there and they add up to what went in.
	sum := 0.0
	for k, x := range v.Ledger {
		if strings.HasSuffix(k, "_J") && k != "fuel_J" {
			sum += x
		}
	}
	if math.Abs(sum-v.Ledger["fuel_J"]) > 1e-4*v.Ledger["fuel_J"] {
		t.Errorf("streams of heat add up to %g J of %g", sum, v.Ledger["fuel_J"])
	}
}

// What is drawn must name every stream of the ledger, or the picture would
// not add up.
func TestHeatDrawsTheWholeLedger(t *testing.T) {
	p, err := Predict(context.Background(), demo(t, "tea-stove.toml"), PredictOptions{Samples: 2})
	if err != nil {
		t.Fatal(err)
	}
	out := 0.0
	for _, s := range p.heat().Out {
		out += s.Energy
	}
	if math.Abs(out-p.Ledger.Fuel) > 1e-6*p.Ledger.Fuel {
		t.Errorf("streams add up to %g J of %g", out, p.Ledger.Fuel)
	}
}

func TestPotOnFollowsTheSchedule(t *testing.T) {
	d := demo(t, "tea-stove.toml")
	d.Firing.Conditions.Schedule = []firing.Action{{Do: firing.PotOn, At: 60, After: firing.JetsLit}}
	p, err := Predict(context.Background(), d, PredictOptions{Samples: 4})
	if err != nil {
		t.Fatal(err)
	}
	if j := p.Figures[sim.FJetsLit]; math.Abs(p.PotOn.P50-j.P50-60) > 1e-9 {
		t.Errorf("pot on %g, jets lit %g", p.PotOn.P50, j.P50)
	}
	// In every burn boil is pot on and the time to boil.
	on, boil, took := p.Values(sim.FJetsLit), p.Values(sim.FBoil), p.Values(sim.FTimeToBoil)
	for i := range on {
		if !math.IsNaN(boil[i]) && math.Abs(on[i]+60+took[i]-boil[i]) > 1e-3 {
			t.Errorf("burn %d: %g + 60 + %g is not %g", i, on[i], took[i], boil[i])
		}
	}
	d.Firing.Conditions.Schedule = []firing.Action{{Do: firing.PotOn, At: 90}}
	if q := potOn(p.Prediction, d.Firing); q.P10 != 90 || q.P90 != 90 || q.Never != 0 {
		t.Errorf("pot on at 90 s: %v", q)
	}
	d.Firing.Conditions.Pot = nil
	if q := potOn(p.Prediction, d.Firing); q.Never != 1 || !math.IsNaN(q.P50) {
		t.Errorf("no pot: %v", q)
	}
}

func TestRefusedIsNotPredicted(t *testing.T) {
	d := demo(t, "tea-stove.toml")
	d.Findings = append(d.Findings, firing.Problem{Severity: "error", File: "x", Key: "k", Text: "bad"})
	_, err := Predict(context.Background(), d, PredictOptions{Samples: 4})
	var problems firing.Problems
	if !errors.As(err, &problems) || len(problems) != 1 {
		t.Errorf("got %v", err)
	}
}

func TestStoppedPredictionIsAnError(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Predict(ctx, demo(t, "tea-stove.toml"), PredictOptions{Samples: 64}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

func TestProgressRises(t *testing.T) {
	last := 0
	_, err := Predict(context.Background(), demo(t, "tea-stove.toml"), PredictOptions{Samples: 16, Progress: func(done, all int) {
		if done <= last || all != 16 {
			t.Errorf("%d of %d after %d", done, all, last)
		}
		last = done
	}})
	if err != nil || last != 16 {
		t.Errorf("ended at %d, %v", last, err)
	}
}

func TestDigits(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 1: "1", -2.5: "-2.5", 1234567: "1234570", 0.000123456789: "0.000123457", 1.23e-7: "1.23e-07", 293.15: "293.15",
		1e15: "1e+15", math.NaN(): "null", math.Inf(1): "null", math.Copysign(0, -1): "0",
	} {
		if got := digits(v); got != want {
			t.Errorf("digits(%v) = %s, want %s", v, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "v")
		var back float64
		if err := json.Unmarshal([]byte(digits(v)), &back); err != nil {
			t.Fatal(err)
		}
		if math.Abs(back-v) > 5.001e-6*math.Abs(v) {
			t.Fatalf("%g came back as %g", v, back)
		}
	})
}

// Whatever a file is called or a finding quotes, the JSON can be read.
func TestTextInJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		var b bytes.Buffer
		if err := writeJSON(&b, object{{"a", s}, {"b", list{s, object{}}}, {"c", list{}}}); err != nil {
			t.Fatal(err)
		}
		var v struct{ A string }
		if err := json.Unmarshal(b.Bytes(), &v); err != nil {
			t.Fatalf("%v in %s", err, b.String())
		}
		if v.A != strings.ToValidUTF8(s, "\ufffd") && v.A != s {
			t.Fatalf("%q came back as %q", s, v.A)
		}
	})
}

func TestWrapKeepsEveryWordAndTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-z0-9]{1,12}`), 1, 40).Draw(t, "words")
		lines := wrap(strings.Join(words, " "), 30)
		if got := strings.Join(lines, " "); got != strings.Join(words, " ") {
			t.Fatalf("got %q", got)
		}
		for _, l := range lines {
			if len(l) > 30 {
				t.Fatalf("%q is wider than 30", l)
			}
		}
	})
	if got := wrap("a wall of 0.25 mm", 14); len(got) != 2 || got[1] != "0.25 mm" {
		t.Errorf("an amount is torn: %q", got)
	}
}

func TestSpan(t *testing.T) {
	for _, c := range [][3]string{
		{"420 W", "1.2 kW", "420 W to 1.2 kW"},
		{"1.0 kW", "1.2 kW", "1.0 to 1.2 kW"},
		{"4:10", "5:20", "4:10 to 5:20"},
		{"1.2", "1.2", ""},
	} {
		if got := span(c[0], c[1]); got != c[2] {
			t.Errorf("span(%q, %q) = %q", c[0], c[1], got)
		}
	}
}

func TestSentencesInTheReadersUnits(t *testing.T) {
	const s = "The flame would stand 132 mm tall, the base may reach 751 °C; wait 5 min."
	if got := inUnits(s, quantity.Metric); got != s {
		t.Errorf("got %q", got)
	}
	if got := inUnits(s, quantity.US); got != "The flame would stand 5.2 in tall, the base may reach 1400 °F; wait 5 min." {
		t.Errorf("got %q", got)
	}
}

func TestClock(t *testing.T) {
	for s, want := range map[float64]string{0: "0:00", 39.4: "0:39", 59.6: "1:00", 3599.4: "59:59", 3599.6: "1:00:00", 7325: "2:02:05", math.NaN(): "never"} {
		if got := clock(s); got != want {
			t.Errorf("clock(%g) = %s, want %s", s, got, want)
		}
	}
}

// A parameter the model gains later is told in the model's words.
func TestDoubtsHaveWords(t *testing.T) {
	own := 0
	for _, p := range sim.Priors() {
		if s := doubtful(sim.Driver{Parameter: p.Name, What: p.What}); s != "the "+p.What {
			own++
		}
	}
	if own < 20 {
		t.Errorf("only %d parameters have words for the maker: have they been renamed?", own)
	}
	if got := doubtful(sim.Driver{Parameter: "new", What: "depth of something"}); got != "the depth of something" {
		t.Errorf("got %q", got)
	}
}

func TestCatalogueListsEveryKind(t *testing.T) {
	for _, kind := range CatalogueKinds() {
		l, err := Catalogue(CatalogueOptions{Kind: kind})
		if err != nil {
			t.Fatal(err)
		}
		if len(l.Rows) == 0 {
			t.Errorf("%s is empty", kind)
		}
		for _, r := range l.Rows {
			if len(r) != len(l.Columns) {
				t.Fatalf("%s: %d values under %d columns", kind, len(r), len(l.Columns))
			}
			for i, v := range r {
				if f, ok := v.(float64); ok && (math.IsNaN(f) || math.IsInf(f, 0)) {
					t.Errorf("%s: %v: %s is %g", kind, r[0], l.Columns[i].Key, f)
				}
			}
			// What the list shows can be looked up by its first word.
			name, ok := r[0].(string)
			if !ok {
				t.Fatalf("%s: first column is no text", kind)
			}
			one, err := Catalogue(CatalogueOptions{Kind: kind, Name: name})
			if err != nil {
				t.Errorf("%s %s: %v", kind, name, err)
			} else if kind != "drills" && (len(one.Rows) != 1 || one.Rows[0][0] != r[0]) {
				t.Errorf("%s %s finds %v", kind, name, one.Rows[0][0])
			}
		}
		for _, sys := range []quantity.System{quantity.Metric, quantity.US} {
			var b bytes.Buffer
			if err := l.WriteText(&b, sys); err != nil {
				t.Fatal(err)
			}
			for _, line := range strings.Split(b.String(), "\n") {
				if len([]rune(line)) > lineWidth {
					t.Errorf("%s: wider than %d: %s", kind, lineWidth, line)
				}
			}
		}
	}
}

func TestFilesAllOrNone(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	put := func(text string) func(w *Files, path string) error {
		return func(f *Files, path string) error {
			return f.Open(path, writeText(text))
		}
	}
	if err := os.WriteFile(at("old"), []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(at("old"), at("link")); err != nil {
		t.Fatal(err)
	}

	// The second cannot be written: the first is not there either.
	var f Files
	if err := put("new")(&f, at("link")); err != nil {
		t.Fatal(err)
	}
	if err := f.Open(at("bad"), failing); err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err == nil || !strings.Contains(err.Error(), "no ink") {
		t.Errorf("got %v", err)
	}
	names(t, dir, "link", "old")
	contains(t, at("old"), "old")

	// A link stays one, and the file keeps its mode.
	if err := put("new")(&f, at("link")); err != nil {
		t.Fatal(err)
	}
	if err := f.Commit(); err != nil {
		t.Fatal(err)
	}
	names(t, dir, "link", "old")
	contains(t, at("old"), "new")
	if info, err := os.Lstat(at("link")); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("link is none any more: %v", err)
	}
	if info, err := os.Stat(at("old")); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}

	// Not over what is read, by whatever name.
	for _, path := range []string{at("old"), at("link"), filepath.Join(dir, ".", "old")} {
		if err := f.Open(path, writeText("x"), at("link")); err == nil {
			t.Errorf("%s may be written over", path)
		}
	}
	// Not two into one.
	if err := put("a")(&f, at("a")); err != nil {
		t.Fatal(err)
	}
	if err := put("b")(&f, filepath.Join(dir, "x", "..", "a")); err == nil {
		t.Error("two files of one name")
	}
	f.Discard()
	names(t, dir, "link", "old")
}
