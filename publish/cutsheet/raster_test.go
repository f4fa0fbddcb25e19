package cutsheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"testing"
)

// gray is one page drawn at 254 dpi: ten dots to the millimetre.
type gray struct {
	w, h int
	dots []byte
}

const perMM = 10.0 // dots

// ink is how dark the page is at a place in dots from its upper left corner,
// 0 to 1, between dots by their four neighbours.
func (g gray) ink(x, y float64) float64 {
	x, y = x-0.5, y-0.5 // middles of dots
	i, j := int(math.Floor(x)), int(math.Floor(y))
	if i < 0 || j < 0 || i+1 >= g.w || j+1 >= g.h {
		return 0
	}
	fx, fy := x-float64(i), y-float64(j)
	at := func(i, j int) float64 { return 1 - float64(g.dots[j*g.w+i])/255 }
	return (at(i, j)*(1-fx)+at(i+1, j)*fx)*(1-fy) + (at(i, j+1)*(1-fx)+at(i+1, j+1)*fx)*fy
}

// rasters draws every page of a PDF with poppler.
func rasters(t *testing.T, data []byte) []gray {
	t.Helper()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm is not installed (poppler-utils)")
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "s.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", "254", "-gray", file, filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, out)
	}
	names, err := filepath.Glob(filepath.Join(dir, "p-*.pgm"))
	if err != nil {
		t.Fatal(err)
	}
	sort.Strings(names)
	var pages []gray
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var g gray
		var most int
		if _, err := fmt.Sscanf(string(b[:min(len(b), 60)]), "P5\n%d %d\n%d\n", &g.w, &g.h, &most); err != nil || most != 255 {
			t.Fatalf("%s: no grey picture: %v", n, err)
		}
		g.dots = b[len(b)-g.w*g.h:]
		pages = append(pages, g)
	}
	return pages
}

// measured is how far a drawn outline lies from where it was meant.
type measured struct {
	dx, dy, wide float64 // of the middle, and of every edge outwards [mm]
	found        float64 // share of the outline at which ink was found
}

// measure looks along the outline of a hole for its line: across the edge,
// 0.45 mm to both sides, where is the ink. Where the cross or the row's line runs
// is left out, and so is what disagrees with the rest (a number, another
// line). to turns a place of the part into dots.
func (g gray) measure(h Hole, to func(x, y float64) (float64, float64)) measured {
	type look struct{ nx, ny, off float64 }
	var all []look
	tried := 0
	off := math.Min(0.4, h.narrow()/8)
	for _, e := range trace(h, math.Min(0.25, h.narrow()/20)) {
		// Crosses run through the middle of round holes and the ends of slots.
		if math.Abs(e.x-h.X) < off || math.Abs(e.y-h.Y) < off {
			continue
		}
		if h.Shape == "slot" {
			c := math.Abs(math.Abs((e.x-h.X)*math.Cos(h.Turn)+(e.y-h.Y)*math.Sin(h.Turn)) - math.Abs(h.Width-h.Height)/2)
			d := math.Abs(math.Abs((e.y-h.Y)*math.Cos(h.Turn)-(e.x-h.X)*math.Sin(h.Turn)) - math.Abs(h.Width-h.Height)/2)
			if c < off || d < off {
				continue
			}
		}
		tried++
		sum, mean := 0.0, 0.0
		const reach, step = 0.45, 0.02
		for k := -reach; k <= reach+1e-9; k += step {
			v := g.ink(to(e.x+k*e.nx, e.y+k*e.ny))
			sum += v
			mean += v * k
		}
		if sum*step < 0.06 { // thinner than any pen
			continue
		}
		all = append(all, look{e.nx, e.ny, mean / sum})
	}
	m := measured{}
	if tried == 0 {
		return m
	}
	// Least squares for a shift and a widening, again without what lies far
	// from it.
	for range 4 {
		var a [3][4]float64
		n := 0
		for _, l := range all {
			if math.Abs(l.off-m.dx*l.nx-m.dy*l.ny-m.wide) > 0.12 {
				continue
			}
			n++
			row := [3]float64{l.nx, l.ny, 1}
			for i := range 3 {
				for j := range 3 {
					a[i][j] += row[i] * row[j]
				}
				a[i][3] += row[i] * l.off
			}
		}
		m.found = float64(n) / float64(tried)
		if n < 6 {
			return m
		}
		x, ok := solve3(a)
		if !ok {
			return measured{}
		}
		m.dx, m.dy, m.wide = x[0], x[1], x[2]
	}
	return m
}

func solve3(a [3][4]float64) (x [3]float64, ok bool) {
	for i := range 3 {
		p := i
		for j := i; j < 3; j++ {
			if math.Abs(a[j][i]) > math.Abs(a[p][i]) {
				p = j
			}
		}
		a[i], a[p] = a[p], a[i]
		if math.Abs(a[i][i]) < 1e-9 {
			return x, false
		}
		for j := range 3 {
			if j != i {
				f := a[j][i] / a[i][i]
				for k := range 4 {
					a[j][k] -= f * a[i][k]
				}
			}
		}
	}
	for i := range 3 {
		x[i] = a[i][3] / a[i][i]
	}
	return x, true
}

// checkPDF measures every hole on every page of a set and returns how many
// were found, the worst round one and the worst of the others.
func checkPDF(t *testing.T, name string, s *Set) (holes int, worst, shaped float64) {
	t.Helper()
	var b bytes.Buffer
	if err := s.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	pages, pics := s.Pages(), rasters(t, b.Bytes())
	if len(pages) != len(pics) {
		t.Fatalf("%s: %d pages drawn, want %d", name, len(pics), len(pages))
	}
	part := map[string]Part{}
	for _, p := range s.Parts {
		part[p.Letter] = p
	}
	seen := map[string]bool{}
	sx, sy := 1.0, 1.0
	if bar := s.options.Bar; bar != (PrintedBar{}) {
		sx, sy = 100/bar.Across, 100/bar.Down
	}
	for i, page := range pages {
		g := pics[i]
		if math.Abs(float64(g.w)-page.Width*perMM) > 1 || math.Abs(float64(g.h)-page.Height*perMM) > 1 {
			t.Fatalf("%s: page %d is %d × %d dots, want %g × %g", name, i+1, g.w, g.h, page.Width*perMM, page.Height*perMM)
		}
		for _, shown := range page.Shown {
			for _, h := range part[shown.Part].Holes {
				if h.State == There {
					continue
				}
				whole := true
				for _, e := range trace(h, 1) {
					x, y := shown.Origin.X+e.x, shown.Origin.Y+e.y
					w := shown.Window.Grow(-0.4)
					whole = whole && x > w.Min.X && x < w.Max.X && y > w.Min.Y && y < w.Max.Y
				}
				if !whole {
					continue // cut by the edge of this piece; the next one shows it whole
				}
				to := func(x, y float64) (float64, float64) {
					px := page.Width/2 + (shown.Origin.X+x-page.Width/2)*sx
					py := page.Height/2 + (shown.Origin.Y+y-page.Height/2)*sy
					return px * perMM, (page.Height - py) * perMM
				}
				m := g.measure(h, to)
				off := math.Max(math.Hypot(m.dx, m.dy), math.Abs(m.wide))
				allowed := tolerance
				if !h.round() {
					// Poppler draws level and upright lines on whole dots: half a
					// dot more for outlines that have some. Curves stay in place.
					allowed += 0.5 / perMM
				}
				if m.found < 0.5 || off > allowed {
					t.Errorf("%s: page %d: %s hole %d (%s): found at %.0f %%, middle off by %.3f %.3f mm, edge by %.3f mm", name, i+1, shown.Part, h.Number, h.Outline.text(0), 100*m.found, m.dx, m.dy, m.wide)
				}
				if h.round() {
					worst = math.Max(worst, off)
				} else {
					shaped = math.Max(shaped, off)
				}
				holes++
				seen[fmt.Sprint(shown.Part, h.Number)] = true
			}
		}
	}
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if h.State != There && !seen[fmt.Sprint(p.Letter, h.Number)] {
				t.Errorf("%s: %s hole %d is whole on no page", name, p.Name, h.Number)
			}
		}
	}
	return holes, worst, shaped
}

// TestCutSheetsPDF: what poppler draws of the pages, measured at 254 dpi.
func TestCutSheetsPDF(t *testing.T) {
	n, all, worst, shaped := howMany(t, 3), 0, 0.0, 0.0
	for seed := range n {
		o := Options{Paper: A4()}
		if seed%2 == 1 {
			o.Paper = Letter()
		}
		if seed%5 == 4 {
			o.Bar = PrintedBar{98.7, 100.6}
		}
		s, _ := planned(t, seed, o)
		holes, round, other := checkPDF(t, fmt.Sprintf("seed %d", seed), s)
		all += holes
		worst, shaped = math.Max(worst, round), math.Max(shaped, other)
	}
	t.Logf("%d designs, %d holes, worst %.3f mm, of slots, rectangles and triangles %.3f mm", n, all, worst, shaped)
}
