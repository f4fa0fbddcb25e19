package cutsheet

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"toplit/internal/outside"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// Holes laid out on a circle are stepped off with dividers at the chords of a
// workshop's table.
func TestChordsAgainstOutside(t *testing.T) {
	const source = "workshop page, spacing table: chordal factors of a pitch circle"
	for n, published := range map[int]float64{3: 0.8660, 5: 0.5878, 7: 0.4339, 8: 0.3827, 11: 0.2817, 13: 0.2393, 17: 0.1838, 19: 0.1646} {
		s := plan(t, changed(func(d *stove.Design) {
			d.Rows[0].Circle, d.Rows[0].Count, d.Rows[0].Hole.Width = 80e-3, n, 4e-3
		}), Options{})
		h := partOf(t, s, "fuel can base").Holes
		ours := math.Hypot(h[1].X-h[0].X, h[1].Y-h[0].Y) / 80
		outside.Check(t, outside.Row{Law: "cut sheet geometry", Name: fmt.Sprintf("chord of %d on a circle", n), Source: source, Unit: "1", Published: published, Ours: ours, Tol: 0.0001})
	}
}

// The field of holes is a triangular lattice: the number of points in a circle
// is known.
func TestLatticeAgainstOutside(t *testing.T) {
	const source = "OEIS A053416, points of the triangular lattice in a circle of diameter n about one of them"
	for n, published := range map[int]float64{5: 19, 7: 43, 9: 73, 12: 127, 20: 367} {
		outside.Check(t, outside.Row{Law: "cut sheet geometry", Name: fmt.Sprintf("holes of a field %d pitches wide", n), Source: source, Unit: "1",
			Published: published, Ours: float64(len(lattice(1, float64(n)/2, origin{}, nil))), Tol: 0})
	}
}

// A strip by the can's code against the nominal size of the same can.
func TestStripOfACodeAgainstOutside(t *testing.T) {
	for code, inside := range map[string]float64{"603x700": 153, "300x407": 73} {
		c, err := catalogue.Can(code)
		if err != nil {
			t.Fatal(err)
		}
		d := tea()
		d.OuterCan.Diameter, d.OuterCan.Height, d.OuterCan.Code = c.BodyOutside, c.HeightOverall, c.Code
		if code == "300x407" { // a single wall
			d.FuelCan.Diameter, d.FuelCan.Height, d.FuelCan.Code = c.BodyOutside, c.HeightOverall, c.Code
			d.OuterCan, d.Rows, d.Ring.Bore = nil, d.Rows[:2], 45e-3
			d.Rows[0].Count, d.Rows[1].Height, d.Rows[1].Count = 12, 95e-3, 12
		}
		s := plan(t, d, Options{})
		for _, p := range s.Parts {
			if p.code == code {
				outside.Check(t, outside.Row{Law: "cut sheet geometry", Name: "strip round a " + code + " can", Source: "ISO 10653 nominal inside diameter [memory], π × (inside + two sheets + paper)", Unit: "mm",
					Published: math.Pi * (inside + 2*c.Wall*1e3 + 0.1), Ours: p.Around, Tol: math.Pi * 0.5})
			}
		}
	}
}

func TestPaperAgainstOutside(t *testing.T) {
	a4, letter := A4(), Letter()
	const iso, ansi, both = "ISO 216:2007 A4", "ANSI/ASME Y14.1 letter, 8 1/2 × 11 in", "encyclopaedia page on ISO 216: A4 beside Letter, to 1 mm"
	outside.Check(t,
		outside.Row{Law: "paper sizes", Name: "A4 width", Source: iso, Unit: "mm", Published: 210, Ours: a4.Width, Tol: 0.001, Used: true},
		outside.Row{Law: "paper sizes", Name: "A4 height", Source: iso, Unit: "mm", Published: 297, Ours: a4.Height, Tol: 0.001, Used: true},
		outside.Row{Law: "paper sizes", Name: "Letter width", Source: ansi, Unit: "in", Published: 8.5, Ours: letter.Width / 25.4, Tol: 1e-9, Used: true},
		outside.Row{Law: "paper sizes", Name: "Letter height", Source: ansi, Unit: "in", Published: 11, Ours: letter.Height / 25.4, Tol: 1e-9, Used: true},
		outside.Row{Law: "paper sizes", Name: "A4 width by the rule of the series", Source: "ISO 216: a square metre halved four times at 1 to √2, 1000 · 2^(−9/4)", Unit: "mm", Published: 1000 * math.Pow(2, -2.25), Ours: a4.Width, Tol: 0.5},
		outside.Row{Law: "paper sizes", Name: "A4 height by the rule of the series", Source: "ISO 216: 1000 · 2^(−7/4)", Unit: "mm", Published: 1000 * math.Pow(2, -1.75), Ours: a4.Height, Tol: 0.5},
		outside.Row{Law: "paper sizes", Name: "Letter wider than A4", Source: both, Unit: "mm", Published: 6, Ours: letter.Width - a4.Width, Tol: 0.5},
		outside.Row{Law: "paper sizes", Name: "A4 longer than Letter", Source: both, Unit: "mm", Published: 18, Ours: a4.Height - letter.Height, Tol: 0.5},
		outside.Row{Law: "paper sizes", Name: "A4 width in inches", Source: "table of paper sizes", Unit: "in", Published: 8.3, Ours: a4.Width / 25.4, Tol: 0.05},
		outside.Row{Law: "paper sizes", Name: "A4 height in inches", Source: "table of paper sizes", Unit: "in", Published: 11.7, Ours: a4.Height / 25.4, Tol: 0.05},
	)
	if _, err := exec.LookPath("pdfinfo"); err != nil {
		t.Skip("pdfinfo is not installed (poppler-utils)")
	}
	for _, c := range []struct {
		paper Paper
		w, h  float64
		tol   float64
	}{{a4, 595.276, 841.890, 0.005}, {letter, 612, 792, 0.0005}} {
		s := plan(t, tea(), Options{Paper: c.paper})
		var b bytes.Buffer
		if err := s.WritePDF(&b); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "p.pdf")
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdfinfo", file).Output()
		if err != nil {
			t.Fatal(err)
		}
		var w, h float64
		for _, line := range strings.Split(string(out), "\n") {
			if size, ok := strings.CutPrefix(line, "Page size:"); ok {
				fmt.Sscanf(strings.TrimSpace(size), "%f x %f", &w, &h)
			}
		}
		const source = "points of 1/72 in of the paper, as the PDF reader poppler-utils reads our pages"
		outside.Check(t,
			outside.Row{Law: "paper sizes", Name: c.paper.Name + " page width in points", Source: source, Unit: "pt", Published: c.w, Ours: w, Tol: c.tol},
			outside.Row{Law: "paper sizes", Name: c.paper.Name + " page height in points", Source: source, Unit: "pt", Published: c.h, Ours: h, Tol: c.tol},
		)
	}
}

// TestSpacingAgainstOutside: the published rules in thicknesses, and what
// perforators print of triangular fields against ours.
func TestSpacingAgainstOutside(t *testing.T) {
	const thick = 0.28 // a No. 10 body [mm]
	const shop = "sheet-metal shops' design rules"
	outside.Check(t,
		outside.Row{Law: "hole spacing", Name: "hole to part edge, in thicknesses", Source: "die maker's design tips, tip 1", Unit: "1", Published: 1, Ours: LeastToEdge(thick) / thick, Tol: 1e-9, Used: true},
		outside.Row{Law: "hole spacing", Name: "hole to form, beyond its radius, in thicknesses", Source: shop, Unit: "1", Published: 3, Ours: (LeastToForm(thick, 1) - 1) / thick, Tol: 1e-9, Used: true},
		outside.Row{Law: "hole spacing", Name: "least hole in thin sheet", Source: shop, Unit: "mm", Published: 1, Ours: LeastHole(thick), Tol: 1e-9, Used: true},
	)
	// A field laid out by us, counted: rows apart, holes per area, open share.
	const pitch, radius = 5.0, 400.0
	field := lattice(pitch, radius, origin{}, nil)
	rows := map[int]bool{}
	for _, p := range field {
		rows[int(math.Round(p.Y*1e6))] = true
	}
	tall := 0.0
	for y := range rows {
		tall = math.Max(tall, float64(y)/1e6)
	}
	apart := 2 * tall / float64(len(rows)-1)
	area := math.Pi * radius * radius
	const perforator = "perforator's tables of round holes in staggered rows"
	outside.Check(t,
		outside.Row{Law: "hole spacing", Name: "rows apart, in pitches", Source: perforator + ": 0.866", Unit: "1", Published: 0.866, Ours: apart / pitch, Tol: 0.0005},
		outside.Row{Law: "hole spacing", Name: "holes per square metre at 5 mm", Source: perforator + ": 1 154 700 over the pitch in mm squared", Unit: "1/m2", Published: 1154700 / pitch / pitch, Ours: float64(len(field)) / area * 1e6, Tol: 1154700 / pitch / pitch * 0.005},
	)
	open := func(d, p float64) float64 { // share of a field of a hole and pitch, by counting
		return float64(len(field)) * math.Pi / 4 * (d * pitch / p) * (d * pitch / p) / area * 100
	}
	const ipa = "Industrial Perforators Association, standard perforations [memory]"
	for name, c := range map[string]struct{ d, p, published float64 }{
		"1/8 in at 3/16": {1. / 8, 3. / 16, 40}, "1/8 in at 1/4": {1. / 8, 1. / 4, 23}, "3/16 in at 1/4": {3. / 16, 1. / 4, 51},
		"1/4 in at 3/8": {1. / 4, 3. / 8, 40}, "5/32 in at 3/16": {5. / 32, 3. / 16, 63}, "1/4 in at 5/16": {1. / 4, 5. / 16, 58},
	} {
		outside.Check(t, outside.Row{Law: "hole spacing", Name: "open share, " + name, Source: ipa, Unit: "%", Published: c.published, Ours: open(c.d, c.p), Tol: 0.6})
	}
	// Our rules are never below the published ones, up to the thickest sheet a
	// maker cuts by hand.
	for t1 := 0.1; t1 <= 3; t1 += 0.05 {
		o := Outline{stove.Round, LeastHole(t1), LeastHole(t1)}
		if toEdge(t1) < LeastToEdge(t1) || toEdge(t1) < LeastToForm(t1, 1) || between(o, o, t1) < 2*t1 {
			t.Errorf("sheet of %g mm: %g mm to the edge, %g mm between", t1, toEdge(t1), between(o, o, t1))
		}
	}
}
