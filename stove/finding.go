package stove

import (
	"strconv"
	"strings"
)

// Severity says how much a finding weighs.
type Severity string

// Error: cannot work or must not be lit as it stands. Warning: likely a slip
// or a poor stove. Note: worth knowing.
const (
	Error   Severity = "error"
	Warning Severity = "warning"
	Note    Severity = "note"
)

// Finding is one remark on a design or a firing, in words.
type Finding struct {
	Severity Severity
	Key      string // of the design file: "row[2].hole"; rows count from 1
	Value    string // as it stands
	Text     string // what is wrong or worth knowing, and why
	Accept   string // what would be accepted, "" when nothing has to change
}

// String is the finding on one line.
func (f Finding) String() string {
	var b strings.Builder
	b.WriteString(f.Key)
	if f.Value != "" {
		b.WriteString(" = " + f.Value)
	}
	b.WriteString(": " + f.Text)
	if f.Accept != "" {
		b.WriteString("; accepted: " + f.Accept)
	}
	return b.String()
}

// Refused says whether any finding is an error.
func Refused(findings []Finding) bool {
	for _, f := range findings {
		if f.Severity == Error {
			return true
		}
	}
	return false
}

// mm writes a length in millimetres with at most two decimals.
func mm(metres float64) string { return decimal(metres*1e3, 2) + " mm" }

// mm2 writes an area in square millimetres.
func mm2(area float64) string { return decimal(area*1e6, 0) + " mm²" }

func decimal(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
