package html

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"

	"roofyears/report"
	"roofyears/scenarios/contrast"
)

// The ids of what the preparer adds to the head of a page, and of the logo in it.
const (
	LetterheadID = "letterhead"
	LogoID       = "logo"
)

// letterhead is what stands in the head of a page.
type letterhead struct {
	Logo    template.URL // "" when there is none
	Alt     string
	Contact []string
}

// letterheadOf is the letterhead of a document; nil when it has none.
func letterheadOf(doc *report.Document) *letterhead {
	l := letterhead{Contact: doc.Letterhead.Contact}
	if doc.Logo != nil {
		l.Logo, l.Alt = pictureURL(doc.Logo), doc.Logo.Alt
	}
	if l.Logo == "" && len(l.Contact) == 0 {
		return nil
	}
	return &l
}

// pictureTypes are the pictures that a page may carry.
var pictureTypes = []string{"image/png", "image/jpeg"}

// pictureURL writes a picture as an address that holds it; "" for a type that
// a page does not carry.
func pictureURL(logo *report.Logo) template.URL {
	for _, kind := range pictureTypes {
		if kind == logo.Type {
			return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(logo.Bytes))
		}
	}
	return ""
}

// PictureBytes reads what pictureURL writes; nil when it is nothing of the kind.
func PictureBytes(address string) []byte {
	for _, kind := range pictureTypes {
		if text, ok := strings.CutPrefix(address, "data:"+kind+";base64,"); ok {
			b, err := base64.StdEncoding.DecodeString(text)
			if err != nil {
				return nil
			}
			return b
		}
	}
	return nil
}

// darkPaper is the colour of the page in the dark, --paper in page.css.
var darkPaper = contrast.Colour{R: 0x15, G: 0x19, B: 0x1d}

// letterheadStyle sets the preparer's colours, and in the dark lighter ones of
// the same hue. What is no colour is left out: it never gets into the sheet.
func letterheadStyle(l report.Letterhead) string {
	var light, dark strings.Builder
	for _, c := range []struct{ property, text string }{{"--accent", l.Accent}, {"--heading", l.Heading}} {
		if colour, ok := contrast.Parse(c.text); ok {
			fmt.Fprintf(&light, " %s: %s;", c.property, colour)
			fmt.Fprintf(&dark, " %s: %s;", c.property, contrast.Lighten(colour, darkPaper))
		}
	}
	if light.Len() == 0 {
		return ""
	}
	return fmt.Sprintf("\n:root {%s }\n@media screen and (prefers-color-scheme: dark) { :root:not(.printing) {%s } }\n", &light, &dark)
}
