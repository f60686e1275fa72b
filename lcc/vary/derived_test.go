package vary

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// What follows from other inputs does not move by itself; a share goes from
// nothing to the whole.
func TestDerivedInputsAreNotMoved(t *testing.T) {
	s := &lcc.Study{Period: 10, Inflation: lcc.NoRef, About: lcc.About{Digits: 2, BaseDate: "2026-01-01"}}
	add := func(path string, unit lcc.Unit, text, value string) lcc.Ref {
		return s.Add(lcc.Input{Path: path, Unit: unit, UnitText: text, Likely: decimal.RequireFromString(value)})
	}
	s.Rate, s.Area = add("rate", lcc.Rate, "", "0.03"), add("area", lcc.Area, "ft2", "1000")
	share, loose := add("share", lcc.Count, "%", "0.2"), add("loose", lcc.Count, "", "0")
	s.Derived = []lcc.Derivation{{In: loose, Terms: []lcc.Term{{Coefficient: decimal.NewFromInt(1), Factors: []lcc.Factor{{Of: s.Area}, {Of: share}}}}}}
	life, price, whole := add("life", lcc.Years, "", "10"), add("price", lcc.Price, "", "3"), add("whole", lcc.Money, "", "900")
	s.Systems = []lcc.System{
		{Key: "a", Name: "A", Life: life, First: []lcc.Item{{Name: "x", Price: price, Quantity: loose, Growth: lcc.NoRef}}},
		{Key: "b", Name: "B", Life: life, Then: 1, First: []lcc.Item{{Name: "y", Price: whole, Quantity: lcc.NoRef, Growth: lcc.NoRef}}},
	}
	s.Alternatives = []lcc.Alternative{{Name: "A"}, {Name: "B", Start: 1}}
	r, err := s.Evaluate()
	require.NoError(t, err)
	assert.Equal(t, "200", r.Inputs[loose].String())
	holds, err := Holds(r, 0, []int{1})
	require.NoError(t, err)
	require.Len(t, holds, len(s.Inputs)-1)
	for _, h := range holds {
		assert.NotEqual(t, loose, h.In)
		if h.In == share {
			assert.Equal(t, "0 1", h.Low.String()+" "+h.High.String())
		}
	}
}
