package html

import "roofyears/report"

// points draws the points of each series, all those of one as one path.
func (d *drawing) points() {
	lo, hi := extent(d.figure.Series)
	y := newAxis(lo, hi, 6, d.figure.Y.Kind).widened()
	lo, hi = extent(across(d.figure.Series))
	x := newAxis(lo, hi, 7, d.figure.X.Kind).widened()
	d.left, d.right = d.leftOf(y), staticWidth-rightMargin
	x = x.over(d.left, d.right)
	d.legend()
	d.text(0, d.down+10, atStart, "", shortened(d.figure.Y.Title, staticWidth, tickLetter))
	d.down += lineHeight + 6
	d.plot(linesHeight)
	y = y.over(d.foot, d.top)
	d.yAxis(y)
	for i, s := range d.figure.Series {
		var shapes path
		xs, ys := floats(s.X), floats(s.Values)
		for j := range min(len(xs), len(ys)) {
			shapes.marker(d.place(i), x.at(xs[j]), y.at(ys[j]))
		}
		d.shape(pointClass(d.place(i))+" "+d.hue(i), &shapes)
	}
	d.xAxis(x, d.figure.X.Title, true)
}

// across are series of the places of points across the drawing.
func across(series []report.Series) []report.Series {
	out := make([]report.Series, len(series))
	for i, s := range series {
		out[i].Values = s.X
	}
	return out
}
