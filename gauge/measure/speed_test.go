package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseSpeed(t *testing.T) {
	testParse(t, measure.ParseSpeed, []accepted{
		{"0.5 m/s", 0.5},
		{"500 mm/s", 0.5},
		{"36 km/h", 10},
		{"36 kph", 10},
		{"36 kmh", 10},
		{"36 km per h", 10},
		{"100 mph", 44.704},
		{"100 MPH", 44.704},
		{"10 ft/s", 3.048},
		{"60 ft/min", 0.3048},
		{"30 m/min", 0.5},
		{"36 kilometres per hour", 10},
		{"100 miles per hour", 44.704},
		{"10 feet per second", 3.048},
	}, []refused{
		{"30", "no unit"},
		{"30 km", "not a unit of speed"},
		{"30 knots", "not a unit of speed"},
		{"30 m/s²", "not a unit of speed"},
	})
}

func FuzzParseSpeed(f *testing.F) {
	fuzzParse(f, measure.ParseSpeed)
}
