package scenarios

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/scenarios/eligibility"
)

// The coats of the surveyed roof: 12 mil and 8 mil over an area of 1.0918
// times the plan. 20 mil are 0.508 mm; at 1.4 kg/L that is 0.7112 kg/m², and a
// kg/m² is 0.2048161 psf: 0.14567 psf along the profile.
func TestLoadOfTheCoatsOfATakeOff(t *testing.T) {
	src, err := Load(testdata + "/good/survey.yaml")
	require.NoError(t, err)
	with := func(more string) eligibility.Known[decimal.Decimal] {
		r := newReader(src)
		text := strings.Replace(string(src.Text), "    work: restore\n", "    work: restore\n"+more, 1)
		r.text = text
		root := parse(text, func(at place, m message) { r.fail(at, "", m) })
		require.NotNil(t, root)
		r.root(root)
		require.False(t, r.failed(), told(r.all()))
		return r.options[1].AddedLoad
	}
	load, known := with("").Get()
	require.True(t, known)
	file, _ := Read(src)
	v := file.Study.Likely()
	ratio := v[file.Study.Find("survey.coated_area")].Div(v[file.Study.Area])
	assert.InDelta(t, 0.14567*ratio.InexactFloat64(), load.InexactFloat64(), 0.0002)
	assert.Contains(t, with("").Source(), "20 mil of dry film at 1.4 kg/L")
	load, _ = with("    eligibility: {added_load: 2 psf}\n").Get()
	assert.Equal(t, "2", load.String(), "what the file states goes before")
}
