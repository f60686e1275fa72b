package budget

import (
	"maps"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc/checks"
)

// selection is a published choice of projects under one budget.
type selection struct {
	ID        string                     `json:"id"`
	Source    string                     `json:"source"`
	Unit      string                     `json:"unit"`
	Budget    decimal.Decimal            `json:"budget"`
	FirstCost map[string]decimal.Decimal `json:"first_cost"`
	NetWorth  map[string]decimal.Decimal `json:"net_worth"`
	Selected  []string                   `json:"selected"`
	Total     *decimal.Decimal           `json:"total_net_worth"`
}

// problem has a roof for each project, in the order of names: without, which
// costs nothing, and with, which costs its worth with the sign turned. Amounts
// are hundredths of the source's unit.
func (s selection) problem() (Problem, []string) {
	p := Problem{Budgets: []Limit{AtMost(hundredths(s.Budget))}}
	names := slices.Sorted(maps.Keys(s.FirstCost))
	for _, name := range names {
		p.Roofs = append(p.Roofs, Roof{Name: name, Options: []Option{
			{},
			{Cost: -hundredths(s.NetWorth[name]), FirstCost: []int64{hundredths(s.FirstCost[name])}},
		}})
	}
	return p, names
}

func hundredths(d decimal.Decimal) int64 { return d.Shift(2).IntPart() }

func TestPublishedSelections(t *testing.T) {
	var published struct {
		About   string            `json:"about"`
		Cases   []selection       `json:"cases"`
		LeftOut map[string]string `json:"left_out"`
	}
	checks.Read(t, "../../testdata/published/budget/selection.json", &published)
	require.Len(t, published.Cases, 3)
	for _, c := range published.Cases {
		t.Run(c.ID, func(t *testing.T) {
			require.NotEmpty(t, c.Source)
			require.Len(t, c.NetWorth, len(c.FirstCost))
			p, names := c.problem()
			a := choose(t, p)
			var selected []string
			for i, j := range a.Plan {
				if j == 1 {
					selected = append(selected, names[i])
				}
			}
			assert.Equal(t, Optimal, a.State)
			assert.Equal(t, c.Selected, selected)
			if c.Total != nil {
				assert.Equal(t, -hundredths(*c.Total), a.Cost)
			}
		})
	}
}
