package heat

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

// eachRow reads an embedded table whose first row names the columns, skipping
// lines that start with #. num reads a named column as a number; the first
// that is none is the error returned.
func eachRow(text string, visit func(row map[string]string, num func(column string) float64)) error {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return fmt.Errorf("embedded table: %w", err)
	}
	if len(rows) == 0 {
		return fmt.Errorf("embedded table: no rows, want a row of column names")
	}
	var bad error
	for i, cells := range rows[1:] {
		row := map[string]string{}
		for k, name := range rows[0] {
			row[name] = cells[k]
		}
		visit(row, func(column string) float64 {
			v, err := strconv.ParseFloat(row[column], 64)
			if err != nil && bad == nil {
				bad = fmt.Errorf("embedded table: row %d: %s is %q, want a number", i+1, column, row[column])
			}
			return v
		})
	}
	return bad
}
