package html

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"roofyears/report"
)

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		steps  int
		kind   report.CellKind
		want   string
	}{
		{0, 1_143_378.88, 6, report.MoneyCell, "$0 $200k $400k $600k $800k $1M $1.2M"},
		{-247_000, 1_143_378, 5, report.MoneyCell, "-$500k $0 $500k $1M $1.5M"},
		{0, 0.1472, 6, report.RateCell, "0% 5% 10% 15%"},
		{0, 0.0004, 5, report.RateCell, "0% 0.01% 0.02% 0.03% 0.04%"},
		{0, 0.00002, 2, report.RateCell, "0% 0.001% 0.002%"}, // more decimals than the boot script, or ticks would read the same
		{0, 30, 7, report.YearCell, "0 5 10 15 20 25 30"},
		{0, 2, 7, report.YearCell, "0 1 2"},
		{0, 0, 5, report.MoneyCell, "$0 $0.2 $0.4 $0.6 $0.8 $1"},
		{2.4e9, 4.1e9, 4, report.RoughCell, "$2B $2.5B $3B $3.5B $4B $4.5B"},
		{1_000_000, 1_000_400, 4, report.RoughCell, "$1M $1.0001M $1.0002M $1.0003M $1.0004M"},
		{-0.3, 0.1, 5, report.MoneyCell, "-$0.3 -$0.2 -$0.1 $0 $0.1"},
	} {
		a := newAxis(c.lo, c.hi, c.steps, c.kind).widened()
		var got []string
		for _, v := range a.ticks() {
			got = append(got, a.label(v, dollars))
		}
		assert.Equal(t, c.want, strings.Join(got, " "), "%v to %v", c.lo, c.hi)
	}
}

func TestTicksStayWithinAnAxisThatIsNotWidened(t *testing.T) {
	a := newAxis(662_492, 1_273_129, 7, report.RoughCell)
	ticks := a.ticks()
	assert.Equal(t, 700_000.0, ticks[0])
	assert.Equal(t, 1_200_000.0, ticks[len(ticks)-1])
}

func TestNiceStepIsOneTwoOrFive(t *testing.T) {
	for exponent := -9.0; exponent < 15; exponent += 0.07 {
		v := math.Pow(10, exponent)
		step := niceStep(v)
		digit := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
		assert.Contains(t, []string{"1", "2", "5"}, strconv.FormatFloat(digit, 'f', 6, 64)[:1])
		assert.GreaterOrEqual(t, step*(1+1e-8), v)
		assert.Less(t, step, 2.5000001*v, "the next smaller step would do for %v", v)
	}
}
