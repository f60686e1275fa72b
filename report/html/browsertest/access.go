package browsertest

import (
	"encoding/json"

	"github.com/chromedp/cdproto/accessibility"
)

// Named is what a screen reader is told of an element.
type Named struct {
	Role string // as Chromium calls it, such as "button", "image", "DisclosureTriangle"
	Name string // what is read aloud; "" when there is nothing to read
}

// Names returns the page's accessibility tree as a list, from top to bottom, without what is hidden
// from screen readers.
func (p *Page) Names() []Named {
	p.tb.Helper()
	var out []Named
	for _, n := range call(p, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{}).Nodes {
		if !n.Ignored {
			out = append(out, Named{valueText(n.Role), valueText(n.Name)})
		}
	}
	return out
}

func valueText(v *accessibility.Value) string {
	var s string
	if v == nil || json.Unmarshal(v.Value, &s) != nil {
		return ""
	}
	return s
}
