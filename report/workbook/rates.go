package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// The rows of the rate curve.
const (
	curveStart = 4 // the lowest rate
	curveStep  = 5
	rateHead   = 7
	ownRate    = 8 // the study's own
	firstRate  = 9
)

// layRates shows the life-cycle costs at other discount rates.
func (b *book) layRates() {
	s, n := b.rates, len(b.ledgers)
	s.widths, s.landscape, s.frozen, s.repeat = []float64{22}, true, [2]int{rateHead, 1}, rateHead
	s.row(1, label("Rate curve: life-cycle cost at other discount rates", title))
	for i := range b.ledgers {
		s.widths = append(s.widths, 22)
		s.put(rateHead, 2+i, label(b.alternative(i), numberHead))
	}
	s.widths = append(s.widths, 34)
	s.text(2, 2+n, label("A higher discount rate counts later costs for less, and so favours the alternative that puts costs off. Where the last column changes, two alternatives cost the same at a rate in between.", wrapped))
	start, step := b.curve[0].Rate, decimal.Zero
	if len(b.curve) > 1 {
		step = b.curve[1].Rate.Sub(start)
	}
	s.row(curveStart, label("From", plain), data(start, style{rate, input}))
	s.row(curveStep, label("In steps of", plain), data(step, style{rate, input}))
	s.put(rateHead, 1, label("Discount rate", numberHead))
	s.put(rateHead, 2+n, beside("Lowest of those that may be chosen", head))
	s.headLines(rateHead)
	s.put(ownRate, 1, calc(b.rate(), b.r.Rate, style{rate, total}))
	own := make([]decimal.Decimal, n)
	for i := range own {
		own[i] = b.r.Alternatives[i].LCC
	}
	b.layRate(ownRate, own, total)
	for k, point := range b.curve {
		formula := fmt.Sprintf("%s+%d*%s", fixed(curveStart, 2), k, fixed(curveStep, 2))
		s.put(firstRate+k, 1, calc(formula, point.Rate, style{form: rate}))
		b.layRate(firstRate+k, point.LCC, plain)
	}
	s.onePage = len(b.curve) <= onOnePage
	b.curveChart()
}

// layRate writes the costs at one rate: every line discounted and rounded, as
// in the ledgers.
func (b *book) layRate(row int, costs []decimal.Decimal, s look) {
	for i, cost := range costs {
		l := b.ledgers[i]
		worth := fmt.Sprintf("%s/(1+%s)^%s", l.part(ofUnrounded), fixedColumn(row, 1), l.part(ofYear))
		b.rates.put(row, 2+i, calc(asArray(b.footed("SUM("+b.rounded(worth)+")")), cost, style{money, s}))
	}
	if b.measures.lowest == "" {
		return
	}
	best := -1
	for i := range b.ledgers {
		if b.s.Alternatives[i].Eligible() && (best < 0 || costs[i].LessThan(costs[best])) {
			best = i
		}
	}
	b.rates.put(row, 2+len(b.ledgers), calc(b.lowestAt(row), b.alternative(best), style{words, s}))
}

// lowestAt names the lowest of a row among those that may be chosen.
func (b *book) lowestAt(row int) string {
	n := len(b.ledgers)
	costs := here(row, 2) + ":" + here(row, 1+n)
	if len(b.words.RuledOut()) == 0 {
		return b.among(b.rates, rateHead, fmt.Sprintf("MATCH(MIN(%s),%s,0)", costs, costs))
	}
	costs = fmt.Sprintf(`IF(ISNUMBER(%s),%s,"")`, b.measure.line(b.measures.eligible, 2, 1+n), costs)
	return asArray(b.among(b.rates, rateHead, fmt.Sprintf("MATCH(MIN(%s),%s,0)", costs, costs)))
}
