// Package outside is the one way a test sets a number of ours beside a number
// from somewhere else: a handbook table, a published experiment, a general
// purpose library. It holds the row and the comparison; the values stand in
// the *_check_test.go files beside the code they check. Only tests import it.
//
// With TOPLIT_CHECKS naming a folder every row is also written there as one
// JSON line, which `make checks` gathers into a single table (see table/).
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
	Name      string  // which value, e.g. "Cd at Re 100"; one name once per law
	Source    string  // author, year, table or page; "[memory]" if from memory
	Unit      string  // unit of both values, "1" if none
	Published float64 // the outside value
	Ours      float64 // what this program computes
	Tol       float64 // the source's last digit or stated uncertainty, absolute
	Used      bool    // the value was used to set something: printed, not counted
}

// Inside reports whether ours lies within the tolerance of the published value.
func (r Row) Inside() bool { return math.Abs(r.Ours-r.Published) <= r.Tol*(1+1e-9) }

// fault says why a row is no check at all, or nothing.
func (r Row) fault() string {
	switch {
	case r.Law == "" || r.Name == "" || r.Source == "":
		return "has no law, no name or no source"
	case strings.Contains(r.Law+r.Name, "|"):
		return "has a | in its law or name, which breaks the tables"
	case !(r.Tol >= 0) || math.IsInf(r.Tol, 0):
		return "has a tolerance that is negative or not a number, so it could never fail or never pass"
	case math.IsNaN(r.Published) || math.IsInf(r.Published, 0):
		return "has a published value that is not a finite number"
	}
	return ""
}

// Rel is a tolerance of fraction f of the published value v.
func Rel(v, f float64) float64 { return math.Abs(v) * f }

// Check compares each row and fails the test for a row outside its tolerance,
// unless docs/model/validation.md lists it in its table of disagreements.
// The test that calls it stands in a *_check_test.go file, where `make checks`
// finds it.
func Check(t *testing.T, rows ...Row) {
	t.Helper()
	for _, r := range rows {
		if why := r.fault(); why != "" {
			t.Errorf("check row %s: %+v", why, r)
			continue
		}
		if !r.Inside() && !listed(r) {
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
	list, err := Disagreements(filepath.Join(Root(), "docs", "model", "validation.md"))
	if err != nil {
		return false
	}
	for _, d := range list {
		if d.Law == r.Law && d.Name == r.Name {
			return true
		}
	}
	return false
}

func record(test string, r Row) error {
	dir := os.Getenv("TOPLIT_CHECKS")
	if dir == "" {
		return nil
	}
	rec := Record{Row: r, Test: test, Inside: r.Inside(), Listed: listed(r)}
	if math.IsNaN(r.Ours) || math.IsInf(r.Ours, 0) {
		rec.NotFinite, rec.Ours = true, 0 // JSON has no word for them
	}
	line, err := json.Marshal(rec)
	if err != nil {
		return fmt.Errorf("row %s: %s: %w", r.Law, r.Name, err)
	}
	f, err := os.OpenFile(filepath.Join(dir, fmt.Sprintf("rows-%d.jsonl", os.Getpid())), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(append(line, '\n'))
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}
