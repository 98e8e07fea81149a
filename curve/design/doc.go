// Package design finds lines: from what a builder knows of a place (straights
// that meet, points to pass, tracks to leave and join, things to keep clear
// of) to elements ready for curve.New.
//
// # What it answers
//
//   - [Meet], [CornerOf]: the corner of two straights, and in it the bend by
//     radius ([Corner.ByRadius]), by the room outside it ([Corner.ByApex]), by
//     a point that it must pass ([Corner.Through]), the largest that the
//     straights can take ([Corner.Largest]) and the compound curve of two arcs
//     ([Corner.Compound]);
//   - [Through], [Circuit]: a line through intersection points;
//   - [HalfTurn]: the end of an oval, between straights that run back;
//   - [Laid]: the line that sectional pieces make, with its kinks;
//   - [ThreePoints]: the arc through three points;
//   - [Reverse]: the shift from one track to another beside it;
//   - [InsertEasements]: easements put to the arcs of a plain line;
//   - [Join]: the gentlest member of a family of lines between two poses;
//   - [Fit]: the largest radius of a bend or a join among obstacles, every
//     range of radii that fits, and what must move where none does.
//
// # Geometry
//
//	       IP intersection point          T   tangent length, TP to IP
//	      / .\                            p   shift of the arc from its straight
//	 T   /  . apex                        k   tangent point to foot of centre
//	    /_crown                           Δ   turn of the whole bend
//	TP /'      '\ TP                      R   radius of the arc
//
// With easements the tangent length is T = (R + p) tan Δ/2 + k and the apex
// distance (R + p) sec Δ/2 - R; for a clothoid k ≈ L/2 and p ≈ L²/24R (A. N.
// Perrott's papers on transition curves, 1920; Schofield, Engineering
// Surveying, chapter on curves). Here p and k come from the easement's own end
// position and hold for every shape and any length.
//
// # Axes, signs, units
//
// As in package curve: x east, y north, millimetres; left positive. Turns of
// bends and of their parts are positive and their hand is separate. Shifts,
// tangent lengths and apex distances are positive.
//
// # Errors
//
// A value that no call can take wraps measure.ErrInput; a line that does not
// exist wraps measure.ErrNoAnswer, and its text says what would make one
// exist; too much work wraps measure.ErrLimit. All faults of a call are
// reported at once.
//
// All of it is safe for concurrent use.
package design
