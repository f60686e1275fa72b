package eligibility

var pullOut = Rule{
	ID:     "pull-out",
	Title:  "where fasteners go into a weak or doubtful deck, some are pulled first",
	Source: "one fastener bulletin of 2014; ANSI/SPRI FX-1 from memory; no least force was found",
	Mark:   SingleSource,
	Works:  []Work{Recover, TearOff},
	Judge:  judgePullOut,
}

func judgePullOut(f Findings, _ Option) Outcome {
	deck, known := f.Deck.Get()
	switch {
	case yes(f.PullOutsTested):
		return advise("fasteners were pulled from this deck; have the designer set their spacing by the result", f.PullOutsTested)
	case !known:
		return advise("where the new roof is fastened to the deck, have some fasteners pulled if the deck is light or doubtful")
	}
	is := "the deck is " + deckNames[deck]
	switch deck {
	case LightConcrete, WoodFibre, GypsumDeck:
		return advise(is+", so have fasteners pulled before the new roof is fastened to it", f.Deck)
	}
	return advise(is+"; have fasteners pulled if it is old or doubtful", f.Deck)
}
