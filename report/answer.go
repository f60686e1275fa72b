package report

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// formatVersion is the version of the machine-readable answer.
const formatVersion = 1

// The types below are the machine-readable answer, keys in its order. Money
// has the currency's digits; an undefined measure is null with its reason.
type (
	answerDoc struct {
		Version      int                 `json:"roofyears"`
		Study        answerStudy         `json:"study"`
		Answer       answerPart          `json:"answer"`
		Alternatives []answerAlternative `json:"alternatives"`
		Warnings     []answerWarning     `json:"warnings"`
		AfterTax     *answerTax          `json:"after_tax,omitempty"` // only of a study that states tax terms
	}
	answerStudy struct {
		Title    string      `json:"title"`
		BaseDate string      `json:"base_date"`
		Period   int         `json:"period"`
		Currency string      `json:"currency"`
		Timing   string      `json:"timing"`
		Basis    string      `json:"rate_basis"`
		Rate     json.Number `json:"discount_rate"`
	}
	answerPart struct {
		Lowest   *string      `json:"lowest"`
		RunnerUp *string      `json:"runner_up"`
		Margin   *json.Number `json:"margin"`
		Text     string       `json:"text"`
	}
	answerWarning struct {
		About string `json:"about"`
		Text  string `json:"text"`
	}
	answerAlternative struct {
		Name          string                 `json:"name"`
		BaseCase      bool                   `json:"base_case"`
		Eligible      bool                   `json:"eligible"` // not ruled out
		Open          []answerOpen           `json:"open"`     // rules that lack a finding
		LCC           json.Number            `json:"life_cycle_cost"`
		AnnualWorth   json.Number            `json:"annual_worth"`
		WorthPerArea  json.Number            `json:"annual_worth_per_area"`
		First         json.Number            `json:"first_cost"`
		Residual      answerResidual         `json:"residual_value"`
		ByCategory    map[string]json.Number `json:"by_category"`
		Interventions []answerIntervention   `json:"interventions"`
		AgainstBase   *answerAgainst         `json:"against_base"`
		Ledger        []answerLine           `json:"ledger"`
	}
	answerOpen struct {
		Rule   string       `json:"rule"`
		Title  string       `json:"title"`
		Text   string       `json:"text"`
		Source string       `json:"source"`
		Needs  []answerNeed `json:"needs"`
	}
	answerNeed struct {
		What string `json:"what"`
		Next string `json:"next"`
		By   string `json:"by"`
	}
	answerResidual struct {
		Year   int         `json:"year"`
		Amount json.Number `json:"amount"`
		PV     json.Number `json:"present_value"`
	}
	answerIntervention struct {
		Year   int         `json:"year"`
		Action string      `json:"action"`
		System string      `json:"system"`
		Amount json.Number `json:"amount"`
		PV     json.Number `json:"present_value"`
	}
	answerAgainst struct {
		NetSavings json.Number       `json:"net_savings"`
		SIR        *json.Number      `json:"sir"`
		AIRR       *json.Number      `json:"airr"`
		Simple     *int              `json:"simple_payback"`
		Discounted *int              `json:"discounted_payback"`
		Undefined  map[string]string `json:"undefined"`
	}
	answerLine struct {
		Time     json.Number `json:"time"`
		Item     string      `json:"item"`
		System   string      `json:"system"`
		Category *string     `json:"category"`
		Kind     string      `json:"kind"`
		Base     json.Number `json:"base_amount"`
		Amount   json.Number `json:"amount"`
		PV       json.Number `json:"present_value"`
	}
)

// WriteAnswer writes the machine-readable answer as indented JSON.
func WriteAnswer(w io.Writer, in Study) error {
	t := tell(in)
	doc := answerDoc{
		Version: formatVersion, Study: t.answerStudy(), Answer: t.answerPart(),
		Alternatives: []answerAlternative{}, Warnings: []answerWarning{},
	}
	for i := range t.Alternatives {
		doc.Alternatives = append(doc.Alternatives, t.answerAlternative(&t.Alternatives[i]))
	}
	for _, warn := range slices.Concat(t.Warnings, t.reversals()) {
		doc.Warnings = append(doc.Warnings, answerWarning(warn))
	}
	doc.AfterTax = t.answerTax()
	return writeJSON(w, doc)
}

func (t *teller) answerStudy() answerStudy {
	about := t.study.About
	return answerStudy{
		Title: about.Title, BaseDate: about.BaseDate, Period: t.study.Period, Currency: about.Currency,
		Timing: t.study.Timing.String(), Basis: t.study.Basis.String(), Rate: ratio(t.Rate),
	}
}

func (t *teller) answerPart() answerPart {
	part := answerPart{Text: strings.Join(t.answerSentences(), " ")}
	if a := t.Answer; a.Lowest >= 0 {
		name := t.name(a.Lowest)
		part.Lowest = &name
	}
	if a := t.Answer; a.RunnerUp >= 0 {
		name, margin := t.name(a.RunnerUp), t.money(a.Margin)
		part.RunnerUp, part.Margin = &name, &margin
	}
	return part
}

func (t *teller) answerAlternative(o *lcc.Outcome) answerAlternative {
	out := answerAlternative{
		Name: o.Alternative.Name, BaseCase: o.Alternative.BaseCase, Eligible: o.Alternative.Eligible(),
		LCC: t.money(o.LCC), AnnualWorth: t.money(o.AnnualWorth), WorthPerArea: t.money(o.WorthPerArea), First: t.money(o.First),
		Residual:      answerResidual{o.Residual.Year, t.money(o.Residual.Amount), t.money(o.Residual.PV)},
		ByCategory:    map[string]json.Number{},
		Interventions: []answerIntervention{},
		Open:          []answerOpen{},
		AgainstBase:   t.answerAgainst(o.AgainstBase),
		Ledger:        []answerLine{},
	}
	for _, c := range o.Alternative.Open() {
		out.Open = append(out.Open, openOf(c))
	}
	for _, line := range o.Ledger {
		if line.Category != lcc.NoCategory {
			out.ByCategory[line.Category.String()] = t.money(o.ByCategory[line.Category])
		}
		out.Ledger = append(out.Ledger, t.answerLine(line))
	}
	for _, e := range o.Interventions {
		action := "install"
		if e.Recoat {
			action = "recoat"
		}
		out.Interventions = append(out.Interventions,
			answerIntervention{e.Year, action, t.study.Systems[e.System].Key, t.money(e.Amount), t.money(e.PV)})
	}
	return out
}

func openOf(c lcc.Check) answerOpen {
	out := answerOpen{Rule: c.Rule, Title: c.Title, Text: c.Text, Source: c.Source, Needs: []answerNeed{}}
	for _, n := range c.Missing {
		out.Needs = append(out.Needs, answerNeed(n))
	}
	return out
}

func (t *teller) answerLine(line lcc.Line) answerLine {
	out := answerLine{
		Time: json.Number(line.Time.Decimal().String()), Item: line.Item, System: t.study.Systems[line.System].Key,
		Kind: line.Kind.String(), Base: t.money(line.Base), Amount: t.money(line.Amount), PV: t.money(line.PV),
	}
	if line.Category != lcc.NoCategory {
		category := line.Category.String()
		out.Category = &category
	}
	return out
}

// answerAgainst is null for the base case, and where there is none.
func (t *teller) answerAgainst(c *lcc.Comparison) *answerAgainst {
	if c == nil {
		return nil
	}
	out := &answerAgainst{NetSavings: t.money(c.NetSavings), Undefined: map[string]string{}}
	measure := func(key string, m lcc.Measure) *json.Number {
		if !m.Defined() {
			out.Undefined[key] = m.Reason
			return nil
		}
		n := ratio(m.Value)
		return &n
	}
	payback := func(key string, p lcc.Payback) *int {
		if !p.Defined() {
			out.Undefined[key] = p.Reason
			return nil
		}
		return &p.Year
	}
	out.SIR, out.AIRR = measure("sir", c.SIR), measure("airr", c.AIRR)
	out.Simple, out.Discounted = payback("simple_payback", c.Simple), payback("discounted_payback", c.Discounted)
	return out
}

// reversals warns of paybacks that do not last.
func (t *teller) reversals() []lcc.Warning {
	var out []lcc.Warning
	for i := range t.Alternatives {
		c := t.Alternatives[i].AgainstBase
		if c == nil {
			continue
		}
		for _, p := range []struct {
			measure string
			payback lcc.Payback
		}{{"simple payback", c.Simple}, {"discounted payback", c.Discounted}} {
			if p.payback.Reversal > 0 {
				out = append(out, lcc.Warning{About: t.name(i), Text: fmt.Sprintf("%s in year %d does not last: %s", p.measure, p.payback.Year, reversalText(p.payback))})
			}
		}
	}
	return out
}

// money writes an amount with the currency's digits.
func (t *teller) money(d decimal.Decimal) json.Number {
	return json.Number(d.StringFixed(t.study.About.Digits))
}

// ratio writes a rate or a ratio with 8 decimals, or more where it has more.
func ratio(d decimal.Decimal) json.Number {
	return json.Number(d.StringFixed(max(8, -d.Exponent())))
}
