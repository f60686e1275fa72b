package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// halvesSurviveFactors says whether a line that is worth exactly half a minor
// unit is rounded away from zero even where a factor on the way to it is no
// finite decimal. With true the comparison with the oracle is strict; with
// false it lets such a line be one unit nearer to zero.
const halvesSurviveFactors = true

// A half cent is rounded away from zero, for costs and for credits.
func TestHalfCentGoesAwayFromZero(t *testing.T) {
	for _, c := range []struct{ amount, want string }{
		{"10.125", "10.13"}, {"-10.125", "-10.13"}, {"10.1249999999999999999999", "10.12"},
		{"0.005", "0.01"}, {"-0.005", "-0.01"}, {"0.0049999999999999999", "0"},
	} {
		b := newStudy(5, "0")
		y := b.system("roof", "9", func(y *System) { y.First = []Item{b.item(c.amount).as(Fees)} })
		b.alternative("roof", y, nil)
		line := b.evaluate().Alternatives[0].Ledger[0]
		assert.Equal(t, c.want, line.Base.String())
		assert.Equal(t, c.want, line.Amount.String())
		assert.Equal(t, c.want, line.PV.String())
	}
}

// oncePaid is the present value of one cost in the year of the only
// replacement, disposal escalating at the discount rate.
func oncePaid(year, amount, discount, escalation string) Line {
	b := newStudy(60, discount).escalate(Disposal, escalation)
	y := b.system("roof", year, func(y *System) {
		y.InPlace = true
		y.Removal = []Item{b.item(amount).as(Disposal)}
	})
	b.alternative("roof", y, nil)
	return b.evaluate().Alternatives[0].Ledger[0]
}

// A cost that escalates at the discount rate is worth its base-date price: 10.125,
// and so 10.13. The discount factor of 3 % is no finite decimal, and its
// product with the escalation factor is not quite 1.
func TestHalfCentSurvivesEscalationAtTheDiscountRate(t *testing.T) {
	for _, year := range []string{"1", "2", "3", "7", "20", "31"} {
		assert.Equal(t, "10.13", oncePaid(year, "10.125", "0.03", "0.03").PV.String(), "in year %s", year)
	}
}

// 10.125 × 1.03^t in year t at 3 % is worth 10.125, and so 10.13.
func TestHalfCentSurvivesDiscounting(t *testing.T) {
	for year, amount := range map[string]string{
		"1": "10.42875", "2": "10.7416125", "3": "11.063860875", "4": "11.39577670125", "5": "11.7376500022875",
	} {
		assert.Equal(t, "10.13", oncePaid(year, amount, "0.03", "0").PV.String(), "in year %s", year)
	}
}

// Four of twelve years are left of 30,000.015 paid: 10,000.005, and so 10,000.01.
func TestHalfCentSurvivesTheUnusedShareOfALife(t *testing.T) {
	b := newStudy(8, "0")
	y := b.system("roof", "12", func(y *System) { y.First = []Item{b.item("30000.015")} })
	b.alternative("roof", y, nil)
	a := b.evaluate().Alternatives[0]
	credit := a.Ledger[len(a.Ledger)-1]
	assert.Equal(t, ResidualValue, credit.Kind)
	assert.Equal(t, "-10000.01", credit.Base.String())
	assert.Equal(t, "-10000.01", credit.Amount.String())
	assert.Equal(t, "-10000.01", credit.PV.String())
}
