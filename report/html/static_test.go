package html

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
)

var dollars = report.Currency{Code: "USD", Digits: 2}

// numbers makes decimals of texts.
func numbers(texts ...string) []decimal.Decimal {
	out := make([]decimal.Decimal, len(texts))
	for i, s := range texts {
		out[i] = decimal.RequireFromString(s)
	}
	return out
}

// element is a part of a static chart.
type element struct {
	XMLName xml.Name
	Attrs   []xml.Attr `xml:",any,attr"`
	Text    string     `xml:",chardata"`
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// parts reads a static chart, which must be well-formed.
func parts(t *testing.T, f report.Figure) []element {
	t.Helper()
	var root struct {
		Parts []element `xml:",any"`
	}
	dec := xml.NewDecoder(strings.NewReader(string(staticChart(f, dollars))))
	require.NoError(t, dec.Decode(&root))
	_, err := dec.Token()
	require.True(t, errors.Is(err, io.EOF), "something follows the drawing")
	return root.Parts
}

// withClass gives the d of the only path whose class begins so.
func withClass(t *testing.T, all []element, class string) string {
	t.Helper()
	var found []string
	for _, e := range all {
		if strings.HasPrefix(e.attr("class")+" ", class+" ") {
			found = append(found, e.attr("d"))
		}
	}
	require.Len(t, found, 1, "paths of class %q", class)
	return found[0]
}

// oneSeries is a figure of a money series over the years 0, 10 and 20.
func oneSeries(kind report.FigureKind, values ...string) report.Figure {
	return report.Figure{ID: "f", Kind: kind,
		X:      report.Axis{Title: "Year", Kind: report.YearCell, Values: numbers("0", "10", "20")},
		Y:      report.Axis{Title: "USD", Kind: report.MoneyCell},
		Series: []report.Series{{Name: "one", Values: numbers(values...)}}}
}

// The y axis goes from 0 to 100 over 270 units, the plot starts 20 below the
// top. The widest label is "$100": four letters of 0.56 at 11 and 1.04 make 25.6,
// with 10 for the gap 35.6; the right end stands at 618, the middle at 326.8.
func TestPlaceOfAPointOfALine(t *testing.T) {
	f := oneSeries(report.Lines, "0", "100", "50")
	assert.Equal(t, "M35.6 290l291.2 -270l291.2 135", withClass(t, parts(t, f), "line s1 d1"))
	f.Kind = report.Steps
	assert.Equal(t, "M35.6 290h291.2v-270h291.2v135", withClass(t, parts(t, f), "line s1 d1"))
}

// Three slots of 194.1 from 35.6 to 618; bars are 0.7 of a slot and start 0.15 of
// it after its left end. The axis goes
// from 0 to 100 over 120 units from 140 up. The year without payment has no bar.
func TestPlaceOfAColumn(t *testing.T) {
	f := oneSeries(report.Columns, "25", "0", "100")
	f.Hue = 2
	assert.Equal(t, "M64.7 140h135.9v-30h-135.9zM453 140h135.9v-120h-135.9z", withClass(t, parts(t, f), "bar s3"))
	f.Top = decimal.NewFromInt(200)
	assert.Equal(t, "M64.7 140h135.9v-15h-135.9zM453 140h135.9v-60h-135.9z", withClass(t, parts(t, f), "bar s3"), "all to one scale")
}

// categories is a figure of horizontal bars.
func categories(kind report.FigureKind, first, second []decimal.Decimal) report.Figure {
	return report.Figure{ID: "f", Kind: kind,
		X: report.Axis{Categories: []string{"a", "b"}}, Y: report.Axis{Kind: report.MoneyCell},
		Series: []report.Series{{Name: "one", Values: first}, {Name: "two", Values: second}}}
}

// firstBars gives the left end, the top and the width of the bars of a path.
func firstBars(t *testing.T, d string) (out [][3]float64) {
	t.Helper()
	for _, bar := range strings.Split(strings.Trim(d, "Mz"), "zM") {
		at, size, _ := strings.Cut(bar, "h")
		x, y, _ := strings.Cut(at, " ")
		size, _, _ = strings.Cut(size, "v")
		var n [3]float64
		for i, text := range []string{x, y, size} {
			v, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			n[i] = v
		}
		out = append(out, n)
	}
	return out
}

func TestStackedBarsJoinAndNegativePartsGoLeft(t *testing.T) {
	all := parts(t, categories(report.Stacked, numbers("60", "20"), numbers("-20", "40")))
	// The legend has a sample of the same class before each series.
	var bars []string
	for _, e := range all {
		if strings.HasPrefix(e.attr("class"), "bar") && strings.Count(e.attr("d"), "M") == 2 {
			bars = append(bars, e.attr("d"))
		}
	}
	require.Len(t, bars, 2)
	one, two := firstBars(t, bars[0]), firstBars(t, bars[1])
	zero := one[0][0]
	assert.InDelta(t, zero, one[1][0], 0.11)
	assert.InDelta(t, zero, two[0][0]+two[0][2], 0.21, "the negative part ends at zero")
	assert.InDelta(t, one[1][0]+one[1][2], two[1][0], 0.21, "the second part starts where the first ends")
	assert.InDelta(t, one[0][2], 3*one[1][2], 0.21, "60 is three times as long as 20")
	assert.InDelta(t, one[1][2], two[0][2], 0.21, "-20 is as long as 20")
	assert.InDelta(t, barPitch, one[1][1]-one[0][1], 0.11)
}

func TestSwingsOfOneSideShareTheHeight(t *testing.T) {
	f := categories(report.Swing, numbers("-10", "5"), numbers("20", "8"))
	d := &drawing{figure: f}
	assert.False(t, d.sameWay(0))
	assert.True(t, d.sameWay(1))
}

func TestWrappedNames(t *testing.T) {
	wide := textWidth("Tear off and re", nameLetter)
	assert.Equal(t, []string{"Tear off and", "replace"}, wrapped("Tear off and replace", wide, 2, nameLetter))
	assert.Equal(t, []string{"Tear off and", "replace"}, wrapped("  Tear off\nand replace ", wide, 2, nameLetter))
	assert.Equal(t, []string{"Tear off a…"}, wrapped("Tear off and replace", textWidth("Tear off a…", nameLetter)+1, 1, nameLetter))
	assert.Empty(t, wrapped("", wide, 2, nameLetter))
	lines := wrapped(strings.Repeat("x", 10_000), 100, 3, nameLetter)
	require.Len(t, lines, 3)
	for _, line := range lines {
		assert.LessOrEqual(t, textWidth(line, nameLetter), 100.0)
	}
	assert.Less(t, len(shortened(strings.Repeat("\u200b", 10_000), 100, nameLetter)), 1200, "letters without width are cut too")
}

// The points of a series are one path, in the shape and the colour of their
// place in the palette. The y axis goes from 0 to 100 over 270 units, below the
// legend and the title; the x axis from 0 to 40 between 35.6 and 618.
func TestPlaceOfPoints(t *testing.T) {
	f := report.Figure{ID: "f", Kind: report.Points, X: report.Axis{Kind: report.MoneyCell}, Y: report.Axis{Kind: report.MoneyCell}, Series: []report.Series{
		{Name: "two", Hue: 2, X: numbers("0", "40"), Values: numbers("0", "100"), Labels: []string{"a", "b"}},
		{Name: "six", Hue: 6, X: numbers("20"), Values: numbers("50"), Labels: []string{"c"}},
	}}
	all := parts(t, f)
	const square = "m-3-3h6v6h-6z"
	var drawn []string
	for _, e := range all {
		if class := e.attr("class"); class == "bar s2" || class == "hollow s6" {
			drawn = append(drawn, class+" "+e.attr("d"))
		}
	}
	assert.Equal(t, []string{"bar s2 M14 8" + square, "hollow s6 " + drawn[1][len("hollow s6 "):],
		"bar s2 M35.6 314" + square + "M618 44" + square, "hollow s6 M326.8 179" + square}, drawn)
}

func TestStaticChartOfNothing(t *testing.T) {
	for kind := report.Lines; kind <= report.Points; kind++ {
		for _, f := range []report.Figure{{Kind: kind}, oneSeries(kind), oneSeries(kind, "0", "0", "0"), categories(kind, nil, nil)} {
			assert.NotContains(t, string(staticChart(f, dollars)), "NaN")
			parts(t, f)
		}
	}
}
