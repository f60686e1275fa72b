package scenarios

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Severity says what a diagnostic means for the study.
type Severity uint8

// The severities.
const (
	Error Severity = iota // the study cannot be computed
	Warn                  // legal, but suspicious
)

// String gives the word used in messages.
func (s Severity) String() string { return [...]string{"error", "warning"}[s] }

// Diagnostic is something to be said about a place in a study file.
type Diagnostic struct {
	Severity Severity
	File     string
	Line     int    // from 1; 0 when it is about no one place
	Col      int    // from 1, in characters; 0 with Line
	Path     string // as systems.tear_off.life; "" for the file as a whole
	What     string // what was found
	Expected string // what could stand there; "" when that is clear
	Hint     string // what to write; "" when nobody can know
	Excerpt  string // the line and a line with a caret, no line end; "" without a place
}

// String gives file:line:col: severity: path: what, then the excerpt and
// what would help, each on a line of its own. There is no line end at the end.
func (d Diagnostic) String() string {
	var b strings.Builder
	b.WriteString(d.File)
	if d.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", d.Line, d.Col)
	}
	fmt.Fprintf(&b, ": %s: ", d.Severity)
	if d.Path != "" {
		b.WriteString(d.Path + ": ")
	}
	b.WriteString(d.What)
	if d.Excerpt != "" {
		b.WriteString("\n" + d.Excerpt)
	}
	if d.Expected != "" {
		b.WriteString("\n  expected " + d.Expected)
	}
	if d.Hint != "" {
		b.WriteString("\n  " + d.Hint)
	}
	return b.String()
}

// maxTold is how many errors are told, and how many warnings; of the rest, the
// number.
const maxTold = 200

// notes collects diagnostics.
type notes struct {
	file string
	text string
	list []Diagnostic
	told map[Diagnostic]bool // said already: an alias repeats mistakes too
	kept [2]int              // by severity
	more [2]int              // that were not kept, by severity
}

// add notes a diagnostic, unless the same was said of the same place.
func (s *notes) add(severity Severity, at place, path string, m message) {
	d := Diagnostic{
		Severity: severity, File: s.file, Line: at.line, Col: at.col,
		Path: path, What: m.what, Expected: m.expected, Hint: m.hint,
	}
	if s.kept[severity] >= maxTold {
		s.more[severity]++
		return
	}
	if s.told == nil {
		s.told = map[Diagnostic]bool{}
	}
	if !s.told[d] {
		s.told[d] = true
		s.kept[severity]++
		s.list = append(s.list, d)
	}
}

// full tells that no more errors are kept.
func (s *notes) full() bool { return s.kept[Error] >= maxTold }

// failed tells whether there is an error.
func (s *notes) failed() bool { return s.kept[Error] > 0 }

// all gives the diagnostics in the order of the file, with excerpts.
func (s *notes) all() []Diagnostic {
	slices.SortStableFunc(s.list, func(a, b Diagnostic) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Col - b.Col
	})
	lines := splitLines(s.text)
	var current []rune // of the line last shown
	last := 0
	for i := range s.list {
		d := &s.list[i]
		if d.Line < 1 || d.Line > len(lines) {
			continue
		}
		if d.Line != last {
			current, last = []rune(lines[d.Line-1]), d.Line
		}
		d.Excerpt = excerpt(current, d.Line, d.Col)
	}
	for severity, n := range s.more {
		if n > 0 {
			s.list = append(s.list, Diagnostic{Severity: Severity(severity), File: s.file, What: moreToTell(n, Severity(severity))})
		}
	}
	return s.list
}

// window is how many characters of a line an excerpt shows.
const window = 100

// excerpt shows a line, or the part of it around the column, and a caret.
func excerpt(line []rune, number, col int) string {
	from := 0
	if col > window*3/4 {
		from = col - window*3/4
	}
	from = min(from, len(line))
	shown := slices.Clone(line[from:min(from+window, len(line))])
	for i, c := range shown {
		if !unicode.IsPrint(c) {
			shown[i] = ' '
		}
	}
	margin := fmt.Sprintf("%5d", number)
	caret := strings.Repeat(" ", max(0, min(col-1-from, len(shown))))
	return strings.TrimRight(margin+" | "+string(shown), " ") + "\n" +
		strings.Repeat(" ", len(margin)) + " | " + caret + "^"
}

// splitLines splits text at line ends: \n, \r\n or \r.
func splitLines(text string) []string {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return strings.Split(strings.ReplaceAll(text, "\r", "\n"), "\n")
}
