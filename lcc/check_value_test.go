package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// restoreOrTearOff is a 50,000 ft² roof over 40 years at a real 3 %,
// construction escalating at 1 % and maintenance at 0.5 %.
func restoreOrTearOff() *builder {
	b := newStudy(40, "0.03").area("50000")
	b.escalate(Construction, "0.01").escalate(Maintenance, "0.005")
	tearOff := b.system("tear_off", "22", func(y *System) {
		y.First = []Item{b.perArea("12.50")}
		y.Annual = []Item{b.perArea("0.10").as(Maintenance)}
	})
	restore := b.system("restoration", "12", func(y *System) {
		y.First = []Item{b.perArea("4.80")}
		y.Annual = []Item{b.perArea("0.15").as(Maintenance)}
		y.Recoat = &Recoating{AtMost: 2, Life: b.in("systems.restoration.recoat.life", Years, "11"), Costs: []Item{b.perArea("2.60")}}
		y.Then = tearOff
	})
	b.alternative("Tear off", tearOff, nil)
	b.alternative("Restore", restore, nil)
	return b
}

// The expected values come from an independent computation of this case at 50
// significant digits, not from this program.
func TestFortyYearsOfRestoringAndOfTearingOff(t *testing.T) {
	r := restoreOrTearOff().evaluate()
	assert.Equal(t, "1113421.19", r.Alternatives[0].LCC.StringFixed(2))
	assert.Equal(t, "733681.83", r.Alternatives[1].LCC.StringFixed(2))
	assert.Equal(t, 1, r.Answer.Lowest)
	assert.Equal(t, "379739.36", r.Answer.Margin.StringFixed(2))
}
