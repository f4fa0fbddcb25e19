package cutsheet

import (
	"fmt"
	"io"
	"text/template"

	"toplit/quantity"
)

// WriteHTML writes one file for a phone in the workshop: the words, then one
// hole at a time in large figures, to be swiped or tapped through. It needs
// no script and no other file.
func (s *Set) WriteHTML(w io.Writer) error {
	return page.Execute(w, s.view())
}

type view struct {
	Title string
	Words []viewBlock
	Parts []viewPart
}

type viewBlock struct {
	Kind  string
	Text  string
	Head  []string
	Rows  [][]cell
	Items []string
}

// cell is what stands in a table, with its column's heading for narrow screens.
type cell struct{ Head, Text string }

type viewPart struct {
	Letter, Name string
	Lead         []string
	Holes        []viewHole
}

type viewHole struct {
	ID, Next, Back, Which string
	Big                   string // what to mark first
	Small                 []string
	How                   string
}

func (s *Set) view() view {
	v := view{Title: s.Title}
	for _, b := range s.words(nil) {
		last := len(v.Words) - 1
		switch b.kind {
		case heading:
			v.Words = append(v.Words, viewBlock{Kind: "heading", Text: b.text})
		case para:
			v.Words = append(v.Words, viewBlock{Kind: "para", Text: b.text})
		case table:
			t := viewBlock{Kind: "table", Head: b.head}
			for _, r := range b.rows {
				var row []cell
				for c, text := range r {
					row = append(row, cell{b.head[c], text})
				}
				t.Rows = append(t.Rows, row)
			}
			v.Words = append(v.Words, t)
		default:
			kind := map[blockKind]string{item: "list", step: "steps", caution: "cautions"}[b.kind]
			if last < 0 || v.Words[last].Kind != kind {
				v.Words = append(v.Words, viewBlock{Kind: kind})
				last++
			}
			v.Words[last].Items = append(v.Words[last].Items, b.text)
		}
	}
	sys := s.options.Units
	for _, p := range s.Parts {
		if len(p.Holes) == 0 {
			continue
		}
		q := viewPart{Letter: p.Letter, Name: p.Name}
		id := func(h Hole) string { return fmt.Sprintf("%s%d", p.Letter, h.Number) }
		var made []Hole
		if p.Kind == Wrap {
			marks, worst := Marks(p)
			q.Lead = append(q.Lead, fmt.Sprintf("A strip of paper round the wall is %s long; the seam is at 0. Marks count from the seam to the right. Inches are to the nearest 1/32, at worst %s mm off.", length(p.Around, sys), trim(worst, 2)))
			for _, i := range rowsOf(p) {
				if f := s.folding(p, i); f != "" {
					q.Lead = append(q.Lead, f)
				}
			}
			for _, m := range marks {
				made = append(made, m.Hole)
				big, small := fmt.Sprintf("%.1f mm", m.Seam), m.Inch
				if sys == quantity.US {
					big, small = small, big
				}
				q.Holes = append(q.Holes, viewHole{
					Big:   big,
					Small: []string{small + " from the seam", fmt.Sprintf("%s above the base", place(m.Hole.Y, sys)), fmt.Sprintf("%s below the rim", place(p.Tall-m.Hole.Y, sys))},
				})
			}
		} else {
			q.Lead = append(q.Lead, "From the middle of the end, the seam at the top, seen from outside.")
			for _, h := range p.Holes {
				if h.State == There {
					continue
				}
				made = append(made, h)
				c := polarOf(h)
				q.Holes = append(q.Holes, viewHole{
					Big:   fmt.Sprintf("%s %s", place(abs(c.right), sys), side(c.right, "right", "left")),
					Small: []string{fmt.Sprintf("%s %s", place(abs(c.up), sys), side(c.up, "up", "down")), fmt.Sprintf("or %s from the middle at %.1f° clockwise", place(c.radius, sys), c.angle)},
				})
			}
		}
		for k, h := range made {
			x := &q.Holes[k]
			x.ID, x.Which = id(h), fmt.Sprintf("hole %d of %s, %s", h.Number, p.Name, s.Rows[h.Row].Label)
			x.How = s.holeWay(h)
			if k > 0 {
				x.Back = id(made[k-1])
			}
			if k < len(made)-1 {
				x.Next = id(made[k+1])
			}
		}
		if len(q.Holes) > 0 {
			v.Parts = append(v.Parts, q)
		}
	}
	return v
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// side is a word for the sign of a place to 0.05 mm.
func side(v float64, over, under string) string {
	if v < -0.05 {
		return under
	}
	return over
}

// Every value is escaped where it stands: there is no script and no address but
// a hole's name, and html/template has known faults in go1.26.8.
var page = template.Must(template.New("cut sheet").Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Cut sheets: {{html .Title}}</title>
<style>
:root { color-scheme: light }
body { margin: 0 auto; max-width: 42rem; padding: 0 1rem 2rem; font: 1.1rem/1.45 "Atkinson Hyperlegible Next", "Atkinson Hyperlegible", Helvetica, Arial, sans-serif; color: #111; background: #fff }
h1 { font-size: 1.6rem } h2 { font-size: 1.25rem; margin: 1.6rem 0 .4rem }
.wide { overflow-x: auto }
table { border-collapse: collapse } th, td { text-align: left; padding: .25rem .8rem .25rem 0; border-bottom: 1px solid #767676; vertical-align: top }
li { margin: .3rem 0 }
.cautions li { font-weight: 700 }
a { color: #111 }
.part a.go { display: block; border: 2px solid #111; padding: .9rem 1rem; margin: .6rem 0; text-align: center; font-weight: 700; text-decoration: none }
.holes { display: flex; overflow-x: auto; scroll-snap-type: x mandatory; scroll-behavior: smooth; border: 2px solid #111 }
.hole { flex: 0 0 100%; box-sizing: border-box; padding: 1rem; scroll-snap-align: start; min-height: 24rem; display: flex; flex-direction: column }
.which { margin: 0 } .big { font-size: 3.2rem; font-weight: 700; line-height: 1.1; margin: .8rem 0 .2rem } .hole p { margin: .25rem 0 } .how { font-size: 1.6rem; font-weight: 700 }
.turn { display: flex; gap: 1.5rem; margin-top: auto }
.turn > * { flex: 1; border: 2px solid #111; padding: 1.2rem .5rem; text-align: center; text-decoration: none; font-weight: 700 }
@media (max-width: 34rem) {
thead { position: absolute; clip-path: inset(50%); width: 1px; height: 1px; overflow: hidden; white-space: nowrap }
tr { display: block; border-bottom: 1px solid #767676; padding: .4rem 0 } td { display: block; border: 0; padding: .1rem 0 } td.empty { display: none } td[data-head]::before { content: attr(data-head) ": "; color: #595959 } td:first-child { font-weight: 700 }
}
.turn .none { border-style: dotted; border-color: #767676; color: #595959; font-weight: 400 }
</style>
</head>
<body>
<h1>Cut sheets: {{html .Title}}</h1>
{{range .Words}}{{if eq .Kind "heading"}}<h2>{{html .Text}}</h2>
{{else if eq .Kind "para"}}<p>{{html .Text}}</p>
{{else if eq .Kind "steps"}}<ol>{{range .Items}}<li>{{html .}}</li>
{{end}}</ol>
{{else if eq .Kind "table"}}<div class="wide"><table><thead><tr>{{range .Head}}<th scope="col">{{html .}}</th>{{end}}</tr></thead><tbody>{{range .Rows}}<tr>{{range .}}{{if .Text}}<td{{if .Head}} data-head="{{html .Head}}"{{end}}>{{html .Text}}</td>{{else}}<td class="empty"></td>{{end}}{{end}}</tr>
{{end}}</tbody></table></div>
{{else}}<ul class="{{html .Kind}}">{{range .Items}}<li>{{html .}}</li>
{{end}}</ul>
{{end}}{{end}}
{{range .Parts}}<section class="part">
<h2>{{html .Letter}}: {{html .Name}}, one hole at a time</h2>
{{range .Lead}}<p>{{html .}}</p>
{{end}}<a class="go" href="#{{html (index .Holes 0).ID}}">Begin with the first hole</a>
<div class="holes">
{{range .Holes}}<div class="hole" id="{{html .ID}}">
<p class="which">{{html .Which}}</p>
<p class="big">{{html .Big}}</p>
{{range .Small}}<p>{{html .}}</p>
{{end}}<p class="how">{{html .How}}</p>
<div class="turn">{{if .Back}}<a href="#{{html .Back}}">back</a>{{else}}<span class="none">first</span>{{end}}{{if .Next}}<a href="#{{html .Next}}">next</a>{{else}}<span class="none">last</span>{{end}}</div>
</div>
{{end}}</div>
</section>
{{end}}</body>
</html>
`))
