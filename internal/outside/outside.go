// Package outside is the one way a test sets a number of ours beside a number
// from somewhere else: a handbook table, a published experiment, a general
// purpose library. It holds the row and the comparison; the values stand in
// the *_check_test.go files beside the code they check.
//
// With TOPLIT_CHECKS naming a folder every row is also written there as one
// JSON line, which `make checks` gathers into a single table.
package outside

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Row is one published value beside ours.
type Row struct {
	Law       string  // the law or part it checks, e.g. "hole discharge"
	Name      string  // which value, e.g. "Cd at Re 100"
	Source    string  // author, year, table or page; "[memory]" if from memory
	Unit      string  // unit of both values, "1" if none
	Published float64 // the outside value
	Ours      float64 // what this program computes
	Tol       float64 // the source's last digit or stated uncertainty, absolute
	Used      bool    // the value was used to set something: printed, not counted
}

// Inside reports whether ours lies within the tolerance of the published value.
func (r Row) Inside() bool { return math.Abs(r.Ours-r.Published) <= r.Tol*(1+1e-9) }

// Rel is a tolerance of fraction f of the published value v.
func Rel(v, f float64) float64 { return math.Abs(v) * f }

// Check compares each row and fails the test for a row outside its tolerance,
// unless docs/model/validation.md lists it: a line of its table of
// disagreements that begins "| law | name |".
func Check(t *testing.T, rows ...Row) {
	t.Helper()
	for _, r := range rows {
		switch {
		case r.Law == "" || r.Name == "" || r.Source == "":
			t.Errorf("check row without law, name or source: %+v", r)
		case !r.Inside() && !listed(r):
			t.Errorf("%s: %s: ours %.6g, published %.6g ± %.2g %s (%s)", r.Law, r.Name, r.Ours, r.Published, r.Tol, r.Unit, r.Source)
		}
		if err := record(t.Name(), r); err != nil {
			t.Fatal(err)
		}
	}
}

// Root is the folder of go.mod, found upwards from where the test runs.
func Root() string {
	dir, err := os.Getwd()
	for err == nil {
		if _, e := os.Stat(filepath.Join(dir, "go.mod")); e == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			break
		}
		dir = up
	}
	return "."
}

func listed(r Row) bool {
	text, err := os.ReadFile(filepath.Join(Root(), "docs", "model", "validation.md"))
	return err == nil && strings.Contains(string(text), fmt.Sprintf("| %s | %s |", r.Law, r.Name))
}

func record(test string, r Row) error {
	dir := os.Getenv("TOPLIT_CHECKS")
	if dir == "" {
		return nil
	}
	f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf("rows-%d.jsonl", os.Getpid())), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	defer f.Close()
	line, err := json.Marshal(struct {
		Row
		Test   string
		Inside bool
		Listed bool
	}{r, test, r.Inside(), listed(r)})
	if err != nil {
		return err
	}
	_, err = f.Write(append(line, '\n'))
	return err
}
