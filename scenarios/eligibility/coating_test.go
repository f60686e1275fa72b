package eligibility

import "testing"

// test is a peel test of silicone.
func test(least string, places int) AdhesionTest {
	return AdhesionTest{Coating: Silicone, Least: dec(least), Places: places}
}

func tested(u Units, planned Chemistry, tests ...AdhesionTest) known {
	return known{Findings{Units: u, Adhesion: found(tests)}, Option{Coating: found(planned)}}
}

func TestAdhesion(t *testing.T) {
	check(t, adhesion, Restore, []given{
		{"exactly the limits", tested(US, Silicone, test("2", 3)), Pass, "the planned coating held with 2 lb per inch at the least, not under the usual 2 lb per inch, in 3 places", nil},
		{"just under", tested(US, Silicone, test("1.999", 3)), Fail, "the planned coating held with just under 2 lb per inch at the least, under the usual 2 lb per inch, in 3 places", nil},
		{"under", tested(US, Silicone, test("1.2", 4)), Fail, "the planned coating held with 1.2 lb per inch at the least, under the usual 2 lb per inch, in 4 places", nil},
		{"under in one place", tested(US, Silicone, test("1.2", 1)), Fail, "the planned coating held with 1.2 lb per inch at the least, under the usual 2 lb per inch, in 1 place", nil},
		{"two places", tested(US, Silicone, test("3", 2)), Open, "the planned coating held with 3 lb per inch at the least, in 2 places only", []Need{needAdhesion}},
		{"metric", tested(Metric, Silicone, test("0.35", 3)), Pass, "the planned coating held with 0.35 N/mm at the least, not under the usual 0.35 N/mm, in 3 places", nil},
		{"metric, under", tested(Metric, Silicone, test("0.34", 3)), Fail, "the planned coating held with 0.34 N/mm at the least, under the usual 0.35 N/mm, in 3 places", nil},
		{"two surfaces", tested(US, Silicone, test("3", 3), test("1", 3)), Fail, "the planned coating held with 1 lb per inch at the least, under the usual 2 lb per inch, in 3 places", nil},
		{"two surfaces, both good", tested(US, Silicone, test("3", 3), test("2.5", 5)), Pass, "the planned coating held with 3 lb per inch at the least, not under the usual 2 lb per inch, in 3 places; the planned coating held with 2.5 lb per inch at the least, not under the usual 2 lb per inch, in 5 places", nil},
		{"another coating was tested", tested(US, Acrylic, test("3", 3)), Open, "not yet known: an adhesion test of the planned coating on this roof", []Need{needAdhesion}},
		{"untested", known{Option: Option{Coating: found(Acrylic)}}, Open, "not yet known: an adhesion test of the planned coating on this roof", []Need{needAdhesion}},
		{"no coating stated", known{}, Open, "not yet known: the planned coating", []Need{needCoating}},
	})
	check(t, adhesion, Recover, []given{{"untested", known{}, NotConcerned, "this rule speaks of restoring, not of roofing over", nil}})
}

func TestOverSilicone(t *testing.T) {
	over := func(existing Known[Chemistry], k known) known {
		k.ExistingCoating = existing
		return k
	}
	acrylic := AdhesionTest{Coating: Acrylic, Least: dec("2.4"), Places: 3}
	peeled := AdhesionTest{Coating: Acrylic, Least: dec("0.3"), Places: 3}
	const doubt = "the existing coating is silicone and the planned one acrylic, which is not assumed to stick; "
	check(t, overSilicone, Restore, []given{
		{"silicone on silicone", over(found(Silicone), tested(US, Silicone)), Pass, "the existing coating is silicone, and so is the planned one", nil},
		{"acrylic peeled off", over(found(Silicone), tested(US, Acrylic, peeled)), Fail, doubt + "the planned coating held with 0.3 lb per inch at the least, under the usual 2 lb per inch, in 3 places", nil},
		{"acrylic held", over(found(Silicone), tested(US, Acrylic, acrylic)), Pass, doubt + "the planned coating held with 2.4 lb per inch at the least, not under the usual 2 lb per inch, in 3 places", nil},
		{"acrylic untested", over(found(Silicone), known{Option: Option{Coating: found(Acrylic)}}), Open, doubt + "not yet known: an adhesion test of the planned coating on this roof", []Need{needAdhesion}},
		{"no coating stated", over(found(Silicone), known{}), Open, "the existing coating is silicone", []Need{needCoating}},
		{"uncoated", over(found(Uncoated), known{}), Pass, "the existing roof is not coated with silicone", nil},
		{"acrylic below", over(found(Acrylic), known{}), Pass, "the existing roof is not coated with silicone", nil},
		{"unknown", tested(US, Silicone), Open, "not yet known: what the existing roof is coated with, if at all", []Need{needExisting}},
	})
	check(t, overSilicone, TearOff, []given{{"silicone", over(found(Silicone), known{}), NotConcerned, "this rule speaks of restoring, not of tearing off", nil}})
}

func TestCoatingSurface(t *testing.T) {
	on := func(s Surface) known { return known{Findings: Findings{Surface: found(s)}} }
	check(t, coatingSurface, Restore, []given{
		{"sound", on(SoundSurface), Pass, "the surface is none of those that no coating holds on", nil},
		{"pitch", on(CoalTar), Fail, "the surface is coal-tar pitch", nil},
		{"scrim", on(ExposedScrim), Fail, "the surface is a membrane worn down to its fabric", nil},
		{"gravel", on(BareGravel), Fail, "the surface is gravel without treatment", nil},
		{"unknown", known{}, Open, "not yet known: the surface that the coating would go on", []Need{needSurface}},
	})
	check(t, coatingSurface, Recover, []given{{"pitch", on(CoalTar), NotConcerned, "this rule speaks of restoring, not of roofing over", nil}})
}

func TestPerforatedPanels(t *testing.T) {
	rusted := func(c Covering, through string, replaced Known[bool]) known {
		return known{Findings{Covering: found(c), Rust: found(Rust{Light: dec("0.3"), Scaled: dec("0.1"), Perforated: dec(through)})}, Option{PanelsReplaced: replaced}}
	}
	unstated := Known[bool]{}
	check(t, perforatedPanels, Restore, []given{
		{"none", rusted(MetalPanel, "0", unstated), Pass, "no panel is rusted through", nil},
		{"left", rusted(MetalPanel, "0.02", found(false)), Fail, "2% of the roof's metal is rusted through, and no cost line replaces those panels", nil},
		{"replaced", rusted(MetalShingle, "0.02", found(true)), Pass, "2% of the roof's metal is rusted through, and a cost line replaces those panels", nil},
		{"not stated", rusted(MetalPanel, "0.02", unstated), Open, "2% of the roof's metal is rusted through", []Need{needPanels}},
		{"ungraded", known{Findings: Findings{Covering: found(MetalPanel)}}, Open, "not yet known: how much of the panels is rusted through", []Need{needRust}},
		{"no metal", rusted(SinglePly, "0", unstated), NotConcerned, "the existing covering is a single-ply membrane, not metal", nil},
		{"who knows", known{}, Open, "not yet known: the kind of the existing covering", []Need{needCovering}},
	})
	check(t, perforatedPanels, TearOff, []given{{"left", rusted(MetalPanel, "0.02", found(false)), NotConcerned, "this rule speaks of restoring, not of tearing off", nil}})
}

func TestSectionLoss(t *testing.T) {
	thin := func(c Covering, thinned, replaced Known[bool]) known {
		return known{Findings{Covering: found(c), SectionLoss: thinned}, Option{PanelsReplaced: replaced}}
	}
	no, yes, unstated := found(false), found(true), Known[bool]{}
	check(t, sectionLoss, Restore, []given{
		{"surface rust", thin(MetalPanel, no, unstated), Pass, "what rust there is lies on the surface", nil},
		{"left", thin(MetalPanel, yes, no), Fail, "rust has thinned panels, and no cost line replaces those panels", nil},
		{"replaced", thin(MetalPanel, yes, yes), Pass, "rust has thinned panels, and a cost line replaces those panels", nil},
		{"not stated", thin(MetalPanel, yes, unstated), Open, "rust has thinned panels", []Need{needPanels}},
		{"unknown", thin(MetalPanel, unstated, yes), Open, "not yet known: whether rust has thinned the panels", []Need{needSectionLoss}},
		{"no metal", thin(BuiltUp, yes, no), NotConcerned, "the existing covering is a built-up roof, not metal", nil},
		{"who knows", known{Findings: Findings{SectionLoss: no}}, Open, "not yet known: the kind of the existing covering", []Need{needCovering}},
	})
	check(t, sectionLoss, Keep, []given{{"left", thin(MetalPanel, yes, no), NotConcerned, "this rule speaks of restoring, not of keeping", nil}})
}
