package geometry

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strconv"
)

// mostSlope is the steepest roof, rise over run: 84 degrees. What is steeper
// is a wall. This program's own limit.
const mostSlope = 10

// Slope is how steep a roof is. The zero value is a level roof.
type Slope struct{ ratio float64 }

// NewSlope makes a slope from its rise over a run, in one unit. The run is
// greater than 0, the rise 0 to 10 runs.
func NewSlope(rise, run float64) (Slope, error) {
	if err := cmp.Or(positive("run", run), between("rise", rise, 0, mostSlope*run)); err != nil {
		return Slope{}, err
	}
	return Slope{rise / run}, nil
}

// Factor is area on the slope over area in plan, √(1+(rise/run)²) [Plane].
func (s Slope) Factor() float64 { return math.Hypot(1, s.ratio) }

// A length is a whole number, a decimal, a fraction or a whole number and a
// fraction: 3, 0.25, 1/4, 1 1/2.
const lengthForm = `([0-9]+(?:\.[0-9]+)?|(?:[0-9]+ +)?[0-9]+/[1-9][0-9]*)`

var (
	ratioForm   = regexp.MustCompile(`^` + lengthForm + ` *: *` + lengthForm + `$`)
	percentForm = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) *%$`)
	degreeForm  = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) *(?:deg|°)$`)
	mixedForm   = regexp.MustCompile(`^(?:([0-9]+) +)?([0-9]+)/([0-9]+)$`)
)

// SlopePattern is a regular expression of what [ParseSlope] reads; the limits
// of a slope are not in it.
func SlopePattern() string {
	return ratioForm.String() + "|" + percentForm.String() + "|" + degreeForm.String()
}

// ParseSlope reads a slope as the trade writes it: rise to run, "1:12" and
// "1/4:12"; rise in percent of the run, "8.3%"; the angle with the level in
// degrees, "5 deg" or "5°".
func ParseSlope(text string) (Slope, error) {
	rise, run, known := riseAndRun(text)
	if !known {
		return Slope{}, fmt.Errorf("%.40q is no slope: write 1:12, 1/4:12, 8.3%% or 5 deg", text)
	}
	s, err := NewSlope(rise, run)
	if err != nil {
		return Slope{}, fmt.Errorf("slope %q is %w", text, ErrTooSteep)
	}
	return s, nil
}

// ErrTooSteep is a slope that no roof has: over 10:1, or one of no run.
var ErrTooSteep = fmt.Errorf("outside 0:1 to %d:1, rise to run", mostSlope)

func riseAndRun(text string) (rise, run float64, known bool) {
	const mostText = 40
	if len(text) > mostText {
		return 0, 0, false
	}
	if m := ratioForm.FindStringSubmatch(text); m != nil {
		return readLength(m[1]), readLength(m[2]), true
	}
	if m := percentForm.FindStringSubmatch(text); m != nil {
		return readDigits(m[1]), 100, true
	}
	if m := degreeForm.FindStringSubmatch(text); m != nil {
		return tangent(readDigits(m[1])), 1, true
	}
	return 0, 0, false
}

// tangent of an angle in degrees from 0; from 90 on it is infinite.
func tangent(degrees float64) float64 {
	if degrees >= 90 {
		return math.Inf(1)
	}
	return math.Tan(degrees * math.Pi / 180)
}

// readLength reads what lengthForm matches.
func readLength(text string) float64 {
	m := mixedForm.FindStringSubmatch(text)
	if m == nil {
		return readDigits(text)
	}
	return readDigits(m[1]) + readDigits(m[2])/readDigits(m[3])
}

// readDigits reads digits with a decimal point or without; none are 0. The
// patterns let nothing else through, and no number too long for a float64.
func readDigits(text string) float64 {
	x, _ := strconv.ParseFloat(text, 64)
	return x
}
