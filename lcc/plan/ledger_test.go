package plan

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/scenarios"
)

// variants are templates whose works cost at other times and in other money:
// credits and removals, fractions of a cent, current money, a study of
// mid-year timing, an alternative that waits by itself.
func variants(t require.TestingT) map[string]string {
	credit := "    then: tear_off\n\n  restoration:"
	removal := "    removal:\n      - {item: Strip the old roof, unit_price: 1.115, per: area}\n      - {item: Scrap, unit_price: -0.335, per: area, category: disposal}\n"
	scrap := "    removal:\n      - {item: Copper for scrap, unit_price: -9.015, per: area, category: disposal}\n"
	early := "recoat:\n      at_most: 1\n      life: {low: 7, likely: 10, high: 13}"
	return map[string]string{
		"as it is": exampleText(t),
		"removal":  exampleText(t, credit, removal+credit),
		"scrap": exampleText(t, credit, scrap+credit, "life: {low: 9, likely: 13, high: 17, source: common practice}", "life: 1",
			"life: {low: 7, likely: 10, high: 13}", "life: 1"), // and recoated in the next year
		"current money":  exampleText(t, "rate_basis: real", "rate_basis: nominal", "{energy: 0.5%}", "{energy: 0.5%, construction: 3.7%}", credit, removal+credit),
		"mid-year":       exampleText(t, "end-of-year", "mid-year", "unit_price: 3.05", "unit_price: 3.055"),
		"early recoat":   exampleText(t, "life: {low: 9, likely: 13, high: 17, source: common practice}", "life: 2", early, "recoat:\n      at_most: 3\n      life: 1"),
		"a wait already": exampleText(t, "  - {name: Restore, start: restoration}", waiting),
	}
}

// later is the text of a study with one alternative put off.
func putOff(t require.TestingT, text string, f *scenarios.File, start Start) string {
	a := f.Study.Alternatives[start.Alternative]
	system := f.Study.Systems[a.Start].Key
	return text + fmt.Sprintf("  - {name: Put off, start: %s, wait: {on: existing, years: %d}}\n", system, start.Year)
}

// Each option costs, and takes of each year, what the ledger of a study file
// says in which the roof's numbers and the wait are written.
func TestOptionsAreStudiesWrittenSo(t *testing.T) {
	r := rand.New(rand.NewPCG(20261003, 1))
	credited, forced := 0, 0
	for name, text := range variants(t) {
		f := read(t, text)
		made := template(t, f.Study, 4)
		for range 4 {
			own := row{
				"roof.area":                      decimal.New(int64(100_000+r.IntN(5_000_000)), -2).String(),
				"systems.existing.life":          fmt.Sprint(3 + r.IntN(5)),
				"roof.quantities.wet_insulation": fmt.Sprint(r.IntN(4000)),
				"study.discount_rate":            decimal.New(int64(r.IntN(80)), -3).String(),
			}
			roof := table(t, made, []row{own})[0]
			require.Len(t, roof.Options, len(made.starts))
			for i, o := range roof.Options {
				written := text
				at := o.Alternative
				if !o.Stated {
					written = putOff(t, text, f, o.Start)
					at = len(f.Study.Alternatives)
				}
				c, w := sameAsWritten(t, fmt.Sprintf("%s, option %d", name, i), read(t, written), own, at, o)
				credited += c
				if o.Year == NoWork {
					forced += w
				}
			}
		}
	}
	assert.Positive(t, credited, "some credit exceeds what its year costs")
	assert.Positive(t, forced, "some old roof is replaced within the plan's years")
}

// sameAsWritten compares an option with an alternative of a file, evaluated by
// itself. It counts years that end in a credit and years with work.
func sameAsWritten(t *testing.T, name string, f *scenarios.File, own row, at int, o Option) (credited, worked int) {
	v := f.Study.Likely()
	for path, text := range own {
		v[f.Study.Find(path)] = dec(text)
	}
	result, err := f.Study.EvaluateAt(v)
	require.NoError(t, err, name)
	out := result.Alternatives[at]
	require.Equal(t, out.LCC.Shift(2).IntPart(), o.LCC, name)
	area := v[f.Study.Area].Round(2).Shift(2).IntPart()
	for year := range 4 {
		sum, work := decimal.Zero, int64(0)
		for _, line := range out.Ledger {
			if line.Time == lcc.YearEnd(year) && (line.Kind == lcc.FirstCost || line.Kind == lcc.Replacement || line.Kind == lcc.Recoat || line.Kind == lcc.Removal) {
				sum = sum.Add(line.Amount)
			}
		}
		for _, e := range out.Interventions {
			if e.Year == year {
				work = area
				worked++
			}
		}
		if sum.IsNegative() {
			credited++
			sum = decimal.Zero
		}
		require.Equal(t, sum.Shift(2).IntPart(), in(o.Paid, year), "%s, year %d", name, year)
		require.Equal(t, work, in(o.Area, year), "%s, year %d", name, year)
	}
	return credited, worked
}

func in(amounts []int64, year int) int64 {
	if year < len(amounts) {
		return amounts[year]
	}
	return 0
}

// Where the old roof does not last for a wait, that start does not exist, and
// nothing else changes.
func TestStartsThatTheOldRoofDoesNotLastFor(t *testing.T) {
	made := template(t, read(t, exampleText(t)).Study, 6)
	for life, last := range map[string]int{"0.5": 0, "1": 1, "2.999": 2, "3": 3, "9": 5} {
		roof := table(t, made, []row{{"systems.existing.life": life}})[0]
		latest := 0
		for _, o := range roof.Options {
			latest = max(latest, o.Year)
		}
		assert.Equal(t, last, latest, life)
		assert.Len(t, roof.Options, 1+3*(last+1), life)
	}
}

func TestRoofThatCannotBeEvaluated(t *testing.T) {
	study := read(t, exampleText(t)).Study
	p, err := template(t, study, 3).Pricer([]lcc.Ref{study.Area})
	require.NoError(t, err)
	_, err = p.Roof([]decimal.Decimal{dec("0")}, []bool{true}, Rules{})
	assert.EqualError(t, err, "roof.area: 0 is not greater than 0")
	_, err = p.Roof([]decimal.Decimal{dec("1e14")}, []bool{true}, Rules{})
	assert.ErrorContains(t, err, `costs over 90071992547409.92 USD`)
	_, err = p.Roof([]decimal.Decimal{dec("1e4")}, []bool{true}, Rules{})
	assert.NoError(t, err, "the next roof is sound")
}
