package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"toplit/internal/outside"
	"toplit/sim"
)

var update = flag.Bool("update", false, "write the output on docs/commands.md afresh")

// slip is the file with mistakes that the page shows.
const slip = `format = 1

[fuel_can]
diameter = 105
height = "124 mm"
colour = "blue"
`

var example = regexp.MustCompile("(?s)```console\n\\$ ([^\n]*)\n(.*?)```")

// TestPage runs every command on docs/commands.md. What it prints changes with
// the model, so only its first line is compared; -update writes it all.
func TestPage(t *testing.T) {
	path := filepath.Join(outside.Root(), "docs", "commands.md")
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.WriteFile("slip.toml", []byte(slip), 0o666); err != nil {
		t.Fatal(err)
	}
	seen := 0
	fresh := example.ReplaceAllStringFunc(string(page), func(block string) string {
		m := example.FindStringSubmatch(block)
		line, shown := m[1], m[2]
		seen++
		printed := pipe(t, line)
		if first, want := firstLine(shown), firstLine(printed); !*update && first != want {
			t.Errorf("docs/commands.md: %q begins with %q, shown is %q", line, want, first)
		}
		return "```console\n$ " + line + "\n" + printed + "```"
	})
	if seen < 8 {
		t.Errorf("only %d examples on the page", seen)
	}
	if *update {
		if err := os.WriteFile(path, []byte(fresh), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range sim.Figures() {
		if !strings.Contains(string(page), "| `"+f.Key+"` |") {
			t.Errorf("docs/commands.md does not say what %s is", f.Key)
		}
	}
}

// pipe runs "toplit a | toplit b" as a shell would and returns what the last
// prints.
func pipe(t *testing.T, line string) string {
	t.Helper()
	in := ""
	for _, one := range strings.Split(line, " | ") {
		args := words(one)
		if args[0] != "toplit" {
			t.Fatalf("%q runs something else", one)
		}
		if !*update { // the page shows full runs, the test needs only that they run
			switch args[1] {
			case "predict":
				args = append(args, "--samples", "4")
			case "size":
				args = append(args, "--samples", "16", "--drills", "5, 12 mm", "--charge", "120 g")
			}
		}
		var out, bad bytes.Buffer
		if code := run(context.Background(), args[1:], strings.NewReader(in), &out, &bad); code != done && !strings.Contains(one, "slip.toml") {
			t.Errorf("%q exits with %d: %s", one, code, bad.String())
		}
		in = out.String()
	}
	return in
}

// words splits a command line at spaces outside quotes.
func words(line string) []string {
	var out []string
	quoted := false
	word := ""
	for _, c := range line + " " {
		switch {
		case c == '"':
			quoted = !quoted
		case c == ' ' && !quoted:
			if word != "" {
				out = append(out, word)
			}
			word = ""
		default:
			word += string(c)
		}
	}
	return out
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}
