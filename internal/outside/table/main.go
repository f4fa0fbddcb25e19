// Command table gathers the rows that tests wrote with package outside into
// one table grouped by law, and judges the whole: `make checks` runs it.
//
//	table [flags] FOLDER
//
// It prints every row. It ends with "checks: N rows, M outside tolerance": N
// counts independent rows, at most -cap of each law, so that one well-sourced
// table cannot stand for the rest; M counts every row outside its tolerance,
// listed or not, used or independent. Exit code 1 means that the rows do not
// hold; what is wrong stands above the last line.
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"toplit/internal/outside"
)

func main() {
	rule := Rule{}
	flag.IntVar(&rule.Min, "min", 200, "fewest independent rows in all")
	flag.IntVar(&rule.PerLaw, "perlaw", 3, "fewest independent rows of a law")
	flag.IntVar(&rule.Cap, "cap", 15, "most rows of a law that count")
	flag.Float64Var(&rule.Listed, "listed", 0.03, "largest share of the counted rows that may disagree and be listed")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "table: one folder of rows is needed, got", flag.NArg())
		os.Exit(2)
	}
	records, err := outside.Records(flag.Arg(0))
	if err == nil {
		rule.Disagreements, err = outside.Disagreements(filepath.Join(outside.Root(), "docs", "model", "validation.md"))
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "table:", err)
		os.Exit(2)
	}
	verdict := Judge(records, rule)
	if err := Print(os.Stdout, records, rule, verdict); err != nil {
		fmt.Fprintln(os.Stderr, "table:", err)
		os.Exit(2)
	}
	if len(verdict.Faults) > 0 {
		os.Exit(1)
	}
}
