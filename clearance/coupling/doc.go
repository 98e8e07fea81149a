// Package coupling answers whether two vehicles stay coupled as they run along
// a line: how far their ends stand apart sideways, how far the couplers must
// swing, what remains of the buffers' overlap, and what a curve or a reverse
// curve must be like for a given pair.
//
// # What it answers
//
//   - At: one coupling with the pair standing at a chainage;
//   - Along: where along a line each measure is worst, and what is left there of
//     the swing and of the overlap that the cars state;
//   - LeastRadius: the least radius for each limit, on a curve, between
//     straight track and one, and through a reverse curve;
//   - StraightNeeded, EasementNeeded: what a reverse curve needs between its two
//     curves.
//
// It leaves out the play of the wheels, the forces, and what crests and sags do
// to couplers.
//
// # How the pair stands
//
// Each car stands by itself as in clearance.Stand. A coupler is a bar that
// swings about its hinge; pulled taut the two bars are in line, so the hinges
// are as far apart as the bars are long together:
//
//	 behind                 ahead
//	──────────┐          ┌──────────
//	      o───┼────┬─────┼───o          o  hinge
//	──────────┘          └──────────    ┬  where the couplers meet
//
// The car behind is found by its distance along the line at which that is so.
// An engine and its tender are such a pair too: the drawbar is the bar, its pins
// are the hinges, and how far the tender stands behind comes out of it. Each
// stands on its own wheels; a drawbar pulls, it does not steer.
//
// Couplers of no length are faces that meet along the line, whatever their
// offset across it.
//
// On a curve a face Lc/2 from the middle of a vehicle on pivots a apart stands
// e = √(R² - (a/2)² + (Lc/2)²) - R outside the track centreline: plane
// geometry. Two cars alike stand out alike, and their faces are in line; where
// the curve reverses the two offsets add.
//
// Buffers lock when their heads part sideways: pushed together they slip past
// and catch behind each other. Overlap is what remains before that. NEM 111
// prints radii at which buffers of full-size stock still touch when propelled,
// as multiples of the gauge; such a table informs, the stock's own measures
// decide here.
//
// # Signs and units
//
// Those of package curve and package clearance: millimetres, to the left
// positive, Along forward from midway between a body's pivots.
//
// # Accuracy
//
// One coupling is exact to about 1e-7 mm. Along stands the pair a twelfth of
// its shortest pivot spacing apart and searches about the worst of these, to
// 1e-6 mm in the worst value; a peak much narrower than that step, as of a kink
// in sectional track, can be missed. Solved radii and lengths leave less than
// 1e-4 mm of the limit, and what is solved for is the last place, from easy to
// sharp and from long to short, at which the limit breaks.
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit; the
// second say what would make an answer exist. Everything here is safe for
// concurrent use. What runs along a line takes a context and stops promptly.
package coupling
