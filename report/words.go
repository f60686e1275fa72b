package report

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// The labels of measures, for writers that lay them out in a way of their own.
const (
	LabelLCC                = lccLabel
	LabelAnnualWorth        = worthLabel
	LabelNetSavings         = savingsLabel
	LabelSIR                = sirLabel
	LabelAIRR               = airrLabel
	LabelSimplePayback      = simpleLabel
	LabelDiscountedPayback  = discountLabel
	LabelStanding           = standing
	TextBaseCase            = isBaseCase
	TextRuledOut            = standsRuledOut
	TextNotDefined          = notDefined
	TextNotReached          = notReached
	TextNoSource            = noSource
	LabelResidualInCategory = residualCategory
)

// Words are a report's words about one study, for writers that lay its figures
// out in another form than a document.
type Words struct{ t *teller }

// WordsOf gives the words about a study.
func WordsOf(in Study) Words { return Words{tell(in)} }

// Currency formats the study's amounts.
func (w Words) Currency() Currency { return w.t.cur }

// About says who asks, who answers, as of when and over which period.
func (w Words) About() []Fact { return w.t.aboutFacts() }

// Question is the owner's question.
func (w Words) Question() string { return w.t.question() }

// Part is a part of the life-cycle cost; the parts together are the whole.
type Part struct {
	Label, Short string // in tables, in charts
	Sum          []decimal.Decimal
}

// Parts are the parts of every alternative's life-cycle cost, in present
// values: first cost, later work, running costs, residual value as a credit.
func (w Words) Parts() []Part {
	var out []Part
	for _, g := range parts() {
		p := Part{Label: g.label, Short: g.short}
		for i := range w.t.Alternatives {
			p.Sum = append(p.Sum, g.of(&w.t.Alternatives[i]))
		}
		out = append(out, p)
	}
	return out
}

// PerArea labels the annual worth of a unit of plan area.
func (w Words) PerArea() string { return perAreaLabel + w.t.areaUnit() + " of roof" }

// MoneyOf says which money amounts are in.
func (w Words) MoneyOf() string { return w.t.moneyOf() }

// Stands says of an alternative whether it may be chosen, as it would if it
// were the lowest or not.
func (w Words) Stands(i int, lowest bool) string { return w.t.standsText(i, lowest) }

// RuledOut tells which alternatives may not be chosen, and why.
func (w Words) RuledOut() []string { return w.t.ruledOutList() }

// RuledOutBy says in short what rules an alternative out, which something does.
func (w Words) RuledOutBy(i int) string { return w.t.ruledOutBy(i) }

// Unshown warns that an alternative is not shown to be allowed; "" when
// nothing is known to be missing.
func (w Words) Unshown(i int) string { return w.t.unshownSentence(i) }

// Story tells in one sentence what happens to the roof under an alternative.
func (w Words) Story(i int) string { return w.t.story(i) }

// Calendar is the calendar year of a study year; 0 when there is no base date.
func (w Words) Calendar(year int) int {
	if w.t.baseYear() == 0 {
		return 0
	}
	return w.t.baseYear() + year
}

// Event names what a spell starts with.
func (w Words) Event(p lcc.Spell) string {
	if p.Begin == lcc.Kept {
		return "Kept: " + w.t.system(p.System)
	}
	return w.t.workOf(lcc.Intervention{Recoat: p.Begin == lcc.Recoated, System: p.System})
}

// Kind names why a ledger line is paid.
func (w Words) Kind(k lcc.Kind) string { return kindText(k) }

// Category names the category of a ledger line.
func (w Words) Category(c lcc.Category) string { return categoryText(c) }

// Unit is what an input is measured in: USD per ft².
func (w Words) Unit(in lcc.Ref) string {
	input := &w.t.study.Inputs[in]
	switch input.Unit {
	case lcc.Rate:
		return "a year"
	case lcc.Years:
		return "years"
	case lcc.Money:
		return w.t.cur.Code
	case lcc.Price:
		return w.t.cur.Code + " " + unitText(input)
	}
	if input.UnitText == "%" {
		return ""
	}
	return unitSign(input.UnitText)
}

// Range is the range or the distribution of an input.
func (w Words) Range(in lcc.Ref) string { return w.t.inputRange(&w.t.study.Inputs[in]) }

// Settings are the conventions and whole numbers of the study.
func (w Words) Settings() []Fact {
	var out []Fact
	for _, row := range w.t.settingTable().Rows {
		out = append(out, Fact{row.Cells[0].Text, row.Cells[1].Text})
	}
	return out
}

// Remarks are what is suspicious about the study, as sentences.
func (w Words) Remarks() []string { return w.t.remarks() }

// Method says how the figures come about, but for how numbers are rounded; here
// names the discount rate.
func (w Words) Method(here string) []string { return w.t.methodItems(here) }

// Opinion is the caution of what a comparison of costs is not.
func (w Words) Opinion() string { return w.t.opinionCaution() }

// Reversed tells what comes after a payback that does not last.
func Reversed(p lcc.Payback) string { return reversalText(p) }

// BeforeTax says of a writer that leaves tax out that it does, and where the
// figures after tax are; "" where the study states no tax terms.
func (w Words) BeforeTax() string {
	if w.t.Tax == nil {
		return ""
	}
	return "All figures here are before tax. The study states tax terms: the report of the same study has a section after tax."
}

// CurveStep is the distance of two points of the rate curve.
func (w Words) CurveStep() decimal.Decimal { return w.t.curveStep() }

// MoneyPaid says in which money payments by year are.
func (w Words) MoneyPaid() string { return w.t.moneyPaid() }
