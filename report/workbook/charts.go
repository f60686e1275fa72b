package workbook

import (
	"github.com/xuri/excelize/v2"

	"roofyears/report"
)

// mostSeries is how many series a chart may have.
const mostSeries = 255

// chartRows is how many rows a chart takes.
const chartRows = 23

// The size of a chart in pixels.
const (
	chartWidth  = 900
	chartHeight = 360
)

// chart makes a chart without series.
func (b *book) chart(kind excelize.ChartType, heading, x, y string) *excelize.Chart {
	axis := func(text string) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: &excelize.Font{Size: 9, Color: muted}}}}
	}
	marks := excelize.Font{Size: 9, Color: muted}
	return &excelize.Chart{
		Type: kind, Format: excelize.GraphicOptions{AltText: heading, LockAspectRatio: true},
		Dimension: excelize.ChartDimension{Width: chartWidth, Height: chartHeight},
		Title:     excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: heading, Font: &excelize.Font{Size: 12, Bold: true, Color: accent}}}},
		Legend:    excelize.ChartLegend{Position: "bottom"},
		XAxis:     excelize.ChartAxis{Title: axis(x), Font: marks, TickLabelPosition: excelize.ChartTickLabelLow},
		YAxis:     excelize.ChartAxis{Title: axis(y), Font: marks, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "#,##0"}},
	}
}

// partsChart draws what the life-cycle costs are made of.
func (b *book) partsChart(row int) {
	s := b.answer
	c := b.chart(excelize.ColStacked, "What the life-cycle costs are made of", "", "Present value, "+b.cur.Code)
	gap := uint(80)
	c.GapWidth = &gap
	last := b.answerHead + len(b.ledgers)
	for k := range b.words.Parts() {
		c.Series = append(c.Series, excelize.ChartSeries{
			Name: s.at(b.answerHead, 2+k), Categories: s.column(b.answerHead+1, last, 1), Values: s.column(b.answerHead+1, last, 2+k),
			Fill: solid(k),
		})
	}
	s.charts = append(s.charts, placedChart{row, 1, c})
}

func solid(k int) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{hue(k)}}
}

// cumulatedChart draws what each alternative has cost up to a year.
func (b *book) cumulatedChart() {
	s := b.years
	c := b.chart(excelize.Scatter, "Cost so far, year by year", "Years from the base date", "Cumulated present value, "+b.cur.Code)
	b.lines(c, func(i int) excelize.ChartSeries {
		return excelize.ChartSeries{Name: s.at(firstYear-1, 3+i), Categories: s.column(firstYear, b.lastYear(), 1), Values: s.column(firstYear, b.lastYear(), 3+i)}
	})
	first, most := 0.0, float64(b.s.Period)
	c.XAxis.Minimum, c.XAxis.Maximum = &first, &most // no program then counts its steps back from the end
	s.charts = append(s.charts, placedChart{b.lastYear() + 3, 1, c})
}

// curveChart draws the life-cycle costs at other discount rates.
func (b *book) curveChart() {
	s, last := b.rates, firstRate+len(b.curve)-1
	c := b.chart(excelize.Scatter, "Life-cycle cost at other discount rates", "Discount rate ("+b.s.Basis.String()+")", report.LabelLCC+", "+b.cur.Code)
	c.XAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: "0%"}
	b.lines(c, func(i int) excelize.ChartSeries {
		return excelize.ChartSeries{Name: s.at(rateHead, 2+i), Categories: s.column(firstRate, last, 1), Values: s.column(firstRate, last, 2+i)}
	})
	s.charts = append(s.charts, placedChart{last + 2, 1, c})
}

// lines draws a line for each alternative, as far as a chart has room.
func (b *book) lines(c *excelize.Chart, of func(i int) excelize.ChartSeries) {
	for i := range b.ledgers[:min(len(b.ledgers), mostSeries)] {
		s := of(i)
		s.Fill, s.Line = solid(i), excelize.LineOptions{Type: excelize.LineSolid, Width: 2}
		s.Marker = excelize.ChartMarker{Symbol: "none"}
		c.Series = append(c.Series, s)
	}
}
