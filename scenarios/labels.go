package scenarios

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"roofyears/lcc"
)

// Labels name inputs and settings in words, for tables.

const (
	labelDiscount  = "Discount rate"
	labelInflation = "General inflation"
	labelPeriod    = "Study period, years"
	labelArea      = "Plan area of the roof"
)

func labelEscalation(c lcc.Category) string { return "Escalation of " + c.String() }

func labelYear(label string, year int) string { return fmt.Sprintf("%s, year %d", label, year) }

// labelQuantity makes words of a key: seam_length is Seam length.
func labelQuantity(key string) string {
	words := strings.ReplaceAll(key, "_", " ")
	first, size := utf8.DecodeRuneInString(words)
	if size == 0 {
		return ""
	}
	return string(unicode.ToUpper(first)) + words[size:]
}

// What is measured on a roof.
const (
	labelSurface     = "Roof surface, on the slope"
	labelDeveloped   = "Developed area, along the profile"
	labelCoated      = "Area to be coated"
	labelSeams       = "Side seams"
	labelLaps        = "End laps"
	labelScrews      = "Screws"
	labelExtraScrews = "Extra screws at seams"
	labelPerforated  = "Perforated area, to be replaced"
	labelWet         = "Wet area"
	labelPonding     = "Ponding area"
	labelBrushGaps   = "Gaps for brush-grade compound"
	labelTrowelGaps  = "Gaps for trowel-grade compound"
	labelClosedGaps  = "Gaps to be closed mechanically first"
)

// The labels below go with the system that they are of (lcc.Input.Of).

func labelLife(inPlace bool) string {
	if inPlace {
		return "Years left"
	}
	return "Service life"
}

const (
	labelRecoatLife = "Service life of a recoat"
	labelResidual   = "Residual value"
)

// labelRecoat names an item of a recoat.
func labelRecoat(item string) string { return "Recoat: " + item }

// A setting stands in a table of its own and names its system itself.

func labelAtMost(system string) string { return system + ": recoats at most" }

func labelWait(alternative string) string { return alternative + ": wait, years" }

func labelEvery(system, item string) string { return system + ": " + item + ", years between" }

func labelAmount(item string) string { return item + ", amount" }
func labelGrowth(item string) string { return item + ", growth a year" }
func labelPrice(item string) string  { return item + ", unit price" }

// perUnit is the unit text of a price: "per ft2"; "" for pieces.
func perUnit(unit string) string {
	if unit == "" {
		return ""
	}
	return "per " + unit
}

// What a cool_roof names.
const (
	labelReflectanceNow  = "Reflectance of the roof as it is"
	labelReflectanceNew  = "Reflectance of the new surface when new"
	labelReflectanceAged = "Reflectance of the new surface once soiled"
	labelEmittanceNow    = "thermal emittance of the roof as it is"
	labelEmittanceNew    = "thermal emittance of the new surface"
	labelSunYear         = "Sun on the roof in a year"
	labelSunCooling      = "Sun on the roof while cooling is called for"
	labelSunHeating      = "Sun on the roof while heating is called for"
	labelCoolingDays     = "cooling degree-days"
	labelHeatingDays     = "heating degree-days"
	labelUValue          = "U-value of the roof"
	labelFilm            = "Outside film coefficient"
	labelCOP             = "COP of the cooling"
	labelSEER            = "SEER of the cooling"
	labelEfficiency      = "Efficiency of the heating"
	labelElectricity     = "Price of electricity"
	labelHeatPrice       = "Price of heating energy"

	labelChange      = "Change of reflectance"
	labelIndexNow    = "Solar reflectance index (ASTM E1980, medium wind) of the roof as it is"
	labelIndexNew    = "Solar reflectance index (ASTM E1980, medium wind) of the new surface when new"
	labelIndexAged   = "Solar reflectance index (ASTM E1980, medium wind) of the new surface once soiled"
	labelAbsorbed    = "Sun no longer absorbed"
	labelDegreeHours = "Degree-hours by which the surface stays cooler"
	labelHeatOut     = "Heat kept out"
	labelHeatMissed  = "Heat missed"
	labelNotBought   = "Electricity saved"
	labelBought      = "Heating energy bought in its place"

	sourceShared   = "shared out by the degree-days"
	sourceCoolRoof = "follows from the inputs of the reflective surface"
)

func labelAYear(item string) string { return item + ", a year" }
