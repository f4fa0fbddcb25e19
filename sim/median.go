package sim

import "toplit/firing"

// Median is the burn with every parameter at its median and no gust: its
// figures in the order of Figures, and what holds it back. One run in place of
// a band, for a search that tries many designs; a choice made with it has to be
// checked with Predict, for the median of a band is not the burn of the medians.
func Median(f *firing.Firing) (figures [nFigures]float64, limits []Limit, err error) {
	s, err := newSite(f, shippedNodes)
	if err != nil {
		return figures, nil, err
	}
	b := pool.Get().(*burner)
	defer pool.Put(b)
	clear(b.phases[:])
	if err := b.run(s, MedianParams(), shippedWidths, shippedTol, 60); err != nil {
		return figures, nil, err
	}
	f1 := b.figures()
	return f1, b.limits(&f1), nil
}
