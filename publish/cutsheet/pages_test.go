package cutsheet

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"toplit/drawing"
	"toplit/quantity"
	"toplit/stove"
)

// TestPages: on every page of random sets what is cut lies inside the box that
// fits both papers, every word well inside the paper, and pieces on one page
// do not cover each other.
func TestPages(t *testing.T) {
	most := 0
	for seed := range uint64(60) {
		for _, paper := range []Paper{A4(), Letter()} {
			s, _ := planned(t, seed, Options{Paper: paper})
			pages := s.Pages()
			most = max(most, len(pages))
			for i, p := range pages {
				name := fmt.Sprintf("seed %d, %s, page %d", seed, paper.Name, i+1)
				_, box := paper.content(p.Width > p.Height)
				for k, a := range p.Shown {
					if !a.Window.Inside(box.Grow(1e-6)) {
						t.Errorf("%s: piece %v is outside %v", name, a.Window, box)
					}
					for _, b := range p.Shown[k+1:] {
						if a.Window.Overlaps(b.Window) {
							t.Errorf("%s: pieces %v and %v cover each other", name, a.Window, b.Window)
						}
					}
				}
				paperBox := drawing.Box{Max: drawing.Point{X: p.Width, Y: p.Height}}
				for _, v := range p.Views {
					if v.Window != (drawing.Box{}) {
						continue // a piece, cut off at its window
					}
					b := v.Sheet.Bounds()
					if len(p.Shown) == 0 {
						b.Max.X = math.Min(b.Max.X, box.Max.X) // lines are an upper estimate; TestWordsFit reads them
					}
					if !b.Empty() && !b.Inside(paperBox.Grow(-6.35)) {
						t.Errorf("%s: words reach %v, nearer than a quarter of an inch to the edge", name, b)
					}
				}
			}
		}
	}
	t.Logf("at most %d pages", most)
}

// TestWordsFit: what poppler reads as words lies inside the box of the page.
func TestWordsFit(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed (poppler-utils)")
	}
	word := regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">`)
	for seed := range uint64(12) {
		s, _ := planned(t, seed, Options{Drills: drillsOnHand(t, "metric half")})
		var b bytes.Buffer
		if err := s.WritePDF(&b); err != nil {
			t.Fatal(err)
		}
		words := 0
		for i, p := range s.Pages() {
			if len(p.Shown) > 0 {
				break
			}
			file := filepath.Join(t.TempDir(), "w.pdf")
			if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
				t.Fatal(err)
			}
			page := fmt.Sprint(i + 1)
			out, err := exec.Command("pdftotext", "-bbox", "-f", page, "-l", page, file, "-").Output()
			if err != nil {
				t.Fatal(err)
			}
			_, box := s.options.Paper.content(false)
			for _, m := range word.FindAllStringSubmatch(string(out), -1) {
				x, err := strconv.ParseFloat(m[3], 64)
				if err != nil {
					t.Fatal(err)
				}
				if words++; x*25.4/72 > box.Max.X+0.5 {
					t.Errorf("seed %d: page %s: a word ends at %.1f mm, the box at %.1f", seed, page, x*25.4/72, box.Max.X)
				}
			}
		}
		if words < 100 {
			t.Errorf("seed %d: %d words read", seed, words)
		}
	}
}

// TestPapers: the box to cut in lies inside both papers by half an inch or
// more, upright and lying.
func TestPapers(t *testing.T) {
	for _, p := range []Paper{A4(), Letter()} {
		for _, lying := range []bool{false, true} {
			page, box := p.content(lying)
			if box.Min.X < 12.69 || box.Min.Y < 12.69 || page.X-box.Max.X < 12.69 || page.Y-box.Max.Y < 12.69 {
				t.Errorf("%s: box %v on %v", p.Name, box, page)
			}
			if q, err := ParsePaper(strings.ToLower(p.Name)); err != nil || q != p {
				t.Errorf("%s reads as %v, %v", p.Name, q, err)
			}
		}
	}
	if _, err := ParsePaper("A3"); err == nil || !strings.Contains(err.Error(), "A4 or Letter") {
		t.Errorf("A3: %v", err)
	}
}

// TestPiecesMeet: the pieces of a part show all of it, neighbours share a
// strip as wide as the widest hole, and a mark of a joint lies at the same
// place of the part on both pages.
func TestPiecesMeet(t *testing.T) {
	checked := 0
	for seed := range uint64(60) {
		s, _ := planned(t, seed, Options{})
		marks := map[string][]drawing.Point{} // of a part, in its own coordinates
		windows := map[string][]drawing.Box{}
		for _, page := range s.Pages() {
			for k, sh := range page.Shown {
				move := func(p drawing.Point) drawing.Point {
					return drawing.Point{X: p.X - sh.Origin.X, Y: p.Y - sh.Origin.Y}
				}
				windows[sh.Part] = append(windows[sh.Part], drawing.Box{Min: move(sh.Window.Min), Max: move(sh.Window.Max)})
				for _, l := range page.Views[2*k+1].Sheet.Layers {
					for _, shape := range l.Shapes {
						if c, ok := shape.(drawing.Circle); ok {
							marks[sh.Part] = append(marks[sh.Part], move(c.Center))
						}
					}
				}
			}
		}
		for _, p := range s.Parts {
			for _, m := range marks[p.Letter] {
				twins := 0
				for _, q := range marks[p.Letter] {
					if math.Hypot(m.X-q.X, m.Y-q.Y) < 1e-6 {
						twins++
					}
				}
				if twins < 2 {
					t.Errorf("seed %d: %s: the mark at %v is on one page only", seed, p.Name, m)
				}
				checked++
			}
			b := s.draw(p, drawing.Point{}).bounds()
			if n := len(windows[p.Letter]); n == 0 || n > 1 && len(marks[p.Letter]) == 0 {
				t.Errorf("seed %d: %s is on %d pieces with %d marks", seed, p.Name, n, len(marks[p.Letter]))
			}
			whole := drawing.NoBox()
			for _, w := range windows[p.Letter] {
				whole = whole.Union(w)
			}
			if !b.Inside(whole.Grow(1e-6)) {
				t.Errorf("seed %d: %s reaches %v, its pieces show %v", seed, p.Name, b, whole)
			}
		}
	}
	if checked == 0 {
		t.Error("no part took two pages")
	}
}

// TestBars: both bars of a page are 100 mm long on a true printer, and come
// out at 100 mm on one that is corrected for.
func TestBars(t *testing.T) {
	for _, bar := range []PrintedBar{{}, {98.7, 99.1}} {
		s := plan(t, tea(), Options{Bar: bar})
		var b bytes.Buffer
		if err := s.WritePDF(&b); err != nil {
			t.Fatal(err)
		}
		pages, pics := s.Pages(), rasters(t, b.Bytes())
		for i, p := range pages {
			if len(p.Shown) == 0 {
				continue
			}
			_, box := s.options.Paper.content(p.Width > p.Height)
			sx, sy := 1.0, 1.0
			if bar != (PrintedBar{}) {
				sx, sy = 100/bar.Across, 100/bar.Down
			}
			// The long end ticks stand out beyond the bar by 1.8 mm: look along
			// a line through them, 1.5 mm beside the bar.
			place := func(x, y float64) (float64, float64) {
				return perMM * (p.Width/2 + (x-p.Width/2)*sx), perMM * (p.Height/2 - (y-p.Height/2)*sy)
			}
			find := func(x, y, dx, dy float64) float64 {
				cx, cy := place(x, y)
				sum, mean := 0.0, 0.0
				for k := -8.0; k <= 8; k += 0.2 {
					v := pics[i].ink(cx+k*dx, cy+k*dy)
					sum += v
					mean += v * k
				}
				if sum < 1 {
					t.Errorf("page %d: no end of a bar at %g %g mm", i+1, x, y)
					return 0
				}
				return mean/sum + cx*dx + cy*dy
			}
			across := find(box.Min.X+112, box.Min.Y+3.5, 1, 0) - find(box.Min.X+12, box.Min.Y+3.5, 1, 0)
			down := find(box.Min.X+3.5, box.Min.Y+12, 0, 1) - find(box.Min.X+3.5, box.Min.Y+112, 0, 1)
			// Poppler puts upright and level lines on whole dots: half a dot at
			// each end.
			if math.Abs(across/perMM-100*sx) > 0.11 || math.Abs(down/perMM-100*sy) > 0.11 {
				t.Errorf("page %d: bars of %.2f and %.2f mm, want %.2f and %.2f", i+1, across/perMM, down/perMM, 100*sx, 100*sy)
			}
		}
	}
}

func TestParsePrintedBar(t *testing.T) {
	if b, err := ParsePrintedBar("98.7, 99.1"); err != nil || b != (PrintedBar{98.7, 99.1}) {
		t.Errorf("%v, %v", b, err)
	}
	for text, want := range map[string]string{"98.7": "two lengths", "94,100": "without fitting", "a,b": "two lengths", "98.7,99.1,3": "two lengths", "NaN,100": "97 to 103"} {
		if _, err := ParsePrintedBar(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}

// TestSameBytes: the same design and options give the same bytes in every
// form.
func TestSameBytes(t *testing.T) {
	parent := tea()
	child := changed(func(d *stove.Design) { d.Rows[0].Hole.Width = 7e-3 })
	for _, o := range []Options{{}, {Units: quantity.US, Paper: Letter(), Bar: PrintedBar{99, 101}, Parent: &parent}} {
		write := func() []byte {
			s := plan(t, child, o)
			var b bytes.Buffer
			for _, w := range []func(io.Writer) error{s.WriteSVG, s.WriteDXF, s.WritePDF, s.WriteHTML, s.WriteText} {
				if err := w(&b); err != nil {
					t.Fatal(err)
				}
			}
			return b.Bytes()
		}
		if !bytes.Equal(write(), write()) {
			t.Error("two writings of one design differ")
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	d := tea()
	for b.Loop() {
		if _, err := Plan(d, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWritePDF(b *testing.B) {
	s, err := Plan(tea(), Options{})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if err := s.WritePDF(io.Discard); err != nil {
			b.Fatal(err)
		}
	}
}
