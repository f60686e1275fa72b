package scenarios

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// A file that is read again with other numbers has them, wherever an input can
// be written, and nothing else is moved but what follows from them.
func TestWithPutsANumberAtEveryInput(t *testing.T) {
	for _, name := range ExampleNames() {
		src, _ := Example(name)
		f, _ := Read(src)
		require.NotNil(t, f)
		tried := 0
		for i := range f.Study.Inputs {
			in := lcc.Ref(i)
			if f.Settable(in) != nil {
				continue
			}
			want := f.Study.Inputs[i].Likely.Mul(decimal.New(101, -2))
			if want.IsZero() {
				want = decimal.New(1, -3)
			}
			again, diagnostics := f.With(map[lcc.Ref]decimal.Decimal{in: want}, nil)
			require.NotNil(t, again, "%s: %s", f.Study.Inputs[i].Path, told(diagnostics))
			require.Len(t, again.Study.Inputs, len(f.Study.Inputs))
			for j := range again.Study.Inputs {
				switch got := again.Study.Inputs[j].Likely; {
				case i == j:
					assert.True(t, got.Equal(want), "%s: %s, expected %s", f.Study.Inputs[j].Path, got, want)
				case f.Settable(lcc.Ref(j)) == nil:
					assert.True(t, got.Equal(f.Study.Inputs[j].Likely), "%s moved with %s", f.Study.Inputs[j].Path, f.Study.Inputs[i].Path)
				}
			}
			tried++
		}
		assert.Greater(t, tried, 20, name)
	}
}

// A number in another unit has more digits than a file may have.
func TestWithTakesAConvertedNumber(t *testing.T) {
	src, _ := Example("cold-store")
	f, _ := Read(src)
	wet := f.Study.Find("survey.wet.area")
	v, err := f.Cell(wet).Parse("700 m2")
	require.NoError(t, err)
	again, diagnostics := f.With(map[lcc.Ref]decimal.Decimal{wet: v}, nil)
	require.NotNil(t, again, told(diagnostics))
	assert.Equal(t, v.Round(30).String(), again.Study.Inputs[wet].Likely.Round(30).String())
}

// A cell is read as the file reads the number, and without a unit it has the
// input's own.
func TestCells(t *testing.T) {
	src, _ := Example("school")
	f, _ := Read(src)
	for _, c := range []struct{ path, text, want, wrong string }{
		{path: "roof.area", text: "38000", want: "38000"},
		{path: "roof.area", text: "38000.50 ft2", want: "38000.5"},
		{path: "roof.area", text: "1000 m2", want: "10763.910416709722308333505556"},
		{path: "roof.area", text: "0", wrong: `"0" is out of range, expected an area over 0`},
		{path: "roof.area", text: "38,000", wrong: "write 38000 or 38_000, without commas"},
		{path: "roof.area", text: "480 squares", wrong: "a roofing square is 100 ft2: write 48000 ft2"},
		{path: "roof.area", text: "12.5sq", wrong: "a roofing square is 100 ft2: write 1250 ft2"},
		{path: "roof.area", text: "38,000 m2", wrong: "write 38000 m2 or 38_000 m2, without commas"},
		{path: "roof.area", text: "38,000 sqft", wrong: "write 38000 ft2 or 38_000 ft2, without commas"},
		{path: "roof.area", text: "38,000 tiles", wrong: "write 38000 or 38_000, without commas"},
		{path: "study.discount_rate", text: "1,000%", wrong: "write 1000% or 1_000%, without commas"},
		{path: "systems.restoration.first_costs[2].unit_price", text: "EUR 1,250.50", wrong: "gives it; write 1250.50 or 1_250.50, without commas"},
		{path: "systems.restoration.first_costs[2].unit_price", text: "$4.20", wrong: "leave the currency out: study.currency gives it"},
		{path: "roof.area", text: "100 ft", wrong: `"100 ft" has the unit "ft"`},
		{path: "roof.quantities.edge_length", text: "100 m2", wrong: `"100 m2" has the unit "m2", expected a number in ft`},
		{path: "roof.quantities.drains", text: "18 ft", wrong: `"18 ft" has the unit "ft", expected a plain number`},
		{path: "study.discount_rate", text: "4.5%", want: "0.045"},
		{path: "study.discount_rate", text: "0.045", want: "0.045"},
		{path: "study.discount_rate", text: "4.5", wrong: "has no percent sign"},
		{path: "systems.restoration.life", text: "007", wrong: "begins with a zero"},
		{path: "systems.restoration.life", text: "7 years", wrong: `has "years" after the number`},
		{path: "systems.restoration.life", text: "-1", wrong: "out of range"},
		{path: "systems.restoration.life", text: "0.5", want: "0.5"},
		{path: "systems.restoration.life", text: "1e1", want: "10"},
		{path: "systems.restoration.first_costs[2].unit_price", text: "-1.5", want: "-1.5"},
		{path: "systems.restoration.first_costs[2].unit_price", text: "=1+1", wrong: "is not a number"},
	} {
		in := f.Study.Find(c.path)
		require.NotEqual(t, lcc.NoRef, in, c.path)
		got, err := f.Cell(in).Parse(c.text)
		if c.wrong != "" {
			assert.ErrorContains(t, err, c.wrong, "%s %s", c.path, c.text)
			continue
		}
		require.NoError(t, err, "%s %s", c.path, c.text)
		want, _ := decimal.NewFromString(c.want)
		if c.text == "1000 m2" {
			assert.Equal(t, want.Round(9).String(), got.Round(9).String())
			continue
		}
		assert.True(t, got.Equal(want), "%s: %s for %s", c.path, got, c.text)
	}
}

// Limits are kept to the last digit, by the short way and the long one.
func TestCellsAtTheirLimits(t *testing.T) {
	src, _ := Example("school")
	f, _ := Read(src)
	for text, inside := range map[string]bool{
		"0.999999999999999": true, "-0.4999999999999": true, "-0.5": false, "-0.50000000001": false, "1": false, "0.0000000000001": true,
	} {
		_, err := f.Cell(f.Study.Rate).Parse(text)
		assert.Equal(t, inside, err == nil, text)
	}
	for text, inside := range map[string]bool{
		"0": false, "0.00000000000001": true, "-1": false, "1000000000000": true, "1000000000000.01": false, "999999999999.999": true,
	} {
		_, err := f.Cell(f.Study.Area).Parse(text)
		assert.Equal(t, inside, err == nil, text)
	}
}

// The short way reads what the long way reads, or leaves it alone.
func TestShortNumberIsParseNumber(t *testing.T) {
	for _, text := range []string{"0", "1", "-1", "0.5", "-0", "12.50", "00", "01", "0.", ".5", "1.", "1.2.3", "-", "", "1e3", "1_000", "999999999999999", "9999999999999999", "+1", " 1", "1 ", "12%", "-12.75"} {
		got, near, short := shortNumber(text)
		if long, _, ok := parseNumber(text); short {
			require.True(t, ok, text)
			assert.True(t, got.Equal(long.value) && long.unit == "" && !long.percent, text)
			assert.Equal(t, long.value.InexactFloat64(), near, text)
		}
	}
	for _, text := range []string{"0", "12.50", "-12.75", "999999999999999"} {
		_, _, short := shortNumber(text)
		assert.True(t, short, text)
	}
}
