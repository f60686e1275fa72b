package report

import (
	"encoding/json"

	"roofyears/lcc/tax"
)

// The types below are the machine-readable answer after tax, beside the one
// before tax. Amounts are in money of the day, negative where tax is saved.
type (
	answerTax struct {
		Rate         json.Number            `json:"tax_rate"`
		Discount     json.Number            `json:"discount_rate"` // after tax, in the basis of the study
		Nominal      json.Number            `json:"discount_rate_nominal"`
		Derived      bool                   `json:"discount_rate_derived"`
		Terms        answerTaxTerms         `json:"terms"`
		Lowest       *string                `json:"lowest"`
		RunnerUp     *string                `json:"runner_up"`
		Margin       *json.Number           `json:"margin"`
		Alternatives []answerTaxAlternative `json:"alternatives"`
	}
	answerTaxAlternative struct {
		Name        string          `json:"name"`
		Costs       json.Number     `json:"costs_before_tax"` // present value at the after-tax discount rate
		Tax         json.Number     `json:"tax"`              // present value
		LCC         json.Number     `json:"life_cycle_cost"`
		AnnualWorth json.Number     `json:"annual_worth"`
		NetSavings  *json.Number    `json:"net_savings"`
		Ledger      []answerTaxLine `json:"ledger"`
		Vintages    []answerVintage `json:"vintages"`
		Years       []answerTaxYear `json:"years"` // in which anything is paid or saved, also after the study
	}
	answerTaxLine struct {
		Year      int         `json:"year"`
		Kind      string      `json:"kind"`
		System    *string     `json:"system"`  // null for the roof that was there before the study
		Cost      *string     `json:"cost"`    // kind of cost; null for credits, and for the roof that was there
		Item      *string     `json:"item"`    // of credits
		Vintage   *int        `json:"vintage"` // of those of the alternative; null for what is not depreciated
		Deduction json.Number `json:"deduction"`
		Amount    json.Number `json:"amount"`
		PV        json.Number `json:"present_value"`
	}
	// What was paid at one time and is depreciated: paid, less what credits
	// reduce it by and what is deducted at once, is the basis.
	answerVintage struct {
		Vintage    int               `json:"vintage"` // from 1
		System     *string           `json:"system"`  // null for the roof that was there before the study
		Cost       *string           `json:"cost"`    // likewise
		Paid       json.Number       `json:"paid"`    // of the roof that was there, what is left
		Reduced    json.Number       `json:"reduced_by_credits"`
		AtOnce     json.Number       `json:"deducted_at_once"`
		Basis      json.Number       `json:"basis"`
		Schedule   answerSchedule    `json:"schedule"`
		First      int               `json:"first_year"` // of the study, with the first deduction
		TornOff    *int              `json:"torn_off"`   // year at whose end it was taken off, the basis left being written off; null when it was not
		Deductions []answerDeduction `json:"deductions"`
	}
	answerDeduction struct {
		Year      int         `json:"year"`
		Kind      string      `json:"kind"`
		Deduction json.Number `json:"deduction"`
		Left      json.Number `json:"left"` // of the basis, after it
	}
	// Income is what is taxed of residual value and credits; the present value
	// is that of costs and tax, and of all years together the life-cycle cost.
	answerTaxYear struct {
		Year        int         `json:"year"`
		Costs       json.Number `json:"costs"` // before tax, less residual value
		Deducted    json.Number `json:"deducted"`
		Depreciated json.Number `json:"depreciation"`
		WrittenOff  json.Number `json:"written_off"`
		Income      json.Number `json:"income"`
		Tax         json.Number `json:"tax"` // and credits
		PV          json.Number `json:"present_value"`
	}
)

// answerTax is nil where the study states no tax terms.
func (t *teller) answerTax() *answerTax {
	r := t.Tax
	if r == nil {
		return nil
	}
	out := &answerTax{
		Rate: ratio(r.Terms.Rate.All), Discount: ratio(r.AfterTax), Nominal: ratio(r.Nominal), Derived: r.Terms.AfterTax == nil,
		Terms: t.answerTaxTerms(), Alternatives: []answerTaxAlternative{},
	}
	if r.Lowest >= 0 {
		name := t.name(r.Lowest)
		out.Lowest = &name
	}
	if r.RunnerUp >= 0 {
		name, margin := t.name(r.RunnerUp), t.money(r.Margin)
		out.RunnerUp, out.Margin = &name, &margin
	}
	for i := range r.Alternatives {
		out.Alternatives = append(out.Alternatives, t.answerTaxAlternative(i))
	}
	return out
}

func (t *teller) answerTaxAlternative(i int) answerTaxAlternative {
	o := &t.Tax.Alternatives[i]
	out := answerTaxAlternative{
		Name: t.name(i), Costs: t.money(o.Costs), Tax: t.money(o.Tax), LCC: t.money(o.LCC), AnnualWorth: t.money(o.AnnualWorth), Ledger: []answerTaxLine{},
		Vintages: []answerVintage{}, Years: []answerTaxYear{},
	}
	if o.NetSavings != nil {
		savings := t.money(*o.NetSavings)
		out.NetSavings = &savings
	}
	for _, line := range o.Lines {
		out.Ledger = append(out.Ledger, t.answerTaxLine(line))
	}
	for k := range o.Vintages {
		out.Vintages = append(out.Vintages, t.answerVintage(o, k))
	}
	for k, y := range t.yearsAfterTax(i) {
		if y.any {
			out.Years = append(out.Years, answerTaxYear{
				k, t.money(y.costs), t.money(y.deducted), t.money(y.depreciated), t.money(y.written), t.money(y.income), t.money(y.tax), t.money(y.pv),
			})
		}
	}
	return out
}

func (t *teller) answerVintage(o *tax.Outcome, k int) answerVintage {
	v := &o.Vintages[k]
	out := answerVintage{
		Vintage: k + 1, Paid: t.money(v.Paid), Reduced: t.money(v.Reduced), AtOnce: t.money(v.AtOnce), Basis: t.money(v.Basis),
		Schedule: t.answerSchedule(v.By), First: v.First, Deductions: []answerDeduction{},
	}
	if v.System != tax.BeforeStudy {
		cost := v.Cost.String()
		out.System, out.Cost = &t.study.Systems[v.System].Key, &cost
	}
	if v.TornOff >= 0 {
		out.TornOff = &v.TornOff
	}
	for _, d := range deductionsOf(o, k) {
		out.Deductions = append(out.Deductions, answerDeduction{d.Year, d.Kind.String(), t.money(d.Deduction), t.money(d.left)})
	}
	return out
}

func (t *teller) answerTaxLine(line tax.Line) answerTaxLine {
	out := answerTaxLine{Year: line.Year, Kind: line.Kind.String(), Deduction: t.money(line.Deduction), Amount: t.money(line.Amount), PV: t.money(line.PV)}
	credit := line.Kind == tax.CreditReceived || line.Kind == tax.CreditTaxed
	if line.System != tax.BeforeStudy {
		out.System = &t.study.Systems[line.System].Key
	}
	if cost := line.Cost.String(); !credit && line.System != tax.BeforeStudy {
		out.Cost = &cost
	}
	if credit {
		out.Item = &line.Name
	}
	if line.Vintage >= 0 {
		vintage := line.Vintage + 1
		out.Vintage = &vintage
	}
	return out
}
