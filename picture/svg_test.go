package picture

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strconv"
	"strings"

	"pgregory.net/rapid"

	"toplit/drawing"
)

// outline is one drawn shape read back from SVG: its corners, y up.
type outline struct {
	layer, part string
	points      []drawing.Point
}

func (o outline) box() drawing.Box {
	b := drawing.NoBox()
	for _, p := range o.points {
		b = b.Union(drawing.Box{Min: p, Max: p})
	}
	return b
}

var number = regexp.MustCompile(`-?[0-9.]+(e-?[0-9]+)?`)

// readSVG reads the lines and paths of a picture back; arcs count by their
// ends.
func readSVG(t rapid.TB, s *drawing.Sheet) []outline {
	t.Helper()
	var b bytes.Buffer
	if err := drawing.WriteSVG(&b, s); err != nil {
		t.Fatal(err)
	}
	var out []outline
	var layers, parts []string
	dec := xml.NewDecoder(&b)
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, v := range e.Attr {
				a[v.Name.Local] = v.Value
			}
			num := func(k string) float64 {
				v, err := strconv.ParseFloat(a[k], 64)
				if err != nil {
					t.Fatalf("%s of %s: %q", k, e.Name.Local, a[k])
				}
				return v
			}
			at := func(x, y float64) drawing.Point { return drawing.Point{X: x, Y: s.Height - y} }
			layer, part := "", ""
			if len(layers) > 0 {
				layer, part = layers[len(layers)-1], parts[len(parts)-1]
			}
			switch e.Name.Local {
			case "g":
				if l, ok := a["data-layer"]; ok {
					layer, part = l, ""
				}
				if p, ok := a["data-part"]; ok {
					part = p
				}
				layers, parts = append(layers, layer), append(parts, part)
			case "line":
				out = append(out, outline{layer, part, []drawing.Point{at(num("x1"), num("y1")), at(num("x2"), num("y2"))}})
			case "path":
				o := outline{layer: layer, part: part}
				for _, cmd := range regexp.MustCompile(`[MLA][^MLAZ]*`).FindAllString(a["d"], -1) {
					n := number.FindAllString(cmd[1:], -1)
					x, err1 := strconv.ParseFloat(n[len(n)-2], 64)
					y, err2 := strconv.ParseFloat(n[len(n)-1], 64)
					if err1 != nil || err2 != nil {
						t.Fatalf("path %q", cmd)
					}
					o.points = append(o.points, at(x, y))
				}
				out = append(out, o)
			}
		case xml.EndElement:
			if e.Name.Local == "g" {
				layers, parts = layers[:len(layers)-1], parts[:len(parts)-1]
			}
		}
	}
}

// pick are the outlines of a part on a layer ("" for any).
func pick(all []outline, part, layer string) (out []outline) {
	for _, o := range all {
		if o.part == part && (layer == "" || o.layer == layer) {
			out = append(out, o)
		}
	}
	return out
}

func around(list []outline) drawing.Box {
	b := drawing.NoBox()
	for _, o := range list {
		b = b.Union(o.box())
	}
	return b
}

// texts are all texts of a sheet.
func texts(s *drawing.Sheet) (out []drawing.Text) {
	var walk func(shapes []drawing.Shape)
	walk = func(shapes []drawing.Shape) {
		for _, sh := range shapes {
			switch v := sh.(type) {
			case drawing.Text:
				out = append(out, v)
			case drawing.Part:
				walk(v.Shapes)
			}
		}
	}
	for _, l := range s.Layers {
		walk(l.Shapes)
	}
	return out
}

// tidy checks what every picture owes its reader: it can be written in every
// format without NaN, nothing leaves the sheet, no words lie on other words
// and no leader runs through words.
func tidy(t rapid.TB, s *drawing.Sheet) {
	t.Helper()
	var b bytes.Buffer
	if err := drawing.WriteSVG(&b, s); err != nil {
		t.Fatal(err)
	}
	if err := drawing.WriteDXF(&b, s); err != nil {
		t.Fatal(err)
	}
	if i := bytes.Index(b.Bytes(), []byte("NaN")); i >= 0 {
		t.Fatalf("NaN in the picture: …%s", b.Bytes()[max(0, i-100):i+10])
	}
	if s.Height > 2000 {
		t.Errorf("sheet %g mm high", s.Height)
	}
	page := drawing.Box{Max: drawing.Point{X: s.Width, Y: s.Height}}
	if got := s.Bounds(); !got.Inside(page.Grow(0.01)) {
		t.Errorf("drawn %v, page %v", got, page)
	}
	all := texts(s)
	for i, a := range all {
		if !a.Bounds().Inside(page) {
			t.Errorf("%q at %v leaves the page %v", a.Content, a.Bounds(), page)
		}
		for _, o := range all[:i] {
			if a.Bounds().Grow(-0.05).Overlaps(o.Bounds()) {
				t.Errorf("%q %v lies on %q %v", a.Content, a.Bounds(), o.Content, o.Bounds())
			}
		}
	}
	for _, o := range readSVG(t, s) {
		if o.layer != onLeader || o.part != "dimensions" {
			continue
		}
		for i := 1; i < len(o.points); i++ {
			for _, a := range all {
				if runsThrough(o.points[i-1], o.points[i], a.Bounds().Grow(-0.3)) {
					t.Errorf("a leader from %v to %v runs through %q %v", o.points[i-1], o.points[i], a.Content, a.Bounds())
				}
			}
		}
	}
}

// has reports whether the words stand on the sheet, broken over lines or not.
func has(s *drawing.Sheet, words string) bool {
	var all []string
	for _, t := range texts(s) {
		all = append(all, t.Content)
	}
	return strings.Contains(strings.Join(all, " "), words)
}
