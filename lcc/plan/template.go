package plan

import (
	"errors"
	"fmt"

	"roofyears/lcc"
)

// NoWork stands for the year of an option that starts no work: the base case,
// and what starts with a roof that is in place already.
const NoWork = -1

// Start is an alternative of the study and when it starts.
type Start struct {
	Alternative int // index in the study
	// Year is when it starts, from 0; [NoWork] if it starts nothing. Only an
	// alternative with a wait of its own may start after the plan's years.
	Year int
	// Stated tells that the alternative starts as the study says; else it is
	// put off.
	Stated bool
}

// Template is a study each of whose works may start in any year of a plan. It
// is not changed by use, so it may be shared between goroutines.
type Template struct {
	study  *lcc.Study // as it was given
	wide   *lcc.Study // with an alternative for every start
	starts []Start    // of its alternatives
	years  int
}

// NewTemplate prepares a study, which passes Check, for a plan of so many
// years: 1 to the study period. The error is a sentence about the study: it
// has no base case, or one that does not start with a roof that is in place.
func NewTemplate(study *lcc.Study, years int) (*Template, error) {
	if years < 1 || years > study.Period {
		return nil, fmt.Errorf("a plan of %d years is outside 1 to %d, the study period", years, study.Period)
	}
	kept, err := kept(study)
	if err != nil {
		return nil, err
	}
	wide := *study
	wide.Alternatives = nil
	t := &Template{study: study, wide: &wide, years: years}
	for i, a := range study.Alternatives {
		year := firstYear(study, a)
		t.add(a, Start{i, year, true})
		if year == NoWork || a.Wait != nil && !atOnce(a, kept) {
			continue
		}
		for year := 1; year < years; year++ {
			later := a
			later.Wait = &lcc.Wait{On: kept, Years: year}
			t.add(later, Start{i, year, false})
		}
	}
	return t, nil
}

func (t *Template) add(a lcc.Alternative, start Start) {
	t.wide.Alternatives = append(t.wide.Alternatives, a)
	t.starts = append(t.starts, start)
}

// kept is the system that stands until a work starts: the one that the base
// case starts with.
func kept(study *lcc.Study) (int, error) {
	base := study.BaseCase()
	if base < 0 {
		return 0, errors.New("the study has no base case, which a plan needs: it says what a roof costs while it waits")
	}
	a := study.Alternatives[base]
	system := a.Start
	if a.Wait != nil {
		system = a.Wait.On
	}
	if !study.Systems[system].InPlace {
		return 0, fmt.Errorf("the base case %q does not start with a roof that is in place, which a plan needs: other works wait on it", a.Name)
	}
	return system, nil
}

// atOnce tells an alternative that waits on the kept roof for no years: it
// starts at once, and pays what removing that roof costs.
func atOnce(a lcc.Alternative, kept int) bool {
	return a.Wait != nil && a.Wait.Years == 0 && a.Wait.On == kept
}

// SkippedRemoval names the alternatives that pay for removing the roof that
// other works wait on when they are put off, but not when they start at once,
// as the study has it: putting them off looks dearer by that. A wait of 0 years
// on that roof mends it.
func (t *Template) SkippedRemoval() []string {
	kept, err := kept(t.study)
	if err != nil || len(t.study.Systems[kept].Removal) == 0 {
		return nil
	}
	var out []string
	for i := range t.study.Alternatives {
		if a := t.study.Alternatives[i]; firstYear(t.study, a) == 0 && a.Wait == nil {
			out = append(out, a.Name)
		}
	}
	return out
}

// firstYear is when an alternative starts as the study states it.
func firstYear(study *lcc.Study, a lcc.Alternative) int {
	switch {
	case a.BaseCase:
		return NoWork
	case a.Wait != nil:
		return a.Wait.Years
	case study.Systems[a.Start].InPlace:
		return NoWork
	}
	return 0
}

// Agree tells why roofs of two templates cannot stand in one plan: their money,
// areas or years are not the same. It is nil when they can.
func (t *Template) Agree(other *Template) error {
	a, b := t.study.About, other.study.About
	differ := func(what string, one, two any) error {
		return fmt.Errorf("the templates %q and %q differ in %s, %v and %v; a plan needs one", a.Title, b.Title, what, one, two)
	}
	switch {
	case a.Currency != b.Currency || a.Digits != b.Digits:
		return differ("currency", a.Currency, b.Currency)
	case a.AreaUnit != b.AreaUnit:
		return differ("area unit", a.AreaUnit, b.AreaUnit)
	case a.BaseDate != b.BaseDate:
		return differ("base date", a.BaseDate, b.BaseDate)
	case t.study.Basis != other.study.Basis:
		return differ("basis of rates", t.study.Basis, other.study.Basis)
	case t.years != other.years:
		return differ("years of the plan", t.years, other.years)
	}
	return nil
}
