package browsertest

import (
	"slices"
	"strings"
	"testing"
)

// Each page has one fault of a common kind; the audit names it.
func TestAuditFindsFaults(t *testing.T) {
	const whole = `<html lang="en"><meta name="viewport" content="width=device-width"><main><h1>Roof</h1><p>text</p>%</main>`
	for want, fault := range map[string]string{
		"":                            ``,
		"image-alt":                   `<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">`,
		"color-contrast":              `<p style="color: #aaa; background: #fff">pale</p>`,
		"button-name":                 `<button></button>`,
		"link-name":                   `<a href="#x"></a>`,
		"heading-order":               `<h2>Costs</h2><h4>Year 1</h4>`,
		"svg-img-alt":                 `<svg role="img"><path d="M0 0h9"/></svg>`,
		"label":                       `<input type="range">`,
		"scrollable-region-focusable": `<div style="width: 50px; height: 30px; overflow: auto"><p style="width: 500px">Lorem ipsum dolor sit amet consectetur</p><p>more</p></div>`,
	} {
		t.Run(want, func(t *testing.T) {
			p := Open(t, write(t, strings.Replace(whole, "%", fault, 1)), Options{})
			found := p.Audit()
			if want == "" && len(found) != 0 {
				t.Errorf("a good page: %v", found)
			}
			if want != "" && !slices.ContainsFunc(found, func(f Finding) bool { return f.Rule == want && len(f.Nodes) == 1 }) {
				t.Errorf("found %v, want %s", found, want)
			}
		})
	}
}
