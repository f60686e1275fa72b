package scenarios

import (
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// maxMapped is how many columns of a table a template may name.
const maxMapped = 1000

// Portfolio is what a study says for its use as the template of many roofs. No
// figure of the study itself depends on it.
type Portfolio struct {
	// Columns say what the heads of a table stand for, by head: the path of an
	// input or a finding, id, name or template. A head that a table lacks is no
	// error, so that one template serves several tables.
	Columns map[string]string
	// Budget is what works may cost in each calendar year of a plan, in units
	// of the currency, and Crew the area that may be worked on, in the unit of
	// the plan area; both 0 or more, nil when the file states none.
	Budget, Crew map[int]decimal.Decimal
}

// The measures of a plan: a budget, and surface for a crew.
var yearsMoney = measure{unit: lcc.Money, expected: expectBudget, low: decimal.Zero, high: mostMoney, units: noUnit}

// portfolioOf reads what a template says of tables of roofs.
func (r *reader) portfolioOf(n *node) {
	s, ok := r.section(n, "portfolio", underPortfolio, manyKeys)
	if !ok {
		return
	}
	r.portfolio.Columns = s.columns()
	r.portfolio.Budget = s.yearly("budget", yearsMoney)
	r.portfolio.Crew = s.yearly("crew_area", surface)
}

// columns reads what heads stand for.
func (s *section) columns() map[string]string {
	n := s.pairs("columns", expectColumns)
	if n == nil {
		return nil
	}
	out := map[string]string{}
	for i, head := range n.keys {
		if path := s.r.line(n.values[i], s.sub("columns")+"."+head.text); path != "" {
			out[head.text] = path
		}
	}
	return out
}

// yearly reads a number for each of some calendar years.
func (s *section) yearly(key string, k measure) map[int]decimal.Decimal {
	n := s.pairs(key, expectYearly)
	if n == nil {
		return nil
	}
	out := map[int]decimal.Decimal{}
	for i, years := range n.keys {
		path := s.sub(key) + "." + years.text
		first, last, ok := ParseYears(years.text)
		if !ok {
			s.r.fail(years.place, s.sub(key), notYears(years.text))
			continue
		}
		v, ok := numberOf(s.r, k)(n.values[i], path)
		for year := first; ok && year <= last; year++ {
			if _, twice := out[year]; twice {
				s.r.fail(years.place, s.sub(key), yearTwice(year))
				break
			}
			out[year] = v
		}
	}
	return out
}

// pairs gives a mapping; nil when the key is absent or wrong.
func (s *section) pairs(key, expected string) *node {
	n := s.values[key]
	switch {
	case n == nil:
	case n.shape != mapping:
		s.r.wrongShape(n, s.sub(key), expected)
	case len(n.keys) > maxMapped:
		s.r.fail(n.place, s.sub(key), tooMany(len(n.keys), maxMapped))
	default:
		return n
	}
	return nil
}

// yearsPattern is what ParseYears reads, but for years in the wrong order or too
// far apart.
const yearsPattern = `^[0-9]{4}(?:-[0-9]{4})?$`

// ParseYears reads a calendar year, 2027, or several on end, 2027-2031: of at
// most the longest study period. It is not ok when the text is neither.
func ParseYears(text string) (first, last int, ok bool) {
	from, to, several := strings.Cut(text, "-")
	if !several {
		to = from
	}
	first, errFirst := strconv.Atoi(from)
	last, errLast := strconv.Atoi(to)
	ok = errFirst == nil && errLast == nil && len(from) == 4 && len(to) == 4 && first <= last && last-first < lcc.MaxPeriod
	return first, last, ok
}
