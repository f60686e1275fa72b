package geometry

import "cmp"

// SideSeams is the length of the seams between neighbouring panels: the area
// on the slope over the width that a panel covers [Plane]. Every panel counts
// one seam, so the length is too great by one run of the roof, which the edge
// needs.
func SideSeams(onSlope, cover float64) (float64, error) {
	return lengthOf(onSlope, "cover", cover)
}

// EndLaps is the length of the laps between panels above one another: the area
// on the slope over the length of a panel [Plane]. Every panel counts one lap.
// The topmost of each run has none, so the length is too great by one width of
// the roof; nothing is taken off for it, as the edge needs a closure there. A
// roof whose panels run from eave to ridge in one piece has no end laps: do
// not ask.
func EndLaps(onSlope, panel float64) (float64, error) {
	return lengthOf(onSlope, "panel length", panel)
}

func lengthOf(onSlope float64, name string, each float64) (float64, error) {
	if err := cmp.Or(area("area on the slope", onSlope), positive(name, each)); err != nil {
		return 0, err
	}
	return onSlope / each, nil
}

// Fastening is how panels are screwed down, all in one unit of length.
type Fastening struct {
	Purlins float64 // from support to support up the slope, greater than 0
	Field   float64 // from screw to screw along a support, greater than 0
	Cover   float64 // of a panel, greater than 0; counts for side laps only
	Stitch  float64 // from screw to screw along a side lap; 0 when side laps are not screwed
}

// Screws are how many a roof has. They are not whole numbers.
type Screws struct {
	Field  float64 // through the panels into the supports
	Stitch float64 // along side laps
}

// Total is all screws.
func (s Screws) Total() float64 { return s.Field + s.Stitch }

// Screws counts the screws of an area on the slope: one a field spacing along
// every support, and one a stitch spacing along every side lap [Plane]. Screws
// of eaves, ridges, flashings and end laps come on top.
func (f Fastening) Screws(onSlope float64) (Screws, error) {
	supports, err := lengthOf(onSlope, "purlin spacing", f.Purlins)
	if err = cmp.Or(err, positive("field spacing", f.Field)); err != nil {
		return Screws{}, err
	}
	screws := Screws{Field: supports / f.Field}
	if f.Stitch == 0 {
		return screws, nil
	}
	laps, err := SideSeams(onSlope, f.Cover)
	if err = cmp.Or(err, positive("stitch spacing", f.Stitch)); err != nil {
		return Screws{}, err
	}
	screws.Stitch = laps / f.Stitch
	return screws, nil
}

// NetArea is an area less the openings in it: skylights, curbs, what is not
// coated or covered. Areas are 0 or more, and the openings are no larger than
// the area together.
func NetArea(gross float64, openings ...float64) (float64, error) {
	if err := area("area", gross); err != nil {
		return 0, err
	}
	open := 0.0
	for _, o := range openings {
		if err := area("area of an opening", o); err != nil {
			return 0, err
		}
		open += o
	}
	if err := between("area of all openings", open, 0, gross); err != nil {
		return 0, err
	}
	return gross - open, nil
}
