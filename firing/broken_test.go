package firing

import (
	"bytes"
	flags "flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"toplit/stove"
)

var update = flags.Bool("update", false, "write the lines and files that tests compare with")

// Every file of testdata/broken has one thing wrong and names, in its first
// line, the one line that has to come of it.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob("testdata/broken/*.toml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, path := range files {
		name := filepath.Base(path)
		t.Run(strings.TrimSuffix(name, ".toml"), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			first, rest, _ := strings.Cut(string(text), "\n")
			want := strings.TrimPrefix(first, "# want: ")
			_, problems := Examine(bytes.NewReader(text), name)
			var lines []string
			for _, p := range problems {
				if p.Severity == stove.Error {
					lines = append(lines, p.Error())
					if p.Accept == "" {
						t.Errorf("does not say what is accepted: %s", p.Error())
					}
				}
			}
			got := strings.Join(lines, "\n")
			if len(lines) != 1 {
				t.Errorf("%d lines:\n%s", len(lines), got)
			}
			if *update && len(lines) == 1 {
				if err := os.WriteFile(path, []byte("# want: "+got+"\n"+rest), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if got != want {
				t.Errorf("got:  %s\nwant: %s", got, want)
			}
		})
	}
}
