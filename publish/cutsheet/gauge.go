package cutsheet

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"toplit/drawing"
)

// gauge is the part that reads drilled holes back, for a set with round holes.
func gauge(s *Set) (Part, bool) {
	if len(s.roundSizes()) == 0 {
		return Part{}, false
	}
	return Part{Name: "reading gauges", Kind: Gauge}, true
}

// roundSizes is the diameters of the round holes that are made, each once,
// thin to thick [mm].
func (s *Set) roundSizes() []float64 {
	var all []float64
	for _, p := range s.Parts {
		for _, h := range p.Holes {
			if h.round() && h.State != There {
				all = append(all, h.Width)
			}
		}
	}
	sort.Float64s(all)
	return slices.CompactFunc(all, func(a, b float64) bool { return math.Abs(b-a) < 0.005 })
}

// A wedge gets 1 mm wider in ten, so that a tenth of a millimetre of a hole is
// a millimetre along it; wider ranges get a steeper one.
const (
	wedgeRun  = 10.0
	wedgeMost = 150.0 // [mm]
)

// wedge is a tongue of paper that stops in a hole where it is as wide.
type wedge struct{ from, to, run float64 }

// wedges is one wedge from half a millimetre below the smallest hole to one
// above the largest, or several where the sizes lie far apart.
func wedges(sizes []float64) []wedge {
	var out []wedge
	for i := 0; i < len(sizes); {
		w := wedge{from: math.Max(0.4, math.Floor(sizes[i]*2-2)/2), run: wedgeRun}
		for i < len(sizes) && (sizes[i]+1-w.from)*wedgeRun <= wedgeMost {
			w.to = math.Ceil(sizes[i]*2+1) / 2
			i++
		}
		if w.to == 0 { // one size so wide that its own wedge is long
			w.to = math.Ceil(sizes[i]*2+1) / 2
			i++
		}
		out = append(out, w)
	}
	return out
}

// drawGauge draws wedges and, for every size, five discs that stand for a
// hole a little too small to a little too large.
func (s *Set) drawGauge(b *board) {
	sizes := s.roundSizes()
	y := 0.0
	say := func(text string) {
		for _, l := range drawing.Wrap(text, wordSize, false, 165) {
			b.words(0, y, wordSize, drawing.Start, false, l)
			y -= wordSize * 1.35
		}
	}
	say("Wedge, best on card: cut it out, push it straight into a hole until both edges touch. The mark level with the sheet is the diameter in mm; read across the hole twice, at right angles, and take the mean.")
	for _, w := range wedges(sizes) {
		half := w.to / 2
		y -= half + 3
		long := (w.to - w.from) * w.run
		grip := math.Max(half, 5)
		b.cut = append(b.cut, closed(b, 0, y-w.from/2, long, y-half, long+3, y-grip, long+20, y-grip, long+20, y+grip, long+3, y+grip, long, y+half, 0, y+w.from/2))
		for k := 0; ; k++ {
			v := w.from + float64(k)*0.1
			if v > w.to+1e-9 {
				break
			}
			x := (v - w.from) * w.run
			tick := v / 2 * 0.4
			switch {
			case k%10 == 0 || k%10 == 5:
				tick = v / 2
			}
			b.line(x, y+v/2, x, y+v/2-tick)
			b.line(x, y-v/2, x, y-v/2+tick)
		}
		for v := math.Ceil(w.from*2) / 2; v < w.to-0.1; v += 0.5 {
			if v < 1.6 {
				continue
			}
			size := math.Min(2.2, 0.75*v)
			b.words((v-w.from)*w.run+0.5, y-0.35*size, size, drawing.Start, true, trim(v, 1))
		}
		b.words(long+11.5, y-0.8, smallSize, drawing.Middle, true, fmt.Sprintf("%s–%s", trim(w.from, 1), trim(w.to, 1)))
		y -= half + 5
	}
	y -= 2
	say("Discs: lay the drilled hole over them. The one that just fills it is its diameter in mm; the middle of each five is the size wanted.")
	x, low := 0.0, 0.0
	for _, d := range sizes {
		step := 0.2
		wide := 5*(d+2*step) + 4*3 + 8
		if x > 0 && x+wide > 175 {
			x, y = 0, y-low
			low = 0
		}
		low = math.Max(low, d+2*step+8)
		x0 := x
		for k := -2; k <= 2; k++ {
			v := d + float64(k)*step
			cx := x0 + (d+2*step)/2
			cy := y - (d+2*step)/2 - 1
			b.note = append(b.note, drawing.Circle{Center: b.p(cx, cy), Radius: v / 2, Fill: drawing.Solid(0)})
			b.words(cx, cy-(d+2*step)/2-2.6, 1.9, drawing.Middle, k == 0, trim(v, 2))
			x0 += math.Max(d+2*step+3, 7)
		}
		x = x0 + 8
	}
	y -= low
	say("Write the sizes read into the design as built, then predict again: that is the stove you have.")
}
