package catalogue

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"toplit/quantity"
)

//go:embed *.csv
var files embed.FS

// sheet is a data file as rows of named cells.
type sheet struct {
	file    string
	columns map[string]int
	rows    [][]string
}

// open reads a data file; its first line names the columns.
func open(file string) (sheet, error) {
	f, err := files.Open(file)
	if err != nil {
		return sheet{}, err
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return sheet{}, fmt.Errorf("%s: %w", file, err)
	}
	s := sheet{file: file, columns: map[string]int{}, rows: all[1:]}
	for i, name := range all[0] {
		s.columns[name] = i
	}
	return s, nil
}

// row is one line of a sheet; the first fault met is kept in err.
type row struct {
	s     *sheet
	cells []string
	line  int
	err   error
}

// each calls f for every row and returns the first fault.
func (s sheet) each(f func(*row)) error {
	for i, cells := range s.rows {
		r := &row{s: &s, cells: cells, line: i + 2}
		f(r)
		if r.err != nil {
			return fmt.Errorf("%s line %d: %w", s.file, r.line, r.err)
		}
	}
	return nil
}

func (r *row) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}

// text is a cell; a column that is not there is a fault.
func (r *row) text(column string) string {
	i, ok := r.s.columns[column]
	if !ok {
		r.fail(fmt.Errorf("no column %q", column))
		return ""
	}
	return r.cells[i]
}

// list is a cell of entries parted by "|".
func (r *row) list(column string) []string {
	if t := r.text(column); t != "" {
		return strings.Split(t, "|")
	}
	return nil
}

// number is a cell as a plain number; an empty cell is 0.
func (r *row) number(column string) float64 {
	t := r.text(column)
	if t == "" {
		return 0
	}
	v, err := strconv.ParseFloat(t, 64)
	if err != nil {
		r.fail(fmt.Errorf("%s %q is no number", column, t))
	}
	return v
}

// amount is a cell in the given unit as SI; an empty cell is 0.
func (r *row) amount(kind quantity.Kind, column, unit string) float64 {
	t := r.text(column)
	if t == "" {
		return 0
	}
	v, err := quantity.ParseDefault(kind, t, unit)
	if err != nil {
		r.fail(fmt.Errorf("%s: %w", column, err))
	}
	return v
}
