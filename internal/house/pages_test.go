package house

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"toplit/internal/outside"
)

// The table of ARCHITECTURE.md: | floor | `room` | what it holds | ...
var roomLine = regexp.MustCompile("(?m)^\\| *(\\d+) *\\| *`([^`]+)` *\\|")

func TestArchitectureShowsTheFloors(t *testing.T) {
	shown := map[string]int{}
	for _, m := range roomLine.FindAllStringSubmatch(read(t, "ARCHITECTURE.md"), -1) {
		n, err := strconv.Atoi(m[1])
		if err != nil {
			t.Fatal(err)
		}
		if _, twice := shown[m[2]]; twice {
			t.Errorf("ARCHITECTURE.md shows %s twice", m[2])
		}
		shown[m[2]] = n
	}
	for room, floor := range floors {
		if got, ok := shown[room]; !ok {
			t.Errorf("ARCHITECTURE.md does not show the room %s of floor %d", room, floor)
		} else if got != floor {
			t.Errorf("ARCHITECTURE.md puts %s on floor %d, it stands on %d", room, got, floor)
		}
	}
	for room := range shown {
		if _, ok := floors[room]; !ok {
			t.Errorf("ARCHITECTURE.md shows a room %s that the house does not have", room)
		}
	}
}

// A function or type that a page names: `sim.Predict`, `Predict` of that
// package. Only packages of the module are looked up.
var named = regexp.MustCompile("`([a-z]+)\\.([A-Z]\\w*)(?:\\.([A-Z]\\w*))?[^`]*`")

func TestPagesNameWhatThereIs(t *testing.T) {
	have := exported(t)
	for _, page := range []string{"ARCHITECTURE.md", "README.md"} {
		for _, m := range named.FindAllStringSubmatch(read(t, page), -1) {
			names, ok := have[m[1]]
			if !ok {
				if _, known := locate(m[1]); known {
					t.Errorf("%s names %s.%s, but there is no package %s", page, m[1], m[2], m[1])
				}
				continue
			}
			want := m[2]
			if m[3] != "" {
				want += "." + m[3]
			}
			if !names[want] {
				t.Errorf("%s names %s.%s, which package %s does not have", page, m[1], want, m[1])
			}
		}
	}
}

// exported reads the exported names of every package, methods as Type.Method,
// by the package's last word.
func exported(t *testing.T) map[string]map[string]bool {
	have := map[string]map[string]bool{}
	sources(t, ".go", func(file string) {
		if strings.HasSuffix(file, "_test.go") {
			return
		}
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(outside.Root(), file), nil, 0)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			return
		}
		pkg := path.Base(path.Dir(file))
		if have[pkg] == nil {
			have[pkg] = map[string]bool{}
		}
		for _, d := range tree.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				name := d.Name.Name
				if d.Recv != nil && len(d.Recv.List) == 1 {
					name = receiver(d.Recv.List[0].Type) + "." + name
				}
				have[pkg][name] = true
			case *ast.GenDecl:
				for _, s := range d.Specs {
					switch s := s.(type) {
					case *ast.TypeSpec:
						have[pkg][s.Name.Name] = true
					case *ast.ValueSpec:
						for _, n := range s.Names {
							have[pkg][n.Name] = true
						}
					}
				}
			}
		}
	})
	return have
}

func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}

// A link of a page to another file of the project.
var link = regexp.MustCompile(`\]\(([^)#\s]+)(?:#[^)]*)?\)`)

func TestLinksOfPagesLeadSomewhere(t *testing.T) {
	sources(t, ".md", func(page string) {
		for _, m := range link.FindAllStringSubmatch(read(t, page), -1) {
			if strings.Contains(m[1], ":") {
				continue
			}
			to := path.Join(path.Dir(page), m[1])
			if _, err := os.Stat(filepath.Join(outside.Root(), filepath.FromSlash(to))); err != nil {
				t.Errorf("%s links to %s, which is not there", page, m[1])
			}
		}
	})
}

// The page of a law that a package comment names.
var pageOf = regexp.MustCompile(`docs/model/[a-z0-9-]+\.md`)

func TestEquationPagesAreListedAndNamed(t *testing.T) {
	index := read(t, "docs/model/README.md")
	listed := map[string]bool{}
	for _, m := range link.FindAllStringSubmatch(index, -1) {
		listed[m[1]] = true
	}
	sources(t, ".md", func(page string) {
		if dir, name := path.Split(page); dir == "docs/model/" && name != "README.md" && !listed[name] {
			t.Errorf("docs/model/README.md does not list %s", name)
		}
	})
	sources(t, ".go", func(file string) {
		for _, page := range pageOf.FindAllString(read(t, file), -1) {
			if _, err := os.Stat(filepath.Join(outside.Root(), filepath.FromSlash(page))); err != nil {
				t.Errorf("%s names the page %s, which is not there", file, page)
			}
		}
	})
}

func TestEveryPackageSaysWhatItIsFor(t *testing.T) {
	said := map[string]bool{}
	sources(t, ".go", func(file string) {
		if strings.HasSuffix(file, "_test.go") {
			return
		}
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(outside.Root(), file), nil, parser.ParseComments|parser.PackageClauseOnly)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			return
		}
		pkg := path.Dir(file)
		said[pkg] = said[pkg] || (tree.Doc != nil && len(strings.Fields(tree.Doc.Text())) >= 10)
	})
	var silent []string
	for pkg, ok := range said {
		if !ok {
			silent = append(silent, pkg)
		}
	}
	sort.Strings(silent)
	for _, pkg := range silent {
		t.Errorf("package %s has no comment that says what it is for", pkg)
	}
}
