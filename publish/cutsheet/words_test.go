package cutsheet

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"toplit/drawing"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

func text(t *testing.T, s *Set) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteText(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// textOf is the words of a shape that is text.
func textOf(x drawing.Shape) (string, bool) {
	t, ok := x.(drawing.Text)
	return t.Content, ok
}

// TestCautionsAlways: every set, whatever it holds, carries the cautions of
// cutting and the outdoor line, in words, on paper and on the phone.
func TestCautionsAlways(t *testing.T) {
	parent := tea()
	for name, s := range map[string]*Set{
		"whole": plan(t, tea(), Options{}), "nothing left": plan(t, tea(), Options{Parent: &parent}),
	} {
		var h bytes.Buffer
		if err := s.WriteHTML(&h); err != nil {
			t.Fatal(err)
		}
		words := ""
		for _, p := range s.Pages() {
			for _, v := range p.Views {
				for _, l := range v.Sheet.Layers {
					for _, x := range l.Shapes {
						if w, ok := textOf(x); ok {
							words += w + " "
						}
					}
				}
			}
		}
		for form, got := range map[string]string{"text": strings.Join(strings.Fields(text(t, s)), " "), "page": h.String(), "paper": words} {
			for _, want := range []string{"gloves", "eye protection", "outdoors only", "carbon monoxide", "No galvanised", "No aluminium", "Burn coatings off outdoors", "local fire rules"} {
				if !strings.Contains(got, want) {
					t.Errorf("%s, %s: no %q", name, form, want)
				}
			}
		}
	}
}

// TestEveryHoleIsNumbered: each hole to make has its number on paper, and each
// row its drill, by a hole or in its words.
func TestEveryHoleIsNumbered(t *testing.T) {
	drills := 0
	for seed := range uint64(150) {
		s, _ := planned(t, seed, Options{})
		for _, p := range s.Parts {
			have, all := map[string]bool{}, ""
			for _, x := range s.draw(p, drawing.Point{}).note {
				if w, ok := textOf(x); ok {
					have[w] = true
					all += w + "\n"
				}
			}
			for _, h := range p.Holes {
				if !have[fmt.Sprint(h.Number)] {
					t.Errorf("seed %d: %s hole %d has no number", seed, p.Name, h.Number)
				}
				if have[s.drillWord(h)] {
					drills++
				} else if h.round() && !strings.Contains(all, s.Rows[h.Row].Drill) {
					t.Errorf("seed %d: %s: nothing says the drill of hole %d", seed, p.Name, h.Number)
				}
			}
		}
	}
	if drills == 0 {
		t.Error("no drill beside a hole")
	}
}

// TestSubstitutedDrills: the nearest drill on hand, the area it gives, the way
// to it and what the caller says of its effect are all told.
func TestSubstitutedDrills(t *testing.T) {
	d := changed(func(d *stove.Design) {
		d.Rows[1].Hole.Width = 6.35e-3
		d.Rows[2].Hole.Width = 30e-3
		d.Rows[2].Count = 5
		d.Rows[2].Height = 25e-3
	})
	s := plan(t, d, Options{Drills: drillsOnHand(t, "metric half"), Effect: "With these drills the boil comes 9 s later (invented)."})
	r := s.Rows[1]
	if r.Drill != "6.5 mm" || math.Abs(r.Off-(6.5*6.5/6.35/6.35-1)) > 1e-9 || r.Cut.Width != 6.5 || s.Design.Rows[1].Hole.Width != 6.5e-3 {
		t.Errorf("secondary row %+v, cut %g m", r, s.Design.Rows[1].Hole.Width)
	}
	if strings.Join(r.Ways, ", ") != "3 mm, 6 mm, 6.5 mm" || r.Stop != "6 mm" || math.Abs(r.StopBy-(1-36/42.25)) > 1e-9 {
		t.Errorf("ways %v, stop at %s (%g)", r.Ways, r.Stop, r.StopBy)
	}
	if in := s.Rows[2]; in.Drill != "" || in.Cut.Width != 30 {
		t.Errorf("30 mm without a drill near: %+v", in)
	}
	got := text(t, s)
	for _, want := range []string{"+5 %", "9 s later", "13 mm, then", "none near"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	if body := partOf(t, s, "fuel can body"); body.Holes[0].Width != 6.5 {
		t.Errorf("drawn hole of %g mm", body.Holes[0].Width)
	}
}

// TestDrillOrder: rows are drilled from thin to thick, each from a thin first
// drill in steps no wider than twice.
func TestDrillOrder(t *testing.T) {
	s := plan(t, tea(), Options{Drills: drillsOnHand(t, "metric half")})
	last := 0.0
	for _, i := range s.bySize() {
		r := s.Rows[i]
		if r.Cut.Width < last {
			t.Errorf("row of %g mm after one of %g mm", r.Cut.Width, last)
		}
		last = r.Cut.Width
		was := 0.0
		for _, n := range r.Ways {
			d := drillsOnHand(t, n)[0].Diameter * 1e3
			if was == 0 && d > pilotMost || was > 0 && d > stepWide*was+1e-9 {
				t.Errorf("%s: %g mm after %g mm", r.Label, d, was)
			}
			was = d
		}
	}
}

func TestPercent(t *testing.T) {
	for v, want := range map[float64]string{0: "0 %", 0.0304: "+3 %", -0.012: "−1.2 %", 0.0004: "0 %", -0.163: "−16 %", 0.0047: "+0.5 %"} {
		if got := percent(v); got != want {
			t.Errorf("%g is %q, want %q", v, got, want)
		}
	}
}

// TestMarks: marks count from the seam, inches are the nearest 1/32 and the
// worst of them is told.
func TestMarks(t *testing.T) {
	for seed := range uint64(120) {
		s, _ := planned(t, seed, Options{})
		for _, p := range s.Parts {
			if p.Kind != Wrap {
				continue
			}
			marks, worst := Marks(p)
			top := 0.0
			for _, m := range marks {
				in := 0.0
				for _, f := range strings.Fields(strings.TrimSuffix(m.Inch, " in")) {
					a, b, cut := strings.Cut(f, "/")
					var x, y float64
					fmt.Sscan(a, &x)
					if y = 1; cut {
						fmt.Sscan(b, &y)
					}
					in += x / y
				}
				off := in*25.4 - m.Seam
				if math.Abs(off-m.Off) > 1e-6 || math.Abs(off) > 25.4/64+1e-6 || math.Abs(in*32-math.Round(in*32)) > 1e-9 {
					t.Errorf("seed %d: %g mm as %s: off by %g, said %g", seed, m.Seam, m.Inch, off, m.Off)
				}
				top = math.Max(top, math.Abs(off))
			}
			if math.Abs(top-worst) > 1e-6 {
				t.Errorf("seed %d: worst %g, said %g", seed, top, worst)
			}
		}
	}
}

// TestFolding: folding a strip gives the holes their places: creases of a
// strip that begins at the first hole.
func TestFolding(t *testing.T) {
	for n, times := range map[int]int{4: 2, 8: 3, 16: 4, 32: 5} {
		got, ok := Folds(n)
		if !ok || got != times {
			t.Errorf("%d holes: %d folds, want %d", n, got, times)
		}
		s := plan(t, changed(func(d *stove.Design) { d.Rows[1].Count, d.Rows[1].Hole.Width = n, 4e-3 }), Options{})
		p := partOf(t, s, "fuel can body")
		f := s.folding(p, 1)
		if !strings.Contains(f, fmt.Sprintf("in half %d times", times)) || !strings.Contains(f, place(p.Around/float64(n)/2, 0)+" to the right of the seam") {
			t.Errorf("%d holes: %s", n, f)
		}
		for k, h := range p.Holes {
			if crease := p.Around / float64(n) * float64(k); math.Abs(h.X-p.Holes[0].X-crease) > 1e-9 {
				t.Errorf("%d holes: hole %d lies %g mm from the first, its crease %g", n, k+1, h.X-p.Holes[0].X, crease)
			}
		}
	}
	for _, n := range []int{1, 2, 6, 12, 20, 64} {
		if _, ok := Folds(n); ok {
			t.Errorf("%d holes by folding", n)
		}
	}
}

// TestHTML: one file without scripts or anything from elsewhere, every link
// leading somewhere, every hole to make there once.
func TestHTML(t *testing.T) {
	ids, links := regexp.MustCompile(`id="([^"]+)"`), regexp.MustCompile(`href="([^"]+)"`)
	for seed := range uint64(40) {
		s, _ := planned(t, seed, Options{Units: quantity.System(seed % 2)})
		var b bytes.Buffer
		if err := s.WriteHTML(&b); err != nil {
			t.Fatal(err)
		}
		h := b.String()
		for _, no := range []string{"<script", "http:", "https:", "src=", "@import", "onclick"} {
			if strings.Contains(h, no) {
				t.Errorf("seed %d: holds %q", seed, no)
			}
		}
		have := map[string]bool{}
		for _, m := range ids.FindAllStringSubmatch(h, -1) {
			if have[m[1]] {
				t.Errorf("seed %d: id %s twice", seed, m[1])
			}
			have[m[1]] = true
		}
		for _, m := range links.FindAllStringSubmatch(h, -1) {
			if !strings.HasPrefix(m[1], "#") || !have[m[1][1:]] {
				t.Errorf("seed %d: link to %s leads nowhere", seed, m[1])
			}
		}
		for _, p := range s.Parts {
			for _, x := range p.Holes {
				if !have[fmt.Sprintf("%s%d", p.Letter, x.Number)] {
					t.Errorf("seed %d: %s hole %d is missing", seed, p.Name, x.Number)
				}
			}
		}
	}
}

// TestTextIsNarrow: no line runs over 80 columns.
func TestTextIsNarrow(t *testing.T) {
	for seed := range uint64(60) {
		s, _ := planned(t, seed, Options{Units: quantity.System(seed % 2), Drills: drillsOnHand(t, "metric half, fractional")})
		for _, line := range strings.Split(text(t, s), "\n") {
			if n := len([]rune(line)); n > 80 {
				t.Errorf("seed %d: %d columns: %s", seed, n, line)
				break
			}
		}
	}
}

// TestNamesAreText: a name of the maker's cannot become part of the page.
func TestNamesAreText(t *testing.T) {
	s := plan(t, changed(func(d *stove.Design) { d.Name, d.Rows[1].Name = "<script>x</script>", `"><b>` }), Options{})
	var b bytes.Buffer
	if err := s.WriteHTML(&b); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "<script>x") || strings.Contains(b.String(), `"><b>`) {
		t.Error("a name came out as markup")
	}
}

func TestParse(t *testing.T) {
	if b, err := ParseBead("Fuel can body = 30 mm..1 1/2 in"); err != nil || b != (Bead{stove.FuelBody, 0.03, 0.0381}) {
		t.Errorf("%v, %v", b, err)
	}
	for _, text := range []string{"fuel can body", "lid=1 mm..2 mm", "fuel can body=2 mm..1 mm", "fuel can body=a..2 mm", "fuel can body=1 mm..b"} {
		if _, err := ParseBead(text); err == nil || !strings.Contains(err.Error(), "such as") {
			t.Errorf("%q: %v", text, err)
		}
	}
	if d, err := ParseDrills("metric half, 1/4 in, #7"); err != nil || len(d) != 27 {
		t.Errorf("%d drills, %v", len(d), err)
	}
	if d, err := ParseDrills("3, 4, 5 mm, 1/8, 1/4 in"); err != nil || len(d) != 5 || d[0].Diameter != 3e-3 || math.Abs(d[3].Diameter-3.175e-3) > 1e-9 {
		t.Errorf("%v, %v", d, err)
	}
	if s, err := ParseSheet("300 x 200 mm"); err != nil || s != (Sheet{0.3, 0.2}) {
		t.Errorf("%v, %v", s, err)
	}
	if s, err := ParseSheet("12 in × 8 in"); err != nil || s != (Sheet{0.3048, 0.2032}) {
		t.Errorf("%v, %v", s, err)
	}
	for _, text := range []string{"", "300", "a x b", "300 x -2 mm"} {
		if _, err := ParseSheet(text); err == nil || !strings.Contains(err.Error(), "such as") {
			t.Errorf("sheet %q: %v", text, err)
		}
	}
	for _, text := range []string{"", "17 furlongs", "metric third"} {
		if _, err := ParseDrills(text); err == nil || !strings.Contains(err.Error(), "metric half") {
			t.Errorf("%q: %v", text, err)
		}
	}
	for want, o := range map[string]Options{
		"paper thickness": {Thickness: 5e-3}, "seam": {Seam: 0.1}, "sheet": {Sheet: Sheet{20, 1}}, "too small": {Paper: Paper{"A6", 105, 148}}, "97 to 103": {Bar: PrintedBar{90, 100}},
	} {
		if _, err := Plan(tea(), o); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want %q", o, err, want)
		}
	}
}

// TestCodeIsSaid: where the diameter comes from the can's code the strip says
// so, and that the closing scale is to be trusted.
func TestCodeIsSaid(t *testing.T) {
	d := tea()
	c, err := catalogue.Can("401x411")
	if err != nil {
		t.Fatal(err)
	}
	d.FuelCan.Code, d.FuelCan.Diameter, d.FuelCan.Height = c.Code, c.BodyOutside, c.HeightOverall
	d.Rows[1].Height = 100e-3
	s := plan(t, d, Options{})
	if got := strings.Join(s.stripWords(partOf(t, s, "fuel can body")), " "); !strings.Contains(got, "from the code 401x411: trust the closing scale") {
		t.Error(got)
	}
	d.FuelCan.Diameter += 0.3e-3 // measured, whatever the code says
	s = plan(t, d, Options{})
	if got := strings.Join(s.stripWords(partOf(t, s, "fuel can body")), " "); strings.Contains(got, "code") {
		t.Error(got)
	}
}
