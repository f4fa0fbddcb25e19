package numeric

import "math"

// Relative increments of a forward difference. The usual square root of the
// rounding unit, 1.5e-8, is the best compromise for a smooth f computed to the
// last bit. With a loose tolerance the Jacobian need not be that exact, and a
// longer increment takes less of the noise of f into it (an inner iteration,
// for one) and keeps linear conservation laws closer; so a thousandth of the
// relative tolerance is used between these limits.
const (
	diffLeast = 1.4901161193847656e-08
	diffMost  = 1e-6
)

// differentiate fills jac and, unless f does not depend on t, ft at (t, y).
func (s *Solver) differentiate(end float64) {
	s.stats.Jacobians++
	s.jacok = true
	if !s.still {
		s.timeDerivative(end)
	}
	if s.jsys != nil {
		clear(s.jac)
		s.jsys.Jacobian(s.t, s.y, s.f0, s.jac)
		if s.full {
			return
		}
	}
	if p := s.opt.Pattern; p != nil {
		if s.jsys == nil {
			clear(s.jac)
		}
		s.differenceGroups(p)
		return
	}
	s.differenceColumns()
}

// timeDerivative differences f in t, forwards, because a step may start at a
// discontinuity but never spans one.
func (s *Solver) timeDerivative(end float64) {
	if s.tsys != nil {
		s.tsys.TimeDerivative(s.t, s.y, s.f0, s.ft)
		return
	}
	rest := end - s.t
	dt := min(s.diff*max(math.Abs(s.t), min(s.hnext, rest)), 0.5*rest)
	t := s.t + dt
	if dt = t - s.t; dt == 0 {
		clear(s.ft)
		return
	}
	s.sys.Rate(t, s.y, s.ft)
	s.stats.Rates++
	inv := 1 / dt
	for i, f := range s.f0 {
		s.ft[i] = (s.ft[i] - f) * inv
	}
}

// increment is the perturbation of component j: relative to its size or, for
// a component near zero, to the size at which its absolute tolerance takes
// over. It leads away from zero, so that a quantity that cannot be negative
// stays in its domain.
func (s *Solver) increment(j int) float64 {
	y := s.y[j]
	d := s.diff * max(math.Abs(y), s.atols[j]/s.rtol)
	if d < 1e-150 {
		d = max(d, s.diff*math.Abs(s.hnext*s.f0[j]))
		if d < 1e-150 {
			d = 1e-150
		}
	}
	if y < 0 {
		d = -d
	}
	// What is really added after rounding.
	return (y + d) - y
}

func (s *Solver) differenceColumns() {
	n := s.n
	copy(s.yj, s.y)
	f := s.f
	f0 := s.f0[:len(f)]
	for j := range n {
		d := s.increment(j)
		s.yj[j] = s.y[j] + d
		s.sys.Rate(s.t, s.yj, f)
		s.yj[j] = s.y[j]
		inv := 1 / d
		at := j
		for i, v := range f {
			s.jac[at] = (v - f0[i]) * inv
			at += n
		}
	}
	s.stats.Rates += n
}

func (s *Solver) differenceGroups(p *Pattern) {
	n := s.n
	copy(s.yj, s.y)
	for _, cols := range p.groups {
		for _, j := range cols {
			d := s.increment(int(j))
			s.del[j] = d
			s.yj[j] = s.y[j] + d
		}
		s.sys.Rate(s.t, s.yj, s.f)
		for _, j := range cols {
			s.yj[j] = s.y[j]
			inv := 1 / s.del[j]
			for _, i := range p.rows[j] {
				s.jac[int(i)*n+int(j)] = (s.f[i] - s.f0[i]) * inv
			}
		}
	}
	s.stats.Rates += len(p.groups)
}
