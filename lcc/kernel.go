package lcc

import (
	"fmt"
	"math"

	"github.com/shopspring/decimal"
)

// Kernel evaluates a study at vectors of float64, over the same walk as the
// ledger and without allocation: for sweeps, simulation and portfolios.
//
// LCC gives unrounded life-cycle costs. Cents gives what the ledger gives, to
// the minor unit, and says whether it can vouch for that: it rounds every
// line as the ledger does and declines when an unrounded line lies closer to
// half a unit than its own error may reach. Whoever shows a cent then asks the
// ledger (Study.EvaluateAt).
//
// A Kernel is for one goroutine; make one for each.
type Kernel struct {
	study   *Study
	v       []float64
	derived []derivation
	feeds   []bool    // by input: something is derived from it
	whole   []int     // lives in whole years, by slot
	life    []float64 // lives, by slot
	// Per half year, as in the exact factors; odd times with mid-year timing.
	discount []float64
	escalate [NumCategories][]float64
	used     [NumCategories]bool // categories that some item has
	// What one unit of currency at base-date prices, escalated to a time and
	// paid then, is worth in minor units; and the relative error of such a line.
	present [NumCategories][]float64
	errors  []float64
	minor   float64 // minor units in a unit of currency: 100 for cents
	// For unrounded life-cycle costs.
	plan    *plan
	shares  bool      // the plan is another kernel's, which makes its tables
	amounts []float64 // of bundles, at the loaded vector
	walk    Walk
	count   []int // lives asked in the chain at hand, by slot
	// What the vector has left behind; of the plan's tables, plan.stale tells.
	stale struct{ amounts, cents bool }
}

// NewKernel compiles a study that passes Check. Load a vector before asking.
func (s *Study) NewKernel() *Kernel {
	k := &Kernel{
		study: s,
		v:     make([]float64, len(s.Inputs)),
		whole: make([]int, 2*len(s.Systems)),
		life:  make([]float64, 2*len(s.Systems)),
		minor: math.Pow10(int(s.About.Digits)),
	}
	size := 2*s.Period + 1
	k.discount = make([]float64, size)
	for c := range k.escalate {
		k.escalate[c], k.present[c] = make([]float64, size), make([]float64, size)
	}
	for at := range size {
		k.errors = append(k.errors, lineError(Time(at)))
	}
	k.used[Construction] = true // residual amounts escalate as construction
	for i := range s.Systems {
		y := &s.Systems[i]
		for _, items := range [][]Item{y.First, y.Annual, y.Periodic, y.Removal, y.recoatCosts()} {
			for j := range items {
				k.used[items[j].Category] = true
			}
		}
	}
	k.plan = newPlan(s)
	k.amounts = make([]float64, k.plan.bundles)
	k.derived = newDerivations(s)
	k.feeds = make([]bool, len(s.Inputs))
	for i := range k.feeds {
		k.feeds[i] = s.feeds(Ref(i))
	}
	k.count = make([]int, 2*len(s.Systems))
	return k
}

func (y *System) recoatCosts() []Item {
	if y.Recoat == nil {
		return nil
	}
	return y.Recoat.Costs
}

// Load sets the vector, one value for each of Study.Inputs in its order. It
// fails when a rate or a life is out of its range, as EvaluateAt does.
func (k *Kernel) Load(v []float64) error {
	if len(v) != len(k.v) {
		return fmt.Errorf("the vector has %d values for %d inputs", len(v), len(k.v))
	}
	copy(k.v, v)
	k.rederive()
	if err := k.loaded(); err != nil {
		return err
	}
	return k.checkWaits()
}

// loaded checks a vector that was copied in, but for waits, and makes what
// depends on it.
func (k *Kernel) loaded() error {
	if err := k.checkRates(); err != nil {
		return err
	}
	k.setLives()
	if err := k.checkLives(); err != nil {
		return err
	}
	k.outdate()
	return nil
}

// refreshCents makes the tables that rounded lines need.
func (k *Kernel) refreshCents() {
	if k.stale.cents {
		k.fillDiscount()
		k.fillEscalation()
		k.fillPresent()
		k.stale.cents = false
	}
}

// LoadExact sets a vector of decimals; it fails where EvaluateAt does. A life that float64 would carry over
// a whole number is nudged back, so that events fall in the years of the
// ledger.
func (k *Kernel) LoadExact(v Vector) error {
	v, err := k.study.filled(v)
	if err != nil {
		return err
	}
	if err := k.study.checkVector(v); err != nil {
		return err
	}
	if err := k.study.checkWaits(v); err != nil {
		return err
	}
	return k.take(v)
}

// take loads a vector that is in range, with all that follows from it; waits
// may be longer than lives.
func (k *Kernel) take(v Vector) error {
	for i := range v {
		k.v[i] = v[i].InexactFloat64()
		if k.study.Inputs[i].Unit == Years {
			k.v[i] = nearWhole(v[i], k.v[i])
		}
	}
	return k.loaded()
}

// nearWhole gives the float64 next to a life that rounds up to the same year.
func nearWhole(exact decimal.Decimal, f float64) float64 {
	up := exact.Ceil().InexactFloat64()
	if f > up {
		return up
	}
	if math.Ceil(f) < up {
		return math.Nextafter(f, math.Inf(1))
	}
	return f
}

// Feeds tells whether something is derived from an input.
func (k *Kernel) Feeds(r Ref) bool { return k.feeds[r] }

// Set changes one input of the loaded vector, within its range: a rate over
// −50 %, a life over 0, which is not checked. It is cheaper than Load, and
// cheapest for an input that no factor table depends on.
func (k *Kernel) Set(r Ref, value float64) {
	k.put(r, value)
	if k.feeds[r] {
		k.rederive()
	}
}

// SetRate changes the discount rate of the loaded vector, a fraction: cheaper
// than Load. It fails when the rate is outside MinRate to MaxRate, and changes
// nothing then.
func (k *Kernel) SetRate(rate float64) error {
	if !rateInRange(rate) {
		return fmt.Errorf("discount rate %v is outside the range from over -50%% to 1000%%", rate)
	}
	k.v[k.study.Rate] = rate
	k.outdateRates()
	return nil
}

func rateInRange(r float64) bool { return r > -0.5 && r <= 10 }

func lifeInRange(life float64) bool { return life > 0 && life <= longestLife }

func (k *Kernel) checkRates() error {
	for i := range k.study.Inputs {
		if k.study.Inputs[i].Unit == Rate && !rateInRange(k.v[i]) {
			return fmt.Errorf("%s: rate %v is outside the range from over -50%% to 1000%%", k.study.Inputs[i].Path, k.v[i])
		}
	}
	return nil
}

func (k *Kernel) setLives() {
	for i := range k.study.Systems {
		y := &k.study.Systems[i]
		k.setLife(2*i, k.v[y.Life])
		if y.Recoat != nil {
			k.setLife(2*i+1, k.v[y.Recoat.Life])
		}
	}
}

func (k *Kernel) setLife(slot int, life float64) {
	k.life[slot] = life
	k.whole[slot] = int(math.Ceil(math.Min(life, MaxPeriod+1)))
}

func (k *Kernel) checkLives() error {
	for i := range k.study.Systems {
		y := &k.study.Systems[i]
		if !lifeInRange(k.life[2*i]) || y.Recoat != nil && !lifeInRange(k.life[2*i+1]) {
			return fmt.Errorf("systems.%s: a service life is outside the range from over 0 to %s years", y.Key, MaxLife)
		}
	}
	return nil
}

func (k *Kernel) checkWaits() error {
	for _, a := range k.study.Alternatives {
		if w := a.Wait; w != nil && float64(w.Years) > k.life[2*w.On] {
			return fmt.Errorf("alternative %q waits %d years on %q, which lasts %v", a.Name, w.Years, k.study.Systems[w.On].Key, k.life[2*w.On])
		}
	}
	return nil
}

func (k *Kernel) fillDiscount() {
	k.fill(k.discount, func(int) float64 { return 1 / (1 + k.v[k.study.Rate]) })
}

func (k *Kernel) fillEscalation() {
	s := k.study
	for c := range k.escalate {
		if !k.used[c] {
			continue
		}
		series := s.Escalation[c]
		switch {
		case len(series) > 1:
			k.fill(k.escalate[c], func(year int) float64 { return 1 + k.v[series[year-1]] })
		case len(series) == 1:
			step := 1 + k.v[series[0]]
			k.fill(k.escalate[c], func(int) float64 { return step })
		case s.Basis == Nominal:
			step := 1 + k.v[s.Inflation]
			k.fill(k.escalate[c], func(int) float64 { return step })
		default:
			k.fill(k.escalate[c], func(int) float64 { return 1 })
		}
	}
}

func (k *Kernel) fillPresent() {
	for c, present := range k.present {
		if k.used[c] {
			for at := range present {
				present[at] = k.escalate[c][at] * k.discount[at] * k.minor
			}
		}
	}
}

// fill compounds yearly steps into a table by half year.
func (k *Kernel) fill(table []float64, step func(year int) float64) {
	table[0] = 1
	half := k.study.Timing == MidYear
	for year := 1; year <= k.study.Period; year++ {
		f := step(year)
		if half {
			table[2*year-1] = table[2*year-2] * math.Sqrt(f)
		}
		table[2*year] = table[2*year-2] * f
	}
}
