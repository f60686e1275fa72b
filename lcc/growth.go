package lcc

import "github.com/shopspring/decimal"

// factors holds, for one vector, how amounts grow and shrink with time.
// Entries are per half year; those at odd times are filled with mid-year
// timing only.
type factors struct {
	discount  []decimal.Decimal                // 1/(1+d)^t
	escalate  [NumCategories][]decimal.Decimal // ∏(1+e_k), k = 1..t
	inflation []decimal.Decimal                // (1+I)^t; nil when the study states no inflation
}

// factorsAt builds the factors of a study at a vector.
func (s *Study) factorsAt(v Vector) factors {
	var f factors
	half := s.Timing == MidYear
	constant := func(r decimal.Decimal) func(int) decimal.Decimal {
		return func(int) decimal.Decimal { return r }
	}
	grow := compound(s.Period, half, constant(v[s.Rate]))
	f.discount = make([]decimal.Decimal, len(grow))
	for t, g := range grow {
		if !g.IsZero() {
			f.discount[t] = quo(one, g)
		}
	}
	if s.Inflation != NoRef {
		f.inflation = compound(s.Period, half, constant(v[s.Inflation]))
	}
	for c := range f.escalate {
		series := s.Escalation[c]
		switch {
		case len(series) > 1:
			f.escalate[c] = compound(s.Period, half, func(year int) decimal.Decimal { return v[series[year-1]] })
		case len(series) == 1:
			f.escalate[c] = compound(s.Period, half, constant(v[series[0]]))
		case s.Basis == Nominal:
			f.escalate[c] = f.inflation
		default:
			f.escalate[c] = compound(s.Period, half, constant(decimal.Zero))
		}
	}
	return f
}

// compound is ∏(1+rate(k)) at every half year; a half year takes the square
// root of its year's factor. Odd times are left zero unless half is asked for.
func compound(n int, half bool, rate func(year int) decimal.Decimal) []decimal.Decimal {
	out := make([]decimal.Decimal, 2*n+1)
	out[0] = one
	for year := 1; year <= n; year++ {
		step := one.Add(rate(year))
		before := out[YearEnd(year-1)]
		if half {
			out[YearEnd(year)-1] = sig(before.Mul(squareRoot(step)))
		}
		out[YearEnd(year)] = sig(before.Mul(step))
	}
	return out
}
