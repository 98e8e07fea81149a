// Package locked answers what rail does that cannot slide: joints seized, rail
// laid tight, panels held at both ends. It pushes on what holds it, a straight
// bows, a curve moves sideways.
//
// # What it answers
//
// [Force] is the push, [NewBow] the bow of a straight, [NewShift] the sideways
// movement of a curve between held ends, [RingGrowth] that of a whole circle.
// Bow and shift name the shape that is assumed; the larger is the allowance, a
// plain length that a clearance check can add to its own. [NewStrut] compares
// the push with the load at which rail between two fixings buckles, as an
// indication.
//
// # Signs and units
//
// Warming is positive, and so are push, growth and movement outwards, away
// from the centre of the curve. Lengths are in millimetres.
//
// # Sources
//
// Thermal strain, Hooke's law and Euler's column are textbook mechanics; the
// shapes' formulas are derived beside them. Rail sections come from package
// rail; their second moments are scaled from 60E1, see [FromRail].
//
// # What it leaves out
//
// Friction of the bed, the give of fixings and sleepers, bending stiffness
// against bow and shift: all make the true movement smaller. An allowance may
// therefore be too large, not too small, as long as the rail is held at the
// ends that were given.
//
// # Errors and concurrency
//
// Values that cannot be taken wrap measure.ErrInput, all of a call together.
// Everything is a value and safe for concurrent use.
//
// # Caution
//
// A locked hot rail springs when it is cut or unscrewed: stand aside, let it
// cool. It burns the hand.
package locked
