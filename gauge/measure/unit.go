package measure

import (
	"strings"
	"unicode/utf8"
)

// A unit is one way to count a quantity.
type unit struct {
	names string // separated by spaces, the one that is printed first
	fold  bool   // the names are read in any case
	per   ratio  // base units in one of it
	off   ratio  // value of zero, for scales with a zero of their own
	tens  bool   // per is a power of ten
	shift int    // and this one
	recip bool   // what is counted is one over the quantity
	turn  bool   // counted in degrees, then taken times Degree
	shown bool   // exact text may use it
	alone bool   // takes no other unit beside it
}

// tens returns a unit of 10^shift base units; names in one case only.
func tens(shift int, names string) unit {
	u := unit{names: names, per: ratio{n: 1, d: 1}, tens: true, shift: shift}
	if shift < 0 {
		u.per.d = powersOfTen[-shift]
	} else {
		u.per.n = powersOfTen[shift]
	}
	return u
}

// per returns a unit of n/d base units, whose names may be in any case.
func per(n, d uint64, names string) unit {
	return unit{names: names, fold: true, per: ratio{n: n, d: d}}
}

// turn returns a unit of n/d degrees.
func turn(n, d uint64, names string) unit {
	u := per(n, d, names)
	u.turn = true
	return u
}

// printed returns the unit as one that exact text may use.
func (u unit) printed() unit {
	u.shown = true
	return u
}

// single returns the unit as one that takes no other beside it.
func (u unit) single() unit {
	u.alone = true
	return u
}

// has reports whether key is one of the unit's names.
func (u *unit) has(key string) bool {
	names := u.names
	for names != "" {
		var name string
		name, names, _ = strings.Cut(names, " ")
		if name == key || u.fold && strings.EqualFold(name, key) {
			return true
		}
	}
	return false
}

// name returns the unit's printed name; ~ stands for a space.
func (u *unit) name() string {
	name, _, _ := strings.Cut(u.names, " ")
	return strings.ReplaceAll(name, "~", " ")
}

// A kind is all that is known of a quantity's text.
type kind struct {
	name     string // "length"
	forms    string // what is accepted, for refusals
	units    []unit // the first is the base unit
	compound bool   // several numbers with descending units, 4ft 8in
	words    func(p *parser, n Notation) (v float64, done bool, err error)
}

// unit returns the unit of the given name, or nil.
func (k *kind) unit(name string) *unit {
	var buf [48]byte
	key := string(unitKey(buf[:0], name))
	if key == "" {
		return nil
	}
	for i := range k.units {
		if k.units[i].has(key) {
			return &k.units[i]
		}
	}
	return nil
}

// unitKey appends a unit's name in the spelling of the tables: symbols for
// words, no spaces, / for per, 2 and 3 for the superscripts, u for micro, no
// full stops after words. What cannot be a unit gives nothing.
func unitKey(b []byte, name string) []byte {
	if len(name) > 40 {
		return b
	}
	first := true
	for word := range strings.FieldsSeq(name) {
		if !first && digit(word, 0) { // ft 2 is not ft²
			return b[:0]
		}
		first = false
		word = strings.TrimSuffix(word, ".")
		for i := 0; i < len(word); {
			j := i
			for j < len(word) && letter(word[j]) {
				j++
			}
			if j > i {
				b = append(b, symbol(word[i:j])...)
				i = j
				continue
			}
			r, size := runeAt(word, i)
			i += size
			if d := superscript(r); d >= 0 {
				r = rune('0' + d)
			}
			switch r {
			case '⁻':
				r = '-'
			case 'µ', 'μ':
				r = 'u'
			case '^', '(', ')', '·', '*', '⋅':
				continue
			}
			b = utf8.AppendRune(b, r)
		}
	}
	return b
}

func letter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

// symbol returns the symbol of a unit written as a word, other words as they
// are.
func symbol(word string) string {
	if len(word) < 3 {
		return word
	}
	switch strings.ToLower(word) {
	case "per":
		return "/"
	case "square":
		return "sq"
	case "cubic":
		return "cu"
	case "micrometre", "micrometres", "micrometer", "micrometers", "micron", "microns":
		return "um"
	case "millimetre", "millimetres", "millimeter", "millimeters":
		return "mm"
	case "centimetre", "centimetres", "centimeter", "centimeters":
		return "cm"
	case "metre", "metres", "meter", "meters":
		return "m"
	case "kilometre", "kilometres", "kilometer", "kilometers":
		return "km"
	case "inch", "inches", "ins":
		return "in"
	case "foot", "feet":
		return "ft"
	case "yard", "yards", "yds":
		return "yd"
	case "chains":
		return "chain"
	case "mile", "miles":
		return "mi"
	case "millilitre", "millilitres", "milliliter", "milliliters":
		return "ml"
	case "litre", "litres", "liter", "liters":
		return "l"
	case "gram", "grams":
		return "g"
	case "kilogram", "kilograms", "kilo", "kilos":
		return "kg"
	case "tonne", "tonnes":
		return "t"
	case "ounce", "ounces":
		return "oz"
	case "pound", "pounds", "lbs":
		return "lb"
	case "quarter", "quarters", "qrs":
		return "qr"
	case "hundredweight":
		return "cwt"
	case "tons":
		return "ton"
	case "sec", "secs", "second", "seconds":
		return "s"
	case "mins", "minute", "minutes":
		return "min"
	case "hrs", "hour", "hours":
		return "h"
	case "newton", "newtons":
		return "N"
	case "kilonewton", "kilonewtons":
		return "kN"
	case "kelvin", "kelvins":
		return "K"
	case "degree", "degrees":
		return "deg"
	case "celsius":
		return "C"
	case "fahrenheit":
		return "F"
	case "radian", "radians":
		return "rad"
	case "turns":
		return "turn"
	}
	return word
}
