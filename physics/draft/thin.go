package draft

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"sort"
	"strconv"
	"sync"

	"gonum.org/v1/gonum/interp"
)

//go:embed low_reynolds.csv
var lowReynolds []byte

// creeping is zeta Re of a hole in an infinitely thin wall as Re -> 0:
// dp = 3 mu Q/r^3 (Sampson 1891, exact [memory]) gives zeta = 12 pi/Re.
const creeping = 12 * math.Pi

// Below creepEnd the thin-hole curve is the creeping limit; above topRe its
// coefficient is constant.
const (
	creepEnd = 0.5
	topRe    = 2e5
)

// thinNodes are the hole Reynolds numbers at which the table is carried over
// to a hole in a large wall, spaced as the table itself is.
var thinNodes = [...]float64{2, 5, 10, 20, 30, 40, 60, 100, 200, 400, 600, 1000, 2000, 4000, 1e4, 2e4, topRe}

// thinHole is ln Cd against ln Re of a small thin sharp hole in a large wall.
var thinHole = sync.OnceValues(func() (*interp.FritschButland, error) {
	table, err := readLowReynolds()
	if err != nil {
		return nil, err
	}
	x := []float64{math.Log(creepEnd / 4), math.Log(creepEnd)}
	y := []float64{math.Log(math.Sqrt(creepEnd / 4 / creeping)), math.Log(math.Sqrt(creepEnd / creeping))}
	for _, re := range thinNodes {
		x = append(x, math.Log(re))
		y = append(y, math.Log(extrapolate(table, re)))
	}
	f := new(interp.FritschButland)
	return f, f.Fit(x, y)
})

type plateCurve struct {
	beta float64
	lnC  interp.FritschButland // against ln Re of the hole
}

func readLowReynolds() ([]plateCurve, error) {
	r := csv.NewReader(bytes.NewReader(lowReynolds))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("low-Reynolds table: %w", err)
	}
	type points struct{ x, y []float64 }
	by := map[float64]*points{}
	for _, row := range rows[1:] {
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				return nil, fmt.Errorf("low-Reynolds table: row %v: %w", row, err)
			}
		}
		p := by[v[0]]
		if p == nil {
			p = new(points)
			by[v[0]] = p
		}
		p.x = append(p.x, math.Log(v[1]/v[0]))
		p.y = append(p.y, math.Log(v[2]))
	}
	var out []plateCurve
	for beta, p := range by {
		c := plateCurve{beta: beta}
		if err := c.lnC.Fit(p.x, p.y); err != nil {
			return nil, fmt.Errorf("low-Reynolds table: beta %g: %w", beta, err)
		}
		out = append(out, c)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].beta < out[j].beta })
	return out, nil
}

// extrapolate carries C at one hole Reynolds number to beta -> 0 by a least
// squares line in beta^4 through all the diameter ratios.
func extrapolate(table []plateCurve, re float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for _, c := range table {
		x := c.beta * c.beta * c.beta * c.beta
		y := math.Exp(c.lnC.Predict(math.Log(re)))
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	slope := (n*sxy - sx*sy) / (n*sxx - sx*sx)
	return (sy - slope*sx) / n
}

// thinCd returns the discharge coefficient and d ln Cd/d ln Re of a thin sharp
// hole in a large wall at hole Reynolds number re > 0.
func thinCd(f *interp.FritschButland, re float64) (cd, power float64) {
	switch {
	case re <= creepEnd:
		return math.Sqrt(re / creeping), 0.5
	case re >= topRe:
		return math.Exp(f.Predict(math.Log(topRe))), 0
	}
	x := math.Log(re)
	return math.Exp(f.Predict(x)), f.PredictDerivative(x)
}
