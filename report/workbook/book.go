package workbook

import (
	"fmt"

	"roofyears/lcc"
	"roofyears/report"
)

// book is a workbook before it is written.
type book struct {
	words   report.Words
	r       *lcc.Result
	s       *lcc.Study
	cur     report.Currency
	factors lcc.Factors
	curve   []lcc.RatePoint
	file    string // name of the study file; "" when there was none

	named  []namedCell
	inputs []string // names of the inputs' cells, by place
	mid    bool     // annual and periodic costs fall in the middle of their year

	sheetNames sheetNames
	cellNames  cellNames
	order      []*sheet

	answer, input, working, years, measure, payback, rates, factor, control, notes *sheet

	ledgers    []*ledger
	measures   measurePlaces
	checks     checkPlaces
	factorAt   factorPlaces
	derived    map[lcc.Ref]string // where the working of a derived input ends
	balances   map[int]balancePlaces
	answerHead int    // row of the heads of the answer's table
	rounding   string // name of the cell that keeps half units from being lost
}

// namedCell is a cell with a name.
type namedCell struct{ name, refersTo string }

// alternative is the name of an alternative.
func (b *book) alternative(i int) string { return b.r.Alternatives[i].Alternative.Name }

// all are the places of the alternatives.
func (b *book) all() []int {
	out := make([]int, len(b.r.Alternatives))
	for i := range out {
		out[i] = i
	}
	return out
}

// lay lays a workbook out. The points of the rate curve are at the given
// rates. What stands where depends on the spells of the chains only, so two
// vectors with the same spells have the same formulas.
func lay(study report.Study, curve []lcc.RatePoint) *book {
	b := &book{
		words: report.WordsOf(study), r: study.Result, s: study.Result.Study, factors: study.Result.Factors(), curve: curve,
		file: study.File.Name, sheetNames: sheetNames{}, cellNames: cellNames{},
		derived: map[lcc.Ref]string{}, balances: map[int]balancePlaces{},
	}
	b.cur, b.mid = b.words.Currency(), b.s.Timing == lcc.MidYear
	b.nameSheets()
	b.nameInputs()
	b.layWorkings()
	b.layInputs()
	b.layFactors()
	for i := range b.ledgers {
		b.layLedger(i)
	}
	b.layYears()
	b.layPayback()
	b.layMeasures()
	b.layRates()
	b.layControl()
	b.layNotes()
	b.layAnswer()
	return b
}

// nameSheets makes the sheets in their order.
func (b *book) nameSheets() {
	add := func(wanted string) *sheet {
		s := &sheet{name: b.sheetNames.name(wanted)}
		b.order = append(b.order, s)
		return s
	}
	b.answer, b.input = add("Answer"), add("Inputs")
	if len(b.s.Derived) > 0 {
		b.working = add("Workings")
	}
	at := len(b.order)
	b.measure = add("Measures")
	b.years = add("By year")
	if b.s.BaseCase() >= 0 && len(b.r.Alternatives) > 1 {
		b.payback = add("Paybacks")
	}
	b.rates, b.factor, b.control, b.notes = add("Rate curve"), add("Factors"), add("Control sums"), add("Notes")
	behind := append([]*sheet(nil), b.order[at:]...)
	b.order = b.order[:at]
	for i := range b.r.Alternatives {
		b.ledgers = append(b.ledgers, &ledger{sheet: add(fmt.Sprintf("%d %s", i+1, b.alternative(i)))})
	}
	b.order = append(b.order, behind...)
}

// name gives a name to a cell.
func (b *book) name(wanted, refersTo string) string {
	name := b.cellNames.name(wanted)
	b.named = append(b.named, namedCell{name, refersTo})
	return name
}

// rounded rounds an expression as a ledger line is rounded; see notes.go.
func (b *book) rounded(expression string) string {
	return fmt.Sprintf("ROUND(%s*(1+%s),%d)", expression, b.rounding, b.cur.Digits)
}

// footed rounds a sum of rounded amounts, whose last binary digits are lost.
func (b *book) footed(expression string) string {
	return fmt.Sprintf("ROUND(%s,%d)", expression, b.cur.Digits)
}

// rate is the discount rate for a formula.
func (b *book) rate() string { return b.inputs[b.s.Rate] }

// reliable are the digits that a spreadsheet keeps of a life or a number of
// packs before it rounds up to whole ones.
const reliable = 9

// wholeUp rounds an expression up to whole ones.
func wholeUp(expression string) string {
	return fmt.Sprintf("ROUNDUP(ROUND(%s,%d),0)", expression, reliable)
}
