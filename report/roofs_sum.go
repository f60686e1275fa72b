package report

import (
	"math/big"
	"math/bits"
)

// MinorSum is a sum of amounts in minor units, of as many as there may be: 128
// bits, without a place of its own in memory. The zero value is nothing.
type MinorSum struct {
	high int64
	low  uint64
}

// Add adds an amount.
func (s *MinorSum) Add(minor int64) { s.plus(minor>>63, uint64(minor)) }

// Join adds another sum.
func (s *MinorSum) Join(o *MinorSum) { s.plus(o.high, o.low) }

func (s *MinorSum) plus(high int64, low uint64) {
	var carry uint64
	s.low, carry = bits.Add64(s.low, low, 0)
	s.high += high + int64(carry)
}

// Big is the sum as a number.
func (s *MinorSum) Big() *big.Int {
	high := big.NewInt(s.high)
	return high.Lsh(high, 64).Add(high, new(big.Int).SetUint64(s.low))
}
