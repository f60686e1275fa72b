package html

import (
	"slices"

	"roofyears/report"
)

// markNames writes the names of the lines across the plot above it. A name
// that would touch another goes to a row above.
func (d *drawing) markNames(x axis) {
	var rows []float64 // how far each is taken, the lowest first
	type place struct {
		row  int
		x    float64
		name string
	}
	var places []place
	for _, m := range d.acrossMarks(x) {
		name := shortened(m.Label, staticWidth/2, nameLetter)
		width := textWidth(name, nameLetter)
		left := max(0, min(x.at(m.X.InexactFloat64())-float64(width/2), staticWidth-width))
		row := slices.IndexFunc(rows, func(taken float64) bool { return taken+8 <= left })
		if row < 0 {
			row = len(rows)
			rows = append(rows, 0)
		}
		rows[row] = left + width
		places = append(places, place{row, left + float64(width/2), name})
	}
	d.down += float64(float64(len(rows)) * lineHeight)
	for _, p := range places {
		d.text(p.x, d.down-4-float64(float64(p.row)*lineHeight), atMiddle, "name", p.name)
	}
}

// acrossMarks gives the marks that are lines across the plot, from left to
// right, without those beyond its ends.
func (d *drawing) acrossMarks(x axis) []report.Mark {
	var out []report.Mark
	for _, m := range d.figure.Marks {
		if m.Y == nil && x.holds(m.X.InexactFloat64()) {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b report.Mark) int { return a.X.Cmp(b.X) })
	return out
}

// markLines draws the lines across the plot.
func (d *drawing) markLines(x axis) {
	var lines path
	for _, m := range d.acrossMarks(x) {
		lines.move(x.at(m.X.InexactFloat64()), d.top)
		lines.line(x.at(m.X.InexactFloat64()), d.foot)
	}
	d.stroke("across", &lines)
}

// box is a rectangle that something takes.
type box struct{ left, top, right, bottom float64 }

func (b box) touches(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

func (b box) within(c box) bool {
	return b.left >= c.left && b.right <= c.right && b.top >= c.top && b.bottom <= c.bottom
}

// corners gives the box between two corners, with the thickness of a line.
func corners(x0, y0, x1, y1 float64) box {
	return box{min(x0, x1) - 1, min(y0, y1) - 1, max(x0, x1) + 1, max(y0, y1) + 1}
}

// markPoints draws the marked points, and then their labels.
func (d *drawing) markPoints(x, y axis) {
	var points []box
	var labels []string
	var shapes path
	for _, m := range d.figure.Marks {
		if m.Y == nil || !x.holds(m.X.InexactFloat64()) {
			continue
		}
		px, py := x.at(m.X.InexactFloat64()), y.at(m.Y.InexactFloat64())
		shapes.marker(3, px, py)
		points = append(points, box{px - 4, py - 5, px + 4, py + 5})
		labels = append(labels, shortened(m.Label, staticWidth/4, nameLetter))
	}
	d.shape("point", &shapes)
	for i, label := range labels {
		d.label(points, i, label)
	}
}

// label writes the label of a point where it touches no other text and no
// point, and the fewest lines. One without a free place is left out: the text
// beside the figure names it.
func (d *drawing) label(points []box, number int, label string) {
	plot := box{0, d.top - lineHeight - 2, staticWidth, d.foot}
	best, fewest := box{}, len(d.segments)+1
	for _, b := range around(points[number], textWidth(label, nameLetter)) {
		if !b.within(plot) || slices.ContainsFunc(d.texts, b.touches) || slices.ContainsFunc(points, b.touches) {
			continue
		}
		crossed := 0
		for _, s := range d.segments {
			if s.touches(b) {
				crossed++
			}
		}
		if crossed < fewest {
			best, fewest = b, crossed
		}
	}
	if fewest <= len(d.segments) {
		d.text((best.left+best.right)/2, best.bottom-3, atMiddle, "name halo", label)
	}
}

// around gives the places for a label of a width at a point, the best first.
func around(point box, width float64) []box {
	const high = lineHeight - 1
	half := float64(width/2) + 2
	x, y := float64((point.left+point.right)/2), float64((point.top+point.bottom)/2)
	var out []box
	for _, top := range []float64{y - 6 - high, y + 6, y - high/2, y - 10 - high, y + 10, y - 6 - 2*high, y + 6 + high} {
		for _, shift := range []float64{0, half + 5, -half - 5} {
			out = append(out, box{x + shift - half, top, x + shift + half, top + high})
		}
	}
	return out
}
