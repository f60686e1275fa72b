package html

import (
	"math"
	"strconv"
	"strings"
)

// tenths is a place in tenths of a unit of the view box.
type tenths int

func tenthsOf(v float64) tenths { return tenths(math.Round(v * 10)) }

func (t tenths) String() string { return strconv.FormatFloat(float64(t)/10, 'f', -1, 64) }

// path is the d of an SVG path. It moves by the differences of rounded
// places, so that roundings do not add up.
type path struct {
	strings.Builder
	x, y tenths
}

// move starts a new line.
func (p *path) move(x, y float64) {
	p.x, p.y = tenthsOf(x), tenthsOf(y)
	p.WriteString("M" + p.x.String() + " " + p.y.String())
}

// line goes on to a place; nothing is written where it already stands there.
func (p *path) line(x, y float64) {
	dx, dy := tenthsOf(x)-p.x, tenthsOf(y)-p.y
	switch {
	case dx == 0 && dy == 0:
		return
	case dy == 0:
		p.WriteString("h" + dx.String())
	case dx == 0:
		p.WriteString("v" + dy.String())
	default:
		p.WriteString("l" + dx.String() + " " + dy.String())
	}
	p.x, p.y = p.x+dx, p.y+dy
}

// bar draws a rectangle between two corners.
func (p *path) bar(x0, y0, x1, y1 float64) {
	p.move(x0, y0)
	p.line(x1, y0)
	p.line(x1, y1)
	p.line(x0, y1)
	p.WriteString("z")
}

// markers are the shapes of the points of a line, around their middle, one
// for each of the first four colours; the others take them again, hollow.
var markers = [4]string{
	"m-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0-7 0z", // disc
	"m-3-3h6v6h-6z",             // square
	"m0-4.2l4 7.2h-8z",          // triangle
	"m0-4.6l4 4.6-4 4.6-4-4.6z", // diamond
}

// marker draws a shape around a place.
func (p *path) marker(shape int, x, y float64) {
	p.move(x, y)
	p.WriteString(markers[shape%len(markers)])
}

// texture draws into a rectangle what tells the parts of a bar apart without
// colour: number 0 nothing, then strokes that rise, lie, fall, stand, and the
// same again closer. The boot script's textures serve the same purpose.
func (p *path) texture(number int, x0, y0, x1, y1 float64) {
	const edge = 0.7 // the ends of strokes stay inside
	x0, y0, x1, y1 = x0+edge, y0+edge, x1-edge, y1-edge
	if x1-x0 < 1 || y1-y0 < 1 {
		return
	}
	gap := 7.0
	if number > 4 {
		gap = 4
	}
	switch {
	case number == 0:
	case number%4 == 1:
		p.hatch(x0, y0, x1, y1, gap, false)
	case number%4 == 2:
		for y := y0 + float64(gap/2); y < y1; y += gap {
			p.move(x0, y)
			p.line(x1, y)
		}
	case number%4 == 3:
		p.hatch(x0, y0, x1, y1, gap, true)
	default:
		for x := x0 + float64(gap/2); x < x1; x += gap {
			p.move(x, y0)
			p.line(x, y1)
		}
	}
}

// hatch draws strokes at 45 degrees, clipped to a rectangle: from the lower
// to the upper edge they rise to the right, or fall.
func (p *path) hatch(x0, y0, x1, y1, gap float64, falling bool) {
	height := y1 - y0
	gap = float64(gap * math.Sqrt2) // along the edge
	for foot := x0 - height + float64(gap/2); foot < x1; foot += gap {
		from, to := max(foot, x0), min(foot+height, x1)
		if to-from < 0.2 {
			continue
		}
		low, high := y1-(from-foot), y1-(to-foot)
		if falling {
			low, high = y0+y1-low, y0+y1-high
		}
		p.move(from, low)
		p.line(to, high)
	}
}
