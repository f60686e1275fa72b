package workbook

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// nudgeRow is the row of the one constant of the method of this workbook.
const nudgeRow = 4

// nudge is by how much products are raised before they are rounded, so that
// half a unit is not taken for less. It is far more than what a product of
// binary numbers loses, and far less than what is rounded.
var nudge = decimal.New(4, -15)

// layNotes says how the figures come about, what the workbook follows and
// where it may differ from the ledgers.
func (b *book) layNotes() {
	s := b.notes
	const last = 4
	s.widths = []float64{40, 22, 22, 22}
	s.row(1, label("Notes on method", title))
	from := "Made by roofyears"
	if b.file != "" {
		from += " from the study file “" + b.file + "”"
	}
	s.text(2, last, label(from+". The study file stays the source: what is changed here does not go back into it.", wrapped))
	s.row(nudgeRow, label("Rounding aid (name: "+b.rounding+")", wrapped), data(nudge, style{look: input}))
	row := 6
	row = b.layList(s, row, "What this workbook follows", b.followed(), last)
	row = b.layList(s, row, "Rounding", b.roundingNotes(), last)
	row = b.layList(s, row, "Method", b.words.Method(fmt.Sprintf("here the one named %s (%s)", b.rate(), b.s.Basis)), last)
	cautions := []string{b.words.Opinion()}
	if text := b.words.BeforeTax(); text != "" {
		cautions = append(cautions, text)
	}
	b.layList(s, row, "Cautions", cautions, last)
}

func (b *book) followed() []string {
	out := []string{
		"Every figure past the inputs is a formula: change a rate, a price, a quantity or an escalation, and ledgers, life-cycle costs, annual worths, net savings, ratios, paybacks, the rate curve and the answer follow.",
		"Years of work are laid out as the study's service lives give them. Beside each is a formula with the year in which the life runs out: the year of the work before it plus the life, rounded up to whole years. A life may change as long as it gives the same years, and residual values follow it; past that, the checks turn red, because other lines of cost would be needed.",
		"What is no estimate stays as it is: the study period, the number of recoats, the intervals of periodic costs, waits, what follows what, and which alternatives are ruled out. Change the study file and make the workbook again.",
		"The rate curve begins at a rate and goes in steps that can be changed on its sheet. Every line is discounted and rounded at each rate, as in the ledgers.",
		"Ranges are for information: the workbook does not simulate. What would change the answer, and how sure it is, is said by the report of the same study.",
	}
	if b.working != nil {
		out = append(out, "Inputs that follow from others, as quantities of the survey, whole packs of material or the life that a film gives, are formulas on the sheet “"+b.working.name+"”.")
	}
	return out
}

func (b *book) roundingNotes() []string {
	return []string{
		"Each line's amounts are rounded once, half a unit away from zero; a present value is rounded from the amount before rounding. Totals are sums of rounded lines, so every column foots.",
		fmt.Sprintf("A spreadsheet computes in binary numbers of some 16 digits, the ledgers of roofyears in decimal ones of 50. Where a product is exactly half a unit of the last digit, a spreadsheet may hold it a hair below; so an amount is raised by the share %s of itself, the rounding aid above, before it is rounded. On the other hand, an amount that lies below half a unit by less than that is rounded up: for an amount of a million, one in some two million lines differs by one unit of the last digit.", "4E-15"),
		fmt.Sprintf("Lives and numbers of packs are read to %d decimals before they are rounded up to whole ones.", reliable),
		"The values that the file holds for its formulas are those of roofyears' own ledgers, for programs that show a workbook without computing it; any other program computes them anew.",
	}
}
