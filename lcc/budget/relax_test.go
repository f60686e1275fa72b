package budget

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// exact is the relaxation's value in rational numbers.
func exact(m model, n node, multipliers []float64) *big.Rat {
	rat := func(f float64) *big.Rat { return new(big.Rat).SetFloat64(f) }
	sum := new(big.Rat).SetInt64(n.cost)
	for _, o := range n.open {
		var least *big.Rat
		for _, j := range o.live {
			c := m.roofs[o.roof][j]
			v := new(big.Rat).SetInt64(c.cost)
			for _, u := range c.uses {
				v.Add(v, new(big.Rat).Mul(rat(multipliers[u.at]), new(big.Rat).SetInt64(u.amount)))
			}
			if least == nil || v.Cmp(least) < 0 {
				least = v
			}
		}
		sum.Add(sum, least)
	}
	for k, room := range n.room {
		sum.Sub(sum, new(big.Rat).Mul(rat(multipliers[k]), new(big.Rat).SetInt64(room)))
	}
	return sum
}

// The margin of the bound must cover its rounding, for any multipliers and
// amounts.
func TestBoundIsRoundedToTheSafeSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := smallProblem(t)
		factor := rapid.Int64Range(1, 1<<20).Draw(t, "factor")
		for i := range p.Roofs {
			for j := range p.Roofs[i].Options {
				p.Roofs[i].Options[j].Cost *= factor
				p.Roofs[i].Options[j].Barred = false
			}
		}
		for y := range p.Budgets {
			p.Budgets[y].Most += 8 << 20 // so that every option fits
		}
		m, reason := newModel(p, yearsOf(p))
		if reason.Cause != NoCause {
			return
		}
		multipliers := make([]float64, len(m.limits))
		for k := range multipliers {
			multipliers[k] = rapid.Float64Range(0, 1e6).Draw(t, "multiplier")
		}
		r := m.relax(m.root(), multipliers)
		want := exact(m, m.root(), multipliers)
		off := new(big.Rat).Sub(new(big.Rat).SetFloat64(r.value), want)
		require.LessOrEqual(t, off.Abs(off).Cmp(new(big.Rat).SetFloat64(r.margin)), 0, "off by more than the margin %g", r.margin)
		low, _ := want.Float64()
		require.LessOrEqual(t, float64(r.bound()), math.Ceil(low)+1)
	})
}
