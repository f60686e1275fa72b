package html

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/report"
)

func TestCarriedStudyIsReadAsWritten(t *testing.T) {
	want := report.Proof{
		File:    report.StudyFile{Name: "</script><!-- \u2028 & '\".yaml", Text: []byte("\xef\xbb\xbf</script>\r\n\x00\xff")},
		Options: report.Options{Trials: 100_000, Seed: 1<<64 - 1}, Version: "v1 <b>",
	}
	c, err := carry(&want)
	require.NoError(t, err)
	assert.NotContains(t, string(c.JSON), "<", "nothing in it can end its element")
	got, sum, err := ReadCarried(string(c.JSON))
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.Equal(t, c.SHA256, sum)
	assert.Equal(t, "16 bytes", c.Size)
}

func TestDigestIsThatOfTheFile(t *testing.T) {
	// FIPS 180-4, the example of one block: SHA-256 of "abc".
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", SHA256([]byte("abc")))
}

func TestPageWithoutAStudyCarriesNone(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, &report.Document{Title: "t"}))
	assert.NotContains(t, b.String(), `id="`+CarriedID)
	assert.NotContains(t, b.String(), `id="`+SaveID)
}

func TestSaveScriptNamesNothingForbidden(t *testing.T) {
	for _, w := range []string{"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", "setAttribute(", "http", "</script"} {
		assert.False(t, strings.Contains(saveScript, w), w)
	}
	assert.Contains(t, saveScript, CarriedID)
	assert.Contains(t, saveScript, SaveID)
}
