// Package profile holds what rides along a line in plan as plain functions of
// chainage: its [Level] and its [Cant].
//
// # What it answers
//
// The level, gradient and vertical radius at a chainage; the highest, lowest
// and steepest place of a range, its rise and its length along the slope; the
// cant, the height of either rail head, the ramp gradient at a chainage and
// the largest twist under a wheelbase. What levels and cant ought to be is not
// decided here.
//
// # Axes, signs and units
//
// Chainage is plan distance along the centreline. Level is above datum,
// gradients are rise over plan distance, positive climbing in the running
// direction. Curvature in the vertical plane is positive in a sag, negative on
// a crest. Positive cant has the right rail head higher than the left, so the
// vehicle leans to the left: the sign of the curvature of the bend it belongs
// to. Which rail keeps the level ([InnerRail], [Centreline] or [OuterRail]) is
// said once for each Cant; the inner rail is the one towards which it leans.
//
//	level, from the side, running to the right      cant, looking along the line
//
//	           crest -                                            ___--- right rail
//	          _______                               left rail ---
//	    +    /       \    -                         cant +: leans to the left,
//	____    /         \    ____                     as in a bend to the left
//	    \__/           \__/
//	    sag +          sag +                        left rail ---___
//	                                                                --- right rail
//	climbing: gradient +, falling: gradient -       cant -: leans to the right
//
// An open profile carries on past its ends: a level on its end gradients, a
// cant at its end values. On a circuit chainage is modulo the length, ranges
// may run over the start, and nothing changes when the start is put elsewhere.
// A chainage that is not a number is answered as 0, an infinite one as 1e18 mm.
// The zero Level and the zero Cant are 0 everywhere.
//
// # Accuracy
//
// Everything is closed form, or on a lath or cubic parabola a prepared
// polynomial, to a few parts in 1e15 of the largest value that enters; the
// place of the largest twist is found to 1e-9 mm.
//
// # Sources
//
// Vertical curves and cant ramps: ISO 16739-1 and the IFC Alignment Geometry
// Implementation Guide to it (the values of both are in the tests). Ramp as
// long as the easement and inner rail level: NEM 114 (2007). NEM's ramp is
// linear even where the easement is not; [NewBendCant] uses the easement's own
// law, which has no corners.
//
// # Errors
//
// Input that is not finite, points out of order, vertical curves that overlap,
// gradients and ramps over 1 in 1 and circuits that do not close are refused with errors
// of the kind [example.org/fourfoot/gauge/measure.ErrInput], all at once, more
// than [MaxPoints] with measure.ErrLimit. All values are immutable and safe
// for concurrent use.
package profile
