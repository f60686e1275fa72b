package scenarios

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/coating"
	"roofyears/scenarios/eligibility"
	"roofyears/scenarios/units"
)

// dryDensity is what a litre of dry roof coating weighs in kilograms: the
// upper end of 1.2 to 1.4, which is usual (common practice).
var dryDensity = decimal.New(14, -1)

// loadPlaces is how many decimals a load in psf or kN/m2 keeps.
const loadPlaces = 4

// withFilmLoad adds, where the file states none, the load that the coats of a
// take-off put on the roof: on the plan area, and so more than on the surface
// along the profile.
func (r *reader) withFilmLoad(o eligibility.Option, system int) eligibility.Option {
	films := r.takeOff.films(system)
	if o.AddedLoad.IsKnown() || len(films) == 0 || r.failed() {
		return o
	}
	v := r.study.Likely()
	coated, area := r.quantities[keyCoated], v[r.study.Area]
	if coated == nil || coated.ref == lcc.NoRef || !area.IsPositive() {
		return o
	}
	sum := decimal.Zero
	for _, f := range films {
		sum = sum.Add(v[f])
	}
	dry := units.Of(sum, units.Unit(r.own(units.Films)))
	load, err := coating.AddedLoad(dry, units.Of(dryDensity, units.KilogramPerLitre), units.Unit(r.own(units.Loads)))
	if err != nil {
		return o // no film
	}
	onPlan := load.Number.Mul(units.Quotient(v[coated.ref], area)).Round(loadPlaces)
	o.AddedLoad = eligibility.Found(onPlan, fmt.Sprintf("computed from the take-off: %s %s of dry film at 1.4 kg/L, the upper end of what is usual (common practice)", sum, r.own(units.Films)))
	return o
}
