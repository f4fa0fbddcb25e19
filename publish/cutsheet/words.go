package cutsheet

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"toplit/quantity"
)

// block is one piece of the words of a set: a heading, a paragraph, an item
// of a list or a table.
type block struct {
	kind blockKind
	text string
	head []string
	rows [][]string
}

type blockKind int

const (
	heading blockKind = iota
	para
	item // of a list
	step // of a numbered list
	table
	caution // an item that is not to be overlooked
)

// words is what goes with the drawings: what to print, what to drill with,
// in which order, and what to look out for. pages says on which page of a
// print each part is; nil where there are no pages.
func (s *Set) words(pages map[string]string) []block {
	var b []block
	add := func(k blockKind, text string) { b = append(b, block{kind: k, text: text}) }
	if c := s.options.Conditions; c != "" {
		add(para, "For: "+c)
	}
	if pages != nil {
		add(para, "Print at 100 % (“actual size”, no fitting to the page). On every page measure both bars: 99.5 to 100.5 mm is good. Otherwise print again with --printed-bar and the two lengths measured, across and down.")
	}
	if s.options.Bar != (PrintedBar{}) && pages != nil {
		add(para, fmt.Sprintf("Corrected for a printer that makes 100 mm into %s mm across and %s mm down.", trim(s.options.Bar.Across, 2), trim(s.options.Bar.Down, 2)))
	}
	if s.options.Parent != nil {
		name := s.options.Parent.Name
		if name == "" {
			name = "the parent"
		}
		add(para, fmt.Sprintf("Only what is new against “%s”: dotted holes are there already, ringed ones are made bigger.", name))
		if len(s.Done) > 0 {
			add(para, "Nothing left to do on: "+strings.Join(s.Done, ", ")+".")
		}
	}
	if len(s.Parts) == 0 {
		add(para, "Nothing is left to cut: this design differs from the parent in nothing that is made of metal, or not at all.")
	} else {
		add(heading, "To print and cut")
		b = append(b, s.partTable(pages))
	}
	if t, ok := s.drillTable(); ok {
		add(heading, "Holes")
		b = append(b, t)
		if s.options.Effect != "" {
			add(para, s.options.Effect)
		}
		add(para, "By hand in thin sheet holes come out 0 to 4 % wide and a little three-lobed: read them back with the gauges.")
	}
	for _, n := range s.Notes {
		add(para, n)
	}
	if len(s.Parts) > 0 {
		add(heading, "Steps")
		for _, t := range s.steps() {
			add(step, t)
		}
	}
	add(heading, "Cautions")
	for _, t := range cautions() {
		add(caution, t)
	}
	add(heading, "Parts of the stove")
	t := block{kind: table, head: []string{"part", "size", ""}}
	for _, p := range s.Loose {
		t.rows = append(t.rows, []string{p.Name, p.Size, p.Note})
	}
	b = append(b, t)
	add(heading, "Tools")
	for _, t := range s.tools() {
		add(item, t)
	}
	return b
}

func (s *Set) partTable(pages map[string]string) block {
	t := block{kind: table, head: []string{"", "part", "printed as", "holes"}}
	if pages != nil {
		t.head = append(t.head, "page")
	}
	for _, p := range s.Parts {
		holes := ""
		if n := len(p.Holes) - p.count(There); n > 0 {
			holes = fmt.Sprint(n)
		}
		r := []string{p.Letter, p.Name, string(p.Kind), holes}
		if pages != nil {
			r = append(r, pages[p.Letter])
		}
		t.rows = append(t.rows, r)
	}
	return t
}

// drillTable is a line for every row with work to do.
func (s *Set) drillTable() (block, bool) {
	t := block{kind: table, head: []string{"row", "holes", "wanted", "drill", "area", "through", "in doubt stop at"}}
	for _, p := range s.Parts {
		for _, i := range rowsOf(p) {
			row := s.Rows[i]
			n, was := 0, ""
			for _, h := range p.Holes {
				if h.Row == i && h.State != There {
					n++
					if h.State == Bigger {
						was = h.Was.text(s.options.Units) + " → "
					}
				}
			}
			if n == 0 {
				continue
			}
			drill, area, through := row.Drill, "", strings.Join(row.Ways, ", ")
			switch {
			case !row.Cut.round():
				drill, through = "by shape", ""
			case drill == "":
				drill, area = "none near", ""
				if len(row.Ways) > 0 {
					through = row.Ways[len(row.Ways)-1] + ", then file to the line"
				}
			case len(s.options.Drills) > 0:
				area = percent(row.Off)
				if len(row.Ways) < 2 {
					through = ""
				}
			}
			stop := row.Stop
			if stop != "" {
				stop += fmt.Sprintf(" (%s)", percent(-row.StopBy))
			}
			t.rows = append(t.rows, []string{row.Label, fmt.Sprint(n), was + row.Want.text(s.options.Units), drill, area, through, stop})
		}
	}
	return t.trimmed(), len(t.rows) > 0
}

// trimmed is a table without the columns in which nothing stands.
func (t block) trimmed() block {
	out := block{kind: table, rows: make([][]string, len(t.rows))}
	for c, h := range t.head {
		used := false
		for _, r := range t.rows {
			used = used || r[c] != ""
		}
		if !used {
			continue
		}
		out.head = append(out.head, h)
		for i, r := range t.rows {
			out.rows[i] = append(out.rows[i], r[c])
		}
	}
	return out
}

// steps is the order of work: small drills first, nothing that cannot be
// undone before it has to be.
func (s *Set) steps() []string {
	var out []string
	add := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	holes, wraps, discs, enlarge, cans := 0, 0, 0, 0, 0
	for _, p := range s.Parts {
		holes += len(p.Holes) - p.count(There)
		enlarge += p.count(Bigger)
		if p.Kind == Wrap && len(p.Holes) > 0 {
			wraps++
		}
		if p.Kind == Disc {
			discs++
		}
		if p.Place != "" {
			cans++
		}
	}
	add("Gloves on before you touch a cut edge. Cut the papers out along the thick lines.")
	if wraps > 0 {
		add("Strip: printed side out, arrow up, left edge on the side seam. Pull it round, push the tab under, read where the left edge comes to lie on the closing scale, tape it.")
	}
	if discs > 0 {
		add("Disc: printed side out on the end, the arrow to the side seam, the same gap all round, tape it.")
	}
	if holes > enlarge {
		add("Put a block of hard wood behind the sheet, inside the can, and move it along: without it thin sheet dents and the drill grabs.")
		add("Centre-punch every cross through the paper, lightly.")
	}
	if enlarge > 0 {
		add("Ringed holes are drilled up from what they are: no punch, slowly, the wood behind them.")
	}
	if first := s.firstDrill(); first != "" {
		add("Drill every hole with %s first, through the paper.", first)
	}
	if len(s.options.Drills) == 0 && len(s.bySize()) > 0 {
		thin := length(pilotMost, quantity.Metric)
		if s.options.Units == quantity.US {
			thin = "1/8 in"
		}
		add("Start with a drill of %s or less, then go up in steps no wider than double. A hole can be made bigger later, never smaller: if you are not sure, stop one drill short, make the first fires, and drill up when the burns ask for it.", thin)
	}
	if order := s.order(); order != "" {
		add("Then by size, thin drills first: %s. A step drill runs slowly, with little pressure, a strip of tape on its last step.", order)
	}
	if s.anyStop() {
		add("A hole can be made bigger later, never smaller. If you are not sure, stop at the drill in the last column, make the first fires, weigh what is left, and drill up when the burns ask for it; print that with --from.")
	}
	if s.anyShape() {
		add("Slots: drill both ends, cut between them with a small chisel on the wood or with snips, file. Triangles: punch at the middle of the base line, the point away from it, then read the opening.")
	}
	for _, p := range s.Parts {
		switch {
		case p.Ring != nil && p.Ring.Was > 0:
			add("Ring: snip and file the opening out to the thick line.")
		case p.Ring != nil:
			add("Ring: cut the round first, then drill a start inside the opening, cut it with curved snips and file to the line.")
		case p.Tabs > 0:
			add("%s: cut the tube to height with %s for the tabs, slit at the tabs, bend them out over a block of wood.", upperFirst(p.Name), length(tabLong, s.options.Units))
		}
	}
	if holes > 0 {
		add("Deburr both sides of every hole with a larger drill turned by hand. A burr moves the air more than the next drill size does.")
		add("Read the holes back with the gauges and write the real sizes into the design: predict again, and you know what to expect.")
	}
	if cans > 0 {
		add("First fire empty of food, outdoors, upwind of it, until nothing smokes: linings, paint, print and tin burn off.")
	}
	return out
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// firstDrill is the drill that starts most holes.
func (s *Set) firstDrill() string {
	for _, i := range s.bySize() {
		if w := s.Rows[i].Ways; len(w) > 1 {
			return w[0]
		}
	}
	return ""
}

// bySize is the rows of round holes to make, thin to thick.
func (s *Set) bySize() []int {
	var rows []int
	for _, p := range s.Parts {
		for _, i := range rowsOf(p) {
			make := false
			for _, h := range p.Holes {
				make = make || h.Row == i && h.State != There
			}
			if make && s.Rows[i].Cut.round() {
				rows = append(rows, i)
			}
		}
	}
	sort.SliceStable(rows, func(a, b int) bool { return s.Rows[rows[a]].Cut.Width < s.Rows[rows[b]].Cut.Width })
	return rows
}

func (s *Set) order() string {
	var words []string
	for _, i := range s.bySize() {
		r := s.Rows[i]
		way := r.Drill
		switch {
		case r.Drill == "" && len(r.Ways) > 0:
			way = r.Ways[len(r.Ways)-1] + " and a file"
		case r.Drill == "":
			way = "cut to the line"
		case len(r.Ways) > 2:
			way = strings.Join(r.Ways[1:], ", ")
		}
		words = append(words, fmt.Sprintf("%s %s", r.Label, way))
	}
	return strings.Join(words, "; ")
}

func (s *Set) anyStop() bool {
	for _, i := range s.bySize() {
		if s.Rows[i].Stop != "" {
			return true
		}
	}
	return false
}

func (s *Set) anyShape() bool {
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if !h.round() && h.State != There {
				return true
			}
		}
	}
	return false
}

// tools lists what the work needs.
func (s *Set) tools() []string {
	widest, any := 0.0, false
	var names []string
	seen := map[string]bool{}
	for _, i := range s.bySize() {
		any = true
		r := s.Rows[i]
		widest = math.Max(widest, r.Cut.Width)
		list := r.Ways
		if len(list) == 0 && r.Drill != "" {
			list = []string{r.Drill}
		}
		for _, n := range list {
			if !seen[n] {
				seen[n] = true
				names = append(names, n)
			}
		}
	}
	var out []string
	if any {
		text := "Drill; drills "
		if widest > 6 {
			text = "Drill; drills or steps of a step drill "
		}
		out = append(out, text+strings.Join(names, ", "), "Centre punch, hammer, block of hard wood that fits inside the can, clamp")
	}
	out = append(out, "Tin snips, straight and curved; can opener; half-round file", "Scissors, tape, steel rule with millimetres, dividers", "Gloves, eye protection, a vise or a helper’s gloved hand")
	return out
}

// cautions are those of cutting and of the first fire. They hold for every set.
func cautions() []string {
	return []string{
		"Cut cans are sharp: gloves at every step, but none that a turning drill can catch; eye protection while punching, drilling and cutting.",
		"Clamp the can or hold it in a vise: a drill that grabs in thin sheet spins it like a blade.",
		"No galvanised or brass-plated sheet anywhere near heat: zinc fume makes ill hours later. No aluminium where fire, gas or char reach: it sags and melts.",
		"Burn coatings off outdoors, without food, and stay upwind.",
		"A stove made from these sheets burns outdoors only: never in a tent, vehicle, garage, porch or room. It makes carbon monoxide, most of all when it only glows.",
		"Bare mineral ground, a plate under the stove, water at hand; local fire rules and people licensed to judge come first.",
	}
}

// holeWay is how one hole is made, for the list of numbers.
func (s *Set) holeWay(h Hole) string {
	r := s.Rows[h.Row]
	switch {
	case h.State == There:
		return "is there: " + h.Outline.text(s.options.Units)
	case !h.round():
		return h.Outline.text(s.options.Units)
	case r.Drill == "":
		return "cut to " + h.Outline.text(s.options.Units)
	case h.State == Bigger:
		return fmt.Sprintf("%s → %s", h.Was.text(s.options.Units), r.Drill)
	}
	return "drill " + r.Drill
}
