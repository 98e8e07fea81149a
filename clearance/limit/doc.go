// Package limit answers clearance's questions backwards: how sharp may the bend
// be, how wide the vehicle.
//
// # What it answers
//
//   - the least radius for an opening's half-width inside and outside the bend
//     ([Bend.ForOpening]), for the spacing of two concentric tracks
//     ([Bend.ForSpacing]), for the step from a platform's edge to the doors
//     ([Bend.ForPlatform]);
//   - the widest, and the longest, vehicle of a pattern that a line's structures
//     admit ([Route.Widest], [Route.Longest]);
//   - which vehicle passes which structure, and why not ([NewMatrix]);
//   - by how much any such answer, and any of the packages beside this one,
//     changes with each measured input ([Rates]; a [Radius] has its own).
//
// Limits of couplings are those of package coupling. A published table of
// openings or widenings (package clearance/nem) decides nothing here.
//
// # Axes, signs and units
//
// All is in millimetres. A bend is to the left, so left is inside it. Radii are
// to the track centreline, half-widths and platform edges are distances from
// it, square to the line. Heights are above the head of the rail that stays
// level.
//
// # What a least radius means
//
// Every radius from it up to straight track does, on a bend long enough to hold
// the vehicle whole. Where the reach does not always grow with the curvature (a
// body that hardly stands out past its pivots) there may be sharper bends that
// do as well; they do not count.
//
// # Gaps between two tracks
//
// Two stocks that pass are compared level, at each height that both have: what
// never is at one height does not meet.
//
// # Accuracy
//
// Answers come of the sweep itself, not of an approximation: put forwards, the
// gap is the margin within 1e-6 mm for a bend (measured), within the sweep's
// tolerance for a route. A radius's own rates are differences of 0.02 mm either
// way, good to about 1e-4 of themselves where one point governs on both sides;
// those of Rates were within 1e-3 of what is worked by hand.
//
// # Sources
//
// Plane geometry, worked in package clearance.
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer (and then say what would
// make an answer) or measure.ErrLimit and hold a *measure.FieldError. Searches
// stop promptly when their context ends. Everything is safe for concurrent use.
package limit
