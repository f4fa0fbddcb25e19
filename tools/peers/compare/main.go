// Command compare sets the stiff integrator of package numeric beside other
// general-purpose integrators: work (processor time per solve) against precision
// (largest relative error at the end). It solves the problems of
// numeric/problems itself, reads the points of the others from the CSV files
// named as arguments, and prints a table in Markdown. run.sh does it all.
package main

import (
	"bufio"
	"cmp"
	"fmt"
	"math"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"toplit/numeric"
	"toplit/numeric/problems"
)

// point is one run of one solver.
type point struct {
	rtol, scale  float64 // relative tolerance, absolute over relative
	err, seconds float64
}

// points holds the runs of a solver by problem.
type points map[string][]point

func main() {
	peers := map[string]points{}
	var names, about []string
	for _, file := range os.Args[1:] {
		name, line, p, err := read(file)
		if err != nil {
			fmt.Fprintln(os.Stderr, "peers:", err)
			os.Exit(1)
		}
		names = append(names, name)
		about = append(about, line)
		peers[name] = p
	}
	ours, err := measure(os.Stderr)
	if err != nil {
		fmt.Fprintln(os.Stderr, "peers:", err)
		os.Exit(1)
	}
	fmt.Printf("Machine: %s, %s/%s, %s. Others: %s.\n\n", processor(), runtime.GOOS, runtime.GOARCH, runtime.Version(), strings.Join(about, "; "))
	fmt.Print("| problem | error | ours [ms] |")
	for _, n := range names {
		fmt.Printf(" %s [ms] | ratio |", n)
	}
	fmt.Print("\n|---|---|---|")
	for range names {
		fmt.Print("---|---|")
	}
	fmt.Println()
	for _, p := range problems.All() {
		for _, e := range []float64{1e-3, 1e-4, 1e-6, 1e-8, 1e-9, 1e-10} {
			t := at(ours[p.Name], e)
			fmt.Printf("| %s | %.0e | %s |", p.Name, e, ms(t))
			for _, n := range names {
				o := at(peers[n][p.Name], e)
				fmt.Printf(" %s | %s |", ms(o), ratio(o/t))
			}
			fmt.Println()
		}
	}
}

const rounds = 7

// measure solves every problem over a range of tolerances, at two scales of the
// absolute one, and keeps the best of several rounds, apart in time.
func measure(log *os.File) (points, error) {
	out := points{}
	var s numeric.Solver
	stats := map[string][]numeric.Stats{}
	for round := range rounds {
		for _, p := range problems.All() {
			for k := range 2 * 23 {
				rtol := math.Pow(10, -float64(4+k/2)/2)
				opt := numeric.Options{RTol: rtol, ATol: rtol * p.Scale, Autonomous: true}
				if k%2 == 1 {
					opt.ATol *= 1e-2
				}
				seconds, err := solve(&s, p, opt)
				if err != nil {
					return nil, fmt.Errorf("%s at %g: %w", p.Name, rtol, err)
				}
				if round == 0 {
					out[p.Name] = append(out[p.Name], point{rtol, opt.ATol / rtol, p.Error(s.Y()), seconds})
					stats[p.Name] = append(stats[p.Name], s.Stats())
					continue
				}
				at := &out[p.Name][k]
				at.seconds = min(at.seconds, seconds)
			}
		}
	}
	fmt.Fprintln(log, "solver,problem,rtol,atol,error,seconds,steps,rates,jacobians")
	for _, p := range problems.All() {
		for k, r := range out[p.Name] {
			st := stats[p.Name][k]
			fmt.Fprintf(log, "ours,%s,%.3e,%.3e,%.3e,%.4e,%d,%d,%d\n", p.Name, r.rtol, r.rtol*r.scale, r.err, r.seconds, st.Steps, st.Rates, st.Jacobians)
		}
	}
	return out, nil
}

// solve is the time of one solution, from as many as fill 4 ms.
func solve(s *numeric.Solver, p problems.Problem, opt numeric.Options) (float64, error) {
	runs, t0, spent := 0, processorTime(), 0.0
	for spent < 4e-3 {
		if err := s.Reset(p.Sys, 0, p.Start, opt); err != nil {
			return 0, err
		}
		if _, err := s.Integrate(p.End, nil, nil); err != nil {
			return 0, err
		}
		runs++
		spent = processorTime() - t0
	}
	return spent / float64(runs), nil
}

// at is the time for the error e, interpolated in log–log, at the better of
// the scales of the absolute tolerance. The error of a tolerance is the largest
// one seen at this or any tighter tolerance, so that a run whose error happens
// to pass through zero at the end counts for nobody.
func at(all []point, e float64) float64 {
	best := math.NaN()
	byScale := map[string][]point{}
	for _, p := range all {
		k := fmt.Sprintf("%.2g", p.scale)
		byScale[k] = append(byScale[k], p)
	}
	for _, ps := range byScale {
		slices.SortFunc(ps, func(a, b point) int { return cmp.Compare(a.rtol, b.rtol) })
		for i := 1; i < len(ps); i++ {
			ps[i].err = max(ps[i].err, ps[i-1].err)
		}
		for i := 1; i < len(ps); i++ {
			a, b := ps[i-1], ps[i]
			if a.err <= e && e < b.err {
				x := math.Log(e/a.err) / math.Log(b.err/a.err)
				t := math.Exp((1-x)*math.Log(a.seconds) + x*math.Log(b.seconds))
				if !(best <= t) {
					best = t
				}
			}
		}
		// Even the loosest run is more accurate than asked.
		if p := ps[len(ps)-1]; p.err <= e && !(best <= p.seconds) {
			best = p.seconds
		}
	}
	return best
}

func read(file string) (name, about string, p points, err error) {
	f, err := os.Open(file)
	if err != nil {
		return "", "", nil, err
	}
	defer f.Close()
	p = points{}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		line := sc.Text()
		if rest, ok := strings.CutPrefix(line, "# "); ok {
			about = rest
			continue
		}
		col := strings.Split(line, ",")
		if len(col) < 6 {
			return "", "", nil, fmt.Errorf("%s: row %q has %d columns, want solver,problem,rtol,atol,error,seconds", file, line, len(col))
		}
		var v [4]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(col[2+i], 64); err != nil {
				return "", "", nil, fmt.Errorf("%s: row %q: column %d: %w", file, line, 3+i, err)
			}
		}
		name = col[0]
		p[col[1]] = append(p[col[1]], point{v[0], v[1] / v[0], v[2], v[3]})
	}
	if name == "" {
		return "", "", nil, fmt.Errorf("%s holds no points", file)
	}
	return name, about, p, sc.Err()
}

func ms(t float64) string {
	if math.IsNaN(t) {
		return "–"
	}
	return fmt.Sprintf("%.3g", t*1e3)
}

func ratio(r float64) string {
	if math.IsNaN(r) {
		return "–"
	}
	return fmt.Sprintf("%.1f", r)
}

// processor is the processor's name as Linux gives it.
func processor() string {
	text, err := os.ReadFile("/proc/cpuinfo")
	if err == nil {
		for line := range strings.Lines(string(text)) {
			if k, v, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(k) == "model name" {
				return strings.TrimSpace(v)
			}
		}
	}
	return "unnamed processor"
}
