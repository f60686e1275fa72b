package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// drawnOf is a simulation of asked with a chance for the chosen alternative.
func drawnOf(chosen, rival int, cheapest float64) *risk.Result {
	r := &risk.Result{Trials: 100_000, Seed: 7, Chosen: chosen, Rival: rival, Alternatives: make([]risk.Spread, 3),
		Influences: []risk.Influence{{Ref: rateIn, Costs: make([]float64, 3)}}}
	for i := range r.Alternatives {
		r.Alternatives[i].Mean = 100_000
	}
	if chosen >= 0 {
		r.Alternatives[chosen].Cheapest = cheapest
	}
	return r
}

const drawnLead = "Every input that has a range was drawn from it, together, 100,000 times (seed 7); in each such future all alternatives were computed. Each installation of a roof draws a service life of its own."

// Each of these was read aloud.
func TestRiskLeads(t *testing.T) {
	for _, c := range []struct {
		name     string
		cheapest float64
		want     string
	}{
		{"likely", 0.8765, "87.7%"}, {"half", 0.5, "50%"}, {"one in three", 1.0 / 3, "33.3%"},
		{"certain", 1, "100%"}, {"nearly certain", 0.99999, "more than 99.9%"}, {"almost", 0.9994, "99.9%"},
		{"tiny", 0.00001, "less than 0.1%"}, {"a thousandth", 0.001, "0.1%"}, {"never", 0, "0%"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, drawnLead+" “Restore” costs least on average, and is the cheapest in "+c.want+" of these futures.",
				asked(t).riskLead(drawnOf(restoreIt, keepIt, c.cheapest)))
		})
	}
}

// 99.95 % is not written as 100 %, nor 0.04 % as 0 %.
func TestChancesAreNoughtOrWholeOnlyWhereTheyAre(t *testing.T) {
	for p := 0.0; p <= 1; p += 1.0 / 8192 {
		told := chance(p)
		assert.Equal(t, p == 0, told == "0%", "%v", p)
		assert.Equal(t, p == 1, told == "100%", "%v", p)
	}
}

// The table of chances keeps to that too.
func TestTheTableOfChancesIsNoughtOnlyWhereItIs(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 0.999999)
	r.Alternatives[keepIt].Cheapest = 0.000001
	for _, b := range asked(t).chanceBlocks(r) {
		if table, ok := b.(Table); ok {
			assert.NotEqual(t, "100%", table.Rows[restoreIt].Cells[6].Show(Currency{"USD", 2}), "it is the cheapest in 99.9999%%")
			assert.NotEqual(t, "0%", table.Rows[keepIt].Cells[6].Show(Currency{"USD", 2}), "it is the cheapest in 0.0001%%")
			assert.Equal(t, "0%", table.Rows[tearItOff].Cells[6].Show(Currency{"USD", 2}))
		}
	}
}

func TestRiskLeadWhereAnotherIsChosen(t *testing.T) {
	assert.Equal(t, drawnLead+" “Keep” costs least on average, and is the cheapest in 55% of these futures. That differs from the plain study, whose likely values favour “Restore”: the ranges lean to one side, and this deserves a look.",
		asked(t).riskLead(drawnOf(keepIt, restoreIt, 0.55)))
}

// The one of least mean cost need not be the one that is cheapest most often.
func TestRiskLeadWhereTheChosenIsSeldomTheCheapest(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 0.3)
	r.Alternatives[keepIt].Cheapest = 0.7
	told := asked(t).riskLead(r)
	assert.Contains(t, told, "“Keep”", "it is the cheapest in 70%% of the futures: %s", told)
}

func TestRiskLeadWithoutAnyEligible(t *testing.T) {
	none := tell(studyOf(t, 3, choice{name: "Keep", yearly: 10, ruledOut: "deck unsound"}))
	assert.Equal(t, drawnLead+" No alternative is eligible, so none is named the cheapest.", none.riskLead(drawnOf(-1, -1, 0)))
}

// With one alternative there is nothing to be cheaper than.
func TestRiskLeadOfOneAlternative(t *testing.T) {
	one := tell(studyOf(t, 3, choice{name: "Keep", yearly: 10}))
	r := drawnOf(0, -1, 1)
	r.Alternatives = r.Alternatives[:1]
	told := one.riskLead(r)
	assert.NotContains(t, told, "cheapest in 100%", "there is no other alternative: %s", told)
}

func TestRiskLeadOfOneTrial(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 1)
	r.Trials = 1
	assert.NotContains(t, asked(t).riskLead(r), "1 times")
}

func TestRiskSectionWithoutRanges(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 1)
	r.Influences = nil
	assert.Equal(t, []string{"No input of the study has a range or a distribution, so nothing can be said about how sure the answer is. Give low and high values to what is not certain."},
		paragraphs(asked(t).riskSection(r).Blocks))
}

func TestKnowingTexts(t *testing.T) {
	for _, c := range []struct {
		name      string
		all, best float64
		of        lcc.Ref
		want      string
	}{
		{"nothing to learn", 0, 0, rateIn,
			"Knowing every uncertain input before choosing would be worth $0 on average: next to nothing, since the choice would hardly ever change. More surveys and tests before deciding would not pay, as far as costs go."},
		{"noise", 9.9, 9.9, rateIn,
			"Knowing every uncertain input before choosing would be worth $10 on average: next to nothing, since the choice would hardly ever change. More surveys and tests before deciding would not pay, as far as costs go."},
		{"together only", 2500, 3, rateIn,
			"Knowing every uncertain input before choosing would be worth $2,500 on average: no survey or test can be worth more than that. No single input changes the choice, so knowing one alone is worth next to nothing."},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := drawnOf(restoreIt, keepIt, 0.5)
			r.KnowingAll = c.all
			assert.Equal(t, c.want, asked(t).knowingText(r, risk.Influence{Ref: c.of, Knowing: c.best}))
		})
	}
}

// The worth is set off from the name of what is worth it.
func TestKnowingTextOfTheMostValuable(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 0.5)
	r.KnowingAll = 2500
	const start = "Knowing every uncertain input before choosing would be worth $2,500 on average: no survey or test can be worth more than that. The most valuable to know alone is "
	for in, bad := range map[lcc.Ref]string{rateIn: "the discount rate $1,200", restoreLife: "“Coating”, service life, $1,200"} {
		told := asked(t).knowingText(r, risk.Influence{Ref: in, Knowing: 1200})
		assert.Contains(t, told, start)
		assert.Contains(t, told, "$1,200")
		assert.NotContains(t, told, bad, "a worth needs a verb or a colon")
	}
}

// A cost that is a gain on average is no reason to call every worth noise, or
// none.
func TestKnowingTextOfAGain(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 0.5)
	r.Alternatives[restoreIt].Mean = -100_000
	assert.Contains(t, asked(t).knowingText(r, risk.Influence{Ref: rateIn}), "next to nothing", "nothing can be learned")
}

// 1,999 of 2,000 futures are not all of them.
func TestAChanceOfAllButOneInTwoThousand(t *testing.T) {
	assert.NotEqual(t, "100%", chance(1999.0/2000))
	assert.NotEqual(t, "0%", chance(1.0/2000))
}
