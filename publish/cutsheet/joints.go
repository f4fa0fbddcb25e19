package cutsheet

import "math"

const (
	wordRoom  = 24.0 // kept below a strip for the words that say how it is laid [mm]
	titleRoom = 6.0  // above every piece on a page [mm]
	lowRoom   = contentShort - barRoom - titleRoom - 2*cutPen
)

// bands cuts a strip that is taller than a lying page into one that is laid by
// the foot of the wall and one that is laid by its rim, each as tall as its
// rows need.
func (p Part) bands() []Part {
	foot := p.From
	if p.Tabs > 0 {
		foot = -tabLong
	}
	if p.Kind != Wrap || p.To-foot <= lowRoom {
		return []Part{p}
	}
	const spare, least = 14.0, 40.0 // for the words of a row; to hold on to [mm]
	low, high := p, p
	low.Name, high.Name = p.Name+", lower rows", p.Name+", upper rows"
	low.Holes, high.Holes = nil, nil
	low.To, high.From, high.fromRim, high.Tabs = p.From+least, p.To-least, true, 0
	for _, h := range p.Holes {
		_, _, d, u := h.extent()
		if h.Y <= p.Tall/2 {
			low.Holes = append(low.Holes, h)
			low.To = math.Min(p.To, math.Max(low.To, h.Y+u+spare))
		} else {
			high.Holes = append(high.Holes, h)
			high.From = math.Max(p.From, math.Min(high.From, h.Y-d-spare))
		}
	}
	switch {
	case len(high.Holes) == 0:
		low.Name = p.Name
		return []Part{low}
	case len(low.Holes) == 0 && p.Tabs == 0:
		high.Name = p.Name
		return []Part{high}
	}
	return []Part{low, high}
}

// split chooses how a strip or blank goes on paper: lying pages where it is
// low enough, upright ones where it is taller, and joints between holes, as
// near to equal pieces as that allows.
func (s *Set) split(p *Part) {
	long, tall := p.Around+overlap, p.Tall
	if p.Kind == Wrap {
		long, tall = p.Around+tabUnder, p.To-p.From
		if p.Tabs > 0 {
			tall = p.To + tabLong
		}
	}
	words := wordRoom
	if p.Kind == Wrap { // a line more than there are sentences: one may be broken
		words = math.Max(words, 6+wordSize*1.35*float64(len(s.stripWords(*p))+len(rowsOf(*p))))
	}
	if from, to := p.blank(); p.Kind == Wrap && to-from > 2*words && p.Around > 150 {
		p.inside, words = true, 0
	}
	p.lying = tall+words <= lowRoom || tall+words > contentLong-barRoom-titleRoom
	room := contentShort - barRoom
	if p.lying {
		room = contentLong - barRoom
	}
	room -= 2 * cutPen
	p.joints = nil
	if long <= room {
		return
	}
	// Every piece shows half of what pages share on the sides it is joined at.
	share := p.share()
	n := math.Ceil((long - share) / (room - share))
	for {
		if joints, ok := p.joined(int(n), long, room); ok {
			p.joints = joints
			return
		}
		n++
	}
}

// joined places the joints of n pieces; false when a piece comes out too
// long.
func (p *Part) joined(n int, long, room float64) ([]float64, bool) {
	var joints []float64
	last, share := 0.0, p.share()
	for k := 1; k < n; k++ {
		left := float64(n - k) // pieces after this joint
		most := last + room - share/2
		if k > 1 {
			most -= share / 2
		}
		// What is left must go into the pieces after it.
		least := long - left*room + (left-0.5)*share
		if least > most {
			return nil, false
		}
		aim := math.Max(least, math.Min(most, long*float64(k)/float64(n)))
		best, at := math.Inf(-1), aim
		for d := -30.0; d <= 30; d += 0.5 {
			x := aim + d
			if x < least || x > most {
				continue
			}
			// Clear of holes first, up to 6 mm, then near to where it should be.
			free := 6.0
			for _, h := range p.Holes {
				free = math.Min(free, math.Abs(x-h.X)-h.reach())
			}
			if score := free - 0.05*math.Abs(d); score > best {
				best, at = score, x
			}
		}
		joints = append(joints, at)
		last = at
	}
	return joints, true
}

// share is what neighbouring pages of the part both show: enough for every hole
// to be whole on one of them [mm].
func (p Part) share() float64 {
	most := share
	for _, h := range p.Holes {
		most = math.Max(most, 2*h.reach()+4)
	}
	return math.Min(most, 60)
}

// wordsWide is how long lines below a strip may be: within its first page.
func (p Part) wordsWide() float64 {
	left := 4.0
	if p.inside {
		left = 24
	}
	if len(p.joints) > 0 {
		return p.joints[0] - left
	}
	if p.inside {
		return p.Around - left
	}
	room := contentShort - barRoom
	if p.lying {
		room = contentLong - barRoom
	}
	return math.Max(p.Around, room-4)
}
