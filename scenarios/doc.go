// Package scenarios reads study files: it turns YAML text into an
// [lcc.Study], or tells everything that is wrong with it, with line and column.
//
// # The path of a file
//
//	Load     bytes from a file or from standard input (source.go)
//	decode   UTF-8 without stray characters (text.go)
//	parse    YAML to a tree of nodes that know their place (parse.go, node.go)
//	build    keys, estimates and references to a study (study.go and below);
//	         the survey (survey.go) comes before the systems, the take-off
//	         (takeoff.go) with the system that it is for
//	remark   what is legal but suspicious (warnings.go)
//
// An error never ends the reading: it is noted, and reading goes on with the
// next key, so that one run tells all of them. Only text that is not UTF-8 or
// not YAML, and a format version of another program, end it early.
//
// All wording stands in voice.go and voice_survey.go.
//
// # Surveys
//
// A plane is measured in plan unless it says otherwise, and an opening in the
// surface. Openings are taken off areas, not off seams, laps and screws: what
// closes an opening has them too. Light and scaled rust are shares of the
// developed area, since that is cleaned and primed; perforated sheets are a
// share of the surface that they cover, are replaced and are not coated. The
// factors of slopes and profiles are rounded to six decimals and shown with
// the measure; every other constant is exact to 50 digits. Extra paint enters
// as 1 + extra, as it is stated; it is not turned into a loss.
package scenarios
