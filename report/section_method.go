package report

import (
	"fmt"

	"roofyears/lcc"
)

// methodHeading is over how the figures come about.
const methodHeading = "Every cost is dated, escalated and discounted once"

// methodSection says in half a page how the figures come about.
func (t *teller) methodSection() Section {
	return Section{ID: "method", Heading: methodHeading, Blocks: []Block{
		List{Items: append(t.methodItems(fmt.Sprintf("here %s a year (%s)", Percent(t.Rate, 4), t.study.Basis)), exactText)},
		Paragraph{Text: termsText},
	}}
}

// The conventions that hold for every study.
const (
	lccText   = "Life-cycle cost: the sum of the present values of all costs, less the present value of what is left at the end. The alternative with the lowest life-cycle cost serves the owner best, if it is fit for the roof."
	exactText = "Amounts are computed exactly and each line of a ledger is rounded once, half a unit away from zero."
	termsText = "Terms and measures are those of building economics (ASTM E833 and E917, NIST Handbook 135, ISO 15686-5)."
)

// chainTexts say what an alternative is.
func chainTexts(period int) []string {
	return []string{
		fmt.Sprintf("Each alternative is a chain of roofs over %s: when the service life of one ends, the next follows, with the removal of the old one. A restoration can be recoated a limited number of times, and then something else has to follow; leaving that out would flatter it.", Plural(period, "year")),
		"A service life that is not a whole number of years ends within a year; the work that follows is done at the end of that year. Work that would fall at the end of the study period or later is not counted.",
	}
}

// methodItems are the sentences of the method, but for how numbers are rounded;
// rate says which discount rate it is.
func (t *teller) methodItems(rate string) []string {
	return append(chainTexts(t.study.Period), t.conventions(rate)...)
}

// conventions are the sentences that depend on the study.
func (t *teller) conventions(rate string) []string {
	out := []string{
		discountText(rate, t.study.Basis),
		timingText(t.study.Timing),
		lccText,
		"Residual value: " + residualText(t.study),
		"Annual worth: the level yearly cost over the study period that has the same present value.",
	}
	if t.study.BaseCase() >= 0 {
		out = append(out,
			fmt.Sprintf("Net savings, savings-to-investment ratio (SIR), adjusted internal rate of return (AIRR) and payback compare an alternative with the base case, “%s”. SIR and AIRR say whether extra investment earns more than the discount rate; they do not rank the alternatives of one roof. AIRR takes savings to be reinvested at the discount rate.", t.name(t.study.BaseCase())),
			"Payback: the first year in which the savings have paid for the extra first cost, with present values (discounted) or without discounting (simple). It ignores what comes after, unless the balance turns again, which is told.")
	}
	return append(out, tieText())
}

// discountText says what a present value is at a discount rate, in words.
func discountText(rate string, basis lcc.Basis) string {
	return fmt.Sprintf("Present value: money paid later counts for less, by the discount rate, %s. %s", rate, basisText(basis))
}

// tieText says what is called a tie.
func tieText() string {
	return fmt.Sprintf("A margin under %s of the life-cycle cost is called a tie: prices and lives are not known that well (common practice).", Percent(lcc.TieShare, 1))
}

func basisText(basis lcc.Basis) string {
	if basis == lcc.Nominal {
		return "Rates and amounts include general inflation; costs without an escalation of their own rise with it."
	}
	return "Rates leave general inflation out; amounts are in money of the base date, and costs without an escalation of their own rise with general prices."
}

func timingText(timing lcc.Timing) string {
	if timing == lcc.MidYear {
		return "First costs fall at the base date, recoats and replacements at the end of their year; annual and periodic costs in the middle of theirs."
	}
	return "First costs fall at the base date; everything that happens in a year is counted at its end."
}

// residualText speaks of the residual value rules that studies use.
func residualText(studies ...*lcc.Study) string {
	var used [3]bool
	restated := ""
	for _, study := range studies {
		if study.Basis == lcc.Nominal {
			restated = "; in a nominal study that cost is first restated, by general inflation, in money of the last year"
		}
		for i := range study.Systems {
			used[study.Systems[i].Residual.Mode] = true
		}
	}
	texts := [3]string{
		lcc.Prorated:    "the unused share of the service life of the last installation or recoat, times the construction cost paid for it" + restated,
		lcc.FixedAmount: "where the study states one, a fixed amount at base-date prices",
		lcc.NoResidual:  "where the study says so, none",
	}
	var out []string
	for mode, text := range texts {
		if used[mode] {
			out = append(out, text)
		}
	}
	text := ""
	for i, part := range out {
		if i > 0 {
			text += "; "
		}
		text += part
	}
	return text + "."
}
