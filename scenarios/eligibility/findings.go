package eligibility

import "github.com/shopspring/decimal"

// Units are those of loads and forces.
type Units uint8

// The unit systems.
const (
	US     Units = iota // lb/ft2 (psf), lb per inch
	Metric              // kN/m2, N/mm
)

// Findings are what is known of a roof and of the rules of its place. The zero
// value knows nothing. Shares are from 0 to 1.
type Findings struct {
	Units Units // of Reserve, of Option.AddedLoad and of adhesion tests

	Coverings       Known[int]      // existing roof coverings, one on another; 0 or more, 0 is a bare deck
	Covering        Known[Covering] // the uppermost
	Surface         Known[Surface]  // of the uppermost
	ExistingCoating Known[Chemistry]
	BaseSound       Known[bool] // the existing roof is sound enough to build on

	WaterSoaked Known[bool]            // the existing roof holds water
	WetShare    Known[decimal.Decimal] // share of the roof area with wet insulation
	WetFoundBy  Known[WetMethod]
	WetLimit    WetLimit               // a setting, no finding
	Ponding     Known[decimal.Decimal] // share of the roof area where water stands over 48 hours

	Adhesion    Known[[]AdhesionTest]
	Rust        Known[Rust]
	SectionLoss Known[bool] // rust deep in the metal or from below has thinned panels

	Deck           Known[Deck]
	DeckSound      Known[bool]
	Reserve        Known[decimal.Decimal] // load that the structure can still take, from an engineer; 0 or more
	PullOutsTested Known[bool]            // fasteners were pulled from this deck

	Parapets Known[bool] // there are parapets of unreinforced masonry
	Seismic  Known[Seismic]

	Code       Known[Code]
	EnergyCode Known[EnergyCode]
	AboveDeck  Known[bool] // the roof's insulation lies entirely above the deck
	InEnvelope Known[bool] // the roof is part of the heated or cooled envelope

	Asbestos Known[Asbestos]
}

// WetLimit is the share of wet roof area over which restoring is not chosen.
// The zero value is the customary 25%. It is a setting and no finding: leaving
// it out takes the customary one, and the sentence says so.
type WetLimit struct {
	Share decimal.Decimal // over 0, at most 1; 0 takes the customary limit
	From  string          // such as the local code
	// ReplaceAll is true where the local code wants the whole roof replaced over
	// its limit, even if the wet part is.
	ReplaceAll bool
}

// customaryWet is the usual limit [wet25].
var customaryWet = decimal.New(25, -2)

// share is the limit that counts.
func (l WetLimit) share() decimal.Decimal {
	if l.Share.IsZero() {
		return customaryWet
	}
	return l.Share
}

// Source is where the limit comes from; "" for the customary one.
func (l WetLimit) Source() string { return l.From }

// name says whose limit it is.
func (l WetLimit) name() string {
	if l.Share.IsZero() {
		return "customary"
	}
	return "local"
}

// AdhesionTest is a peel test of one coating on one surface of this roof.
type AdhesionTest struct {
	Coating Chemistry
	Least   decimal.Decimal // the least force of all places, per width of strip; 0 or more
	Places  int             // places tested on this surface; 1 or more
}

// Rust are shares of a metal roof's area, each from 0 to 1, and so their sum.
type Rust struct {
	Light      decimal.Decimal // on the surface only
	Scaled     decimal.Decimal // flaking
	Perforated decimal.Decimal // through
}
