package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestReachedSystemsAreThoseOfTheSpells(t *testing.T) {
	checkStudies(t, 1, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for i, a := range r.Alternatives {
			want := make([]bool, len(s.Systems))
			for _, p := range a.Spells {
				want[p.System] = true
			}
			assert.Equal(t, want, s.Reached(r.Inputs, i))
		}
	})
}

func TestFirstCostIsWhatTheLedgerHasAtTheStart(t *testing.T) {
	checkStudies(t, 1, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		for _, a := range r.Alternatives {
			want := decimal.Zero
			for _, line := range a.Ledger {
				if line.Kind == FirstCost && line.System == a.Alternative.Start {
					want = want.Add(line.Base)
				}
			}
			if a.Alternative.Wait == nil && !s.Systems[a.Alternative.Start].InPlace {
				assert.True(t, want.Equal(s.FirstCost(r.Inputs, a.Alternative.Start)))
			}
		}
	})
}
