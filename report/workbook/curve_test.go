package workbook

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// curveAt is the rate curve of a result at given rates.
func curveAt(r *lcc.Result, rates []decimal.Decimal) ([]lcc.RatePoint, error) {
	w, err := r.Sweeper()
	if err != nil {
		return nil, err
	}
	var out []lcc.RatePoint
	for _, rate := range rates {
		if err := w.Set(r.Study.Rate, rate); err != nil {
			return nil, err
		}
		costs, err := w.Costs()
		if err != nil {
			return nil, err
		}
		out = append(out, lcc.RatePoint{Rate: rate, LCC: costs})
	}
	return out, nil
}
