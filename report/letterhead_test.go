package report

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/lcc"
)

func TestWhatIsSaidOverAFileWins(t *testing.T) {
	file := Letterhead{Accent: "#111111", Heading: "#222222", Contact: []string{"a"}, Note: []string{"b"}}
	assert.Equal(t, file, Letterhead{}.Over(file))
	assert.Equal(t, Letterhead{"#333333", "#222222", []string{"c", "d"}, []string{"b"}},
		Letterhead{Accent: "#333333", Contact: []string{"c", "d"}}.Over(file))
	assert.Equal(t, file, file.Over(Letterhead{Accent: "#444444", Note: []string{"e", "f"}}))
}

func TestLogoIsNeverWithoutWords(t *testing.T) {
	alt := func(by string, contact ...string) string {
		in := Study{Letterhead: Letterhead{Contact: contact}, Logo: &Logo{Type: "image/png"}}
		return (&teller{Study: in, study: &lcc.Study{About: lcc.About{PreparedBy: by}}}).logo().Alt
	}
	assert.Equal(t, "Logo of A", alt("A", "B"))
	assert.Equal(t, "Logo of B", alt("", "B"))
	assert.Equal(t, "Logo of the preparer", alt(""))
}
