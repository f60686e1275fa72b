// Package coolroof says how the two yearly costs of a reflective surface come
// about, for whoever shows it.
package coolroof

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Working is the working of a reflective surface at the likely values, at
// base-date prices. The costs are inputs of the study that follow from others,
// so they are what the ledger charges.
type Working struct {
	System int       // index in the study
	Saved  lcc.Ref   // the yearly cost of cooling, a credit; NoRef where the building is not cooled
	Lost   lcc.Ref   // the yearly cost of heating; NoRef where it is not heated
	Inputs []lcc.Ref // that they follow from

	Surface, Cooling, Heating []Step // without the money

	Method, Limits []string // sentences
}

// Step is one figure of a working.
type Step struct {
	Label  string
	Value  decimal.Decimal
	Unit   string // as a study file writes it; "" for none
	Places int32  // decimals that make sense
}
