package scenarios

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// unseenMistakes are the bad files in which a schema sees nothing, by the
// reason. All others it has to refuse.
var unseenMistakes = map[string]string{
	"a name, a path or a chain that leads elsewhere in the file": `
		alternative-same-name alternative-start-undefined alternative-two-base-cases cool-roof-per-unknown
		cool-roof-same-as-misspelt cool-roof-same-as-nothing cool-roof-twice eligibility-no-such-item film-life-no-coats
		film-life-no-take-off item-per-unknown per-unit-of-area moves-unknown moves-with-itself moves-with-plain survey-opening-plane
		survey-opening-without-planes survey-plane-panel survey-plane-without-panels survey-quantity-twice
		survey-screws-without-count system-chain-of-six system-chain-without-end system-long-chain system-then-of-many
		system-then-undefined system-then-unknown system-two-chains takeoff-for takeoff-per-what-is-bought takeoff-step-twice
		takeoff-typed-and-derived wait-for-what-is-there findings-twice portfolio-budget-year-twice tax-basis-left
		tax-limit-missing tax-limit-unused tax-no-treatment tax-no-treatment-derived`,
	"numbers or units that do not go together": `
		cool-roof-aged-above-new cool-roof-darker cool-roof-no-degree-days cool-roof-no-sun cool-roof-no-sun-year
		cool-roof-per-length cool-roof-per-other-area cool-roof-per-pieces cool-roof-sun-in-wrong-unit cool-roof-sun-of-two-years
		cool-roof-u-over-film estimate-no-width estimate-not-in-order estimate-units-differ film-life-too-long
		film-life-worn-at-the-ends film-life-worn-when-new study-escalation-length survey-openings-at-the-ends
		survey-openings-over-plane survey-openings-too-large survey-shares survey-shares-at-the-ends survey-water-too-large takeoff-film-over-length
		valid-until-too-early wait-longer-than-life wait-longer-than-period tax-rate-parts-high`,
	"the size of a number in a text, a day of the calendar, how light a colour is": `
		rate-out-of-range survey-slope-too-steep study-date letterhead-colour-pale tax-discount-out-of-range tax-rate`,
	"how large the study is in all": `
		study-too-many-inputs study-too-many-lines`,
	"the file of a logo": `
		letterhead-logo-damaged letterhead-logo-empty letterhead-logo-html letterhead-logo-huge letterhead-logo-large
		letterhead-logo-beheaded letterhead-logo-missing letterhead-logo-small letterhead-logo-svg letterhead-logo-truncated`,
	"what YAML makes of it before a schema is asked": `
		key-duplicate system-in-place-capital yaml-alias-nested yaml-tagged-file yaml-tagged-quantity`,
}

// noYAML are the bad files that are no YAML document, or no text, so that a
// schema has nothing to look at.
const noYAML = `
	file-comments-only file-control-character file-empty file-latin1 file-line-separator file-utf16 yaml-alias-of-itself
	yaml-alias-unknown yaml-at-sign yaml-brace yaml-bracket yaml-colon-in-text yaml-colon-missing yaml-comma-missing
	yaml-directive yaml-indentation yaml-no-colon yaml-quote-open yaml-second-document yaml-second-document-broken yaml-tab
	yaml-too-deep`

func TestSchemaRefusesWhatItCanSee(t *testing.T) {
	s := compiled(t)
	reasons := map[string]string{}
	for reason, names := range unseenMistakes {
		for _, name := range strings.Fields(names) {
			assert.Empty(t, reasons[name], "%s has two reasons", name)
			reasons[name] = reason
		}
	}
	for _, name := range strings.Fields(noYAML) {
		assert.Empty(t, reasons[name], "%s has two reasons", name)
		reasons[name] = noYAML
	}
	for _, file := range files(t, "bad") {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		reason := reasons[name]
		delete(reasons, name)
		v, ok := edited(t, file)
		if !assert.Equal(t, reason != noYAML, ok, "%s: is it YAML?", name) || !ok {
			continue
		}
		err := s.Validate(v)
		if reason == "" {
			assert.Error(t, err, "the schema accepts %s: state its condition in scenarios/schema_….go, or say in unseenMistakes why no schema can", name)
		} else {
			assert.NoError(t, err, "the schema refuses %s, which is said to be unseen: %s", name, reason)
		}
	}
	assert.Empty(t, reasons, "there are no such bad files")
}
