package outside

import (
	"math"
	"os"
	"path/filepath"
	"testing"
)

func TestInsideIsTheToleranceAndNothingMore(t *testing.T) {
	r := Row{Published: 10, Tol: 0.5}
	for ours, want := range map[float64]bool{10: true, 10.5: true, 9.5: true, 10.51: false, 9.49: false, math.Inf(1): false} {
		r.Ours = ours
		if r.Inside() != want {
			t.Errorf("ours %g against 10 ± 0.5: inside %v, want %v", ours, r.Inside(), want)
		}
	}
	r.Ours = math.NaN()
	if r.Inside() {
		t.Error("not a number counted as inside")
	}
}

func TestRowsThatAreNoCheckAreRefused(t *testing.T) {
	good := Row{Law: "a", Name: "b", Source: "c", Published: 1, Ours: 1, Tol: 0.1}
	if why := good.fault(); why != "" {
		t.Errorf("a good row was refused: %s", why)
	}
	for name, change := range map[string]func(*Row){
		"no law":         func(r *Row) { r.Law = "" },
		"no source":      func(r *Row) { r.Source = "" },
		"bar in name":    func(r *Row) { r.Name = "x | y" },
		"negative":       func(r *Row) { r.Tol = -1 },
		"endless":        func(r *Row) { r.Tol = math.Inf(1) },
		"no tolerance":   func(r *Row) { r.Tol = math.NaN() },
		"published none": func(r *Row) { r.Published = math.NaN() },
	} {
		r := good
		change(&r)
		if r.fault() == "" {
			t.Errorf("%s: row %+v was taken", name, r)
		}
	}
}

func TestRecordsComeBackAsWritten(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("TOPLIT_CHECKS", dir)
	rows := []Row{
		{Law: "a", Name: "one", Source: "s", Unit: "K", Published: 1, Ours: 1.05, Tol: 0.1},
		{Law: "a", Name: "two", Source: "s", Published: 1, Ours: math.NaN(), Tol: 0.1, Used: true},
	}
	for _, r := range rows {
		if err := record("TestX", r); err != nil {
			t.Fatal(err)
		}
	}
	got, err := Records(dir)
	if err != nil || len(got) != 2 {
		t.Fatalf("got %d records, %v; want 2", len(got), err)
	}
	if got[0].Row != rows[0] || !got[0].Inside || got[0].Test != "TestX" {
		t.Errorf("first record changed on the way: %+v", got[0])
	}
	if !got[1].NotFinite || got[1].Inside || !got[1].Used {
		t.Errorf("a value that is not a number came back as %+v", got[1])
	}
}

func TestDisagreementsAreReadFromTheirOwnTableOnly(t *testing.T) {
	page := filepath.Join(t.TempDir(), "v.md")
	text := "# Validation\n\n| law | name | x |\n|---|---|---|\n| not | this | one |\n\n" +
		"## Disagreements\n\n| law | name | published | ours | reason |\n|---|---|---|---|---|\n" +
		"| hole discharge | Cd at Re 5 | 0.5 | 0.6 | burr |\n\n## After\n\n| nor | this | a | b | c |\n"
	if err := os.WriteFile(page, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	got, err := Disagreements(page)
	if err != nil || len(got) != 1 || got[0] != (Disagreement{"hole discharge", "Cd at Re 5", "burr"}) {
		t.Errorf("got %+v, %v", got, err)
	}
	text = "## Disagreements\n| hole discharge | Cd at Re 5 | 0.5 | 0.6 | |\n"
	if err := os.WriteFile(page, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := Disagreements(page); err == nil {
		t.Error("a disagreement without a reason was taken")
	}
}
