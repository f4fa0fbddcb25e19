package firing

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	toml "github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// document is a TOML file as the list of its keys, with where each stands.
type document struct {
	name    string
	headers []header
	entries []entry
}

// header is one [table] or [[list]].
type header struct {
	table string
	index int // counts the [[list]] headers of one name from 0
	list  bool
	line  int
}

// entry is one key with its value.
type entry struct {
	table   string // "" at the top of the file
	index   int
	list    bool // stands in a [[list]] or in a list of inline tables
	key     string
	value   any // string, int64, float64, bool, []any, or other
	line    int
	assumed bool // marked "# assumed"
}

// other stands for a kind of TOML value no key takes.
type other struct{ what string }

// path is the key as problems name it.
func (e entry) path() string { return keyPath(e.table, e.index, e.list, e.key) }

func keyPath(table string, index int, list bool, key string) string {
	switch {
	case table == "":
		return key
	case list:
		table = fmt.Sprintf("%s[%d]", table, index+1)
	}
	if key == "" {
		return table
	}
	return table + "." + key
}

// parse reads TOML. The error is a Problems with one line: what follows a
// broken line is not worth reporting.
func parse(src []byte, name string) (*document, error) {
	var all map[string]any
	if err := toml.Unmarshal(src, &all); err != nil {
		p := Problem{Severity: "error", File: name, Text: "not TOML: " + strings.TrimPrefix(err.Error(), "toml: "), Accept: `lines such as key = "99 mm", [table] and [[row]]`}
		if strings.Contains(err.Error(), "already") {
			p.Text, p.Accept = "stands in the file twice", "one of the two, or [[...]] where a list is meant"
		}
		var d *toml.DecodeError
		if errors.As(err, &d) {
			p.Line, _ = d.Position()
			if k := d.Key(); len(k) > 0 {
				p.Key = strings.Join(k, ".")
			}
		}
		return nil, Problems{p}
	}
	d := &document{name: name}
	count := map[string]int{}
	p := unstable.Parser{KeepComments: true}
	p.Reset(src)
	var at header
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			path, line := keys(&p, e)
			at = header{table: path, list: e.Kind == unstable.ArrayTable, line: line}
			if at.list {
				at.index = count[path]
				count[path]++
			}
			d.headers = append(d.headers, at)
		case unstable.KeyValue:
			d.add(&p, e, at, marked(e))
		}
	}
	if err := p.Error(); err != nil { // toml.Unmarshal has read the same text
		return nil, Problems{{Severity: "error", File: name, Text: "not TOML: " + err.Error(), Accept: `lines such as key = "99 mm"`}}
	}
	return d, nil
}

// keys joins the dotted key of a node and gives the line it stands on.
func keys(p *unstable.Parser, n *unstable.Node) (path string, line int) {
	var parts []string
	for it := n.Key(); it.Next(); {
		k := it.Node()
		if line == 0 {
			line = p.Shape(k.Raw).Start.Line
		}
		parts = append(parts, string(k.Data))
	}
	return strings.Join(parts, "."), line
}

// marked: the key's line ends in a comment that begins with "assumed".
func marked(n *unstable.Node) bool {
	c := n.Next()
	return c != nil && c.Kind == unstable.Comment &&
		strings.HasPrefix(strings.TrimSpace(strings.TrimLeft(string(c.Data), "#")), "assumed")
}

// add notes one key, taking dotted keys and inline tables apart.
func (d *document) add(p *unstable.Parser, n *unstable.Node, at header, assumed bool) {
	path, line := keys(p, n)
	if line == 0 {
		line = at.line
	}
	if at.table != "" {
		path = at.table + "." + path
	}
	d.put(p, path, n.Value(), at, line, assumed)
}

func (d *document) put(p *unstable.Parser, path string, v *unstable.Node, at header, line int, assumed bool) {
	switch {
	case v.Kind == unstable.InlineTable && !strings.Contains(path, "."):
		here := header{table: path, line: line}
		d.headers = append(d.headers, here)
		for it := v.Children(); it.Next(); {
			if it.Node().Kind == unstable.KeyValue {
				d.add(p, it.Node(), here, assumed)
			}
		}
		return
	case v.Kind == unstable.Array && !strings.Contains(path, ".") && allTables(v):
		i := 0
		for it := v.Children(); it.Next(); {
			if it.Node().Kind != unstable.InlineTable {
				continue // a comment
			}
			here := header{table: path, index: i, list: true, line: line}
			d.headers = append(d.headers, here)
			for c := it.Node().Children(); c.Next(); {
				if c.Node().Kind == unstable.KeyValue {
					d.add(p, c.Node(), here, assumed)
				}
			}
			i++
		}
		return
	}
	e := entry{value: value(v), line: line, assumed: assumed}
	e.table, e.key = "", path
	if i := strings.Index(path, "."); i >= 0 {
		e.table, e.key = path[:i], path[i+1:]
	}
	if at.table == e.table {
		e.index, e.list = at.index, at.list
	}
	d.entries = append(d.entries, e)
}

// allTables: an array of nothing but inline tables, and not empty.
func allTables(v *unstable.Node) bool {
	n := 0
	for it := v.Children(); it.Next(); {
		switch it.Node().Kind {
		case unstable.InlineTable:
			n++
		case unstable.Comment:
		default:
			return false
		}
	}
	return n > 0
}

func value(v *unstable.Node) any {
	text := string(v.Data)
	switch v.Kind {
	case unstable.String:
		return text
	case unstable.Bool:
		return text == "true"
	case unstable.Integer:
		if n, err := strconv.ParseInt(text, 0, 64); err == nil {
			return n
		}
		return other{text}
	case unstable.Float:
		if f, err := strconv.ParseFloat(strings.ReplaceAll(text, "_", ""), 64); err == nil {
			return f
		}
		return other{text}
	case unstable.Array:
		list := []any{}
		for it := v.Children(); it.Next(); {
			if it.Node().Kind != unstable.Comment {
				list = append(list, value(it.Node()))
			}
		}
		return list
	case unstable.InlineTable:
		return other{"a table"}
	}
	return other{text} // dates and times
}

// literal is a value as an error line shows it.
func literal(v any) string {
	switch v := v.(type) {
	case string:
		return quote(v)
	case other:
		return v.what
	case []any:
		parts := make([]string, 0, 4)
		for i, x := range v {
			if i == 3 {
				parts = append(parts, "...")
				break
			}
			parts = append(parts, literal(x))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return fmt.Sprint(v)
}
