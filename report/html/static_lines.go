package html

import (
	"math"

	"roofyears/report"
)

// lines draws a line or a staircase for each series.
func (d *drawing) lines() {
	xs := floats(d.figure.X.Values)
	if len(xs) == 0 {
		xs = []float64{0}
	}
	lo, hi := extent(d.figure.Series)
	y := newAxis(lo, hi, 6, d.figure.Y.Kind).widened()
	d.left, d.right = d.leftOf(y), staticWidth-rightMargin
	x := newAxis(xs[0], xs[len(xs)-1], 7, d.figure.X.Kind).over(d.left, d.right)
	d.open(x, linesHeight)
	y = y.over(d.foot, d.top)
	d.yAxis(y)
	d.markLines(x)
	for i, s := range d.figure.Series {
		d.series(i, xs, floats(s.Values), x, y)
	}
	d.markPoints(x, y)
	d.xAxis(x, d.figure.X.Title, false)
}

// series draws the line of a series and a shape at every sixth part of it,
// not at the same places as its neighbours: the lines differ without colour.
func (d *drawing) series(number int, xs, ys []float64, x, y axis) {
	var line, points path
	every := max(1, int(math.Round(float64(len(ys))/6)))
	for i := range min(len(xs), len(ys)) {
		px, py := x.at(xs[i]), y.at(ys[i])
		if i == 0 {
			line.move(px, py)
		} else {
			d.piece(&line, x.at(xs[i-1]), y.at(ys[i-1]), px, py)
		}
		if (i+number)%every == 0 {
			points.marker(number%8, px, py)
		}
	}
	d.stroke("line "+d.hue(number)+" "+dash(number), &line)
	d.shape(pointClass(number)+" "+d.hue(number), &points)
}

// piece goes on from one point of a line to the next, and keeps where.
func (d *drawing) piece(line *path, x0, y0, x1, y1 float64) {
	if d.figure.Kind == report.Steps { // held, then up or down
		line.line(x1, y0)
		d.segments = append(d.segments, corners(x0, y0, x1, y0))
		x0 = x1
	}
	line.line(x1, y1)
	d.segments = append(d.segments, corners(x0, y0, x1, y1))
}

func pointClass(number int) string {
	if number%8 >= len(markers) {
		return "hollow"
	}
	return "bar"
}

// columns draws a bar for each x.
func (d *drawing) columns() {
	xs := floats(d.figure.X.Values)
	if len(xs) == 0 {
		xs = []float64{0}
	}
	lo, hi := extent(d.figure.Series)
	if d.figure.Top.IsPositive() {
		hi = max(hi, niceTop(d.figure.Top.InexactFloat64()))
	}
	y := newAxis(lo, hi, 5, d.figure.Y.Kind)
	if !d.figure.Top.IsPositive() || lo < 0 {
		y = y.widened()
	}
	d.left, d.right = d.leftOf(y), staticWidth-rightMargin
	gap := gapOf(xs)
	x := newAxis(xs[0]-float64(gap/2), xs[len(xs)-1]+float64(gap/2), 8, d.figure.X.Kind).over(d.left, d.right)
	d.open(x, columnsHeight)
	y = y.over(d.foot, d.top)
	d.yAxis(y)
	width := 0.7 * (d.right - d.left) / float64(len(xs)) / float64(max(1, len(d.figure.Series)))
	for i, s := range d.figure.Series {
		shift := float64(width * (float64(i) - float64(float64(len(d.figure.Series))/2)))
		d.bars(i, xs, floats(s.Values), x, y, shift, width)
	}
	d.xAxis(x, d.figure.X.Title, false)
}

// bars draws the bars of a series from zero; what is not nothing can be seen.
func (d *drawing) bars(number int, xs, ys []float64, x, y axis, shift, width float64) {
	var bars path
	for i := range min(len(xs), len(ys)) {
		if ys[i] == 0 {
			continue
		}
		from, zero, end := x.at(xs[i])+shift, y.at(0), y.at(ys[i])
		if math.Abs(end-zero) < 0.6 {
			end = zero - math.Copysign(0.6, ys[i])
		}
		bars.bar(from, zero, from+width, end)
	}
	d.shape("bar "+d.hue(number), &bars)
}

// gapOf is the mean distance of neighbours.
func gapOf(xs []float64) float64 {
	if n := len(xs); n > 1 && xs[n-1] > xs[0] {
		return (xs[n-1] - xs[0]) / float64(n-1)
	}
	return 1
}
