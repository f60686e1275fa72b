package html

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"html/template"

	"roofyears/report"
)

//go:embed assets/evaluate.js
var evaluateScript string

//go:embed assets/whatif.js
var whatIfScript string

// WhatIfID is the id of the element that holds what the "what if" of a page
// computes with.
const WhatIfID = "what-if-data"

// whatIf is the "what if" of a page: data for a script, and the scripts. The
// elements are made by the script.
type whatIf struct {
	Data             template.JS
	Evaluate, Script template.JS
}

// whatIf keeps the data for the foot of the page, and gives the place where
// the script works.
func (l *layout) whatIf(w report.WhatIf) (block, error) {
	text, err := json.Marshal(w)
	if err != nil {
		return block{}, fmt.Errorf("the what-if: %w", err)
	}
	l.live = &whatIf{template.JS(text), template.JS(evaluateScript), template.JS(whatIfScript)}
	return block{WhatIf: true}, nil
}

// scripts are the scripts of a page that computes, for its policy.
func (w *whatIf) scripts() []string {
	if w == nil {
		return nil
	}
	return []string{string(w.Evaluate), string(w.Script)}
}
