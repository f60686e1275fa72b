package eligibility

import "github.com/shopspring/decimal"

// Work is what is done to the roof first. The zero value is "not stated".
type Work string

// The kinds of work.
const (
	Keep    Work = "keep"
	Restore Work = "restore" // by a coating
	Recover Work = "recover" // a new covering over the old one
	TearOff Work = "tear_off"
)

var workNames = map[Work]string{Keep: "keeping", Restore: "restoring", Recover: "roofing over", TearOff: "tearing off"}

// Option is one work, with what is planned and priced for it. What is not
// stated is not known.
type Option struct {
	Work Work

	Share          Known[decimal.Decimal] // of the roof area that is worked on, from 0 to 1
	Coating        Known[Chemistry]       // planned; never Uncoated
	SeparateSystem Known[bool]            // a complete roof of its own that carries its load to the structure and does not rely on the old one
	AddedLoad      Known[decimal.Decimal] // new load less what is taken away, per area; negative when the roof gets lighter

	// Whether a cost line does it.
	WetPartReplaced   Known[bool]
	PanelsReplaced    Known[bool] // those with holes or lost section
	DrainageCorrected Known[bool] // so that no water stands
	DeckRepaired      Known[bool] // where it is unsound
	ParapetsBraced    Known[bool] // those of unreinforced masonry
	AsbestosPriced    Known[bool] // handling, notice and disposal
	Insulation        Known[Insulation]

	// What the designer has shown.
	FireShown Known[bool] // that the new assembly holds the fire class asked for
	WindShown Known[bool] // that it holds against the wind loads asked for
}

// Insulation says what an option does about the energy code's insulation; it is
// not both priced and waived.
type Insulation struct {
	Priced bool   // a cost line brings it to what the code asks
	Waived string // why it may be left out, and who says so; "" when it is not waived
}
