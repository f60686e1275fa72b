package scenarios

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// wholeFiles are the examples and all good files.
func wholeFiles(t *testing.T) map[string]*File {
	t.Helper()
	out := map[string]*File{}
	for _, name := range ExampleNames() {
		src, _ := Example(name)
		out[name], _ = Read(src)
	}
	paths, err := filepath.Glob("../testdata/scenarios/good/*.yaml")
	require.NoError(t, err)
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		out[path], _ = Read(Source{Name: path, Text: text})
	}
	require.Greater(t, len(out), 8)
	return out
}

// A file that is written again with nothing changed is the same study.
func TestOwnFileIsTheSameStudy(t *testing.T) {
	for name, f := range wholeFiles(t) {
		require.NotNil(t, f, name)
		text, err := f.Own(f.Study.About.Title, nil, nil)
		require.NoError(t, err, name)
		again, diagnostics := Read(Source{Name: name, Text: text})
		require.NotNil(t, again, "%s: %s\n%s", name, told(diagnostics), text)
		assert.Equal(t, f.Study, again.Study, name)
		assert.Equal(t, f.TakeOff, again.TakeOff, name)
		twice, err := again.Own(f.Study.About.Title, nil, nil)
		require.NoError(t, err)
		assert.Equal(t, string(text), string(twice), name)
	}
}

// What a file says of one input is changed, and its title; nothing else is.
func TestOwnFileHasTheNumbersOfItsRoof(t *testing.T) {
	for name, f := range wholeFiles(t) {
		tried := 0
		for i := range f.Study.Inputs {
			in := lcc.Ref(i)
			if f.Settable(in) != nil || f.Weighed(in) {
				continue
			}
			tried++
			want := f.Study.Inputs[i].Likely.Mul(decimal.New(101, -2))
			text, err := f.Own(`“9”: a # b, {c}`, map[lcc.Ref]decimal.Decimal{in: want}, nil)
			require.NoError(t, err)
			again, diagnostics := Read(Source{Name: name, Text: text})
			require.NotNil(t, again, "%s: %s", name, told(diagnostics))
			assert.Equal(t, `“9”: a # b, {c}`, again.Study.About.Title)
			assert.True(t, again.Study.Inputs[i].Likely.Equal(want), f.Study.Inputs[i].Path)
		}
		assert.Positive(t, tried, name)
	}
	src, _ := Example(PortfolioExample)
	f, _ := Read(src)
	text, err := f.Own("a", nil, nil)
	require.NoError(t, err)
	assert.NotContains(t, string(text), "portfolio:", "what it says of tables is no matter of one roof")
}

// Where a roof states what other estimates move with, it is certain, so that
// they are drawn alone: the file of the roof is sound, and they are what they
// were but for the link. Links between others stay.
func TestWhatARoofStatesMovesNothing(t *testing.T) {
	const file = `roofyears: 1
study:
  {title: T, base_date: 2026-01-01, period: 10, currency: USD, rate_basis: real, discount_rate: 3%, escalation: {construction: {low: 0%, likely: 1%, high: 3%}}}
roof: {area: 1000 ft2}
survey: {date: 2025-05-01, wet: {area: 100 ft2, found_by: infrared}}
systems:
  a:
    name: A
    life: 12
    first_costs:
      - {item: Work, unit_price: {low: 3, likely: 4, high: 6, moves_with: study.escalation.construction, rank_correlation: 0.6, source: offer}, per: area}
      - {item: Fee, amount: {low: 1, likely: 2, high: 3, moves_with: "systems.a.first_costs[1].unit_price", rank_correlation: 0.5}}
  b: {name: B, life: 30, first_costs: [{item: All, amount: 9000}]}
alternatives: [{name: A, start: a, base_case: true}, {name: B, start: b}]
`
	f, told := Read(Source{Name: "t.yaml", Text: []byte(file)})
	require.NotNil(t, f, "%v", told)
	moved, price, fee := f.Study.Find("study.escalation.construction"), f.Study.Find("systems.a.first_costs[1].unit_price"), f.Study.Find("systems.a.first_costs[2].amount")
	require.NotNil(t, f.Study.Inputs[price].Moves)
	two := decimal.New(2, -2)
	values := map[lcc.Ref]decimal.Decimal{moved: two, f.Study.Find("survey.wet.area"): decimal.NewFromInt(50)}
	text, err := f.Own("T", values, nil)
	require.NoError(t, err)
	own, told := Read(Source{Name: "own.yaml", Text: text})
	require.NotNil(t, own, "%v\n%s", told, text)
	again, told := f.With(values, nil)
	require.NotNil(t, again, "%v", told)
	for _, g := range []*File{own, again} {
		want := f.Study.Inputs[price]
		want.Moves = nil
		assert.Equal(t, want, g.Study.Inputs[price])
		assert.Equal(t, f.Study.Inputs[fee], g.Study.Inputs[fee])
		assert.Equal(t, lcc.Fixed, g.Study.Inputs[moved].Shape)
		assert.True(t, g.Study.Inputs[moved].Likely.Equal(two))
	}
	assert.NotNil(t, f.Study.Inputs[price].Moves, "the template stays as it is")
	both, told := f.With(map[lcc.Ref]decimal.Decimal{moved: two, price: decimal.NewFromInt(5)}, nil)
	require.NotNil(t, both, "%v", told)
	assert.Nil(t, both.Study.Inputs[fee].Moves)
}
