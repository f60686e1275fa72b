package budget

import "cmp"

// model is the problem without what cannot matter: barred options, options
// that break a limit by themselves, options that another beats in every way,
// and limits that no plan could reach.
type model struct {
	limits []int64   // of the years that can bind
	years  []int     // their places in Answer.Years
	scale  []float64 // 1 ÷ limit, to compare money with area
	roofs  [][]choice
	ruling []bool // by place in Answer.Years: whether the limit ruled out an option
	most   int64  // the sum of dearest choices: no plan costs more
}

// choice is an option that is left.
type choice struct {
	option int // place in the roof's list
	cost   int64
	uses   []use // of the years that it uses, in order
}

// use is what a choice takes from a limit.
type use struct {
	at     int // place in model.limits; before binding, in Answer.Years
	amount int64
}

// yearsOf lists the limits that are set.
func yearsOf(p Problem) []Year {
	var years []Year
	for y, limit := range p.Budgets {
		if limit.Set {
			years = append(years, Year{Kind: Money, Year: y, Most: limit.Most})
		}
	}
	for y, limit := range p.Crews {
		if limit.Set {
			years = append(years, Year{Kind: Crew, Year: y, Most: limit.Most})
		}
	}
	return years
}

// in is what the option takes from a year's limit.
func (o Option) in(year Year) int64 {
	amounts := o.FirstCost
	if year.Kind == Crew {
		amounts = o.Area
	}
	if year.Year < len(amounts) {
		return amounts[year.Year]
	}
	return 0
}

// newModel reduces a problem in which no single year is short.
func newModel(p Problem, years []Year) (model, Reason) {
	m := model{ruling: make([]bool, len(years))}
	for i, roof := range p.Roofs {
		choices, broken := fitting(roof, years)
		if len(choices) == 0 {
			return model{}, Reason{Cause: RoofTooLarge, Roof: i, Years: broken}
		}
		m.roofs = append(m.roofs, choices)
		for _, k := range broken {
			m.ruling[k] = true
		}
	}
	m.bind(years)
	for i, choices := range m.roofs {
		choices = undominated(choices)
		m.roofs[i] = choices
		m.most += dearest(choices)
	}
	return m, Reason{}
}

// fitting lists the options that are not barred and keep every limit by
// themselves, and the limits that others break.
func fitting(roof Roof, years []Year) (choices []choice, broken []int) {
	breaks := make([]bool, len(years))
	for j, option := range roof.Options {
		if option.Barred {
			continue
		}
		c, fits := choice{option: j, cost: option.Cost}, true
		for k, year := range years {
			amount := option.in(year)
			if amount > year.Most {
				breaks[k], fits = true, false
			}
			if amount > 0 {
				c.uses = append(c.uses, use{k, amount})
			}
		}
		if fits {
			choices = append(choices, c)
		}
	}
	return choices, places(breaks)
}

// undominated leaves out choices that another one equals or beats in cost and
// in every year. Of equals the first stays.
func undominated(choices []choice) []choice {
	var left []choice
	for i, c := range choices {
		beaten := false
		for j, other := range choices {
			if j != i && other.atMost(c) && (j < i || !c.atMost(other)) {
				beaten = true
				break
			}
		}
		if !beaten {
			left = append(left, c)
		}
	}
	return left
}

// atMost tells whether c costs no more than other and uses no more of any
// year.
func (c choice) atMost(other choice) bool {
	if c.cost > other.cost {
		return false
	}
	rest := other.uses
	for _, u := range c.uses {
		for len(rest) > 0 && rest[0].at < u.at {
			rest = rest[1:]
		}
		if len(rest) == 0 || rest[0].at != u.at || rest[0].amount < u.amount {
			return false
		}
	}
	return true
}

// bind keeps the limits that some plan could exceed.
func (m *model) bind(years []Year) {
	could := make([]int64, len(years))
	for _, choices := range m.roofs {
		most := make([]int64, len(years))
		for _, c := range choices {
			for _, u := range c.uses {
				most[u.at] = max(most[u.at], u.amount)
			}
		}
		for k, amount := range most {
			could[k] += amount
		}
	}
	place := make([]int, len(years))
	for k, year := range years {
		place[k] = -1
		if could[k] > year.Most {
			place[k] = len(m.limits)
			m.limits = append(m.limits, year.Most)
			m.years = append(m.years, k)
			m.scale = append(m.scale, 1/float64(cmp.Or(year.Most, 1)))
		}
	}
	for _, choices := range m.roofs {
		for j, c := range choices {
			var uses []use
			for _, u := range c.uses {
				if place[u.at] >= 0 {
					uses = append(uses, use{place[u.at], u.amount})
				}
			}
			choices[j].uses = uses
		}
	}
}
