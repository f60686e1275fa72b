package html

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNamesFromRightToLeftAreIsolated(t *testing.T) {
	for in, want := range map[string]string{
		"“Restore” (7.7%)":           "“Restore” (7.7%)",
		"“שלום” (7.7%)":              "\u2068“שלום”\u2069 (7.7%)",
		"“a\u200f” and “b” at 3%":    "\u2068“a\u200f”\u2069 and “b” at 3%",
		"שלום 3%":                    "שלום 3%",
		"“שלום” less “سقف” at “x” “": "\u2068“שלום”\u2069 less \u2068“سقف”\u2069 at “x” “",
		"": "",
	} {
		assert.Equal(t, want, isolated(in))
	}
}
