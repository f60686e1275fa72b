package workbook

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/report"
)

// halves is a study of costs that are half a cent over or under whole ones, at
// base-date prices and, with finite factors, later.
func halves() *lcc.Study {
	s := &lcc.Study{Inflation: lcc.NoRef, Period: 3, About: lcc.About{Currency: "USD", Digits: 2, AreaUnit: "ft2", BaseDate: "2026-10-01"}}
	in := func(path string, unit lcc.Unit, v decimal.Decimal) lcc.Ref {
		return s.Add(lcc.Input{Path: path, Unit: unit, Likely: v})
	}
	s.Rate, s.Area = in("study.discount_rate", lcc.Rate, decimal.New(25, -2)), in("roof.area", lcc.Area, decimal.New(1, 0))
	s.Escalation[lcc.Construction] = lcc.Series{in("study.escalation", lcc.Rate, decimal.New(2, -2))}
	dice, half := rand.New(rand.NewPCG(9, 9)), decimal.New(5, -3)
	var items []lcc.Item
	for len(items) < 800 {
		price, quantity := decimal.New(dice.Int64N(90_000)-9_000, -3), decimal.New(dice.Int64N(900_000)+1, -1)
		if amount := price.Mul(quantity); !amount.Abs().Mod(decimal.New(1, -2)).Equal(half) {
			continue
		}
		path := fmt.Sprintf("item[%d]", len(items)+1)
		items = append(items, lcc.Item{Name: path, Price: in(path+".price", lcc.Price, price), Quantity: in(path+".quantity", lcc.Count, quantity), Growth: lcc.NoRef})
	}
	s.Systems = []lcc.System{{Key: "s", Name: "s", Life: in("s.life", lcc.Years, decimal.New(9, 0)), First: items, Annual: items[:200], Residual: lcc.Residual{Mode: lcc.NoResidual}}}
	s.Alternatives = []lcc.Alternative{{Name: "one"}}
	return s
}

// Binary numbers hold half a cent a hair off; it is rounded as in the ledger
// all the same. Without the rounding aid, Gnumeric 1.12.55 rounded 24 of 16,200
// amounts of such a study the other way, LibreOffice 7.4 none.
func TestHalfCentsAreRoundedAsInTheLedger(t *testing.T) {
	r, err := halves().Evaluate()
	require.NoError(t, err)
	tr := plainly(t, "halves", report.Study{Result: r})
	for _, e := range engines {
		assert.Greater(t, recalculated(t, e, []trial{tr}), 9_000)
	}
}
