// Package contrast computes how well two colours are told apart, as the Web Content Accessibility
// Guidelines (WCAG) 2.2 define it: W3C Recommendation, 12 December 2024,
// https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio.
package contrast

import (
	"encoding/hex"
	"fmt"
	"math"
	"strings"
)

// The least ratios that WCAG 2.2 asks for.
const (
	Text      = 4.5 // SC 1.4.3 (AA), text
	LargeText = 3.0 // SC 1.4.3 (AA), text of 24 CSS pixels, or of 18.66 and bold
	NonText   = 3.0 // SC 1.4.11 (AA), what is needed to see a control, its focus or a graphic
)

// Colour is an opaque sRGB colour, each part from 0 to 1; the zero value is black.
type Colour struct{ R, G, B float64 }

// Parse reads a colour as a style sheet writes it: # and six hexadecimal digits.
func Parse(text string) (Colour, error) {
	digits, marked := strings.CutPrefix(text, "#")
	b, err := hex.DecodeString(digits)
	if !marked || err != nil || len(b) != 3 {
		return Colour{}, fmt.Errorf("the colour %q is not # and six hexadecimal digits", text)
	}
	return Colour{float64(b[0]) / 255, float64(b[1]) / 255, float64(b[2]) / 255}, nil
}

// Over is the colour that is seen where c lies on another with an opacity from 0 to 1; it is also
// the color-mix of style sheets in srgb.
func (c Colour) Over(under Colour, opacity float64) Colour {
	mix := func(a, b float64) float64 { return a*opacity + b*(1-opacity) }
	return Colour{mix(c.R, under.R), mix(c.G, under.G), mix(c.B, under.B)}
}

// Luminance is the relative luminance, from 0 for black to 1 for white.
func (c Colour) Luminance() float64 {
	linear := func(v float64) float64 {
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// Ratio is the contrast ratio, from 1 for equal luminance to 21 for black and white. The order of
// the colours does not matter.
func Ratio(a, b Colour) float64 {
	x, y := a.Luminance(), b.Luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}
