package html

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/scenarios/contrast"
)

func TestColoursOfALetterheadCanBeReadInTheDark(t *testing.T) {
	assert.Contains(t, styleSheet, "--paper: "+darkPaper.String()+";", "the paper of the dark")
	style := letterheadStyle(report.Letterhead{Accent: "#1b4d7e"})
	light := contrast.Lighten(contrast.Colour{R: 0x1b, G: 0x4d, B: 0x7e}, darkPaper)
	assert.GreaterOrEqual(t, contrast.Ratio(light, darkPaper), contrast.Least)
	assert.Equal(t, "\n:root { --accent: #1b4d7e; }\n@media screen and (prefers-color-scheme: dark) { :root:not(.printing) { --accent: "+light.String()+"; } }\n", style)
}

func TestWhatIsNoColourStaysOutOfTheStyleSheet(t *testing.T) {
	assert.Empty(t, letterheadStyle(report.Letterhead{}))
	assert.Empty(t, letterheadStyle(report.Letterhead{Accent: "#000000; } td { display: none", Heading: "</style>"}))
}

func TestPageWithoutALetterheadHasNone(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, &report.Document{Title: "t", Letterhead: report.Letterhead{Note: []string{"x"}}}))
	assert.NotContains(t, b.String(), `id="`+LetterheadID)
	assert.NotContains(t, b.String(), "<img")
}

func TestPictureIsReadAsWritten(t *testing.T) {
	data := []byte("\x89PNG\x00</script>")
	assert.Equal(t, data, PictureBytes(string(pictureURL(&report.Logo{Type: "image/png", Bytes: data}))))
	assert.Empty(t, pictureURL(&report.Logo{Type: "image/svg+xml", Bytes: data}), "a page carries no other pictures")
	for _, address := range []string{"", "https://example.invalid/a.png", "data:image/svg+xml;base64,AAAA", "data:image/png;base64,@", "data:image/png,AAAA"} {
		assert.Nil(t, PictureBytes(address), address)
	}
}
