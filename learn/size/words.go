package size

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"toplit/quantity"
	"toplit/sim"
	"toplit/stove/catalogue"
)

// words writes amounts in the maker's units.
type words struct{ units quantity.System }

func (w words) length(v float64) string {
	return trimmed(quantity.Show(quantity.Length, v, w.units, 3))
}
func (w words) mass(v float64) string { return trimmed(quantity.Show(quantity.Mass, v, w.units, 3)) }
func (w words) area(v float64) string {
	text := trimmed(quantity.Show(quantity.Area, v, w.units, 3))
	return strings.NewReplacer("mm2", "mm²", "cm2", "cm²", "in2", "in²").Replace(text)
}

// hole is a hole as the maker's drill calls it.
func (w words) hole(d catalogue.Drill) string {
	if d.Name != "" {
		return d.Name
	}
	return w.length(d.Diameter)
}

// trimmed takes idle zeros off: "90.0 mm" is "90 mm".
func trimmed(text string) string {
	number, unit, _ := strings.Cut(text, " ")
	if strings.Contains(number, ".") && !strings.Contains(unit, " ") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return strings.TrimSpace(number + " " + unit)
}

func clock(v float64) string {
	if !isThere(v) {
		return "never"
	}
	return quantity.Show(quantity.Time, v, quantity.Metric, 3)
}

func percent(v float64) string { return strconv.FormatFloat(100*v, 'g', 2, 64) + " %" }

// share is a chance in whole percent.
func share(v float64) string { return fmt.Sprintf("%.0f %%", 100*v) }

// band is a median with its band.
func band(q sim.Quantiles, show func(float64) string) string {
	if !isThere(q.P50) {
		return "never"
	}
	return fmt.Sprintf("%s (%s to %s)", show(q.P50), show(q.P10), show(q.P90))
}

func one(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

func isThere(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
