package html

import (
	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"roofyears/report"
)

// pointOptions draws a point for each value: a line that is not drawn, with
// its points, as the embedded library has lines.
func pointOptions(f report.Figure) map[string]any {
	c := charts.NewLine()
	c.SetGlobalOptions(
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Name: f.X.Title}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Name: f.Y.Title}),
	)
	for _, s := range f.Series {
		data := make([]opts.LineData, len(s.Values))
		for i, v := range s.Values {
			data[i] = opts.LineData{Name: s.Labels[i], Value: []float64{s.X[i].InexactFloat64(), v.InexactFloat64()}}
		}
		c.AddSeries(s.Name, data, hue(s.Hue))
	}
	c.Validate()
	return c.JSON()
}
