package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// waiting is the alternative of the example that is put off by the study itself.
const waiting = "  - {name: Restore, start: restoration}\n  - {name: Restore in three years, start: restoration, wait: {on: existing, years: 3}}"

func TestTemplateStarts(t *testing.T) {
	f := read(t, exampleText(t, "  - {name: Restore, start: restoration}", waiting))
	made := template(t, f.Study, 3)
	assert.Equal(t, []Start{
		{0, NoWork, true},
		{1, 0, true}, {1, 1, false}, {1, 2, false},
		{2, 3, true}, // has a wait of its own: not put off further
		{3, 0, true}, {3, 1, false}, {3, 2, false},
		{4, 0, true}, {4, 1, false}, {4, 2, false},
	}, made.starts)
	assert.Len(t, f.Study.Alternatives, 5, "the study is as it was")
	one := template(t, f.Study, 1)
	assert.Len(t, one.starts, 5)
}

func TestTemplateKeepsVerdicts(t *testing.T) {
	f := read(t, exampleText(t, "{name: Restore, start: restoration}", `{name: Restore, start: restoration, ruled_out: {rule: "two roofs at most", finding: "there are two"}}`))
	for i, start := range template(t, f.Study, 4).starts {
		assert.Equal(t, start.Alternative != 1, template(t, f.Study, 4).wide.Alternatives[i].Eligible())
	}
	roof := table(t, template(t, f.Study, 4), []row{{}})[0]
	ruledOut := 0
	for _, o := range roof.Options {
		if o.Bar == RuledOut {
			ruledOut++
			assert.Equal(t, 1, o.Alternative)
		}
	}
	assert.Equal(t, 4, ruledOut)
}

func TestTemplateRefuses(t *testing.T) {
	sound := read(t, exampleText(t)).Study
	for text, years := range map[string]int{
		"a plan of 0 years is outside 1 to 30, the study period":  0,
		"a plan of 31 years is outside 1 to 30, the study period": 31,
	} {
		_, err := NewTemplate(sound, years)
		assert.EqualError(t, err, text)
	}
	_, err := NewTemplate(sound, 30)
	require.NoError(t, err)
	_, err = NewTemplate(read(t, exampleText(t, ", base_case: true", "")).Study, 3)
	assert.EqualError(t, err, "the study has no base case, which a plan needs: it says what a roof costs while it waits")
	_, err = NewTemplate(read(t, exampleText(t, ", base_case: true", "", "start: tear_off}", "start: tear_off, base_case: true}")).Study, 3)
	assert.EqualError(t, err, `the base case "Tear off and replace" does not start with a roof that is in place, which a plan needs: other works wait on it`)
}

func TestTemplatesAgree(t *testing.T) {
	made := template(t, read(t, exampleText(t)).Study, 3)
	assert.NoError(t, made.Agree(template(t, read(t, exampleText(t, "at_most: 1", "at_most: 2")).Study, 3)))
	for what, other := range map[string]*Template{
		"currency, USD and EUR":                template(t, read(t, exampleText(t, "currency: USD", "currency: EUR")).Study, 3),
		"base date, 2027-01-01 and 2028-01-01": template(t, read(t, exampleText(t, "2027-01-01", "2028-01-01")).Study, 3),
		"basis of rates, real and nominal":     template(t, read(t, exampleText(t, "rate_basis: real", "rate_basis: nominal")).Study, 3),
		"years of the plan, 3 and 4":           template(t, read(t, exampleText(t)).Study, 4),
	} {
		assert.ErrorContains(t, made.Agree(other), "differ in "+what+"; a plan needs one")
	}
}

func TestRulesRefuse(t *testing.T) {
	p, err := template(t, read(t, exampleText(t)).Study, 3).Pricer(nil)
	require.NoError(t, err)
	for text, rules := range map[string]Rules{
		"a work must be done by year 3, outside 0 to 2, the years of the plan": {MustDo: Just(3)},
		"no work may start before year -1, expected 0 or more":                 {NotBefore: -1},
		"there is no alternative 4 to be the only one":                         {Only: Just(4)},
	} {
		_, err := p.Roof(nil, nil, rules)
		assert.EqualError(t, err, text)
	}
}

func TestRulesBar(t *testing.T) {
	made := template(t, read(t, exampleText(t)).Study, 4)
	for _, c := range []struct {
		rules Rules
		free  func(Start) bool
	}{
		{Rules{}, func(Start) bool { return true }},
		{Rules{MustDo: Just(0)}, func(s Start) bool { return s.Year == 0 }},
		{Rules{MustDo: Just(2)}, func(s Start) bool { return s.Year >= 0 && s.Year <= 2 }},
		{Rules{NotBefore: 2}, func(s Start) bool { return s.Year == NoWork || s.Year >= 2 }},
		{Rules{NotBefore: 9}, func(s Start) bool { return s.Year == NoWork }},
		{Rules{Only: Just(0)}, func(s Start) bool { return s.Alternative == 0 }},
		{Rules{Only: Just(2), NotBefore: 1, MustDo: Just(1)}, func(s Start) bool { return s.Alternative == 2 && s.Year == 1 }},
		{Rules{NotBefore: 3, MustDo: Just(2)}, func(Start) bool { return false }},
	} {
		roof := table(t, made, []row{{}}, c.rules)[0]
		require.Len(t, roof.Options, 1+3*4)
		for _, o := range roof.Options {
			assert.Equal(t, c.free(o.Start), o.Bar == Free, "%+v: %+v", c.rules, o)
		}
		assert.Equal(t, table(t, made, []row{{}})[0].Stated, roof.Stated, "what the study states is whatever the rules")
	}
}
