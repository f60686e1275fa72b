package risk

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// estimate is an input that is uncertain, with what says so.
type estimate struct {
	shape     lcc.Shape
	low, high string // with a range
	likely    string // mode or mean
	spread    string // standard deviation or Weibull shape
}

func (e estimate) String() string {
	if e.shape.HasRange() {
		return fmt.Sprintf("%s %s to %s at %s", e.shape, e.low, e.high, e.likely)
	}
	return fmt.Sprintf("%s %s, %s", e.shape, e.likely, e.spread)
}

// input makes it an input of a study.
func (e estimate) input(unit lcc.Unit) lcc.Input {
	in := lcc.Input{Path: e.String(), Unit: unit, Shape: e.shape, Likely: dec(e.likely)}
	if e.shape.HasRange() {
		in.Low, in.High = dec(e.low), dec(e.high)
	} else {
		in.Spread = dec(e.spread)
	}
	return in
}

func (e estimate) distribution() quantiler {
	in := e.input(lcc.Money)
	return distributionOf(&in)
}

// everyShape is each distribution that a study file can name, at parameters
// from plain to skewed.
func everyShape() []estimate {
	var all []estimate
	for _, shape := range []lcc.Shape{lcc.Triangular, lcc.PERT} {
		// The mode at either end, next to it, in the middle and elsewhere.
		for _, mode := range []string{"2", "2.003", "2.3", "3.3", "3.8", "5", "6.2", "7.97", "8"} {
			all = append(all, estimate{shape: shape, low: "2", high: "8", likely: mode})
		}
		all = append(all, estimate{shape: shape, low: "-0.01", high: "0.07", likely: "0.02"})
	}
	all = append(all,
		estimate{shape: lcc.Uniform, low: "3", high: "7", likely: "4"},
		estimate{shape: lcc.Uniform, low: "-0.5", high: "0.25", likely: "0"})
	for _, shape := range []string{"0.8", "1", "2", "4", "5", "10"} {
		all = append(all, estimate{shape: lcc.Weibull, likely: "22", spread: shape})
	}
	all = append(all,
		estimate{shape: lcc.Normal, likely: "0.03", spread: "0.01"},
		estimate{shape: lcc.Normal, likely: "-400", spread: "1000"})
	for _, sd := range []string{"0.05", "0.1", "0.25", "0.5", "1"} {
		all = append(all, estimate{shape: lcc.Lognormal, likely: "1", spread: sd})
	}
	return append(all, estimate{shape: lcc.Lognormal, likely: "12000", spread: "4500"})
}

// decOf is the decimal that a float64 prints as.
func decOf(x float64) decimal.Decimal { return decimal.NewFromFloat(x) }
