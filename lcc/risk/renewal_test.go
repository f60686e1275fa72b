package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"roofyears/lcc"
)

// weibullLaw is a Weibull distribution by mean and shape, from its formula.
type weibullLaw struct{ scale, shape float64 }

func newWeibullLaw(mean, shape float64) weibullLaw {
	return weibullLaw{mean / math.Gamma(1+1/shape), shape}
}

// survives is the chance of a life over x years.
func (w weibullLaw) survives(x float64) float64 {
	return math.Exp(-math.Pow(math.Max(0, x)/w.scale, w.shape))
}

// endsIn is the chance that a life ends in its kth year: that ⌈life⌉ is k.
func (w weibullLaw) endsIn(k int) float64 { return w.survives(float64(k-1)) - w.survives(float64(k)) }

// unused is the mean of max(0, life − n)/life: ∫ n/x² · P(life > x) from n on,
// by parts.
func (w weibullLaw) unused(n int) float64 {
	if n == 0 {
		return 1
	}
	// x = n/y, y from 0 to 1.
	return integral(func(y float64) float64 { return w.survives(float64(n) / y) }, 0, 1)
}

// series is a system that is replaced by itself, with what a year does to
// money: escalation of construction and running costs, and discounting.
type series struct {
	period              int
	rate, build, upkeep float64 // a year
	price, annual, age  float64 // age: growth of the annual cost
	left                float64 // removal
	life, recoatLife    weibullLaw
	recoats             int
	recoat              float64
}

// expected is the mean cost, by a recursion from the end of the study period
// backwards over the year in which a renewal is made and the recoats made.
func (s *series) expected() float64 {
	worth := func(e, year float64) float64 { return math.Pow((1+e)/(1+s.rate), year) }
	from := make([][]float64, s.period+1) // by year, then by recoats made on the installation
	for year := s.period - 1; year >= 0; year-- {
		from[year] = make([]float64, s.recoats+1)
		for made := range s.recoats + 1 {
			life, paid := s.life, s.price
			if made > 0 {
				life, paid = s.recoatLife, s.recoat
			}
			rest := s.period - year
			total := paid * worth(s.build, float64(year))
			// Unused life is worth what was paid in this year's prices.
			total -= paid * math.Pow(1+s.build, float64(year)) * math.Pow(1+s.rate, -float64(s.period)) * life.unused(rest)
			for k := 1; k <= rest; k++ {
				alive := life.survives(float64(k - 1))
				total += alive * s.annual * math.Pow(1+s.age, float64(k-1)) * worth(s.upkeep, float64(year+k))
				if k == rest {
					break // at the end of the period nothing is made
				}
				next := from[year+k][(made+1)%(s.recoats+1)]
				if made == s.recoats {
					next += s.left * worth(s.build, float64(year+k))
				}
				total += life.endsIn(k) * next
			}
			from[year][made] = total
		}
	}
	return from[0][0]
}

// study makes the same as a study.
func (s *series) study(life, recoatLife lcc.Input) *lcc.Study {
	b := newBuilder(s.period)
	y := b.s
	number := func(unit lcc.Unit, x float64) lcc.Ref { return y.Add(lcc.Input{Unit: unit, Likely: decOf(x)}) }
	y.Rate, y.Area = number(lcc.Rate, s.rate), number(lcc.Area, 1)
	y.Escalation[lcc.Construction] = lcc.Series{number(lcc.Rate, s.build)}
	y.Escalation[lcc.Maintenance] = lcc.Series{number(lcc.Rate, s.upkeep)}
	y.Escalation[lcc.Disposal] = y.Escalation[lcc.Construction]
	system := lcc.System{Key: "roof", Life: y.Add(life), Then: 0,
		First:   b.item(number(lcc.Money, s.price), lcc.NoRef, lcc.Construction),
		Annual:  b.item(number(lcc.Money, s.annual), lcc.NoRef, lcc.Maintenance),
		Removal: b.item(number(lcc.Money, s.left), lcc.NoRef, lcc.Disposal)}
	system.Annual[0].Growth = number(lcc.Rate, s.age)
	if s.recoats > 0 {
		system.Recoat = &lcc.Recoating{AtMost: s.recoats, Life: y.Add(recoatLife),
			Costs: b.item(number(lcc.Money, s.recoat), lcc.NoRef, lcc.Construction)}
	}
	y.Systems = []lcc.System{system}
	y.Alternatives = []lcc.Alternative{{Name: "Roof"}}
	return y
}

func TestMeanOfRandomLivesIsARenewalRecursion(t *testing.T) {
	for _, c := range []struct {
		name                       string
		mean, shape                string
		recoatMean, recoatShape    string
		recoats                    int
		annual, age, removal, rate float64
	}{
		{name: "replacements and residual value", mean: "8", shape: "2.5", rate: 0.03},
		{name: "infant mortality", mean: "5", shape: "0.8", rate: 0.04},
		{name: "no discounting", mean: "11.5", shape: "5", rate: 0},
		{name: "running costs that grow with age", mean: "9", shape: "3", annual: 40, age: 0.08, removal: 150, rate: 0.05},
		{name: "two recoats", mean: "7", shape: "3", recoatMean: "5.5", recoatShape: "2", recoats: 2, annual: 30, removal: -80, rate: 0.03},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			life := estimate{shape: lcc.Weibull, likely: c.mean, spread: c.shape}.input(lcc.Years)
			s := series{period: 40, rate: c.rate, build: 0.01, upkeep: 0.02, price: 1000, annual: c.annual, age: c.age, left: c.removal,
				life: newWeibullLaw(life.Likely.InexactFloat64(), life.Spread.InexactFloat64())}
			var recoatLife lcc.Input
			if c.recoats > 0 {
				recoatLife = estimate{shape: lcc.Weibull, likely: c.recoatMean, spread: c.recoatShape}.input(lcc.Years)
				s.recoats, s.recoat = c.recoats, 400
				s.recoatLife = newWeibullLaw(recoatLife.Likely.InexactFloat64(), recoatLife.Spread.InexactFloat64())
			}
			const n = 60_000
			drawn, err := simulate(s.study(life, recoatLife), Options{Trials: n, Seed: 12})
			require.NoError(t, err)
			mean, sd := stat.MeanStdDev(drawn.costs[0], nil)
			want := s.expected()
			z := (mean - want) / (sd / math.Sqrt(n))
			t.Logf("mean %.3f for %.3f, %.1f standard errors off", mean, want, z)
			assert.Less(t, math.Abs(z), 4.0, "mean %v for %v", mean, want)
		})
	}
}

// Chances that something is renewed in year t are u(t) = Σ P(⌈life⌉ = k)
// u(t−k), u(0) = 1 (Feller, An Introduction to Probability Theory and Its
// Applications, recurrent events; from memory). Here replacements alone cost,
// one unit each, so that the mean cost counts them.
func TestMeanCountsRenewals(t *testing.T) {
	t.Parallel()
	law := newWeibullLaw(6, 2)
	u := []float64{1}
	want := 1.0
	for year := 1; year < 30; year++ {
		chance := 0.0
		for k := 1; k <= year; k++ {
			chance += law.endsIn(k) * u[year-k]
		}
		u = append(u, chance)
		want += chance
	}
	s := series{period: 30, price: 1}
	y := s.study(estimate{shape: lcc.Weibull, likely: "6", spread: "2"}.input(lcc.Years), lcc.Input{})
	y.Systems[0].Residual.Mode = lcc.NoResidual
	const n = 60_000
	drawn, err := simulate(y, Options{Trials: n, Seed: 13})
	require.NoError(t, err)
	mean, sd := stat.MeanStdDev(drawn.costs[0], nil)
	t.Logf("%.4f installations for %.4f, %.1f standard errors off", mean, want, (mean-want)/(sd/math.Sqrt(n)))
	assert.InDelta(t, want, mean, 4*sd/math.Sqrt(n))
}
