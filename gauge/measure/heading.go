package measure

import (
	"strconv"
	"strings"
)

// A Heading is that of a column in a table, parted into what the column is
// called and the unit of its numbers.
type Heading struct {
	Name string // "length"
	Unit string // "mm"; empty when the heading names no unit
}

// kinds are all quantities.
var kinds = [...]*kind{
	&lengths, &areas, &volumes, &masses, &densities, &linearMasses, &speeds, &forces, &stresses, &angles,
	&curvatures, &gradients, &temperatures, &differences, &expansions,
}

// knownUnit reports whether the name is a unit of any quantity.
func knownUnit(name string) bool {
	for _, k := range kinds {
		if k.unit(name) != nil {
			return true
		}
	}
	return false
}

// headingUnit reports whether the name is a unit without square brackets
// saying so: min is more often the least, L the left.
func headingUnit(name string) bool {
	return knownUnit(name) && name != "L" && !strings.EqualFold(name, "min") && !strings.EqualFold(name, "sec")
}

// columnUnit reports whether the name is a unit at the end of a name such as
// radius_mm; of single letters only those of metres, grams and degrees are.
func columnUnit(name string) bool {
	return len(name) > 1 || strings.Contains("mgcf%", name)
}

const headingForms = "; write for example length [mm], gap (in), speed / km/h or radius_mm"

// ParseHeading parts a column's heading. The unit stands in brackets or
// parentheses at the end, or after a slash, a comma, the word "in" or an
// underline: length [mm], gap (in), speed / km/h, gap, in, length in mm,
// radius_mm. Square brackets must hold a known unit; anything else that is not
// a unit, as in "gap (cold)", belongs to the name, and so do min, sec and L,
// and after an underline single letters other than m, g, c and f. A name such
// as lead_in is taken to be a lead in inches. Under "gradient [1 in]" or
// "gradient, 1 in N" 50 stands for 1 in 50.
func ParseHeading(text string) (Heading, error) {
	refuse := func(why string) (Heading, error) {
		return Heading{}, &FieldError{Package: "measure", Field: "heading", Value: quote(text), Limit: why + headingForms, Kind: ErrInput}
	}
	if len(text) > MaxText {
		return Heading{}, &FieldError{
			Package: "measure", Field: "heading", Value: quote(text),
			Limit: "must be at most " + strconv.Itoa(MaxText) + " bytes", Kind: ErrLimit,
		}
	}
	s := clean(text)
	if s == "" {
		return refuse("is empty")
	}
	if body, ok := strings.CutSuffix(s, "]"); ok {
		name, unit, ok := cutLast(body, "[")
		switch {
		case !ok:
			return refuse("closes a bracket that is not open")
		case !knownUnit(unit):
			return refuse("has " + quote(unit) + " in its brackets, which is not a unit")
		}
		return Heading{name, unit}, nil
	}
	if body, ok := strings.CutSuffix(s, ")"); ok {
		if name, unit, ok := cutLast(body, "("); ok && headingUnit(unit) {
			name = strings.TrimRight(strings.TrimSuffix(name, "/"), " ")
			return Heading{name, unit}, nil
		}
	}
	for _, one := range [...]string{" 1 in n", " 1 in", "1 in n"} {
		if name, ok := cutSuffixFold(s, one); ok {
			return Heading{strings.TrimRight(name, " ,"), "1 in"}, nil
		}
	}
	for _, sep := range [...]string{" / ", ",", " in ", "_"} {
		if name, unit, ok := cutLast(s, sep); ok && name != "" && headingUnit(unit) && (sep != "_" || columnUnit(unit)) {
			return Heading{name, unit}, nil
		}
	}
	return Heading{Name: s}, nil
}

// cutLast cuts s around the last sep and trims what is left.
func cutLast(s, sep string) (before, after string, ok bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return strings.Trim(s[:i], " "), strings.Trim(s[i+len(sep):], " "), true
}

// Notation returns the notation of the column under the heading: numbers
// without a unit are in the heading's, whatever quantity is read, and it is
// refused for a quantity that has no such unit.
func (h Heading) Notation(d DecimalSign) Notation {
	u := h.Unit
	return Notation{
		Decimal: d,
		Length:  u, Area: u, Volume: u, Mass: u, Density: u, LinearMass: u,
		Speed: u, Force: u, Stress: u,
		Angle: u, Curvature: u, Gradient: u,
		Temperature: u, TemperatureDifference: u, Expansion: u,
	}
}
