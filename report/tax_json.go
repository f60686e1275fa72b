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
	}
	answerTaxLine struct {
		Year      int         `json:"year"`
		Kind      string      `json:"kind"`
		System    *string     `json:"system"` // null for the roof that was there before the study
		Cost      *string     `json:"cost"`   // kind of cost; null for credits, and for the roof that was there
		Item      *string     `json:"item"`   // of credits
		Vintage   *int        `json:"vintage"`
		Deduction json.Number `json:"deduction"`
		Amount    json.Number `json:"amount"`
		PV        json.Number `json:"present_value"`
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
		Alternatives: []answerTaxAlternative{},
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
	}
	if o.NetSavings != nil {
		savings := t.money(*o.NetSavings)
		out.NetSavings = &savings
	}
	for _, line := range o.Lines {
		out.Ledger = append(out.Ledger, t.answerTaxLine(line))
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
