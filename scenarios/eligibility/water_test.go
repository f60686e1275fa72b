package eligibility

import "testing"

func TestMoistureSurvey(t *testing.T) {
	by := func(m WetMethod) known { return known{Findings: Findings{WetFoundBy: found(m)}} }
	for _, w := range []Work{Restore, Recover} {
		check(t, moistureSurvey, w, []given{
			{"verified", by(InstrumentAndCores), Pass, "moisture was surveyed by an instrument with cores", nil},
			{"infrared alone", by(InstrumentOnly), Open, "moisture was surveyed by an instrument alone, which shows where to look and not how wet it is", []Need{needCores}},
			{"cores alone", by(CoresOnly), Open, "moisture was surveyed by cores alone, which does not cover the whole roof", []Need{needInstrument}},
			{"by eye", by(ByEye), Open, "moisture was surveyed by eye, which does not cover the whole roof", []Need{needInstrument}},
			{"unknown", known{}, Open, "not yet known: how the wet area was found", []Need{needWetMethod}},
		})
	}
	check(t, moistureSurvey, TearOff, []given{{"by eye", by(ByEye), NotConcerned, "this rule speaks of restoring and roofing over, not of tearing off", nil}})
}

func TestWetShare(t *testing.T) {
	no, yes, unstated := found(false), found(true), Known[bool]{}
	wet := func(share string, l WetLimit, replaced Known[bool]) known {
		return known{Findings{WetShare: number(share), WetLimit: l}, Option{WetPartReplaced: replaced}}
	}
	usual := WetLimit{}
	local := WetLimit{Share: dec("0.15"), From: "city code 15.04"}
	whole := WetLimit{Share: dec("0.25"), From: "county code 8", ReplaceAll: true}
	for _, w := range []Work{Restore, Recover} {
		check(t, wetShare, w, []given{
			{"dry", wet("0", usual, unstated), Pass, "0% of the roof area is wet, not over the customary threshold of 25%", nil},
			{"exactly the limit", wet("0.25", usual, no), Pass, "25% of the roof area is wet, not over the customary threshold of 25%", nil},
			{"just over it", wet("0.2501", usual, no), Fail, "just over 25% of the roof area is wet, over the customary threshold of 25%, and no cost line replaces the wet part", nil},
			{"just under it", wet("0.2499", usual, no), Pass, "just under 25% of the roof area is wet, not over the customary threshold of 25%", nil},
			{"over", wet("0.34", usual, no), Fail, "34% of the roof area is wet, over the customary threshold of 25%, and no cost line replaces the wet part", nil},
			{"over and replaced", wet("0.34", usual, yes), Pass, "34% of the roof area is wet, over the customary threshold of 25%, and a cost line replaces the wet part", nil},
			{"over, replaced or not", wet("0.34", usual, unstated), Open, "34% of the roof area is wet, over the customary threshold of 25%", []Need{needWetPart}},
			{"over a local limit", wet("0.2", local, no), Fail, "20% of the roof area is wet, over the local threshold of 15%, and no cost line replaces the wet part", nil},
			{"a local limit higher than usual", wet("0.28", WetLimit{Share: dec("0.3")}, no), Pass, "28% of the roof area is wet, not over the local threshold of 30%", nil},
			{"the whole roof goes", wet("0.34", whole, yes), Fail, "34% of the roof area is wet, over the local threshold of 25%, beyond which the whole roof is to be replaced", nil},
			{"the whole roof stays", wet("0.25", whole, unstated), Pass, "25% of the roof area is wet, not over the local threshold of 25%", nil},
			{"unknown", known{Option: Option{WetPartReplaced: yes}}, Open, "not yet known: the share of the roof area that is wet", []Need{needWetShare}},
		})
	}
	check(t, wetShare, TearOff, []given{{"soaked", wet("1", usual, no), NotConcerned, "this rule speaks of restoring and roofing over, not of tearing off", nil}})
}

func TestWetPart(t *testing.T) {
	wet := func(share string, replaced Known[bool]) known {
		return known{Findings{WetShare: number(share)}, Option{WetPartReplaced: replaced}}
	}
	check(t, wetPart, Restore, []given{
		{"dry", wet("0", found(false)), Pass, "no part of the roof is wet", nil},
		{"a trace", wet("0.0002", found(false)), Fail, "just over 0% of the roof area is wet, and no cost line replaces it", nil},
		{"some, replaced", wet("0.08", found(true)), Pass, "8% of the roof area is wet, and a cost line replaces it", nil},
		{"some, left", wet("0.08", found(false)), Fail, "8% of the roof area is wet, and no cost line replaces it", nil},
		{"some, not stated", wet("0.08", Known[bool]{}), Open, "8% of the roof area is wet", []Need{needWetPart}},
		{"unknown", known{}, Open, "not yet known: the share of the roof area that is wet", []Need{needWetShare}},
	})
	check(t, wetPart, Keep, []given{{"some", wet("0.08", Known[bool]{}), NotConcerned, "this rule speaks of restoring, not of keeping", nil}})
}

func TestPonding(t *testing.T) {
	pond := func(share string, c Known[Chemistry], drained Known[bool]) known {
		return known{Findings{Ponding: number(share)}, Option{Coating: c, DrainageCorrected: drained}}
	}
	no, yes, unstated := found(false), found(true), Known[bool]{}
	const stands = "water stands on 12.5% of the roof area over 48 hours"
	check(t, pondingWater, Restore, []given{
		{"none", pond("0", found(Acrylic), unstated), Pass, "no water stands on the roof over 48 hours", nil},
		{"acrylic", pond("0.125", found(Acrylic), no), Fail, stands + ", under which the planned acrylic softens and peels", nil},
		{"acrylic, drained or not", pond("0.125", found(Acrylic), unstated), Open, stands + ", under which the planned acrylic softens and peels", []Need{needDrainage}},
		{"acrylic, drained", pond("0.125", found(Acrylic), yes), Pass, stands + ", and a cost line drains it", nil},
		{"silicone", pond("0.125", found(Silicone), no), Pass, stands + ", which the planned silicone tolerates; drain it all the same", nil},
		{"urethane", pond("0.125", found(Urethane), no), Open, stands + ", and the planned coating is urethane", []Need{needPondingProof}},
		{"another", pond("0.125", found(OtherChemistry), no), Open, stands + ", and the planned coating is of another chemistry", []Need{needPondingProof}},
		{"no coating stated", pond("0.125", Known[Chemistry]{}, no), Open, stands, []Need{needCoating}},
		{"unknown", known{Option: Option{Coating: found(Silicone)}}, Open, "not yet known: the share of the roof area where water stands over 48 hours", []Need{needPonding}},
	})
	check(t, pondingWater, Recover, []given{{"some", pond("0.125", Known[Chemistry]{}, no), NotConcerned, "this rule speaks of restoring, not of roofing over", nil}})
}
