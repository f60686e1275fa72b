package cooling

import (
	"errors"

	"github.com/shopspring/decimal"
)

// SolAirHour is an hour outside a roof, all numbers in one system of units:
// W/m², W/(m²·K) and K or °C, or Btu/(h·ft²), Btu/(h·ft²·°F) and °F.
type SolAirHour struct {
	Air         decimal.Decimal // outside air temperature
	Absorptance decimal.Decimal // 0 to 1
	Sun         decimal.Decimal // total solar irradiance on the surface, 0 or more
	Emittance   decimal.Decimal // 0 to 1; 0 leaves out the radiation to the sky
	SkyLoss     decimal.Decimal // long-wave radiation lost beyond air temperature, at emittance 1; 0 for a wall, Units.SkyLoss for a horizontal roof
	Film        decimal.Decimal // outside film coefficient, over 0
}

// SolAir is the outside air temperature that without sun and sky would drive
// as much heat into the surface: to + α·I/ho − ε·ΔR/ho [ASHRAE]. It is in the
// scale of Air.
func SolAir(h SolAirHour) (decimal.Decimal, error) {
	far := decimal.New(1, 6) // far beyond every roof; keeps numbers in hand
	err := errors.Join(
		limits{far.Neg(), far, false}.check("air temperature", h.Air, ""),
		fraction.check("absorptance", h.Absorptance, ""),
		upTo(far).check("solar irradiance", h.Sun, ""),
		fraction.check("emittance", h.Emittance, ""),
		limits{far.Neg(), far, false}.check("long-wave loss", h.SkyLoss, ""),
		overZero(far).check("film coefficient", h.Film, ""),
	)
	if err != nil {
		return decimal.Zero, err
	}
	gained := h.Absorptance.Mul(h.Sun).Sub(h.Emittance.Mul(h.SkyLoss))
	return h.Air.Add(quo(gained, h.Film)), nil
}
