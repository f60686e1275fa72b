package report

import (
	"fmt"
	"strings"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// taxHeading is over the study after tax.
func (t *teller) taxHeading() string {
	a := t.Tax
	switch {
	case a.Lowest < 0:
		return "After tax, too, none of the alternatives may be chosen"
	case a.RunnerUp < 0:
		return fmt.Sprintf("After tax, “%s” costs %s over %s", t.name(a.Lowest), t.cur.Amount(a.Alternatives[a.Lowest].LCC), Plural(t.study.Period, "year"))
	case a.Tie:
		return fmt.Sprintf("After tax, “%s” and “%s” cost nearly the same", t.name(a.Lowest), t.name(a.RunnerUp))
	case a.Lowest != t.Answer.Lowest:
		return fmt.Sprintf("After tax, “%s” costs least, not “%s”", t.name(a.Lowest), t.name(t.Answer.Lowest))
	}
	return fmt.Sprintf("After tax, “%s” still costs least: %s less than “%s”", t.name(a.Lowest), t.cur.Amount(a.Margin), t.name(a.RunnerUp))
}

// taxPointer says beside the figures before tax that others come out lowest after
// it; nothing where none do.
func (t *teller) taxPointer() []Block {
	if t.Tax == nil || t.Tax.Lowest < 0 || t.Tax.Lowest == t.Answer.Lowest {
		return nil
	}
	return []Block{Paragraph{Role: Remark, Text: fmt.Sprintf("All of this is before tax. After tax, on the terms that the study states, “%s” comes out lowest: see the section on tax.", t.name(t.Tax.Lowest))}}
}

// taxLead says what the figures are.
func (t *teller) taxLead() string {
	text := "These figures stand beside those before tax and replace none of them. They are what is left of the costs once income tax is reckoned with, on the terms that the study states"
	if source := t.Tax.Terms.Source; source != "" {
		return fmt.Sprintf("%s (source: %s). Lower is better.", text, source)
	}
	return text + ", for which it names no source. Lower is better."
}

// taxCautions say how far these figures can be trusted; the first says who
// decides.
func (t *teller) taxCautions() []string {
	out := []string{"Tax: whether a coating, a repair or a new roof is expensed or depreciated depends on facts, whether it repairs the building or improves it (in the United States, whether it betters, adapts or restores it: Reg. 1.263(a)-3), and on the law of the place and the year. No treatment is assumed here; each is what the study states. The owner’s accountant and tax adviser decide."}
	switch t.Tax.Terms.TornOff {
	case tax.WrittenOff:
		out = append(out, "The roof that is torn off: its remaining basis is written off here. In the United States, whoever deducts that loss has to capitalise the roof that replaces it (Reg. 1.263(a)-3(k)(1)(i)); ask the adviser how the cost of taking the old roof off is then treated.")
	case tax.Kept:
		out = append(out, "The roof that is torn off: its remaining basis goes on being depreciated here, beside that of the new roof. Ask the adviser whether it may be written off; in the United States, whoever does has to capitalise the roof that replaces it (Reg. 1.263(a)-3(k)(1)(i)).")
	}
	if !t.Tax.Terms.Residual && t.hasResidual() {
		out = append(out, "Residual value: it is counted in full here, while the costs behind it saved tax. That flatters work done late in the study; taxed, it would count net of tax as they do.")
	}
	if t.Tax.Terms.Residual && t.hasResidual() {
		out = append(out, "Residual value: it is taxed here at the one tax rate of the study, and so is a loss against it. A gain or a loss on disposal may be taxed otherwise, and so may depreciation that is recaptured; ask the adviser.")
	}
	if len(t.Tax.Terms.Credits) > 0 {
		out = append(out, "Credits and rebates: they are counted as if today’s programmes and law held when the work is done.")
	}
	return append(out, "Not certain: a deduction is counted in full, as if there were always income enough to set it against, and tax rates and law as if they stayed as they are.")
}

// taxTerms are what the study states.
func (t *teller) taxTerms() []string {
	terms := t.Tax.Terms
	out := []string{t.taxRateText(), t.taxDiscountText()}
	if t.anyAtOnce() {
		out = append(out, fmt.Sprintf("Deducted at once: up to %s in a year, in money of that year; the work of a year shares the limit in the order of the ledger.", t.cur.Amount(terms.Limit)))
	}
	out = append(out, t.existingText())
	if text := t.tornOffText(); text != "" {
		out = append(out, text)
	}
	out = append(out, t.endText())
	for _, c := range terms.Credits {
		out = append(out, t.creditText(c))
	}
	return out
}

// hasResidual tells whether anything is left at the end of any alternative.
func (t *teller) hasResidual() bool {
	for i := range t.Alternatives {
		if !t.Alternatives[i].Residual.Amount.IsZero() {
			return true
		}
	}
	return false
}

func (t *teller) anyAtOnce() bool {
	for _, k := range t.Tax.Terms.Treatment {
		if k.AtOnce {
			return true
		}
	}
	return false
}

func (t *teller) taxRateText() string {
	r := t.Tax.Terms.Rate
	if !r.Split {
		return fmt.Sprintf("Tax rate: %s of taxable income, all income taxes together.", Percent(r.All, 4))
	}
	how := "state tax does not lessen what federal tax is paid on"
	if r.StateDeducted {
		how = "state tax is deducted from what federal tax is paid on"
	}
	return fmt.Sprintf("Tax rate: %s of taxable income, from %s federal and %s state tax; %s.", Percent(r.All, 4), Percent(r.Federal, 4), Percent(r.State, 4), how)
}

// taxDiscountText says where the after-tax discount rate comes from.
func (t *teller) taxDiscountText() string {
	r, less := t.Tax, Percent(t.Tax.Terms.Rate.All, 4)
	inflation := Percent(t.Inputs[t.study.Inflation], 4)
	stated, real := r.Terms.AfterTax != nil, t.study.Basis == lcc.Real
	how := ""
	switch {
	case stated && real:
		how = fmt.Sprintf("as the study states; with inflation of %s, %s nominal", inflation, Percent(r.Nominal, 4))
	case stated:
		how = "as the study states"
	case real:
		how = fmt.Sprintf("derived: %s real is %s nominal with inflation of %s; less %s of tax, %s nominal, which is %s real",
			Percent(t.Rate, 4), Percent(r.PretaxNominal, 4), inflation, less, Percent(r.Nominal, 4), Percent(r.AfterTax, 4))
	default:
		how = fmt.Sprintf("derived: %s less %s of it as tax", Percent(t.Rate, 4), less)
	}
	return fmt.Sprintf("After-tax discount rate: %s %s, %s. All figures after tax use it, and no figures before tax do.", Percent(r.AfterTax, 4), t.study.Basis, how)
}

func (t *teller) existingText() string {
	e := t.Tax.Terms.Existing
	if e == nil {
		return "The roof that is there: no remaining basis is stated, so nothing of it is deducted."
	}
	source := "no source given"
	if e.Source != "" {
		source = "source: " + e.Source
	}
	return fmt.Sprintf("The roof that is there: %s of its basis is left, deducted in equal amounts over %s (%s).", t.cur.Amount(e.Basis), Plural(e.Years, "year"), source)
}

func (t *teller) tornOffText() string {
	switch t.Tax.Terms.TornOff {
	case tax.Kept:
		return "When a roof is torn off: what is left of its basis goes on being deducted as before."
	case tax.WrittenOff:
		var names []string
		for _, i := range t.Tax.Terms.TearOffs {
			names = append(names, "“"+t.system(i)+"”")
		}
		return fmt.Sprintf("When a roof is torn off: what is left of the basis of all that is on the roof is deducted in the year in which it is taken off. These take it off: %s.", listed(names))
	}
	return ""
}

func (t *teller) endText() string {
	end := fmt.Sprintf("At the end of the study, year %d: ", t.study.Period)
	left := map[tax.Fate]string{
		tax.Kept:       "what is left of basis is kept and goes on being deducted; the deductions after the study count at their present value, each in its year",
		tax.WrittenOff: "what is left of basis is written off against the residual value, as if the roof were disposed of",
		tax.NotStated:  "no basis is left",
	}[t.Tax.Terms.AtEnd]
	value := "the residual value is not taxed, since nothing is sold"
	switch {
	case t.Tax.Terms.Residual && t.Tax.Terms.AtEnd == tax.WrittenOff:
		value = "the gain over it is taxed, and a loss saves tax"
	case t.Tax.Terms.Residual:
		value = "the residual value is taxed in full, so that it counts net of tax as the costs do"
	}
	return end + left + "; " + value + "."
}

// creditText tells a credit with its effect on basis.
func (t *teller) creditText(c tax.Credit) string {
	effect := []string{fmt.Sprintf("lessens what may be deducted by %s of it", Percent(c.Reduces, 4))}
	if c.Reduces.IsZero() {
		effect[0] = "does not lessen what may be deducted"
	}
	if c.Taxed {
		effect = append(effect, "is taxed as income")
	} else {
		effect = append(effect, "is not taxed")
	}
	source := "no source given"
	if c.Source != "" {
		source = "source: " + c.Source
	}
	return fmt.Sprintf("“%s”: %s for installing “%s” up to year %d; it %s (%s).", c.Name, t.cur.Amount(c.Amount), t.system(c.System), c.Until, strings.Join(effect, " and "), source)
}

// taxMethod says how the figures come about.
func (t *teller) taxMethod() []string {
	out := []string{
		"When: a tax effect falls at the end of the year of the study that it belongs to. Running costs belong to their year; work done at the end of a year begins the next one and is deducted, or placed in service, in that one, as work at the base date is in year 1. A year of the study stands for a tax year; the owner’s own may end some months sooner or later, and tax is paid accordingly.",
		"Money: tax is paid in money of the day, and depreciation is fixed in it when the cost is paid, so inflation eats into it. Each tax effect is discounted to the base date with the nominal after-tax rate; costs are those of the ledger, discounted at the after-tax rate.",
		"Rounding: each deduction and each tax effect is rounded once; the last deduction of a basis is what is left of it, so that deductions add up to the basis.",
	}
	if text := t.tablesText(); text != "" {
		out = append(out, text)
	}
	return append(out, "Everything else in this report is before tax: the answer, paybacks and ratios, what would change the answer, the simulation, the sliders and what the rules allow.")
}

// tablesText names the sources of the depreciation tables in use.
func (t *teller) tablesText() string {
	var used [tax.MACRS39 + 1]bool
	for i := range t.Tax.Alternatives {
		for _, v := range t.Tax.Alternatives[i].Vintages {
			used[v.By.Table] = true
		}
	}
	var out []string
	if used[tax.MACRS39] {
		out = append(out, fmt.Sprintf("the 39-year percentages are those of table A-7a of IRS Publication 946, as printed, for month %d, the month of the base date", t.Tax.Month))
	}
	if used[tax.MACRS5] || used[tax.MACRS7] || used[tax.MACRS15] {
		out = append(out, "the half-year percentages are those of table A-1 of IRS Publication 946, as printed")
	}
	if used[tax.MACRS27] {
		out = append(out, fmt.Sprintf("the 27.5-year percentages are computed from the mid-month rule for month %d, the month of the base date, and not rounded as those printed in IRS Publication 946 are", t.Tax.Month))
	}
	if len(out) == 0 {
		return ""
	}
	return "Tables: " + strings.Join(out, "; ") + "."
}

// The words of other sections that depend on whether there are figures after tax.

// butAfterTax excepts the figures after tax; "" where there are none.
func (t *teller) butAfterTax() string {
	if t.Tax == nil {
		return ""
	}
	return ", but for those after tax"
}

// aside closes an exception that stands within a sentence.
func aside(exception string) string {
	if exception == "" {
		return ""
	}
	return exception + ","
}

func (t *teller) leftOut() string {
	if t.Tax == nil {
		return "insurance, what leaks would cost beyond the costs stated, and taxes"
	}
	return "insurance, and what leaks would cost beyond the costs stated"
}

func (t *teller) accountantStep() string {
	if t.Tax == nil {
		return "Have the owner's accountant confirm the discount rate and how the cost is treated."
	}
	return "Have the owner's accountant and tax adviser confirm the discount rates and the tax terms."
}

// rulesLetter is the letter of the last appendix.
func (t *teller) rulesLetter() string {
	if t.Tax == nil {
		return "C"
	}
	return "D"
}
