// Package takeoff says what was measured on a roof, what has to be bought for
// it and what is done in which order, as places among the inputs of a study:
// every figure of a take-off is an input, or follows from inputs by an
// lcc.Derivation, so that it moves with them and cannot differ from what the
// ledger charges.
package takeoff

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// TakeOff is the take-off of one system's first work.
type TakeOff struct {
	System   int // index in lcc.Study.Systems
	Measured []Measure
	Steps    []Step // in the order of doing
}

// Group says what kind of thing was measured.
type Group uint8

// The groups, in the order in which they are shown.
const (
	Areas Group = iota
	Lengths
	Counts
	Condition // rust, water, gaps
)

// Measure is one quantity of the survey.
type Measure struct {
	Group  Group
	Key    string // by which cost items are priced per it
	Label  string // in words
	In     lcc.Ref
	How    string // how it comes about: 310 ft × 100 ft × 1.0035 (slope) …; "" when it was counted or measured as it is
	Source string // "" when the file gives none
}

// Step is one piece of work on the roof.
type Step struct {
	Name     string
	Over     lcc.Ref // the quantity it is done to; lcc.NoRef when it is done once
	Labour   lcc.Ref // price per unit of Over, or for the whole; lcc.NoRef: none stated
	Material *Material
	Wait     decimal.Decimal // hours before the next step may start; 0 is none stated
	Note     string          // a caution or a common practice that belongs to it; "" is none
}

// Material is what a step takes.
type Material struct {
	Name   string
	Colour string  // of a coat; "" when not stated
	Needed lcc.Ref // what the work takes, before packs, in UnitText of the input
	Bought lcc.Ref // rounded up to whole packs; Needed itself when it is not sold in packs
	Pack   decimal.Decimal
	Price  lcc.Ref // per unit of Bought; lcc.NoRef: none stated
	Coat   *Coat   // nil for what is no film
}

// Coat is a film that a step leaves.
type Coat struct {
	Dry    lcc.Ref // target dry film
	Solids lcc.Ref // volume solids, a fraction
	Loss   lcc.Ref // share that does not reach the surface; lcc.NoRef: none stated
	Extra  lcc.Ref // in place of a loss: paint over that of a smooth surface, a fraction; lcc.NoRef: none stated
	Wet    lcc.Ref // wet film to aim for with the gauge
}
