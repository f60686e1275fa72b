package lcc

import "github.com/shopspring/decimal"

// RatePoint is the life-cycle cost of every alternative at one discount rate,
// the other inputs as in the result.
type RatePoint struct {
	Rate decimal.Decimal
	LCC  []decimal.Decimal
}

// RateCurve gives the life-cycle costs at rates from the least to the
// greatest of RateRange, a step apart; step is greater than 0. The kernel
// does the work; where it cannot vouch for a cent the ledger is asked.
func (r *Result) RateCurve(step decimal.Decimal) ([]RatePoint, error) {
	k := r.Study.NewKernel()
	if err := k.LoadExact(r.Inputs); err != nil {
		return nil, err
	}
	var curve []RatePoint
	for rate := r.RateRange[0]; rate.LessThanOrEqual(r.RateRange[1]); rate = rate.Add(step) {
		if CheckRate(rate) != nil { // the open lower end of the rates
			continue
		}
		point, err := r.pointAt(k, rate)
		if err != nil {
			return nil, err
		}
		curve = append(curve, point)
	}
	return curve, nil
}

func (r *Result) pointAt(k *Kernel, rate decimal.Decimal) (RatePoint, error) {
	point := RatePoint{Rate: rate, LCC: make([]decimal.Decimal, len(r.Study.Alternatives))}
	if err := k.SetRate(rate.InexactFloat64()); err != nil {
		return point, err
	}
	var exact *bookkeeper
	for i := range point.LCC {
		if minor, certified := k.Cents(i); certified {
			point.LCC[i] = decimal.New(minor, -r.Study.About.Digits)
			continue
		}
		if exact == nil {
			exact = r.Study.keeperAt(r.withRate(rate))
		}
		lines, _, err := exact.book(i)
		if err != nil {
			return point, err
		}
		point.LCC[i] = total(lines)
	}
	return point, nil
}

// withRate is the result's vector with another discount rate.
func (r *Result) withRate(rate decimal.Decimal) Vector {
	v := append(Vector(nil), r.Inputs...)
	v[r.Study.Rate] = rate
	return v
}

func (s *Study) keeperAt(v Vector) *bookkeeper {
	return &bookkeeper{study: s, v: v, factors: s.factorsAt(v)}
}

// total sums the present values of a ledger: the life-cycle cost.
func total(lines []Line) decimal.Decimal {
	sum := decimal.Zero
	for _, line := range lines {
		sum = sum.Add(line.PV)
	}
	return sum
}
