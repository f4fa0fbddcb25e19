package sim

import "toplit/firing"

// Median is the burn with every parameter at its median and no gust: its
// figures in the order of Figures, and what holds it back. One run in place of
// a band, for a search that tries many designs; a choice made with it has to be
// checked with Predict, for the median of a band is not the burn of the medians.
func Median(f *firing.Firing) (figures [nFigures]float64, limits []Limit, err error) {
	return Single(f, func(_ int, p Prior) float64 { return p.Median })
}

// Single is the burn with each parameter where value puts it, within the
// parameter's limits, and no gust. The index is that of Priors.
func Single(f *firing.Firing, value func(i int, p Prior) float64) (figures [nFigures]float64, limits []Limit, err error) {
	s, err := newSite(f, shippedNodes)
	if err != nil {
		return figures, nil, err
	}
	var p Params
	for i := range p {
		p[i] = min(max(value(i, priors[i]), priors[i].Low), priors[i].High)
	}
	b := pool.Get().(*burner)
	defer pool.Put(b)
	clear(b.phases[:])
	if err := b.run(s, p, shippedWidths, shippedTol, 60); err != nil {
		return figures, nil, err
	}
	seen := b.figures()
	return seen, b.limits(&seen), nil
}
