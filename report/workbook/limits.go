package workbook

import (
	"fmt"
	"unicode/utf16"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
)

// Refusal says why a spreadsheet cannot hold a study, and which limit it is
// that the study passes.
type Refusal struct{ text string }

// Error says what passes which limit.
func (r Refusal) Error() string { return r.text }

func refuse(format string, args ...any) error { return Refusal{fmt.Sprintf(format, args...)} }

// The limits of the file format and of the numbers in it.
const (
	mostRows       = 1_048_576
	mostColumns    = 16_384
	longestText    = 32_767 // UTF-16 units in a cell
	longestFormula = 8_192  // characters
	mostDigits     = 15     // of an amount in minor units: what a spreadsheet shows and keeps
)

// fits tells, before anything is laid out, what a spreadsheet cannot hold.
func fits(study report.Study, curve []lcc.RatePoint) error {
	r := study.Result
	if columns := 2 + 5*len(r.Alternatives); columns > mostColumns {
		return refuse("%s need %d columns; a sheet has %d", report.Plural(len(r.Alternatives), "alternative"), columns, mostColumns)
	}
	for i := range r.Alternatives {
		o := &r.Alternatives[i]
		if rows := len(o.Ledger) + 2*len(o.Spells) + 100; rows > mostRows {
			return refuse("the ledger of %q has %s; a sheet has %d rows", o.Alternative.Name, report.Plural(len(o.Ledger), "line"), mostRows)
		}
		if err := digits(r.Study, o); err != nil {
			return err
		}
	}
	return roundings(r)
}

// digits refuses amounts of more digits than a spreadsheet's numbers have.
func digits(s *lcc.Study, o *lcc.Outcome) error {
	most := decimal.New(1, mostDigits-s.About.Digits)
	all := decimal.Zero
	for _, line := range o.Ledger {
		all = all.Add(decimal.Max(line.Base.Abs(), line.Amount.Abs(), line.PV.Abs(), line.Current.Abs()))
	}
	if all.GreaterThanOrEqual(most) {
		return refuse("the amounts of %q add up to %s; a spreadsheet keeps %d digits, with %d after the point up to %s",
			o.Alternative.Name, all.Round(0), mostDigits, s.About.Digits, most)
	}
	return nil
}

// roundings refuses a life that lies so close to a whole number that a
// spreadsheet cannot tell on which side.
func roundings(r *lcc.Result) error {
	whole := func(x decimal.Decimal) decimal.Decimal { return x.Round(reliable).Ceil() }
	for i := range r.Alternatives {
		for _, p := range r.Alternatives[i].Spells {
			in := r.Study.LifeAt(p.Slot)
			if life := r.Inputs[in]; !whole(life).Equal(life.Ceil()) {
				return refuse("%s is %s years; a spreadsheet cannot tell that from %s", r.Study.Inputs[in].Path, life, whole(life))
			}
		}
	}
	return nil
}

// fits tells what of a laid-out workbook is too large for its place, or cannot
// be told by a spreadsheet.
func (b *book) fits() error {
	for i := range b.s.Derived {
		if err := b.packs(&b.s.Derived[i]); err != nil {
			return err
		}
	}
	for _, s := range b.order {
		if len(s.cells) > mostRows {
			return refuse("the sheet %q needs %d rows; a sheet has %d", s.name, len(s.cells), mostRows)
		}
		for r, line := range s.cells {
			for c := range line {
				if err := line[c].fits(); err != nil {
					return refuse("sheet %q, cell %s: %s", s.name, here(r+1, c+1), err)
				}
			}
		}
	}
	return nil
}

func (c *cell) fits() error {
	if text, ok := c.value.(string); ok {
		if n := len(utf16.Encode([]rune(text))); n > longestText {
			return fmt.Errorf("a text has %d characters; a cell holds %d", n, longestText)
		}
	}
	if n := len(c.formula); n > longestFormula {
		return fmt.Errorf("a formula has %d characters; a cell holds %d", n, longestFormula)
	}
	return nil
}

// packs refuses a number of packs so close to a whole one that a spreadsheet
// cannot tell on which side it lies.
func (b *book) packs(d *lcc.Derivation) error {
	if !d.Pack.IsPositive() {
		return nil
	}
	needed := decimal.Zero
	for _, term := range d.Terms {
		needed = needed.Add(b.product(term))
	}
	packs := decimal.Max(decimal.Zero, needed.DivRound(d.Pack, 40))
	if bought := packs.Round(reliable).Ceil().Mul(d.Pack); !bought.Equal(b.r.Inputs[d.In]) {
		return refuse("%s needs %s packs; a spreadsheet cannot tell whether that is a whole number", b.s.Inputs[d.In].Path, packs)
	}
	return nil
}
