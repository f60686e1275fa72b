package scenarios

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// The wording on surveys and take-offs; see voice.go.

const (
	expectDimension = "a length over 0 and at most 10^6 with its unit, such as 36 in, 1 1/4 in, 40 ft or 35 mm"
	expectLength    = "a length from 0 to 10^9 with its unit, such as 310 ft or 95 m"
	expectSide      = "a length over 0 and at most 10^6 with its unit, such as 310 ft or 95 m"
	expectSurface   = "an area from 0 to 10^12 with its unit, such as 900 ft2 or 85 m2"
	expectPieces    = "a number of pieces from 0 to 10^12, such as 26"
	expectShare     = "a share from 0% to 100%, such as 18%"
	expectFilm      = "a dry film over 0 and at most 10^5, such as 12 mil or 300 um"
	expectWornFilm  = "a dry film from 0 to 10^5, such as 8 mil or 200 um"
	expectWear      = "the film that is lost in a year, over 0, such as 0.5 mil or 12 um"
	expectSolids    = "solids by volume, over 0% and at most 100%, such as 55%"
	expectLoss      = "the share of the paint that makes no film, from 0% to 95%, such as 10%"
	expectExtra     = "how much more paint than on a smooth surface, from 0% to 500%, such as 25%"
	expectHours     = "hours from 0 to 1000, such as 24 h"
	expectPaintPack = "the size of a pack, 0.01 at least, such as 5 gal or 20 L"
	expectPack      = "the size of a pack in the unit of the quantity, 0.01 at least, such as 250, 100 ft or 400 ft2"
	expectPanels    = "names with panels, such as main: {profile: trapezoid, …}"
)

func expectCovers(unit string) string {
	such := map[string]string{
		"": "pieces a gallon or litre, such as 12 pieces/gal", "ft": "a length a gallon or litre, such as 60 ft/gal or 5 m/L",
		"m": "a length a gallon or litre, such as 5 m/L or 60 ft/gal",
	}[unit]
	if such == "" {
		such = "an area a gallon or litre, such as 100 ft2/gal or 2.5 m2/L"
	}
	return such
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// The survey.

func quantityTwice(key string) message {
	return message{what: fmt.Sprintf("the roof has a quantity %s already", quote(key)), hint: "state it once: rename or remove the one under roof.quantities, or choose another key"}
}

func noPlanes() message {
	return message{what: "the survey has no planes to take this from", expected: "planes, such as - {name: East slope, length: 310 ft, width: 100 ft}"}
}

func nameTwice(name, what string) message {
	return message{what: fmt.Sprintf("%s is the name of an earlier %s too", quote(name), what), expected: "a name of its own"}
}

func areaAndLength() message {
	return message{what: "a plane with both area and length or width", expected: "area, or length and width"}
}

func noSize() message {
	return message{what: "a plane without a size", expected: "length and width, or area"}
}

func notSlope(text string, tooSteep bool) message {
	if tooSteep {
		return message{what: "a slope of " + quote(text) + " is out of range", expected: "a slope from level to 10:1, which is 84 degrees"}
	}
	return message{what: quote(text) + " is not a slope", expected: `rise to run, a percentage or an angle, such as "1/2:12", "4%" or "5 deg"`}
}

func noSuchPanel(name string, names []string) message {
	m := message{what: "the survey has no panel " + quote(name), hint: didYouMean(nearest(name, names))}
	if m.expected = "one of: " + some(names); len(names) == 0 {
		m.expected = expectPanels + " under survey.panels"
	}
	return m
}

func noSuchPlane(name string, names []string) message {
	return message{what: "the survey has no plane " + quote(name), expected: "one of: " + some(names), hint: didYouMean(nearest(name, names))}
}

func whichPlane() message {
	return message{what: "the planes have panels of different profiles, and the opening names no plane", hint: "add plane: and the name of the one it lies in"}
}

func notOfProfile(key, profile string, uses []string) message {
	m := message{what: fmt.Sprintf("%s is no dimension of the profile %s", key, profile)}
	if m.expected = "its dimensions: " + strings.Join(uses, ", "); len(uses) == 0 {
		m.expected = "none: it has no ribs"
	}
	return m
}

func noProfile(err error, unit string) message {
	return message{what: fmt.Sprintf("no panel has these dimensions, in %s: %v", unit, err), hint: "measure one rib again, all in one unit"}
}

func notDeveloped(text string) message {
	return message{what: quote(text) + " is out of range", expected: "a factor from 1 to 10, such as 1.18, or the length along the sheet over the width cover, such as 42.5 in"}
}

func slopeMissing() message {
	return message{what: "it was measured on the slope, and the slope is not stated", expected: "slope beside it, such as 1/2:12, for the area in plan"}
}

func openingsTooLarge(open, gross decimal.Decimal, unit, at string) message {
	return message{what: fmt.Sprintf("%sthe openings are together %s, the roof is %s", at, inUnit(open, unit), inUnit(gross, unit)), expected: "openings smaller than the roof"}
}

func openingsOverPlane(plane string, open, of decimal.Decimal, unit, at string) message {
	return message{what: fmt.Sprintf("%sthe openings in %s are together %s, the plane is %s", at, quote(plane), inUnit(open, unit), inUnit(of, unit)), expected: "openings no larger than their plane"}
}

func waterTooLarge(key string, area, roof decimal.Decimal, unit string) message {
	return message{what: fmt.Sprintf("a %s area of %s, but the roof has %s", key, inUnit(area, unit), inUnit(roof, unit)), expected: "an area within the roof"}
}

func panelLeftOut(name, key, what string) message {
	return message{what: fmt.Sprintf("panel %s states no %s, so its planes have no part in %s", quote(name), what, key), hint: "state its " + what + ", as other panels do"}
}

func planContradicted(given, sum decimal.Decimal, unit string) message {
	return message{what: fmt.Sprintf("a plan area of %s, but the planes of the survey sum to %s: they differ by more than %s", inUnit(given, unit), inUnit(sum, unit), percent(planDiffers))}
}

func inUnit(x decimal.Decimal, unit string) string { return x.Round(2).String() + " " + unit }

func noScrews() message {
	return message{what: "a share of screws, but not how many there are", expected: "count, or panels with purlins and screws"}
}

// sharesOverWhole names the share whose range goes too far; "" where the likely
// values do.
func sharesOverWhole(sum decimal.Decimal, widest string) message {
	with := ""
	if widest != "" {
		with = fmt.Sprintf(" with %s at its highest", widest)
	}
	return message{what: fmt.Sprintf("the shares are together %s%s, more than 100%%", percent(sum), with), hint: "count each once, under its worst state"}
}

// The take-off.

func noSteps() message {
	return message{what: "a take-off without steps", expected: "one step or more"}
}

func noWork() message {
	return message{what: "a step that is done to nothing", expected: "over and a quantity, or lump"}
}

func noLabour() message {
	return message{what: "a step without a cost", expected: "labour, material or both"}
}

func lumpAnd(key string) message {
	return message{what: key + " stands beside lump", expected: "lump alone, or over with labour or material"}
}

func typedAndDerived(name string) message {
	return message{what: fmt.Sprintf("the cost of %s is typed among the first costs and derived from this step too", quote(name)), hint: "remove one of them"}
}

func filmAndCovers() message {
	return message{what: "a material with both film and covers", expected: "one of them"}
}

func filmForgotten(key string) message {
	return message{what: key + " stands in a material without film", hint: "add the dry film, as film: 12 mil, or leave it out"}
}

func filmOverNoArea(key string) message {
	return message{what: fmt.Sprintf("a film over %s, which is no area", quote(key)), hint: "write covers and a spreading rate, such as covers: 60 ft/gal"}
}

func lossAndExtra() message {
	return message{what: "a material with both loss and extra", hint: "extra paint of 25% is a loss of 20%: write one of them"}
}

func packOfOther(text, unit string) message {
	if unit == "" {
		return message{what: quote(text) + " has a unit", expected: "a pack in pieces, such as 250"}
	}
	return message{what: quote(text) + " is no pack of what is measured in " + unit, expected: "the size of a pack in its unit"}
}

func sameColour(colour, over string) message {
	return message{what: fmt.Sprintf("a second coat over %s in the same colour, %s: two coats of contrasting colour are common practice, to see what is missed", clip(over), quote(colour))}
}

func oneCoat() message {
	return message{what: "a single coat over the whole surface: two coats of contrasting colour are common practice"}
}

func noWaitOnRust() message {
	return message{what: "a film over rust without a wait: to leave it overnight up to 24 h before the next coat is common practice"}
}

// Lives by film.

func noCoats(elsewhere bool) message {
	if elsewhere {
		return message{what: "there is no take-off of this work to take the film from", hint: "give the dry film, as film: 20 mil"}
	}
	return message{what: "the take-off has no coat over " + keyCoated, hint: "give the dry film, as film: 20 mil"}
}

// packInOther words a pack in another unit than the price counts in: that of
// the quantity where it is one of its units, else that of the plan area.
func packInOther(text, unit, of string) message {
	why := "as the plan area is measured"
	if unit == of {
		why = "as the quantity is measured"
	}
	return message{what: fmt.Sprintf("a pack of %s, but the price counts per %s, %s", quote(text), unit, why), hint: "see that the price is per " + unit + ", and write the pack in " + unit}
}

func wearInOther(unit, films string) message {
	return message{what: fmt.Sprintf("a wear without a unit counts in %s, but worn_at is in %s", unit, films), hint: "write the wear with its unit, such as 1 mil or 25 um"}
}

func wearWithoutSource() message {
	return message{what: "a wear a year without a source: published figures of wear are few and differ, and the life rests on it", hint: "add source, and a range with low, likely and high"}
}

func noFilmLife(at string, film, worn, wear, life decimal.Decimal, unit string) message {
	m := message{expected: fmt.Sprintf("a life over 0 and at most %s years", mostYears)}
	if film.GreaterThan(worn) {
		m.what = fmt.Sprintf("%s a film of %s %s, worn at %s %s, lasts %s years at %s %s a year", at, film.Round(4), unit, worn.Round(4), unit, life.Round(0), wear.Round(6), unit)
	} else {
		m.what = fmt.Sprintf("%s a film of %s %s is worn when new: it is worn at %s %s", at, film.Round(4), unit, worn.Round(4), unit)
	}
	return m
}
