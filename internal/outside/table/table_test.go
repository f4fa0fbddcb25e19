package main

import (
	"fmt"
	"strings"
	"testing"

	"toplit/internal/outside"
)

// many makes n rows of a law that all agree.
func many(law string, n int, used bool) []outside.Record {
	var all []outside.Record
	for i := range n {
		all = append(all, outside.Record{
			Row:    outside.Row{Law: law, Name: fmt.Sprintf("value %02d", i), Source: "a handbook", Unit: "K", Published: 1, Ours: 1, Tol: 0.1, Used: used},
			Inside: true,
		})
	}
	return all
}

func rule() Rule { return Rule{Min: 20, PerLaw: 3, Cap: 15, Listed: 0.05} }

func TestJudgeCountsIndependentRowsUpToTheCap(t *testing.T) {
	records := append(many("one", 18, false), many("two", 6, false)...)
	records = append(records, many("used", 40, true)...)
	records = append(records, many("used", 3, false)...)
	for i := range records[64:] {
		records[64+i].Name = fmt.Sprintf("own %d", i)
	}
	v := Judge(records, rule())
	if v.Rows != 15+6+3 || v.Outside != 0 || len(v.Faults) != 0 {
		t.Errorf("got %+v, want 24 rows and no fault", v)
	}
}

func TestJudgeCanFail(t *testing.T) {
	good := func() []outside.Record { return append(many("one", 18, false), many("two", 10, false)...) }
	for name, c := range map[string]struct {
		change func([]outside.Record) []outside.Record
		list   []outside.Disagreement
		want   string
	}{
		"outside, not listed": {func(r []outside.Record) []outside.Record { r[3].Inside = false; return r }, nil, "not listed"},
		"used row outside":    {func(r []outside.Record) []outside.Record { r[3].Inside, r[3].Used = false, true; return r }, nil, "not listed"},
		"too few of a law":    {func(r []outside.Record) []outside.Record { return append(r, many("three", 2, false)...) }, nil, "three: 2 independent"},
		"only used rows":      {func(r []outside.Record) []outside.Record { return append(r, many("three", 9, true)...) }, nil, "three: 0 independent"},
		"too few in all":      {func(r []outside.Record) []outside.Record { return r[:19] }, nil, "in all"},
		"a name twice":        {func(r []outside.Record) []outside.Record { r[3].Name = r[4].Name; return r }, nil, "two rows"},
		"listed but inside":   {func(r []outside.Record) []outside.Record { return r }, []outside.Disagreement{{Law: "one", Name: "value 00", Reason: "x"}}, "inside its tolerance now"},
		"listed but gone":     {func(r []outside.Record) []outside.Record { return r }, []outside.Disagreement{{Law: "one", Name: "value 99", Reason: "x"}}, "no row"},
		"too many listed": {func(r []outside.Record) []outside.Record { r[0].Inside, r[1].Inside = false, false; return r },
			[]outside.Disagreement{{Law: "one", Name: "value 00", Reason: "x"}, {Law: "one", Name: "value 01", Reason: "x"}}, "at most 5 %"},
	} {
		r := rule()
		r.Disagreements = c.list
		v := Judge(c.change(good()), r)
		if !strings.Contains(strings.Join(v.Faults, "\n"), c.want) {
			t.Errorf("%s: faults %q do not say %q", name, v.Faults, c.want)
		}
	}
}

func TestJudgeTakesAListedDisagreement(t *testing.T) {
	records := append(many("one", 18, false), many("two", 10, false)...)
	records[2].Inside = false
	r := rule()
	r.Disagreements = []outside.Disagreement{{Law: "one", Name: "value 02", Reason: "the source rounds"}}
	if v := Judge(records, r); len(v.Faults) != 0 || v.Outside != 1 || v.Rows != 25 {
		t.Errorf("got %+v, want 25 rows, one outside, no fault", v)
	}
}

func TestPrintShowsEveryRowAndEndsWithTheCount(t *testing.T) {
	records := append(many("hole discharge", 17, false), many("water", 3, true)...)
	records[4].Inside, records[4].Ours = false, 2
	v := Judge(records, rule())
	var b strings.Builder
	if err := Print(&b, records, rule(), v); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if n := strings.Count(text, "a handbook"); n != 20 {
		t.Errorf("%d rows printed, want 20", n)
	}
	if !strings.Contains(text, "not counted") || !strings.Contains(text, "OUTSIDE") {
		t.Errorf("a row past the cap or outside is not marked:\n%s", text)
	}
	if !strings.HasSuffix(text, "\nchecks: 15 rows, 1 outside tolerance\n") {
		t.Errorf("last line is wrong:\n%s", text)
	}
}

func TestFoldKeepsEveryWord(t *testing.T) {
	long := strings.Repeat("a source with many words and a page, ", 8)
	folded := fold(long)
	if strings.Join(strings.Fields(folded), " ") != strings.TrimSpace(long) {
		t.Errorf("words were lost in %q", folded)
	}
	for _, line := range strings.Split(folded, "\n") {
		if len(line) > longest {
			t.Errorf("line %q is longer than %d", line, longest)
		}
	}
}
