// Package eligibility says whether a piece of roof work may be chosen for a
// roof, from what a survey found. It reads no file and knows no money.
//
// # The picture
//
//	Findings  what was found on the roof; anything may be unknown (findings.go)
//	Option    one work, and what is planned and priced with it (option.go)
//	Rule      a sentence, its source, its mark, and a judgement (rule.go)
//	Judge     every rule on one option, in a fixed order (judge.go)
//
// A rule is a file of its own, rule_NAME.go, and stands in the list of
// rules.go. DEVELOPERS.md says how to add one.
//
// # Conventions
//
//   - What is not known is the zero value ([Known]). A rule that lacks a
//     finding is [Open], never passed; forgetting a finding can move a verdict
//     to Open and nowhere else.
//   - Shares are fractions of the roof area from 0 to 1: 0.25 is 25%.
//   - Loads and forces are in the units that [Findings] names: lb/ft2 (psf) and
//     lb per inch, or kN/m2 and N/mm. A limit is held in both, as its source
//     rounds it; nothing is converted.
//   - "A cost line" is a finding about the study: the option as priced does the
//     thing. Where a rule asks for one that is missing, the option fails as
//     priced; price it, and it passes.
//   - An option is the work done first. What follows years later is judged when
//     its time comes: findings age.
//   - Texts are lower case without a full stop, so that they can stand inside a
//     sentence. text.go writes every number and list; a rule's sentences stand
//     beside its judgement.
//   - [Deference] is said once by whoever shows the verdicts.
//
// # Marks
//
// A rule is as strong as its source ([Mark]). Published rules and common
// practice decide. What rests on a single source or on memory is advice and
// never decides.
//
// # Bibliography
//
// Section numbers are given for the editions that were read. Contents are in
// our own words.
//
//	[IBC2012]  International Building Code 2012, 1510.3 (roofing over: base,
//	           coverings, exceptions 1 to 3). The section is 1511 in 2015 and
//	           2018 (Professional Roofing, Feb 2019); 1512 in 2021 and 2024 is
//	           from memory.
//	[IEBC]     International Existing Building Code, 705.3.1 item 4 (coatings
//	           without tear-off), 705.3.1 and 705.4 (wood shakes), 706.2
//	           exception (light second covering), 706.3.1 (parapets). The text read does not show
//	           its edition. The International Residential Code 2021, R908.3.1,
//	           reads likewise on coatings.
//	[IECC2015] International Energy Conservation Code 2015, C503.3.1, as
//	           reported in the trade press.
//	[61M]      40 CFR 61 subpart M with appendix A, and 59 FR of 17 June 1994:
//	           asbestos.
//	[C1153]    ASTM C1153, scope: locating wet insulation by infrared imaging.
//	[D903]     ASTM D903: the peel test that the adhesion test rests on.
//	[MO322]    Navy maintenance manual MO-322, 8.3.3: when a metal panel is
//	           repaired and when replaced.
//	[PR2004]   Professional Roofing, Feb 2004: a roofing association's position
//	           that recoating a sprayed foam roof is maintenance.
//	[PR2023]   Professional Roofing, Oct 2023, and Roofing Contractor, "moisture
//	           content": a survey needs cores beside an instrument.
//	[wet25]    Building Enclosure, on reroofing codes: some state and local codes
//	           ask to replace the roof when over 25% of it is wet. Two
//	           contractors' and owners' guides give the same figure as practice.
//
// From memory, to be verified before anyone relies on it: IBC 1504 and 1609
// (wind), IBC 1505 with UL 790 and ASTM E108 (fire), ANSI/SPRI FX-1 (pull-out).
//
// # Not here, because no figure was found
//
// A share of rust beyond which a metal roof is not coated; a most number of
// recoats or a most total film; a least pull-out force; the wording of
// ASHRAE 90.1 on roofing over.
package eligibility
