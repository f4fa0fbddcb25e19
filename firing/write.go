package firing

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"toplit/quantity"
)

// Options says how Write writes.
type Options struct {
	Units   quantity.System
	Reasons map[string]string // by key: written above it as a comment
	Bare    bool              // without the comments that say what tables and keys are
}

// Write writes a complete design file: every value of every part there is,
// those that were assumed marked "# assumed". Read gives the same Firing back,
// to the last bit. A mark may be taken off once a value has been measured.
func Write(w io.Writer, f *Firing, opts Options) error {
	b := bufio.NewWriter(w)
	assumed := map[string]bool{}
	for _, key := range f.Assumed {
		assumed[key] = true
	}
	if !opts.Bare {
		b.WriteString("# Design of a wood-gas can stove and how it is fired.\n# Burn outdoors only; follow local fire rules.\n")
	}
	keys := keyTable()
	for _, t := range tables() {
		for i := range t.has(f) {
			var lines []string
			for _, k := range keys {
				if k.Table != t.name || k.write == nil || !k.applies(f, i) {
					continue
				}
				text := k.write(f, i, opts.Units)
				if text == "" {
					continue
				}
				path := keyPath(k.Table, i, t.list, k.Name)
				if why := opts.Reasons[path]; why != "" {
					lines = append(lines, "# "+oneLine(why))
				}
				line := k.Name + " = " + text
				if assumed[path] {
					line += " # assumed"
				}
				lines = append(lines, line)
			}
			if why := opts.Reasons[keyPath(t.name, i, t.list, "")]; why != "" && t.name != "" {
				lines = append([]string{"# " + oneLine(why)}, lines...)
			}
			if len(lines) == 0 {
				continue
			}
			if t.name != "" {
				b.WriteString("\n")
				if !opts.Bare && (i == 0 || !t.list) {
					fmt.Fprintf(b, "# %s\n", t.what)
				}
				if t.list {
					fmt.Fprintf(b, "[[%s]]\n", t.name)
				} else {
					fmt.Fprintf(b, "[%s]\n", t.name)
				}
			}
			b.WriteString(strings.Join(lines, "\n") + "\n")
		}
	}
	return b.Flush()
}
