package report

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/plan"
	"roofyears/lcc/risk"
)

// MostRoofsOnPage is how many roofs a page about many roofs may have; a larger
// one opens too slowly.
const MostRoofsOnPage = 20_000

// ManyID is the section by which a page about many roofs is told from that of
// one study.
const ManyID = "roof-pages"

// RoofsPage is what a page about many roofs is made from.
type RoofsPage struct {
	Roofs     *Roofs
	Rows      []*Roof           // in the order of the table
	Totals    RoofTotals        // of Rows
	Plan      *plan.Plan        // over Rows; nil when none is asked for
	Risk      *risk.RoofsResult // of Rows; nil when none is asked for, or there are several templates
	Table     string            // name of the file with the table
	Templates []string          // names of the files of the studies, in their order
	Rates     bool              // the discount rate differs from roof to roof
	Empty     []EmptyCells
	Far       []FarCells
	Rejected  int    // rows of the table that could not be done
	Version   string // of the program; "" when unknown
	Paper     Paper
}

// EmptyCells says in how many rows the template's value holds, as the cell in
// a column is empty.
type EmptyCells struct {
	Head  string
	Count int
}

// FarCells says how many cells of a column are over so many times the
// template's value, or less than it by as much, and which is the first.
type FarCells struct {
	Head   string
	Count  int
	Row    int // line of the table
	Text   string
	Factor int
}

// Line is the sentence about them; it ends without a full stop.
func (f *FarCells) Line() string {
	which, first := "cell is", "in line"
	if f.Count > 1 {
		which, first = "cells are", "the first in line"
	}
	return fmt.Sprintf("%s: %d %s over %d times the template’s value or under a %dth of it, %s %d: “%s”; check the unit and the decimal point",
		f.Head, f.Count, which, f.Factor, f.Factor, first, f.Row, strings.TrimSpace(f.Text))
}

// BuildRoofs makes the document of many roofs: what each one's lowest
// alternative comes to, the plan, and the roofs by what they save. Its sums are
// those of the rows, to the minor unit.
func BuildRoofs(in RoofsPage) *Document {
	t := tellRoofs(in)
	sections := []Section{t.answerSection(), t.totalsSection()}
	if in.Plan != nil {
		sections = append(sections, t.planSections()...)
	}
	sections = append(sections, t.spreadSections()...)
	sections = append(sections, t.mapSections()...)
	sections = append(sections, t.rankingSection(), t.basisSection(), t.methodSection(), cautionsSection(opinionText+" Local codes, the licensed designer and the authority having jurisdiction decide what may be done to each roof.", ""), t.pagesSection())
	return &Document{
		Title: t.title(), Currency: t.cur, Facts: t.facts(), Version: in.Version,
		Sections: sections, Paper: in.Paper, Wide: true,
	}
}

// roofsTeller holds what every section builder of a page about many roofs
// needs.
type roofsTeller struct {
	RoofsPage
	study  *lcc.Study // the first template
	cur    Currency
	ranked []rankedRoof // in the order of the ranking
}

func tellRoofs(in RoofsPage) *roofsTeller {
	study := in.Roofs.studies[0]
	in.Table = oneLine(in.Table)
	t := &roofsTeller{RoofsPage: in, study: study, cur: Currency{Code: study.About.Currency, Digits: study.About.Digits}}
	t.ranked = t.rank()
	return t
}

// minor is an amount in minor units as a number.
func (t *roofsTeller) minor(minor int64) decimal.Decimal { return decimal.New(minor, -t.cur.Digits) }

func (t *roofsTeller) sum(minor *MinorSum) decimal.Decimal {
	return decimal.NewFromBigInt(minor.Big(), -t.cur.Digits)
}

// amount writes an amount in minor units for a sentence.
func (t *roofsTeller) amount(minor int64) string { return t.cur.Amount(t.minor(minor)) }

// name is the name of an alternative of a roof.
func (t *roofsTeller) name(r *Roof, i int) string { return r.Study.Alternatives[i].Name }

// called is what people call a roof.
func called(r *Roof) string {
	if name := oneLine(r.Name); name != "" {
		return name
	}
	return oneLine(r.ID)
}

// roofCell names a roof, and leads to its own page where it has one.
func roofCell(r *Roof) Cell { return Cell{Text: called(r), Link: r.Link} }

// named tells whether roofs have names besides their ids.
func (t *roofsTeller) named() bool {
	for _, r := range t.Rows {
		if oneLine(r.Name) != "" {
			return true
		}
	}
	return false
}

// roofColumns and roofCells name a roof at the head of a row: by its name, then
// its id, or by the id alone where no roof has a name.
func (t *roofsTeller) roofColumns() []Column {
	if t.named() {
		return []Column{words("Roof"), {Head: "Id", Unbroken: true}}
	}
	return []Column{words("Roof")}
}

func (t *roofsTeller) roofCells(r *Roof) []Cell {
	if t.named() {
		return []Cell{roofCell(r), text(oneLine(r.ID))}
	}
	return []Cell{roofCell(r)}
}

// title says how many roofs the page is about, and whose.
func (t *roofsTeller) title() string {
	whose := t.shared(func(a *lcc.About) string { return a.PreparedFor })
	if whose == "" {
		whose = t.Table
	}
	return fmt.Sprintf("%s of %s", Plural(len(t.Rows), "roof"), whose)
}

// shared is what all templates say alike; "" where they differ.
func (t *roofsTeller) shared(of func(*lcc.About) string) string {
	out := of(&t.study.About)
	for _, study := range t.Roofs.studies {
		if of(&study.About) != out {
			return ""
		}
	}
	return out
}

// facts say who asks, who answers, as of when, and about how much roof.
func (t *roofsTeller) facts() []Fact {
	var out []Fact
	add := func(label, text string) {
		if text != "" {
			out = append(out, Fact{label, text})
		}
	}
	add("Prepared for", t.shared(func(a *lcc.About) string { return a.PreparedFor }))
	add("Prepared by", t.shared(func(a *lcc.About) string { return a.PreparedBy }))
	add("Prepared on", t.shared(func(a *lcc.About) string { return a.PreparedOn }))
	add("Prices valid until", t.shared(func(a *lcc.About) string { return a.ValidUntil }))
	add("Base date", t.study.About.BaseDate)
	add("Study period", Plural(t.study.Period, "year"))
	add("Discount rate", t.rateText())
	if area, ok := t.area(); ok {
		add("Roofs", fmt.Sprintf("%s, %s in plan", Plural(len(t.Rows), "roof"), area.Show(t.cur)))
	}
	return out
}

// area is the plan area of all roofs, the sum of the areas as they are shown;
// false where they have not one unit.
func (t *roofsTeller) area() (Cell, bool) {
	sum := decimal.Zero
	for _, r := range t.Rows {
		sum = sum.Add(planArea(r).Number)
	}
	unit := t.shared(func(a *lcc.About) string { return a.AreaUnit })
	return Cell{Kind: QuantityCell, Number: sum, Digits: areaDigits, Unit: unitSign(unit)}, unit != ""
}

// planArea is the plan area of a roof in hundredths of the unit, as a plan
// counts it.
func planArea(r *Roof) Cell {
	return Cell{Kind: QuantityCell, Number: r.Area.Round(areaDigits), Digits: areaDigits}
}

// areaDigits is how many decimals of an area are shown at most.
const areaDigits = 2

// rateText is the discount rate, where there is one for all roofs.
func (t *roofsTeller) rateText() string {
	rate := t.study.Inputs[t.study.Rate].Likely
	if t.rateDiffers() {
		return t.study.Basis.String() + ", each roof its own"
	}
	return Percent(rate, 4) + " " + t.study.Basis.String()
}

// rateDiffers tells whether not all roofs have one discount rate.
func (t *roofsTeller) rateDiffers() bool {
	rate := t.study.Inputs[t.study.Rate].Likely
	for _, study := range t.Roofs.studies {
		if !study.Inputs[study.Rate].Likely.Equal(rate) {
			return true
		}
	}
	return t.Rates
}

// termsOf is the period and the rate in words.
func (t *roofsTeller) termsOf() string {
	rate := fmt.Sprintf("a %s discount rate of %s", t.study.Basis, Percent(t.study.Inputs[t.study.Rate].Likely, 4))
	if t.rateDiffers() {
		rate = fmt.Sprintf("each roof’s own %s discount rate", t.study.Basis)
	}
	return fmt.Sprintf("over %s at %s", Plural(t.study.Period, "year"), rate)
}
