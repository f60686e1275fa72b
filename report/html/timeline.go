package html

import (
	"strconv"
	"unicode/utf8"

	"roofyears/report"
)

// timeline is a drawing in the coordinates of its view box.
type timeline struct {
	ID, Title, Summary string
	Width, Height      int
	Ticks              []tick
	Rows               []timelineRow
	AxisY              int
	Left, Right        int
}

type tick struct {
	X           int
	Label, Year string
}

type timelineRow struct {
	Name  string
	NameY int
	Bars  []timelineBar
}

type timelineBar struct {
	X, Y, Width, Height int
	Class, Series       string
	Label               string
	LabelX, LabelY      int
	Title               string
}

// Measures of the drawing, in units of its view box.
const (
	timelineWidth  = 900
	timelineLeft   = 12
	timelineRight  = 888
	timelineRowGap = 58
	barHeight      = 24
	letterWidth    = 6.7 // of the label font, on average
)

// TickEnd, LabelY and CalendarY are where the parts of the axis stand.
func (t *timeline) TickEnd() int   { return t.AxisY + 5 }
func (t *timeline) LabelY() int    { return t.AxisY + 18 }
func (t *timeline) CalendarY() int { return t.AxisY + 32 }

func drawTimeline(t report.Timeline) *timeline {
	out := &timeline{ID: t.ID, Title: t.Title, Summary: t.Summary, Width: timelineWidth, Left: timelineLeft, Right: timelineRight}
	x := func(year int) int { return timelineLeft + (timelineRight-timelineLeft)*year/max(t.Years, 1) }
	series := map[string]string{}
	for i, r := range t.Rows {
		top := 8 + i*timelineRowGap
		shown := timelineRow{Name: r.Name, NameY: top + 12}
		for _, b := range r.Bars {
			shown.Bars = append(shown.Bars, drawBar(b, x(b.From), x(b.To), top+20, seriesOf(series, b.Label)))
		}
		out.Rows = append(out.Rows, shown)
	}
	out.AxisY = 8 + len(t.Rows)*timelineRowGap
	out.Height = out.AxisY + 40
	for year := 0; year <= t.Years; year += tickStep(t.Years) {
		out.Ticks = append(out.Ticks, tick{x(year), strconv.Itoa(year), calendarText(t.BaseYear, year)})
	}
	return out
}

// seriesOf gives every system one colour in the whole drawing, from the far
// end of the palette: the near end stands for alternatives.
func seriesOf(seen map[string]string, label string) string {
	if seen[label] == "" {
		seen[label] = "s" + strconv.Itoa(8-len(seen)%8)
	}
	return seen[label]
}

func drawBar(b report.TimelineBar, x0, x1, y int, series string) timelineBar {
	out := timelineBar{X: x0, Y: y, Width: max(x1-x0-2, 1), Height: barHeight, Class: "bar", Series: series,
		LabelX: x0 + 7, LabelY: y + 16, Title: b.Label}
	if b.Same {
		out.Class = "bar-alt"
	}
	text := b.Label
	if b.Same {
		text = "recoat"
	}
	out.Label = fitted(text, out.Width-12)
	return out
}

// fitted shortens a label to a width; "" when next to nothing would be left.
func fitted(s string, width int) string {
	room := int(float64(width) / letterWidth)
	if utf8.RuneCountInString(s) <= room {
		return s
	}
	if room < 4 {
		return ""
	}
	return string([]rune(s)[:room-1]) + "…"
}

// tickStep spaces the ticks of an axis of years.
func tickStep(years int) int {
	for _, step := range []int{1, 2, 5, 10, 20, 25} {
		if years/step <= 12 {
			return step
		}
	}
	return 50
}

func calendarText(base, year int) string {
	if base == 0 {
		return ""
	}
	return strconv.Itoa(base + year)
}
