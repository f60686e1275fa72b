package vary

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// builder makes studies without a file.
type builder struct{ *lcc.Study }

func newBuilder(period int) *builder {
	s := &lcc.Study{Period: period, Inflation: lcc.NoRef}
	s.About = lcc.About{Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	return &builder{s}
}

func (b *builder) fixed(path string, unit lcc.Unit, value string) lcc.Ref {
	return b.Add(lcc.Input{Path: path, Unit: unit, Likely: dec(value)})
}

func (b *builder) three(path string, unit lcc.Unit, low, likely, high string) lcc.Ref {
	return b.Add(lcc.Input{Path: path, Unit: unit, Shape: lcc.Triangular, Low: dec(low), Likely: dec(likely), High: dec(high)})
}

func cost(price, quantity lcc.Ref, c lcc.Category) []lcc.Item {
	return []lcc.Item{{Name: "cost", Category: c, Price: price, Quantity: quantity, Growth: lcc.NoRef}}
}

// roof is a 20,000 ft² roof over 30 years at a real 3 %: keep it, restore it,
// tear it off, or wait 4 years for that. Restoring is the answer.
func roof() *builder {
	b := newBuilder(30)
	b.Rate = b.three("rate", lcc.Rate, "0.01", "0.03", "0.07")
	b.Area = b.fixed("area", lcc.Area, "20000")
	b.Escalation[lcc.Construction] = lcc.Series{b.three("construction", lcc.Rate, "0", "0.01", "0.03")}
	b.Systems = []lcc.System{
		{Key: "existing", InPlace: true, Life: b.three("existing.life", lcc.Years, "3", "5", "8"), Then: 2,
			Annual: cost(b.three("patching", lcc.Money, "6000", "9000", "21000"), lcc.NoRef, lcc.Maintenance)},
		{Key: "restoration", Life: b.three("restoration.life", lcc.Years, "7", "12", "15"), Then: 2,
			First: cost(b.three("restoration.price", lcc.Price, "3.9", "4.8", "9.6"), b.Area, lcc.Construction)},
		{Key: "tear_off", Life: b.fixed("tear_off.life", lcc.Years, "22"), Then: 2,
			First: cost(b.fixed("tear_off.price", lcc.Price, "12.5"), b.Area, lcc.Construction)},
	}
	b.Alternatives = []lcc.Alternative{
		{Name: "Keep", Start: 0, BaseCase: true}, {Name: "Restore", Start: 1}, {Name: "Tear off", Start: 2},
		{Name: "Wait", Start: 2, Wait: &lcc.Wait{On: 0, Years: 4}},
	}
	return b
}

func (b *builder) evaluate(t *testing.T) *lcc.Result {
	t.Helper()
	r, err := b.Evaluate()
	require.NoError(t, err)
	return r
}

// at evaluates with some inputs at other values.
func (b *builder) at(values map[lcc.Ref]decimal.Decimal) (*lcc.Result, error) {
	v := b.Likely()
	for in, x := range values {
		v[in] = x
	}
	return b.EvaluateAt(v)
}

// samePoint compares a point with an evaluation of the study at it.
func samePoint(t *testing.T, b *builder, p Point, values map[lcc.Ref]decimal.Decimal) {
	t.Helper()
	r, err := b.at(values)
	if err != nil {
		assert.Equal(t, err.Error(), p.Problem)
		assert.Equal(t, -1, p.Lowest)
		assert.Empty(t, p.LCC)
		return
	}
	assert.Empty(t, p.Problem)
	require.Len(t, p.LCC, len(r.Alternatives))
	for i := range r.Alternatives {
		assert.Equal(t, r.Alternatives[i].LCC.StringFixed(2), p.LCC[i].StringFixed(2), "%s at %v", b.Alternatives[i].Name, values)
	}
	assert.Equal(t, r.Answer.Lowest, p.Lowest, "at %v", values)
}
