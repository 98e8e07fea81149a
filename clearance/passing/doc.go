// Package passing answers for two tracks side by side: how far apart they must
// be for any two vehicles to pass, where two that part get clear of each other,
// and what may stand between such places.
//
// # What it answers
//
//   - Gaps: the gap between the spaces that the stocks of two tracks need, at
//     every place along the first, with the least and what governs on both
//     sides; Profile.Clear and Profile.Below, the stretches that keep a margin;
//   - FoulingPoints: where on each of two tracks that part, or come together,
//     the gap passes the margin;
//   - StandingRoom, Room.Holds: what a loop or siding holds clear of the tracks
//     beside it, and whether a given train stands clear there;
//   - Stocks.Straight, Stocks.Concentric, Stocks.OnArcs, Stocks.Table: the
//     spacing that two tracks need, centre to centre;
//   - Stocks.Needed, Stocks.LatestTaper: the same at every place along a line,
//     and where the taper from the straight's spacing to the curve's must begin;
//   - Beside: the parallel of a line as a line that stock can be swept along;
//   - SpacerBar, BarBetweenRails: the bar that sets the two tracks apart.
//
// It leaves out tracks at different levels, and gaps up and down: audit the one
// as a structure over the other for these.
//
// # The gap
//
//	second track's centreline  ------------------------
//	its stock's edge           ........................   Facing reach
//	                                |  gap, straight across
//	the first's stock's edge   ........................   Reach
//	first track's centreline   ------------------------
//
// Both edges are those of clearance.Sweep, all allowances in them, over all
// positions of both stocks, at heights that both have. The gap is positive
// between them and negative, how far in, where they overlap. A running gap is
// the margin of a call here, or Allowances.Running of the sweeps, not both.
//
// The fouling point is a matter of swept spaces: anything that stands beyond
// it is clear of anything that runs past. A given vehicle might stand a little
// nearer; the room says what is safe for all.
//
// # Signs and units
//
// Those of package curve and package clearance: millimetres, spacing centre to
// centre, sides by the first track's running direction. What is measured from
// rail to rail says so in its name.
//
// # Accuracy
//
// A gap is within the sum of the two sweeps' tolerances. Within one profile a
// solved place leaves the margin to 1e-6 mm. Of leaning sections a slab of
// heights is compared as one, always on the safe side: by less than the
// tolerances, or where those are very fine by what 1/200 of the height leans.
// Spacings on steady curves are within 3e-4 mm.
//
// # Sources
//
// The spacing on curves of one radius is the centre throw of the one and the
// end throw of the other on top of the straight's: about L²/8R for bodies of
// the length L, whatever their pivots. In tests EBOA 1983, Anlage 8 and NMRA
// S-8 are reproduced as fits. The running edges' distance as six-foot: UK
// guidance, interval 1970 mm for centres of 3405 mm (secondary).
//
// # Errors
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit; the
// second say what would make an answer exist. Everything here is safe for
// concurrent use. What sweeps takes a context and stops promptly.
package passing
