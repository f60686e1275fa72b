package html

import (
	"encoding/json"
	"fmt"
	"html/template"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"roofyears/report"
)

// figure is a chart's place on the page; its options travel as JSON. Static
// is the drawing that stands there until the script draws.
type figure struct {
	ID, Title, Summary           string
	Table, TableName, TablePlace string
	Static                       template.HTML
}

// hints are what the boot script needs to know beyond the options.
type hints struct {
	Height int        `json:"height"`
	Money  moneyHints `json:"money"`
	X      string     `json:"x,omitempty"`
	Y      string     `json:"y,omitempty"`
	Points bool       `json:"points,omitempty"`
}

type moneyHints struct {
	Prefix string `json:"prefix"`
	Digits int32  `json:"digits"`
}

// figure builds the options of a chart. The library's own rendering is not
// used: it would put text of the study into a script. Options are marshalled
// with HTML escaping instead and travel as data.
func (l *layout) figure(f report.Figure) (block, error) {
	options, height := chartOptions(f)
	b, err := json.Marshal(map[string]any{
		"renderHints": hints{
			Height: height, Money: moneyHints{l.doc.Currency.Sign(), l.doc.Currency.Digits},
			X: kindHint(f.X.Kind), Y: kindHint(f.Y.Kind), Points: f.Kind == report.Points,
		}.turned(f.Kind),
		"option": options,
	})
	if err != nil {
		return block{}, fmt.Errorf("chart %s: %w", f.ID, err)
	}
	l.charts = append(l.charts, chartData{f.ID, template.JS(b)})
	return block{Figure: &figure{f.ID, isolated(f.Title), f.Summary, f.Table, f.TableName, f.TablePlace, staticChart(f, l.doc.Currency)}}, nil
}

// turned swaps the axes of a chart with horizontal bars.
func (h hints) turned(kind report.FigureKind) hints {
	if kind == report.Stacked || kind == report.Swing {
		h.X, h.Y = h.Y, h.X
	}
	return h
}

func kindHint(k report.CellKind) string {
	switch k {
	case report.MoneyCell, report.RoughCell:
		return "money"
	case report.RateCell:
		return "percent"
	case report.YearCell:
		return "year"
	}
	return ""
}

// chartOptions gives the options of a figure and the height of its plot in
// CSS pixels.
func chartOptions(f report.Figure) (options map[string]any, height int) {
	switch f.Kind {
	case report.Columns:
		return columnOptions(f), 155
	case report.Stacked:
		return stackedOptions(f), 64 + 30*len(f.X.Categories)
	case report.Swing:
		return swingOptions(f), 90 + 38*len(f.X.Categories)
	case report.Points:
		return pointOptions(f), 420
	}
	return lineOptions(f), 380
}

func lineOptions(f report.Figure) map[string]any {
	c := charts.NewLine()
	first, last := f.X.Values[0].InexactFloat64(), f.X.Values[len(f.X.Values)-1].InexactFloat64()
	c.SetGlobalOptions(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: f.X.Title, Min: first, Max: last}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Name: f.Y.Title}),
	)
	for i, s := range f.Series {
		data := make([]opts.LineData, len(s.Values))
		for j, v := range s.Values {
			data[j].Value = []float64{f.X.Values[j].InexactFloat64(), v.InexactFloat64()}
		}
		line := opts.LineChart{}
		if f.Kind == report.Steps {
			line.Step = "end"
		}
		series := []charts.SeriesOpts{charts.WithLineChartOpts(line)}
		if i == 0 { // marks belong to the figure; the first series carries them
			series = append(series, markOptions(f.Marks)...)
		}
		c.AddSeries(s.Name, data, series...)
	}
	c.Validate()
	return c.JSON()
}

// markOptions puts points where lines cross, and lines across the plot.
func markOptions(marks []report.Mark) []charts.SeriesOpts {
	var out []charts.SeriesOpts
	for _, m := range marks {
		x := m.X.InexactFloat64()
		if m.Y == nil {
			out = append(out, charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: m.Label, XAxis: x}))
			continue
		}
		out = append(out, charts.WithMarkPointNameCoordItemOpts(opts.MarkPointNameCoordItem{
			Name: m.Label, Coordinate: []any{x, m.Y.InexactFloat64()},
		}))
	}
	return out
}

func columnOptions(f report.Figure) map[string]any {
	c := charts.NewBar()
	y := opts.YAxis{Type: "value", Name: f.Y.Title}
	if f.Top.IsPositive() {
		y.Max = niceTop(f.Top.InexactFloat64())
	}
	c.SetGlobalOptions(
		charts.WithXAxisOpts(opts.XAxis{Type: "category", Name: f.X.Title}),
		charts.WithYAxisOpts(y),
	)
	labels := make([]string, len(f.X.Values))
	for i, v := range f.X.Values {
		labels[i] = v.String()
	}
	c.SetXAxis(labels)
	for i, s := range f.Series {
		c.AddSeries(s.Name, bars(s), hue(f.Hue+i+1))
	}
	c.Validate()
	options := c.JSON()
	if len(f.Series) == 1 {
		options["legend"] = map[string]any{"show": false} // the title says it
	}
	return options
}

// hue colours a series by one of the eight hues of the style sheet, which are
// counted from 1 and come again after the last.
func hue(n int) charts.SeriesOpts {
	return charts.WithItemStyleOpts(opts.ItemStyle{Color: fmt.Sprintf("var(--s%d)", (n-1)%8+1)})
}

// lyingBars is a chart of bars from left to right, one above the other by
// category.
func lyingBars(f report.Figure) *charts.Bar {
	c := charts.NewBar()
	c.SetGlobalOptions(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: f.Y.Title}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: f.X.Categories}),
	)
	return c
}

func stackedOptions(f report.Figure) map[string]any {
	c := lyingBars(f)
	for _, s := range f.Series {
		c.AddSeries(s.Name, bars(s), charts.WithBarChartOpts(opts.BarChart{Stack: "all"}))
	}
	c.Validate()
	return c.JSON()
}

// swingOptions draws two series over each other, each from zero.
func swingOptions(f report.Figure) map[string]any {
	c := lyingBars(f)
	for i, s := range f.Series {
		options := []charts.SeriesOpts{charts.WithBarChartOpts(opts.BarChart{BarGap: "-100%"})}
		if i == 0 {
			options = append(options, markOptions(f.Marks)...)
		}
		c.AddSeries(s.Name, bars(s), options...)
	}
	c.Validate()
	return c.JSON()
}

func bars(s report.Series) []opts.BarData {
	data := make([]opts.BarData, len(s.Values))
	for i, v := range s.Values {
		data[i].Value = v.InexactFloat64()
	}
	return data
}

// niceTop rounds the end of an axis up to 1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a
// power of ten.
func niceTop(v float64) float64 {
	power := 1.0
	for power*10 <= v {
		power *= 10
	}
	for _, step := range []float64{1, 1.5, 2, 2.5, 3, 4, 5, 6, 8} {
		if v <= step*power {
			return step * power
		}
	}
	return 10 * power
}
