package plan

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Option is an alternative of a roof, started in a year.
type Option struct {
	Start
	LCC  int64   // life-cycle cost in minor units
	Paid []int64 // what it takes from the money of each year from 0, in minor units, 0 or more; what is left out at the end is 0
	Area []int64 // what it takes from the crews of each year, in hundredths of the area unit; likewise
	Bar  Bar     // Free if it may be chosen
}

// Roof is a roof to decide on.
type Roof struct {
	Name string // for messages of Choose; may be empty
	// Options are in the order of the study's alternatives, each by its year.
	// Starts that the old roof does not last for are not among them.
	Options []Option
	// Stated is the cheapest of the alternatives as the study states them, of
	// those that it does not rule out and whatever rules the roof has: the one
	// that lcc.Study.RoofAnswer gives. It is a place in Options; −1 if there is
	// none.
	Stated int
}

// Pricer finds what the options of a roof cost. It is for one goroutine.
type Pricer struct {
	t     *Template
	roofs *lcc.Roofs
	out   []lcc.Outlay
}

// Pricer prepares for roofs that differ in these inputs; it fails as
// lcc.Study.Roofs does.
func (t *Template) Pricer(refs []lcc.Ref) (*Pricer, error) {
	roofs, err := t.wide.Roofs(refs)
	if err != nil {
		return nil, err
	}
	p := &Pricer{t: t, roofs: roofs, out: make([]lcc.Outlay, len(t.starts))}
	for i := range p.out {
		p.out[i] = lcc.Outlay{Paid: make([]int64, t.years), Worked: make([]bool, t.years)}
	}
	return p, nil
}

// Roof gives the options of one roof. Where given is false the input keeps its
// likely value. It fails where the roof cannot be evaluated, when an amount is
// over lcc.MaxMinor, and when rules name a year or an alternative that there is
// not; that the roof does not last for a start is no error.
func (p *Pricer) Roof(values []decimal.Decimal, given []bool, rules Rules) (Roof, error) {
	if err := rules.check(p.t.years, len(p.t.study.Alternatives)); err != nil {
		return Roof{}, err
	}
	if err := p.roofs.Outlays(values, given, p.out); err != nil {
		return Roof{}, err
	}
	area, err := hundredths(p.roofs.Area())
	if err != nil {
		return Roof{}, err
	}
	r := Roof{Options: make([]Option, 0, len(p.out)), Stated: -1}
	lists := make([]int64, 0, p.entries())
	for i := range p.out {
		o := &p.out[i]
		if o.TooLate {
			continue
		}
		option := Option{Start: p.t.starts[i], LCC: o.LCC}
		option.Bar = rules.bar(option.Start, p.t.wide.Alternatives[i].Eligible())
		option.Paid, lists = list(lists, paidYears(o), func(year int) int64 { return max(0, o.Paid[year]) })
		option.Area, lists = list(lists, workedYears(o), func(year int) int64 {
			if o.Worked[year] {
				return area
			}
			return 0
		})
		if option.Stated && option.Bar != RuledOut && (r.Stated < 0 || option.LCC < r.Options[r.Stated].LCC) {
			r.Stated = len(r.Options)
		}
		r.Options = append(r.Options, option)
	}
	return r, nil
}

// hundredths is an area in hundredths of its unit, half away from zero.
func hundredths(area decimal.Decimal) (int64, error) {
	whole := area.Round(2).Shift(2)
	if whole.GreaterThan(decimal.NewFromInt(lcc.MaxMinor)) {
		return 0, fmt.Errorf("the area %s is over %s", area, decimal.New(lcc.MaxMinor, -2))
	}
	return whole.IntPart(), nil
}

// entries is how many numbers the lists of a roof's options hold.
func (p *Pricer) entries() int {
	sum := 0
	for i := range p.out {
		sum += paidYears(&p.out[i]) + workedYears(&p.out[i])
	}
	return sum
}

// list appends so many numbers to the lists of a roof, which have room, and
// gives them by themselves.
func list(lists []int64, n int, at func(year int) int64) (own, all []int64) {
	from := len(lists)
	for year := range n {
		lists = append(lists, at(year))
	}
	return lists[from:len(lists):len(lists)], lists
}

// paidYears is how many years there are up to the last one that is paid in.
func paidYears(o *lcc.Outlay) int {
	n := len(o.Paid)
	for n > 0 && o.Paid[n-1] <= 0 {
		n--
	}
	return n
}

func workedYears(o *lcc.Outlay) int {
	n := len(o.Worked)
	for n > 0 && !o.Worked[n-1] {
		n--
	}
	return n
}
