package report

import (
	"encoding/json"

	"roofyears/lcc/tax"
)

// The types below are what the study states about tax, in the words of the
// study file. What it does not state is null.
type (
	answerTaxTerms struct {
		Source     *string           `json:"source"`
		Parts      *answerRateParts  `json:"rate_parts"` // null where one rate is stated
		Inflation  json.Number       `json:"inflation"`
		Nominal    json.Number       `json:"discount_rate_before_tax_nominal"`
		Month      int               `json:"month_placed_in_service"` // that of the base date, 1 to 12
		Limit      *json.Number      `json:"immediate_limit"`         // of a year; null where nothing is deducted at once
		TornOff    *string           `json:"torn_off"`
		TearOffs   []string          `json:"tear_offs"`
		AtEnd      *string           `json:"at_end"`
		Residual   string            `json:"residual_value"`
		Existing   *answerExisting   `json:"existing_basis"`
		Credits    []answerCredit    `json:"credits"`
		Treatments []answerTreatment `json:"treatments"` // of every cost of the systems that stand on the roof in some alternative
	}
	answerRateParts struct {
		Federal       json.Number `json:"federal"`
		State         json.Number `json:"state"`
		StateDeducted bool        `json:"state_deducted"`
	}
	answerExisting struct {
		Amount json.Number `json:"amount"`
		Years  int         `json:"years_left"`
		Source *string     `json:"source"`
	}
	answerCredit struct {
		Item    string      `json:"item"`
		System  string      `json:"system"`
		Amount  json.Number `json:"amount"`
		Until   int         `json:"until"`
		Reduces json.Number `json:"reduces_basis"`
		Taxed   bool        `json:"taxed"`
		Source  *string     `json:"source"`
	}
	answerTreatment struct {
		System    string          `json:"system"`
		List      string          `json:"list"` // of costs
		Item      string          `json:"item"`
		Treatment string          `json:"treatment"` // expensed, depreciated or not_deducted
		AtOnce    bool            `json:"immediate"` // first whole, up to the limit of the year
		Schedule  *answerSchedule `json:"schedule"`  // of what is depreciated
	}
	answerSchedule struct {
		Table string `json:"table"`
		Years *int   `json:"years"` // of straight_line; null for tables that name theirs
		Month *int   `json:"month"` // in which property is placed in service, for tables that depend on it
	}
)

var wayNames = map[tax.Way]string{tax.NotDeducted: "not_deducted", tax.Expensed: "expensed", tax.Depreciated: "depreciated"}

func (t *teller) answerTaxTerms() answerTaxTerms {
	r, terms := t.Tax, t.Tax.Terms
	out := answerTaxTerms{
		Source: orNull(terms.Source), Inflation: ratio(t.Inputs[t.study.Inflation]), Nominal: ratio(r.PretaxNominal), Month: r.Month,
		TornOff: orNull(terms.TornOff.String()), TearOffs: []string{}, AtEnd: orNull(terms.AtEnd.String()), Residual: "untaxed",
		Credits: []answerCredit{}, Treatments: t.answerTreatments(),
	}
	if terms.Rate.Split {
		out.Parts = &answerRateParts{ratio(terms.Rate.Federal), ratio(terms.Rate.State), terms.Rate.StateDeducted}
	}
	if t.anyAtOnce() {
		limit := t.money(terms.Limit)
		out.Limit = &limit
	}
	for _, i := range terms.TearOffs {
		out.TearOffs = append(out.TearOffs, t.study.Systems[i].Key)
	}
	if terms.Residual {
		out.Residual = "taxed"
	}
	if e := terms.Existing; e != nil {
		out.Existing = &answerExisting{t.money(e.Basis), e.Years, orNull(e.Source)}
	}
	for _, c := range terms.Credits {
		out.Credits = append(out.Credits, answerCredit{
			c.Name, t.study.Systems[c.System].Key, t.money(c.Amount), c.Until, ratio(c.Reduces), c.Taxed, orNull(c.Source),
		})
	}
	return out
}

func (t *teller) answerTreatments() []answerTreatment {
	out := []answerTreatment{}
	for i := range t.study.Systems {
		if !t.stands(i) {
			continue
		}
		for _, list := range costLists(&t.study.Systems[i]) {
			for _, it := range list.items {
				k := t.Tax.Terms.Treatment[it.Tax-1]
				one := answerTreatment{System: t.study.Systems[i].Key, List: list.key, Item: it.Name, Treatment: wayNames[k.Way], AtOnce: k.AtOnce}
				if k.Way == tax.Depreciated {
					schedule := t.answerSchedule(k.By)
					one.Schedule = &schedule
				}
				out = append(out, one)
			}
		}
	}
	return out
}

func (t *teller) answerSchedule(s tax.Schedule) answerSchedule {
	out := answerSchedule{Table: s.Table.String()}
	if s.Table == tax.StraightLine {
		out.Years = &s.Years
	}
	if s.Table.ByMonth() {
		out.Month = &t.Tax.Month
	}
	return out
}

// orNull is null for a text that is not given.
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
