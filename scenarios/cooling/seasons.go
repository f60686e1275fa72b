package cooling

import (
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// Period is a part of the year, such as a month.
type Period struct {
	Sun               decimal.Decimal // solar irradiation on the roof, kWh/m² or Btu/ft², 0 or more
	CoolingDegreeDays decimal.Decimal // K·d or °F·d, 0 or more
	HeatingDegreeDays decimal.Decimal // in the same unit
}

// Seasons is the solar irradiation of a year by what the building calls for,
// in the unit of its periods.
type Seasons struct {
	Cooling decimal.Decimal // while cooling is called for
	Heating decimal.Decimal // while heating is called for
	// LeastCooling and MostCooling bound Cooling whatever the rule: the sun of
	// the periods with cooling degree-days alone, and of those with any. The
	// rest of Cooling + Heating bounds Heating. They are equal where every
	// period is of one kind.
	LeastCooling, MostCooling decimal.Decimal
}

// Split bounds the seasons by degree-days: a period's irradiation counts to
// cooling and heating in the proportion of its degree-days, and to neither
// where it has none. The rule is this project's own, without a published
// source. It leaves out that the sun shines in the warmer hours, so in mixed
// periods it counts too little cooling and too much heating: cautious for a
// cool roof. Degree-days should be to the building's own balance
// temperatures; a building with much heat from people and equipment calls for
// cooling below the usual 65 °F. The finer the periods, the better.
func Split(periods []Period) (Seasons, error) {
	var s Seasons
	var problems []error
	for i, p := range periods {
		if err := p.check(); err != nil {
			problems = append(problems, fmt.Errorf("period %d: %w", i+1, err))
			continue
		}
		days := p.CoolingDegreeDays.Add(p.HeatingDegreeDays)
		if days.IsZero() {
			continue
		}
		cooling := quo(p.Sun.Mul(p.CoolingDegreeDays), days)
		s.Cooling = s.Cooling.Add(cooling)
		s.Heating = s.Heating.Add(p.Sun.Sub(cooling))
		if p.CoolingDegreeDays.IsPositive() {
			s.MostCooling = s.MostCooling.Add(p.Sun)
		}
		if p.HeatingDegreeDays.IsZero() {
			s.LeastCooling = s.LeastCooling.Add(p.Sun)
		}
	}
	if err := errors.Join(problems...); err != nil {
		return Seasons{}, err
	}
	return s, nil
}

func (p Period) check() error {
	most := decimal.New(1, 9)
	return errors.Join(
		upTo(most).check("solar irradiation", p.Sun, ""),
		upTo(most).check("cooling degree-days", p.CoolingDegreeDays, ""),
		upTo(most).check("heating degree-days", p.HeatingDegreeDays, ""),
	)
}
