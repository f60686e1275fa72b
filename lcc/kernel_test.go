package lcc

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// kernelAt is a kernel with a vector of decimals.
func kernelAt(t fatal, s *Study, v Vector) *Kernel {
	k := s.NewKernel()
	if err := k.LoadExact(v); err != nil {
		t.Fatalf("a vector that the ledger takes is not taken: %v", err)
	}
	return k
}

// vouchesFor compares the kernel with a ledger: a certified number is the
// ledger's to the minor unit, and any other is near it. It counts the
// certified ones.
func vouchesFor(t fatal, r *Result) (certified, all int) {
	s := r.Study
	k := kernelAt(t, s, r.Inputs)
	for i, a := range r.Alternatives {
		minor, sure := k.Cents(i)
		exact := a.LCC.Shift(s.About.Digits)
		gap := exact.Sub(decimal.NewFromInt(minor)).Abs()
		lines := int64(len(a.Ledger))
		if sure && !gap.IsZero() {
			t.Fatalf("alternative %d: certified %d minor units, the ledger says %s", i, minor, exact)
		}
		if gap.GreaterThan(decimal.NewFromInt(lines)) {
			t.Fatalf("alternative %d: %d minor units, the ledger says %s in %d lines", i, minor, exact, lines)
		}
		unrounded := k.LCC(i) * math.Pow10(int(s.About.Digits))
		if off := math.Abs(unrounded - exact.InexactFloat64()); !(off <= float64(lines)) {
			t.Fatalf("alternative %d: %v minor units unrounded, the ledger says %s in %d lines", i, unrounded, exact, lines)
		}
		all++
		if sure {
			certified++
		}
	}
	return certified, all
}

func TestWhatTheKernelCertifiesIsTheLedgersCent(t *testing.T) {
	checkStudies(t, 10, func(t *rapid.T, s *Study) { vouchesFor(t, evaluated(t, s)) })
}

// Prices of no more digits than a price list has are nearly always certified:
// the kernel may decline, but a kernel that always declines is of no use.
func TestMostOrdinaryStudiesAreCertified(t *testing.T) {
	certified, all := certifiedShare(t, 400)
	assert.Greater(t, all, 400)
	assert.Greater(t, float64(certified)/float64(all), 0.95)
}

// certifiedShare counts what is certified among variations of an ordinary study.
func certifiedShare(t fatal, studies int) (certified, all int) {
	d := &tape{state: 7, endless: true}
	for range studies {
		b := restoreOrTearOff()
		b.s.Inputs[b.s.Rate].Likely = decimal.New(int64(d.upTo(1200)), -4)
		for i := range b.s.Inputs {
			if in := &b.s.Inputs[i]; in.Unit == Money { // unit prices in cents
				in.Likely = in.Likely.Add(decimal.New(int64(d.upTo(300)), -2))
			}
		}
		c, n := vouchesFor(t, b.evaluate())
		certified, all = certified+c, all+n
	}
	return certified, all
}

// The kernel walks the chain of the ledger, with lives that float64 cannot
// hold too.
func TestKernelAndLedgerWalkTheSameChain(t *testing.T) {
	checkStudies(t, 3, func(t *rapid.T, s *Study) {
		r := evaluated(t, s)
		k := kernelAt(t, s, r.Inputs)
		for i, a := range r.Alternatives {
			var spells []Spell
			for w := s.Walk(i); ; {
				slot, more := w.Slot()
				if !more {
					break
				}
				spells = append(spells, *w.Next(k.whole[slot]))
			}
			if !assert.ObjectsAreEqual(a.Spells, spells) {
				t.Fatalf("alternative %d: the ledger walks %+v, the kernel %+v", i, a.Spells, spells)
			}
		}
	})
}

// Lives a hair beside whole years: the year of an intervention is the
// ledger's, though float64 does not see the hair.
func TestLivesAHairBesideWholeYears(t *testing.T) {
	for _, life := range []string{
		"8", "8.000000000000000000001", "7.999999999999999999999", "0.000000000000000000001",
		"16.00000000000000000000000001", "1.00000000000000000000000001", "0.3", "19.999999999999999999",
	} {
		b := newStudy(20, "0.03")
		y := b.system("roof", life, func(y *System) { y.First = []Item{b.item("100000.37")} })
		b.alternative("roof", y, nil)
		certified, all := vouchesFor(t, b.evaluate())
		assert.Equal(t, all, certified, "a life of %s", life)
	}
}

// A new discount rate gives what a new vector gives.
func TestSettingTheRateIsLoadingIt(t *testing.T) {
	checkChoices(t, 2, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		r := evaluated(t, s)
		rate := decimal.New(int64(d.upTo(2500)-500), -4)
		other := kernelAt(t, s, r.withRate(rate))
		k := kernelAt(t, s, r.Inputs)
		if err := k.SetRate(rate.InexactFloat64()); err != nil {
			t.Fatalf("%v", err)
		}
		for i := range s.Alternatives {
			a, sureA := k.Cents(i)
			b, sureB := other.Cents(i)
			if a != b || sureA != sureB || k.LCC(i) != other.LCC(i) {
				t.Fatalf("alternative %d: %d after setting the rate, %d after loading it", i, a, b)
			}
		}
	})
}

// halfCentStudy costs one amount, half a cent beyond a whole one, undiscounted.
func halfCentStudy(amount string) *Study {
	b := newStudy(5, "0")
	y := b.system("roof", "9", func(y *System) {
		y.First = []Item{b.item(amount).as(Fees)}
	})
	b.alternative("roof", y, nil)
	return b.s
}

// Half a cent is where float64 cannot vouch for the side; certification says no.
func TestHalfACentIsNotCertified(t *testing.T) {
	for _, amount := range []string{"0.125", "10.125", "-10.125", "1234567.895", "0.1250000000000000000001", "0.1249999999999999999999"} {
		s := halfCentStudy(amount)
		_, certified := kernelAt(t, s, s.Likely()).Cents(0)
		assert.False(t, certified, "%s is on a half, or nearer to it than float64 tells", amount)
	}
}

// A little beside the half the kernel is sure, and right.
func TestNearHalfACentIsCertified(t *testing.T) {
	for amount, want := range map[string]int64{
		"0.125001": 13, "0.124999": 12, "-0.125001": -13, "-0.124999": -12, "10.13": 1013, "0": 0,
	} {
		s := halfCentStudy(amount)
		got, certified := kernelAt(t, s, s.Likely()).Cents(0)
		assert.True(t, certified, amount)
		assert.Equal(t, want, got, amount)
	}
}

// Amounts of so many minor units that float64 has no halves of them are
// never certified.
func TestAmountsBeyondFloat64AreNotCertified(t *testing.T) {
	for _, amount := range []string{"20000000000000", "-20000000000000", "1e30", "1e305", "1e310"} {
		s := halfCentStudy(amount)
		_, certified := kernelAt(t, s, s.Likely()).Cents(0)
		assert.False(t, certified, amount)
	}
}

// Discounted halves: 10.125 × 1.03^t in year t is worth 10.125 on the dot.
func TestAHalfCentAfterDiscountingIsNotCertified(t *testing.T) {
	price := dec("10.125")
	for year := 1; year <= 30; year++ {
		price = price.Mul(dec("1.03"))
		b := newStudy(40, "0.03")
		y := b.system("roof", decimal.NewFromInt(int64(year)).String(), func(y *System) {
			y.InPlace = true
			y.Removal = []Item{b.item(price.String()).as(Fees)}
			y.Then = 1
		})
		b.system("nothing", "300", nil)
		b.alternative("roof", y, nil)
		_, certified := kernelAt(t, b.s, b.s.Likely()).Cents(0)
		assert.False(t, certified, "in year %d", year)
	}
}

func TestTheKernelDoesNotAllocate(t *testing.T) {
	studies := map[string]*Study{"restore or tear off": restoreOrTearOff().s}
	for seed := range 20 {
		studies["random"+string(rune('a'+seed))] = randomStudy(&tape{state: uint64(seed), endless: true})
	}
	for name, s := range studies {
		k := kernelAt(t, s, s.Likely())
		v := append([]float64(nil), k.v...)
		var sum float64
		each := func(what string, f func(alternative int)) {
			for i := range s.Alternatives {
				assert.Zero(t, testing.AllocsPerRun(10, func() { f(i) }), "%s: %s", name, what)
			}
		}
		each("LCC", func(i int) { sum += k.LCC(i) })
		each("Cents", func(i int) { minor, _ := k.Cents(i); sum += float64(minor) })
		each("SetRate", func(int) { _ = k.SetRate(0.041) })
		each("Load", func(int) { _ = k.Load(v) })
		assert.False(t, math.IsNaN(sum), name)
	}
}

func TestTheKernelRefusesWhatTheLedgerRefuses(t *testing.T) {
	b := restoreOrTearOff()
	b.s.Alternatives[0].Wait = &Wait{On: 1, Years: 5}
	life := b.s.Systems[1].Life
	for name, spoil := range map[string]func(Vector) Vector{
		"a vector too short":       func(v Vector) Vector { return v[1:] },
		"a rate too low":           func(v Vector) Vector { v[b.s.Rate] = dec("-0.5"); return v },
		"a rate too high":          func(v Vector) Vector { v[b.s.Rate] = dec("10.01"); return v },
		"a life of nothing":        func(v Vector) Vector { v[life] = decimal.Zero; return v },
		"a negative life":          func(v Vector) Vector { v[life] = dec("-1"); return v },
		"a wait over a life":       func(v Vector) Vector { v[life] = dec("4.5"); return v },
		"a wait a hair too long":   func(v Vector) Vector { v[life] = dec("4.999999999"); return v },
		"a rate of escalation low": func(v Vector) Vector { v[b.s.Escalation[Construction][0]] = dec("-0.7"); return v },
	} {
		v := spoil(b.s.Likely())
		r, err := b.s.EvaluateAt(v)
		assert.Error(t, err, name)
		assert.Nil(t, r, name)
		assert.Error(t, b.s.NewKernel().LoadExact(v), name)
	}
	_, err := b.s.Evaluate()
	require.NoError(t, err)
	k := kernelAt(t, b.s, b.s.Likely())
	before := k.LCC(0)
	for _, rate := range []float64{-0.5, -1, 10.5, math.NaN(), math.Inf(1)} {
		assert.Error(t, k.SetRate(rate), "%v", rate)
	}
	assert.Equal(t, before, k.LCC(0), "a rate that was refused is not in use")
}

// The curve of life-cycle costs over rates is the ledger's, cent by cent.
func TestRateCurveIsTheLedgerAtEachRate(t *testing.T) {
	checkChoices(t, 1, func(t *rapid.T, d dice) {
		s := randomStudy(d)
		r := evaluated(t, s)
		step := decimal.New(int64(13+d.upTo(40)), -3)
		curve, err := r.RateCurve(step)
		if err != nil {
			t.Fatalf("%v", err)
		}
		rate := r.RateRange[0]
		for _, point := range curve {
			if !point.Rate.Equal(rate) {
				t.Fatalf("a point at %s, expected at %s", point.Rate, rate)
			}
			exact, err := s.EvaluateAt(r.withRate(rate))
			if err != nil {
				t.Fatalf("%v", err)
			}
			for i, a := range exact.Alternatives {
				if !point.LCC[i].Equal(a.LCC) {
					t.Fatalf("alternative %d at %s: %s, the ledger says %s", i, rate, point.LCC[i], a.LCC)
				}
			}
			rate = rate.Add(step)
		}
		if rate.LessThanOrEqual(r.RateRange[1]) {
			t.Fatalf("the curve ends before %s of %s", rate, r.RateRange[1])
		}
	})
}

// Where float64 falls on the wrong side of half a cent, the curve asks the
// ledger: 1.005 × 100 is under 100.5 in float64.
func TestRateCurveAsksTheLedgerForHalfACent(t *testing.T) {
	s := halfCentStudy("1.005")
	minor, certified := kernelAt(t, s, s.Likely()).Cents(0)
	assert.Equal(t, int64(100), minor)
	assert.False(t, certified)
	curve, err := evaluated(t, s).RateCurve(dec("0.01"))
	require.NoError(t, err)
	require.Len(t, curve, 13)
	for _, point := range curve { // a first cost is worth the same at any rate
		assert.Equal(t, "1.01", point.LCC[0].String(), "at %s", point.Rate)
	}
}
