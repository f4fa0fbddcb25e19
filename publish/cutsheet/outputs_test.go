package cutsheet

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"toplit/drawing"
	"toplit/quantity"
)

// tolerance is how far any drawn hole may lie from where it was meant, and its
// radius from what was meant [mm].
const tolerance = 0.05

// howMany is how many random designs a test draws: few in `make test`, all of
// them where TOPLIT_CUTSHEETS says so.
func howMany(t *testing.T, few int) uint64 {
	t.Helper()
	text := os.Getenv("TOPLIT_CUTSHEETS")
	if text == "" {
		return uint64(few)
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("TOPLIT_CUTSHEETS=%s: a number of designs is wanted", text)
	}
	return uint64(n)
}

// seen is a hole as another program sees it: for a round one middle and
// radius, for others the corners of its outline.
type seen struct {
	x, y, r float64
	corners []drawing.Point
	bulges  []float64
}

// compare finds every hole that is to be made among those seen, and refuses
// round ones left over.
func compare(t *testing.T, name string, s *Set, at Places, rounds, shapes []seen) (worst float64) {
	t.Helper()
	worst = match(t, name, s, at, rounds, true, func(c seen, h Hole, o drawing.Point) float64 {
		return math.Max(math.Hypot(c.x-o.X-h.X, c.y-o.Y-h.Y), math.Abs(c.r-h.Width/2))
	})
	return math.Max(worst, match(t, name, s, at, shapes, false, cornersOff))
}

// match pairs the holes to make of one kind, round or not, with what was seen.
func match(t *testing.T, name string, s *Set, at Places, all []seen, round bool, off func(seen, Hole, drawing.Point) float64) (worst float64) {
	t.Helper()
	used := make([]bool, len(all))
	missing := 0
	for _, p := range s.Parts {
		o := at[p.Letter]
		for _, h := range p.Holes {
			if h.State == There || h.round() != round {
				continue
			}
			found := false
			for k, c := range all {
				if used[k] {
					continue
				}
				if far := off(c, h, o); far <= tolerance {
					used[k], found, worst = true, true, math.Max(worst, far)
					break
				}
			}
			if !found {
				if missing++; missing < 4 {
					t.Errorf("%s: %s hole %d (%s) at %.3f %.3f is not drawn there", name, p.Name, h.Number, h.Outline.text(quantity.Metric), o.X+h.X, o.Y+h.Y)
				}
			}
		}
	}
	for k, u := range used {
		if round && !u {
			t.Errorf("%s: a round hole of %.3f mm at %.3f %.3f is in no design", name, 2*all[k].r, all[k].x, all[k].y)
			break
		}
	}
	return worst
}

// cornersOff is how far the corners of a drawn outline lie from the edge that
// was meant, at most.
func cornersOff(c seen, h Hole, o drawing.Point) float64 {
	var mid drawing.Point
	for _, p := range c.corners {
		mid.X += p.X / float64(len(c.corners))
		mid.Y += p.Y / float64(len(c.corners))
	}
	if math.Hypot(mid.X-o.X-h.X, mid.Y-o.Y-h.Y) > h.reach() {
		return math.Inf(1)
	}
	edges := trace(h, 0.02)
	worst := 0.0
	for _, p := range c.corners {
		near := math.Inf(1)
		for _, e := range edges {
			near = math.Min(near, math.Hypot(p.X-o.X-e.x, p.Y-o.Y-e.y))
		}
		worst = math.Max(worst, near)
	}
	return worst
}

// readSVG reads the holes back from the text of an SVG, without a browser.
func readSVG(t *testing.T, data []byte) (rounds, shapes []seen) {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(data))
	tall, layer := 0.0, ""
	var stack []string
	part := ""
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return rounds, shapes
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			get := func(name string) string {
				for _, a := range e.Attr {
					if a.Name.Local == name {
						return a.Value
					}
				}
				return ""
			}
			num := func(name string) float64 {
				v, err := strconv.ParseFloat(strings.TrimSuffix(get(name), "mm"), 64)
				if err != nil {
					t.Fatalf("%s %s=%q", e.Name.Local, name, get(name))
				}
				return v
			}
			stack = append(stack, e.Name.Local)
			switch e.Name.Local {
			case "svg":
				tall = num("height")
			case "g":
				if l := get("data-layer"); l != "" {
					layer = l
				} else {
					part = get("data-part")
				}
			case "circle":
				if layer == "DRILL" {
					rounds = append(rounds, seen{x: num("cx"), y: tall - num("cy"), r: num("r")})
				}
			case "path":
				if layer == "CUT" && strings.HasSuffix(get("d"), "Z") && part != "" {
					shapes = append(shapes, seen{corners: pathCorners(t, get("d"), tall)})
				}
			}
		case xml.EndElement:
			stack = stack[:len(stack)-1]
		}
	}
}

// pathCorners is the ends of a path's segments.
func pathCorners(t *testing.T, d string, tall float64) []drawing.Point {
	t.Helper()
	var out []drawing.Point
	d = strings.TrimSuffix(d, "Z")
	for _, piece := range strings.FieldsFunc(strings.NewReplacer("M", "|", "L", "|", "A", "|").Replace(d), func(r rune) bool { return r == '|' }) {
		f := strings.Fields(piece)
		x, err1 := strconv.ParseFloat(f[len(f)-2], 64)
		y, err2 := strconv.ParseFloat(f[len(f)-1], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("path %q", d)
		}
		out = append(out, drawing.Point{X: x, Y: tall - y})
	}
	return out
}

// TestCutSheetsSVG: positions and sizes in the SVG's own text.
func TestCutSheetsSVG(t *testing.T) {
	n, worst := howMany(t, 40), 0.0
	for seed := range n {
		s, _ := planned(t, seed, Options{})
		_, at := s.Drawing()
		var b bytes.Buffer
		if err := s.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		rounds, shapes := readSVG(t, b.Bytes())
		worst = math.Max(worst, compare(t, fmt.Sprintf("seed %d", seed), s, at, rounds, shapes))
	}
	t.Logf("%d designs, worst %.4f mm", n, worst)
}

const python = "/usr/bin/python3" // the one Debian's python3-ezdxf belongs to

// readDXF lets ezdxf read files and say what it sees, one line of JSON each.
const dxfScript = `
import sys, json, ezdxf
from ezdxf import recover
for name in sys.stdin.read().split("\n"):
    if not name: continue
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    _, again = recover.readfile(name)
    msp = doc.modelspace()
    print(json.dumps(dict(
        errors=len(audit.errors) + len(again.errors), fixes=len(audit.fixes) + len(again.fixes),
        units=doc.header["$INSUNITS"], version=doc.dxfversion,
        layers=sorted(l.dxf.name for l in doc.layers if l.dxf.name != "Defpoints"),
        drill=[[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in msp.query('CIRCLE[layer=="DRILL"]')],
        other=sorted(set(e.dxftype() for e in msp if e.dxf.layer == "DRILL")),
        cut=[[[v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)] for v in e.vertices] for e in msp.query('POLYLINE[layer=="CUT"]') if e.is_closed],
        round=[[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in msp.query('CIRCLE[layer=="CUT"]')],
    )))
`

type dxfSeen struct {
	Errors, Fixes, Units int
	Version              string
	Layers, Other        []string
	Drill, Round         [][3]float64
	Cut                  [][][3]float64
}

// TestCutSheetsDXF: what an independent reader makes of the DXF.
func TestCutSheetsDXF(t *testing.T) {
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		t.Skip("python3-ezdxf is not installed")
	}
	n, worst := howMany(t, 12), 0.0
	dir := t.TempDir()
	var names []string
	var sets []*Set
	for seed := range n {
		s, _ := planned(t, seed, Options{})
		var b bytes.Buffer
		if err := s.WriteDXF(&b); err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, fmt.Sprintf("%d.dxf", seed))
		if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		names, sets = append(names, name), append(sets, s)
	}
	cmd := exec.Command(python, "-c", dxfScript)
	cmd.Stdin = strings.NewReader(strings.Join(names, "\n"))
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, errs.String())
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(sets) {
		t.Fatalf("%d files read, want %d", len(lines), len(sets))
	}
	for i, line := range lines {
		var d dxfSeen
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatal(err)
		}
		if d.Errors != 0 || d.Fixes != 0 || d.Units != 4 || d.Version != "AC1009" {
			t.Errorf("seed %d: %d errors, %d fixes, units %d, version %s", i, d.Errors, d.Fixes, d.Units, d.Version)
		}
		if got := strings.Join(d.Layers, " "); got != "0 CUT DRILL FOLD NOTE" {
			t.Errorf("seed %d: layers %s", i, got)
		}
		if len(d.Other) > 1 || len(d.Other) == 1 && d.Other[0] != "CIRCLE" {
			t.Errorf("seed %d: %v on the layer DRILL, want circles alone", i, d.Other)
		}
		var rounds, shapes []seen
		for _, c := range d.Drill {
			rounds = append(rounds, seen{x: c[0], y: c[1], r: c[2]})
		}
		for _, c := range d.Cut {
			var q seen
			for _, v := range c {
				q.corners = append(q.corners, drawing.Point{X: v[0], Y: v[1]})
				q.bulges = append(q.bulges, v[2])
			}
			shapes = append(shapes, q)
		}
		_, at := sets[i].Drawing()
		worst = math.Max(worst, compare(t, fmt.Sprintf("seed %d", i), sets[i], at, rounds, shapes))
		checkRoundParts(t, i, sets[i], at, d)
		checkSlots(t, i, sets[i], at, shapes)
	}
	t.Logf("%d designs, worst %.4f mm", n, worst)
}

// checkRoundParts: rings, discs and plates are cut at their diameters, rings at
// their bore too.
func checkRoundParts(t *testing.T, seed int, s *Set, at Places, d dxfSeen) {
	t.Helper()
	has := func(p Part, r float64) {
		for _, c := range d.Round {
			if math.Hypot(c[0]-at[p.Letter].X, c[1]-at[p.Letter].Y) < tolerance && math.Abs(c[2]-r) < tolerance {
				return
			}
		}
		t.Errorf("seed %d: %s is not cut at a radius of %g mm", seed, p.Name, r)
	}
	for _, p := range s.Parts {
		switch p.Kind {
		case Round:
			has(p, p.Across/2)
			if p.Ring != nil {
				has(p, s.Design.Ring.Bore*500)
			}
		case Disc:
			can, _ := s.Design.Base(p.Place)
			has(p, can.Bore()*500-1.5)
		}
	}
}

// checkSlots: the round ends of slots are exact arcs of half their narrow side
// about the middles of the ends.
func checkSlots(t *testing.T, seed int, s *Set, at Places, shapes []seen) {
	t.Helper()
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if h.Shape != "slot" || h.State == There || h.Width == h.Height {
				continue
			}
			for _, c := range shapes {
				if cornersOff(c, h, at[p.Letter]) > tolerance {
					continue
				}
				sum := 0.0
				for k, b := range c.bulges {
					if math.Abs(b) < 1e-9 {
						continue
					}
					q := c.corners[(k+1)%len(c.corners)]
					angle := 4 * math.Atan(b)
					r := math.Hypot(c.corners[k].X-q.X, c.corners[k].Y-q.Y) / 2 / math.Sin(angle/2)
					if sum += angle; math.Abs(r-h.narrow()/2) > tolerance {
						t.Errorf("seed %d: %s hole %d: an end of radius %g mm, want %g", seed, p.Name, h.Number, r, h.narrow()/2)
					}
				}
				if math.Abs(sum-2*math.Pi) > 1e-4 {
					t.Errorf("seed %d: %s hole %d: its ends turn by %g rad, want a full turn", seed, p.Name, h.Number, sum)
				}
			}
		}
	}
}
