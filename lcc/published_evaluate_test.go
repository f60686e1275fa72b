package lcc

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// evaluate does a study, by the ledger in its own digits, by the ledger in
// cents and by the kernel, and fails when they differ by more than the
// rounding of their lines.
func (set *publishedSet) evaluate(name string, p publishedStudy) error {
	s, err := p.build()
	if err != nil {
		return fmt.Errorf("%q: %w", name, err)
	}
	r, err := s.Evaluate()
	if err != nil {
		return fmt.Errorf("%q: %w", name, err)
	}
	inCents := *s
	inCents.About.Digits = 2
	c, err := inCents.Evaluate()
	if err != nil {
		return fmt.Errorf("%q in cents: %w", name, err)
	}
	for _, of := range []*Result{r, c} {
		if err := agreesWithKernel(of); err != nil {
			return fmt.Errorf("%q: %w", name, err)
		}
	}
	for i := range r.Alternatives {
		a, b := &r.Alternatives[i], &c.Alternatives[i]
		if off := a.LCC.Sub(b.LCC).Abs(); off.GreaterThan(roundingOf(b, 2).Add(roundingOf(a, s.About.Digits))) {
			return fmt.Errorf("%q, %s: %s in cents, %s in %d digits", name, a.Alternative.Name, b.LCC, a.LCC, s.About.Digits)
		}
	}
	set.results[name] = r
	return nil
}

// roundingOf is half a minor unit a line.
func roundingOf(o *Outcome, digits int32) decimal.Decimal {
	return decimal.New(5, -digits-1).Mul(decimal.NewFromInt(int64(len(o.Ledger))))
}

// agreesWithKernel holds the ledger against the kernel: within the rounding of
// the lines, and to the minor unit where the kernel vouches for it.
func agreesWithKernel(r *Result) error {
	k := r.Study.NewKernel()
	if err := k.LoadExact(r.Inputs); err != nil {
		return err
	}
	digits := r.Study.About.Digits
	for i := range r.Alternatives {
		o := &r.Alternatives[i]
		sum := decimal.Zero
		for _, line := range o.Ledger {
			sum = sum.Add(line.PV.Abs())
		}
		noise := sum.Mul(dec("1e-12")) // of float64
		kernel := decimal.NewFromFloat(k.LCC(i))
		if off := kernel.Sub(o.LCC).Abs(); off.GreaterThan(roundingOf(o, digits).Add(noise)) {
			return fmt.Errorf("%s: the kernel gives %s, the ledger %s", o.Alternative.Name, kernel, o.LCC)
		}
		if minor, certified := k.Cents(i); certified && !decimal.New(minor, -digits).Equal(o.LCC) {
			return fmt.Errorf("%s: the kernel vouches for %s, the ledger has %s", o.Alternative.Name, decimal.New(minor, -digits), o.LCC)
		}
	}
	return nil
}
