// Package joints plans the rail joints of a line: where each joint comes on
// each rail, how long every piece is cut, from which bar, and what to order.
//
// # What it answers
//
// [New] walks a line from end to end, or round a circuit, and lays the longest
// pieces it may. Objects that bring their own rail (turnouts, lift-out
// bridges) have a joint at each end. Between two anchors there is a joint, so
// that no piece is held twice: half way, or, inside a zone, up to half the
// shortest piece before the second. No joint comes in a zone unless the zone is
// longer than a piece or holds two anchors, and then as few as can be, with a
// warning. [Cut] shares pieces out to bars and re-uses the offcuts. [Flexible]
// gives the trim of track that is sold in lengths with both rails alike.
//
// # Lengths
//
// A piece of rail is as long as its rail between two joints, less its share of
// the gaps:
//
//	piece = Δs ∓ (g_c/2)·Δθ + (slope length - plan length) - shares of the gaps
//
// g_c is the distance of the rail-head centres. A gap between two pieces is
// shared half and half about the chainage of its joint; the gap at an object
// is all on our side; an open line's ends have none. On each rail, pieces and
// gaps together are the rail's length within 1e-6 mm. On a grade in a bend the
// extra length i²/2 is counted at the centreline: the error is below
// g_c/2R of it.
//
// # Squares and staggers
//
// Square joints stand at one chainage on both rails: the outer rail is whole
// and the inner one trimmed. Staggered, the right rail's joints come half way
// between the left rail's, as near as whole bars allow.
//
// # Limits and errors
//
// At most [MaxPieces] pieces on a rail, [MaxPlaces] objects, anchors and zones
// each, [MaxWork] joints times states; more is measure.ErrLimit. Values that
// cannot be taken wrap measure.ErrInput, all of a call together; a stock that cannot hold a piece, or a panel for
// which no gap suits the climate, is measure.ErrNoAnswer. What can be laid but
// ought to be known (a piece shorter than wanted, a joint in a zone or on an
// anchor, a piece held twice) is a warning in the plan.
//
// Everything is immutable in use and safe for concurrent use.
//
// # Caution
//
// Clamp rail to cut it, goggles on, deburr; a grinder's disc can burst and its
// sparks light dry leaves. Rails that carry current need a bond at every
// joint that is not meant to insulate.
package joints
