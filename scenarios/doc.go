// Package scenarios reads study files: it turns YAML text into an
// [lcc.Study], or tells everything that is wrong with it, with line and column.
//
// # The path of a file
//
//	Load     bytes from a file or from standard input (source.go)
//	decode   UTF-8 without stray characters (text.go)
//	parse    YAML to a tree of nodes that know their place (parse.go, node.go)
//	build    keys, estimates and references to a study (study.go and below)
//	remark   what is legal but suspicious (warnings.go)
//
// An error never ends the reading: it is noted, and reading goes on with the
// next key, so that one run tells all of them. Only text that is not UTF-8 or
// not YAML, and a format version of another program, end it early.
//
// All wording stands in voice.go.
package scenarios
