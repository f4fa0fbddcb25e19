package numeric

// Rodas5P: Rosenbrock method of order 5 with 8 stages, stiffly accurate and
// L-stable, with an embedded method of order 4 and a dense output of order 4,
// built to keep its order on Prothero–Robinson problems: G. Steinebach,
// "Construction of Rosenbrock–Wanner method Rodas5P and numerical benchmarks
// within the Julia Differential Equations package", BIT Numerical Mathematics
// 63 (2023) 27, doi:10.1007/s10543-023-00967-x. The coefficients are those of
// that paper in the form without matrix-vector products (Hairer and Wanner,
// Solving Ordinary Differential Equations II, 2nd ed. 1996, IV.7, eq. 7.25):
//
//	(I/(γh) − J) k_i = f(t+c_i h, y+Σ a_ij k_j) + Σ (C_ij/h) k_j + h d_i ∂f/∂t
//	y1 = y + Σ m_j k_j,   err = k_8
//
// Stages 6 to 8 stand at t+h: u7 = u6+k6, u8 = u7+k7, y1 = u8+k8.
const (
	rodasGamma = 0.21193756319429014

	ra21 = 3.0
	ra31 = 2.849394379747939
	ra32 = 0.45842242204463923
	ra41 = -6.954028509809101
	ra42 = 2.489845061869568
	ra43 = -10.358996098473584
	ra51 = 2.8029986275628964
	ra52 = 0.5072464736228206
	ra53 = -0.3988312541770524
	ra54 = -0.04721187230404641
	ra61 = -7.502846399306121
	ra62 = 2.561846144803919
	ra63 = -11.627539656261098
	ra64 = -0.18268767659942256
	ra65 = 0.030198172008377946

	rc21 = -14.155112264123755
	rc31 = -17.97296035885952
	rc32 = -2.859693295451294
	rc41 = 147.12150275711716
	rc42 = -1.41221402718213
	rc43 = 71.68940251302358
	rc51 = 165.43517024871676
	rc52 = -0.4592823456491126
	rc53 = 42.90938336958603
	rc54 = -5.961986721573306
	rc61 = 24.854864614690072
	rc62 = -3.0009227002832186
	rc63 = 47.4931110020768
	rc64 = 5.5814197821558125
	rc65 = -0.6610691825249471
	rc71 = 30.91273214028599
	rc72 = -3.1208243349937974
	rc73 = 77.79954646070892
	rc74 = 34.28646028294783
	rc75 = -19.097331116725623
	rc76 = -28.087943162872662
	rc81 = 37.80277123390563
	rc82 = -3.2571969029072276
	rc83 = 112.26918849496327
	rc84 = 66.9347231244047
	rc85 = -40.06618937091002
	rc86 = -54.66780262877968
	rc87 = -9.48861652309627

	rt2 = 0.6358126895828704
	rt3 = 0.4095798393397535
	rt4 = 0.9769306725060716
	rt5 = 0.4288403609558664

	rd1 = 0.21193756319429014
	rd2 = -0.42387512638858027
	rd3 = -0.3384627126235924
	rd4 = 1.8046452872882734
	rd5 = 2.325825639765069

	rh21 = 25.948786856663858
	rh22 = -2.5579724845846235
	rh23 = 10.433815404888879
	rh24 = -2.3679251022685204
	rh25 = 0.524948541321073
	rh26 = 1.1241088310450404
	rh27 = 0.4272876194431874
	rh28 = -0.17202221070155493
	rh31 = -9.91568850695171
	rh32 = -0.9689944594115154
	rh33 = 3.0438037242978453
	rh34 = -24.495224566215796
	rh35 = 20.176138334709044
	rh36 = 15.98066361424651
	rh37 = -6.789040303419874
	rh38 = -6.710236069923372
	rh41 = 11.419903575922262
	rh42 = 2.8879645146136994
	rh43 = 72.92137995996029
	rh44 = 80.12511834622643
	rh45 = -52.072871366152654
	rh46 = -59.78993625266729
	rh47 = -0.15582684282751913
	rh48 = 4.883087185713722
)

// stages runs the eight stages of one trial step h from (s.t, s.y) with the
// matrix already factored, leaving the new value in s.ynew and the error of
// each component in s.k[7].
func (s *Solver) stages(h float64) {
	t, ih := s.t, 1/h
	y := s.y
	n := len(y)
	u, f := s.u[:n], s.f[:n]
	k1, k2, k3, k4 := s.k[0][:n], s.k[1][:n], s.k[2][:n], s.k[3][:n]
	k5, k6, k7, k8 := s.k[4][:n], s.k[5][:n], s.k[6][:n], s.k[7][:n]

	if s.sparse != nil {
		// The active part was found when the factors were checked.
		copy(k1[s.n:], s.f0[s.n:])
		if !s.still {
			for i := s.n; i < n; i++ {
				k1[i] += h * rd1 * s.ft[i]
			}
		}
		s.sparse.substitute(rodasGamma*h, s.jac, k1)
	} else {
		copy(k1, s.f0)
		s.addTime(h*rd1, k1)
		s.solve(h, k1)
	}

	for i := range y {
		a := k1[i]
		u[i] = y[i] + ra21*a
		k2[i] = ih * (rc21 * a)
	}
	s.stage(t+rt2*h, h*rd2, h, u, f, k2)

	for i := range y {
		a, b := k1[i], k2[i]
		u[i] = y[i] + (ra31*a + ra32*b)
		k3[i] = ih * (rc31*a + rc32*b)
	}
	s.stage(t+rt3*h, h*rd3, h, u, f, k3)

	for i := range y {
		a, b, c := k1[i], k2[i], k3[i]
		u[i] = y[i] + (ra41*a + ra42*b + ra43*c)
		k4[i] = ih * (rc41*a + rc42*b + rc43*c)
	}
	s.stage(t+rt4*h, h*rd4, h, u, f, k4)

	for i := range y {
		a, b, c, d := k1[i], k2[i], k3[i], k4[i]
		u[i] = y[i] + ((ra51*a + ra52*b) + (ra53*c + ra54*d))
		k5[i] = ih * ((rc51*a + rc52*b) + (rc53*c + rc54*d))
	}
	s.stage(t+rt5*h, h*rd5, h, u, f, k5)

	for i := range y {
		a, b, c, d, e := k1[i], k2[i], k3[i], k4[i], k5[i]
		u[i] = y[i] + ((ra61*a + ra62*b) + (ra63*c + ra64*d) + ra65*e)
		k6[i] = ih * ((rc61*a + rc62*b) + (rc63*c + rc64*d) + rc65*e)
	}
	s.stage(t+h, 0, h, u, f, k6)

	for i := range y {
		a, b, c, d, e, g := k1[i], k2[i], k3[i], k4[i], k5[i], k6[i]
		u[i] += g
		k7[i] = ih * ((rc71*a + rc72*b) + (rc73*c + rc74*d) + (rc75*e + rc76*g))
	}
	s.stage(t+h, 0, h, u, f, k7)

	for i := range y {
		a, b, c, d, e, g, q := k1[i], k2[i], k3[i], k4[i], k5[i], k6[i], k7[i]
		u[i] += q
		k8[i] = ih * ((rc81*a + rc82*b) + (rc83*c + rc84*d) + (rc85*e + rc86*g) + rc87*q)
	}
	s.stage(t+h, 0, h, u, f, k8)

	ynew := s.ynew[:n]
	for i, v := range u {
		ynew[i] = v + k8[i]
	}
}

// stage evaluates the rate at (t, u), adds it and hd·∂f/∂t to the sum already
// in k, and solves for k.
func (s *Solver) stage(t, hd, h float64, u, f, k []float64) {
	s.sys.Rate(t, u, f)
	s.stats.Rates++
	f = f[:len(k)]
	for i, v := range f {
		k[i] += v
	}
	if hd != 0 {
		s.addTime(hd, k)
	}
	s.solve(h, k)
}

// addTime adds c·∂f/∂t to k.
func (s *Solver) addTime(c float64, k []float64) {
	if s.still {
		return
	}
	ft := s.ft[:len(k)]
	for i, v := range ft {
		k[i] += c * v
	}
}

// solve replaces the right-hand side in k by the solution of
// (I/(γh) − J) k = r. Quadrature rows have only their diagonal and the coupling
// to the active components, so they follow by substitution.
func (s *Solver) solve(h float64, k []float64) {
	n := s.n
	if e := s.sparse; e != nil {
		e.solve(s.w, s.piv, k[:n])
		e.substitute(rodasGamma*h, s.jac, k)
		return
	}
	luSolve(s.w[:n*n], s.piv, n, k[:n])
	if len(k) > n {
		s.substitute(rodasGamma*h, k)
	}
}

// substitute solves the quadrature rows once the active ones are known.
func (s *Solver) substitute(gh float64, k []float64) {
	n := s.n
	act := k[:n]
	i := n
	for ; len(k)-i >= 4; i += 4 {
		rows := s.jac[i*n : (i+4)*n]
		g0, g1, g2, g3 := dot4(act, rows[:n], rows[n:2*n], rows[2*n:3*n], rows[3*n:])
		k[i] = gh * (k[i] + g0)
		k[i+1] = gh * (k[i+1] + g1)
		k[i+2] = gh * (k[i+2] + g2)
		k[i+3] = gh * (k[i+3] + g3)
	}
	for ; i < len(k); i++ {
		k[i] = gh * (k[i] + dot(act, s.jac[i*n:i*n+n]))
	}
}

// prepare forms the three vectors of the dense output of the last step.
func (s *Solver) prepare() {
	if s.dense {
		return
	}
	s.dense = true
	n := len(s.y)
	k1, k2, k3, k4 := s.k[0][:n], s.k[1][:n], s.k[2][:n], s.k[3][:n]
	k5, k6, k7, k8 := s.k[4][:n], s.k[5][:n], s.k[6][:n], s.k[7][:n]
	d2, d3, d4 := s.d[0][:n], s.d[1][:n], s.d[2][:n]
	for i := range d2 {
		a, b, c, d, e, g, q, r := k1[i], k2[i], k3[i], k4[i], k5[i], k6[i], k7[i], k8[i]
		d2[i] = (rh21*a + rh22*b) + (rh23*c + rh24*d) + (rh25*e + rh26*g) + (rh27*q + rh28*r)
		d3[i] = (rh31*a + rh32*b) + (rh33*c + rh34*d) + (rh35*e + rh36*g) + (rh37*q + rh38*r)
		d4[i] = (rh41*a + rh42*b) + (rh43*c + rh44*d) + (rh45*e + rh46*g) + (rh47*q + rh48*r)
	}
}

// At writes the solution at time t within the last step, [Prev(), T()], to
// out, as a polynomial of order 4 through both ends; out may be shorter than
// the system, then only the leading components are written.
func (s *Solver) At(t float64, out []float64) {
	s.prepare()
	x := s.fraction(t)
	z := 1 - x
	n := min(len(out), len(s.y))
	out = out[:n]
	y0, y1, d2, d3, d4 := s.yold[:n], s.yend[:n], s.d[0][:n], s.d[1][:n], s.d[2][:n]
	for i := range out {
		out[i] = z*y0[i] + x*(y1[i]+z*(d2[i]+x*(d3[i]+x*d4[i])))
	}
}

// AtOne returns component i of the solution at time t within the last step.
func (s *Solver) AtOne(t float64, i int) float64 {
	s.prepare()
	x := s.fraction(t)
	z := 1 - x
	return z*s.yold[i] + x*(s.yend[i]+z*(s.d[0][i]+x*(s.d[1][i]+x*s.d[2][i])))
}

// fraction is the place of t in the last step, 0 at its start and 1 at its end.
func (s *Solver) fraction(t float64) float64 {
	if s.h == 0 {
		return 1
	}
	return (t - s.told) / s.h
}
