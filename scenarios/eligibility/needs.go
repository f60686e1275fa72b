package eligibility

// The findings that rules may lack: each once, since several rules ask for the
// same one.
var (
	needWork = Need{"what kind of work this option is",
		"state whether the option keeps, restores, roofs over or tears off", "the preparer of the study"}

	needCoverings = Need{"the number of existing roof coverings",
		"cut a core down to the deck and count the coverings", "a roof consultant or the contractor"}
	needCovering = Need{"the kind of the existing covering",
		"identify the uppermost covering, from a core or the roof's papers", "a roof consultant or the contractor"}
	needSeparate = Need{"whether the new roof is a system of its own that carries its load to the structure",
		"state whether the new roof relies on the old one", "the designer of the new roof"}
	needBase = Need{"whether the existing roof is sound enough to build on",
		"have the membrane, seams and attachment of the existing roof surveyed", "a roof consultant"}
	needSoaked = Need{"whether the existing roof is water soaked",
		"have moisture surveyed with an instrument and cores", "a roof consultant"}
	needWoodShake = Need{"whether wood shakes may be roofed over here",
		"ask the building department; the codes read allow metal or tile over shakes when the concealed space is treated", "the designer"}
	needTrapped = Need{"whether the soaked part may stay under the separate system",
		"ask whether the wet part is taken out before the separate system closes over it", "the licensed designer"}

	needCode = Need{"the building code adopted here",
		"ask the building department which code and edition is adopted", "the designer or the contractor"}
	needClause = Need{"what the adopted code says on coatings",
		"read the coating clause of the adopted edition, in its section on reroofing", "the designer"}

	needWetShare = Need{"the share of the roof area that is wet",
		"have moisture surveyed with an instrument and cores", "a roof consultant"}
	needWetMethod = Need{"how the wet area was found",
		"state whether the moisture survey used an instrument, cores or both", "the surveyor"}
	needCores = Need{"a moisture survey verified by cores",
		"have cores cut and weighed in places that the instrument shows wet and dry", "a roof consultant"}
	needInstrument = Need{"a moisture survey of the whole roof",
		"have the whole roof scanned with an instrument, and verify it by cores", "a roof consultant"}
	needWetPart = Need{"whether the wet part is cut out and replaced",
		"state whether a cost line replaces the wet part", "the preparer of the study"}

	needPonding = Need{"the share of the roof area where water stands over 48 hours",
		"map standing water two days after rain", "the building's staff or a roof consultant"}
	needDrainage = Need{"whether the drainage is corrected",
		"state whether a cost line drains the standing water", "the preparer of the study"}
	needPondingProof = Need{"whether the planned coating withstands standing water",
		"ask for a written statement on standing water for the planned coating", "the coating contractor"}

	needCoating = Need{"the planned coating",
		"state what the planned coating is made of", "the coating contractor"}
	needExisting = Need{"what the existing roof is coated with, if at all",
		"identify the existing coating, from the roof's papers or a sample", "a roof consultant or the coating contractor"}
	needSurface = Need{"the surface that the coating would go on",
		"look whether the surface is coal-tar pitch, worn down to its fabric, or untreated gravel", "a roof consultant or the coating contractor"}
	needAdhesion = Need{"an adhesion test of the planned coating on this roof",
		"have strips of fabric embedded in the planned coating, cured and pulled in at least 3 places on each surface, better after a wet soak", "the coating contractor"}

	needRust = Need{"how much of the panels is rusted through",
		"have the panels graded for rust: on the surface, flaking, through", "a roof consultant"}
	needSectionLoss = Need{"whether rust has thinned the panels",
		"look for deep rust and for rust from below", "a roof consultant"}
	needPanels = Need{"whether the bad panels are replaced",
		"state whether a cost line replaces the panels with holes or lost section", "the preparer of the study"}

	needDeck = Need{"whether the deck is sound",
		"have the deck looked at from below and through openings before it is loaded", "a roof consultant or a structural engineer"}
	needDeckRepair = Need{"whether the unsound deck is repaired",
		"state whether a cost line repairs the deck", "the preparer of the study"}
	needLoad = Need{"the load that the option adds",
		"add up the weights per area of what goes on, less what comes off", "the designer"}
	needReserve = Need{"the load that the structure can still take",
		"have the frame and the deck checked for what they can still take", "a structural engineer"}

	needShare = Need{"the share of the roof area that is worked on",
		"state the share of the roof area that is roofed over or torn off", "the preparer of the study"}
	needParapets = Need{"whether there are parapets of unreinforced masonry",
		"look what the parapets are built of, and whether they are reinforced", "a structural engineer"}
	needSeismic = Need{"the seismic design category of the building",
		"take the seismic design category from the structural drawings, or have it determined", "a structural engineer"}
	needBracing = Need{"whether the parapets are braced",
		"state whether a cost line braces the parapets", "the preparer of the study"}

	needEnergyCode = Need{"the energy code adopted here",
		"ask the building department which energy code and edition is adopted", "the designer or the contractor"}
	needEnergyClause = Need{"what the adopted energy code asks of a roof replacement",
		"ask the building department what the energy code asks when a roof is replaced", "the designer"}
	needAboveDeck = Need{"whether the roof's insulation lies entirely above the deck",
		"look where the insulation lies, from a core and from below", "a roof consultant or the contractor"}
	needEnvelope = Need{"whether the roof is part of the heated or cooled envelope",
		"state whether the space below is heated or cooled and bounded by this roof", "the designer"}
	needInsulation = Need{"whether the insulation is brought up to the energy code",
		"state the cost line that does it, or who waived it and why", "the preparer of the study"}

	needAsbestos = Need{"whether the roof holds asbestos",
		"have felts, mastics, flashings and sheets sampled before they are cut, washed or torn off", "a licensed asbestos inspector"}
	needAsbestosCost = Need{"what the asbestos adds to the cost",
		"ask for a price for handling, notice and disposal, and enter it as a cost line", "a licensed asbestos contractor"}
)
