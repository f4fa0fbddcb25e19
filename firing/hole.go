package firing

import (
	"regexp"
	"strings"

	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

const (
	holeRange = `"4.5 mm", "3/16 in", "#7", "12 x 3 mm slot", "12 x 3 mm rectangle" or "15 x 10 mm triangle"`
	holeLeast = 0.3e-3 // [m]
	holeMost  = 0.15   // [m]
)

var (
	times     = regexp.MustCompile(`\s*[x×*]\s*`)
	drill     = regexp.MustCompile(`^(?i)(#.*|no\.? ?[0-9]+|[a-z])$`)
	firstUnit = regexp.MustCompile(`^[-+−–0-9.,/ ⁄]*`)
)

// ParseHole reads a hole's size: a diameter, a drill ("#7", "F"), or width by
// height and a shape. The width lies along the circumference. A slot has round
// ends.
func ParseHole(text string) (stove.Hole, error) {
	if drill.MatchString(strings.TrimSpace(text)) {
		d, err := catalogue.ParseDrill(text)
		if err != nil {
			return stove.Hole{}, wrong(holeRange, "%s", err)
		}
		return stove.Hole{Shape: stove.Round, Width: d.Diameter}, nil
	}
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	h := stove.Hole{Shape: stove.Round}
	for _, shape := range []stove.Shape{stove.Slot, stove.Rectangle, stove.Triangle, stove.Round} {
		if rest, ok := strings.CutSuffix(s, string(shape)); ok {
			h.Shape, s = shape, strings.TrimSpace(rest)
			break
		}
	}
	s = strings.TrimSpace(strings.TrimPrefix(s, "ø"))
	parts := times.Split(s, -1)
	switch {
	case len(parts) == 1 && h.Shape != stove.Round:
		return h, wrong(holeRange, "a %s needs width and height", h.Shape)
	case len(parts) == 2 && h.Shape == stove.Round:
		return h, wrong(holeRange, "two sizes but no shape")
	case len(parts) > 2:
		return h, wrong(holeRange, "more than two sizes")
	}
	if len(parts) == 2 && bare.MatchString(parts[0]) { // "12 x 3 mm"
		parts[0] += " " + parts[1][len(firstUnit.FindString(parts[1])):]
	}
	for i, part := range parts {
		if bare.MatchString(part) || part == "" {
			return h, wrong(holeRange, "has no unit")
		}
		v, err := quantity.Parse(quantity.Length, part)
		if err != nil {
			return h, wrong(holeRange, "%s", err)
		}
		if v < holeLeast || v > holeMost {
			return h, wrong(span(quantity.Length, holeLeast, holeMost), "out of range")
		}
		if i == 0 {
			h.Width = v
		} else {
			h.Height = v
		}
	}
	return h, nil
}

// FormatHole writes a hole so that ParseHole reads the same one.
func FormatHole(h stove.Hole, sys quantity.System) string {
	width := exact(quantity.Length, h.Width, sys)
	if h.Shape == stove.Round || h.Shape == "" {
		return width
	}
	return width + " x " + exact(quantity.Length, h.Height, sys) + " " + string(h.Shape)
}
