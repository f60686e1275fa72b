package eligibility

var fireClass = Rule{
	ID:     "fire-class",
	Title:  "the whole assembly, with deck, slope and old covering, holds the fire class asked for",
	Source: "from memory: International Building Code, 1505, UL 790, ASTM E108",
	Mark:   Recall,
	Works:  []Work{Restore, Recover, TearOff},
	Judge:  judgeFire,
}

func judgeFire(_ Findings, o Option) Outcome {
	if yes(o.FireShown) {
		return advise("the assembly is shown to hold its fire class; keep the listing with the contract", o.FireShown)
	}
	return advise("ask for the listing of the whole assembly: a new covering or coating can change its fire class")
}
