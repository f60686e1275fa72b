package cooling

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Units is the system of units of a case.
type Units int

// The systems of units. Electricity is in kWh in both.
const (
	SI Units = iota // kWh, m², W/(m²·K), K; heat to be bought in kWh
	IP              // Btu, ft², Btu/(h·ft²·°F), °F; heat to be bought in therms
)

// The definitions all conversions follow from.
var (
	// JoulesPerBtu is the International Table Btu, exactly: 4.1868 J/(g·K),
	// the pound of 453.59237 g and 5/9 K [SP811].
	JoulesPerBtu = decimal.New(105505585262, -8)
	// BtuPerTherm is exact. The therm here is of International Table Btu; the
	// gas trade's US therm is 0.02 % smaller [SP811].
	BtuPerTherm = decimal.New(100000, 0)

	joulesPerKWh    = decimal.New(3600000, 0)
	secondsPerHour  = decimal.New(3600, 0)
	metresPerFoot   = decimal.New(3048, -4) // exact, as agreed in 1959 [SP811]
	squareMetres    = metresPerFoot.Mul(metresPerFoot)
	fahrenheitSteps = decimal.New(18, -1) // °F in a kelvin
	wattsPerKW      = decimal.New(1000, 0)
)

// The SI amount of one IP unit of each measure.
var (
	perBtu         = quo(JoulesPerBtu, joulesPerKWh)                                          // kWh
	perTherm       = quo(JoulesPerBtu.Mul(BtuPerTherm), joulesPerKWh)                         // kWh
	perIrradiation = quo(JoulesPerBtu, joulesPerKWh.Mul(squareMetres))                        // kWh/m²
	perFlux        = quo(JoulesPerBtu, secondsPerHour.Mul(squareMetres))                      // W/m²
	perConductance = quo(JoulesPerBtu.Mul(fahrenheitSteps), secondsPerHour.Mul(squareMetres)) // W/(m²·K)
	copPerSEER     = quo(JoulesPerBtu, secondsPerHour)                                        // Wh/Btu
)

// COP is the seasonal coefficient of performance, heat removed per
// electricity, of equipment that is rated by its SEER (or EER) in Btu/Wh: one
// watt-hour is 3600/1055.05585262 Btu, so that SEER 3.412 is COP 1. Ratings
// are of the test standard's climate, not of the building's.
func COP(seer decimal.Decimal) decimal.Decimal { return seer.Mul(copPerSEER) }

// PerTherm is the price of a therm of heat at a price per kWh, such as that of
// electricity for electric heating in a case in IP.
func PerTherm(perKWh decimal.Decimal) decimal.Decimal { return perKWh.Mul(perTherm) }

// Default is a value to start from, with where it comes from.
type Default struct {
	Value  decimal.Decimal
	Unit   string
	Mark   string // "published" or "from memory"
	Source string
}

const ashrae = "ASHRAE Handbook, Fundamentals, as quoted by an encyclopaedia and by help pages of load programs"

// Film is the usual outside film coefficient: 3.0 Btu/(h·ft²·°F) in summer
// wind, converted exactly for SI, where handbooks round it to 17 W/(m²·K)
// [ASHRAE].
func (u Units) Film() Default {
	return u.given(decimal.New(30, -1), perConductance, u.conductanceUnit())
}

// given is a default that its source gives in IP.
func (u Units) given(v, factor decimal.Decimal, unit string) Default {
	if u == SI {
		v = v.Mul(factor)
	}
	return Default{Value: v, Unit: unit, Mark: "published", Source: ashrae}
}

func (u Units) pick(si, ip string) string {
	if u == IP {
		return ip
	}
	return si
}

func (u Units) areaUnit() string        { return u.pick("m2", "ft2") }
func (u Units) conductanceUnit() string { return u.pick("W/m2·K", "Btu/h·ft2·°F") }
func (u Units) sunUnit() string         { return u.pick("kWh/m2", "Btu/ft2") }

func (u Units) check() error {
	if u != SI && u != IP {
		return fmt.Errorf("units %d are neither SI nor IP", int(u))
	}
	return nil
}
