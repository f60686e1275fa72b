package html

import "roofyears/report"

// Measures of a chart with horizontal bars.
const (
	categoryWidth = 220.0 // the most that the names of categories take
	categoryLines = 3     // of a name
	barPitch      = 44.0  // from bar to bar
	barThick      = 28.0
)

// sideways draws a horizontal bar for each category: parts in a row, or two
// series that go both ways from zero.
func (d *drawing) sideways() {
	names := d.categories()
	d.right = staticWidth - rightMargin
	lo, hi := extent(d.figure.Series)
	if d.figure.Kind == report.Stacked {
		lo, hi = d.stackedExtent()
	}
	x := newAxis(lo, hi, 5, d.figure.Y.Kind).widened().over(d.left, d.right)
	d.legend()
	d.markNames(x)
	d.plot(float64(barPitch * float64(len(names))))
	for i, lines := range names {
		y := d.middle(i) + 4 - float64(float64(len(lines)-1)*lineHeight/2)
		for n, line := range lines {
			d.text(d.left-10, y+float64(float64(n)*lineHeight), atEnd, "name", line)
		}
	}
	d.xAxis(x, d.figure.Y.Title, true)
	if d.figure.Kind == report.Stacked {
		d.stacked(x)
	} else {
		d.swings(x)
	}
	d.line("axis", x.at(0), d.top, x.at(0), d.foot)
	d.markLines(x)
}

// categories breaks the names into lines and makes room for them at the left.
func (d *drawing) categories() [][]string {
	names := make([][]string, len(d.figure.X.Categories))
	for i, name := range d.figure.X.Categories {
		names[i] = wrapped(name, categoryWidth, categoryLines, nameLetter)
		for _, line := range names[i] {
			d.left = max(d.left, textWidth(line, nameLetter)+14)
		}
	}
	return names
}

// middle is the height at which a category's bar lies.
func (d *drawing) middle(category int) float64 {
	return d.top + float64(barPitch*(float64(category)+0.5))
}

// stackedExtent gives how far the bars go to the left and to the right.
func (d *drawing) stackedExtent() (lo, hi float64) {
	for c := range d.figure.X.Categories {
		left, right := 0.0, 0.0
		for _, s := range d.figure.Series {
			left, right = stack(s, c, left, right)
		}
		lo, hi = min(lo, left), max(hi, right)
	}
	return lo, hi
}

// stack puts a part at the end of what stands left or right of zero.
func stack(s report.Series, category int, left, right float64) (newLeft, newRight float64) {
	if category >= len(s.Values) {
		return left, right
	}
	v := s.Values[category].InexactFloat64()
	return left + min(v, 0), right + max(v, 0)
}

// stacked draws the parts of each bar, negative ones to the left of zero.
func (d *drawing) stacked(x axis) {
	lefts, rights := make([]float64, len(d.figure.X.Categories)), make([]float64, len(d.figure.X.Categories))
	for number, s := range d.figure.Series {
		var bars, texture path
		for c := range d.figure.X.Categories {
			left, right, y := lefts[c], rights[c], d.middle(c)
			lefts[c], rights[c] = stack(s, c, left, right)
			from, to := right, rights[c]
			if lefts[c] < left {
				from, to = lefts[c], left
			}
			if from < to {
				d.part(&bars, &texture, number, box{x.at(from), y - barThick/2, x.at(to), y + barThick/2})
			}
		}
		d.shape("bar "+d.hue(number), &bars)
		d.stroke("texture", &texture)
	}
}

// part adds a rectangle and its texture.
func (d *drawing) part(bars, texture *path, number int, b box) {
	bars.bar(b.left, b.top, b.right, b.bottom)
	texture.texture(number%8, b.left, b.top, b.right, b.bottom)
}

// swings draws the bars of each series from zero; two that go the same way
// share the height.
func (d *drawing) swings(x axis) {
	for number, s := range d.figure.Series {
		var bars, texture path
		for c := range min(len(d.figure.X.Categories), len(s.Values)) {
			v := s.Values[c].InexactFloat64()
			if v == 0 {
				continue
			}
			top, bottom := d.middle(c)-barThick/2, d.middle(c)+barThick/2
			if d.sameWay(c) {
				share := barThick / float64(len(d.figure.Series))
				top += float64(share * float64(number))
				bottom = top + share
			}
			d.part(&bars, &texture, number, box{x.at(min(v, 0)), top, x.at(max(v, 0)), bottom})
		}
		d.shape("bar "+d.hue(number), &bars)
		d.stroke("texture", &texture)
	}
}

// sameWay tells whether two series go to the same side of a category.
func (d *drawing) sameWay(category int) bool {
	seen := map[int]bool{}
	for _, s := range d.figure.Series {
		if category >= len(s.Values) || s.Values[category].IsZero() {
			continue
		}
		if sign := s.Values[category].Sign(); seen[sign] {
			return true
		} else {
			seen[sign] = true
		}
	}
	return false
}
