package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// choice is an alternative of a study made for a sentence: a first cost, and
// a cost in every one of the ten years.
type choice struct {
	name          string
	work          lcc.Work
	first, yearly int64
	ruledOut      string
}

// studyOf makes a ten-year study without escalation, at a discount rate in
// per cent. The first choice is the base case.
func studyOf(t *testing.T, percent int64, choices ...choice) Study {
	t.Helper()
	s := &lcc.Study{Period: 10, Inflation: lcc.NoRef}
	s.About = lcc.About{Title: "A roof", BaseDate: "2026-01-01", Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	add := func(unit lcc.Unit, v decimal.Decimal) lcc.Ref { return s.Add(lcc.Input{Unit: unit, Likely: v}) }
	s.Rate = add(lcc.Rate, decimal.New(percent, -2))
	s.Area = add(lcc.Area, decimal.NewFromInt(1000))
	item := func(amount int64, c lcc.Category) []lcc.Item {
		if amount == 0 {
			return nil
		}
		return []lcc.Item{{Name: "cost", Category: c, Price: add(lcc.Money, decimal.NewFromInt(amount)), Quantity: lcc.NoRef, Growth: lcc.NoRef}}
	}
	for i, c := range choices {
		s.Systems = append(s.Systems, lcc.System{
			Key: c.name, Name: c.name, Work: c.work, InPlace: c.work == lcc.WorkExisting, Then: i,
			Life:  add(lcc.Years, decimal.NewFromInt(10)),
			First: item(c.first, lcc.Construction), Annual: item(c.yearly, lcc.Maintenance),
			Residual: lcc.Residual{Mode: lcc.NoResidual},
		})
		a := lcc.Alternative{Name: c.name, Start: i, BaseCase: i == 0}
		if c.ruledOut != "" {
			a.RuledOut = &lcc.Ruling{Rule: "a rule", Finding: c.ruledOut}
		}
		s.Alternatives = append(s.Alternatives, a)
	}
	r, err := s.Evaluate()
	require.NoError(t, err)
	return Study{Result: r}
}

// Each of these was read aloud.
func TestAnswerSentences(t *testing.T) {
	keep := choice{name: "Keep", work: lcc.WorkExisting, yearly: 10_000}
	tearOff := choice{name: "Tear off", work: lcc.WorkTearOff, first: 150_000}
	for _, c := range []struct {
		name    string
		percent int64
		choices []choice
		want    string
	}{
		{"restoring wins", 3, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 40_000, yearly: 1000}, tearOff},
			"“Restore” has the lowest life-cycle cost, $48,530.20 over 10 years at a real discount rate of 3%: $36,771.84 less than the next best, “Keep” (43.1%), and $101,469.80 less than “Tear off” (67.6%). It stays the lowest at every discount rate from 0% to 12%."},
		{"restoring loses", 3, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 80_000, yearly: 5000}, {name: "Tear off", work: lcc.WorkTearOff, first: 70_000}},
			"“Tear off” has the lowest life-cycle cost, $70,000.00 over 10 years at a real discount rate of 3%: $15,302.04 less than the next best, “Keep” (17.9%), and $52,651.02 less than “Restore” (42.9%). It stays the lowest at every discount rate from 0% up to 7.07%; above that, “Keep” is cheaper."},
		{"nothing pays yet", 8, []choice{{name: "Keep", work: lcc.WorkExisting, yearly: 100}, tearOff},
			"“Keep” has the lowest life-cycle cost, $671.00 over 10 years at a real discount rate of 8%: $149,329.00 less than the next best, “Tear off” (99.6%). On these figures, no work on the roof pays for itself yet. “Keep” stays the lowest at every discount rate from 0% to 12%."},
		{"the answer needs a high rate", 9, []choice{keep, {name: "Tear off", work: lcc.WorkTearOff, first: 70_000}},
			"“Keep” has the lowest life-cycle cost, $64,176.56 over 10 years at a real discount rate of 9%: $5,823.44 less than the next best, “Tear off” (8.3%). On these figures, no work on the roof pays for itself yet. “Keep” stays the lowest at every discount rate from 7.07% up to 12%, the highest looked at; below 7.07%, “Tear off” is cheaper."},
		{"a tie for practical purposes", 3, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 84_000}, tearOff},
			"For practical purposes “Restore” and “Keep” tie: “Restore” has the lowest life-cycle cost, $84,000.00 over 10 years at a real discount rate of 3%, but only $1,302.04 (1.5%) less than the other, closer than the estimates behind it; “Tear off” costs $66,000.00 more. “Restore” stays the lowest at every discount rate from 0% up to 3.3%; above that, “Keep” is cheaper."},
		{"a tie to the cent", 0, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 100_000}},
			"“Keep” and “Restore” tie to the last digit: each has a life-cycle cost of $100,000.00 over 10 years at a real discount rate of 0%. “Keep” stays the lowest at every discount rate from 0% to 12%."},
		{"one alternative", 3, []choice{keep},
			"“Keep” is the only alternative of this study: it costs $85,302.04 over 10 years at a real discount rate of 3%. There is nothing to compare it with."},
		{"one eligible, and a cheaper one ruled out", 3, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: 40_000, ruledOut: "deck unsound"}},
			"“Keep” is the only alternative that is not ruled out: it costs $85,302.04 over 10 years at a real discount rate of 3%. There is nothing to compare it with. “Restore” would cost $45,302.04 less, but is ruled out: deck unsound (a rule)."},
		{"none eligible", 3, []choice{{name: "Keep", work: lcc.WorkExisting, yearly: 1, ruledOut: "deck unsound"}},
			"No alternative of this study is eligible: each one is ruled out, so there is no answer to give. The figures are shown for information only."},
		{"costs of nothing", 3, []choice{{name: "Keep", work: lcc.WorkExisting}, tearOff},
			"“Keep” has the lowest life-cycle cost, $0.00 over 10 years at a real discount rate of 3%: $150,000.00 less than the next best, “Tear off” (100%). On these figures, no work on the roof pays for itself yet. “Keep” stays the lowest at every discount rate from 0% to 12%."},
		{"a gain", 3, []choice{keep, {name: "Restore", work: lcc.WorkRestore, first: -500}, {name: "Tear off", work: lcc.WorkTearOff, first: -200}},
			"“Restore” has the lowest life-cycle cost, -$500.00 over 10 years at a real discount rate of 3%: $300.00 less than the next best, “Tear off”. It stays the lowest at every discount rate from 0% to 12%."},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, AnswerText(studyOf(t, c.percent, c.choices...)))
		})
	}
}

func TestQuestionNamesTheWorkInQuestion(t *testing.T) {
	ask := func(works ...lcc.Work) string {
		var choices []choice
		for _, w := range works {
			choices = append(choices, choice{name: string(rune('A' + len(choices))), work: w, first: 1})
		}
		return tell(studyOf(t, 3, choices...)).question()
	}
	assert.Equal(t, "What costs the owner least: keep the roof as it is, restore it, roof over it or tear it off?",
		ask(lcc.WorkTearOff, lcc.WorkRecover, lcc.WorkRestore, lcc.WorkExisting))
	assert.Equal(t, "What costs the owner least: restore the roof or tear it off?", ask(lcc.WorkRestore, lcc.WorkTearOff))
	assert.Equal(t, "Which choice for this roof costs the owner least?", ask(lcc.WorkRestore, lcc.WorkOther))
}

func TestCrossingsOfCumulatedCosts(t *testing.T) {
	at := func(values ...int64) []decimal.Decimal {
		out := make([]decimal.Decimal, len(values))
		for i, v := range values {
			out[i] = decimal.NewFromInt(v)
		}
		return out
	}
	flat := at(5, 5, 5, 5, 5)
	assert.Equal(t, []int{2}, crossings(at(9, 6, 4, 4, 4), flat))
	assert.Equal(t, []int{1, 3}, crossings(at(9, 1, 1, 6, 6), flat))
	assert.Equal(t, []int{3}, crossings(at(9, 5, 5, 4, 4), flat), "a stretch of ties is passed through")
	assert.Empty(t, crossings(at(9, 5, 9, 5, 9), flat), "a touch is no crossing")
	assert.Empty(t, crossings(flat, flat))
}

func TestNumbersAsPeopleWriteThem(t *testing.T) {
	d := decimal.RequireFromString
	usd, yen := Currency{"USD", 2}, Currency{"JPY", 0}
	assert.Equal(t, "$1,234,567.90", usd.Amount(d("1234567.9")))
	assert.Equal(t, "1,234,567.90", usd.Plain(d("1234567.9")))
	assert.Equal(t, "-0.05", usd.Plain(d("-0.05")))
	assert.Equal(t, "¥1,234", yen.Amount(d("1234")))
	assert.Equal(t, "3%", Percent(d("0.03"), 4))
	assert.Equal(t, "8.41%", Percent(d("0.0841"), 2))
	assert.Equal(t, "-0.25%", Percent(d("-0.0025"), 2))
	assert.Equal(t, "1,604.17", trimmed(d("1604.170"), 6))
	assert.Equal(t, "$0.125", trimmedMoney(usd, d("0.125")))
	assert.Equal(t, "$9,500.00", trimmedMoney(usd, d("9500")))
	assert.Equal(t, "1 year", Plural(1, "year"))
	assert.Equal(t, "1,000 years", Plural(1000, "year"))
	assert.Equal(t, "a, b and c", listed([]string{"a", "b", "c"}))
}
