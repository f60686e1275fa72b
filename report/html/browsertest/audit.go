package browsertest

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"github.com/chromedp/cdproto/emulation"
)

// rulesFile is where npm puts the accessibility rules, from the root of the module.
const rulesFile = "report/html/browsertest/axe/node_modules/axe-core/axe.min.js"

// missingRules is what an audit without the rules fails with: audits are never skipped.
const missingRules = "the accessibility rules are missing: " +
	"run \"npm ci --ignore-scripts\" in report/html/browsertest/axe (%v)"

// Finding is one rule of axe-core that a page breaks, or may break.
type Finding struct {
	Rule   string   // the rule's name, such as "color-contrast"
	Impact string   // "minor", "moderate", "serious" or "critical"; "" for a rule without one
	Help   string   // what the rule asks
	Nodes  []string // the elements concerned, as CSS selectors, each with what is wrong there
}

func (f Finding) String() string {
	return fmt.Sprintf("%s (%s): %s: %q", f.Rule, f.Impact, f.Help, f.Nodes)
}

// Audit puts every rule of axe-core to the page as it is now, best practices included, and returns
// what is broken. The rules come in by way of the debugger, past the page's policy. It lets scripts
// run again in a page that was opened without; the scripts of the page stay off, for they are past.
func (p *Page) Audit() []Finding {
	p.tb.Helper()
	call(p, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{})
	if !Eval[bool](p, `'axe' in window`) {
		Eval[bool](p, rules(p)+"\n;true")
	}
	text := Eval[string](p, audit)
	var found []Finding
	if err := json.Unmarshal([]byte(text), &found); err != nil {
		p.tb.Fatalf("reading the audit: %v", err)
	}
	return found
}

const audit = `axe.run(document, {resultTypes: ['violations'], elementRef: false}).then((r) => {
	if (r.passes.length < 15) throw new Error('only ' + r.passes.length + ' rules were put to the page');
	return JSON.stringify(r.violations.map((v) => ({
		Rule: v.id, Impact: v.impact || '', Help: v.help,
		Nodes: v.nodes.map((n) => n.target.join(' ') + ': ' + n.failureSummary.replace(/\s+/g, ' ')),
	})));
})`

// rules reads the rules.
func rules(p *Page) string {
	p.tb.Helper()
	root, err := moduleRoot()
	if err != nil {
		p.tb.Fatalf(missingRules, err)
	}
	text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(rulesFile)))
	if err != nil {
		p.tb.Fatalf(missingRules, err)
	}
	return string(text)
}

// moduleRoot finds the folder with go.mod, from the folder of the test upwards.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	for err == nil {
		if _, missing := os.Stat(filepath.Join(dir, "go.mod")); missing == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("no go.mod above %s", dir)
		}
		dir = up
	}
	return "", err
}
