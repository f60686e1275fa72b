package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A cost that both have alike has no break-even value, whatever float64 makes
// of two sums that are the same in cents.
func TestASharedAmountHasNoTie(t *testing.T) {
	s := &Study{Period: 30, Timing: MidYear, Inflation: NoRef, About: About{Digits: 2, BaseDate: "2026-10-01"}}
	add := func(unit Unit, value string) Ref { return s.Add(Input{Unit: unit, Likely: dec(value)}) }
	s.Rate, s.Area = add(Rate, "0.03"), add(Area, "1000")
	s.Escalation[Construction], s.Escalation[Maintenance] = Series{add(Rate, "0.01")}, Series{add(Rate, "0.005")}
	item := func(c Category, value string, growth Ref) Item {
		return Item{Category: c, Price: add(Money, value), Quantity: NoRef, Growth: growth}
	}
	life, patch := add(Years, "12"), item(Maintenance, "8464.22", add(Rate, "0.02"))
	s.Systems = []System{
		{Key: "old", InPlace: true, Life: add(Years, "5"), Annual: []Item{patch}, Then: 1},
		{Key: "a", Life: life, Then: 1, First: []Item{item(Construction, "46740.01", NoRef), item(Construction, "57060.94", NoRef)}},
		{Key: "b", Life: life, Then: 2, First: []Item{item(Construction, "103800.95", NoRef)}},
	}
	s.Alternatives = []Alternative{{Name: "A", Start: 1, BaseCase: true, Wait: &Wait{On: 0, Years: 3}}, {Name: "B", Start: 2, Wait: &Wait{On: 0, Years: 3}}}
	r, err := s.Evaluate()
	require.NoError(t, err)
	for high := decimal.NewFromInt(1000); high.LessThan(decimal.NewFromInt(1_000_000)); high = high.Mul(dec("1.07")).Round(2) {
		ties, err := r.Ties(patch.Price, 0, 1, decimal.Zero, high)
		require.NoError(t, err)
		assert.Empty(t, ties, "up to %s", high)
	}
}
