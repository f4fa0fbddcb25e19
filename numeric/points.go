package numeric

import (
	_ "embed"
	"fmt"
	"math/bits"
	"math/rand/v2"
	"strconv"
	"strings"
)

// MaxPointDim is the largest dimension of Points.
const MaxPointDim = 64

//go:embed directions.csv
var directionTable string

// pointBits is the length of a coordinate in binary digits. Half a unit is
// added to it, so that no coordinate is 0 or 1 and all are exact.
const pointBits = 52

// Points is a Sobol' sequence in the unit cube: points that fill it more evenly
// than random ones, so that a mean over N of them settles nearly as 1/N instead
// of 1/√N. Any 2^k points from a multiple of 2^k on hit every 2^k-th of each
// axis once.
//
// I. M. Sobol', USSR Comput. Math. Math. Phys. 7 (1967) 86–112, in Gray-code
// order, with the direction numbers of Joe and Kuo (2008), see directions.csv.
// It never changes after it is made and may be read by several goroutines.
type Points struct {
	v     [][32]uint64 // direction numbers by dimension
	shift []uint64
	half  float64
}

// NewPoints returns the sequence in dim dimensions scrambled by the seed: a
// random lower triangular matrix and a digital shift (J. Matoušek, J. Complexity
// 14 (1998) 527–556), which keeps the evenness, makes every point uniform on
// its own, and so makes means unbiased. The same seed gives the same points on
// every machine.
func NewPoints(dim int, seed uint64) (*Points, error) {
	p, err := newSobol(dim)
	if err != nil {
		return nil, err
	}
	rng := rand.New(rand.NewPCG(seed, 0x746f706c6974)) // second word: a fixed stream
	const mask = 1<<pointBits - 1
	for d := range p.v {
		// Row r of the matrix, from the top binary digit down: a one on the
		// diagonal, random digits before it, and below the 32 digits of the
		// sequence random ones throughout.
		var rows [pointBits]uint64
		for r := range rows {
			diag := uint64(1) << (pointBits - 1 - r)
			above := mask &^ (2*diag - 1)
			rows[r] = rng.Uint64()&above | diag
		}
		for c, v := range p.v[d] {
			var x uint64
			for r, row := range rows {
				if bits.OnesCount64(row&v)&1 == 1 {
					x |= 1 << (pointBits - 1 - r)
				}
			}
			p.v[d][c] = x
		}
		p.shift[d] = rng.Uint64() & mask
	}
	p.half = 0.5
	return p, nil
}

// NewSobol returns the sequence as it stands, beginning with the origin.
func NewSobol(dim int) (*Points, error) { return newSobol(dim) }

func newSobol(dim int) (*Points, error) {
	if dim < 1 || dim > MaxPointDim {
		return nil, fmt.Errorf("low-discrepancy points in %d dimensions, want 1 to %d", dim, MaxPointDim)
	}
	p := &Points{v: make([][32]uint64, dim), shift: make([]uint64, dim)}
	for c := range 32 {
		p.v[0][c] = 1 << (pointBits - 1 - c)
	}
	d := 1
	for line := range strings.Lines(directionTable) {
		if d == dim {
			break
		}
		f := strings.Split(strings.TrimSpace(line), ",")
		if line[0] == '#' || f[0] == "dimension" {
			continue
		}
		if err := p.direct(d, f); err != nil {
			return nil, fmt.Errorf("direction numbers of dimension %d: %w", d+1, err)
		}
		d++
	}
	return p, nil
}

// direct fills the direction numbers of one dimension by the recurrence of
// Bratley and Fox, ACM Trans. Math. Softw. 14 (1988) 88–100, eq. (2).
func (p *Points) direct(d int, f []string) error {
	if len(f) != 4 {
		return fmt.Errorf("%d columns, want 4", len(f))
	}
	s, err := strconv.Atoi(f[1])
	if err != nil {
		return err
	}
	a, err := strconv.ParseUint(f[2], 10, 32)
	if err != nil {
		return err
	}
	ms := strings.Fields(f[3])
	if len(ms) != s {
		return fmt.Errorf("%d initial numbers for degree %d", len(ms), s)
	}
	v := &p.v[d]
	for c, text := range ms {
		m, err := strconv.ParseUint(text, 10, 32)
		if err != nil {
			return err
		}
		v[c] = m << (pointBits - 1 - c)
	}
	for c := s; c < 32; c++ {
		v[c] = v[c-s] ^ v[c-s]>>s
		for k := 1; k < s; k++ {
			if a>>(s-1-k)&1 == 1 {
				v[c] ^= v[c-k]
			}
		}
	}
	return nil
}

// Dim is the dimension of the points.
func (p *Points) Dim() int { return len(p.v) }

// At writes point i, from 0, to out, which has Dim() entries. Any point can be
// had on its own.
func (p *Points) At(i uint32, out []float64) {
	gray := i ^ i>>1
	for d := range p.v {
		v := &p.v[d]
		x := p.shift[d]
		for g := gray; g != 0; g &= g - 1 {
			x ^= v[bits.TrailingZeros32(g)&31]
		}
		out[d] = (float64(x) + p.half) * 0x1p-52
	}
}
