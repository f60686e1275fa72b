package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
)

// auditedStudies are the examples, and studies whose pages differ from theirs: one alternative, a
// roof that is never renewed, no base case, ranges of every form, a high rate, a negative one.
var auditedStudies = []string{
	"example:cold-store", "example:school",
	"odd/one-alternative.yaml", "odd/kept-for-ever.yaml", "odd/no-base-case.yaml", "odd/discount-negative.yaml",
	"good/forms.yaml", "good/tax.yaml", "published/chain-elevators.yaml",
}

// auditedPage writes the page of one of them.
func auditedPage(t *testing.T, study string) string {
	t.Helper()
	if !strings.HasPrefix(study, examplePrefix) {
		study = filepath.Join("..", "..", "testdata", "scenarios", study)
	}
	return pageOf(t, study)
}

// openAll opens what is folded.
const openAll = `document.querySelectorAll("details").forEach((d) => { d.open = true }) || new Promise((done) => setTimeout(() => done(true), 100))`

// views are the ways to look at a page that its colours, widths and drawings depend on: all of them
// for an example, the two that differ most for another study.
func views(study string) map[string]browsertest.Options {
	if !strings.HasPrefix(study, examplePrefix) {
		return map[string]browsertest.Options{
			"screen": {Width: 1200}, "phone in the dark without script": {Width: 360, Dark: true, NoScript: true},
		}
	}
	out := map[string]browsertest.Options{}
	for _, width := range []int{1200, 360} {
		for _, dark := range []bool{false, true} {
			for _, noScript := range []bool{false, true} {
				name := fmt.Sprintf("%d pixels, dark %t, script %t", width, dark, !noScript)
				out[name] = browsertest.Options{Width: width, Dark: dark, NoScript: noScript}
			}
		}
	}
	return out
}

// No rule of axe-core is broken, whatever its impact, folded or unfolded.
func TestPageBreaksNoAccessibilityRule(t *testing.T) {
	for _, study := range auditedStudies {
		page := auditedPage(t, study)
		for name, view := range views(study) {
			t.Run(study+"/"+name, func(t *testing.T) {
				p := browsertest.Open(t, page, view)
				for _, f := range p.Audit() {
					assert.Fail(t, "folded", f)
				}
				browsertest.Eval[bool](p, openAll)
				for _, f := range p.Audit() {
					assert.Fail(t, "unfolded", f)
				}
				assertQuiet(t, p)
			})
		}
	}
}

// The same audit of a page spoilt on purpose names what was spoilt.
func TestAuditOfASpoiltPageFails(t *testing.T) {
	for rule, change := range map[string][2]string{
		"image-alt":         {`<main>`, `<main><img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">`},
		"html-has-lang":     {`<html lang="en">`, `<html>`},
		"document-title":    {`<title>`, `<title></title><title>`},
		"role-img-alt":      {`role="img" aria-label="`, `role="img" title="" data-label="`},
		"color-contrast":    {`--muted: #55606a`, `--muted: #a5b0ba`},
		"landmark-one-main": {`<main>`, `<div>`},
	} {
		t.Run(rule, func(t *testing.T) {
			text, err := os.ReadFile(pageOf(t, "example:school"))
			require.NoError(t, err)
			require.Contains(t, string(text), change[0])
			spoilt := strings.Replace(string(text), `http-equiv="Content-Security-Policy"`, `name="none"`, 1) // or the changed style is not applied
			path := filepath.Join(t.TempDir(), "spoilt.html")
			require.NoError(t, os.WriteFile(path, []byte(strings.ReplaceAll(spoilt, change[0], change[1])), 0o600))
			var rules []string
			for _, f := range browsertest.Open(t, path, browsertest.Options{}).Audit() {
				rules = append(rules, f.Rule)
			}
			assert.Contains(t, rules, rule)
		})
	}
}
