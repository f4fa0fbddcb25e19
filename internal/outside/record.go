package outside

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// Record is a row as a test run wrote it down.
type Record struct {
	Row
	Test      string
	Inside    bool
	Listed    bool // docs/model/validation.md names it as disagreeing
	NotFinite bool // ours was infinite or not a number; Ours then reads 0
}

// Records reads every row that test runs left in the folder dir.
func Records(dir string) ([]Record, error) {
	files, err := filepath.Glob(filepath.Join(dir, "rows-*.jsonl"))
	if err != nil {
		return nil, err
	}
	var all []Record
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		scan := bufio.NewScanner(f)
		scan.Buffer(nil, 1<<20)
		for line := 1; scan.Scan(); line++ {
			var r Record
			if err := json.Unmarshal(scan.Bytes(), &r); err != nil {
				f.Close()
				return nil, fmt.Errorf("%s line %d: %w", name, line, err)
			}
			all = append(all, r)
		}
		err = scan.Err()
		f.Close()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return all, nil
}

// Disagreement is one line of the table of disagreements.
type Disagreement struct {
	Law, Name, Reason string
}

// Disagreements reads the table under the heading "Disagreements" of the page
// at path: columns law, name, published, ours, reason. Every line needs all
// five, because a disagreement without a reason is only an excuse.
func Disagreements(path string) ([]Disagreement, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	var list []Disagreement
	inside := false
	for i, line := range strings.Split(string(text), "\n") {
		if strings.HasPrefix(line, "#") {
			inside = strings.TrimSpace(strings.TrimLeft(line, "#")) == "Disagreements"
			continue
		}
		if !inside || !strings.HasPrefix(line, "|") {
			continue
		}
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for j := range cells {
			cells[j] = strings.TrimSpace(cells[j])
		}
		if cells[0] == "law" || strings.Trim(cells[0], "-: ") == "" {
			continue
		}
		if len(cells) != 5 || cells[1] == "" || cells[4] == "" {
			return nil, fmt.Errorf("%s line %d: a disagreement needs law, name, published, ours and reason, got %q", path, i+1, line)
		}
		list = append(list, Disagreement{Law: cells[0], Name: cells[1], Reason: cells[4]})
	}
	return list, nil
}
