// Package export takes a line out of the library: as points for a polyline,
// as the path data of an SVG drawing and as a JSON file that can be read back.
//
// # What it answers
//
// [Points] gives stations whose chords stay within a tolerance of the line.
// [Path] gives SVG path data (W3C, Scalable Vector Graphics 1.1, chapter 8):
// a straight as a line, an arc as an arc, an easement as cubic Bézier curves
// within a tolerance. [WriteLine] and [ReadLine] carry a line through JSON so
// that every element comes back bit for bit; that file is text to read and to edit
// by hand, and the only text form of a line.
//
// # Axes, signs and units
//
// The plan has x east and y north in millimetres; a drawing has y downwards.
// Path turns it over, and with it the sense of arcs: a left bend is drawn with
// sweep flag 0.
//
// # Accuracy
//
// Points and Path state the largest distance from the line in millimetres of
// the plan; numbers are written with so many decimals that rounding adds less
// than a tenth of it. The file is exact.
//
// # Errors
//
// Errors are of the kinds of [example.org/fourfoot/gauge/measure]: a range that
// is not on the line, a tolerance of zero, a key that the file does not have. More
// work than [MaxPoints] or [MaxFile] is refused with measure.ErrLimit. All
// functions are safe for concurrent use.
package export
