package eligibility

import "github.com/shopspring/decimal"

// limit is a figure of a rule in both unit systems, as its source rounds it.
type limit struct{ us, metric decimal.Decimal }

// in gives the figure in a unit system.
func (l limit) in(u Units) decimal.Decimal {
	if u == Metric {
		return l.metric
	}
	return l.us
}

// nothing is zero, as a limit.
var nothing = decimal.Zero
