package house

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"toplit/internal/outside"
)

const module = "toplit"

// skip names folders that hold nothing of the project's own.
func skip(name string) bool {
	switch name {
	case "node_modules", "testdata", "vendor", "out", "dist":
		return true
	}
	return len(name) > 1 && (name[0] == '.' || name[0] == '_')
}

// sources calls f for every file below the module's root whose name ends in
// ext, with its path from the root.
func sources(t *testing.T, ext string, f func(file string)) {
	t.Helper()
	root := outside.Root()
	err := filepath.WalkDir(root, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if file != root && skip(d.Name()) {
				return filepath.SkipDir
			}
			return nil
		}
		if strings.HasSuffix(file, ext) {
			rel, err := filepath.Rel(root, file)
			if err != nil {
				return err
			}
			f(filepath.ToSlash(rel))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// imports reads which packages of the module each of its packages imports
// outside tests. Files of other modules below the root (the lint tools) hold
// no Go code.
func imports(t *testing.T) map[string]map[string]string {
	t.Helper()
	graph := map[string]map[string]string{} // package → imported → a file that does it
	sources(t, ".go", func(file string) {
		if strings.HasSuffix(file, "_test.go") {
			return
		}
		pkg := filepath.ToSlash(filepath.Dir(file))
		tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join(outside.Root(), file), nil, parser.ImportsOnly)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			return
		}
		if graph[pkg] == nil {
			graph[pkg] = map[string]string{}
		}
		for _, spec := range tree.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Errorf("%s: import %s: %v", file, spec.Path.Value, err)
				continue
			}
			if to, ok := strings.CutPrefix(name, module+"/"); ok {
				graph[pkg][to] = file
			}
		}
	})
	return graph
}

func TestEveryImportPointsDown(t *testing.T) {
	graph := imports(t)
	if len(graph) < 5 {
		t.Fatalf("only %d packages found below %s", len(graph), outside.Root())
	}
	for pkg, to := range graph {
		if _, ok := locate(pkg); !ok {
			t.Errorf("%s stands in no known room; the rooms are in internal/house/rooms_test.go and ARCHITECTURE.md", pkg)
		}
		for dep, file := range to {
			if why := fault(pkg, dep); why != "" {
				t.Errorf("%s: %s → %s %s", file, pkg, dep, why)
			}
		}
	}
	if ring := circle(graph); ring != nil {
		t.Errorf("imports run in a circle: %s", strings.Join(ring, " → "))
	}
}

// circle finds packages that import each other in a ring, or nothing. The
// compiler finds them too, but names them less kindly.
func circle(graph map[string]map[string]string) []string {
	const (
		unseen = iota
		open
		done
	)
	state := map[string]int{}
	var trail []string
	var visit func(string) []string
	visit = func(pkg string) []string {
		state[pkg] = open
		trail = append(trail, pkg)
		for dep := range graph[pkg] {
			switch state[dep] {
			case open:
				for i, p := range trail {
					if p == dep {
						return append(append([]string(nil), trail[i:]...), dep)
					}
				}
			case unseen:
				if ring := visit(dep); ring != nil {
					return ring
				}
			}
		}
		trail = trail[:len(trail)-1]
		state[pkg] = done
		return nil
	}
	var all []string
	for pkg := range graph {
		all = append(all, pkg)
	}
	sort.Strings(all)
	for _, pkg := range all {
		if state[pkg] == unseen {
			if ring := visit(pkg); ring != nil {
				return ring
			}
		}
	}
	return nil
}

func TestTheHouseCanFail(t *testing.T) {
	for _, c := range []struct {
		from, to, want string
	}{
		{"cmd/toplit", "work", ""},
		{"web", "bench", ""},
		{"work", "learn/size", ""},
		{"publish/report", "publish/cutsheet", ""},
		{"learn/advise", "learn/compare", ""},
		{"burn/score", "burn/phase", ""},
		{"burn/score", "burn", ""},
		{"sim", "physics/bed", ""},
		{"sim", "firing", ""},
		{"firing", "stove/catalogue", ""},
		{"stove", "stove/catalogue", ""},
		{"physics/flame", "physics/gas", ""},
		{"physics/draft", "physics/air", ""},
		{"physics/air", "physics/water", ""},
		{"stats", "numeric", ""},
		{"numeric/problems", "numeric", ""},
		{"tools/peers", "numeric", ""},
		{"internal/outside/table", "internal/outside", ""},

		{"stove", "firing", "points up"},
		{"numeric", "stats", "points up"},
		{"bench", "work", "points up"},
		{"burn/score", "learn/fit", "points up"},
		{"sim", "burn/phase", "points sideways"},
		{"bench", "publish/report", "points sideways"},
		{"picture", "learn/size", "points sideways"},
		{"stats", "stove", "points sideways"},
		{"stove", "physics/gas", "points sideways"},
		{"stove/catalogue", "stove", "points sideways"},
		{"drawing", "quantity", "points sideways"},
		{"physics/gas", "physics/flame", "order of the laws"},
		{"physics/gas", "physics/water", "order of the laws"},
		{"physics/water", "physics/air", "order of the laws"},
		{"physics/fuel", "physics/draft", "order of the laws"},
		{"physics/bed", "physics/flame", "order of the laws"},
		{"physics/heat", "physics/draft", "order of the laws"},
		{"sim", "internal/outside", "tests only"},
		{"internal/outside", "sim", "for tests"},
		{"internal/designs", "firing", ""},
		{"internal/designs", "sim", "for tests"},
		{"sim", "internal/designs", "tests only"},
		{"sim", "tools/peers", "imports a tool"},
		{"helpers", "sim", "no known room"},
		{"sim", "physics/soot", "no known room"},
		{"sim", "learn/guess", "no known room"},
	} {
		got := fault(c.from, c.to)
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s → %s: got %q, want %q", c.from, c.to, got, c.want)
		}
	}
	ring := circle(map[string]map[string]string{"a": {"b": ""}, "b": {"c": ""}, "c": {"b": ""}})
	if strings.Join(ring, " ") != "b c b" {
		t.Errorf("circle b c b came out as %v", ring)
	}
	if ring := circle(map[string]map[string]string{"a": {"b": "", "c": ""}, "b": {"c": ""}, "c": nil}); ring != nil {
		t.Errorf("a diamond was called a circle: %v", ring)
	}
}
