package cooling

import (
	"errors"

	"github.com/shopspring/decimal"
)

// Finish is how a roof surface came to be, which decides how it soils; the
// zero value is neither.
type Finish int

// The finishes that are told apart [T24].
const (
	FieldApplied Finish = iota + 1 // a coating applied on the roof
	OtherFinish                    // a membrane, a coated metal panel, any other surface
)

// retention is the share of the distance from 0.2 that is kept [T24].
var retention = map[Finish]decimal.Decimal{
	FieldApplied: decimal.New(65, -2),
	OtherFinish:  decimal.New(70, -2),
}

// soiled is the reflectance that every surface drifts towards [T24].
var soiled = decimal.New(2, -1)

// AgedReflectance estimates the reflectance of a weathered surface from its
// initial one, 0 to 1, where no measured aged value is known: 0.2 + β·(initial
// − 0.2), β 0.65 for field-applied coatings and 0.70 for others [T24]. A
// surface darker than 0.2 gets lighter.
func AgedReflectance(initial decimal.Decimal, f Finish) (decimal.Decimal, error) {
	kept, known := retention[f]
	if !known {
		return decimal.Zero, errors.New("the finish is neither a field-applied coating nor another")
	}
	if err := fraction.check("initial reflectance", initial, ""); err != nil {
		return decimal.Zero, err
	}
	return soiled.Add(kept.Mul(initial.Sub(soiled))), nil
}
