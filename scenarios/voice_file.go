package scenarios

import (
	"fmt"
	"strings"
)

// The wording on the file as a whole and on YAML; see voice.go.

const isDirectory = "it is a directory, not a study file"

func tooLarge() message {
	return message{what: fmt.Sprintf("the file is larger than %d MiB, the most that is read", MaxSize>>20), hint: "divide the study"}
}

func otherEncoding() message {
	return message{what: "the file is UTF-16 or UTF-32, not UTF-8 text", hint: "save it as UTF-8"}
}

func notUTF8(b byte) message {
	return message{what: fmt.Sprintf("not UTF-8 text: the byte 0x%02X", b), hint: "save the file as UTF-8"}
}

func unwantedCharacter(c rune) message {
	return message{what: fmt.Sprintf("not UTF-8 text as a study file has it: the character U+%04X", c), hint: "delete the character"}
}

func emptyFile() message {
	return message{what: "the file is empty", hint: "start one with `roofyears new FILE`"}
}

func notStudy(s shape) message {
	return message{what: "the file is " + s.words() + ", not a study", expected: "keys, the first of them roofyears: " + Format}
}

func missingFormat() message {
	return message{what: `the key "roofyears" is missing`, hint: "begin the file with roofyears: " + Format}
}

func otherFormat(s shape, text string) message {
	found := "the format version is " + s.words()
	if s == scalar {
		found = "the format version is " + quote(text)
	}
	return message{what: found, expected: "roofyears: " + Format + ": this program reads format " + Format}
}

func moreToTell(n int, severity Severity) string {
	if n == 1 {
		return fmt.Sprintf("1 more %s is not shown", severity)
	}
	return fmt.Sprintf("%d more %ss are not shown", n, severity)
}

// words names the shape of a node.
func (s shape) words() string {
	return [...]string{"text", "a group of keys", "a list", "nothing", "nothing"}[s]
}

// YAML.

func secondDocument() message {
	return message{what: "a second document begins here", expected: "one study in a file", hint: "delete the line of --- or ..., or move what follows to a file of its own"}
}

func notYAML(finding string) message {
	return message{what: "not readable as YAML: " + finding, expected: "keys and values, as in the file that `roofyears new FILE` writes"}
}

// syntaxMessage words what the YAML library found; useOpened tells that the
// place where the construct begins is the better one.
func syntaxMessage(finding string, found place, at rune) (m message, useOpened bool) {
	before := fmt.Sprintf("line %d, column %d", found.line, found.col)
	switch {
	case strings.Contains(finding, "expected ',' or ']'"):
		return message{what: "a list in brackets is not closed, or lacks a comma, before " + before, hint: "write [first, second]"}, true
	case strings.Contains(finding, "expected ',' or '}'"):
		return message{what: "keys in braces are not closed, or lack a comma, before " + before, hint: "write {key: value, key: value}"}, true
	case strings.Contains(finding, "could not find expected ':'"):
		return message{what: "a line that is neither a key with a colon nor an entry of a list", hint: "write key: value, or - entry with a space after the hyphen"}, true
	case strings.Contains(finding, "mapping values are not allowed"):
		return message{what: "a colon cannot stand here", hint: "check the indentation and the colon of the line above, and quote text that holds a colon and a space"}, false
	case strings.Contains(finding, "cannot start any token") && at == '\t':
		return message{what: "a tab cannot indent", hint: "indent with spaces"}, false
	case strings.Contains(finding, "cannot start any token"):
		return message{what: "text cannot begin with " + quote(string(at)), hint: "put the text in quotes"}, false
	case strings.Contains(finding, "unexpected end of stream"):
		return message{what: "text in quotes is not closed", hint: "end the text with the quote that it begins with"}, true
	case strings.Contains(finding, "exceeded max depth"):
		return message{what: fmt.Sprintf("nested deeper than %d levels, the most that is read", maxDepth), hint: "close the brackets and braces of the lines above, or check their indentation"}, false
	case strings.Contains(finding, "unknown anchor"):
		return message{what: "an alias with no anchor of its name before it", hint: "quote text that begins with *"}, false
	case strings.Contains(finding, "expected node content"):
		return message{what: "a bracket, brace or comma where a value should stand", hint: "write the value, or put text that begins so in quotes"}, false
	case strings.Contains(finding, "expected key"), strings.Contains(finding, "expected '-' indicator"):
		return message{what: "the indentation does not match the lines above", hint: "indent keys of one group by the same number of spaces"}, false
	}
	return notYAML(finding), false
}

func tagged(tag string) message {
	return message{what: "the tag " + quote(tag) + " is not read", hint: "leave the tag out; quote text that begins with !"}
}

func keyNotText() message {
	return message{what: "a key that is not plain text", expected: "a word and a colon, such as life: 12", hint: "quote text that begins with a bracket, a brace or a question mark"}
}

func mergeKey() message {
	return message{what: "the merge key << is not read", hint: "write the keys out, or repeat a whole value with an alias"}
}

func duplicateKey(key string, line int) message {
	return message{what: fmt.Sprintf("the key %s stands here for the second time, after line %d", quote(key), line), hint: "leave one of the two out"}
}

func nestedAlias(name string) message {
	return message{what: "the alias " + quote("*"+name) + " repeats something that holds an alias itself", hint: "write it out"}
}

func aliasesTooLong(most int) message {
	return message{what: fmt.Sprintf("aliases repeat more than %d values, the most that is read", most), hint: "write the values out"}
}
