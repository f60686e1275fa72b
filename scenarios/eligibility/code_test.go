package eligibility

import "testing"

func TestTooManyCoverings(t *testing.T) {
	check(t, tooManyCoverings, Recover, []given{
		{"one", known{Findings: Findings{Coverings: found(1)}}, Pass, "there is 1 covering on this roof, and one more may go on", nil},
		{"a bare deck", known{Findings: Findings{Coverings: found(0)}}, Pass, "there are 0 coverings on this roof, and one more may go on", nil},
		{"two", known{Findings{Coverings: found(2)}, Option{SeparateSystem: found(false)}}, Fail, "there are 2 coverings on this roof, and what is planned is no separate system", nil},
		{"two, and who knows what goes on", known{Findings: Findings{Coverings: found(2)}}, Open, "there are 2 coverings on this roof, so only a separate system may go over them", []Need{needSeparate}},
		{"two under a separate system", known{Findings{Coverings: found(2)}, Option{SeparateSystem: found(true)}}, Pass, "the new roof is a separate system that carries its load to the structure, for which the number of old coverings does not count", nil},
		{"nothing known", known{}, Open, "not yet known: the number of existing roof coverings and whether the new roof is a system of its own that carries its load to the structure", []Need{needCoverings, needSeparate}},
		{"no separate system", known{Option: Option{SeparateSystem: found(false)}}, Open, "not yet known: the number of existing roof coverings", []Need{needCoverings}},
	})
	check(t, tooManyCoverings, TearOff, []given{
		{"two", known{Findings: Findings{Coverings: found(2)}}, NotConcerned, "this rule speaks of roofing over, not of tearing off", nil},
	})
}

func TestBase(t *testing.T) {
	dry, sound := found(false), found(true)
	no, yes := found(false), found(true)
	check(t, notABase, Recover, []given{
		{"dry and sound", known{Findings: Findings{WaterSoaked: dry, BaseSound: sound}}, Pass, "the existing roof is not water soaked; the existing roof is sound enough to build on", nil},
		{"soaked", known{Findings{WaterSoaked: yes, BaseSound: sound}, Option{WetPartReplaced: no, SeparateSystem: no}}, Fail, "the existing roof is water soaked, and no cost line replaces the wet part", nil},
		{"soaked, but replaced", known{Findings{WaterSoaked: yes, BaseSound: sound}, Option{WetPartReplaced: yes}}, Pass, "the existing roof is water soaked, and a cost line replaces the wet part first; the existing roof is sound enough to build on", nil},
		{"soaked, replaced or not", known{Findings: Findings{WaterSoaked: yes, BaseSound: sound}}, Open, "the existing roof is water soaked", []Need{needWetPart}},
		{"soaked under who knows what", known{Findings{WaterSoaked: yes, BaseSound: sound}, Option{WetPartReplaced: no}}, Open, "the existing roof is water soaked", []Need{needSeparate}},
		{"soaked under a separate system", known{Findings{WaterSoaked: yes}, Option{WetPartReplaced: no, SeparateSystem: yes}}, Open, "the existing roof is water soaked, and the separate system would close over it", []Need{needTrapped}},
		{"deteriorated", known{Findings{WaterSoaked: dry, BaseSound: no}, Option{SeparateSystem: no}}, Fail, "the existing roof is too deteriorated to build on", nil},
		{"deteriorated, and wetness unknown", known{Findings{BaseSound: no}, Option{SeparateSystem: no}}, Fail, "the existing roof is too deteriorated to build on", nil},
		{"deteriorated under who knows what", known{Findings: Findings{WaterSoaked: dry, BaseSound: no}}, Open, "the existing roof is too deteriorated to build on, so only a separate system may go over it", []Need{needSeparate}},
		{"deteriorated under a separate system", known{Findings{WaterSoaked: dry, BaseSound: no}, Option{SeparateSystem: yes}}, Pass, "the existing roof is not water soaked; the new roof is a separate system that does not rely on the old one", nil},
		{"nothing known", known{}, Open, "not yet known: whether the existing roof is water soaked; not yet known: whether the existing roof is sound enough to build on", []Need{needSoaked, needBase}},
	})
	check(t, notABase, Keep, []given{{"soaked", known{Findings: Findings{WaterSoaked: yes}}, NotConcerned, "this rule speaks of roofing over, not of keeping", nil}})
}

func TestNotRoofedOver(t *testing.T) {
	no, yes := found(false), found(true)
	for covering, name := range map[Covering]string{Slate: "slate", ClayTile: "clay tile", ConcreteTile: "cement or concrete tile", AsbestosCement: "asbestos-cement tile"} {
		check(t, notRoofedOver, Recover, []given{
			{name, known{Findings{Covering: found(covering)}, Option{SeparateSystem: no}}, Fail, "the existing covering is " + name + ", and what is planned is no separate system", nil},
			{name + " under a separate system", known{Findings{Covering: found(covering)}, Option{SeparateSystem: yes}}, Pass, "the new roof is a separate system that carries its load to the structure, which may go over any covering", nil},
			{name + " under who knows what", known{Findings: Findings{Covering: found(covering)}}, Open, "the existing covering is " + name + ", so only a separate system may go over it", []Need{needSeparate}},
		})
	}
	check(t, notRoofedOver, Recover, []given{
		{"membrane", known{Findings: Findings{Covering: found(SinglePly)}}, Pass, "the existing covering is a single-ply membrane, which may be roofed over", nil},
		{"shakes", known{Findings: Findings{Covering: found(WoodShake)}}, Open, "the existing covering is wood shakes, which some editions bar and others allow under conditions", []Need{needWoodShake}},
		{"another", known{Findings: Findings{Covering: found(OtherCovering)}}, Open, "the existing covering is a covering of another kind", []Need{needCovering}},
		{"unknown", known{}, Open, "not yet known: the kind of the existing covering", []Need{needCovering}},
	})
	check(t, notRoofedOver, Restore, []given{{"slate", known{Findings: Findings{Covering: found(Slate)}}, NotConcerned, "this rule speaks of roofing over, not of restoring", nil}})
}

func TestCoatingClause(t *testing.T) {
	fit := func(code Code, covering Covering, coverings int) known {
		return known{Findings: Findings{Code: found(code), Covering: found(covering), Coverings: found(coverings), WaterSoaked: found(false), BaseSound: found(true)}}
	}
	const narrow = "IBC 2012 does not list metal panels among what is coated without tear-off, so the coating counts as one more covering; "
	tile := fit(ListClause, ClayTile, 1)
	check(t, coatingClause, Restore, []given{
		{"foam under the narrow clause", known{Findings: Findings{Code: found(IBC2012), Covering: found(SprayFoam)}}, Pass, "IBC 2012 lets sprayed polyurethane foam be coated without tear-off", nil},
		{"the list, whatever lies below", known{Findings: Findings{Code: found(ListClause), Covering: found(BuiltUp), Coverings: found(3)}}, Pass, "the code adopted here lets a built-up roof be coated without tear-off", nil},
		{"a local code for foam only", fit(SprayFoamClause, ModBit, 2), Fail, "the code adopted here does not list modified bitumen among what is coated without tear-off, so the coating counts as one more covering; there are 2 coverings on this roof, and what is planned is no separate system", nil},
		{"one covering under the narrow clause", fit(IBC2012, MetalPanel, 1), Pass, narrow + "there is 1 covering on this roof, and one more may go on; the existing roof is not water soaked; the existing roof is sound enough to build on; the existing covering is metal panels, which may be roofed over", nil},
		{"two under the narrow clause", fit(IBC2012, MetalPanel, 2), Fail, narrow + "there are 2 coverings on this roof, and what is planned is no separate system", nil},
		{"nothing else known under the narrow clause", known{Findings: Findings{Code: found(IBC2012), Covering: found(MetalPanel), BaseSound: found(true), WaterSoaked: found(false)}}, Open, narrow + "not yet known: the number of existing roof coverings", []Need{needCoverings}},
		{"tile is on no list", tile, Fail, "the code adopted here does not list clay tile among what is coated without tear-off, so the coating counts as one more covering; the existing covering is clay tile, and what is planned is no separate system", nil},
		{"an edition whose clause was not read", fit(IBC2018, MetalPanel, 1), Open, "the code is IBC 2018, whose clause on coatings is not stated", []Need{needClause}},
		{"no code", known{Findings: Findings{Covering: found(MetalPanel)}}, Open, "not yet known: the building code adopted here", []Need{needCode}},
		{"no covering", known{Findings: Findings{Code: found(IBC2012)}}, Open, "not yet known: the kind of the existing covering", []Need{needCovering}},
		{"nothing", known{}, Open, "not yet known: the building code adopted here and the kind of the existing covering", []Need{needCode, needCovering}},
	})
	check(t, coatingClause, Recover, []given{{"membrane", fit(IBC2012, SinglePly, 1), NotConcerned, "this rule speaks of restoring, not of roofing over", nil}})
}

// The later clause names eight kinds [IEBC].
func TestListClause(t *testing.T) {
	for covering := range coveringNames {
		want := Fail
		switch covering {
		case Coated, MetalPanel, MetalShingle, MineralRoll, BuiltUp, ModBit, SinglePly, SprayFoam:
			want = Pass
		}
		f := Findings{Code: found(ListClause), Covering: found(covering), Coverings: found(2)}
		if got := coatingClause.judge(f, Option{Work: Restore}); got.Verdict != want {
			t.Errorf("%s: verdict %d, want %d", covering, got.Verdict, want)
		}
	}
}

func TestEnergy(t *testing.T) {
	no, yes := found(false), found(true)
	triggered := Findings{EnergyCode: found(IECC2015), AboveDeck: yes, InEnvelope: yes}
	const asks = "the insulation lies above the deck and bounds the heated or cooled space, so the energy code asks to bring it up"
	energy := func(f Findings, i Known[Insulation]) known { return known{f, Option{Insulation: i}} }
	unstated := Known[Insulation]{}
	check(t, energyInsulation, TearOff, []given{
		{"priced", energy(triggered, found(Insulation{Priced: true})), Pass, "a cost line brings the insulation up to the energy code", nil},
		{"waived", energy(triggered, found(Insulation{Waived: "parapets too low, building official 2026-07-02"})), Pass, "the insulation is left as it is, and the reason stated is “parapets too low, building official 2026-07-02”", nil},
		{"left out", energy(triggered, found(Insulation{})), Fail, asks + ", and no cost line does it", nil},
		{"not stated", energy(triggered, unstated), Open, asks, []Need{needInsulation}},
		{"below the deck", energy(Findings{EnergyCode: found(IECC2015), AboveDeck: no}, unstated), Pass, "not all of the roof's insulation lies above the deck, which asks for nothing", nil},
		{"a cold shed", energy(Findings{EnergyCode: found(IECC2015), InEnvelope: no}, unstated), Pass, "the roof is no part of the heated or cooled envelope, which asks for nothing", nil},
		{"no code", energy(Findings{EnergyCode: found(NoEnergyCode)}, unstated), Pass, "no energy code is adopted here", nil},
		{"2012", energy(Findings{EnergyCode: found(IECC2012), AboveDeck: no}, unstated), Open, "the energy code adopted here is IECC 2012, whose words on roof replacement are not stated", []Need{needEnergyClause}},
		{"another code", energy(Findings{EnergyCode: found(OtherEnergyCode)}, unstated), Open, "the energy code adopted here is another one, whose words on roof replacement are not stated", []Need{needEnergyClause}},
		{"no edition", energy(Findings{AboveDeck: yes, InEnvelope: yes}, unstated), Open, "not yet known: the energy code adopted here", []Need{needEnergyCode}},
		{"where it lies", energy(Findings{EnergyCode: found(IECC2015), InEnvelope: yes}, unstated), Open, "not yet known: whether the roof's insulation lies entirely above the deck", []Need{needAboveDeck}},
		{"what it bounds", energy(Findings{EnergyCode: found(IECC2015), AboveDeck: yes}, unstated), Open, "not yet known: whether the roof is part of the heated or cooled envelope", []Need{needEnvelope}},
		{"neither", energy(Findings{EnergyCode: found(IECC2015)}, unstated), Open, "not yet known: whether the roof's insulation lies entirely above the deck and whether the roof is part of the heated or cooled envelope", []Need{needAboveDeck, needEnvelope}},
	})
	check(t, energyInsulation, Recover, []given{{"left out", energy(triggered, found(Insulation{})), NotConcerned, "this rule speaks of tearing off, not of roofing over", nil}})
}

func TestAsbestos(t *testing.T) {
	asbestos := func(a Asbestos, priced Known[bool]) known {
		return known{Findings{Asbestos: found(a)}, Option{AsbestosPriced: priced}}
	}
	const uncovered = "a survey found asbestos, which no cost line is known to cover; notice and methods are prescribed"
	for _, w := range []Work{Restore, Recover, TearOff} {
		check(t, asbestosSurvey, w, []given{
			{"none", asbestos(AsbestosNone, Known[bool]{}), Pass, "a survey found no asbestos", nil},
			{"found and priced", asbestos(AsbestosFound, found(true)), Pass, "a survey found asbestos, and a cost line covers its handling; notice and methods are prescribed", nil},
			{"found, no line", asbestos(AsbestosFound, found(false)), Open, uncovered, []Need{needAsbestosCost}},
			{"found, not stated", asbestos(AsbestosFound, Known[bool]{}), Open, uncovered, []Need{needAsbestosCost}},
			{"not surveyed", asbestos(AsbestosNotSurveyed, Known[bool]{}), Open, "not yet known: whether the roof holds asbestos", []Need{needAsbestos}},
			{"unknown", known{}, Open, "not yet known: whether the roof holds asbestos", []Need{needAsbestos}},
			{"by age", asbestos(AsbestosByAge, Known[bool]{}), Advice, "a survey is held needless by the age of the roof; the text read names no age, so have the authority confirm it in writing", nil},
		})
	}
	check(t, asbestosSurvey, Keep, []given{{"found", asbestos(AsbestosFound, Known[bool]{}), NotConcerned, "this rule speaks of restoring, roofing over and tearing off, not of keeping", nil}})
}
