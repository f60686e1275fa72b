package plan

import (
	"fmt"

	"roofyears/lcc/budget"
)

// Limits are what the years of a plan may hold; the place in a list is the
// year. A year beyond the end of a list has no limit.
type Limits struct {
	Money []budget.Limit // minor units
	Crews []budget.Limit // area worked on, in hundredths of the area unit
	// Effort ends the search, see budget.Problem.Effort; 0 is the default.
	Effort int64
}

// Plan is one option for each roof, and what is proven of it. Its amounts are
// in minor units.
type Plan struct {
	// Answer has state, cost, bound and reason. Its Unlimited is what the
	// roofs' cheapest free options cost together, each started when it is
	// cheapest: the plan without limits.
	budget.Answer
	Roofs []Chosen // in the order of the roofs
	Money []Year   // one for each year of the plan
	Crews []Year   // likewise; areas are hundredths of the area unit
	// Stated is what the roofs' cheapest alternatives cost together, as their
	// studies state them: the sum of what each roof's own comparison answers.
	// Roofs all of whose alternatives are ruled out are not in it.
	Stated int64
	// Stuck are the roofs for which no option is free, or none keeps the limits
	// by itself: places in the list of roofs. Unless it is empty there is no
	// plan, for each of them.
	Stuck []int
}

// Chosen is what is chosen for a roof. Options are those of the roof.
type Chosen struct {
	Option   *Option // nil without a plan
	Cheapest *Option // the cheapest free one if there were no limits; of equals the first. nil if none is free
	Stated   *Option // of Roof.Stated; nil if there is none
}

// Year is a year of a plan, of its money or of its crews.
type Year struct {
	Limit budget.Limit
	Used  int64 // by the plan; 0 without one
	// Wanted is what each roof's cheapest free option would use, if there were
	// no limits.
	Wanted int64
	// Worth is by how much one more unit of the limit would lower the
	// life-cycle cost, by the bound: see budget.Year.Worth. It is money for
	// money, so a currency unit saves so many, or minor units for a whole unit
	// of area.
	Worth float64
	// TooDear counts the free options that exceed the limit by themselves.
	// Worth does not count on them: a year whose limit is 0 is worth nothing,
	// as one more unit of money in it buys nothing.
	TooDear int
}

// Left is what the plan leaves of the limit, 0 or more; false without one.
func (y Year) Left() (int64, bool) { return y.Limit.Most - y.Used, y.Limit.Set }

// Choose makes the plan of so many years, those of the roofs' templates. The
// error names limits that are none, or a sum of amounts that is beyond what
// can be added up; whether a plan exists is told by its state.
func Choose(roofs []Roof, years int, limits Limits) (Plan, error) {
	if n := max(len(limits.Money), len(limits.Crews)); n > years {
		return Plan{}, fmt.Errorf("year %d has a limit, the last year of the plan is %d", n-1, years-1)
	}
	answer, err := budget.Choose(problem(roofs, limits))
	if err != nil {
		return Plan{}, err
	}
	p := Plan{Answer: answer, Money: make([]Year, years), Crews: make([]Year, years)}
	for i := range roofs {
		p.put(&roofs[i], i)
	}
	p.limit(limits)
	p.count(roofs)
	return p, nil
}

// problem is the choice as lcc/budget knows it.
func problem(roofs []Roof, limits Limits) budget.Problem {
	p := budget.Problem{Budgets: limits.Money, Crews: limits.Crews, Effort: limits.Effort}
	p.Roofs = make([]budget.Roof, len(roofs))
	for i, r := range roofs {
		options := make([]budget.Option, len(r.Options))
		for j, o := range r.Options {
			options[j] = budget.Option{Cost: o.LCC, FirstCost: o.Paid, Area: o.Area, Barred: o.Bar != Free}
		}
		p.Roofs[i] = budget.Roof{Name: r.Name, Options: options}
	}
	return p
}

// put writes down what is chosen for a roof and adds up what it uses.
func (p *Plan) put(r *Roof, at int) {
	var c Chosen
	if p.HasPlan() {
		c.Option = &r.Options[p.Plan[at]]
		for year, paid := range c.Option.Paid {
			p.Money[year].Used += paid
		}
		for year, area := range c.Option.Area {
			p.Crews[year].Used += area
		}
	}
	if c.Cheapest = r.cheapest(); c.Cheapest != nil {
		for year, paid := range c.Cheapest.Paid {
			p.Money[year].Wanted += paid
		}
		for year, area := range c.Cheapest.Area {
			p.Crews[year].Wanted += area
		}
	}
	if r.Stated >= 0 {
		c.Stated = &r.Options[r.Stated]
		p.Stated += c.Stated.LCC
	}
	p.Roofs = append(p.Roofs, c)
}

// cheapest is the free option that costs least, the first of equals; nil if
// none is free.
func (r *Roof) cheapest() *Option {
	var best *Option
	for i := range r.Options {
		if o := &r.Options[i]; o.Bar == Free && (best == nil || o.LCC < best.LCC) {
			best = o
		}
	}
	return best
}

// limit writes the limits down, and what they are worth.
func (p *Plan) limit(limits Limits) {
	for year, l := range limits.Money {
		p.Money[year].Limit = l
	}
	for year, l := range limits.Crews {
		p.Crews[year].Limit = l
	}
	for _, y := range p.Years {
		if y.Kind == budget.Money {
			p.Money[y.Year].Worth = y.Worth
		} else {
			p.Crews[y.Year].Worth = float64(100 * y.Worth)
		}
	}
}

// count finds what limits rule out by themselves: options, and whole roofs.
func (p *Plan) count(roofs []Roof) {
	for i, r := range roofs {
		stuck := true
		for _, o := range r.Options {
			if o.Bar == Free {
				money, crews := exceed(p.Money, o.Paid), exceed(p.Crews, o.Area)
				stuck = stuck && (money || crews)
			}
		}
		if stuck {
			p.Stuck = append(p.Stuck, i)
		}
	}
}

// exceed counts an option for each year whose limit it exceeds by itself, and
// tells whether there is one.
func exceed(years []Year, amounts []int64) bool {
	broken := false
	for year, amount := range amounts {
		if y := &years[year]; y.Limit.Set && amount > y.Limit.Most {
			y.TooDear++
			broken = true
		}
	}
	return broken
}
