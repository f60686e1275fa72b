package report

import (
	"strconv"
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/coolroof"
	"roofyears/lcc/risk"
	"roofyears/lcc/tax"
)

// Study is what a report is made from: a result and what belongs to it that
// the arithmetic does not know.
type Study struct {
	Result   *lcc.Result
	Warnings []lcc.Warning
	Settings []Setting    // whole numbers of the file that are no estimates
	Version  string       // of the program; "" when unknown
	Change   *Change      // what would change the answer; nil leaves the section out
	Risk     *risk.Result // how sure the answer is; nil leaves the section out
	File     StudyFile    // as given; without a name the report carries no study
	Options  Options      // what the report is made with besides
	TakeOff  *TakeOff     // nil when the study has none
	Tax      *tax.Result  // nil when the study states no tax terms

	CoolRoofs  []coolroof.Working // workings of reflective surfaces, in the order of the systems
	Letterhead Letterhead         // of the file; what Options have goes before it
	Logo       *Logo              // nil when there is none
}

// Setting is a whole number that the study's structure rests on.
type Setting struct {
	Path, Label, Value string
}

// teller holds what every section builder needs.
type teller struct {
	Study
	*lcc.Result
	study   *lcc.Study
	cur     Currency
	numbers []Fold // the tables behind charts, for the appendix
}

func tell(in Study) *teller {
	about := in.Result.Study.About
	return &teller{
		Study: in, Result: in.Result, study: in.Result.Study,
		cur: Currency{Code: about.Currency, Digits: about.Digits},
	}
}

// name is the name of an alternative.
func (t *teller) name(i int) string { return t.Alternatives[i].Alternative.Name }

// names lists the alternatives' names in the study's order.
func (t *teller) names() []string {
	out := make([]string, len(t.Alternatives))
	for i := range out {
		out[i] = t.name(i)
	}
	return out
}

// system is the name of a system.
func (t *teller) system(i int) string { return t.study.Systems[i].Name }

// baseYear is the calendar year of the base date; 0 when it has none.
func (t *teller) baseYear() int {
	if len(t.study.About.BaseDate) < 4 {
		return 0
	}
	y, err := strconv.Atoi(t.study.About.BaseDate[:4])
	if err != nil {
		return 0
	}
	return y
}

// calendar is the calendar year of a study year, as a text.
func (t *teller) calendar(year int) string { return strconv.Itoa(t.baseYear() + year) }

// areaUnit is the unit of area in tables: ft².
func (t *teller) areaUnit() string { return unitSign(t.study.About.AreaUnit) }

// unitSign writes a unit of a study file as people write it.
func unitSign(unit string) string {
	return strings.NewReplacer("ft2", "ft²", "m2", "m²", "um", "µm").Replace(unit)
}

// moneyOf says in words which money amounts are in.
func (t *teller) moneyOf() string { return moneyText(t.study.Basis) }

func moneyText(basis lcc.Basis) string {
	if basis == lcc.Nominal {
		return "current money (general inflation included)"
	}
	return "constant money of the base date"
}

// startsWith is the work an alternative begins with, after its wait.
func (t *teller) startsWith(i int) lcc.Work {
	return t.study.Systems[t.Alternatives[i].Alternative.Start].Work
}

// cheapestWith is the eligible alternative of least life-cycle cost whose
// work is of a kind, other than a given one; −1 when there is none.
func (t *teller) cheapestWith(work lcc.Work, other int) int {
	best := -1
	for _, i := range t.study.Eligible() {
		if i != other && t.startsWith(i) == work && (best < 0 || t.Difference(i, best).IsNegative()) {
			best = i
		}
	}
	return best
}
