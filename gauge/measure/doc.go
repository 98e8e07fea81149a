// Package measure holds the quantities of permanent-way arithmetic as types,
// and reads and writes them the way the trade does.
//
//	r := 4*measure.Foot + 8.5*measure.Inch      // a Length
//	r, err := measure.ParseLength("4ft 8 1/2in") // the same, from text
//	fmt.Println(r)                               // 1435.1 mm
//
// # Quantities
//
// Each is a float64 in its base unit, so that + and - and comparison work as
// usual; a product of two quantities is another type and has a method.
//
//	Length                 mm      positive as the giver says
//	Area, Volume           mm², mm³
//	Mass, LinearMass       kg, kg/m
//	Density                kg/m³
//	Speed                  m/s
//	Force, Stress          N, MPa
//	Angle                  rad     positive to the left, anticlockwise in plan
//	Curvature              1/mm    positive to the left, 0 on the straight
//	Gradient               1       rise over plan distance, positive uphill
//	Temperature            °C      a point on the scale
//	TemperatureDifference  K       has no 32 in it
//	Expansion              1/K
//
// # Reading
//
// ParseX reads one quantity, MustParseX panics instead of returning an error
// and is for tests and package variables. Numbers are written as 8, 8.5, 8,5,
// 3/8, 8 1/2, 8-1/2, 8½, 1e-6 or 11.5×10⁻⁶. Lengths, masses and angles may be
// written in several units that get smaller (4ft 8 1/2in, 70 tons 14 cwt,
// 0°32'15"), whole but for the last, and each less than one of the one before.
// Gradients are also read as 1 in 50, 1:50 and level, with "up" or "down" or a
// sign; curvatures as straight, or as a radius with its hand, R 1200 mm left.
// Straight and curly quotes and primes, every kind of space, minus sign and
// fraction slash count as the same; µ may be u, ° may be deg, ‰ permille, ² and
// ³ may be 2 and 3. Imperial units may be in any case, metric ones only where
// no prefix can be meant.
//
// The ton, hundredweight and quarter are the long ones of 2240, 112 and 28 lb;
// 1:50 is rise to plan distance.
//
// Refused, with the reason and a form that would be taken: a number without a
// unit; metric and imperial units in one quantity; 50:1, which rises more than
// it runs; a comma before exactly three digits; any sign or space that groups
// thousands; a radius without a hand; what is too large or too close to nothing
// for a float64; text of more than [MaxText] bytes (that is ErrLimit). A
// [Notation] declares the unit and the decimal sign where a file or a column
// does; [ParseHeading] finds the unit in a column's heading.
//
// Parsing says what was written, not whether it makes sense: -300 °C is read,
// and refused by those who use it.
//
// # Writing
//
// String is for people: six significant digits in a metric unit, rounded half
// to even. It writes a value as 0, level or straight only when it is exactly
// that. [InchStyle] writes inches to the nearest 1/64 or coarser and
// [MillimetreStyle] a number of decimals; both tell their rounding error.
//
// MarshalText, and JSON with it, writes text that reads back to the same bits,
// for every finite value, the negative zero included: in the base unit when
// nine digits or fewer say it exactly, else in the unit that needs fewest if
// that is twelve or fewer (30 km/h, 70 °F, 95 lb/cu ft), else in the base unit.
// A curvature is written as a radius and a gradient as 1 in N, when that takes
// twelve digits or fewer, else per metre and in %. In JSON a quantity is always
// a string. What is not finite is an error in both directions.
//
// # Accuracy
//
// What is read is the float64 nearest to the exact value of the text, so that
// 3 in and 76.2 mm are the same bits; only degrees, gons and turns are rounded
// twice, once as a number and once times [Degree], to agree with constants such
// as 45*Degree, and a radius, once as a length and once as its inverse. Note
// that 3*Inch is a product of float64s and may differ from 76.2*Millimetre in
// the last bit.
//
// # Sources
//
// 1 yd = 0.9144 m and 1 lb = 0.45359237 kg exactly: International yard and
// pound agreement, 1959. Standard gravity 9.80665 m/s²: CGPM 1901. Litre, tonne,
// degree, minute, second, degree Celsius: SI brochure (BIPM), non-SI units
// accepted for use with the SI. Degree Fahrenheit: 9/5 of a kelvin, 32 °F at
// 0 °C, NIST SP 811. All from memory, and exact by definition.
//
// # Errors
//
// [ErrInput], [ErrNoAnswer] and [ErrLimit] are the kinds of error of the whole
// library, found with errors.Is; [FieldError] is the error itself, found with
// errors.As. Nothing else in this package can fail, and nothing panics but
// MustParseX.
//
// All values are plain data; everything here is safe for concurrent use.
package measure
