// Package contrast is the arithmetic of colours that can be read: relative
// luminance and contrast ratio as the Web Content Accessibility Guidelines
// define them. It knows no page and no file.
//
// Source: W3C Recommendation "Web Content Accessibility Guidelines (WCAG)
// 2.2", 2023-10-05, section 6, definitions "relative luminance" and "contrast
// ratio"; success criterion 1.4.3 for the limits.
package contrast

import (
	"fmt"
	"math"
	"strconv"
)

// The least contrast ratios that WCAG 2.2 asks for at level AA.
const (
	Least     = 4.5 // SC 1.4.3, text with what is behind it
	LargeText = 3.0 // SC 1.4.3, text of 24 CSS pixels, or of 18.66 and bold
	NonText   = 3.0 // SC 1.4.11, what is needed to see a control, its focus or a graphic
)

// Colour is a colour of sRGB, each part from 0 to 255; zero is black.
type Colour struct{ R, G, B uint8 }

// White is the colour of paper.
var White = Colour{255, 255, 255}

// Parse reads a colour as style sheets write it in six hexadecimal digits,
// #1b4d7e; capital letters are read too. It is not ok for any other form.
func Parse(text string) (c Colour, ok bool) {
	if len(text) != 7 || text[0] != '#' {
		return Colour{}, false
	}
	n, err := strconv.ParseUint(text[1:], 16, 32)
	if err != nil {
		return Colour{}, false
	}
	return Colour{uint8(n >> 16), uint8(n >> 8), uint8(n)}, true
}

// String writes the colour as Parse reads it, in small letters.
func (c Colour) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Luminance is the relative luminance, from 0 for black to 1 for white.
func (c Colour) Luminance() float64 {
	return float64(0.2126*linear(c.R)) + float64(0.7152*linear(c.G)) + float64(0.0722*linear(c.B))
}

// linear takes the curve of sRGB off one part of a colour.
func linear(part uint8) float64 {
	s := float64(part) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// Ratio is the contrast ratio of two colours in either order, from 1 for equal
// ones to 21 for black and white.
func Ratio(a, b Colour) float64 {
	x, y := a.Luminance(), b.Luminance()
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// Lighten mixes a colour with as little white as gives it the least contrast
// with a background, in steps of a 255th. On a background that even white does
// not stand out from, it is white.
func Lighten(c, background Colour) Colour {
	for step := range 255 {
		if mixed := mix(c, step); Ratio(mixed, background) >= Least {
			return mixed
		}
	}
	return White
}

// Over is the colour that is seen where c lies on another with an opacity from
// 0 to 1, rounded to the nearest; it is also the color-mix of style sheets in
// srgb.
func (c Colour) Over(under Colour, opacity float64) Colour {
	part := func(a, b uint8) uint8 {
		return uint8(math.Round(float64(float64(a)*opacity) + float64(float64(b)*(1-opacity))))
	}
	return Colour{part(c.R, under.R), part(c.G, under.G), part(c.B, under.B)}
}

// mix is a colour with so many 255ths of white in it, rounded to the nearest.
func mix(c Colour, white int) Colour {
	part := func(p uint8) uint8 { return p + uint8(((255-int(p))*white+127)/255) }
	return Colour{part(c.R), part(c.G), part(c.B)}
}
