package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"toplit": main})
}

func TestCommands(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata",
		Setup: func(e *testscript.Env) error {
			e.Setenv("TERM", "dumb")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits,
			"keys":  keys,
			"xml":   wellFormed,
			"width": width,
		},
	})
}

// exits runs a program and compares its exit code: exits 2 toplit check x.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits code program [args]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var e *exec.ExitError
		if !errors.As(err, &e) {
			ts.Fatalf("%v", err)
		}
		got = e.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// keys reads JSON and says that the object at a path has exactly the keys, or
// at least those before "...": keys stdout moments a b c. The path is "." for
// the whole.
func keys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: keys file path key...")
	}
	var v any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &v))
	if args[1] != "." {
		for _, step := range strings.Split(args[1], ".") {
			switch x := v.(type) {
			case map[string]any:
				v = x[step]
			case []any:
				i, err := strconv.Atoi(step)
				ts.Check(err)
				if i >= len(x) {
					ts.Fatalf("%s: %d of a list of %d", args[1], i, len(x))
				}
				v = x[i]
			default:
				v = nil
			}
		}
	}
	o, ok := v.(map[string]any)
	if !ok {
		ts.Fatalf("%s: %s is no object", args[0], args[1])
	}
	want := args[2:]
	open := want[len(want)-1] == "..."
	if open {
		want = want[:len(want)-1]
	}
	for _, k := range want {
		if _, ok := o[k]; !ok {
			ts.Fatalf("%s lacks %s", args[1], k)
		}
	}
	for k := range o {
		if !open && !slices.Contains(want, k) {
			ts.Fatalf("%s has %s besides", args[1], k)
		}
	}
}

// wellFormed reads files as XML to their end.
func wellFormed(ts *testscript.TestScript, neg bool, args []string) {
	for _, name := range args {
		d := xml.NewDecoder(strings.NewReader(ts.ReadFile(name)))
		elements := 0
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				ts.Fatalf("%s: %v", name, err)
			}
			if _, ok := tok.(xml.StartElement); ok {
				elements++
			}
		}
		if elements < 10 {
			ts.Fatalf("%s: only %d elements", name, elements)
		}
	}
}

// width says that no line is longer than so many characters.
func width(ts *testscript.TestScript, neg bool, args []string) {
	most, err := strconv.Atoi(args[1])
	ts.Check(err)
	for i, line := range strings.Split(ts.ReadFile(args[0]), "\n") {
		if n := len([]rune(line)); n > most {
			ts.Fatalf("%s line %d has %d characters: %s", args[0], i+1, n, line)
		}
	}
}
