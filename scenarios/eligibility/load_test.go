package eligibility

import "testing"

func TestDeck(t *testing.T) {
	deck := func(sound, repaired Known[bool]) known {
		return known{Findings{DeckSound: sound}, Option{DeckRepaired: repaired}}
	}
	no, yes, unstated := found(false), found(true), Known[bool]{}
	for _, w := range []Work{Restore, Recover, TearOff} {
		check(t, soundDeck, w, []given{
			{"sound", deck(yes, unstated), Pass, "the deck is sound", nil},
			{"unsound", deck(no, no), Fail, "the deck is unsound, and no cost line repairs it", nil},
			{"repaired", deck(no, yes), Pass, "the deck is unsound, and a cost line repairs it", nil},
			{"not stated", deck(no, unstated), Open, "the deck is unsound", []Need{needDeckRepair}},
			{"unknown", deck(unstated, yes), Open, "not yet known: whether the deck is sound", []Need{needDeck}},
		})
	}
	check(t, soundDeck, Keep, []given{{"unsound", deck(no, no), NotConcerned, "this rule speaks of restoring, roofing over and tearing off, not of keeping", nil}})
}

// loaded is a roof of so many coverings, a reserve, and what an option adds;
// "" is unknown, and so is a number of coverings below 0.
func loaded(u Units, coverings int, reserve, adds string) known {
	k := known{Findings: Findings{Units: u}}
	if coverings >= 0 {
		k.Coverings = found(coverings)
	}
	if reserve != "" {
		k.Reserve = number(reserve)
	}
	if adds != "" {
		k.AddedLoad = number(adds)
	}
	return k
}

func TestStructureCheck(t *testing.T) {
	for _, w := range []Work{Restore, Recover} {
		check(t, structureCheck, w, []given{
			{"exactly 3 psf over one", loaded(US, 1, "", "3"), Pass, "the work adds 3 psf over a single covering, not over the 3 psf that go unchecked", nil},
			{"just over 3 psf", loaded(US, 1, "", "3.001"), Open, "the work adds just over 3 psf", []Need{needReserve}},
			{"exactly 0.1437 kN/m2 over one", loaded(Metric, 1, "", "0.1437"), Pass, "the work adds 0.1437 kN/m2 over a single covering, not over the 0.1437 kN/m2 that go unchecked", nil},
			{"over 0.1437 kN/m2", loaded(Metric, 1, "", "0.1438"), Open, "the work adds 0.1438 kN/m2", []Need{needReserve}},
			{"light over two", loaded(US, 2, "", "0.7"), Open, "the work adds 0.7 psf, and the old covering is not a single one", []Need{needReserve}},
			{"light over who knows what", loaded(US, -1, "", "0.7"), Open, "the work adds 0.7 psf", []Need{needCoverings}},
			{"checked", loaded(US, 2, "8", "10.5"), Pass, "the structure was checked and can still take 8 psf", nil},
			{"nothing added", loaded(US, -1, "", "0"), Pass, "the work adds no load", nil},
			{"unknown", loaded(US, 1, "", ""), Open, "not yet known: the load that the option adds and the load that the structure can still take", []Need{needLoad, needReserve}},
		})
	}
	check(t, structureCheck, TearOff, []given{
		{"lighter", loaded(US, 1, "", "-4.8"), Pass, "the work adds no load", nil},
		{"nothing is left that it could be second to", loaded(US, 1, "", "1"), Open, "the work adds 1 psf", []Need{needReserve}},
	})
	check(t, structureCheck, Keep, []given{{"anything", loaded(US, 1, "", "1"), NotConcerned, "this rule speaks of restoring, roofing over and tearing off, not of keeping", nil}})
}

func TestStructureReserve(t *testing.T) {
	heavy := []given{
		{"within", loaded(US, 1, "8", "5.5"), Pass, "the work adds 5.5 psf, and the structure can still take 8 psf", nil},
		{"exactly", loaded(US, 1, "8", "8"), Pass, "the work adds 8 psf, and the structure can still take 8 psf", nil},
		{"just over", loaded(US, 1, "8", "8.001"), Fail, "the work adds just over 8 psf, and the structure can still take 8 psf", nil},
		{"over", loaded(Metric, 1, "0.3", "0.5"), Fail, "the work adds 0.5 kN/m2, and the structure can still take 0.3 kN/m2", nil},
		{"no reserve stated", loaded(US, 1, "", "5.5"), Open, "the work adds 5.5 psf, and no engineer has stated what the structure can still take", []Need{needReserve}},
		{"nothing added", loaded(US, 1, "", "0"), Pass, "the work adds no load", nil},
		{"unknown", loaded(US, 1, "8", ""), Open, "not yet known: the load that the option adds", []Need{needLoad}},
	}
	for _, w := range []Work{Restore, Recover, TearOff} {
		check(t, structureReserve, w, heavy)
	}
	check(t, structureReserve, Recover, []given{
		{"light, but over what an engineer found", loaded(US, 1, "2", "2.8"), Fail, "the work adds 2.8 psf, and the structure can still take 2 psf", nil},
	})
	check(t, structureReserve, Restore, []given{
		{"a film over one", loaded(US, 1, "", "0.2"), NotConcerned, "the coating adds 0.2 psf over a single covering", nil},
		{"a film over two", loaded(US, 2, "", "0.2"), Open, "the work adds 0.2 psf, and no engineer has stated what the structure can still take", []Need{needReserve}},
		{"a film over who knows what", loaded(US, -1, "1", "0.2"), Open, "not yet known: the number of existing roof coverings", []Need{needCoverings}},
	})
	check(t, structureReserve, Keep, []given{{"anything", loaded(US, 1, "", "1"), NotConcerned, "this rule speaks of restoring, roofing over and tearing off, not of keeping", nil}})
}

func TestAdvice(t *testing.T) {
	for _, w := range []Work{Restore, Recover, TearOff} {
		check(t, fireClass, w, []given{
			{"shown", known{Option: Option{FireShown: found(true)}}, Advice, "the assembly is shown to hold its fire class; keep the listing with the contract", nil},
			{"not shown", known{Option: Option{FireShown: found(false)}}, Advice, "ask for the listing of the whole assembly: a new covering or coating can change its fire class", nil},
			{"unknown", known{}, Advice, "ask for the listing of the whole assembly: a new covering or coating can change its fire class", nil},
		})
	}
	check(t, fireClass, Keep, []given{{"unknown", known{}, NotConcerned, "this rule speaks of restoring, roofing over and tearing off, not of keeping", nil}})
	check(t, windUplift, Recover, []given{
		{"shown", known{Option: Option{WindShown: found(true)}}, Advice, "the new covering is shown to hold against the wind loads asked for; keep the calculation with the contract", nil},
		{"unknown", known{}, Advice, "ask for the wind calculation: under a roof that is roofed over, the old attachment is the weak link", nil},
	})
	check(t, windUplift, TearOff, []given{{"unknown", known{}, Advice, "ask for the wind calculation of the new covering and its attachment", nil}})
	check(t, windUplift, Restore, []given{{"unknown", known{}, NotConcerned, "this rule speaks of roofing over and tearing off, not of restoring", nil}})
	on := func(d Deck) known { return known{Findings: Findings{Deck: found(d)}} }
	check(t, pullOut, Recover, []given{
		{"gypsum", on(GypsumDeck), Advice, "the deck is gypsum, so have fasteners pulled before the new roof is fastened to it", nil},
		{"light concrete", on(LightConcrete), Advice, "the deck is lightweight insulating concrete, so have fasteners pulled before the new roof is fastened to it", nil},
		{"wood fibre", on(WoodFibre), Advice, "the deck is cementitious wood fibre, so have fasteners pulled before the new roof is fastened to it", nil},
		{"steel", on(SteelDeck), Advice, "the deck is steel; have fasteners pulled if it is old or doubtful", nil},
		{"unknown", known{}, Advice, "where the new roof is fastened to the deck, have some fasteners pulled if the deck is light or doubtful", nil},
		{"pulled", known{Findings: Findings{PullOutsTested: found(true)}}, Advice, "fasteners were pulled from this deck; have the designer set their spacing by the result", nil},
	})
	check(t, pullOut, Restore, []given{{"gypsum", on(GypsumDeck), NotConcerned, "this rule speaks of roofing over and tearing off, not of restoring", nil}})
}

func TestParapets(t *testing.T) {
	no, yes, unstated := found(false), found(true), Known[bool]{}
	renew := func(category Seismic, share string, braced Known[bool]) known {
		return known{Findings{Parapets: yes, Seismic: found(category)}, Option{Share: number(share), ParapetsBraced: braced}}
	}
	const over = "100% of the roof area is worked on in seismic design category D, under parapets of unreinforced masonry"
	for _, w := range []Work{Recover, TearOff} {
		check(t, parapetBracing, w, []given{
			{"left", renew(SeismicD, "1", no), Fail, over + ", and no cost line braces them", nil},
			{"braced", renew(SeismicD, "1", yes), Pass, over + ", and a cost line braces them", nil},
			{"not stated", renew(SeismicD, "1", unstated), Open, over, []Need{needBracing}},
			{"exactly a quarter", renew(SeismicE, "0.25", no), Pass, "25% of the roof area is worked on, not over the 25% that set off bracing", nil},
			{"just over a quarter", renew(SeismicF, "0.2501", no), Fail, "just over 25% of the roof area is worked on in seismic design category F, under parapets of unreinforced masonry, and no cost line braces them", nil},
			{"quiet ground", renew(SeismicC, "1", no), Pass, "the seismic design category is C, which asks for no bracing", nil},
			{"no such parapets", known{Findings: Findings{Parapets: no}}, Pass, "there are no parapets of unreinforced masonry", nil},
			{"nothing known", known{}, Open, "not yet known: whether there are parapets of unreinforced masonry, the seismic design category of the building and the share of the roof area that is worked on", []Need{needParapets, needSeismic, needShare}},
		})
	}
	check(t, parapetBracing, Restore, []given{{"left", renew(SeismicD, "1", no), NotConcerned, "this rule speaks of roofing over and tearing off, not of restoring", nil}})
}
