package report

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/risk"
)

// Two small unit prices that differ are shown as two.
func TestSmallPricesTellThemselvesApart(t *testing.T) {
	for code, cases := range map[string]map[string]string{
		"USD": {"4.3": "$4.30", "15.6412": "$15.64", "1": "$1.00", "0.6": "$0.60", "0.0149": "$0.0149", "0.013174": "$0.0132", "0.00042": "$0.00042", "0.000423456": "$0.000423", "0": "$0.00", "-0.0131": "-$0.0131"},
		"JPY": {"1300": "¥1,300", "100.4": "¥100", "1.3": "¥1.3", "1.3174": "¥1.32", "0.0042": "¥0.0042"},
		"KWD": {"1.3174": "KWD 1.317", "0.013174": "KWD 0.01317"},
	} {
		x := &teller{cur: Currency{Code: code, Digits: map[string]int32{"USD": 2, "KWD": 3}[code]}}
		for v, want := range cases {
			assert.Equal(t, want, x.price(decimal.RequireFromString(v)), "%s of %s", v, code)
		}
	}
}

// What one more unit of a limit saves is often a share of the currency's unit.
func TestWorthOfALimitInACurrencyWithoutCents(t *testing.T) {
	for digits, want := range map[int32]string{0: "0.38", 2: "0.38", 3: "0.381"} {
		x := &roofsTeller{cur: Currency{Digits: digits}}
		assert.Equal(t, want, x.worthCell(decimal.RequireFromString("0.3812")).Show(x.cur))
	}
}

// Notes have marks of their own, however many there are.
func TestNoteMarks(t *testing.T) {
	seen := map[string]bool{}
	for i := range 1000 {
		seen[NoteMark(i)] = true
	}
	assert.Len(t, seen, 1000)
	assert.Equal(t, []string{"a", "z", "aa", "az", "ba", "zz", "aaa"},
		[]string{NoteMark(0), NoteMark(25), NoteMark(26), NoteMark(51), NoteMark(52), NoteMark(701), NoteMark(702)})
}

// An existing roof that is recoated is worked on, and lasts past its first life.
func TestAnExistingRoofThatIsRecoated(t *testing.T) {
	x := storyStudy(t, 0, nil)
	s := x.study
	s.Systems[0].Recoat = &lcc.Recoating{AtMost: 2, Life: s.Systems[0].Life, Costs: s.Systems[1].First}
	r, err := s.Evaluate()
	require.NoError(t, err)
	x = tell(Study{Result: r})
	assert.Equal(t, "“Keep”: what is there now stays, recoated in years 4 (2030) and 8 (2034). At the end of the study the roof was last recoated 2 years before.", x.story(0))
	require.Equal(t, 0, x.Answer.Lowest)
	assert.NotContains(t, x.answerSentences(), "On these figures, no work on the roof pays for itself yet.")
	assert.Contains(t, x.nextSteps(), "Keep up inspections and repairs, and look at this comparison again well before year 4 (2030), when the roof is to be recoated.")
}

// Where more than two tie, the advice names them all, the lowest first.
func TestTiesOfThree(t *testing.T) {
	three := func(second, third int64) string {
		return tell(studyOf(t, 3, choice{name: "A", work: lcc.WorkTearOff, first: 100_000}, choice{name: "B", work: lcc.WorkTearOff, first: second},
			choice{name: "C", work: lcc.WorkTearOff, first: third})).nextSteps()[0]
	}
	assert.Contains(t, three(100_000, 100_000), "decide between “A”, “B” and “C”: ")
	assert.Contains(t, three(101_960, 101_970), "decide between “A”, “B” and “C”: ")
	assert.Contains(t, three(101_960, 102_000), "decide between “A” and “B”: ")
	assert.Contains(t, three(99_000, 102_000), "decide between “B” and “A”: ")
}

// Of a choice that does not exist nothing is told.
func TestRiskLinesWithoutALowest(t *testing.T) {
	in := sureRoofs(t, -1)
	total := risk.RoofsTotal{Roofs: 1}
	r := &risk.RoofsResult{Trials: 2000, Alternatives: []risk.RoofsTotal{total, total}, Choices: make([]risk.RoofsTotal, 1)}
	assert.Len(t, in.Roofs.RiskLines(r), 3)
	r.Choices[0].Roofs = 1
	assert.Len(t, in.Roofs.RiskLines(r), 4)
}

// One of a kind is spoken of as one.
func TestOneOfAKind(t *testing.T) {
	x := tellRoofs(onlyRoofs(t, []choice{patch, coat}, 100))
	assert.True(t, strings.HasSuffix(x.lowestSentence(), ". It is the base case."), x.lowestSentence())
	assert.Equal(t, "1 gallon", amountOf(num("1.04"), "gal")[len("about "):])
	assert.Equal(t, "is", isBought(num("1.04")))
	y := tell(studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10}))
	for i := range y.study.Inputs[1:] {
		y.study.Inputs[i+1].Source = "memo"
	}
	assert.Equal(t, "Where one of its "+Plural(len(y.study.Inputs), "input")+" comes from: it has no source.", y.unknowns()[0])
}

// A nominal study says what it does to the cost before it prorates it.
func TestResidualTextOfANominalStudy(t *testing.T) {
	s := studyOf(t, 3, choice{name: "A", work: lcc.WorkTearOff, first: 100}).Result.Study
	s.Systems[0].Residual.Mode = lcc.Prorated
	assert.NotContains(t, residualText(s), "inflation")
	s.Basis = lcc.Nominal
	assert.Contains(t, residualText(s), "times the construction cost paid for it; in a nominal study that cost is first restated, by general inflation, in money of the last year")
}

// A chance of a few futures is not spoken of as known.
func TestFewFutures(t *testing.T) {
	r := drawnOf(restoreIt, keepIt, 1)
	r.Trials = 1
	assert.Contains(t, asked(t).riskLead(r), "together, once (seed 7); in each such future all alternatives were computed. Each installation of a roof draws a service life of its own. So few futures tell little about a chance.")
	assert.Equal(t, "1 future is too little to tell what it would be worth to know more before choosing: draw at least 1,000.", asked(t).knowingText(r, r.Influences[0]))
	r.Trials = 999
	assert.Equal(t, "999 futures are too few to tell what it would be worth to know more before choosing: draw at least 1,000.", asked(t).knowingText(r, r.Influences[0]))
	r.Trials = fewTrials
	assert.NotContains(t, asked(t).riskLead(r), "So few")
	assert.NotContains(t, asked(t).knowingText(r, r.Influences[0]), "too few")
}
