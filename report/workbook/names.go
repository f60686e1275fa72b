package workbook

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf16"
)

// longestSheetName is how many UTF-16 units the name of a sheet may have.
const longestSheetName = 31

// sheetNames gives names to sheets: valid for every spreadsheet program, and
// unique without regard to case.
type sheetNames map[string]bool

// name is a valid and unused name that is near to a wanted one.
func (used sheetNames) name(wanted string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case strings.ContainsRune(`[]:*?/\`, r), unicode.IsControl(r), r == unicode.ReplacementChar, unicode.Is(unicode.Cf, r):
			return ' '
		case r == '\'':
			return '’' // it may not stand at an end
		case r == '"':
			return '”'
		}
		return r
	}, wanted)
	clean = unescaped(strings.Join(strings.Fields(clean), " "), '-')
	for n := 1; ; n++ {
		mark := ""
		if n > 1 {
			mark = fmt.Sprintf(" (%d)", n)
		}
		name := strings.TrimSpace(cut(clean, longestSheetName-len(mark))) + mark
		if key := strings.ToLower(name); name != "" && key != "history" && !used[key] {
			used[key] = true
			return name
		}
	}
}

var escaped = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// unescaped puts something else for the underscore at the head of what the file
// format would take for the code of a character: _x0041_ is an A.
func unescaped(name string, other byte) string {
	for {
		at := escaped.FindStringIndex(name)
		if at == nil {
			return name
		}
		name = name[:at[0]] + string(other) + name[at[0]+1:]
	}
}

// cut keeps so many UTF-16 units of a text.
func cut(text string, units int) string {
	kept := 0
	for i, r := range text {
		if kept += max(1, utf16.RuneLen(r)); kept > units {
			return text[:i]
		}
	}
	return text
}

// cellNames gives names to cells: letters, digits and underscores, unique
// without regard to case. An underscore keeps them from looking like the
// address of a cell.
type cellNames map[string]bool

var noLetters = regexp.MustCompile(`[^A-Za-z0-9]+`)

// longestCellName keeps formulas of many names well within their limit.
const longestCellName = 120

// name is an unused name for the input at a path of the study file.
func (used cellNames) name(path string) string {
	clean := unescaped(strings.Trim(noLetters.ReplaceAllString(path, "_"), "_"), '0')
	if clean == "" || !strings.Contains(clean, "_") || clean[0] >= '0' && clean[0] <= '9' {
		clean = "in_" + clean
	}
	clean = cut(clean, longestCellName)
	for n := 1; ; n++ {
		name := clean
		if n > 1 {
			name = fmt.Sprintf("%s_%d", clean, n)
		}
		if key := strings.ToLower(name); !used[key] {
			used[key] = true
			return name
		}
	}
}
