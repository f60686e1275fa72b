package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/report/html/browsertest"
)

// sheetWidth is the narrower sheet, A4, within its margins, in CSS pixels.
const sheetWidth = 680

// A browser shrinks all sheets when one table is wider than they are.
func TestNothingIsWiderThanASheet(t *testing.T) {
	good := "../../testdata/scenarios/good/"
	for _, study := range []string{examplePrefix + "cold-store", examplePrefix + "school", good + "survey.yaml", good + "survey-metric.yaml", good + "cool-roof.yaml", good + "tax.yaml"} {
		p := browsertest.Open(t, pageOf(t, study), browsertest.Options{Width: sheetWidth, Print: true})
		assert.LessOrEqual(t, browsertest.Eval[int](p, "document.documentElement.scrollWidth"), sheetWidth, study)
	}
}

func TestEveryBarHasItsName(t *testing.T) {
	page := pageOf(t, examplePrefix+"cold-store")
	figures, _ := gathered(documentOf(t, "cold-store"))
	for _, o := range []browsertest.Options{{}, {Width: 360, Height: 800}, {Print: true}} {
		drawn := browsertest.Eval[[]string](browsertest.Open(t, page, o), `[...document.querySelectorAll('figure.chart')].map(f =>
			f.querySelector('h3').textContent + [...f.querySelectorAll('svg text')].map(t => t.textContent).join('').replace(/\s/g, ''))`)
		for _, f := range figures {
			if f.Kind != report.Swing {
				continue
			}
			require.Greater(t, len(f.X.Categories), 10, "a chart of many names")
			text := drawnWith(drawn, f.Title)
			for _, name := range f.X.Categories {
				assert.Contains(t, text, strings.ReplaceAll(name, " ", ""), "%+v", o)
			}
		}
	}
}

// drawnWith is what a chart under this title says.
func drawnWith(drawn []string, title string) string {
	for _, text := range drawn {
		if strings.HasPrefix(text, title) {
			return text
		}
	}
	return ""
}
