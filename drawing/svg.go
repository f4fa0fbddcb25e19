package drawing

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
)

// WriteSVG writes the sheet as a stand-alone SVG 1.1 picture: its size in
// millimetres, one user unit per millimetre, one group per layer with the
// layer's name in data-layer and one per part with its name in data-part.
// Coordinates are rounded to 0.001 mm. It uses presentation attributes only,
// no style and no id, so that several pictures can stand in one page under a
// strict content policy.
func WriteSVG(w io.Writer, s *Sheet) error {
	if err := s.Check(); err != nil {
		return err
	}
	p := svg{height: s.Height}
	p.f(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" aria-label="%s" font-family="%s" fill="none">`+"\n",
		mm(s.Width), mm(s.Height), mm(s.Width), mm(s.Height), escape(s.Title), escape(Fonts))
	if s.Title != "" {
		p.f("<title>%s</title>\n", escape(s.Title))
	}
	if s.Note != "" {
		p.f("<desc>%s</desc>\n", escape(s.Note))
	}
	if s.Ground.Opacity > 0 {
		p.f(`<rect width="%s" height="%s"%s/>`+"\n", mm(s.Width), mm(s.Height), fill(s.Ground))
	}
	for _, l := range s.Layers {
		if len(l.Shapes) == 0 {
			continue
		}
		p.f(`<g data-layer="%s"%s>`+"\n", escape(l.Name), stroke(l.Pen))
		for _, sh := range l.Shapes {
			p.shape(sh, l.Pen)
		}
		p.f("</g>\n")
	}
	p.f("</svg>\n")
	_, err := w.Write(p.Bytes())
	return err
}

// svg is the picture being written. Its y axis points down.
type svg struct {
	bytes.Buffer
	height float64
}

func (p *svg) f(format string, args ...any) { fmt.Fprintf(p, format, args...) }

func (p *svg) shape(sh Shape, pen Pen) {
	switch s := sh.(type) {
	case Line:
		p.f(`<line x1="%s" y1="%s" x2="%s" y2="%s"/>`+"\n", mm(s.From.X), p.y(s.From), mm(s.To.X), p.y(s.To))
	case Circle:
		p.f(`<circle cx="%s" cy="%s" r="%s"%s/>`+"\n", mm(s.Center.X), p.y(s.Center), mm(s.Radius), fill(s.Fill))
	case Arc:
		if s.sweep() > 2*math.Pi-1e-9 {
			p.shape(Circle{Center: s.Center, Radius: s.Radius}, pen)
			return
		}
		p.shape(s.polyline(), pen)
	case Polyline:
		p.f(`<path d="%s"%s/>`+"\n", p.path(s), fill(s.Fill))
	case Hatch:
		lines := s.Lines()
		if len(lines) == 0 {
			return
		}
		p.WriteString(`<path d="`)
		for _, l := range lines {
			p.f("M%s %sL%s %s", mm(l.From.X), p.y(l.From), mm(l.To.X), p.y(l.To))
		}
		p.WriteString("\"/>\n")
	case Text:
		p.text(s, pen)
	case Part:
		p.f(`<g data-part="%s">`+"\n", escape(s.Name))
		for _, c := range s.Shapes {
			p.shape(c, pen)
		}
		p.f("</g>\n")
	}
}

// polyline is the arc as up to two bulged segments, neither above a half turn,
// so that no writer meets an arc whose ends nearly coincide.
func (a Arc) polyline() Polyline {
	sweep := a.sweep()
	n := 1.0
	if sweep > math.Pi {
		n = 2
	}
	var p Polyline
	for k := 0.0; k <= n; k++ {
		s, c := math.Sincos(a.Start + sweep*k/n)
		p.Vertices = append(p.Vertices, Vertex{Point{a.Center.X + a.Radius*c, a.Center.Y + a.Radius*s}, math.Tan(sweep / n / 4)})
	}
	return p
}

func (p *svg) path(s Polyline) string {
	var b bytes.Buffer
	fmt.Fprintf(&b, "M%s %s", mm(s.Vertices[0].X), p.y(s.Vertices[0].Point))
	n := s.segments()
	for i := range n {
		from, to, bulge := s.segment(i)
		switch {
		case bulge != 0 && from != to:
			// Ends are written to 0.001 mm: that can move the bow of a half circle by
			// 0.06 mm, of a quarter hardly more than its ends.
			c, r, start, sweep := bulgeArc(from, to, bulge)
			positive := 0
			if sweep < 0 { // clockwise stays the positive direction of a y axis that points down
				positive = 1
			}
			parts := math.Ceil(math.Abs(sweep)/(math.Pi/2) - 1e-9)
			for k := 1.0; k <= parts; k++ {
				end := to
				if k < parts {
					sin, cos := math.Sincos(start + sweep*k/parts)
					end = Point{c.X + r*cos, c.Y + r*sin}
				}
				fmt.Fprintf(&b, "A%s %s 0 0 %d %s %s", mm(r), mm(r), positive, mm(end.X), p.y(end))
			}
		case s.Closed && i == n-1: // Z draws it
		default:
			fmt.Fprintf(&b, "L%s %s", mm(to.X), p.y(to))
		}
	}
	if s.Closed {
		b.WriteByte('Z')
	}
	return b.String()
}

func (p *svg) text(t Text, pen Pen) {
	p.f(`<text x="%s" y="%s" font-size="%s" fill="%s"`, mm(t.At.X), p.y(t.At), mm(t.Size), hex(pen.Color))
	switch {
	case t.Halo > 0:
		p.f(` stroke="#ffffff" stroke-width="%s" stroke-linejoin="round" paint-order="stroke"`, mm(2*t.Halo))
	case pen.Width > 0:
		p.WriteString(` stroke="none"`)
	}
	switch t.Anchor {
	case Middle:
		p.WriteString(` text-anchor="middle"`)
	case End:
		p.WriteString(` text-anchor="end"`)
	}
	if t.Bold {
		p.WriteString(` font-weight="700"`)
	}
	if t.Turn != 0 {
		p.f(` transform="rotate(%s %s %s)"`, mm(-t.Turn*180/math.Pi), mm(t.At.X), p.y(t.At))
	}
	p.f(">%s</text>\n", escape(t.Content))
}

func (p *svg) y(q Point) string { return mm(p.height - q.Y) }

// mm writes a length to 0.001 mm without needless zeros.
func mm(v float64) string {
	b := strconv.AppendFloat(nil, v, 'f', 3, 64)
	b = bytes.TrimRight(b, "0")
	b = bytes.TrimSuffix(b, []byte("."))
	if s := string(b); s != "-0" {
		return s
	}
	return "0"
}

func hex(c Color) string { return fmt.Sprintf("#%06x", uint32(c)) }

func stroke(p Pen) string {
	if p.Width == 0 {
		return ""
	}
	s := fmt.Sprintf(` stroke="%s" stroke-width="%s"`, hex(p.Color), mm(p.Width))
	if len(p.Dash) > 0 {
		s += ` stroke-dasharray="`
		for i, d := range p.Dash {
			if i > 0 {
				s += " "
			}
			s += mm(d)
		}
		s += `"`
	}
	return s
}

func fill(f Paint) string {
	switch {
	case f.Opacity == 0:
		return ""
	case f.Opacity == 1:
		return fmt.Sprintf(` fill="%s"`, hex(f.Color))
	}
	return fmt.Sprintf(` fill="%s" fill-opacity="%s"`, hex(f.Color), mm(f.Opacity))
}

// escape makes a string safe in XML text and in quoted attributes; characters
// that XML cannot hold become the replacement character.
func escape(s string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(s)) // a buffer's Write does not fail
	return b.String()
}
