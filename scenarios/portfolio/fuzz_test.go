package portfolio

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

// checkFuzzed reads a table to its end.
func checkFuzzed(t *testing.T, text string, o Options) {
	t.Helper()
	head, rows, err := all(text, o)
	var known *Unreadable
	if err != nil && !errors.As(err, &known) {
		t.Fatalf("no reason that a user could read: %v", err)
	}
	for _, row := range rows {
		if row.Bad != nil && row.Bad.String() == "" {
			t.Fatalf("row %d is bad, and nothing says why", row.Line)
		}
		for _, cell := range row.Cells {
			if row.Bad == nil && len(cell) > MaxCell {
				t.Fatalf("a cell of %d bytes", len(cell))
			}
		}
		if row.Bad == nil && len(row.Cells) != len(head) {
			t.Fatalf("row %d has %d cells of %d", row.Line, len(row.Cells), len(head))
		}
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].Line <= rows[i-1].Line {
			t.Fatalf("row %d after %d", rows[i].Line, rows[i-1].Line)
		}
	}
}

func FuzzCSV(f *testing.F) {
	f.Add("id,name,roof.area\nA,\"North, hall\",5000\nB,\"two\nlines\",\n", ',')
	f.Add("\ufeffid;Größe\r\n1;3,5\r\n\r\n2;\"a\"\"b\"\r\n", ';')
	f.Add("id\tx\n1\n2\t3\t4\n", '\t')
	f.Add("id,id\n\"open\n", ',')
	f.Add("\xff\xfei\x00d\x00", ',')
	f.Fuzz(func(t *testing.T, text string, separator rune) {
		if strings.ContainsRune("\"\r\n\uFFFD", separator) || !utf8.ValidRune(separator) {
			return // the command line refuses it
		}
		checkFuzzed(t, text, Options{Format: CSV, Separator: separator})
	})
}

func FuzzNDJSON(f *testing.F) {
	f.Add("{\"id\":\"A\",\"roof.area\":5000,\"note\":null}\n{\"id\":7}\n\n{\"id\":\"B\",\"more\":1}\n")
	f.Add("{\"id\":1e400,\"a\":[1],\"b\":{}}\n{\"id\":true}\n[1]\n{\"id\":\"\\ud800\"}\nx")
	f.Fuzz(func(t *testing.T, text string) { checkFuzzed(t, text, Options{Format: NDJSON}) })
}
