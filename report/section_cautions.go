package report

// The cautions that a take-off carries, too.
const (
	cautionFalls     = "Falls: work on low-slope roofs needs fall protection from 6 ft (1.8 m) above a lower level in construction (29 CFR 1926.501(b)(10)); maintenance within 15 ft (4.6 m) of an edge has rules of its own (29 CFR 1910.28(b)(13)). Skylights and openings need covers or guards, and a coating can hide a skylight: mark them first."
	cautionFumes     = "Fumes: solvents and isocyanates in coatings and foams need ventilation, respirators and closed or filtered air intakes. Volatile content is limited by federal and local rules."
	cautionWashWater = "Wash water and overspray are contained and disposed of as local rules say."
)

// cautionsSection carries the usual cautions after what the report is not. The
// safety rules named are of the United States; where a figure is given, its
// source is beside it. What is said of tax beyond "before tax" may be "".
func cautionsSection(opinion, butTax string) Section {
	return Section{ID: "cautions", Heading: "This report replaces no survey, no safety plan and no adviser", Blocks: []Block{
		List{Role: Caution, Items: []string{
			opinion,
			cautionFalls,
			"Asbestos: have felts, mastics, flashings and asbestos-cement sheets surveyed before they are cut, washed or torn off (40 CFR 61 subpart M).",
			"Structure: a second roof, ballast, ponding water or wet insulation is load. Have the deck and the frame checked before loading them.",
			cautionFumes,
			"Electricity and lightning: de-energise rooftop equipment that is worked on; lightning protection and solar panels are taken off and put back by licensed people.",
			cautionWashWater,
			"Money: the owner’s accountant and tax adviser decide whether a cost is expensed or capitalised, and which discount rate is right. The figures here are before tax" + butTax + ".",
		}},
	}}
}

// What the report is not, and who decides.
const (
	opinionText = "This is a comparison of costs. It is no condition survey and no structural, code, safety, legal or tax opinion."
	decideText  = " Local codes, the licensed designer and the authority having jurisdiction decide what may be done to this roof."
)

// opinionCaution says what the report is not. Where rules were put to the
// study, who decides is said beside them.
func (t *teller) opinionCaution() string {
	if t.judged() {
		return opinionText
	}
	return opinionText + decideText
}
