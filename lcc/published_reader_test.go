package lcc

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc/checks"
)

// publishedSet holds the evaluated studies of a case by name.
type publishedSet struct {
	results map[string]*Result
	periods map[string][]string // names of the studies of a family, one a period
}

func studyReader(inputs json.RawMessage) (publishedReader, error) {
	var p publishedStudy
	if err := checks.Strict(inputs, &p); err != nil {
		return nil, err
	}
	return readStudies(map[string]publishedStudy{"": p})
}

func studiesReader(inputs json.RawMessage) (publishedReader, error) {
	var pp map[string]publishedStudy
	if err := checks.Strict(inputs, &pp); err != nil {
		return nil, err
	}
	return readStudies(pp)
}

// readStudies evaluates the studies of a case. A study with several periods is a
// family: its studies have the family's name and n=1, n=2 and so on.
func readStudies(pp map[string]publishedStudy) (publishedReader, error) {
	set := publishedSet{map[string]*Result{}, map[string][]string{}}
	for name, p := range pp {
		if p.Periods == nil {
			if err := set.evaluate(name, p); err != nil {
				return nil, err
			}
			continue
		}
		for i, n := range p.Periods {
			member := strings.TrimSpace(fmt.Sprintf("%s n=%d", name, n))
			if err := set.evaluate(member, p.atPeriod(i)); err != nil {
				return nil, err
			}
			set.periods[name] = append(set.periods[name], member)
		}
	}
	return set.read, nil
}

var (
	yearForm      = regexp.MustCompile(`^(\w+)\[(\d+)\]$`)
	breakEvenForm = regexp.MustCompile(`^break_even\((\w+)\)$`)
)

// read reads a key: [STUDY:]ALTERNATIVE.MEASURE, [STUDY:]lowest,
// [STUDY:]break_even(QUANTITY), FAMILY:ALTERNATIVE.best_period,
// PREFIX*:ALTERNATIVE.MEASURE for a ranking, or a factor.
func (set publishedSet) read(key string) (any, error) {
	if isFactor(key) {
		return readFactor(key)
	}
	name, figure, named := strings.Cut(key, ":")
	if !named {
		name, figure = "", key
	}
	if prefix, ok := strings.CutSuffix(name, "*"); ok {
		return set.ranking(prefix, figure)
	}
	if alternative, ok := strings.CutSuffix(figure, ".best_period"); ok {
		return set.bestPeriod(name, alternative)
	}
	r := set.results[name]
	if r == nil {
		return nil, fmt.Errorf("there is no study %q", name)
	}
	if m := breakEvenForm.FindStringSubmatch(figure); m != nil {
		return publishedBreakEven(r, m[1])
	}
	if figure == "lowest" {
		return r.Alternatives[r.Answer.Lowest].Alternative.Name, nil
	}
	return readMeasure(r, figure)
}

// readMeasure reads ALTERNATIVE.MEASURE or ALTERNATIVE.MEASURE[YEAR].
func readMeasure(r *Result, figure string) (any, error) {
	name, measure, ok := strings.Cut(figure, ".")
	i := slices.IndexFunc(r.Study.Alternatives, func(a Alternative) bool { return a.Name == name })
	if !ok || i < 0 {
		return nil, fmt.Errorf("there is no alternative %q", name)
	}
	if of, ok := publishedMeasures[measure]; ok {
		return of(r, i)
	}
	m := yearForm.FindStringSubmatch(measure)
	if m == nil || publishedYearMeasures[m[1]] == nil {
		return nil, fmt.Errorf("there is no measure %q", measure)
	}
	values, err := publishedYearMeasures[m[1]](r, i)
	if err != nil {
		return nil, err
	}
	year, err := strconv.Atoi(m[2])
	if err != nil || year >= len(values) {
		return nil, fmt.Errorf("the study has no year %s", m[2])
	}
	return values[year], nil
}

// number reads a measure of a named study that is a number.
func (set publishedSet) number(name, figure string) (decimal.Decimal, error) {
	got, err := readMeasure(set.results[name], figure)
	if err != nil {
		return decimal.Zero, fmt.Errorf("%q: %w", name, err)
	}
	return got.(decimal.Decimal), nil
}

// ranking lists the studies whose names begin with a prefix, by a measure,
// greatest first.
func (set publishedSet) ranking(prefix, figure string) (any, error) {
	var names []string
	values := map[string]decimal.Decimal{}
	for _, name := range slices.Sorted(maps.Keys(set.results)) {
		rest, ok := strings.CutPrefix(name, prefix)
		if !ok {
			continue
		}
		x, err := set.number(name, figure)
		if err != nil {
			return nil, err
		}
		names, values[rest] = append(names, rest), x
	}
	slices.SortStableFunc(names, func(a, b string) int { return values[b].Cmp(values[a]) })
	return strings.Join(names, ","), nil
}

// bestPeriod is the study period of a family with the least annual worth: the
// economic life.
func (set publishedSet) bestPeriod(family, alternative string) (any, error) {
	members := set.periods[family]
	if len(members) < 2 {
		return nil, fmt.Errorf("%q is no family of periods", family)
	}
	best, least := 0, decimal.Zero
	for _, name := range members {
		x, err := set.number(name, alternative+".annual_worth")
		if err != nil {
			return nil, err
		}
		if best == 0 || x.LessThan(least) {
			best, least = set.results[name].Study.Period, x
		}
	}
	return decimal.NewFromInt(int64(best)), nil
}
