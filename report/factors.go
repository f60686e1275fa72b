package report

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// factorPlaces is how many decimals printed factors have; handbooks print
// four to six.
const factorPlaces = 6

// Factors is a table of present-value factors for 1 to n years at a discount
// rate d, the escalated one at an escalation e.
func Factors(d, e decimal.Decimal, n int) *Document {
	table := Table{ID: "factors", Caption: "Value at the base date of 1 paid …",
		Columns: []Column{number("Years"), number("Single: once, at the end"), number("Uniform: each year end"),
			number(fmt.Sprintf("Escalated uniform, %s a year", Percent(e, 4))), number("Capital recovery")}}
	factor := func(v decimal.Decimal) Cell { return text(trimmedTo(v, factorPlaces)) }
	for years := 1; years <= n; years++ {
		table.Rows = append(table.Rows, plainRow(year(years),
			factor(lcc.SinglePresentValue(d, years)), factor(lcc.UniformPresentValue(d, years)),
			factor(lcc.EscalatedUniformPresentValue(d, e, years)), factor(lcc.CapitalRecovery(d, years))))
	}
	return &Document{
		Title: fmt.Sprintf("Present-value factors at a discount rate of %s", Percent(d, 4)),
		Sections: []Section{{ID: "factors", Heading: "Factors", Blocks: []Block{
			table,
			List{Items: []string{
				"Single: 1/(1+d)^t.",
				"Uniform: ((1+d)^n − 1)/(d(1+d)^n); n where d is 0.",
				"Escalated uniform: the sum of ((1+e)/(1+d))^t, t = 1 to n: a payment that is 1 at base-date prices and rises from the base date; n where d = e.",
				"Capital recovery: the inverse of the uniform factor, the level payment each year that is worth 1 at the base date.",
			}},
		}}},
	}
}
