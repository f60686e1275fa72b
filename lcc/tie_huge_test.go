package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A study whose costs float64 cannot hold has a ledger, and no break-even
// value is looked for: 100 × 11^199 × 11^200 in its last year.
func TestNoTieAmongCostsBeyondFloat(t *testing.T) {
	b := newStudy(200, "0.03")
	y := b.system("roof", "300", func(y *System) {
		y.Annual = []Item{b.growing(b.item("100"), "10").as(Maintenance)}
	})
	b.s.Escalation[Maintenance] = Series{b.in("maintenance", Rate, "10")}
	other := b.system("other", "300", func(y *System) { y.First = []Item{b.item("1000")} })
	b.alternative("roof", y, nil)
	b.alternative("other", other, nil)
	r, err := b.s.Evaluate()
	require.NoError(t, err)
	assert.Greater(t, r.Alternatives[0].LCC.NumDigits(), 400)
	_, err = r.TieSearch()
	assert.ErrorContains(t, err, `"roof" costs over 1 followed by 100 zeros`)
}
