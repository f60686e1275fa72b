package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// The measures of a survey and a take-off. What is in a derivation has a range
// or is plain: a distribution without ends would draw a film that is none, or
// solids over 100 %.
var (
	dimension  = measure{unit: lcc.Count, expected: expectDimension, low: decimal.Zero, high: decimal.New(1, 6), lowOpen: true, units: []string{"in", "ft", "mm", "m"}}
	length     = measure{unit: lcc.Count, expected: expectLength, low: decimal.Zero, high: decimal.New(1, 9), units: []string{"ft", "m"}, shapes: positiveShape}
	side       = measure{unit: lcc.Count, expected: expectSide, low: decimal.Zero, high: decimal.New(1, 6), lowOpen: true, units: []string{"ft", "m"}, shapes: positiveShape}
	surface    = measure{unit: lcc.Count, expected: expectSurface, low: decimal.Zero, high: mostQuantity, units: areaUnit, shapes: positiveShape}
	planeArea  = measure{unit: lcc.Count, expected: expectArea, low: decimal.Zero, high: mostQuantity, lowOpen: true, units: areaUnit, shapes: positiveShape}
	pieces     = measure{unit: lcc.Count, expected: expectPieces, low: decimal.Zero, high: mostQuantity, units: noUnit, shapes: positiveShape}
	shareOf    = measure{unit: lcc.Count, expected: expectShare, low: decimal.Zero, high: decimal.NewFromInt(1), units: noUnit, share: true}
	film       = measure{unit: lcc.Count, expected: expectFilm, low: decimal.Zero, high: decimal.New(1, 5), lowOpen: true, units: []string{"mil", "um"}}
	wornFilm   = measure{unit: lcc.Count, expected: expectWornFilm, low: decimal.Zero, high: decimal.New(1, 5), units: []string{"mil", "um"}}
	wear       = measure{unit: lcc.Count, expected: expectWear, low: decimal.Zero, high: decimal.New(1, 4), lowOpen: true, units: []string{"", "mil", "um"}}
	solids     = measure{unit: lcc.Count, expected: expectSolids, low: decimal.Zero, high: decimal.NewFromInt(1), lowOpen: true, units: noUnit, share: true}
	loss       = measure{unit: lcc.Count, expected: expectLoss, low: decimal.Zero, high: decimal.New(95, -2), units: noUnit, share: true}
	extraPaint = measure{unit: lcc.Count, expected: expectExtra, low: decimal.Zero, high: decimal.NewFromInt(5), units: noUnit, share: true}
	hours      = measure{unit: lcc.Count, expected: expectHours, low: decimal.Zero, high: decimal.NewFromInt(1000), units: []string{"h"}}
	paintPack  = measure{unit: lcc.Count, expected: expectPaintPack, low: leastPack, high: decimal.New(1, 6), units: []string{"gal", "L"}}
	quantPack  = measure{unit: lcc.Count, expected: expectPack, low: leastPack, high: decimal.New(1, 9), units: anyUnit}
)

// leastPack is the least that a pack may hold, in any unit: less is a slip of
// the decimal point, and would be shown as 0.
var leastPack = decimal.New(1, -2)

// covers is how much of a quantity in a unit a gallon or litre covers.
func covers(unit string) measure {
	k := measure{unit: lcc.Count, expected: expectCovers(unit), low: decimal.Zero, high: mostQuantity, lowOpen: true}
	switch unit {
	case "":
		k.units = []string{"pieces/gal", "pieces/L"}
	case "ft", "m":
		k.units = []string{"ft/gal", "m/L"}
	default:
		k.units = []string{"ft2/gal", "m2/L"}
	}
	return k
}

// percentText marks an input that is a fraction and is written in percent.
const percentText = "%"

// plain reads a number that is a setting of a take-off, such as the size of a
// pack or the hours of a wait. A nil node was told, or is not there.
func (r *reader) plain(n *node, path string, k measure) (number, bool) {
	if n == nil {
		return number{}, false
	}
	if n.shape != scalar {
		r.wrongShape(n, path, k.expected)
		return number{}, false
	}
	v, m, ok := k.read(n.text, false)
	if !ok {
		r.fail(n.place, path, m)
	}
	return v, ok
}
