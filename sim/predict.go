package sim

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"toplit/firing"
	"toplit/numeric"
	"toplit/stats"
)

// ModelVersion names the equations; a stored prediction carries it.
const ModelVersion = "1"

// Options says how a prediction is made. The zero value is 256 samples on all
// cores with seed 1.
type Options struct {
	Samples  int
	Seed     uint64
	Workers  int
	Grid     float64                    // spacing of the curves [s], default 20
	Progress func(done, all int)        // called from several goroutines, may be nil
	Priors   func(i int, p Prior) Prior // narrows a prior, may be nil
}

// Quantiles is a figure over the samples in which it came about, and the share
// in which it never did. The quantiles are NaN when it never came at all.
type Quantiles struct {
	P10, P50, P90 float64
	Never         float64
}

// Driver is a parameter and the share of a figure's scatter it explains alone.
type Driver struct {
	Parameter string  `json:"parameter"`
	What      string  `json:"what"`
	Share     float64 `json:"share"`
	Sign      float64 `json:"rank_correlation"`
}

// Prediction is one predicted burn.
type Prediction struct {
	Model    string
	Seed     uint64
	Samples  int
	Failed   int // samples the solver could not finish: zero for a valid design
	Figures  [nFigures]Quantiles
	Median   [nFigures]float64 // of the run with every parameter at its median
	Time     []float64         // of the curves [s]
	Curves   []Curve
	Ledger   Ledger // of the median run
	Worst    Ledger // largest gap of each balance over all samples
	Drivers  map[string][]Driver
	Limits   []Limit
	Cautions []Caution

	values [][nFigures]float64 // by sample
	params []Params
}

// Values are the outcomes of all samples for a figure, NaN where it never
// came; in the order of the sample points, so that two predictions with the
// same seed can be compared point by point.
func (p *Prediction) Values(f Figure) []float64 {
	out := make([]float64, len(p.values))
	for i := range p.values {
		out[i] = p.values[i][f]
	}
	return out
}

var pool = sync.Pool{New: func() any { return new(burner) }}

// Predict computes the burn of a firing with its band. The result depends on
// firing, samples and seed only, not on the number of workers.
func Predict(ctx context.Context, f *firing.Firing, opt Options) (*Prediction, error) {
	if opt.Samples == 0 {
		opt.Samples = 256
	}
	if opt.Samples < 2 || opt.Samples > 1<<16 {
		return nil, fmt.Errorf("%d samples, want 2 to 65536", opt.Samples)
	}
	if opt.Seed == 0 {
		opt.Seed = 1
	}
	if opt.Workers == 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	if opt.Grid == 0 {
		opt.Grid = 20
	}
	s, err := newSite(f, shippedNodes)
	if err != nil {
		return nil, err
	}
	points, err := numeric.NewPoints(nPriors+len(gustPeriods), opt.Seed)
	if err != nil {
		return nil, err
	}
	n := opt.Samples
	p := &Prediction{Model: ModelVersion, Seed: opt.Seed, Samples: n, values: make([][nFigures]float64, n), params: make([]Params, n)}

	// The median run first: it says whether the design can be computed at all.
	mid := pool.Get().(*burner)
	defer pool.Put(mid)
	mid.phases = [len(gustPeriods)]float64{}
	if err := mid.run(s, MedianParams(), shippedWidths, shippedTol, opt.Grid); err != nil {
		return nil, err
	}
	p.Median = mid.figures()
	p.Ledger = mid.ledger(mid.track.y[0], mid.solver.Y())
	p.Limits = mid.limits((*figures)(&p.Median))

	curves := make([][]curvePoint, n)
	worst := make([]Ledger, opt.Workers)
	var next, done, failed atomic.Int64
	var wg sync.WaitGroup
	for w := range opt.Workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			b := pool.Get().(*burner)
			defer pool.Put(b)
			var u [nPriors + len(gustPeriods)]float64
			for {
				i := int(next.Add(1)) - 1
				if i >= n || ctx.Err() != nil {
					return
				}
				points.At(uint32(i), u[:])
				q := drawWith(u[:nPriors], opt.Priors)
				p.params[i] = q
				for k := range b.phases {
					b.phases[k] = 2 * math.Pi * u[nPriors+k]
				}
				if err := b.run(s, q, shippedWidths, shippedTol, opt.Grid); err != nil {
					failed.Add(1)
					for k := range p.values[i] {
						p.values[i][k] = math.NaN()
					}
					continue
				}
				p.values[i] = b.figures()
				worst[w].worse(b.ledger(b.track.y[0], b.solver.Y()))
				c := make([]curvePoint, len(b.track.t))
				for k := range c {
					c[k] = b.point(k)
				}
				curves[i] = c
				if opt.Progress != nil {
					opt.Progress(int(done.Add(1)), n)
				}
			}
		}()
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	p.Failed = int(failed.Load())
	for _, l := range worst {
		p.Worst.worse(l)
	}
	for f := range p.Figures {
		p.Figures[f] = quantiles(p.Values(Figure(f)))
	}
	p.Time, p.Curves = bands(curves, opt.Grid, opt.Workers)
	p.Drivers = p.drivers()
	p.Cautions = cautions(f, p)
	return p, nil
}

// drawWith is draw with some priors narrowed.
func drawWith(u []float64, narrow func(int, Prior) Prior) Params {
	if narrow == nil {
		return draw(u)
	}
	var p Params
	for i := range p {
		p[i] = narrow(i, priors[i]).Quantile(u[i])
	}
	return p
}

func quantiles(v []float64) Quantiles {
	came := make([]float64, 0, len(v))
	for _, x := range v {
		if !math.IsNaN(x) {
			came = append(came, x)
		}
	}
	q := Quantiles{P10: math.NaN(), P50: math.NaN(), P90: math.NaN(), Never: 1 - float64(len(came))/float64(len(v))}
	if len(came) == 0 {
		return q
	}
	slices.Sort(came)
	q.P10, q.P50, q.P90 = stats.SortedQuantile(came, 0.1), stats.SortedQuantile(came, 0.5), stats.SortedQuantile(came, 0.9)
	return q
}

// bands takes quantiles of each curve at each time, temperatures over the burns
// still going.
func bands(runs [][]curvePoint, grid float64, workers int) ([]float64, []Curve) {
	long := 0
	for _, r := range runs {
		long = max(long, len(r))
	}
	times := make([]float64, long)
	for k := range times {
		times[k] = float64(k) * grid
	}
	out := make([]Curve, nCurves)
	var wg sync.WaitGroup
	var next atomic.Int64
	for range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			v := make([]float64, 0, len(runs))
			for {
				c := int(next.Add(1)) - 1
				if c >= nCurves {
					return
				}
				out[c] = Curve{Key: curveInfo[c].key, Name: curveInfo[c].name, P10: make([]float64, long), P50: make([]float64, long), P90: make([]float64, long)}
				for k := range long {
					v = v[:0]
					on, zero := goesOn(curveInfo[c].key), stops(curveInfo[c].key)
					for _, r := range runs {
						switch {
						case k < len(r):
							v = append(v, float64(r[k][c]))
						case len(r) == 0 || !on:
						case zero:
							v = append(v, 0)
						default:
							v = append(v, float64(r[len(r)-1][c]))
						}
					}
					slices.Sort(v)
					out[c].P10[k], out[c].P50[k], out[c].P90[k] = stats.SortedQuantile(v, 0.1), stats.SortedQuantile(v, 0.5), stats.SortedQuantile(v, 0.9)
				}
			}
		}()
	}
	wg.Wait()
	return times, out
}

// drivers ranks the parameters behind the figures people ask about.
func (p *Prediction) drivers() map[string][]Driver {
	out := map[string][]Driver{}
	cols := make([][]float64, nPriors)
	for j := range cols {
		cols[j] = make([]float64, len(p.params))
		for i := range p.params {
			cols[j][i] = p.params[i][j]
		}
	}
	for _, f := range []Figure{FTimeToBoil, FFlameTime, FHeatTime, FFirepower, FCharYield, FEfficiency, FJetsLit} {
		v := p.Values(f)
		came, of := make([][]float64, nPriors), v[:0]
		for i, x := range v {
			if math.IsNaN(x) { // what drives "never" is another question
				continue
			}
			of = append(of, x)
			for j := range came {
				came[j] = append(came[j], cols[j][i])
			}
		}
		for i, d := range stats.Drivers(came, of) {
			if i >= 5 || d.Share < 2*d.Noise {
				break
			}
			out[f.String()] = append(out[f.String()], Driver{Parameter: priors[d.Index].Name, What: priors[d.Index].What, Share: d.Share, Sign: d.Rank})
		}
	}
	return out
}

// worse keeps the larger gap of each balance.
func (l *Ledger) worse(o Ledger) {
	big := func(a *float64, b float64) {
		if math.Abs(b) > math.Abs(*a) {
			*a = b
		}
	}
	big(&l.CarbonGap, o.CarbonGap)
	big(&l.HydrogenGap, o.HydrogenGap)
	big(&l.OxygenGap, o.OxygenGap)
	big(&l.NitrogenGap, o.NitrogenGap)
	big(&l.EnergyGap, o.EnergyGap)
	big(&l.WallsGap, o.WallsGap)
	big(&l.PotGap, o.PotGap)
	big(&l.GroundGap, o.GroundGap)
}

// ErrDesign is wrapped by the error of a design that cannot be burned.
var ErrDesign = errLayout
