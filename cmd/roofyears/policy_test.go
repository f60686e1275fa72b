package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report/html/browsertest"
	"roofyears/scenarios"
)

// The policy of a page lets nothing in but its own scripts and style sheet, by their hashes.
var strictPolicy = regexp.MustCompile(`^default-src 'none'; script-src( 'sha256-[A-Za-z0-9+/]{43}=')+; style-src 'sha256-[A-Za-z0-9+/]{43}='; img-src data:; base-uri 'none'; form-action 'none'$`)

func TestPageIsStrictAndOffline(t *testing.T) {
	for _, example := range scenarios.ExampleNames() {
		p := browsertest.Open(t, pageOf(t, examplePrefix+example), browsertest.Options{})
		assert.True(t, strings.HasPrefix(browsertest.Eval[string](p, `location.href`), "file:"))
		assert.Regexp(t, strictPolicy, browsertest.Eval[string](p, `document.querySelector('meta[http-equiv="Content-Security-Policy"]').content`))
		assert.Equal(t, 1, browsertest.Eval[int](p, `document.querySelectorAll("[http-equiv]").length`))
		const before = `(() => { const m = document.querySelector("[http-equiv]"); return [...document.querySelectorAll("script, style, link, base")].every((e) => m.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_FOLLOWING); })()`
		assert.True(t, browsertest.Eval[bool](p, before), "the policy stands before what it governs")
		browsertest.Eval[bool](p, openAll)
		browsertest.Eval[string](p, tips)
		assert.Equal(t, 0, browsertest.Eval[int](p, `performance.getEntriesByType("resource").length`), "resources that were fetched")
		assertQuiet(t, p)
	}
}

// What somebody puts into a copy of the page neither runs nor shows nor reaches a network; it is
// blocked by the policy, and verify finds it.
func TestForeignPartsAreBlocked(t *testing.T) {
	text := string(mustRead(t, pageOf(t, "example:school")))
	for directive, part := range map[string]string{
		"script-src-elem": `<script>window.pwned=1</script>`,
		"script-src-attr": `<svg onload="window.pwned=1"></svg>`,
		"style-src-elem":  `<style>h1 { display: none }</style>`,
		"style-src-attr":  `<p style="position: fixed; inset: 0">cover</p>`,
		"img-src":         `<img alt="" src="https://pictures.example/a.png">`,
		"frame-src":       `<iframe title="a" src="https://pages.example/"></iframe>`,
		"base-uri":        `<base href="https://pages.example/">`,
	} {
		t.Run(directive, func(t *testing.T) {
			changed := strings.Replace(text, "<main>", "<main>"+part, 1)
			path := filepath.Join(t.TempDir(), "changed.html")
			require.NoError(t, os.WriteFile(path, []byte(changed), 0o600))
			p := browsertest.Open(t, path, browsertest.Options{})
			violations := strings.Join(p.Violations(), "\n")
			assert.Contains(t, violations, directive+": ")
			assert.True(t, browsertest.Eval[bool](p, `window.pwned === undefined`), "a foreign script ran")
			assert.True(t, browsertest.Eval[bool](p, `document.querySelector("h1").offsetHeight > 0`), "a foreign style holds")
			assert.Equal(t, "static", browsertest.Eval[string](p, `getComputedStyle(document.querySelector("main > p") || document.body).position`))
			assert.True(t, browsertest.Eval[bool](p, `document.baseURI.startsWith("file:")`))
			code, _, _ := verified(t, changed)
			assert.Equal(t, exitInput, code, "verify finds it")
		})
	}
}
