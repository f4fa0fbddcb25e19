package drawing

import (
	"fmt"
	"math"
)

// Tiling is a box cut into windows of one size that lie in columns and rows.
type Tiling struct {
	Windows       []Box // the upper row first, each from left to right
	Columns, Rows int
}

// Tiles cuts a box into as few windows of at most width × height as it takes
// when neighbours share at least the overlap [mm]. The windows are all as
// large as the box needs, so that the overlaps are equal.
func Tiles(b Box, width, height, overlap float64) (Tiling, error) {
	if b.Empty() || !finite(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y) {
		return Tiling{}, fmt.Errorf("box %v to tile; need finite corners", b)
	}
	if !finite(width, height, overlap) || overlap < 0 || width <= overlap || height <= overlap {
		return Tiling{}, fmt.Errorf("windows of %g × %g mm that share %g mm; need windows larger than what they share", width, height, overlap)
	}
	xs, w, err := split(b.Min.X, b.Max.X, width, overlap)
	if err != nil {
		return Tiling{}, err
	}
	ys, h, err := split(b.Min.Y, b.Max.Y, height, overlap)
	if err != nil {
		return Tiling{}, err
	}
	t := Tiling{Columns: len(xs), Rows: len(ys)}
	for i := len(ys) - 1; i >= 0; i-- {
		for _, x := range xs {
			t.Windows = append(t.Windows, Box{Point{x, ys[i]}, Point{x + w, ys[i] + h}})
		}
	}
	return t, nil
}

// maxTiles bounds the windows in one direction: more is a size in the wrong
// unit.
const maxTiles = 1000

// split places pieces of at most size along a length; the last one ends where
// the length does.
func split(from, to, size, overlap float64) (at []float64, piece float64, err error) {
	long := to - from
	const slack = 1e-9 // a length that is a whole number of pieces but for rounding [mm]
	if long <= size+slack {
		return []float64{from}, long, nil
	}
	n := math.Ceil((long - overlap - slack) / (size - overlap))
	if n > maxTiles {
		return nil, 0, fmt.Errorf("%g mm in pieces of %g mm; at most %d pieces are made", long, size, maxTiles)
	}
	piece = (long + (n-1)*overlap) / n
	for i := range int(n) {
		at = append(at, from+float64(i)*(piece-overlap))
	}
	return at, piece, nil
}
