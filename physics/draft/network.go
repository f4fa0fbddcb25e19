package draft

import (
	"errors"
	"fmt"
	"math"
)

// MaxLoops is how many loop flows a network can carry.
const MaxLoops = 8

// Passage is one element in a network with the gas in it. Its flow is
//
//	Made + sum over loops of Loop x + Gain pos(x)
//
// where pos is the flow when it runs forward, else nothing.
type Passage struct {
	Element Element
	Rho     float64           // density of the gas in it [kg/m3]
	Mu      float64           // viscosity [Pa s]
	Head    float64           // pressure driving along it, buoyancy and wind [Pa]
	Made    float64           // gas made before it whatever the flow [kg/s]
	Loop    [MaxLoops]float64 // +1 or -1 where a loop runs along or against it
	Gain    [MaxLoops]float64 // gas made before it per forward flow of a loop [kg/kg]

	Flow float64 // set by Solve [kg/s]
	Drop float64 // set by Solve [Pa]
}

// Network balances heads and losses round loops from the outside air and back
// to it. The unknowns are the loop flows: node pressures stall near zero flow,
// where a square-root law has no slope.
type Network struct {
	Loops    int
	Passages []Passage
	Fixed    [MaxLoops]bool // the loop's flow is given (a fan), not solved for
	Width    float64        // flow over which Gain fades in about zero, 0 means 1e-8 [kg/s]
}

// ErrNoBalance is returned, wrapped, when the loop flows do not settle.
var ErrNoBalance = errors.New("flow network did not settle")

const (
	tolerance  = 1e-12 // of the largest flow
	rounding   = 1e-15 // of all the pressures in the balance
	iterations = 60
	leastFlow  = 1e-12 // flow scale below which nothing moves [kg/s]
)

// Solve finds the loop flows x [kg/s], of length Loops, starting from what x
// holds (all zero: from rest), to 1e-12 of the largest flow. It returns the number
// of Newton steps. With passages of positive area the solution without gains
// is unique and the search ends in it from any start: the equations are the
// slope of a convex function, and steps that do not lower the imbalance are
// shortened.
func (n *Network) Solve(x []float64) (int, error) {
	if n.Loops < 1 || n.Loops > MaxLoops || len(x) != n.Loops {
		return 0, fmt.Errorf("flow network: %d loops and %d flows, want equal numbers from 1 to %d", n.Loops, len(x), MaxLoops)
	}
	for i, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, fmt.Errorf("flow network: start flow %d is %g kg/s, want a finite number", i, v)
		}
	}
	n.leaveRest(x)
	width := n.Width
	if width == 0 {
		width = 1e-8
	}
	total, err := n.settle(x, width)
	if err == nil || !errors.Is(err, ErrNoBalance) {
		return total, err
	}
	// Gas that starts and stops with a flow near zero bends the balance
	// sharply there: come to it from a gentle bend.
	for w := 1e-3; w > width; w /= 4 {
		it, _ := n.settle(x, w)
		total += it
	}
	it, err := n.settle(x, width)
	return total + it, err
}

// settle is Solve with gains fading in over width.
func (n *Network) settle(x []float64, width float64) (int, error) {
	var f, step [MaxLoops]float64
	var jac [MaxLoops][MaxLoops]float64
	var trial [MaxLoops]float64
	bad := n.balance(x, width, &f, &jac)
	for it := 1; it <= iterations; it++ {
		if math.IsNaN(bad) || !n.direction(&f, &jac, &step) {
			return it, fmt.Errorf("%w: imbalance %g Pa at flows %v kg/s", ErrNoBalance, math.Sqrt(bad), x)
		}
		var scale, load, most float64
		for k := range n.Passages {
			p := &n.Passages[k]
			scale = math.Max(scale, math.Abs(p.Flow))
			load += math.Abs(p.Drop) + math.Abs(p.Head)
		}
		for i := range x {
			scale = math.Max(scale, math.Abs(x[i]))
			most = math.Max(most, math.Abs(step[i]))
		}
		// Settled: the next step moves nothing, or what is left is rounding.
		small := most <= tolerance*math.Max(scale, leastFlow) || bad <= rounding*rounding*load*load
		share := 1.0
		for {
			for i := range x {
				trial[i] = x[i] + share*step[i]
			}
			after := n.balance(trial[:n.Loops], width, &f, &jac)
			if after <= bad*(1-1e-4*share) || small {
				copy(x, trial[:n.Loops])
				bad = after
				break
			}
			// bad falls at 2 bad per unit of share at first: the parabola
			// through these three says where to look next.
			next := share * share * bad / (after - bad*(1-2*share))
			share = math.Min(math.Max(next, 0.05*share), 0.5*share)
			if !(share > 1e-13) {
				return it, fmt.Errorf("%w: imbalance %g Pa at flows %v kg/s", ErrNoBalance, math.Sqrt(bad), x)
			}
		}
		if small || bad == 0 {
			return it, nil
		}
	}
	return iterations, fmt.Errorf("%w: imbalance %g Pa after %d steps", ErrNoBalance, math.Sqrt(bad), iterations)
}

// leaveRest moves a start from rest a little way along the heads, where
// elements without a viscous part have a slope.
func (n *Network) leaveRest(x []float64) {
	for i, v := range x {
		if v != 0 && !n.Fixed[i] {
			return
		}
	}
	for i := range x {
		if n.Fixed[i] {
			continue
		}
		var head float64
		for k := range n.Passages {
			head += n.Passages[k].Loop[i] * n.Passages[k].Head
		}
		x[i] = math.Copysign(1e-4, head)
	}
}

// balance sets each passage's flow and drop at loop flows x, the imbalance f
// of each loop [Pa] and its derivatives, and returns the sum of squares of f.
func (n *Network) balance(x []float64, width float64, f *[MaxLoops]float64, jac *[MaxLoops][MaxLoops]float64) float64 {
	loops := len(x)
	var pos, dpos [MaxLoops]float64
	for i, v := range x {
		r := math.Sqrt(v*v + width*width)
		pos[i], dpos[i] = 0.5*(v+r), 0.5*(1+v/r)
		f[i] = 0
		jac[i] = [MaxLoops]float64{}
	}
	for k := range n.Passages {
		p := &n.Passages[k]
		q := p.Made
		for i := range loops {
			q += p.Loop[i]*x[i] + p.Gain[i]*pos[i]
		}
		dp, slope := p.Element.Drop(q, p.Rho, p.Mu)
		p.Flow, p.Drop = q, dp
		slope = math.Max(slope, 1e-9)
		for i := range loops {
			if p.Loop[i] == 0 || n.Fixed[i] {
				continue
			}
			f[i] += p.Loop[i] * (dp - p.Head)
			for j := range loops {
				jac[i][j] += p.Loop[i] * slope * (p.Loop[j] + p.Gain[j]*dpos[j])
			}
		}
	}
	var sum float64
	for i := range loops {
		if n.Fixed[i] {
			f[i], jac[i][i] = 0, 1
		}
		sum += f[i] * f[i]
	}
	return sum
}

// direction solves jac step = -f by elimination with row pivoting; false if a
// loop has no passage to balance in.
func (n *Network) direction(f *[MaxLoops]float64, jac *[MaxLoops][MaxLoops]float64, step *[MaxLoops]float64) bool {
	a, b := *jac, *f
	loops := n.Loops
	for c := range loops {
		p := c
		for r := c + 1; r < loops; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		if a[p][c] == 0 || math.IsNaN(a[p][c]) {
			return false
		}
		a[c], a[p], b[c], b[p] = a[p], a[c], b[p], b[c]
		for r := c + 1; r < loops; r++ {
			w := a[r][c] / a[c][c]
			for k := c; k < loops; k++ {
				a[r][k] -= w * a[c][k]
			}
			b[r] -= w * b[c]
		}
	}
	for c := loops - 1; c >= 0; c-- {
		s := -b[c]
		for k := c + 1; k < loops; k++ {
			s -= a[c][k] * step[k]
		}
		step[c] = s / a[c][c]
	}
	return true
}
