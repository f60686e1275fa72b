package workbook

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"roofyears/lcc"
	"roofyears/lcc/tax"
	"roofyears/report"
)

func TestSameBytesOnEveryRun(t *testing.T) {
	study := example(t, "cold-store")
	first := plainly(t, "", study).file
	for range 5 {
		assert.True(t, bytes.Equal(first, plainly(t, "", study).file))
	}
}

// Every number past the inputs is a formula: but for years, which are laid
// out, the rates of the curve's start and step, and the aid to rounding.
func TestEveryFigurePastTheInputsIsAFormula(t *testing.T) {
	study := example(t, "school")
	b := plainly(t, "", study).want
	found := 0
	for _, s := range b.order {
		for r, line := range s.cells {
			for c, cell := range line {
				if _, ok := cell.value.(decimal.Decimal); !ok || cell.formula != "" {
					continue
				}
				found++
				year := c == 0 || (c == 1 && cell.style.form == whole) || c+1 == ofLaidOut
				assert.True(t, cell.style.look == input || year && (cell.style.form == general || cell.style.form == whole),
					"%s!%s holds a number", s.name, here(r+1, c+1))
			}
		}
	}
	assert.Greater(t, found, 100)
}

// What a program shows that does not compute is what the ledgers hold.
func TestValuesInTheFileAreThoseOfTheLedgers(t *testing.T) {
	for _, name := range []string{"cold-store", "school"} {
		study := example(t, name)
		tr := plainly(t, name, study)
		f, err := excelize.OpenReader(bytes.NewReader(tr.file))
		require.NoError(t, err)
		tr.want.compare(t, name, f)
		for i, l := range tr.want.ledgers {
			rows, err := f.GetRows(l.name, excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			next := 0
			for _, row := range rows[l.first-1 : l.last] {
				if len(row) < ofPV || row[ofPV-1] == "" || row[ofPV-1] == "0" && next == len(study.Result.Alternatives[i].Ledger) {
					continue // an event, or what is used up
				}
				line := study.Result.Alternatives[i].Ledger[next]
				next++
				assert.Equal(t, []string{line.Time.Decimal().String(), line.Item, line.Base.String(), line.Amount.String(), line.PV.String()},
					[]string{row[ofYear-1], row[ofItem-1], row[ofBase-1], row[ofAmount-1], row[ofPV-1]})
			}
			assert.Equal(t, len(study.Result.Alternatives[i].Ledger), next)
			lcc, err := f.GetCellValue(tr.want.measure.name, here(tr.want.measures.lcc, 2+i), excelize.Options{RawCellValue: true})
			require.NoError(t, err)
			assert.Equal(t, study.Result.Alternatives[i].LCC.String(), lcc)
		}
		require.NoError(t, f.Close())
	}
}

// The answer is said in the words of the page.
func TestAnswerIsThePagesOwn(t *testing.T) {
	said := 0
	check := func(study report.Study) {
		b := plainly(t, "", study).want
		page := report.AnswerText(study)
		for i, sentence := range b.answerSentences() {
			text := strings.TrimSuffix(sentence.text, ".")
			if i == 0 { // the page may go on within the sentence
				text, _, _ = strings.Cut(text, ", but only ")
			}
			assert.Contains(t, page, text)
			said++
		}
	}
	check(example(t, "cold-store"))
	check(example(t, "school"))
	for seed := uint64(1); seed <= randomCount; seed++ {
		r, err := randomStudy(seed).Evaluate()
		require.NoError(t, err)
		check(report.Study{Result: r})
	}
	assert.Greater(t, said, 2*randomCount/2)
}

func TestFormulasAreWithinTheLimitsOfTheFormat(t *testing.T) {
	r, err := hostileStudy().Evaluate()
	require.NoError(t, err)
	for _, study := range []report.Study{{Result: r}, example(t, "cold-store"), example(t, "school")} {
		for _, part := range parts(t, plainly(t, "", study).file) {
			for _, f := range formulas(part) {
				assert.LessOrEqual(t, utf8.RuneCountInString(f), longestFormula)
				for _, text := range literalText.FindAllString(f, -1) {
					assert.LessOrEqual(t, utf8.RuneCountInString(text)-2, longestLiteral)
				}
			}
		}
	}
}

// plainStudy is a study of one system that costs so much.
func plainStudy(name, amount, life string) *lcc.Study {
	s := &lcc.Study{Inflation: lcc.NoRef, Period: 20, About: lcc.About{Currency: "USD", Digits: 2, AreaUnit: "ft2", BaseDate: "2026-10-01"}}
	in := func(path string, unit lcc.Unit, v string) lcc.Ref {
		return s.Add(lcc.Input{Path: path, Unit: unit, Likely: decimal.RequireFromString(v)})
	}
	s.Rate, s.Area = in("study.discount_rate", lcc.Rate, "0.03"), in("roof.area", lcc.Area, "1")
	item := lcc.Item{Name: name, Price: in("price", lcc.Money, amount), Quantity: lcc.NoRef, Growth: lcc.NoRef}
	s.Systems = []lcc.System{{Key: "s", Name: "s", Life: in("systems.s.life", lcc.Years, life), First: []lcc.Item{item}}}
	s.Alternatives = []lcc.Alternative{{Name: "one"}}
	return s
}

func TestRefusals(t *testing.T) {
	many := plainStudy("item", "1", "25")
	many.Alternatives = make([]lcc.Alternative, 3300)
	for _, test := range []struct {
		name string
		s    *lcc.Study
		want string
	}{
		{"digits", plainStudy("item", "9999999999999.99", "5"), `the amounts of "one" add up to`},
		{"digits", plainStudy("item", "9999999999999.99", "5"), `a spreadsheet keeps 15 digits, with 2 after the point up to 10000000000000`},
		{"a life", plainStudy("item", "1", "7.0000000001"), "systems.s.life is 7.0000000001 years; a spreadsheet cannot tell that from 7"},
		{"a text", plainStudy(strings.Repeat("x", longestText+1), "1", "25"), `sheet "1 one", cell C7: a text has 32768 characters; a cell holds 32767`},
		{"columns", many, "3,300 alternatives need 16502 columns; a sheet has 16384"},
	} {
		r, err := test.s.Evaluate()
		require.NoError(t, err)
		err = Write(io.Discard, report.Study{Result: r})
		var refusal Refusal
		require.ErrorAs(t, err, &refusal, test.name)
		assert.Contains(t, err.Error(), test.want)
	}
	for _, life := range []string{"7", "6.9999", "7.0001", "0.01", "1000000"} {
		r, err := plainStudy("item", "1", life).Evaluate()
		require.NoError(t, err)
		assert.NoError(t, Write(io.Discard, report.Study{Result: r}), life)
	}
}

// BenchmarkWrite writes the workbook of a large study: sixteen alternatives
// over two hundred years.
func BenchmarkWrite(b *testing.B) {
	s := randomStudy(3)
	for s.Period = lcc.MaxPeriod; len(s.Alternatives) < 16; {
		s.Alternatives = append(s.Alternatives, lcc.Alternative{Name: fmt.Sprintf("more %d", len(s.Alternatives)), Start: len(s.Alternatives) % len(s.Systems)})
	}
	for c := range s.Escalation {
		s.Escalation[c] = nil
	}
	r, err := s.Evaluate()
	require.NoError(b, err)
	var size int64
	for b.Loop() {
		var out bytes.Buffer
		require.NoError(b, Write(&out, report.Study{Result: r}))
		size = int64(out.Len())
	}
	b.ReportMetric(float64(size), "bytes")
}

// A workbook has no figures after tax, and says so where the study has tax terms.
func TestWithTaxTermsTheWorkbookSaysThatItIsBeforeTax(t *testing.T) {
	said := func(b *book, s *sheet) string {
		var out []string
		for _, line := range s.cells {
			for _, c := range line {
				if text, ok := c.value.(string); ok {
					out = append(out, text)
				}
			}
		}
		return strings.Join(out, "\n")
	}
	study := example(t, "cold-store")
	plain := plainly(t, "no terms", study).want
	study.Tax = &tax.Result{}
	taxed := plainly(t, "terms", study).want
	const before = "All figures here are before tax."
	for k, s := range []*sheet{taxed.answer, taxed.notes} {
		assert.Contains(t, said(taxed, s), before)
		assert.NotContains(t, said(plain, []*sheet{plain.answer, plain.notes}[k]), "before tax")
	}
}

// Every ledger says which money its amounts are in.
func TestLedgersSayWhichMoney(t *testing.T) {
	b := plainly(t, "cold-store", example(t, "cold-store")).want
	for _, l := range b.ledgers {
		assert.Contains(t, l.cells[2][0].value, "All amounts are in USD; escalated amounts are in constant money of the base date")
	}
}
