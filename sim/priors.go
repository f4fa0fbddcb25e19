package sim

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

//go:embed priors.csv
var priorsCSV string

// The uncertain parameters, in the order of priors.csv.
const (
	pAirNeed = iota
	pCharOffset
	pHoles
	pRawBed
	pCharBed
	pRing
	pPotBase
	pPotSide
	pEvaporation
	pLid
	pEmissivity
	pCOSplit
	pMixing
	pCriticalFlame
	pVoidBurning
	pStarterTime
	pWindCp
	pWindCalm
	pLeaks
	pMoisture
	pBulkDensity
	pTar
	pWaterGas
	pBedWall
	pBedRadiation
	pFlameCore
	pCharZone
	nPriors
)

// Params is one value of every uncertain parameter, in the order and units of
// Priors.
type Params [nPriors]float64

// Prior is what is known of one uncertain parameter before any burn of this
// stove. Shape is normal (spread = one standard deviation), lognormal ("times or
// over": spread = the factor between the median and the 5 and 95 % points; a
// factor of two between sources is the width of what is published, not its
// standard deviation) or uniform (spread = half width).
type Prior struct {
	Name, Shape        string
	Median, Spread     float64
	Low, High          float64 // hard limits
	Unit, What, Source string
}

// Priors lists every uncertain parameter with its source.
func Priors() []Prior { return append([]Prior(nil), priors...) }

var priors = func() []Prior {
	rows, err := csv.NewReader(strings.NewReader(priorsCSV)).ReadAll()
	if err != nil || len(rows) != nPriors+1 {
		panic(fmt.Sprintf("priors.csv: %d rows, want %d: %v", len(rows)-1, nPriors, err)) // embedded at build: a test reads it first
	}
	var out []Prior
	for _, r := range rows[1:] {
		num := func(i int) float64 {
			v, err := strconv.ParseFloat(r[i], 64)
			if err != nil {
				panic("priors.csv: " + r[0] + ": " + err.Error())
			}
			return v
		}
		out = append(out, Prior{Name: r[0], Shape: r[1], Median: num(2), Spread: num(3), Low: num(4), High: num(5), Unit: r[6], What: r[7], Source: r[8]})
	}
	return out
}()

// ninety is the 95 % point of the standard normal distribution.
const ninety = 1.6448536

// Quantile is the value of the parameter at cumulative probability u.
func (p Prior) Quantile(u float64) float64 {
	var v float64
	switch p.Shape {
	case "normal":
		v = p.Median + p.Spread*distuv.UnitNormal.Quantile(u)
	case "lognormal":
		v = p.Median * math.Exp(math.Log(p.Spread)/ninety*distuv.UnitNormal.Quantile(u))
	default:
		v = p.Median + p.Spread*(2*u-1)
	}
	return min(max(v, p.Low), p.High)
}

// MedianParams is every parameter at its median.
func MedianParams() Params {
	var p Params
	for i := range p {
		p[i] = priors[i].Median
	}
	return p
}

// draw turns a point of the unit cube into parameters.
func draw(u []float64) Params {
	var p Params
	for i := range p {
		p[i] = priors[i].Quantile(u[i])
	}
	return p
}
