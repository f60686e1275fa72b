package plan

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// manyRoofs makes so many roofs of three works in five years and of doing
// nothing: 16 options each, fewer where the old roof does not last.
func manyRoofs(t require.TestingT, n int) []Roof {
	made := template(t, read(t, exampleText(t)).Study, 5)
	var refs []lcc.Ref
	for _, path := range []string{"roof.area", "roof.quantities.wet_insulation", "systems.existing.life", "systems.existing.annual_costs[1].amount"} {
		refs = append(refs, made.study.Find(path))
	}
	p, err := made.Pricer(refs)
	require.NoError(t, err)
	values, given := make([]decimal.Decimal, len(refs)), []bool{true, true, true, true}
	roofs := make([]Roof, n)
	for i := range roofs {
		for j, v := range []int{5000 + i*7919%55_000, i * 31 % 900, 1 + i%10, 500 + i*7%9500} {
			values[j] = decimal.NewFromInt(int64(v))
		}
		roofs[i], err = p.Roof(values, given, Rules{})
		require.NoError(t, err)
	}
	return roofs
}

// tight limits each year's money to a share of what all roofs want in the plan's
// years, and crews likewise.
func tight(t require.TestingT, roofs []Roof, percent int64) Limits {
	free := choose(t, roofs, 5, Limits{})
	var paid, area int64
	for year := range 5 {
		paid += free.Money[year].Wanted
		area += free.Crews[year].Wanted
	}
	var l Limits
	for range 5 {
		l.Money = append(l.Money, money(paid*percent/100/5)...)
		l.Crews = append(l.Crews, money(area*(percent+10)/100/5)...)
	}
	return l
}

// BenchmarkPlan prices the options of 10,000 roofs on one processor and
// chooses between them: the goal is a few seconds.
func BenchmarkPlan(b *testing.B) {
	limits := tight(b, manyRoofs(b, 10_000), 80)
	b.ReportAllocs()
	for b.Loop() {
		p := choose(b, manyRoofs(b, 10_000), 5, limits)
		gap, ok := p.GapShare()
		require.True(b, ok)
		b.ReportMetric(100*gap, "%gap")
	}
}

// BenchmarkOptions prices the 16 options of 10,000 roofs.
func BenchmarkOptions(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		manyRoofs(b, 10_000)
	}
}
