// Package clearance proves that the train fits: it works out the space that
// vehicles need as they run along a line, and compares it with what stands
// beside the line.
//
// # Four words kept apart
//
//   - throw: how far a body's own centre line stands off the track centreline,
//     inwards at the middle and outwards at the ends: geometry of one vehicle
//     on one radius.
//   - reach: how far the body itself comes out from the track centreline on one
//     side: throw and half width together, corner by corner.
//   - widening: what a published standard adds to its straight-track opening on
//     a curve. It is less than the throw, because the straight opening already
//     holds some of it. A table informs and never decides: package
//     example.org/fourfoot/clearance/nem.
//   - opening: the clear space that a structure leaves.
//
// # Axes and signs
//
// The line is a curve.Alignment: millimetres, chainage along the centreline,
// offsets positive to the left. A vehicle has its own axes: Along forward from
// midway between the pivots of its body, Across to the left. Heights of a
// vehicle are square to the plane of both rail heads. Heights of a structure
// are vertical, above the head of the rail that stays level. Reaches and gaps
// are positive distances, to the side that is named beside them.
//
// # How a vehicle stands
//
// A body rests on two pivots, a pivot is fixed on a carrier, and a carrier
// stands with its two outer axles on the track centreline. A rigid wheelbase is
// a body whose pivots are its outer axles; a bogie's pin may stand off its
// middle; bodies may share a carrier, on one pivot or two; a carrier may have
// an outline of its own, as an engine unit has; trucks on radius bars follow
// the body. An engine and its tender are two vehicles of one stock list: each
// stands on its own axles, and the space of both is swept. How the drawbar
// swings between them is for package coupling. A truck is taken to lean, and to
// rise and fall, with its body.
//
// Of the places where the leading axle could stand at the right distance from
// the one behind it, the first one ahead along the line counts, and a sweep
// follows it from there. Where none exists, or where a chord would stand at
// more than 75° to the line, the vehicle cannot stand there and the answer is
// an error. Vehicles run the way they are described; Turned gives the other way
// round, to be listed too where stock gets turned.
//
//	              reach outside, by a corner
//	       ________________v
//	  ____|________________|____    body
//	   ---o----          ----o---   pivots on their carriers
//	--'        ^'       '-- track centreline
//	               centre throw; reach inside, by a side's own point
//
// # What it answers
//
// Throws is the closed form for one radius, with the approximations in use
// beside it; GaugeWidening what a rigid wheelbase asks of the gauge. Sweep is
// the envelope on any line, open or closed, with sudden changes of curvature
// and kinks; Resweep the same after an edit. Envelope.At names what governs:
// the vehicle, the body point and where the vehicle stands. Envelope.Audit
// compares the envelope with structures, flat or arched, and says foul, tight or
// pass, by which allowances, and the least remedy. Envelope.Sections gives cross-sections.
//
// # What it leaves out
//
// Wheels are points at the rail: the longer contact of a deep flange is not
// counted. A reach is what stands square to the line at each place, the space
// between it and the centreline taken as filled. Between an outline's heights
// nothing is rounded off. Past the centre of a curve squares to the line meet,
// and such a reach is refused.
//
// # Accuracy
//
// Throws is exact to rounding. A reach of a sweep is within Settings.Tolerance,
// 0.1 mm by default: measured against a reference that shares no code with it,
// on 520 seeded lines and vehicles, the worst was 0.015 mm at 0.1 and 0.0017 mm
// at 0.005, most of that the reference's own. Where the line is kinked the edge
// of the space may run along the square to it; there it is within the tolerance
// in plan. A gap in an audit carries the tolerance of the reaches in it.
//
// With a cant that varies, each outline is swept at its bottom and at its top
// with the lean in it, so that what governs there may be another pose than on
// level track, and the reach of each is within the tolerance too: measured on
// 1000 seeded lines with ramps of every law, the worst was 0.020 mm at 0.1 and
// 0.014 mm at 0.005, there at a sharp change of ramp, where the reference itself
// is off by as much. The lean of a body is that of the mean of the cants under
// its two carriers. The section square to the line turns as a whole, while a
// body turns about its own axis: where it swings out it moves sideways by a
// little less, in the proportion of the cosine of its angle to the line, and on
// the inner side of a curve it can stand higher than the section has it, by up
// to its throw times the lean. Heights count the
// worst lean and the worst vertical throw of all the poses that pass a place:
// within 0.03 mm in the same tests. Between its corners a section is convex: at
// no height does it have less than what is there, but in between it can have
// more.
//
// # Sources
//
// NEM 111 (2016), angle of attack; NEM 114 (2007), cant; EBOA (Bavaria, 1983)
// Anlage 8 and EBO Anlage 4 in the tests. The approximations C²/8R and
// (L²-C²)/8R: engineering notes. All else is plane geometry, said at each place.
//
// # Limits
//
// MaxOutline, MaxBands, MaxBodies, MaxTrucks, MaxAxles of a vehicle; MaxStock,
// MaxPoses and Settings.MaxKept of a sweep; MaxStructures, MaxParts and
// MaxFigurePoints of an audit. Beyond them the error wraps measure.ErrLimit.
// Sweep, Resweep and Audit stop promptly when their context ends.
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit and
// hold a *measure.FieldError for every value at fault. Everything here is safe
// for concurrent use; values are not changed after they are made.
package clearance
