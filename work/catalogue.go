package work

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"toplit/quantity"
)

// CatalogueOptions says what to look up. The zero value lists the kinds.
type CatalogueOptions struct {
	Kind string // one of CatalogueKinds
	Name string // one thing of that kind with all that is known of it; "" for all in short
}

// Listing is a table out of the catalogue.
type Listing struct {
	Kind    string
	What    string
	Columns []Column
	Rows    [][]any // a text, a float64 in SI or an int under each column; nil where nothing is known
	Notes   []string
	one     bool // one thing: written down the page
}

// Column says what stands in a column.
type Column struct {
	Key   string // of JSON and CSV; ends in its SI unit
	Title string
	Kind  quantity.Kind // of a float64
	Plain float64       // a float64 written for people as the number times this, not as a Kind
	Digit int           // significant digits for people, 3 when 0
	Long  bool          // only where one thing is shown
}

// kind is one part of the catalogue.
type kind struct {
	name, what string
	list       func(name string) (*Listing, error)
}

func kinds() []kind {
	return []kind{
		{"cans", "round cans by trade name, code or size", listCans},
		{"drills", "drills by set or size", listDrills},
		{"metals", "what cans, rings and pots are made of", listMetals},
		{"fuels", "fuels with their make-up and size", listFuels},
		{"starters", "what lights the top, and what must not", listStarters},
		{"covers", "what a stove may stand on", listCovers},
		{"priors", "what the model is not sure of, before any burn", listPriors},
	}
}

// CatalogueKinds names the parts of the catalogue.
func CatalogueKinds() []string {
	var names []string
	for _, k := range kinds() {
		names = append(names, k.name)
	}
	return names
}

// Catalogue looks something up.
func Catalogue(opts CatalogueOptions) (*Listing, error) {
	if opts.Kind == "" {
		l := &Listing{What: "parts of the catalogue", Columns: []Column{{Key: "kind", Title: "kind"}, {Key: "count", Title: ">how many"}, {Key: "what", Title: "what"}}}
		for _, k := range kinds() {
			all, err := k.list("")
			if err != nil {
				return nil, err
			}
			l.Rows = append(l.Rows, []any{k.name, len(all.Rows), k.what})
		}
		return l, nil
	}
	for _, k := range kinds() {
		if k.name != opts.Kind {
			continue
		}
		l, err := k.list(strings.TrimSpace(opts.Name))
		if err != nil {
			return nil, err
		}
		l.Kind, l.What = k.name, k.what
		return l, nil
	}
	return nil, fmt.Errorf("%q is no part of the catalogue; accepted: %s", opts.Kind, strings.Join(CatalogueKinds(), ", "))
}

// shown are the columns a person gets to see.
func (l *Listing) shown() []int {
	var at []int
	for i, c := range l.Columns {
		if l.one || !c.Long {
			at = append(at, i)
		}
	}
	return at
}

// cell is one value for people.
func (c Column) cell(v any, sys quantity.System) string {
	switch v := v.(type) {
	case string:
		return v
	case int:
		return fmt.Sprint(v)
	case float64:
		n := c.Digit
		if n == 0 {
			n = 3
		}
		if c.Plain != 0 {
			return short(v*c.Plain, n)
		}
		return quantity.Show(c.Kind, v, sys, n)
	}
	return ""
}

// WriteText writes the listing for people.
func (l *Listing) WriteText(w io.Writer, sys quantity.System) error {
	t := &page{w: w}
	at := l.shown()
	if l.one {
		for n, r := range l.Rows {
			if n > 0 {
				t.printf("\n")
			}
			wide := 0
			for _, i := range at {
				wide = max(wide, len([]rune(l.Columns[i].title())))
			}
			for _, i := range at {
				if s := l.Columns[i].cell(r[i], sys); s != "" {
					t.para(fmt.Sprintf("%-*s  ", wide, l.Columns[i].title()), s)
				}
			}
		}
	} else {
		var head []string
		for _, i := range at {
			head = append(head, l.Columns[i].Title)
		}
		var rows [][]string
		for _, r := range l.Rows {
			var line []string
			for _, i := range at {
				line = append(line, l.Columns[i].cell(r[i], sys))
			}
			rows = append(rows, line)
		}
		t.table(head, rows)
	}
	for _, n := range l.Notes {
		t.printf("\n")
		t.para("", n)
	}
	return t.err
}

func (c Column) title() string { return strings.TrimPrefix(c.Title, ">") }

// WriteJSON writes the listing with all its columns, SI units in the keys.
func (l *Listing) WriteJSON(w io.Writer) error {
	rows := list{}
	for _, r := range l.Rows {
		var o object
		for i, c := range l.Columns {
			o = append(o, member{c.Key, r[i]})
		}
		rows = append(rows, o)
	}
	notes := list{}
	for _, n := range l.Notes {
		notes = append(notes, n)
	}
	name := l.Kind
	if name == "" {
		name = "kinds"
	}
	return writeJSON(w, object{{"format", JSONFormat}, {"catalogue", name}, {name, rows}, {"notes", notes}})
}

// known is a value, or nil where zero means that nothing is known.
func known(v float64) any {
	if v == 0 {
		return nil
	}
	return v
}

// pick keeps the things whose name is meant, or complains with all names.
func pick[T any](all []T, name string, of func(T) string) ([]T, error) {
	if name == "" {
		return all, nil
	}
	i := slices.IndexFunc(all, func(x T) bool { return plainName(of(x)) == plainName(name) })
	if i < 0 {
		var names []string
		for _, x := range all {
			names = append(names, of(x))
		}
		return nil, fmt.Errorf("%q is not in the catalogue; accepted: %s", name, strings.Join(names, ", "))
	}
	return all[i : i+1], nil
}

func plainName(s string) string {
	return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(s))
}
