// Package ballast measures the bed of the line: how much stone each range
// takes, what that weighs, how many bags hold it, and what a bonded mix needs.
//
// What it answers. A Section is the shape across the line: depth, shoulders,
// slopes, crib, trench, kerbs, one track or several; Outline gives its exact
// area and its surface for a drawing, with cant, SleeperOutlines and OnTracks what
// lies in it and on it. TakeOff measures a Bed along
// an alignment, open or closed: ranges with their own sections and tapers,
// gaps left out, sleepers and other solids taken off below the surface of the
// ballast, the true length on curves and the wedge that cant adds. A Material
// turns compacted volume into loose volume and mass, a Bag into a count and a
// cost; a Mix into grit, binder and water. Grading says what grit a scale asks
// for.
//
// What it leaves out: formation, trench, boards and earthwork (ballast/trackbed),
// and the list of everything to buy (ballast/order). How well a bed holds or
// drains is not computed.
//
// Axes and signs: offsets are square to the line and positive to the left of
// the running direction; heights count from the undersides of the sleepers,
// upward; slopes are horizontal over vertical (1.25, never 0.8). Positive cant
// raises the right rail. Volumes are compacted and in place unless their name
// says loose.
//
// Accuracy: areas are exact; volumes of constant sections are in closed form,
// of tapered or canted ones within 1e-9 of the range. The true error is the
// ground's: Bed.Sensitivity says what a few millimetres of depth are worth.
//
// Limits: MaxStretches and MaxTracks. Sections that differ by many powers of ten
// in one taper are refused with ErrLimit before they take long.
//
// Sources: NEM 122 (MOROP), edition 2007, for the trackbed's section; EN 13450
// for the nominal size of full-size ballast; bulk densities are the user's, the
// published ranges stand in the package's tests. Everything marked "common
// practice, no source" is only that.
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit, name
// field, value and limit, and come all at once. Results that lead to work that
// can hurt carry Cautions. All types are plain values, safe for concurrent use.
package ballast
