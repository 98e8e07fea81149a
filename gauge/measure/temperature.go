package measure

// A Temperature is a point on the scale, in degrees Celsius. The difference
// of two is a [TemperatureDifference].
type Temperature float64

// Celsius returns the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c) }

// Fahrenheit returns the temperature of f degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Temperature((f - 32) / 1.8) }

// Celsius returns the temperature as a number of degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Fahrenheit returns the temperature as a number of degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t)*1.8 + 32 }

// Kelvin returns the temperature as a number of kelvins above absolute zero.
func (t Temperature) Kelvin() float64 { return float64(t) + 273.15 }

// Sub returns the difference t - u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(t - u)
}

// Add returns the temperature d above t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return t + Temperature(d)
}

// A TemperatureDifference is in kelvins; a difference has no 32 in it.
type TemperatureDifference float64

// Units of temperature difference.
const (
	Kelvin           TemperatureDifference = 1
	FahrenheitDegree                       = Kelvin / 1.8
)

// Kelvins returns the difference as a number of kelvins.
func (d TemperatureDifference) Kelvins() float64 { return float64(d) }

// An Expansion is a coefficient of linear thermal expansion, per kelvin.
type Expansion float64

// Units of linear expansion.
const (
	PerKelvin           Expansion = 1
	PerFahrenheitDegree           = 1.8 * PerKelvin
	MicroPerKelvin                = 1e-6 * PerKelvin
)

// PerKelvins returns the coefficient as a number per kelvin.
func (a Expansion) PerKelvins() float64 { return float64(a) }

// Of returns what a length l grows by when it warms by d.
func (a Expansion) Of(l Length, d TemperatureDifference) Length {
	return Length(float64(a) * float64(l) * float64(d))
}
