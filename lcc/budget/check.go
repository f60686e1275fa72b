package budget

import "fmt"

// largest bounds every sum of amounts, so that integers do not overflow and
// convert to float64 exactly.
const largest = 1 << 53

// check refuses amounts that are no amounts. That no plan exists is an answer
// and not an error.
func (p Problem) check() error {
	if p.Effort < 0 {
		return fmt.Errorf("effort %d is negative", p.Effort)
	}
	for _, list := range []struct {
		kind   Kind
		limits []Limit
	}{{Money, p.Budgets}, {Crew, p.Crews}} {
		for year, limit := range list.limits {
			if limit.Set && limit.Most < 0 {
				return fmt.Errorf("%s limit of year %d is negative: %d", list.kind, year, limit.Most)
			}
		}
	}
	return checkRoofs(p.Roofs)
}

func checkRoofs(roofs []Roof) error {
	var total int64
	for i, roof := range roofs {
		var most int64
		for j, option := range roof.Options {
			size, err := option.size()
			if err != nil {
				return fmt.Errorf("roof %d %q, option %d: %w", i, roof.Name, j, err)
			}
			most = max(most, size)
		}
		if total += most; total > largest {
			return fmt.Errorf("roof %d %q: the amounts of the roofs so far may reach more than %d units", i, roof.Name, int64(largest))
		}
	}
	return nil
}

// size adds up the amounts of an option, without signs.
func (o Option) size() (int64, error) {
	if o.Cost < -largest || o.Cost > largest {
		return 0, fmt.Errorf("cost %d is beyond ±%d units", o.Cost, int64(largest))
	}
	total := max(o.Cost, -o.Cost)
	for _, list := range []struct {
		kind    Kind
		amounts []int64
	}{{Money, o.FirstCost}, {Crew, o.Area}} {
		for year, amount := range list.amounts {
			if amount < 0 || amount > largest {
				return 0, fmt.Errorf("%s of year %d is %d, outside 0 to %d units", list.kind, year, amount, int64(largest))
			}
			if total += amount; total > largest {
				return 0, fmt.Errorf("amounts add up to more than %d units", int64(largest))
			}
		}
	}
	return total, nil
}
