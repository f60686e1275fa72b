package cooling

import (
	"errors"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// solAirHour is an hour outside a roof, all numbers in one system of units:
// W/m², W/(m²·K) and K or °C, or Btu/(h·ft²), Btu/(h·ft²·°F) and °F.
type solAirHour struct {
	Air         decimal.Decimal // outside air temperature
	Absorptance decimal.Decimal // 0 to 1
	Sun         decimal.Decimal // total solar irradiance on the surface, 0 or more
	Emittance   decimal.Decimal // 0 to 1; 0 leaves out the radiation to the sky
	SkyLoss     decimal.Decimal // long-wave radiation lost beyond air temperature, at emittance 1; 0 for a wall, skyLoss for a horizontal roof
	Film        decimal.Decimal // outside film coefficient, over 0
}

// skyLoss is the long-wave radiation a horizontal roof of emittance 1 loses to
// the sky beyond what it would to surroundings of air temperature: 20
// Btu/(h·ft²), converted exactly for SI, where handbooks round it to 63 W/m²
// [ASHRAE].
func skyLoss(u Units) decimal.Decimal {
	return u.given(decimal.New(20, 0), perFlux, "").Value
}

// solAir is the outside air temperature that without sun and sky would drive
// as much heat into the surface: to + α·I/ho − ε·ΔR/ho [ASHRAE]. It is in the
// scale of Air.
func solAir(h solAirHour) (decimal.Decimal, error) {
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

// Worked by hand: 95 °F, 250 Btu/(h·ft²), a horizontal roof of emittance 1:
// 95 + α·250/3 − 20/3.
func TestSolAirInTheSun(t *testing.T) {
	for alpha, want := range map[string]string{"0.15": "100.83", "0.3": "113.33", "0.45": "125.83", "0.8": "155.00", "0.9": "163.33"} {
		got, err := solAir(solAirHour{Air: dec("95"), Absorptance: dec(alpha), Sun: dec("250"),
			Emittance: one, SkyLoss: skyLoss(IP), Film: IP.Film().Value})
		require.NoError(t, err)
		assert.Equal(t, want, got.StringFixed(2), alpha)
	}
}

// The same hour in both systems is the same temperature: 5/9 K in a °F.
func TestSolAirAgreesInBothUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		alpha, flux := hundredths(t, "absorptance", 0, 100), hundredths(t, "sun", 0, 40000)
		ip, err := solAir(solAirHour{Absorptance: alpha, Sun: flux, Emittance: one, SkyLoss: skyLoss(IP), Film: IP.Film().Value})
		require.NoError(t, err)
		si, err := solAir(solAirHour{Absorptance: alpha, Sun: flux.Mul(perFlux), Emittance: one, SkyLoss: skyLoss(SI), Film: SI.Film().Value})
		require.NoError(t, err)
		same(t, ip, si.Mul(dec("1.8")), "sol-air excess")
	})
}

func TestSolAirOutOfRange(t *testing.T) {
	_, err := solAir(solAirHour{Absorptance: dec("1.1"), Sun: dec("-1"), Emittance: dec("-0.1")})
	for _, text := range []string{
		"absorptance 1.1 is outside the range from 0 to 1",
		"solar irradiance -1 is outside the range from 0 to 1000000",
		"emittance -0.1 is outside the range from 0 to 1",
		"film coefficient 0 is outside the range from over 0 to 1000000",
	} {
		assert.ErrorContains(t, err, text)
	}
}

// What less absorbed sun takes off the sol-air temperature of an hour is what
// the yearly effect counts for it, whatever the air and the sky.
func TestDegreeHoursAreTheFallOfTheSolAirTemperature(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hour := solAirHour{Air: hundredths(t, "air", -4000, 12000), Sun: hundredths(t, "sun", 0, 40000),
			Emittance: one, SkyLoss: skyLoss(IP), Film: hundredths(t, "film", 100, 1000)}
		c := Case{Units: IP, Reflectance: hundredths(t, "reflectance", 0, 100), Film: hour.Film, UValue: one, Area: one}
		reflectance := hundredths(t, "new reflectance", 0, 100)
		at := func(reflectance decimal.Decimal) decimal.Decimal {
			hour.Absorptance = one.Sub(reflectance)
			degrees, err := solAir(hour)
			require.NoError(t, err)
			return degrees
		}
		fall := at(c.Reflectance).Sub(at(reflectance))
		counted := c.flow(reflectance.Sub(c.Reflectance), hour.Sun).DegreeHours
		require.True(t, fall.Sub(counted).Abs().LessThan(decimal.New(1, -30)), "%s and %s", fall, counted)
	})
}
