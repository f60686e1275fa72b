package report

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	_ "roofyears/lcc/checks" // one seed
)

func TestMinorSumIsTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts [2]MinorSum
		want := new(big.Int)
		for range rapid.IntRange(0, 40).Draw(t, "amounts") {
			x := rapid.OneOf(rapid.Int64(), rapid.SampledFrom([]int64{0, 1, -1, math.MaxInt64, math.MinInt64})).Draw(t, "amount")
			parts[rapid.IntRange(0, 1).Draw(t, "part")].Add(x)
			want.Add(want, big.NewInt(x))
		}
		parts[0].Join(&parts[1])
		assert.Equal(t, want.String(), parts[0].Big().String())
	})
}
