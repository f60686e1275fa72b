package eligibility

var soundDeck = Rule{
	ID:     "deck",
	Title:  "no roof is built or coated on an unsound deck",
	Source: "a coating bulletin and a trade column, which agree",
	Mark:   CommonPractice,
	Works:  []Work{Restore, Recover, TearOff},
	Judge:  judgeDeck,
}

func judgeDeck(f Findings, o Option) Outcome {
	sound, known := f.DeckSound.Get()
	switch {
	case !known:
		return open("", needDeck)
	case sound:
		return pass("the deck is sound", f.DeckSound)
	case yes(o.DeckRepaired):
		return pass("the deck is unsound, and a cost line repairs it", f.DeckSound, o.DeckRepaired)
	case no(o.DeckRepaired):
		return fail("the deck is unsound, and no cost line repairs it", f.DeckSound, o.DeckRepaired)
	}
	return open("the deck is unsound", needDeckRepair)
}
