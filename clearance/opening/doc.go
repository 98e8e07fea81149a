// Package opening finds how large a hole must be: the section that the stock
// needs at a place or along a tunnel, and the smallest rectangular, arched or
// round opening that clears it.
//
// # What it answers
//
//   - the space that the stock needs in the cross-section, as one closed
//     outline: [At] one chainage, [Over] a range;
//   - the smallest opening round it by a margin: [Section.Rectangle],
//     [Section.Arch], [Section.Circle];
//   - what a tunnel of given length needs from end to end, with curved or with
//     straight walls, and where its walls are set out: [NewTunnel],
//     [Tunnel.Layout];
//   - the card that is pushed along the track instead of a train: [NewFormer].
//
// It leaves out the structure itself: thickness, lining, drainage and strength
// are the builder's.
//
// # Axes and signs
//
// Offsets are from the track centreline, square to it in plan, positive to the
// left; heights are vertical, above the head of the rail that stays level. A
// former alone is in the track's own plane, because it stands on the rails and
// leans with them. A left or right reach is a distance outwards from the
// centreline on that side. All is in millimetres. The margin of an opening is
// the least distance, in whatever direction, from the section to its face; to
// the floor none is asked.
//
// # What is in the section
//
// The swept envelope with every allowance that it was given (see
// clearance.Allowances), one four-sided figure for each outline of each vehicle.
// At each height the section is filled from its right flank to its left one. A
// height band between two outlines with nothing in it is joined straight
// across. Filling changes nothing for an opening, which is of convex form.
//
// # Accuracy
//
// The section at one place is as good as the sweep (clearance.Settings,
// Tolerance). Over a range it is made of the sections at the envelope's
// stations; between them no reach departs by more than the tolerance. The
// openings round a section are exact to rounding: the rectangle and the circle
// in closed form, the arch's span to 1e-9 of itself (an area that is nearly the
// least may be found at a span that differs more).
//
// # Sources
//
// The geometry is worked here. The least enclosing circle is E. Welzl's,
// Smallest enclosing disks (1991); the convex hull A. M. Andrew's (1979). NEM
// 102's straight-track opening is in package clearance/nem; what its columns
// mean was inferred, so it informs and decides nothing here.
//
// # Caution
//
// An opening in brick, stone or concrete is cut and mortared: cement burns skin
// and eyes, stone dust harms the lungs. Follow the maker's data sheet, and leave
// what carries a load, a path or a wall above to the trade.
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit and
// hold a *measure.FieldError for every value at fault. Everything here is
// immutable and safe for concurrent use.
package opening
