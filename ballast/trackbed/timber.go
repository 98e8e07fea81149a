package trackbed

import (
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

// A Timber is a strength class or a stuff with its mean modulus of elasticity
// along the grain.
type Timber struct {
	Name    string
	Modulus measure.Stress
	Density measure.Density // mean, dry; wet timber weighs more
	Source  gauge.Source
}

// Timbers returns the strength classes of EN 338 that timber merchants carry.
// The figures are the means of the standard's table, recalled, not seen; for
// anything that matters take the merchant's own.
func Timbers() []Timber {
	en := gauge.Source{Title: "EN 338:2016, table 1 and 3, E0,mean and mean density", Basis: gauge.FromMemory}
	return []Timber{
		{"C14", 7000, 350, en},
		{"C16", 8000, 370, en},
		{"C18", 9000, 380, en},
		{"C24", 11000, 420, en},
		{"C30", 12000, 460, en},
		{"D30", 11000, 640, en},
		{"D40", 13000, 660, en},
	}
}
