package eligibility

import (
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// Check tells everything about the findings that no roof can be. Without an
// error, [Judge] may be asked.
func (f Findings) Check() error {
	rust, _ := f.Rust.Get()
	return errors.Join(
		count("coverings", f.Coverings),
		share("wet share", f.WetShare),
		share("ponding", f.Ponding),
		shareOf("wet limit", f.WetLimit.Share),
		shareOf("light rust", rust.Light),
		shareOf("scaled rust", rust.Scaled),
		shareOf("perforated", rust.Perforated),
		shareOf("all rust together", rust.Light.Add(rust.Scaled).Add(rust.Perforated)),
		f.checkReserve(),
		f.checkTests(),
		word("covering", f.Covering, coveringNames),
		word("surface", f.Surface, surfaceNames),
		word("existing coating", f.ExistingCoating, chemistryNames),
		word("moisture survey", f.WetFoundBy, methodNames),
		word("deck", f.Deck, deckNames),
		word("seismic category", f.Seismic, seismicNames),
		word("code", f.Code, codeNames),
		word("energy code", f.EnergyCode, energyCodeNames),
		word("asbestos", f.Asbestos, asbestosNames),
	)
}

// Check tells everything about the option that cannot be.
func (o Option) Check() error {
	var errs []error
	if _, known := workNames[o.Work]; o.Work != "" && !known {
		errs = append(errs, fmt.Errorf("work %q: not one of the kinds of work", string(o.Work)))
	}
	if coating, known := o.Coating.Get(); known && coating == Uncoated {
		errs = append(errs, fmt.Errorf("planned coating %q: a coating has a chemistry", string(coating)))
	}
	if i, _ := o.Insulation.Get(); i.Priced && i.Waived != "" {
		errs = append(errs, errors.New("insulation: both priced and waived"))
	}
	return errors.Join(append(errs, share("share", o.Share), word("planned coating", o.Coating, chemistryNames))...)
}

func count(name string, k Known[int]) error {
	if n, _ := k.Get(); n < 0 {
		return fmt.Errorf("%s %d: a number from 0", name, n)
	}
	return nil
}

func share(name string, k Known[decimal.Decimal]) error {
	d, _ := k.Get()
	return shareOf(name, d)
}

func shareOf(name string, d decimal.Decimal) error {
	if d.IsNegative() || d.GreaterThan(decimal.NewFromInt(1)) {
		return fmt.Errorf("%s %s: a share from 0 to 1", name, d)
	}
	return nil
}

// checkReserve refuses a negative reserve: a structure that is overloaded as it
// is has none, and its deck or frame is not sound.
func (f Findings) checkReserve() error {
	if d, _ := f.Reserve.Get(); d.IsNegative() {
		return fmt.Errorf("reserve %s: a load from 0", d)
	}
	return nil
}

func (f Findings) checkTests() error {
	tests, _ := f.Adhesion.Get()
	var errs []error
	for _, t := range tests {
		if _, known := chemistryNames[t.Coating]; !known || t.Coating == Uncoated {
			errs = append(errs, fmt.Errorf("adhesion test of %q: not a coating", string(t.Coating)))
		}
		if t.Least.IsNegative() {
			errs = append(errs, fmt.Errorf("adhesion test with %s: a force from 0", t.Least))
		}
		if t.Places < 1 {
			errs = append(errs, fmt.Errorf("adhesion test in %d places: a number from 1", t.Places))
		}
	}
	return errors.Join(errs...)
}

// word refuses a word that names nothing.
func word[T ~string](name string, k Known[T], names map[T]string) error {
	w, known := k.Get()
	if _, named := names[w]; known && !named {
		return fmt.Errorf("%s %q: not a word known here", name, string(w))
	}
	return nil
}
