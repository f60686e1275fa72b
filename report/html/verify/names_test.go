package verify

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each change is told once, with its place.
func TestChangesAreNamed(t *testing.T) {
	const table = `table "costs"`
	for _, c := range []struct{ old, new, want string }{
		{`>3.00<`, `>3.01<`, table + `, row "Energy", column "Restore": the page says "3.01", the study gives "3.00"`},
		{`>8.00<`, `>9.00<`, table + `, row 4 "Later", column "Replace": the page says "9.00", the study gives "8.00"`},
		{`>3.00</td><td class="num">4.00<`, `>4.00</td><td class="num">4.00<`, table + `, row "Energy", column "Restore": the page says "4.00", the study gives "3.00"`},
		{`>Energy<`, `>Energy 2<`, table + `, row "Energy", column "What": the page says "Energy 2", the study gives "Energy"`},
		{`>Restore</th>`, `>Restore 1</th>`, table + `, head of column "Restore": the page says "Restore 1", the study gives "Restore"`},
		{`Costs, in 2026`, `Costs, in 2025`, `section "answer", paragraph "costs-caption": the page says "Costs, in 2025", the study gives "Costs, in 2026"`},
		{`1,234.50`, `1,034.50`, `section "answer", paragraph: the page says "It costs 1,034.50 in all, less than the 2,0…", the study gives "It costs 1,234.50 in all, less than the 2,0…"`},
		{`It is 12`, `It is 13`, `section "answer", heading "answer-heading": the page says "It is 13", the study gives "It is 12"`},
		{`<li>two 2</li>`, `<li>two 3</li>`, `section "answer", item 2: the page says "two 3", the study gives "two 2"`},
		{`<li>two 2</li>`, ``, `section "answer", item 2: the study gives "two 2", the page has nothing there`},
		{`<li>two 2</li>`, `<li>two 2</li><li>four 4</li>`, `section "answer", item 3: the page has "four 4", the study gives nothing there`},
		{`<div class="callout"><p>Mind the deck</p></div>`, ``, `section "answer", element "div": the study gives "Mind the deck", the page has nothing there`},
		{`<td class="num">6.00</td>`, ``, table + `, row 3 "Later", column "Replace": the study gives "6.00", the page has nothing there`},
		{`<td class="num">6.00</td>`, `<td class="undefined">6.00</td>`, table + `, row 3 "Later", column "Replace", attribute "class": the page says "undefined", the study gives "num"`},
		{`<title>A roof`, `<title>A hut`, `title of the page: the page says "A hut", the study gives "A roof"`},
		{`<dd>2026-01-01`, `<dd>2026-01-02`, `head of the page, fact "Base date": the page says "2026-01-02", the study gives "2026-01-01"`},
		{`roofyears v1.`, `roofyears v2.`, `foot of the page, paragraph: the page says "…computed by roofyears v2. This page is one file; it ask…", the study gives "…computed by roofyears v1. This page is one file; it ask…"`},
		{`More of 3`, `More of 4`, `section "answer", fold "fold", its heading: the page says "More of 4", the study gives "More of 3"`},
		{`inside 4`, `inside 5`, `section "answer", fold "fold", paragraph: the page says "inside 5", the study gives "inside 4"`},
		{`Costs of 2`, `Costs of 1`, `section "answer", chart "line", heading "fig-line-title": the page says "Costs of 1", the study gives "Costs of 2"`},
		{`"trials":5`, `"trials":6`, `carried study, trials: the page says "6", the study gives "5"`},
		{`"trials":5`, `"trials": 5`, `carried study: the same values are written in another way: `},
		{`"value":[1,1]`, `"value":[1,1.5]`, `data of chart "line", option.series[0].data[0].value[1]: the page says "1.5", the study gives "1"`},
		{`script-src`, `script-src *`, `security policy, attribute "content": the page says "default-src 'none'; script-src * `},
		{`'use strict';`, `'use lax';`, `script 2: the page says`},
		{`</body>`, `<script>1</script></body>`, `script 4: the page has "1", the study gives nothing there`},
		{`<main>`, `<main onclick="x()">`, `element "main", attribute "onclick": the page says "x()", the study gives "(none)"`},
		{`<main>`, "<main>\u202e", `element "main": the page has "\u{202e}", the study gives nothing there`},
	} {
		page := pageText(t)
		require.Contains(t, page, c.old)
		got := told(t, strings.Replace(page, c.old, c.new, 1))
		if assert.Len(t, got, 1, c.new) {
			assert.True(t, strings.HasPrefix(got[0], c.want), "%s\nwant %s\ngot  %s", c.new, c.want, got[0])
		}
	}
}
