package sim

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"toplit/firing"
	"toplit/numeric"
	"toplit/physics/fuel"
	"toplit/stats"
	"toplit/stove"
)

// The published burns this model is judged on. What a case does not state is
// drawn by one rule for all cases (invent), written before the first run and
// not changed after it. See docs/model/validation.md.

// caseRow is one published figure of testdata/cases.csv.
type caseRow struct {
	id, source, figure string
	value, scatter     float64 // scatter: relative for times, powers and rates, absolute for yields and efficiencies
	absolute           bool
	bound              string // "", "at most", "at least": printed, not counted
}

// stated is what a case says of its stove and charge, zero where it is silent.
type stated struct {
	fan                   bool
	bore, depth           float64 // [m]
	secondaryN            float64
	secondaryD            float64
	annulusFeedsBase      bool
	single                bool
	skirtGap              float64
	fuel                  string
	fuelMass, bulk        float64
	size, moisture        float64
	water, waterT, target float64
	potOn                 float64 // [s], -1 when not stated
	noPot                 bool
}

var statedCases = map[string]stated{
	"IISC-FD-100x130":        {fan: true, bore: 0.100, depth: 0.130, secondaryN: 18, secondaryD: 0.005, fuel: "hardwood pellets", water: 2.5, potOn: -1},
	"RH-FD-240x325":          {fan: true, bore: 0.240, depth: 0.325, fuel: "rice husk", fuelMass: 1.604, bulk: 109.1, water: 5, waterT: 304.15, target: 372.25, potOn: -1},
	"RH-FD-150-pair gap 20":  {fan: true, bore: 0.150, depth: 0.600, fuel: "rice husk", bulk: 109.1, skirtGap: 0.020, water: 5, potOn: -1},
	"RH-FD-150-pair gap 30":  {fan: true, bore: 0.150, depth: 0.600, fuel: "rice husk", bulk: 109.1, skirtGap: 0.030, water: 5, potOn: -1},
	"BLOG-ND-200G-CHIPS":     {fuel: "softwood chips", fuelMass: 0.200, water: 1, potOn: -1},
	"REED-FD-2000":           {fan: true, fuel: "softwood chips", water: 1, potOn: -1},
	"MEHTA-RICHARDS-2017":    {fan: true, fuel: "softwood chips", noPot: true},
	"JAMES-2016 7 mm":        {fan: true, fuel: "softwood chips", size: 0.007, moisture: 0.10, noPot: true},
	"JAMES-2016 30 mm":       {fan: true, fuel: "softwood chips", size: 0.030, moisture: 0.10, noPot: true},
	"JAMES-2016 10 % moist":  {fan: true, fuel: "softwood chips", size: 0.007, moisture: 0.10, noPot: true},
	"JAMES-2016 22 % moist":  {fan: true, fuel: "softwood chips", size: 0.007, moisture: 0.22, noPot: true},
	"PANWAR-RATHORE-ND-2008": {fuel: "softwood chips", water: 5, potOn: -1},
	"PAINTCAN-ND-170x200":    {bore: 0.170, depth: 0.200, annulusFeedsBase: true, fuel: "sticks", fuelMass: 1.0, noPot: true},
	"DRINKSCAN-ND":           {single: true, bore: 0.0655, depth: 0.110, secondaryN: 8, fuel: "twigs", water: 0.4, potOn: 480},
	"FAN-CAMP-LARGE":         {fan: true, fuel: "softwood pellets", water: 2, potOn: -1},
}

// dice draws one number after another from a point of the unit cube.
type dice struct {
	u []float64
	i int
}

func (d *dice) next() float64 { d.i++; return d.u[d.i-1] }

func (d *dice) between(lo, hi float64) float64 { return lo + (hi-lo)*d.next() }

func (d *dice) ratio(lo, hi float64) float64 { return lo * math.Pow(hi/lo, d.next()) }

const caseDice = 26

// invent fills in what a case does not state. Ranges: shop rules for can
// stoves (concentrator 60 to 74 % of the bore: Aprovecho newsletter, German
// can-stove page 2014; secondary area 4.5 to 5.2 % on small stoves, 10 to 25 %
// for natural draft in the trade [memory]; primary 2 to 6 % [memory], 2.8 % on a
// hiker's recipe; secondary row 12.7 mm below the rim; annulus 6.4 to 13 mm;
// riser 102 mm or none; pot 17 to 51 mm above; holes 3.2 to 6.4 mm), superficial
// velocity of fan stoves 2 to 10 cm/s [memory], secondary to primary air 1.6 to
// 5 by mass, pots as wide as their litres (Ø 10 cm for half a litre to 24 cm for
// five, ± 15 %), water at 10 to 25 °C, lid or not, air 5 to 30 °C.
func invent(c stated, u []float64) (*firing.Firing, error) {
	d := &dice{u: u}
	f := &firing.Firing{}
	fu, err := fuel.ByName(c.fuel)
	if err != nil {
		return nil, err
	}
	co := &f.Conditions
	co.Fuel = firing.Fuel{Species: c.fuel, BulkDensity: c.bulk, Size: c.size, Moisture: c.moisture}
	if c.bulk == 0 {
		co.Fuel.BulkDensity = fu.Bulk * d.ratio(0.85, 1.18)
	} else {
		d.next()
	}
	if c.moisture == 0 {
		co.Fuel.Moisture = d.between(0.06, 0.14)
	} else {
		d.next()
	}
	bulk := co.Fuel.BulkDensity

	// Bore and depth: stated, or from the charge and its shape, or a can's.
	shape := d.ratio(0.45, 1.2) // bore over fuel depth
	bore, depth := c.bore, c.depth
	anyBore := d.ratio(0.085, 0.130)
	if bore == 0 {
		if c.fuelMass > 0 {
			bore = math.Cbrt(c.fuelMass / bulk * shape * 4 / math.Pi)
		} else {
			bore = anyBore
		}
	}
	if depth == 0 {
		if c.fuelMass > 0 {
			depth = c.fuelMass / bulk / (math.Pi / 4 * bore * bore)
		} else {
			depth = bore / shape
		}
	}
	fill := d.between(0.85, 1)
	if c.fuelMass > 0 {
		co.Charge.Mass = min(c.fuelMass, bulk*math.Pi/4*bore*bore*depth)
	} else {
		co.Charge.Depth = depth * fill
	}
	area := math.Pi / 4 * bore * bore
	above := d.between(0.015, 0.060) // can above the fuel
	if c.depth > 0 {
		above = 0.02
	}
	fuelCan := stove.Can{Diameter: bore + 0.0006, Height: depth + above, Wall: 0.0003, Metal: stove.MildSteel, Surface: stove.Melted}
	f.Design.FuelCan = fuelCan

	velocity := d.ratio(0.02, 0.10)
	airRatio := d.ratio(1.6, 5)
	primary := d.ratio(0.02, 0.06)
	secondary := d.ratio(0.045, 0.25)
	hole := d.ratio(0.0032, 0.0064)
	below := d.between(0.010, 0.015)
	annulus := d.between(0.0064, 0.013)
	ring := d.between(0.60, 0.74)
	riser := 0.0
	if d.next() > 0.5 {
		riser = 0.102
	}
	stand := d.between(0.017, 0.051)
	closed := d.next() > 0.5
	if c.fan {
		f.Design.Fan = stove.Fan{Primary: velocity * 1.2 * area, Secondary: velocity * 1.2 * area * airRatio}
	} else {
		f.Design.Standoff = 0.02
		f.Design.Rows = append(f.Design.Rows, stove.Row{Name: "primary", On: stove.FuelBase, Count: holesFor(primary*area, hole), Hole: stove.Hole{Shape: stove.Round, Width: hole}})
		n := holesFor(secondary*area, hole)
		w := hole
		if c.secondaryN > 0 {
			n = int(c.secondaryN)
			w = math.Sqrt(secondary * area / c.secondaryN * 4 / math.Pi)
		}
		f.Design.Rows = append(f.Design.Rows, stove.Row{Name: "secondary", On: stove.FuelBody, Count: n, Height: fuelCan.Height - below, Hole: stove.Hole{Shape: stove.Round, Width: w}})
		if !c.single {
			f.Design.OuterCan = &stove.Can{Diameter: fuelCan.Diameter + 2*annulus + 0.0006, Height: fuelCan.Height + 0.03, Wall: 0.0003, Metal: stove.MildSteel, Surface: stove.Melted, OpenBase: true}
			f.Design.Lift = 0.012
		}
		f.Design.Ring = &stove.Ring{Bore: ring * bore, Wall: 0.0003}
		if riser > 0 {
			f.Design.Riser = &stove.Riser{Bore: bore, Height: riser, Wall: 0.0003}
		}
	}
	if c.fan {
		f.Design.Ring = &stove.Ring{Bore: ring * bore, Wall: 0.0003}
	}
	co.Air = firing.Air{Temperature: 273.15 + d.between(5, 30), Pressure: 101325, Humidity: 0.6, Wind: d.between(0, 1)}
	co.Starter = firing.Starter{Kind: "alcohol", Mass: 1.2 * area}

	litres := c.water
	waterT := 273.15 + d.between(10, 25)
	wide := d.ratio(0.85, 1.15)
	lid := d.next() > 0.5
	gap := d.between(0.008, 0.015)
	early := d.between(120, 360)
	if !c.noPot {
		dia := wide * 0.13 * math.Pow(litres, 0.38) // 10 cm at 0.5 L, 13 at 1, 18 at 2.5, 24 at 5
		co.Pot = &firing.Pot{Mass: 0.25 * math.Pow(litres, 0.67), Metal: stove.Stainless, Diameter: dia, Height: 1.4 * litres / 1000 / (math.Pi / 4 * dia * dia), Lid: lid}
		co.Water = firing.Water{Mass: litres, Temperature: waterT, Target: c.target}
		if c.waterT > 0 {
			co.Water.Temperature = c.waterT
		}
		f.Design.Stand = &stove.Stand{Diameter: bore, Height: stand, Closed: closed, Wall: 0.0003, Gap: gap}
		on := early
		if c.potOn >= 0 {
			on = c.potOn
		}
		co.Schedule = []firing.Action{{Do: firing.PotOn, At: on}}
		if c.skirtGap > 0 {
			f.Design.Skirt = &stove.Skirt{Gap: c.skirtGap, Height: co.Pot.Height}
		}
	}
	return f, nil
}

func holesFor(area, d float64) int {
	return max(4, int(math.Round(area/(math.Pi/4*d*d))))
}

func readCases(t *testing.T) []caseRow {
	t.Helper()
	raw, err := os.Open("testdata/cases.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer raw.Close()
	r := csv.NewReader(raw)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []caseRow
	for _, l := range rows[1:] {
		v, err1 := strconv.ParseFloat(l[2], 64)
		s, err2 := strconv.ParseFloat(l[3], 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("cases.csv: %v", l)
		}
		out = append(out, caseRow{id: l[0], figure: l[1], value: v, scatter: s, absolute: l[4] == "absolute", bound: l[5], source: l[6]})
	}
	return out
}

// caseValue is the model's figure for a published one.
func caseValue(f *figures, figure string, fi *firing.Firing, wet float64) float64 {
	switch figure {
	case "burn_rate_kg_s":
		a := math.Pi / 4 * fi.Design.FuelCan.Bore() * fi.Design.FuelCan.Bore()
		return f[FFuelFlux] * a
	case "air_fuel":
		return math.NaN()
	}
	for i := range figureInfo {
		if figureInfo[i].Key == figure {
			return f[i]
		}
	}
	panic("cases.csv: no figure " + figure)
}

// TestCases prints every published figure beside the sampled prediction.
func TestCases(t *testing.T) {
	n := 400
	if os.Getenv("TOPLIT_CASES") == "" {
		n = 64 // that it runs; the judgement is `make cases`
	}
	rows := readCases(t)
	ids := map[string]bool{}
	for _, r := range rows {
		ids[r.id] = true
	}
	type outcome struct {
		fig  figures
		f    *firing.Firing
		wet  float64
		base float64 // t = m/(F·A) [s]
		need float64 // air per dry fuel at the front
		flow float64 // baseline burn rate [kg/s]
	}
	runs := map[string][]outcome{}
	own := map[string][]outcome{} // geometry held in the middle: the model's own doubt
	var names []string
	for id := range ids {
		names = append(names, id)
	}
	sort.Strings(names)
	for k, id := range append(append([]string(nil), names...), names...) {
		held := k >= len(names)
		c, ok := statedCases[id]
		if !ok {
			t.Fatalf("no geometry for case %s", id)
		}
		pts, err := numeric.NewPoints(nPriors+caseDice+1, 11)
		if err != nil {
			t.Fatal(err)
		}
		out := make([]outcome, n)
		var wg sync.WaitGroup
		w := runtime.GOMAXPROCS(0)
		errs := make([]error, n)
		for k := range w {
			wg.Add(1)
			go func() {
				defer wg.Done()
				b := new(burner)
				u := make([]float64, nPriors+caseDice+1)
				for i := k; i < n; i += w {
					pts.At(uint32(i), u)
					if held {
						for j := nPriors; j < nPriors+caseDice; j++ {
							u[j] = 0.5
						}
					}
					f, err := invent(c, u[nPriors:nPriors+caseDice])
					if err != nil {
						errs[i] = err
						continue
					}
					s, err := newSite(f, shippedNodes)
					if err != nil {
						errs[i] = err
						continue
					}
					if err := b.run(s, draw(u[:nPriors]), shippedWidths, shippedTol, 20); err != nil {
						errs[i] = err
						continue
					}
					o := outcome{fig: b.figures(), f: f, wet: b.dry0 + b.water0}
					F := 0.010 * math.Pow(3, u[nPriors+caseDice])
					o.base = o.wet / (F * b.area)
					o.flow = F * b.area
					o.need = b.p[pAirNeed] + 1.2*b.x
					out[i] = o
				}
			}()
		}
		wg.Wait()
		bad := 0
		for i, err := range errs {
			if err != nil {
				if bad++; bad < 3 {
					t.Errorf("%s sample %d: %v", id, i, err)
				}
			}
		}
		if bad > 0 {
			t.Errorf("%s: %d samples failed", id, bad)
		}
		if held {
			own[id] = out
		} else {
			runs[id] = out
		}
	}

	var inBand, counted int
	var widths, yields, ownWidths, ownYields []float64
	var skill []float64
	var lines []string
	for _, r := range rows {
		var v, base []float64
		never := 0
		for _, o := range runs[r.id] {
			if o.f == nil {
				continue // reported above
			}
			x := caseValue(&o.fig, r.figure, o.f, o.wet)
			if r.figure == "air_fuel" {
				x = o.need
			}
			if math.IsNaN(x) {
				never++
				continue
			}
			v = append(v, x)
			switch r.figure {
			case "flame_time_s", "front_at_grate_s":
				base = append(base, o.base)
			case "burn_rate_kg_s":
				base = append(base, o.flow)
			case "firepower_mean_W":
				base = append(base, o.flow*13e6)
			}
		}
		var alone []float64
		for _, o := range own[r.id] {
			if o.f == nil {
				continue
			}
			x := caseValue(&o.fig, r.figure, o.f, o.wet)
			if r.figure == "air_fuel" {
				x = o.need
			}
			alone = append(alone, x)
		}
		q, qa := quantiles(v), quantiles(alone)
		at := stats.Position(v, r.value)
		// The published value has its own scatter: it is in when the band,
		// widened by nothing, holds it or its scatter's one standard deviation.
		in := r.value >= q.P10 && r.value <= q.P90
		state := "out"
		if in {
			state = "in"
		}
		if r.bound != "" {
			state = r.bound
		} else {
			counted++
			if in {
				inBand++
			}
			if r.absolute {
				yields = append(yields, q.P90-q.P10)
				ownYields = append(ownYields, qa.P90-qa.P10)
			} else {
				widths = append(widths, q.P90/q.P10)
				ownWidths = append(ownWidths, qa.P90/qa.P10)
			}
			if len(base) > 0 {
				skill = append(skill, logScore(v, r)-logScore(base, r))
			}
		}
		lines = append(lines, fmt.Sprintf("%-24s %-18s published %9.4g  p10 %9.4g p50 %9.4g p90 %9.4g  p90/p10 %5.2f  never %4.2f  at %.2f  %s", r.id, r.figure, r.value, q.P10, q.P50, q.P90, q.P90/q.P10, float64(never)/float64(n), at, state))
	}
	fmt.Println(strings.Join(lines, "\n"))
	fmt.Printf("cases: with the unstated geometry held in the middle of its ranges the median widths are %.2f and %.3f: the model's own doubt\n", stats.Median(ownWidths), stats.Median(ownYields))
	wm, ym, S := stats.Median(widths), stats.Median(yields), stats.Mean(skill)
	floor := 0 // fewest in band that a true 80 % would give with 95 % chance
	for d := (distuv.Binomial{N: float64(counted), P: 0.8}); d.CDF(float64(floor)) <= 0.05; floor++ {
	}
	fmt.Printf("cases: in-band count must be at least %d of %d; widths of times and powers, median %.2f; of yields and efficiencies, median %.3f absolute; skill over %d figures\n", floor, counted, wm, ym, len(skill))
	fmt.Printf("cases: %d figures, %d in band, median width %.2f, skill %.3f\n", counted, inBand, wm, S)
	if os.Getenv("TOPLIT_CASES") == "" {
		return
	}
	if inBand < floor {
		t.Errorf("%d of %d in band, want at least %d", inBand, counted, floor)
	}
	if !(wm <= 2.2) {
		t.Errorf("median width %.2f, want at most 2.2", wm)
	}
	if !(ym <= 0.12) {
		t.Errorf("median width of yields %.3f, want at most 0.12", ym)
	}
	if !(S > 0) {
		t.Errorf("skill %.3f, want above 0", S)
	}
}

// logScore is the mean log density of the published value under the sample,
// in the logarithm for times, powers and rates.
func logScore(v []float64, r caseRow) float64 {
	if r.absolute {
		return stats.LogScore(v, r.value, r.scatter)
	}
	l := make([]float64, len(v))
	for i, x := range v {
		l[i] = math.Log(x)
	}
	return stats.LogScore(l, math.Log(r.value), r.scatter)
}
