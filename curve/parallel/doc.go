// Package parallel answers for a track that keeps a given spacing from a line:
// the second track of a double line, the edge of a platform, a kerb.
//
// # What it answers
//
// A [Track] is the true offset of a [curve.Alignment]: each of its points lies
// square to the line at the offset. It gives the track's own chainage, length,
// heading, curvature and smallest radius, and points along it within a chord
// tolerance. The offset may change along the line from the spacing on the
// straight to that on a curve and back, by a law without corners.
//
// The parallel of a straight is a straight and that of an arc an arc, but the
// parallel of an easement is no easement: its curvature k/(1 - k·d) follows no
// shape of package curve. A track is therefore not an Alignment. To lay the
// second track with easements of its own, design it as a line of its own and
// use this package to see what spacing that leaves.
//
// # Axes, signs and units
//
// Those of package curve: offsets and curvature positive to the left of the
// running direction. A track has two chainages: its own, along itself, and that
// of the line it belongs to.
//
// # Accuracy
//
// Where the offset is constant, all is closed form: the track is as long as the
// line less offset times turn. Where it changes, length is integrated to about
// 1e-12 of itself. A place given by own chainage is found to rounding. The
// smallest radius is exact where the offset is constant; where it changes it is
// searched on a grid and refined.
//
// # Errors
//
// An offset that reaches the centre of curvature anywhere is refused: the error
// names the chainage and the largest offset there. So is a line whose kinks
// would open a gap of more than [MaxGap] in the parallel. Errors are of the
// kinds of package measure, all faults of a call at once. A Track is immutable
// and safe for concurrent use.
package parallel
