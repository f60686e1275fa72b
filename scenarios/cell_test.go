package scenarios

import (
	"slices"
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
		{path: "roof.area", text: "3-5", wrong: `"3-5" is not a number, expected an area over 0`},
		{path: "roof.area", text: "3-5", wrong: ": write one number: a cell has no range"},
		{path: "roof.area", text: "2026-10-01", wrong: ": write one number: a cell has no range"},
		{path: "systems.restoration.life", text: "about 12", wrong: ": write one number: a cell has no range"},
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

// A number without a unit has the one that the file writes at the input, and
// every unit that the file may write there is read and converted, to what the
// published factors give: 1 ft is 0.3048 m, 1 gal is 3.785412 L, 1 Btu/h·ft2·F
// is 5.678263 W/m2K, 1 Btu/ft2 is 0.003154591 kWh/m2, 1 therm is 29.30711 kWh,
// 1 mil is 25.4 µm.
func TestCellsHaveTheUnitsOfTheFile(t *testing.T) {
	for _, c := range []struct {
		file, path, text string
		want             float64
	}{
		{"cool-roof", "systems.coating.cool_roof.u_value", "0.45", 0.45 / 5.678263},
		{"cool-roof", "systems.coating.cool_roof.u_value", "2 W/m2K", 2 / 5.678263},
		{"cool-roof", "systems.coating.cool_roof.u_value", "0.08 Btu/h·ft2·F", 0.08},
		{"cool-roof", "systems.membrane.cool_roof.u_value", "0.05", 0.05},
		{"cool-roof", "systems.coating.cool_roof.sun_heating", "450", 450 / 0.003154591},
		{"cool-roof", "systems.coating.cool_roof.sun_cooling", "300000", 300000},
		{"cool-roof", "systems.coating.cool_roof.sun_cooling", "900 kWh/m²", 900 / 0.003154591},
		{"cool-roof", "systems.coating.cool_roof.heating_price", "1.25", 1.25},
		{"cool-roof", "systems.coating.cool_roof.heating_price", "0.05 per kWh", 0.05 * 29.30711},
		{"cool-roof", "systems.coating.cool_roof.electricity_price", "0.2 per kWh", 0.2},
		{"cool-roof", "systems.coating.cool_roof.electricity_price", "0.2", 0.2},
		{"survey", "takeoff.steps[4].material.covers", "20 m/L", 20 / 0.3048 * 3.785412},
		{"survey", "takeoff.steps[4].material.covers", "20", 20},
		{"ridge in metres", "survey.edges.ridge", "30", 30 / 0.3048},
		{"ridge in metres", "survey.edges.ridge", "30 m", 30 / 0.3048},
		{"ridge in metres", "survey.edges.ridge", "30 ft", 30},
		{"ridge in metres", "systems.a.life.from_film.film", "508", 20},
		{"ridge in metres", "systems.a.life.from_film.worn_at", "8", 8},
		{"ridge in metres", "systems.a.life.from_film.worn_at", "127 um", 5},
		{"ridge in metres", "systems.a.life.from_film.wear", "0.5", 0.5},
		{"ridge in metres", "systems.a.life.from_film.wear", "12.7 µm", 0.5},
	} {
		f := fileNamed(t, c.file)
		in := f.Study.Find(c.path)
		require.NotEqual(t, lcc.NoRef, in, c.path)
		got, err := f.Cell(in).Parse(c.text)
		if assert.NoError(t, err, "%s: %s", c.path, c.text) {
			assert.InEpsilon(t, c.want, got.InexactFloat64(), 3e-7, "%s: %s", c.path, c.text)
		}
	}
}

// ridgeInMetres is a study in feet that measures some of its parts otherwise.
const ridgeInMetres = `roofyears: 1
study: {title: T, base_date: 2026-01-01, period: 10, currency: USD, rate_basis: real, discount_rate: 3%}
roof: {area: 1000 ft2}
survey: {date: 2025-05-01, edges: {ridge: 30 m}}
systems:
  a:
    name: A
    life: {from_film: {film: 500 um, worn_at: 8 mil, wear: 0.5}}
    first_costs: [{item: Cap, unit_price: 10, per: ridge}]
  b: {name: B, life: 30, first_costs: [{item: All, amount: 9000}]}
alternatives:
  - {name: A, start: a}
  - {name: B, start: b}
`

func fileNamed(t *testing.T, name string) *File {
	t.Helper()
	if name != "ridge in metres" {
		return good(t, name+".yaml")
	}
	f, told := Read(Source{Name: "ridge.yaml", Text: []byte(ridgeInMetres)})
	require.NotNil(t, f, "%v", told)
	return f
}

// What the file writes at an input, as a cell, is what the file says, with its
// unit and without.
func TestACellOfTheFilesOwnTextChangesNothing(t *testing.T) {
	tried := 0
	for _, name := range []string{"cool-roof", "survey", "survey-metric", "ridge in metres"} {
		f := fileNamed(t, name)
		for i := range f.Study.Inputs {
			in := &f.Study.Inputs[i]
			if f.Settable(lcc.Ref(i)) != nil || !slices.Contains([]lcc.Shape{lcc.Fixed, lcc.Triangular, lcc.PERT}, in.Shape) {
				continue
			}
			n := nodeAt(f.root, steps(in.Path))
			for _, key := range []string{"value", "likely"} {
				if v := nodeAt(n, []string{key}); v != nil {
					n = v
				}
			}
			number, _, ok := parseNumber(n.text)
			require.True(t, ok, in.Path)
			texts := []string{n.text}
			if !number.percent {
				texts = append(texts, number.value.String())
			}
			for _, text := range texts {
				got, err := f.Cell(lcc.Ref(i)).Parse(text)
				require.NoError(t, err, in.Path)
				assert.True(t, got.Equal(in.Likely), "%s, %s: %s is %s, and %s in the file", name, in.Path, text, got, in.Likely)
				tried++
			}
		}
	}
	assert.Greater(t, tried, 100)
}

// nodeAt is the node at a path, nil when there is none.
func nodeAt(n *node, path []string) *node {
	for _, step := range path {
		at := n.child(step)
		if at < 0 {
			return nil
		}
		n = n.values[at]
	}
	return n
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
