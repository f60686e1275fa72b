package html

import "roofyears/report"

// Measures of an entry of a legend: its sample, then a gap, then its name.
const (
	sampleWidth = 28.0
	sampleGap   = 6.0
	entryGap    = 16.0
)

// legend names the series above the plot, in as many rows as they need. A
// single series is named by the title of the figure, but one of points.
func (d *drawing) legend() {
	if len(d.figure.Series) < 2 && d.figure.Kind != report.Points {
		return
	}
	x := 0.0
	for i, s := range d.figure.Series {
		name := shortened(s.Name, staticWidth-sampleWidth-sampleGap, nameLetter)
		width := sampleWidth + sampleGap + textWidth(name, nameLetter)
		if x > 0 && x+width > staticWidth {
			x = 0
			d.down += lineHeight + 4
		}
		d.sample(i, x, d.down+8)
		d.text(x+sampleWidth+sampleGap, d.down+12, atStart, "name", name)
		x += width + entryGap
	}
	d.down += lineHeight + 10
}

// sample shows how a series is drawn, around a height.
func (d *drawing) sample(number int, x, y float64) {
	if d.figure.Kind == report.Lines || d.figure.Kind == report.Steps {
		d.line("line "+d.hue(number)+" "+dash(number), x, y, x+sampleWidth, y)
		var point path
		point.marker(number%8, x+sampleWidth/2, y)
		d.shape(pointClass(number)+" "+d.hue(number), &point)
		return
	}
	if d.figure.Kind == report.Points {
		var point path
		point.marker(d.place(number), x+sampleWidth/2, y)
		d.shape(pointClass(d.place(number))+" "+d.hue(number), &point)
		return
	}
	var box, texture path
	box.bar(x, y-6, x+sampleWidth, y+6)
	texture.texture(number%8, x, y-6, x+sampleWidth, y+6)
	d.shape("bar "+d.hue(number), &box)
	d.stroke("texture", &texture)
}
