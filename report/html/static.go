package html

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"roofyears/report"
)

// Measures of a static chart, in units of its view box. The style sheet sets
// the sizes of letters; a line of the larger ones takes lineHeight.
const (
	staticWidth   = 640.0 // of every chart
	lineHeight    = 14.0
	tickLetter    = 11.0 // size of the letters of ticks and titles of axes
	nameLetter    = 12.0 // size of the letters of names and marks
	linesHeight   = 270.0
	columnsHeight = 120.0
	rightMargin   = 22.0 // room for half a label under the end of an axis
)

// staticChart draws a figure for readers without script. It says what the
// library's chart says, in one fixed size: no style of its own, no script, no
// IDs; colours and dashes come from the style sheet by class. Text of the
// study is escaped and cut to its place.
func staticChart(f report.Figure, cur report.Currency) template.HTML {
	d := &drawing{figure: f, currency: cur}
	switch f.Kind {
	case report.Columns:
		d.columns()
	case report.Stacked, report.Swing:
		d.sideways()
	case report.Points:
		d.points()
	default:
		d.lines()
	}
	return template.HTML(fmt.Sprintf(`<svg class="static" viewBox="0 0 %g %s" role="presentation" aria-hidden="true">%s</svg>`,
		staticWidth, tenthsOf(d.down), d.out.String()))
}

// drawing is a static chart that is being drawn from top to bottom.
type drawing struct {
	figure                 report.Figure
	currency               report.Currency
	out                    strings.Builder
	left, top, right, foot float64 // of the plot, without its labels
	down                   float64 // how far the drawing has come
	texts                  []box   // the places of all texts
	segments               []box   // the lines of the series, each piece from corner to corner
}

// anchor says which point of a text stands at its place.
type anchor string

const (
	atStart  anchor = ""
	atMiddle anchor = ` text-anchor="middle"`
	atEnd    anchor = ` text-anchor="end"`
)

// text writes text at its base line. Class "" is that of ticks and titles of
// axes, "name" that of names and marks.
func (d *drawing) text(x, y float64, at anchor, class, s string) {
	d.texts = append(d.texts, textBox(x, y, at, class, s))
	if class != "" {
		class = ` class="` + class + `"`
	}
	fmt.Fprintf(&d.out, `<text x="%s" y="%s"%s%s>%s</text>`, tenthsOf(x), tenthsOf(y), at, class, template.HTMLEscapeString(s))
}

// stroke draws a path as lines.
func (d *drawing) stroke(class string, p *path) {
	if p.Len() > 0 {
		fmt.Fprintf(&d.out, `<path class="%s" fill="none" stroke="currentColor" d="%s"/>`, class, p)
	}
}

// shape draws a path as a filled shape.
func (d *drawing) shape(class string, p *path) {
	if p.Len() > 0 {
		fmt.Fprintf(&d.out, `<path class="%s" d="%s"/>`, class, p)
	}
}

// hue is the class of a series' colour, dash is that of its line; both go
// from 1 to 8 as in the boot script.
func (d *drawing) hue(series int) string { return fmt.Sprintf("s%d", d.place(series)+1) }

// place is that of a series in the palette, from 0: its own, or its number.
func (d *drawing) place(series int) int {
	if own := d.figure.Series[series].Hue; own > 0 {
		return (own - 1) % 8
	}
	return (d.figure.Hue + series) % 8
}

func dash(series int) string { return fmt.Sprintf("d%d", series%8+1) }

// line draws a straight line.
func (d *drawing) line(class string, x0, y0, x1, y1 float64) {
	var p path
	p.move(x0, y0)
	p.line(x1, y1)
	d.stroke(class, &p)
}

// yAxis draws the ticks at the left and the grid behind the plot.
func (d *drawing) yAxis(a axis) {
	var grid path
	for _, v := range a.ticks() {
		y := a.at(v)
		grid.move(d.left, y)
		grid.line(d.right, y)
		d.text(d.left-6, y+4, atEnd, "", a.label(v, d.currency))
	}
	d.stroke("grid", &grid)
}

// xAxis draws the line under the plot, its ticks and its title; a label that
// would touch the one before it is left out. With grid, lines go up the plot.
func (d *drawing) xAxis(a axis, title string, grid bool) {
	var lines, ticks path
	taken := math.Inf(-1)
	for _, v := range a.ticks() {
		x, label := a.at(v), a.label(v, d.currency)
		ticks.move(x, d.foot)
		ticks.line(x, d.foot+4)
		if grid {
			lines.move(x, d.top)
			lines.line(x, d.foot)
		}
		if half := float64(textWidth(label, tickLetter) / 2); x-half > taken+4 {
			d.text(x, d.foot+16, atMiddle, "", label)
			taken = x + half
		}
	}
	d.stroke("grid", &lines)
	ticks.move(d.left, d.foot)
	ticks.line(d.right, d.foot)
	d.stroke("axis", &ticks)
	d.down += lineHeight + 8
	d.xTitle(title)
}

// xTitle writes the title of the axis under the middle of the plot.
func (d *drawing) xTitle(title string) {
	if title == "" {
		return
	}
	middle := float64((d.left + d.right) / 2)
	d.text(middle, d.down+10, atMiddle, "", shortened(title, float64(2*min(middle, staticWidth-middle)), tickLetter))
	d.down += lineHeight + 2
}

// leftOf gives the left end of the plot: room for the widest label of a
// vertical axis.
func (d *drawing) leftOf(a axis) float64 {
	widest := 0.0
	for _, v := range a.ticks() {
		widest = max(widest, textWidth(a.label(v, d.currency), tickLetter))
	}
	return min(widest+10, staticWidth/3)
}

// open writes what stands above the plot of a figure with a vertical axis:
// legend, title of the axis, names of the marked lines; and takes the place of
// the plot.
func (d *drawing) open(x axis, height float64) {
	d.legend()
	d.text(0, d.down+10, atStart, "", shortened(d.figure.Y.Title, staticWidth, tickLetter))
	d.down += lineHeight + 6
	d.markNames(x)
	d.plot(height)
}

// plot takes the place of the plot.
func (d *drawing) plot(height float64) {
	d.top, d.foot = d.down, d.down+height
	d.down = d.foot
}
