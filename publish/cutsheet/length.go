package cutsheet

import (
	"fmt"
	"strconv"
	"strings"

	"toplit/quantity"
)

// length writes millimetres for people: 0.01 mm in metric, thousandths of an
// inch or a fraction that is exact in US units.
func length(mm float64, sys quantity.System) string {
	if sys == quantity.US {
		if text, off := quantity.FormatNear(mm/1e3, 64); off > -2e-6 && off < 2e-6 {
			return text
		}
		return trim(mm/25.4, 3) + " in"
	}
	return trim(mm, 2) + " mm"
}

// place writes a position to mark out: 0.1 mm, or the nearest 1/32 in.
func place(mm float64, sys quantity.System) string {
	if sys == quantity.US {
		text, _ := quantity.FormatNear(mm/1e3, 32)
		return text
	}
	return trim(mm, 1) + " mm"
}

func trim(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// text writes an outline: "6 mm", "12 × 3 mm slot".
func (o Outline) text(sys quantity.System) string {
	if o.round() {
		return length(o.Width, sys)
	}
	if sys == quantity.US {
		return fmt.Sprintf("%s × %s %s", length(o.Width, sys), length(o.Height, sys), o.Shape)
	}
	return fmt.Sprintf("%s × %s %s", trim(o.Width, 2), length(o.Height, sys), o.Shape)
}

// percent writes a share with its sign: "+3 %", "−1.2 %".
func percent(share float64) string {
	p := trim(share*100, 0)
	if v := share * 100; v > -3 && v < 3 {
		p = trim(v, 1)
	}
	if p == "0" {
		return "0 %"
	}
	if strings.HasPrefix(p, "-") {
		return "−" + p[1:] + " %"
	}
	return "+" + p + " %"
}
