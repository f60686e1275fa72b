package coating

import (
	"github.com/shopspring/decimal"

	"roofyears/scenarios/units"
)

// Treatment is what a seam or a hole of some width gets before the coating.
type Treatment string

// The treatments.
const (
	BrushGrade  Treatment = "brush or spray grade compound"
	TrowelGrade Treatment = "trowel grade compound"
	CloseFirst  Treatment = "close it mechanically first"
)

var (
	brushTo  = decimal.New(625, -4)  // 1/16 in
	trowelTo = decimal.New(1875, -4) // 3/16 in
)

// TreatmentOf tells what a gap gets by its width, 0 or more: brush or spray
// grade to 1/16 in, trowel grade for 1/8 to 3/16 in, and wider gaps are closed
// mechanically first; common practice [Seams]. For what lies between 1/16 and
// 1/8 in practice says nothing: that it takes the trowel grade is this
// program's choice.
func TreatmentOf(gap units.Value) (Treatment, error) {
	inches, err := atLeastZero("gap", gap, units.Inch)
	switch {
	case err != nil:
		return "", err
	case inches.LessThanOrEqual(brushTo):
		return BrushGrade, nil
	case inches.LessThanOrEqual(trowelTo):
		return TrowelGrade, nil
	}
	return CloseFirst, nil
}
