package portfolio

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Exactly 20 times the template's value, or a 20th of it, is not told yet; a small or large roof never is.
func TestFarCellsAreThoseOverTwentyTimesTheTemplate(t *testing.T) {
	const price, life, area = "systems.restoration.first_costs[2].unit_price", "systems.restoration.life", "roof.area"
	f := template(t, "school")
	likely, lasts := f.Study.Inputs[f.Study.Find(price)].Likely, f.Study.Inputs[f.Study.Find(life)].Likely
	for _, c := range []struct {
		price, life, area string
		want              []int
	}{
		{likely.Mul(farFactor).String(), lasts.Mul(farFactor).String(), "1", []int{0, 0, 0}},
		{likely.Mul(farFactor).String() + "1", "1", "1000000000", []int{1, 0, 0}},
		{likely.Div(farFactor).String(), "0.1", "", []int{0, 1, 0}},
		{"0", "", "", []int{0, 0, 0}},
		{"-3", "", "", []int{0, 0, 0}},
	} {
		table, err := Open("roofs", strings.NewReader("id;"+price+";"+life+";"+area+"\na;"+c.price+";"+c.life+";"+c.area+"\n"), Options{Separator: ';'})
		require.NoError(t, err)
		columns, err := Compile([]Template{{File: f}}, table, Meaning{})
		require.NoError(t, err)
		row, err := table.Next()
		require.NoError(t, err)
		roof, found := &Roof{}, make(Far, 3)
		require.Nil(t, columns.Roof(row, roof))
		columns.Far(roof, row, found)
		for i, n := range c.want {
			assert.Equal(t, n, found[i].Count, "%v, column %d", c, i)
		}
	}
}

// A roof that is there may be at its end, and have a twentieth of the template's
// years left or less; more than twenty times as many is a slip.
func TestFewYearsLeftAreNotFar(t *testing.T) {
	s := template(t, "school").Study
	left := s.Find("systems.existing.life")
	likely := s.Inputs[left].Likely
	assert.False(t, isFar(s, left, likely.Div(farFactor).Div(farFactor)))
	assert.True(t, isFar(s, left, likely.Mul(farFactor).Add(likely)))
}

// Of several parts of a table the first far cell is told.
func TestFarCellsOfPartsAddUp(t *testing.T) {
	var all Far
	all.Join(Far{{}, {2, 7, "35"}})
	all.Join(Far{{1, 9, "0.001"}, {1, 8, "40"}})
	assert.Equal(t, Far{{1, 9, "0.001"}, {3, 7, "35"}}, all)
}
