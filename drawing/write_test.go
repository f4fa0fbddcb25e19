package drawing

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// everything is a sheet with one of each shape.
func everything() *Sheet {
	return &Sheet{
		Title: `Try <"all"> & more`, Note: "every shape once", Width: 120, Height: 80, Ground: Solid(0xfdfcf8),
		Layers: []Layer{
			{Name: "cut", Pen: Pen{Width: 0.5}, Shapes: []Shape{
				Line{Point{5, 5}, Point{115, 5}},
				Circle{Center: Point{30, 40}, Radius: 10},
				Arc{Center: Point{60, 40}, Radius: 10, Start: math.Pi / 2, End: 0.25},
				Polyline{Closed: true, Vertices: []Vertex{{Point{80, 30}, 0}, {Point{100, 30}, 1}, {Point{100, 50}, 0}, {Point{80, 50}, 1}}},
			}},
			{Name: "hatch lines", Pen: Pen{Width: 0.18, Color: 0x808080}, Shapes: []Shape{
				Part{Name: "soil", Shapes: []Shape{
					Hatch{Loops: [][]Point{{{5, 6}, {115, 6}, {115, 12}, {5, 12}}}, Angle: math.Pi / 4, Spacing: 2},
				}},
			}},
			{Name: "Hatch_Lines", Pen: Pen{Width: 0.18, Color: 0xc2410c, Dash: []float64{2, 1}}, Shapes: []Shape{
				Poly(Point{10, 60}, Point{20, 70}, Point{30, 60}),
			}},
			{Name: "wash", Shapes: []Shape{Rect(Point{70, 60}, Point{90, 70}).Filled(Paint{Color: 0xc2410c, Opacity: 0.2})}},
			{Name: "notes", Shapes: []Shape{
				Text{At: Point{60, 70}, Size: 3, Anchor: Middle, Bold: true, Content: "24 × Ø 6 mm, 12° ± 1 – λ"},
				Text{At: Point{115, 20}, Size: 3, Anchor: End, Turn: math.Pi / 2, Halo: 0.4, Content: "turned\x01"},
			}},
			{Name: "empty"},
		},
	}
}

func TestSameSheetSameBytes(t *testing.T) {
	for name, write := range map[string]func(io.Writer, *Sheet) error{"svg": WriteSVG, "dxf": WriteDXF} {
		var a, b bytes.Buffer
		if err := errors.Join(write(&a, everything()), write(&b, everything())); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two writings differ", name)
		}
		if strings.Contains(a.String(), "NaN") || strings.Contains(a.String(), "\r") {
			t.Errorf("%s: holds NaN or a carriage return", name)
		}
	}
}

func TestSVGIsWellFormed(t *testing.T) {
	var b bytes.Buffer
	if err := WriteSVG(&b, everything()); err != nil {
		t.Fatal(err)
	}
	layers, parts := 0, 0
	dec := xml.NewDecoder(&b)
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if e, ok := tok.(xml.StartElement); ok {
			for _, a := range e.Attr {
				switch a.Name.Local {
				case "data-layer":
					layers++
				case "data-part":
					parts++
				case "style", "id":
					t.Errorf("attribute %s on %s", a.Name.Local, e.Name.Local)
				case "aria-label":
					if a.Value != `Try <"all"> & more` {
						t.Errorf("label %q", a.Value)
					}
				}
			}
		}
	}
	if layers != 5 || parts != 1 {
		t.Errorf("%d layers and %d parts; want 5 (the empty one left out) and 1", layers, parts)
	}
}

// The arcs of a path, worked out again from the SVG flags (SVG 1.1, appendix
// F.6.5), bulge the way the polyline says.
func TestSVGArcsBulgeTheRightWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := point(t, "a"), point(t, "b")
		bulge := rapid.Float64Range(0.05, 3).Draw(t, "bulge")
		if rapid.Bool().Draw(t, "clockwise") {
			bulge = -bulge
		}
		if math.Hypot(a.X-b.X, a.Y-b.Y) < 5 {
			t.Skip("too short to measure")
		}
		const height = 100
		p := svg{height: height}
		d := p.path(Polyline{Vertices: []Vertex{{a, bulge}, {Point: b}}})
		pieces := strings.Split(strings.TrimPrefix(d, "M"), "A")
		var x1, y1 float64
		if _, err := fmt.Sscanf(pieces[0], "%g %g", &x1, &y1); err != nil {
			t.Fatalf("%s: %v", d, err)
		}
		c, r, st, sw := bulgeArc(a, b, bulge)
		n := float64(len(pieces) - 1)
		for i, piece := range pieces[1:] {
			var rx, ry, x2, y2 float64
			var large, positive int
			if _, err := fmt.Sscanf(piece, "%g %g 0 %d %d %g %g", &rx, &ry, &large, &positive, &x2, &y2); err != nil {
				t.Fatalf("%s: %v", d, err)
			}
			px, py := (x1-x2)/2, (y1-y2)/2
			k := math.Sqrt(math.Max(0, (rx*rx-px*px-py*py)/(px*px+py*py)))
			if large == positive {
				k = -k
			}
			cx, cy := k*py+(x1+x2)/2, -k*px+(y1+y2)/2
			start := math.Atan2(y1-cy, x1-cx)
			sweep := math.Atan2(y2-cy, x2-cx) - start
			if positive == 1 && sweep < 0 {
				sweep += 2 * math.Pi
			}
			if positive == 0 && sweep > 0 {
				sweep -= 2 * math.Pi
			}
			s, co := math.Sincos(start + sweep/2)
			gotX, gotY := cx+rx*co, height-(cy+rx*s)
			s, co = math.Sincos(st + sw*(float64(i)+0.5)/n)
			if wantX, wantY := c.X+r*co, c.Y+r*s; math.Hypot(gotX-wantX, gotY-wantY) > 0.01 {
				t.Fatalf("middle of piece %d of %s at %g %g; want %g %g", i+1, d, gotX, gotY, wantX, wantY)
			}
			x1, y1 = x2, y2
		}
	})
}

// tag is one pair of lines of a DXF file.
type tag struct {
	code  int
	value string
}

// readDXF reads the pairs and checks the frame: sections opened and closed,
// ENDSEC and EOF in their places, every value of the right kind.
func readDXF(t *testing.T, data []byte) (sections map[string][]tag) {
	t.Helper()
	sections = map[string][]tag{}
	sc := bufio.NewScanner(bytes.NewReader(data))
	section, after, ended := "", false, false
	for sc.Scan() {
		code, err := strconv.Atoi(strings.TrimSpace(sc.Text()))
		if err != nil || !sc.Scan() {
			t.Fatalf("group code %q without a value", sc.Text())
		}
		v := sc.Text()
		for _, r := range v {
			if r < ' ' || r > '~' {
				t.Errorf("value %q is not plain ASCII", v)
			}
		}
		if code >= 10 && code < 60 {
			if f, err := strconv.ParseFloat(v, 64); err != nil || math.IsNaN(f) {
				t.Errorf("group %d holds %q; want a number", code, v)
			}
		}
		if code >= 60 && code < 80 {
			if _, err := strconv.Atoi(v); err != nil {
				t.Errorf("group %d holds %q; want a whole number", code, v)
			}
		}
		switch {
		case ended:
			t.Fatalf("group %d %q after EOF", code, v)
		case section == "" && code == 0 && v == "SECTION":
			after = true
		case after && code == 2:
			section, after = v, false
			sections[v] = []tag{}
		case code == 0 && v == "ENDSEC" && section != "":
			section = ""
		case code == 0 && v == "EOF" && section == "":
			ended = true
		case section != "":
			sections[section] = append(sections[section], tag{code, v})
		default:
			t.Fatalf("group %d %q outside a section", code, v)
		}
	}
	if !ended {
		t.Error("no EOF")
	}
	return sections
}

// entities splits tags at group 0.
func entities(tags []tag) (out [][]tag) {
	for _, g := range tags {
		if g.code == 0 {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], g)
	}
	return out
}

func value(e []tag, code int) string {
	for _, g := range e {
		if g.code == code {
			return g.value
		}
	}
	return ""
}

func TestDXFStructure(t *testing.T) {
	var b bytes.Buffer
	sheet := everything()
	if err := WriteDXF(&b, sheet); err != nil {
		t.Fatal(err)
	}
	s := readDXF(t, b.Bytes())
	var head []string
	for _, g := range s["HEADER"] {
		head = append(head, g.value)
	}
	if h := strings.Join(head, " "); !strings.HasPrefix(h, "$ACADVER AC1009 $INSUNITS 4 $MEASUREMENT 1 $EXTMIN 5.0 5.0 0.0 ") {
		t.Errorf("header %q", h)
	}
	layers := map[string]bool{}
	types := map[string]bool{}
	for _, e := range entities(s["TABLES"]) {
		switch e[0].value {
		case "LTYPE":
			types[value(e, 2)] = true
		case "LAYER":
			layers[value(e, 2)] = true
			if !types[value(e, 6)] {
				t.Errorf("layer %s has the unknown line type %q", value(e, 2), value(e, 6))
			}
		}
	}
	for _, want := range []string{"0", "CUT", "HATCH_LINES", "HATCH_LINES_2", "WASH", "NOTES", "EMPTY"} {
		if !layers[want] {
			t.Errorf("no layer %s among %v", want, layers)
		}
	}
	count := map[string]int{}
	for _, e := range entities(s["ENTITIES"]) {
		count[e[0].value]++
		if !layers[value(e, 8)] {
			t.Errorf("%s on the unknown layer %q", e[0].value, value(e, 8))
		}
		if e[0].value == "TEXT" && value(e, 72) == "1" && value(e, 1) != "24 x %%c 6 mm, 12%%d %%p 1 - ?" {
			t.Errorf("text %q", value(e, 1))
		}
	}
	hatch := len(sheet.Layers[1].Shapes[0].(Part).Shapes[0].(Hatch).Lines())
	for kind, want := range map[string]int{"LINE": 1 + hatch, "CIRCLE": 1, "ARC": 1, "POLYLINE": 2, "SEQEND": 2, "VERTEX": 7, "TEXT": 2} {
		if count[kind] != want {
			t.Errorf("%d of %s; want %d", count[kind], kind, want)
		}
	}
}

// What a general purpose reader of DXF makes of our file: no errors, nothing
// to fix, millimetres, the layers, every radius and the arcs of a slot.
func TestDXFAudit(t *testing.T) {
	const python = "/usr/bin/python3" // the one Debian's python3-ezdxf belongs to
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		t.Skip("python3-ezdxf is not installed")
	}
	file := filepath.Join(t.TempDir(), "all.dxf")
	var b bytes.Buffer
	if err := WriteDXF(&b, everything()); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	// The reader adds a layer Defpoints of its own.
	const script = `
import sys, ezdxf
from ezdxf import recover
doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
_, again = recover.readfile(sys.argv[1])
msp = doc.modelspace()
print("errors", len(audit.errors), len(again.errors), "fixes", len(audit.fixes), len(again.fixes))
print("version", doc.dxfversion, "units", doc.header["$INSUNITS"], "metric", doc.header["$MEASUREMENT"])
print("layers", " ".join(sorted(l.dxf.name for l in doc.layers if l.dxf.name != "Defpoints")))
print("circle", " ".join("%g" % e.dxf.radius for e in msp.query("CIRCLE")))
for e in msp.query("ARC"):
    print("arc %g %.4f %.4f" % (e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle))
for e in msp.query("POLYLINE"):
    print("polyline", e.is_closed, " ".join("%g" % v.dxf.bulge for v in e.vertices if v.dxf.hasattr("bulge")))
for e in msp.query("TEXT"):
    print("text %.4f %s" % (e.dxf.height, e.plain_text()))
`
	out, err := exec.Command(python, "-c", script, file).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	const want = `errors 0 0 fixes 0 0
version AC1009 units 4 metric 1
layers 0 CUT EMPTY HATCH_LINES HATCH_LINES_2 NOTES WASH
circle 10
arc 10 90.0000 14.3239
polyline True 1 1
polyline False
text 2.1000 24 x Ø 6 mm, 12° ± 1 - ?
text 2.1000 turned
`
	got := strings.ReplaceAll(string(out), " \n", "\n")
	if got != want {
		t.Errorf("reader says\n%swant\n%s", got, want)
	}
}
