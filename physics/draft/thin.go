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

// widest is the largest area fraction before the opening that the table covers
// (diameter ratio 0.7).
const widest = 0.49

// node is a line of the table: C = a + b beta^4 at one hole Reynolds number.
type node struct{ re, a, b float64 }

// fromTable are the hole Reynolds numbers at which the table is carried over,
// spaced as the table itself is.
var fromTable = [...]float64{2, 5, 10, 20, 30, 40, 60, 100, 200, 400, 600, 1000, 2000, 4000, 1e4}

// measured takes over above: a small hole in a large wall was measured there.
var measured = [...]struct{ re, c float64 }{
	{1.55e4, 0.620}, // 12.7 mm, 1 ft of water: Encyclopaedia Britannica 11th ed. vol. 14, Hydraulics
	{6.8e4, 0.6054}, // 20 ft: mean of 0.603 there and 0.6078 by Unwin's formula on Mair's holes, same page
	{1e6, 0.5961},   // Reader-Harris & Gallagher, ISO 5167-2, beta -> 0, as in the library fluids
}

// thinNodes are the lines of the thin sharp opening, by hole Reynolds number.
var thinNodes = sync.OnceValues(func() ([]node, error) {
	table, err := readLowReynolds()
	if err != nil {
		return nil, err
	}
	var out []node
	for _, re := range fromTable {
		a, b := lineInBeta4(table, re)
		out = append(out, node{re, a, b})
	}
	for _, m := range measured {
		_, b := lineInBeta4(table, m.re)
		out = append(out, node{m.re, m.c, b})
	}
	return out, nil
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

// lineInBeta4 fits C = a + b beta^4 at one hole Reynolds number by least
// squares through all the diameter ratios.
func lineInBeta4(table []plateCurve, re float64) (a, b float64) {
	var n, sx, sy, sxx, sxy float64
	for _, c := range table {
		x := c.beta * c.beta * c.beta * c.beta
		y := math.Exp(c.lnC.Predict(math.Log(re)))
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	b = (n*sxy - sx*sy) / (n*sxx - sx*sx)
	return (sy - b*sx) / n, b
}

// thinOpening is zeta of a thin sharp opening into a large space against hole
// Reynolds number: ln zeta in ln Re through the nodes, zeta Re constant below
// the first and zeta constant above the last.
type thinOpening struct {
	lnZeta interp.FritschButland
	slow   float64 // zeta Re as Re -> 0
	fast   float64 // zeta at large Re
}

// creepEnd is the hole Reynolds number below which flow is taken as creeping.
const creepEnd = 0.5

// newThinOpening takes f, the fraction of the space before the opening that it
// fills: beta^2. C refers to the pressure at the wall of a pipe with its
// velocity head counted apart, so the loss of total pressure into a large
// space is zeta = (1 - f^2)/C^2 + f^2. Beyond the widest plate of the table
// it follows Idelchik's ratio of [ThickPlate].
func newThinOpening(f float64) (*thinOpening, error) {
	nodes, err := thinNodes()
	if err != nil {
		return nil, err
	}
	t := new(thinOpening)
	inside := math.Min(f, widest)
	wider := ThickPlate(f, 0, 0) / ThickPlate(inside, 0, 0)
	zeta := func(n node, f float64) float64 {
		c := n.a + n.b*f*f
		return ((1-f*f)/(c*c) + f*f)
	}
	// The crowding of the opening lowers creeping flow's loss as it does at
	// the table's lowest Reynolds number.
	t.slow = creeping * wider * zeta(nodes[0], inside) / zeta(nodes[0], 0)
	x := []float64{math.Log(creepEnd / 4), math.Log(creepEnd)}
	y := []float64{math.Log(t.slow / creepEnd * 4), math.Log(t.slow / creepEnd)}
	for _, n := range nodes {
		t.fast = wider * zeta(n, inside)
		x, y = append(x, math.Log(n.re)), append(y, math.Log(t.fast))
	}
	return t, t.lnZeta.Fit(x, y)
}

func (t *thinOpening) zeta(re float64) float64 {
	switch {
	case re <= creepEnd:
		return t.slow / re
	case re >= measured[len(measured)-1].re:
		return t.fast
	}
	return math.Exp(t.lnZeta.Predict(math.Log(re)))
}
