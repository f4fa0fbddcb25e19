package designs

import (
	"math"
	"math/rand/v2"
)

// dice draws numbers in a fixed order, so that a seed names one firing.
type dice struct{ *rand.Rand }

func newDice(seed, again uint64) dice {
	return dice{rand.New(rand.NewPCG(seed, 0x7061c0de+again))}
}

// chance is true with probability p.
func (d dice) chance(p float64) bool { return d.Float64() < p }

// between is even over a range.
func (d dice) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

// spread is even over the logarithm of a range.
func (d dice) spread(lo, hi float64) float64 {
	return lo * math.Exp(math.Log(hi/lo)*d.Float64())
}

// length is spread over a range in steps of 0.1 mm, as makers measure.
func (d dice) length(lo, hi float64) float64 { return tenth(d.spread(lo, hi)) }

func tenth(v float64) float64 { return math.Round(v*1e4) / 1e4 }

// pick is one of a list.
func pick[T any](d dice, list ...T) T { return list[d.IntN(len(list))] }
