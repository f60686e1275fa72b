package cooling

import "errors"

// Surface is what decides how hot a roof surface gets in the sun.
type Surface struct {
	Reflectance float64 // solar reflectance, 0 to 1
	Emittance   float64 // thermal emittance, over 0.1 to 1: the method holds for no less [E1980]
}

// The reference surfaces: by definition their index is 0 and 100 [E1980].
var (
	referenceBlack = Surface{Reflectance: 0.05, Emittance: 0.90}
	referenceWhite = Surface{Reflectance: 0.80, Emittance: 0.90}
)

// Wind is a class of wind over the roof; the zero value is none of them.
// Indices of different classes are not compared; the usual one is MediumWind.
type Wind int

// The classes of wind, with their convection coefficients in W/(m²·K) [E1980].
const (
	LowWind    Wind = iota + 1 // 5
	MediumWind                 // 12
	HighWind                   // 30
)

var convection = map[Wind]float64{LowWind: 5, MediumWind: 12, HighWind: 30}

// The standard conditions [E1980].
const (
	solarFlux       = 1000.0  // W/m²
	airKelvin       = 310.0   // K
	skyKelvin       = 300.0   // K
	stefanBoltzmann = 5.67e-8 // W/(m²·K⁴), in the digits of the standard
)

// SRI is the solar reflectance index of a surface: 0 as hot as the reference
// black (0.05/0.90), 100 as cool as the reference white (0.80/0.90) at the
// standard conditions, under 0 and over 100 beyond them. It is found by the
// heat balance, not by the fitted equation of the standard, which gives 0.35
// and 99.41 at the references [E1980]. An error tells which property is out
// of range.
func SRI(s Surface, w Wind) (float64, error) {
	surface, err := SurfaceTemperature(s, w)
	if err != nil {
		return 0, err
	}
	black, white := balance(referenceBlack, convection[w]), balance(referenceWhite, convection[w])
	return 100 * (black - surface) / (black - white), nil
}

// SurfaceTemperature is the steady temperature, in kelvin, of a surface with
// insulation below it at the standard conditions: sun 1000 W/m², air 310 K,
// sky 300 K [E1980]. An error tells which property is out of range.
func SurfaceTemperature(s Surface, w Wind) (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	if _, known := convection[w]; !known {
		return 0, errors.New("the wind is none of low, medium and high")
	}
	return balance(s, convection[w]), nil
}

func (s Surface) check() error {
	return errors.Join(
		fraction.checkFloat("reflectance", s.Reflectance),
		emittance.checkFloat("emittance", s.Emittance),
	)
}

// balance solves α·I = ε·σ·(T⁴ − Tsky⁴) + h·(T − Tair) for T, in kelvin
// [E1980]. The right side rises with T. At the sky's temperature it is
// negative; at Tair + α·I/h its convection alone carries all the sun. Halving
// that interval until no number lies between its ends cannot fail.
func balance(s Surface, h float64) float64 {
	absorbed := (1 - s.Reflectance) * solarFlux
	low, high := skyKelvin, airKelvin+absorbed/h
	for {
		mid := low + float64((high-low)/2)
		if mid <= low || mid >= high {
			return mid
		}
		lost := float64(s.Emittance*stefanBoltzmann*(fourth(mid)-fourth(skyKelvin))) + float64(h*(mid-airKelvin))
		if lost < absorbed {
			low = mid
		} else {
			high = mid
		}
	}
}

func fourth(x float64) float64 { return float64(x * x * x * x) }
