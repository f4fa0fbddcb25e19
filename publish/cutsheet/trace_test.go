package cutsheet

import (
	"math"

	"toplit/stove"
)

// edge is a point on the outline of a hole with the direction outwards.
type edge struct{ x, y, nx, ny float64 }

// trace walks along the outline of a hole in steps of about so many
// millimetres, worked out from width, height and turn alone.
func trace(h Hole, step float64) []edge {
	var out []edge
	put := func(x, y, nx, ny float64) {
		s, c := math.Sincos(h.Turn)
		out = append(out, edge{h.X + x*c - y*s, h.Y + x*s + y*c, nx*c - ny*s, nx*s + ny*c})
	}
	arc := func(cx, cy, r, from, to float64) {
		n := math.Max(4, math.Ceil(r*(to-from)/step))
		for k := 0.0; k < n; k++ {
			s, c := math.Sincos(from + (to-from)*(k+0.5)/n)
			put(cx+r*c, cy+r*s, c, s)
		}
	}
	line := func(x0, y0, x1, y1 float64) {
		long := math.Hypot(x1-x0, y1-y0)
		n := math.Max(4, math.Ceil(long/step))
		for k := 0.0; k < n; k++ {
			f := (k + 0.5) / n
			put(x0+(x1-x0)*f, y0+(y1-y0)*f, (y1-y0)/long, -(x1-x0)/long)
		}
	}
	w, t := h.Width/2, h.Height/2
	switch h.Shape {
	case stove.Round:
		arc(0, 0, w, 0, 2*math.Pi)
	case stove.Slot:
		if w >= t {
			arc(w-t, 0, t, -math.Pi/2, math.Pi/2)
			line(w-t, t, t-w, t)
			arc(t-w, 0, t, math.Pi/2, 3*math.Pi/2)
			line(t-w, -t, w-t, -t)
		} else {
			arc(0, t-w, w, 0, math.Pi)
			line(-w, t-w, -w, w-t)
			arc(0, w-t, w, math.Pi, 2*math.Pi)
			line(w, w-t, w, t-w)
		}
	case stove.Rectangle:
		line(-w, -t, w, -t)
		line(w, -t, w, t)
		line(w, t, -w, t)
		line(-w, t, -w, -t)
	case stove.Triangle:
		line(-w, -t, w, -t)
		line(w, -t, 0, t)
		line(0, t, -w, -t)
	}
	return out
}
