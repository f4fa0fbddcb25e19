package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"toplit/internal/outside"
)

// A file holds one idea in 50 to 500 lines; past this many it is split.
const longestFile = 600

func TestFilesStayReadable(t *testing.T) {
	sources(t, ".go", func(file string) {
		if strings.HasSuffix(file, "_test.go") {
			return
		}
		text := read(t, file)
		if n := strings.Count(text, "\n"); n > longestFile {
			t.Errorf("%s has %d lines, at most %d", file, n, longestFile)
		}
	})
}

// forbidden are words that have no place in the project's files: paths of one
// machine, and hosts that packages come from (Go and npm find them
// themselves). They are put together here so that this file passes too.
var forbidden = []*regexp.Regexp{
	regexp.MustCompile(`(^|[^a-zA-Z0-9._$}*-])/(` + "wo" + `rk|` + "ro" + `ot|` + "ho" + `me)/`),
	regexp.MustCompile(`proxy\.` + `golang|sum\.` + `golang|registry\.` + `npmjs|deb\.` + `debian`),
	regexp.MustCompile(`(?i)sha` + `red/reference|see` + `d document`),
}

func TestNoForbiddenWords(t *testing.T) {
	for _, ext := range []string{".go", ".md", ".sh", ".toml", ".csv", ".json", ".ts", ".css", ".html", ".yml", ".conf", "Makefile", "run", ".mod", ".txt", ".txtar", ".py"} {
		sources(t, ext, func(file string) {
			for i, line := range strings.Split(read(t, file), "\n") {
				for _, word := range forbidden {
					if hit := word.FindString(line); hit != "" {
						t.Errorf("%s line %d holds %q", file, i+1, hit)
					}
				}
			}
		})
	}
}

func TestForbiddenWordsAreFound(t *testing.T) {
	for text, want := range map[string]bool{
		"see /wo" + "rk/main/x":                 true,
		"under /ro" + "ot/go":                   true,
		"import toplit/work/jobs":               false,
		"go test ./work/...":                    false,
		"GOPROXY=https://proxy.go" + "lang.org": true,
		"golang.org/x/text":                     false,
	} {
		found := false
		for _, word := range forbidden {
			found = found || word.MatchString(text)
		}
		if found != want {
			t.Errorf("%q: found %v, want %v", text, found, want)
		}
	}
}

// TestChecksCanBeFound holds for every test that sets values beside the
// outside: `make checks` runs the tests of *_check_test.go files and those with
// "Check" in their name.
func TestChecksCanBeFound(t *testing.T) {
	sources(t, "_test.go", func(file string) {
		if strings.HasPrefix(file, "internal/") || strings.HasSuffix(file, "_check_test.go") {
			return
		}
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(outside.Root(), file), nil, 0)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			return
		}
		for _, d := range tree.Decls {
			f, ok := d.(*ast.FuncDecl)
			if ok && strings.Contains(f.Name.Name, "Check") {
				continue
			}
			found := false
			ast.Inspect(d, func(n ast.Node) bool {
				if s, ok := n.(*ast.SelectorExpr); ok && s.Sel.Name == "Check" {
					if x, ok := s.X.(*ast.Ident); ok && x.Name == "outside" {
						found = true
					}
				}
				return true
			})
			if found {
				t.Errorf("%s calls outside.Check; it belongs in a *_check_test.go file, where make checks finds its rows", file)
			}
		}
	})
}

// read returns a file of the project, given by its path from the root.
func read(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(outside.Root(), filepath.FromSlash(file)))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
