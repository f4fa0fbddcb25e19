package drawing

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// WriteDXF writes the sheet as DXF R12 (AC1009) in ASCII, in millimetres
// ($INSUNITS 4, $MEASUREMENT 1), with the LTYPE and LAYER tables filled.
// Lines, circles, arcs and polylines with bulges go over exactly; a hatch
// becomes lines, because R12 has no hatch. Fills, line widths, text halos and
// the paper's colour have no counterpart and are left out, and so are
// outlines on a layer whose pen has no width. Layer names become upper case
// ASCII of at most 31 characters, texts ASCII with the R12 codes for the
// diameter, degree and plus-minus signs; colours the nearest of the first
// nine of the colour index.
//
// Format: the DXF group codes of release 12 (header, tables, entities).
func WriteDXF(w io.Writer, s *Sheet) error {
	if err := s.Check(); err != nil {
		return err
	}
	d := dxf{names: layerNames(s.Layers)}
	d.header(s)
	d.tables(s)
	d.tag(0, "SECTION")
	d.tag(2, "BLOCKS")
	d.tag(0, "ENDSEC")
	d.tag(0, "SECTION")
	d.tag(2, "ENTITIES")
	for i, l := range s.Layers {
		d.layer, d.outlines = d.names[i], l.Pen.Width > 0
		for _, sh := range l.Shapes {
			d.shape(sh)
		}
	}
	d.tag(0, "ENDSEC")
	d.tag(0, "EOF")
	_, err := w.Write(d.Bytes())
	return err
}

// dxf is the file being written: pairs of lines, a group code and its value.
type dxf struct {
	bytes.Buffer
	names    []string // of the layers, in order
	layer    string   // of the entities being written
	outlines bool
}

func (d *dxf) tag(code int, value string) { fmt.Fprintf(d, "%3d\n%s\n", code, value) }
func (d *dxf) num(code int, v float64)    { d.tag(code, coordinate(v)) }
func (d *dxf) int(code, v int)            { d.tag(code, strconv.Itoa(v)) }

func (d *dxf) point(code int, p Point) {
	d.num(code, p.X)
	d.num(code+10, p.Y)
	d.num(code+20, 0)
}

func (d *dxf) header(s *Sheet) {
	b := s.Bounds()
	if b.Empty() {
		b = Box{Max: Point{s.Width, s.Height}}
	}
	d.tag(0, "SECTION")
	d.tag(2, "HEADER")
	d.tag(9, "$ACADVER")
	d.tag(1, "AC1009")
	d.tag(9, "$INSUNITS")
	d.int(70, 4)
	d.tag(9, "$MEASUREMENT")
	d.int(70, 1)
	d.tag(9, "$EXTMIN")
	d.point(10, b.Min)
	d.tag(9, "$EXTMAX")
	d.point(10, b.Max)
	d.tag(9, "$LIMMIN")
	d.num(10, 0)
	d.num(20, 0)
	d.tag(9, "$LIMMAX")
	d.num(10, s.Width)
	d.num(20, s.Height)
	d.tag(0, "ENDSEC")
}

func (d *dxf) tables(s *Sheet) {
	// One line type per different dash, in order of first use.
	types := map[string]string{"": "CONTINUOUS"}
	var dashes [][]float64
	ofLayer := make([]string, len(s.Layers))
	for i, l := range s.Layers {
		dash := l.Pen.Dash
		if len(dash)%2 == 1 { // an odd list repeats with lines and gaps exchanged
			dash = append(append([]float64{}, dash...), dash...)
		}
		key := ""
		if len(dash) > 0 {
			key = fmt.Sprint(dash)
		}
		if _, ok := types[key]; !ok {
			dashes = append(dashes, dash)
			types[key] = fmt.Sprintf("DASH%d", len(dashes))
		}
		ofLayer[i] = types[key]
	}
	d.tag(0, "SECTION")
	d.tag(2, "TABLES")
	d.tag(0, "TABLE")
	d.tag(2, "LTYPE")
	d.int(70, 1+len(dashes))
	d.lineType("CONTINUOUS", "solid line", nil)
	for i, dash := range dashes {
		d.lineType(fmt.Sprintf("DASH%d", i+1), "line and gap in mm", dash)
	}
	d.tag(0, "ENDTAB")
	d.tag(0, "TABLE")
	d.tag(2, "LAYER")
	d.int(70, 1+len(s.Layers))
	d.layerEntry("0", 7, "CONTINUOUS")
	for i, l := range s.Layers {
		d.layerEntry(d.names[i], colorIndex(l.Pen.Color), ofLayer[i])
	}
	d.tag(0, "ENDTAB")
	d.tag(0, "TABLE")
	d.tag(2, "STYLE")
	d.int(70, 1)
	d.tag(0, "STYLE")
	d.tag(2, "STANDARD")
	d.int(70, 0)
	d.num(40, 0) // height free
	d.num(41, 1) // width factor
	d.num(50, 0) // slant
	d.int(71, 0)
	d.num(42, 2.5)
	d.tag(3, "txt")
	d.tag(4, "")
	d.tag(0, "ENDTAB")
	d.tag(0, "ENDSEC")
}

func (d *dxf) lineType(name, words string, dash []float64) {
	total := 0.0
	for _, v := range dash {
		total += v
	}
	d.tag(0, "LTYPE")
	d.tag(2, name)
	d.int(70, 0)
	d.tag(3, words)
	d.int(72, 65)
	d.int(73, len(dash))
	d.num(40, total)
	for i, v := range dash {
		if i%2 == 1 {
			v = -v
		}
		d.num(49, v)
	}
}

func (d *dxf) layerEntry(name string, color int, lineType string) {
	d.tag(0, "LAYER")
	d.tag(2, name)
	d.int(70, 0)
	d.int(62, color)
	d.tag(6, lineType)
}

func (d *dxf) entity(kind string) {
	d.tag(0, kind)
	d.tag(8, d.layer)
}

func (d *dxf) shape(sh Shape) {
	switch s := sh.(type) {
	case Part:
		for _, c := range s.Shapes {
			d.shape(c)
		}
		return
	case Text:
		d.text(s)
		return
	}
	if !d.outlines {
		return
	}
	switch s := sh.(type) {
	case Line:
		d.line(s)
	case Circle:
		d.entity("CIRCLE")
		d.point(10, s.Center)
		d.num(40, s.Radius)
	case Arc:
		d.entity("ARC")
		d.point(10, s.Center)
		d.num(40, s.Radius)
		d.num(50, s.Start*180/math.Pi)
		d.num(51, s.End*180/math.Pi)
	case Hatch:
		for _, l := range s.Lines() {
			d.line(l)
		}
	case Polyline:
		d.entity("POLYLINE")
		d.int(66, 1)
		if s.Closed {
			d.int(70, 1)
		} else {
			d.int(70, 0)
		}
		d.point(10, Point{})
		for _, v := range s.Vertices {
			d.entity("VERTEX")
			d.point(10, v.Point)
			if v.Bulge != 0 {
				d.num(42, v.Bulge)
			}
		}
		d.entity("SEQEND")
	}
}

func (d *dxf) line(l Line) {
	d.entity("LINE")
	d.point(10, l.From)
	d.point(11, l.To)
}

func (d *dxf) text(t Text) {
	d.entity("TEXT")
	d.point(10, t.At)
	d.num(40, t.Size*capital) // R12 measures text by its capitals
	d.tag(1, plainText(t.Content))
	if t.Turn != 0 {
		d.num(50, t.Turn*180/math.Pi)
	}
	if t.Anchor != Start {
		d.int(72, int(t.Anchor)) // 1 centred, 2 right, as Middle and End
		d.point(11, t.At)
	}
}

// coordinate writes a number to a millionth of a millimetre.
func coordinate(v float64) string {
	s := strings.TrimRight(strconv.FormatFloat(v, 'f', 6, 64), "0")
	if strings.HasSuffix(s, ".") {
		s += "0"
	}
	if s == "-0.0" {
		return "0.0"
	}
	return s
}

// layerNames turns layer names into R12 ones, still different from each other
// and from layer 0.
func layerNames(layers []Layer) []string {
	used := map[string]bool{"0": true}
	names := make([]string, len(layers))
	for i, l := range layers {
		base := strings.Map(func(r rune) rune {
			switch {
			case r >= 'a' && r <= 'z':
				return r - 'a' + 'A'
			case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_', r == '$':
				return r
			}
			return '_'
		}, l.Name)
		base = base[:min(len(base), 27)]
		name := base
		for n := 2; used[name]; n++ {
			name = fmt.Sprintf("%s_%d", base, n)
		}
		used[name], names[i] = true, name
	}
	return names
}

// plainText is text in the ASCII that R12 reads.
func plainText(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\t':
			b.WriteByte(' ')
		case r >= ' ' && r < 0x7f:
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
		default:
			b.WriteString(asciiFor(r))
		}
	}
	return b.String()
}

func asciiFor(r rune) string {
	switch r {
	case 'Ø', 'ø', '⌀':
		return "%%c"
	case '°':
		return "%%d"
	case '±':
		return "%%p"
	case '×':
		return "x"
	case '–', '—', '−', '·':
		return "-"
	case '…':
		return "..."
	case '’', '‘', '′':
		return "'"
	case '“', '”', '″':
		return `"`
	case '→':
		return "->"
	case '≈':
		return "~"
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '²':
		return "2"
	case '³':
		return "3"
	case '\u00a0', '\u202f', '\u2009':
		return " "
	}
	return "?"
}

// colorIndex is the nearest of colours 1 to 9 of the DXF colour index. Index 7
// is drawn black on white and white on black, so it stands for both.
func colorIndex(c Color) int {
	palette := []struct {
		index int
		rgb   Color
	}{
		{7, 0x000000}, {1, 0xff0000}, {2, 0xffff00}, {3, 0x00ff00}, {4, 0x00ffff},
		{5, 0x0000ff}, {6, 0xff00ff}, {7, 0xffffff}, {8, 0x808080}, {9, 0xc0c0c0},
	}
	best, bestD := 7, math.Inf(1)
	for _, p := range palette {
		d := 0.0
		for shift := 0; shift <= 16; shift += 8 {
			e := float64(c>>shift&0xff) - float64(p.rgb>>shift&0xff)
			d += e * e
		}
		if d < bestD {
			best, bestD = p.index, d
		}
	}
	return best
}
