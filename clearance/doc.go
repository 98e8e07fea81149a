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
//     holds some of it. A table informs here and never decides.
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
// a body whose pivots are its outer axles. Of the places where the leading axle
// could stand at the right distance from the one behind it, the first one ahead
// along the line counts. Where none exists, or where a chord would stand at
// more than 75° to the line, the vehicle cannot stand there and the answer is
// an error.
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit and
// hold a *measure.FieldError for every value at fault. Everything here is safe
// for concurrent use; values are not changed after they are made.
package clearance
