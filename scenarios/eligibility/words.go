package eligibility

import (
	"maps"
	"slices"
)

// Words lists the words of a kind of finding, in alphabetical order but for
// "other", which is the last; none for a type that is no such kind.
func Words[T ~string]() []string {
	switch any(T("")).(type) {
	case Covering:
		return sorted(coveringNames)
	case Surface:
		return sorted(surfaceNames)
	case Chemistry:
		return sorted(chemistryNames)
	case WetMethod:
		return sorted(methodNames)
	case Deck:
		return sorted(deckNames)
	case Seismic:
		return sorted(seismicNames)
	case Code:
		return sorted(codeNames)
	case EnergyCode:
		return sorted(energyCodeNames)
	case Asbestos:
		return sorted(asbestosNames)
	}
	return nil
}

func sorted[T ~string](names map[T]string) []string {
	const last = "other"
	var out []string
	for _, w := range slices.Sorted(maps.Keys(names)) {
		if w != last {
			out = append(out, string(w))
		}
	}
	if _, there := names[last]; there {
		out = append(out, last)
	}
	return out
}

// Covering is a kind of roof covering. Its text is the word a study file may
// use.
type Covering string

// The kinds of coverings that rules speak of.
const (
	MetalPanel     Covering = "metal_panel"
	MetalShingle   Covering = "metal_shingle"
	BuiltUp        Covering = "bur"
	ModBit         Covering = "mod_bit"
	SinglePly      Covering = "single_ply"
	SprayFoam      Covering = "spf"
	MineralRoll    Covering = "mineral_roll"
	Coated         Covering = "coating"
	Slate          Covering = "slate"
	ClayTile       Covering = "clay_tile"
	ConcreteTile   Covering = "concrete_tile"
	AsbestosCement Covering = "asbestos_cement"
	WoodShake      Covering = "wood_shake"
	OtherCovering  Covering = "other"
)

var coveringNames = map[Covering]string{
	MetalPanel: "metal panels", MetalShingle: "metal shingles", BuiltUp: "a built-up roof",
	ModBit: "modified bitumen", SinglePly: "a single-ply membrane", SprayFoam: "sprayed polyurethane foam",
	MineralRoll: "mineral-surfaced roll roofing", Coated: "a roof coating", Slate: "slate",
	ClayTile: "clay tile", ConcreteTile: "cement or concrete tile", AsbestosCement: "asbestos-cement tile",
	WoodShake: "wood shakes", OtherCovering: "a covering of another kind",
}

// metal tells whether it is of sheet metal.
func (c Covering) metal() bool { return c == MetalPanel || c == MetalShingle }

// Surface is what a coating would have to hold on.
type Surface string

// The surfaces that rules speak of. SoundSurface is any that is none of the
// others.
const (
	SoundSurface Surface = "sound"
	CoalTar      Surface = "coal_tar_pitch"
	ExposedScrim Surface = "exposed_scrim"
	BareGravel   Surface = "untreated_gravel"
)

var surfaceNames = map[Surface]string{
	SoundSurface: "sound", CoalTar: "coal-tar pitch", ExposedScrim: "a membrane worn down to its fabric",
	BareGravel: "gravel without treatment",
}

// Chemistry is what a coating is made of.
type Chemistry string

// The chemistries that rules speak of. Uncoated is for the existing roof only.
const (
	Uncoated       Chemistry = "none"
	Acrylic        Chemistry = "acrylic"
	Silicone       Chemistry = "silicone"
	Urethane       Chemistry = "urethane"
	OtherChemistry Chemistry = "other"
)

var chemistryNames = map[Chemistry]string{
	Uncoated: "no coating", Acrylic: "acrylic", Silicone: "silicone", Urethane: "urethane", OtherChemistry: "of another chemistry",
}

// WetMethod is how wet insulation was found.
type WetMethod string

// The ways of finding wet insulation. Only an instrument together with cores
// verifies it.
const (
	InstrumentAndCores WetMethod = "instrument_and_cores"
	InstrumentOnly     WetMethod = "instrument"
	CoresOnly          WetMethod = "cores"
	ByEye              WetMethod = "eye"
)

var methodNames = map[WetMethod]string{
	InstrumentAndCores: "by an instrument with cores", InstrumentOnly: "by an instrument alone",
	CoresOnly: "by cores alone", ByEye: "by eye",
}

// Deck is what carries the roof.
type Deck string

// The decks that rules speak of.
const (
	SteelDeck     Deck = "steel"
	ConcreteDeck  Deck = "concrete"
	WoodDeck      Deck = "wood"
	LightConcrete Deck = "lightweight_concrete"
	WoodFibre     Deck = "cementitious_wood_fibre"
	GypsumDeck    Deck = "gypsum"
	OtherDeck     Deck = "other"
)

var deckNames = map[Deck]string{
	SteelDeck: "steel", ConcreteDeck: "concrete", WoodDeck: "wood", LightConcrete: "lightweight insulating concrete",
	WoodFibre: "cementitious wood fibre", GypsumDeck: "gypsum", OtherDeck: "of another kind",
}

// Seismic is the seismic design category of the building.
type Seismic string

// The seismic design categories; D, E and F are the severe ones.
const (
	SeismicA Seismic = "a"
	SeismicB Seismic = "b"
	SeismicC Seismic = "c"
	SeismicD Seismic = "d"
	SeismicE Seismic = "e"
	SeismicF Seismic = "f"
)

var seismicNames = map[Seismic]string{SeismicA: "A", SeismicB: "B", SeismicC: "C", SeismicD: "D", SeismicE: "E", SeismicF: "F"}

// severe tells whether the category is one for which codes ask more.
func (s Seismic) severe() bool { return s == SeismicD || s == SeismicE || s == SeismicF }

// Code is the building code adopted here, as far as rules depend on it.
type Code string

// The codes that rules speak of. Of the editions from 2015 on, the clause on
// coatings was not read: with one of these the clause stays open until someone
// reads it and states SprayFoamClause or ListClause.
const (
	IBC2012         Code = "ibc_2012"
	IBC2015         Code = "ibc_2015"
	IBC2018         Code = "ibc_2018"
	IBC2021         Code = "ibc_2021"
	IBC2024         Code = "ibc_2024"
	SprayFoamClause Code = "coating_clause_spf_only" // any code that lets only sprayed foam be coated without tear-off
	ListClause      Code = "coating_clause_list"     // any code with the list of IEBC 705.3.1 item 4
	OtherCode       Code = "other"
)

var codeNames = map[Code]string{
	IBC2012: "IBC 2012", IBC2015: "IBC 2015", IBC2018: "IBC 2018", IBC2021: "IBC 2021", IBC2024: "IBC 2024",
	SprayFoamClause: "the code adopted here", ListClause: "the code adopted here", OtherCode: "another code",
}

// EnergyCode is the energy code adopted here.
type EnergyCode string

// The energy codes that rules speak of.
const (
	NoEnergyCode    EnergyCode = "none"
	IECC2012        EnergyCode = "iecc_2012"
	IECC2015        EnergyCode = "iecc_2015_or_later"
	OtherEnergyCode EnergyCode = "other"
)

var energyCodeNames = map[EnergyCode]string{
	NoEnergyCode: "none", IECC2012: "IECC 2012", IECC2015: "IECC 2015 or later", OtherEnergyCode: "another one",
}

// Asbestos is where the search for asbestos stands.
type Asbestos string

// The states of the search for asbestos.
const (
	AsbestosNotSurveyed Asbestos = "not_surveyed"
	AsbestosNone        Asbestos = "surveyed_none"
	AsbestosFound       Asbestos = "surveyed_found"
	AsbestosByAge       Asbestos = "held_needless_by_age" // someone holds that the roof is too young for it
)

var asbestosNames = map[Asbestos]string{
	AsbestosNotSurveyed: "not surveyed", AsbestosNone: "none found", AsbestosFound: "found", AsbestosByAge: "held needless by age",
}
