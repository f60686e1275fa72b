package main

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is printed shows texts as texts, and bears the title as its own.
func TestHostileTextIsPrintedAsText(t *testing.T) {
	for _, what := range []string{"element", "function of charts", "template", "style"} {
		t.Run(what, func(t *testing.T) {
			text := hostile[what]
			path := rewritten(t, func(_, key, old string) string {
				switch key {
				case "title":
					return text
				case "name", "item":
					return old + " " + text // names are told apart
				}
				return old
			})
			printed := filepath.Join(t.TempDir(), "page.pdf")
			var errs bytes.Buffer
			require.Equal(t, exitDone, run([]string{name, "report", path, "--pdf", printed}, stream{nil, &bytes.Buffer{}, &errs}), errs.String())
			// Lines are broken anywhere in a text without spaces.
			shown := strings.Join(strings.Fields(strings.Join(pdfSheets(t, mustRead(t, printed)), "")), "")
			want := strings.Join(strings.Fields(text), "")
			assert.Greater(t, strings.Count(shown, want), 3, "the text stands in the title, in sentences and in tables")
			info, err := exec.Command("pdfinfo", printed).Output()
			require.NoError(t, err, "pdfinfo is of the Debian package poppler-utils")
			title, _, _ := strings.Cut(strings.TrimPrefix(string(info), "Title:"), "\n")
			assert.Equal(t, text, strings.TrimSpace(title))
		})
	}
}
