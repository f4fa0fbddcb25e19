package drawing

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func document() Document {
	return Document{Title: "Try – every shape", Note: "for a test", Pages: []Page{
		{Width: 210, Height: 297, Views: []View{{Sheet: everything(), At: Point{20, 30}}}},
		{Width: 279.4, Height: 215.9, Views: []View{{Sheet: everything(), Window: Box{Point{10, 20}, Point{70, 60}}, At: Point{100, 100}}}},
	}}
}

func TestSameDocumentSameBytes(t *testing.T) {
	var a, b bytes.Buffer
	if err := errors.Join(WritePDF(&a, document()), WritePDF(&b, document())); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two writings differ")
	}
	if !bytes.HasPrefix(a.Bytes(), []byte("%PDF-1.6\n")) || !bytes.Contains(a.Bytes(), []byte("/PrintScaling /None")) {
		t.Error("the reader is not asked to leave the scale alone")
	}
}

func TestPDFRefuses(t *testing.T) {
	good := everything()
	page := func(v View) Document { return Document{Pages: []Page{{Width: 100, Height: 100, Views: []View{v}}}} }
	for want, d := range map[string]Document{
		"no pages":             {},
		"both must be above 0": {Pages: []Page{{Width: 100}}},
		"without a sheet":      page(View{}),
		"finite corners":       page(View{Sheet: good, Window: Box{Point{1, 1}, Point{0, 0}}}),
		"stretch":              {Stretch: Point{3, 1}, Pages: page(View{Sheet: good}).Pages},
		"size 0":               page(View{Sheet: &Sheet{}}),
	} {
		var b bytes.Buffer
		if err := WritePDF(&b, d); err == nil || !strings.Contains(err.Error(), want) || b.Len() > 0 {
			t.Errorf("error %v; want one that says %q and nothing written", err, want)
		}
	}
}

// poppler runs one of the tools of the package poppler-utils.
func poppler(t *testing.T, tool string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(tool); err != nil {
		t.Skip(tool + " is not installed (poppler-utils)")
	}
	out, err := exec.Command(tool, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", tool, err, out)
	}
	return string(out)
}

func writePDF(t *testing.T, d Document) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "d.pdf")
	var b bytes.Buffer
	if err := WritePDF(&b, d); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// What another program reads from the file: paper, fonts, words.
func TestPDFAsRead(t *testing.T) {
	file := writePDF(t, document())
	info := poppler(t, "pdfinfo", "-f", "1", "-l", "2", file)
	for _, want := range []string{"Try – every shape", "Pages:           2", "Page    1 size:  595.28 x 841.89 pts (A4)", "Page    2 size:  792 x 612 pts (letter)"} {
		if !strings.Contains(info, want) {
			t.Errorf("no %q in\n%s", want, info)
		}
	}
	fonts := strings.Split(strings.TrimSpace(poppler(t, "pdffonts", file)), "\n")
	for _, line := range fonts[2:] {
		if f := strings.Fields(line); len(f) < 5 || f[len(f)-5] != "yes" {
			t.Errorf("font not embedded: %s", line)
		}
	}
	if words := poppler(t, "pdftotext", "-l", "1", file, "-"); !strings.Contains(words, "24 × Ø 6 mm, 12° ± 1 – λ") {
		t.Errorf("words read %q", words)
	}
}

// raster reads a page drawn at 254 dpi, ten dots to the millimetre.
func raster(t *testing.T, file string) image.Image {
	t.Helper()
	base := strings.TrimSuffix(file, ".pdf")
	poppler(t, "pdftoppm", "-r", "254", "-gray", "-png", "-singlefile", file, base)
	f, err := os.Open(base + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// dark is how much ink a dot holds, 0 to 1.
func dark(img image.Image, x, y int) float64 {
	return 1 - float64(color.GrayModel.Convert(img.At(x, y)).(color.Gray).Y)/255
}

// TestPDFTrueSize: a bar of 100 mm and a disc of 20 mm are that long on the
// page, and where they should be, with and without a corrected printer.
func TestPDFTrueSize(t *testing.T) {
	for _, stretch := range []Point{{}, {1.012, 0.991}} {
		s := &Sheet{Width: 180, Height: 200, Layers: []Layer{{Name: "ink", Shapes: []Shape{
			Rect(Point{10, 10}, Point{110, 12}).Filled(Solid(0)),
			Rect(Point{150, 20}, Point{152, 120}).Filled(Solid(0)),
			Circle{Center: Point{130, 150}, Radius: 10, Fill: Solid(0)},
		}}}}
		img := raster(t, writePDF(t, Document{Stretch: stretch, Pages: []Page{{Width: 210, Height: 297, Views: []View{{Sheet: s, At: Point{15, 40}}}}}}))
		if stretch == (Point{}) {
			stretch = Point{1, 1}
		}
		to := func(x, y float64) (float64, float64) { // page to dots
			return 10 * (105 + (x+15-105)*stretch.X), 10 * (297 - (148.5 + (y+40-148.5)*stretch.Y))
		}
		// Ink along a line of dots through each shape.
		run := func(x0, y0, dx, dy, n int) (sum, first float64) {
			first = -1
			for i := range n {
				v := dark(img, x0+dx*i, y0+dy*i)
				if sum += v; first < 0 && v > 0 {
					first = float64(i+1) - v
				}
			}
			return sum, first
		}
		near := func(what string, got, want float64) {
			if math.Abs(got-want) > 0.5 {
				t.Errorf("stretch %v: %s is %.2f dots; want %.2f", stretch, what, got, want)
			}
		}
		x, y := to(10, 11)
		long, first := run(0, int(y), 1, 0, 2100)
		near("bar across", long, 1000*stretch.X)
		near("its left end", first, x)
		x, y = to(151, 120)
		long, first = run(int(x), 0, 0, 1, 2970)
		near("bar down", long, 1000*stretch.Y)
		near("its upper end", first, y)
		x, y = to(130, 150)
		long, first = run(0, int(y), 1, 0, 2100)
		near("disc across", long, 200*stretch.X)
		near("its left edge", first, x-100*stretch.X)
		long, _ = run(int(x), 0, 0, 1, 2970)
		near("disc down", long, 200*stretch.Y)
	}
}

// TestPDFCutsOff: nothing is drawn outside a view's window.
func TestPDFCutsOff(t *testing.T) {
	s := &Sheet{Width: 100, Height: 100, Layers: []Layer{{Name: "ink", Pen: Pen{Width: 2}, Shapes: []Shape{
		Line{Point{0, 50}, Point{100, 50}}, Circle{Center: Point{50, 50}, Radius: 40, Fill: Paint{0, 0.5}}, Text{At: Point{0, 48}, Size: 20, Halo: 1, Content: "wide words"},
	}}}}
	img := raster(t, writePDF(t, Document{Pages: []Page{{Width: 100, Height: 100, Views: []View{{Sheet: s, Window: Box{Point{30, 40}, Point{70, 60}}, At: Point{30, 40}}}}}}))
	inside, outside := 0.0, 0.0
	for y := range 1000 {
		for x := range 1000 {
			if x >= 299 && x <= 701 && y >= 399 && y <= 601 {
				inside += dark(img, x, y)
			} else {
				outside += dark(img, x, y)
			}
		}
	}
	if outside > 0 || inside < 30000 {
		t.Errorf("ink of %g dots inside the window, %g outside", inside, outside)
	}
}

// TestLetters: every character said to be in the fonts has a width there, and
// those that cut sheets use are in them.
func TestLetters(t *testing.T) {
	have := letters()
	if len(have) < 600 {
		t.Fatalf("only %d characters read from the fonts", len(have))
	}
	for _, r := range "aZ09 ×°±Ø–—…½¼¾⅛⅜⅝⅞²³µ≈≤≥←↑→↓·λ“”‘’é" {
		if !have[r] {
			t.Errorf("no %c in the fonts", r)
		}
	}
	if got := pdfText("a\tb\u00a0火 \x01ok"); got != "a b ?  ok" {
		t.Errorf("text %q", got)
	}
	if n := len(glyphs(nil)) + len(glyphs([]byte("no font at all, but long enough to be read as one"))); n != 0 {
		t.Errorf("%d characters read from what is no font", n)
	}
}

func TestTiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.Float64Range(20, 300)
		b := Box{Min: Point{rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y")}}
		b.Max = Point{b.Min.X + rapid.Float64Range(1, 2000).Draw(t, "long"), b.Min.Y + rapid.Float64Range(1, 900).Draw(t, "tall")}
		w, h, share := size.Draw(t, "w"), size.Draw(t, "h"), rapid.Float64Range(0, 15).Draw(t, "share")
		g, err := Tiles(b, w, h, share)
		if err != nil {
			t.Fatal(err)
		}
		all := NoBox()
		for i, v := range g.Windows {
			all = all.Union(v)
			if v.Max.X-v.Min.X > w+1e-6 || v.Max.Y-v.Min.Y > h+1e-6 {
				t.Fatalf("window %v is larger than %g × %g", v, w, h)
			}
			if i%g.Columns > 0 && math.Abs(g.Windows[i-1].Max.X-v.Min.X-share) > 1e-6 {
				t.Fatalf("windows %v and %v do not share %g", g.Windows[i-1], v, share)
			}
			if i >= g.Columns && math.Abs(v.Max.Y-g.Windows[i-g.Columns].Min.Y-share) > 1e-6 {
				t.Fatalf("window %v does not share %g with the one above it", v, share)
			}
		}
		if len(g.Windows) != g.Columns*g.Rows || !b.Inside(all.Grow(1e-6)) || !all.Inside(b.Grow(1e-6)) {
			t.Fatalf("%d windows in %d × %d cover %v; want %v", len(g.Windows), g.Columns, g.Rows, all, b)
		}
		if fewer := float64(g.Columns - 1); fewer > 0 && fewer*w-(fewer-1)*share > b.Max.X-b.Min.X+1e-6 {
			t.Fatalf("%d columns where %g would do", g.Columns, fewer)
		}
	})
	for _, err := range []error{
		func() error { _, err := Tiles(NoBox(), 10, 10, 1); return err }(),
		func() error { _, err := Tiles(Box{Max: Point{10, 10}}, 10, 1, 1); return err }(),
		func() error { _, err := Tiles(Box{Max: Point{1e6, 10}}, 10, 10, 1); return err }(),
	} {
		if err == nil {
			t.Error("no error for what cannot be tiled")
		}
	}
}

func BenchmarkWritePDF(b *testing.B) {
	d := document()
	for b.Loop() {
		if err := WritePDF(io.Discard, d); err != nil {
			b.Fatal(err)
		}
	}
}
