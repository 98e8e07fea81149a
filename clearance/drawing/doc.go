// Package drawing draws what package clearance works out, to true scale: the
// space that the stock needs in plan ([Plan.SVG]) and in the cross-section with
// the openings round it ([Section.SVG]), and the gauging former at full size,
// to be printed and cut out ([Former]).
//
// Drawings are SVG in black and grey on white, with lengths in millimetres of
// paper, so that a print at 100 % is to the scale that it states; meaning is in
// the dash, weight and hatch. A cross-section is seen in the running direction:
// left of the line is on the left. Dashed with long dashes is the edge of the
// space that the stock needs, a heavy full line a structure or an opening, a
// chain line the track centreline.
//
// Nothing is decided here, and nothing but the print can go wrong: check the
// scale bar of a print with a steel rule before it is used.
//
// Errors wrap measure.ErrInput or measure.ErrLimit and hold a
// *measure.FieldError. Everything is safe for concurrent use.
package drawing
