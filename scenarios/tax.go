package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/tax"
)

// Limits of what is stated about tax.
const (
	maxCredits  = 20
	maxTaxYears = 100 // of a schedule, and of what is left of the roof that is there
	derivedWord = "derived"
)

var (
	taxRate     = measure{unit: lcc.Count, expected: expectTaxRate, low: decimal.Zero, high: decimal.New(95, -2), units: noUnit, share: true}
	taxShare    = measure{unit: lcc.Count, expected: expectShare, low: decimal.Zero, high: unity, units: noUnit, share: true}
	taxAmount   = measure{unit: lcc.Money, expected: expectTaxAmount, low: decimal.Zero, high: mostMoney, lowOpen: true, units: noUnit}
	taxLimit    = measure{unit: lcc.Money, expected: expectTaxLimit, low: decimal.Zero, high: mostMoney, units: noUnit}
	taxDiscount = measure{unit: lcc.Rate, expected: expectTaxDiscount, low: lcc.MinRate, high: lcc.MaxRate, lowOpen: true, units: noUnit}
)

// The words of a tax section.
var (
	labelKept    = tax.Kept.String()
	labelWritten = tax.WrittenOff.String()
	fates        = []string{labelKept, labelWritten}
	taxedOrNot   = []string{"untaxed", "taxed"}
)

// taxing is the reading of the tax section.
type taxing struct {
	*section
	terms tax.Terms
	used  []tax.Treatment // of all costs
	wrong bool            // a treatment of a cost was told to be wrong
}

// uses tells whether a cost has such a treatment.
func (t *taxing) uses(such func(tax.Treatment) bool) bool { return slices.ContainsFunc(t.used, such) }

// taxOf reads the tax section, when all systems are read. Without it nothing
// is said of tax, whatever treatments the costs have.
func (r *reader) taxOf(n *node) {
	s, ok := r.section(n, "tax", underTax, taxKeys)
	if !ok {
		return
	}
	t := &taxing{section: s}
	t.terms.Source = s.line("source")
	t.rate()
	t.discountRate()
	t.treatments()
	t.terms.Treatment = r.treatments
	t.existing()
	t.basisLeft()
	t.residualValue()
	t.atOnce()
	for i, v := range s.list("credits", maxCredits) {
		if c, ok := r.section(v, entry(s.sub("credits"), i), inCredit, creditKeys); ok {
			t.terms.Credits = append(t.terms.Credits, t.credit(c))
		}
	}
	t.plausible()
	r.tax = &t.terms
}

// rate reads one rate, or a federal and a state rate and how they go together.
func (t *taxing) rate() {
	n := t.need("rate")
	switch {
	case n == nil:
		return
	case n.shape != mapping:
		v, _ := t.r.plain(n, t.sub("rate"), taxRate)
		t.terms.Rate = tax.TaxRate{All: v.value}
		return
	}
	s, ok := t.r.section(n, t.sub("rate"), inTaxRate, taxRateKeys)
	if !ok {
		return
	}
	federal, known := t.r.plain(s.need("federal"), s.sub("federal"), taxRate)
	state, both := t.r.plain(s.need("state"), s.sub("state"), taxRate)
	s.need("state_deducted")
	t.terms.Rate = tax.Combined(federal.value, state.value, s.yes("state_deducted"))
	if known && both && t.terms.Rate.All.GreaterThan(taxRate.high) {
		t.r.fail(s.at, s.path, taxRateTooHigh(t.terms.Rate.All))
	}
}

// discountRate reads the after-tax discount rate, or that it is derived.
func (t *taxing) discountRate() {
	const key = "after_tax_discount_rate"
	n := t.need(key)
	if n == nil || n.shape == scalar && n.text == derivedWord {
		return
	}
	if n.shape == scalar && isWord(n.text) {
		t.r.fail(n.place, t.sub(key), notTaxDiscount(n.text))
		return
	}
	if v, ok := t.r.plain(n, t.sub(key), taxDiscount); ok {
		t.terms.AfterTax = &v.value
	}
}

// existing reads what is left of the roof that is there.
func (t *taxing) existing() {
	s, ok := t.r.section(t.get("existing_basis"), t.sub("existing_basis"), inExistingBasis, existingKeys)
	if !ok {
		return
	}
	left, _ := t.r.plain(s.need("amount"), s.sub("amount"), taxAmount)
	e := &tax.Existing{Basis: left.value, Source: s.line("source")}
	if n := s.need("years_left"); n != nil {
		e.Years, _ = t.r.wholeNumber(n, s.sub("years_left"), 1, maxTaxYears)
	}
	t.terms.Existing = e
}

// basisLeft reads what becomes of basis that is left. It has to be stated where
// anything is depreciated.
func (t *taxing) basisLeft() {
	used := t.terms.Existing != nil || t.uses(func(k tax.Treatment) bool { return k.Way == tax.Depreciated })
	for _, key := range []string{"torn_off", "at_end"} {
		if used && !t.has(key) {
			t.lacks(fateMissing(key), key)
		}
	}
	t.terms.TornOff, t.terms.AtEnd = t.fate("torn_off"), t.fate("at_end")
	switch {
	case t.terms.TornOff == tax.WrittenOff && !t.has("tear_offs"):
		t.lacks(tearOffsMissing(), "tear_offs")
	case t.terms.TornOff != tax.WrittenOff && t.has("tear_offs"):
		t.r.fail(t.place("tear_offs"), t.path, tearOffsUnused())
	default:
		t.tearOffs()
	}
}

func (t *taxing) fate(key string) tax.Fate {
	return tax.Fate(1 + t.word(key, fates))
}

// tearOffs reads the systems that take off what is on the roof.
func (t *taxing) tearOffs() {
	named := t.list("tear_offs", maxSystems)
	if n := t.values["tear_offs"]; n != nil && n.shape == list && len(named) == 0 {
		t.r.fail(n.place, t.sub("tear_offs"), tearOffsMissing())
	}
	for i, n := range named {
		if at, ok := t.r.systemIn(n, entry(t.sub("tear_offs"), i)); ok && !slices.Contains(t.terms.TearOffs, at) {
			t.terms.TearOffs = append(t.terms.TearOffs, at)
		}
	}
}

// residualValue reads whether residual value is taxed. Basis that is written off
// at the end is set against it, so then it is.
func (t *taxing) residualValue() {
	t.need("residual_value")
	i := t.word("residual_value", taxedOrNot)
	t.terms.Residual = i == 1
	if i == 0 && t.terms.AtEnd == tax.WrittenOff {
		t.r.fail(t.values["residual_value"].place, t.sub("residual_value"), untaxedThoughWrittenOff())
	}
}

// atOnce reads the limit of what is deducted at once in a year.
func (t *taxing) atOnce() {
	used := t.uses(func(k tax.Treatment) bool { return k.AtOnce })
	switch {
	case used && !t.has("immediate_limit"):
		t.lacks(limitMissing(), "immediate_limit")
	case !used && !t.wrong && t.has("immediate_limit"):
		t.r.fail(t.place("immediate_limit"), t.path, limitUnused())
	}
	v, _ := t.r.plain(t.get("immediate_limit"), t.sub("immediate_limit"), taxLimit)
	t.terms.Limit = v.value
}

// credit reads a tax credit or a rebate.
func (t *taxing) credit(s *section) tax.Credit {
	c := tax.Credit{Name: s.needLine("item"), Source: s.line("source")}
	if s.need("system") != nil {
		c.System, _ = t.r.systemNamed(s, "system")
	}
	amount, _ := t.r.plain(s.need("amount"), s.sub("amount"), taxAmount)
	reduces, _ := t.r.plain(s.need("reduces_basis"), s.sub("reduces_basis"), taxShare)
	c.Amount, c.Reduces = amount.value, reduces.value
	s.need("taxed")
	c.Taxed = s.yes("taxed")
	if n := s.need("until"); n != nil {
		c.Until, _ = t.r.wholeNumber(n, s.sub("until"), 0, max(0, t.r.study.Period-1))
	}
	return c
}

// plausible looks at what the terms mean for the study.
func (t *taxing) plausible() {
	study := t.r.study
	if study.Basis == lcc.Real && study.Inflation == lcc.NoRef && !t.r.inflationStated {
		t.r.fail(t.at, t.path, taxWithoutInflation())
	}
	if t.r.failed() {
		return
	}
	if _, err := t.terms.Rates(study, study.Likely()); err != nil {
		t.r.fail(t.values["after_tax_discount_rate"].place, t.sub("after_tax_discount_rate"), noTaxDiscount(err))
	}
	for _, i := range t.terms.TearOffs {
		if y := &study.Systems[i]; slices.ContainsFunc(y.First, t.expensed) {
			t.r.suspect(t.place("tear_offs"), t.path, expensedThoughWrittenOff(y.Key))
		}
	}
}

// expensed tells a construction cost that is deducted in its year.
func (t *taxing) expensed(it lcc.Item) bool {
	return it.Category == lcc.Construction && it.Tax > 0 && t.terms.Treatment[it.Tax-1].Way == tax.Expensed
}
