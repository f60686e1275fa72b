package report

import (
	"fmt"

	"roofyears/lcc"
)

// methodSection says in half a page how the figures come about.
func (t *teller) methodSection() Section {
	return Section{ID: "method", Heading: "Every cost is dated, escalated and discounted once", Blocks: []Block{
		List{Items: append(t.methodItems(fmt.Sprintf("%s a year (%s)", Percent(t.Rate, 4), t.study.Basis)),
			"Amounts are computed exactly and each line of a ledger is rounded once, half a unit away from zero.")},
		Paragraph{Text: "Terms and measures are those of building economics (ASTM E833 and E917, NIST Handbook 135, ISO 15686-5)."},
	}}
}

// methodItems are the sentences of the method, but for how numbers are rounded;
// here names the discount rate.
func (t *teller) methodItems(here string) []string {
	return append([]string{
		fmt.Sprintf("Each alternative is a chain of roofs over %s: when the service life of one ends, the next follows, with the removal of the old one. A restoration can be recoated a limited number of times, and then something else has to follow; leaving that out would flatter it.", Plural(t.study.Period, "year")),
		"A service life that is not a whole number of years ends within a year; the work that follows is done at the end of that year. Work that would fall at the end of the study period or later is not counted.",
	}, t.conventions(here)...)
}

// conventions are the sentences that depend on the study.
func (t *teller) conventions(here string) []string {
	out := []string{
		fmt.Sprintf("Present value: money paid later counts for less, by the discount rate, here %s. %s", here, t.basisText()),
		t.timingText(),
		"Life-cycle cost: the sum of the present values of all costs, less the present value of what is left at the end. The alternative with the lowest life-cycle cost serves the owner best, if it is fit for the roof.",
		"Residual value: " + t.residualText(),
		"Annual worth: the level yearly cost over the study period that has the same present value.",
	}
	if t.study.BaseCase() >= 0 {
		out = append(out,
			fmt.Sprintf("Net savings, savings-to-investment ratio (SIR), adjusted internal rate of return (AIRR) and payback compare an alternative with the base case, “%s”. SIR and AIRR say whether extra investment earns more than the discount rate; they do not rank the alternatives of one roof. AIRR takes savings to be reinvested at the discount rate.", t.name(t.study.BaseCase())),
			"Payback: the first year in which the savings have paid for the extra first cost, with present values (discounted) or without discounting (simple). It ignores what comes after, unless the balance turns again, which is told.")
	}
	return append(out,
		fmt.Sprintf("A margin under %s of the life-cycle cost is called a tie: prices and lives are not known that well (common practice).", Percent(lcc.TieShare, 1)))
}

func (t *teller) basisText() string {
	if t.study.Basis == lcc.Nominal {
		return "Rates and amounts include general inflation; costs without an escalation of their own rise with it."
	}
	return "Rates leave general inflation out; amounts are in money of the base date, and costs without an escalation of their own rise with general prices."
}

func (t *teller) timingText() string {
	if t.study.Timing == lcc.MidYear {
		return "First costs fall at the base date, recoats and replacements at the end of their year; annual and periodic costs in the middle of theirs."
	}
	return "First costs fall at the base date; everything that happens in a year is counted at its end."
}

// residualText speaks of the residual value rules that the study uses.
func (t *teller) residualText() string {
	var used [3]bool
	for i := range t.study.Systems {
		used[t.study.Systems[i].Residual.Mode] = true
	}
	texts := [3]string{
		lcc.Prorated:    "the unused share of the service life of the last installation or recoat, times the construction cost paid for it",
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
