package verify

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/report/html"
)

// document is a small document with a block of every kind.
func document() *report.Document {
	money := func(v string) report.Cell {
		return report.Cell{Kind: report.MoneyCell, Number: decimal.RequireFromString(v)}
	}
	row := func(head string, cells ...report.Cell) report.Row {
		return report.Row{Cells: append([]report.Cell{{Text: head}}, cells...)}
	}
	numbers := []decimal.Decimal{decimal.NewFromInt(1), decimal.NewFromInt(2)}
	return &report.Document{
		Title: "A roof", Currency: report.Currency{Code: "USD", Digits: 2}, Version: "v1",
		Facts: []report.Fact{{Label: "Base date", Text: "2026-01-01"}, {Label: "Prepared by", Text: "A"}},
		Sections: []report.Section{{ID: "answer", Heading: "It is 12", Blocks: []report.Block{
			report.Paragraph{Text: "It costs 1,234.50 in all, less than the 2,000.00 of another, over 30 years at 3% a year."},
			report.Paragraph{Role: report.Caution, Text: "Mind the deck"},
			report.List{Items: []string{"one 1", "two 2", "three 3"}},
			report.Table{ID: "costs", Caption: "Costs, in 2026", Columns: []report.Column{{Head: "What"}, {Head: "Restore", Numeric: true}, {Head: "Replace", Numeric: true}},
				Rows: []report.Row{row("First", money("1"), money("2")), row("Energy", money("3"), money("4")), row("Later", money("5"), money("6")), row("Later", money("7"), money("8"))}},
			report.Figure{ID: "line", Title: "Costs of 2", Summary: "A line", Kind: report.Lines, Table: "costs",
				X: report.Axis{Kind: report.YearCell, Values: numbers}, Y: report.Axis{Kind: report.MoneyCell}, Series: []report.Series{{Name: "s", Values: numbers}}},
			report.Timeline{ID: "time", Title: "When", Summary: "What stands when", Years: 10, Rows: []report.TimelineRow{{Name: "Restore", Bars: []report.TimelineBar{{From: 0, To: 10, Label: "coat"}}}}},
			report.Fold{ID: "fold", Summary: "More of 3", Blocks: []report.Block{report.Paragraph{Text: "inside 4"}}},
		}}},
		Proof: &report.Proof{File: report.StudyFile{Name: "a.yaml", Text: []byte("study\x00\r\n\xff")}, Options: report.Options{Trials: 5, Seed: 1<<64 - 1}, Version: "v1"},
	}
}

func pageText(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, html.Write(&b, document()))
	return b.String()
}

// told compares a changed page with the written one.
func told(t *testing.T, page string) []string {
	t.Helper()
	p, err := Read([]byte(page))
	require.NoError(t, err)
	found, _, err := p.Compare([]byte(pageText(t)))
	require.NoError(t, err)
	var out []string
	for _, d := range found {
		out = append(out, d.String())
	}
	return out
}

func TestWrittenPageIsEqualAndCarriesItsStudy(t *testing.T) {
	page := pageText(t)
	assert.Empty(t, told(t, page))
	p, err := Read([]byte(page))
	require.NoError(t, err)
	assert.Equal(t, *document().Proof, p.Carried)
	assert.True(t, p.Intact())
	assert.Zero(t, p.Drawn)
}

func TestMovedAndSwappedIsFound(t *testing.T) {
	page := pageText(t)
	swapped := strings.Replace(page, `<td class="num">3.00</td><td class="num">4.00</td>`, `<td class="num">4.00</td><td class="num">3.00</td>`, 1)
	assert.Equal(t, []string{
		`table "costs", row "Energy", column "Restore": the page says "4.00", the study gives "3.00"`,
		`table "costs", row "Energy", column "Replace": the page says "3.00", the study gives "4.00"`,
	}, told(t, swapped))
	moved := strings.Replace(page, "<li>one 1</li>\n<li>two 2</li>", "<li>two 2</li>\n<li>one 1</li>", 1)
	assert.Equal(t, []string{`section "answer", item: it stands in another place than the study gives it`}, told(t, moved))
}

// What a browser makes of the page when it saves it is no difference.
func TestSavedPageIsEqual(t *testing.T) {
	page := pageText(t)
	for _, c := range [][2]string{
		{`<!DOCTYPE html>`, `<!-- saved from a file -->`},
		{`<html lang="en">`, `<html lang="en" class="printing">`},
		{`<meta charset="utf-8">`, `<meta http-equiv="Content-Type" content="text/html; charset=UTF-8">`},
		{`<meta charset="utf-8">`, `<meta http-equiv="Content-Type" content="text/html; charset=UTF-8"><meta charset="utf-8">`},
		{`<details class="ledger"`, `<details data-opened open="" class="ledger"`},
		{`id="save-study" hidden`, `id="save-study"`},
		{`href="#costs"`, `href="file:///home/a/page.html#costs"`},
		{"<main>\n", "<main>\n\t\n  "},
		{"It costs 1,234.50", "It costs\n  1,234.50"},
		{`<!DOCTYPE html>`, "\uFEFF<!DOCTYPE html>"},
	} {
		require.Contains(t, page, c[0])
		assert.Empty(t, told(t, strings.Replace(page, c[0], c[1], 1)), c[1])
	}
}

// A chart that a browser has drawn stands in place of the picture it came
// with. Only a picture may stand there.
func TestDrawnChart(t *testing.T) {
	page := pageText(t)
	from := strings.Index(page, `<svg class="static"`)
	require.Positive(t, from)
	to := from + strings.Index(page[from:], "</svg>") + len("</svg>")
	place := `class="plot" data-chart="line" role="img" aria-label="A line" tabindex="0"`
	require.Contains(t, page, place)
	drawnPlace := strings.Replace(place, `tabindex="0"`, `_echarts_instance_="1" style="height: 9px"`, 1)
	live := func(with string) string { return strings.Replace(page[:from], place, drawnPlace, 1) + with + page[to:] }
	picture := `<div style="position: relative"><svg><g><path d="M1"></path><text>$5</text></g></svg></div>`
	assert.Empty(t, told(t, live(picture)))
	p, err := Read([]byte(live(picture)))
	require.NoError(t, err)
	assert.Equal(t, 1, p.Drawn)
	for _, other := range []string{``, `<div>$5</div>`, picture + `$5`, picture + picture, page[from:to] + picture, picture + page[from:to],
		strings.Replace(picture, `<div`, `<div class="answer"`, 1), strings.Replace(picture, `<div`, `<div id="answer"`, 1),
		`<div><svg></svg>$5</div>`, `<div><svg><foreignObject>$5</foreignObject></svg></div>`, `<p>$5</p>`} {
		assert.NotEmpty(t, told(t, live(other)), other)
	}
	assert.NotEmpty(t, told(t, strings.Replace(page, `<svg class="static" viewBox="0 0`, `<svg class="static" viewBox="0 1`, 1)))
}

func TestReadRefuses(t *testing.T) {
	page := pageText(t)
	carriedAt := strings.Index(page, `"text_base64":"`) + len(`"text_base64":"`)
	for name, c := range map[string]struct{ page, want string }{
		"empty":          {"", "it is empty"},
		"not ours":       {"<title>x</title><p>1", "it carries no study"},
		"no markup":      {"roofyears: 1", "it carries no study"},
		"not text":       {"\xff\xfe<html>", "not UTF-8"},
		"cut":            {page[:carriedAt+5], "cannot be read"},
		"cut before":     {page[:strings.Index(page, "<body")], "it carries no study"},
		"too large":      {strings.Repeat(" ", MaxSize+1), "more than 64 MiB"},
		"too many tags":  {strings.Repeat("<p>", maxTags+1), "more parts"},
		"reopened":       {strings.Repeat("<b>", 400) + strings.Repeat("<p>", 100_000), "more parts"},
		"nested":         {strings.Repeat("<div>", 10_000), "512"},
		"format":         {strings.Replace(page, `"roofyears":1`, `"roofyears":2`, 1), "its format is 2"},
		"another key":    {strings.Replace(page, `"roofyears":1`, `"roofyears":1,"x":1`, 1), "not the data"},
		"no base64":      {page[:carriedAt] + "*" + page[carriedAt+1:], "damaged"},
		"something more": {strings.Replace(page, `"}</script>`, `"}{}</script>`, 1), "follows"},
	} {
		_, err := Read([]byte(c.page))
		if assert.Error(t, err, name) {
			assert.Contains(t, err.Error(), c.want, name)
		}
	}
}

// Large lists are compared in bounded work, and no difference is lost.
func TestLargeListsAreCompared(t *testing.T) {
	list := func(n int, text string) *node {
		up := &node{tag: "ul"}
		for i := range n {
			k := &node{tag: "li", up: up, attrs: []attribute{{"id", fmt.Sprint(text, i)}}}
			k.seal()
			up.kids = append(up.kids, k)
		}
		up.seal()
		return up
	}
	var c comparison
	c.node(list(3000, "a"), list(5000, "b"))
	assert.Equal(t, 5000, c.total)
	assert.Len(t, c.found, maxNamed)
}
