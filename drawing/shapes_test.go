package drawing

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func coord(t *rapid.T, name string) float64 { return rapid.Float64Range(-200, 200).Draw(t, name) }

func point(t *rapid.T, name string) Point { return Point{coord(t, name+" x"), coord(t, name+" y")} }

// A quarter circle from (1,0) to (0,1) about the origin has the bulge
// tan(90°/4) and stays on the circle of radius 1.
func TestBulgeOfQuarterCircle(t *testing.T) {
	p := Polyline{Vertices: []Vertex{{Point{1, 0}, math.Tan(math.Pi / 8)}, {Point: Point{0, 1}}}}
	c, r, start, sweep := bulgeArc(Point{1, 0}, Point{0, 1}, math.Tan(math.Pi/8))
	if math.Hypot(c.X, c.Y) > 1e-12 || math.Abs(r-1) > 1e-12 || math.Abs(start) > 1e-12 || math.Abs(sweep-math.Pi/2) > 1e-12 {
		t.Errorf("centre %v radius %g start %g sweep %g; want the unit circle from 0 to a quarter turn", c, r, start, sweep)
	}
	for _, q := range p.Points(1e-4) {
		if math.Abs(math.Hypot(q.X, q.Y)-1) > 1e-12 {
			t.Errorf("point %v off the circle", q)
		}
	}
}

func TestBulgeArcPassesThroughItsEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := point(t, "a"), point(t, "b")
		bulge := rapid.Float64Range(0.01, 5).Draw(t, "bulge")
		if rapid.Bool().Draw(t, "clockwise") {
			bulge = -bulge
		}
		if math.Hypot(a.X-b.X, a.Y-b.Y) < 0.1 {
			t.Skip("ends too close")
		}
		c, r, start, sweep := bulgeArc(a, b, bulge)
		for _, e := range []struct {
			at   float64
			want Point
		}{{start, a}, {start + sweep, b}} {
			s, k := math.Sincos(e.at)
			if math.Hypot(c.X+r*k-e.want.X, c.Y+r*s-e.want.Y) > 1e-6*r {
				t.Errorf("end at %g rad misses %v", e.at, e.want)
			}
		}
		// The bulge is the sagitta over half the chord, to the right of travel
		// for a positive one.
		s, k := math.Sincos(start + sweep/2)
		mid := Point{c.X + r*k, c.Y + r*s}
		chord := math.Hypot(b.X-a.X, b.Y-a.Y)
		right := ((mid.X-a.X)*(b.Y-a.Y) - (mid.Y-a.Y)*(b.X-a.X)) / chord
		if math.Abs(right-bulge*chord/2) > 1e-6*chord*(1+bulge*bulge) {
			t.Errorf("sagitta %g; want %g", right, bulge*chord/2)
		}
	})
}

func TestBoundsHoldEveryPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Polyline{Closed: rapid.Bool().Draw(t, "closed")}
		for range rapid.IntRange(2, 6).Draw(t, "n") {
			p.Vertices = append(p.Vertices, Vertex{point(t, "p"), rapid.Float64Range(-3, 3).Draw(t, "bulge")})
		}
		b := p.Bounds()
		seen := NoBox()
		for _, q := range p.Points(0.001) {
			seen = seen.Union(boxOf(q))
		}
		if !seen.Inside(b.Grow(1e-6)) {
			t.Fatalf("points reach %v outside the bounds %v", seen, b)
		}
		if !b.Inside(seen.Grow(1)) {
			t.Fatalf("bounds %v are wider than the points %v", b, seen)
		}
	})
}

func TestArcBounds(t *testing.T) {
	got := Arc{Center: Point{10, 10}, Radius: 5, Start: -math.Pi / 4, End: math.Pi / 4}.Bounds()
	d := 5 * math.Sqrt2 / 2
	want := Box{Point{10 + d, 10 - d}, Point{15, 10 + d}}
	if !got.Inside(want.Grow(1e-9)) || !want.Inside(got.Grow(1e-9)) {
		t.Errorf("bounds %v; want %v", got, want)
	}
	if full := (Arc{Center: Point{}, Radius: 2, Start: 1, End: 1}).Bounds(); !(Box{Point{-2, -2}, Point{2, 2}}).Inside(full.Grow(1e-9)) {
		t.Errorf("an arc back to its start is a full circle, got %v", full)
	}
}

// Lines at a spacing cover an area: length times spacing is the area.
func TestHatchCoversItsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "corners")
		r := rapid.Float64Range(20, 80).Draw(t, "radius")
		c := point(t, "centre")
		var loop []Point
		area := 0.0
		for i := range n {
			s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			loop = append(loop, Point{c.X + r*k, c.Y + r*s})
		}
		area = float64(n) / 2 * r * r * math.Sin(2*math.Pi/float64(n))
		loops := [][]Point{loop}
		if rapid.Bool().Draw(t, "hole") {
			q := r / 4
			loops = append(loops, []Point{{c.X - q, c.Y - q}, {c.X + q, c.Y - q}, {c.X + q, c.Y + q}, {c.X - q, c.Y + q}})
			area -= 4 * q * q
		}
		h := Hatch{Loops: loops, Angle: rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "angle"), Spacing: 0.5}
		sum := 0.0
		for _, l := range h.Lines() {
			sum += math.Hypot(l.To.X-l.From.X, l.To.Y-l.From.Y)
			if !l.Bounds().Inside(h.Bounds().Grow(1e-6)) {
				t.Fatalf("line %v leaves the area", l)
			}
		}
		if math.Abs(sum*h.Spacing-area) > 0.02*area+r*h.Spacing {
			t.Errorf("lines of %g mm cover %g mm²; area %g", sum, sum*h.Spacing, area)
		}
	})
}

func TestWidthsTable(t *testing.T) {
	rows, last := 0, int64(-1)
	for i, line := range strings.Split(strings.TrimSpace(widthsCSV), "\n") {
		if strings.HasPrefix(line, "#") || strings.HasPrefix(line, "code,") {
			continue
		}
		f := strings.Split(line, ",")
		if len(f) != 5 || len(f[4]) != 2 || strings.Trim(f[4], "ALD") != "" {
			t.Fatalf("line %d: %q; want code, char, regular, bold and two letters for the sources", i+1, line)
		}
		code, err := strconv.ParseInt(f[0], 16, 32)
		if err != nil || code <= last {
			t.Errorf("line %d: code %q; want rising hexadecimal codes", i+1, f[0])
		}
		last = code
		w, ok := widths()[rune(code)]
		if !ok || strconv.Itoa(int(w.regular)) != f[2] || strconv.Itoa(int(w.bold)) != f[3] || w.regular < 150 || w.bold < 150 || w.bold > 1400 {
			t.Errorf("line %d: %q read as %v", i+1, line, w)
		}
		rows++
	}
	if rows != len(widths()) || rows < 200 {
		t.Errorf("%d rows, %d widths", rows, len(widths()))
	}
}

func TestWrapAndShortenFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOfN(rapid.RuneFrom([]rune("abcdefgWim Ø×° ")), 0, 80, -1).Draw(t, "text")
		width := rapid.Float64Range(30, 90).Draw(t, "width")
		bold := rapid.Bool().Draw(t, "bold")
		lines := Wrap(s, 4, bold, width)
		if strings.Join(lines, " ") != strings.Join(strings.Fields(s), " ") {
			t.Errorf("words lost: %q from %q", lines, s)
		}
		for _, l := range lines {
			if TextWidth(l, 4, bold) > width && strings.Contains(l, " ") {
				t.Errorf("line %q is %g mm wide, over %g", l, TextWidth(l, 4, bold), width)
			}
		}
		if short := Shorten(s, 4, bold, width); TextWidth(short, 4, bold) > width {
			t.Errorf("%q is wider than %g", short, width)
		}
	})
}

func TestTextBounds(t *testing.T) {
	w := TextWidth("12 × Ø 4.5", 3, false)
	for _, c := range []struct {
		text Text
		want Box
	}{
		{Text{Size: 3, Content: "12 × Ø 4.5"}, Box{Point{0, -0.66}, Point{w, 2.31}}},
		{Text{Size: 3, Anchor: End, Content: "12 × Ø 4.5"}, Box{Point{-w, -0.66}, Point{0, 2.31}}},
		{Text{Size: 3, Anchor: Middle, Turn: math.Pi / 2, Content: "12 × Ø 4.5"}, Box{Point{-2.31, -w / 2}, Point{0.66, w / 2}}},
	} {
		if got := c.text.Bounds(); !got.Inside(c.want.Grow(1e-9)) || !c.want.Inside(got.Grow(1e-9)) {
			t.Errorf("%+v: %v; want %v", c.text, got, c.want)
		}
	}
}
