package eligibility

// Rules are all rules, in the order in which they are judged and shown: what
// the code allows, then water, then what a coating holds on, then what carries
// it, then what else the work sets off. At the end, advice.
func Rules() []Rule {
	return []Rule{
		tooManyCoverings,
		notABase,
		notRoofedOver,
		coatingClause,
		moistureSurvey,
		wetShare,
		wetPart,
		pondingWater,
		coatingSurface,
		overSilicone,
		adhesion,
		perforatedPanels,
		sectionLoss,
		soundDeck,
		structureCheck,
		structureReserve,
		parapetBracing,
		energyInsulation,
		asbestosSurvey,
		fireClass,
		windUplift,
		pullOut,
	}
}
