// Package curve is the line in plan: straights, arcs and easements, joined
// into an immutable [Alignment], open or closed.
//
// # What it answers
//
//   - where the line is, which way it heads and how sharply it turns at any
//     chainage: [Alignment.At], [Alignment.Point], [Alignment.Offset];
//   - which chainage a point belongs to, and on which side and how far off it
//     lies: [Alignment.Nearest], [Alignment.NearestFrom], [Alignment.Feet];
//   - the same line cut, joined, run from its other end, mirrored, moved,
//     scaled, or started elsewhere: [Alignment.Part] and its neighbours;
//   - its bounds, its points for drawing, the lengths of its two rails:
//     [Alignment.Bounds], [Alignment.Points], [Alignment.RailLength].
//
// Sub-packages find lines (design), close circuits (closing), hold a line to
// limits of radius, easement, kink and straight (check), set a second track
// beside one (parallel), give it level and cant (profile) and take it out as
// files and paths (export).
// What runs on the line is package clearance's.
//
// # Axes and signs
//
//	y north                       o  a point, offset +120 from chainage s
//	|       heading               :
//	|      /                ------:------- left rail (+)
//	|     /                       :
//	|    /  anticlockwise   ------+------> centreline, running direction
//	|   /  )                      s
//	+------------ x east    -------------- right rail (-)
//
//	curvature above 0, Left:   __.'    curvature below 0, Right:   --.__
//	the heading grows       --'        the heading falls                '.
//
// Places are [r2.Vec], x east and y north; headings go anticlockwise from +x
// and count whole turns; curvature, offsets, kinks and turns are positive to
// the left of the running direction. A radius is to the track centreline and
// always positive, its [Hand] separate. Chainage is distance along the
// centreline from the start. Lengths are millimetres, but nothing here depends
// on it: full-size lines in metres do as well, if all is in metres.
//
// # Building a line
//
// Elements come from [NewStraight], [NewArc], [NewEasement] and, three at a
// time, from a [Bend]. Each goes on where the one before it ends, so a line
// needs only one pose, at its start:
//
//	bend, err := curve.Bend{
//		Radius: 2.5 * measure.Metre,
//		Turn:   90 * measure.Degree,
//		Hand:   curve.Left,
//		EaseIn: 800, EaseOut: 800,
//		Shape:  curve.Bloss,
//	}.Elements()
//	line, err := curve.New(curve.Pose{}, append([]curve.Element{straight}, bend...)...)
//
// Track of sectional pieces may turn suddenly at a joint: [Element.WithKink].
// What any element is made of, to be written down, is its [Form].
// A circuit comes from [NewClosed]: its chainage is taken modulo its length,
// ranges may run over the start, and nothing that it answers changes when the
// start is put elsewhere. Off the ends an open line goes on straight on its
// end tangents.
//
// # Easements
//
// An easement's curvature goes from k0 to k1 as k0 + (k1-k0)·f(s/L); f and its
// name are at each [Shape], after ISO 16739-1 (IFC 4.3,
// IfcAlignmentHorizontalSegmentTypeEnum). From a straight to an arc of radius
// R every one turns L/2R. What else they do, to the first power of L/R:
//
//	                 shift   end     peak rate  length for   peak rate
//	                 of arc  offset  of change  equal shift  then
//	                 L²/nR   L²/mR   × 1/LR     × clothoid   × clothoid
//	                 n       m
//	clothoid         24      6       1          1            1
//	Bloss            40      6.667   1.5        1.291        1.162
//	cosine           42.23   6.726   1.571      1.327        1.184
//	sine (Klein)     61.21   7.075   2          1.597        1.252
//	Helmert          48      6.857   2          1.414        1.414
//	cubic parabola   24      6       1          1            1
//	lath             24      6       1          1            1
//
// So for one shift the smoother shapes ask for more length and a quicker
// change at their middle, and begin and end gently in return. [Shape.Ramp] is
// f, for cant too. The last two have no such law: the cubic parabola y = x³/6RX
// ([NewCubicParabola]) ends short of the arc's curvature by about 3/8·(X/R)²
// of it, and a lath ([NewLath]) is the curve that a springy batten takes by
// itself when it is held square to the straight. Between two poses it takes
// [NewLathBetween], by its length.
//
// # How it works, and how well
//
// Straights and arcs are closed forms. The heading of an easement is its law's
// integral, that of a cubic parabola or a lath a power series of its own; the
// place is prepared once, as polynomials of degree 15 in pieces that turn at
// most 0.6 radian: coefficients by the recurrence of cos and sin along the
// heading's power series, brought down to that degree by Chebyshev polynomials
// (C. Lanczos, Applied Analysis, 1956, VII 6), and split until what is left out
// is below 3e-17 of the piece. Places are within 5e-15 of an element's length of
// points computed to 50 digits, and two units in the last place of the larger
// coordinate; a promise of 1e-12 of the line's length holds for whole lines.
// Nothing is lost as the curvature becomes constant or nothing. Nearest descends
// a tree of boxes and then shows, from bounds of curvature times offset, where
// the distance has one least value: it misses none. An arc may turn any number
// of times, an easement 4π in all.
//
// On a machine of about 2025 a piece takes 0.5 to 0.9 µs to prepare, whatever
// the shape, and an easement of a bend has one to four; a place then takes 10 to
// 15 ns, a station 20 to 45 ns and a nearest point 150 to 300 ns on 80 elements.
//
// # Errors, limits, concurrency
//
// What a constructor cannot take is refused with every fault at once, each a
// measure.FieldError wrapping measure.ErrInput; a line of more than
// [MaxElements] elements wraps measure.ErrLimit. NaN and infinities are refused
// by whatever returns an error. At, Point and Nearest return none: they answer
// for every finite chainage and point, and take a chainage that is not a number
// as 0. Work is bounded by the number of elements; Points alone is as long as
// its tolerance asks, and lazy.
//
// All values are immutable and safe for concurrent use.
package curve
