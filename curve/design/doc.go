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
// distance (R + p) sec Δ/2 - R; for a clothoid k ≈ L/2 and p ≈ L²/24R (the
// transition bisects the shift: Perrott 1920; the formulas as in Schofield,
// Engineering Surveying, from memory; published tangent lengths, chainages and
// easement ends are in the tests). Here p and k come from the easement's own
// end position and hold for every shape and any length.
//
// Of unequal easements T1 = (R + p1) tan Δ/2 + (p2 - p1)/sin Δ + k1. Between
// parallel tracks D apart two equal plain curves that touch take the length
// √(4RD - D²) and turn acos(1 - D/2R). An arc through three points has
// R = c²/8v + v/2 on a chord c with versine v. A compound curve's tangent
// lengths come from the end (x, y) of the curve itself, T2 = y/sin Δ and
// T1 = x - y/tan Δ. Each builder's own comment has its formula.
//
// # Leaves out
//
// Levels and cant (package profile), pegs and offsets, pointwork, and whether a
// vehicle clears an obstacle: a fit keeps the centreline at the distances that
// it is given. Three arcs and more between two straights, and more than two
// arcs between poses, are for the caller to put together.
//
// # Accuracy
//
// A bend meets its straights within 1e-11 of its length, a join its poses
// within 1e-9 (tested by evaluating them).
//
// A join is searched over both of its radii, box by box, where bounds over a
// box show that it can be dropped (see the comment at seeker): a range of the
// smaller radius wider than 1e-4 of itself that has members is found, and its
// upper end to rounding. A fit finds every range of radii, the smaller ones of
// a join, that is wider than its resolution, and the ends to 1e-9 of
// themselves. The bounds are exact for plain joins; for what easements and
// obstacles add they are taken from samples, with a margin: tests compare them
// with grids that share no code with them. Of a join among obstacles the other
// radius is searched until the line moves no more than 1 µm.
//
// An obstacle that the line passes twice counts where it is nearer.
//
// # Limits
//
// [MaxVertices], [MaxPieces], [MaxObstaclePoints], [MaxJoinBoxes] and
// Fit.MaxWork; beyond them measure.ErrLimit. A join takes of the order of 0.02 s (up to a second
// where none or hardly any fits), a fit among twenty obstacles 0.1 s; both stop
// when their context does.
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
