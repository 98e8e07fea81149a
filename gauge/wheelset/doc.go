// Package wheelset holds track-and-wheel standards as tables of tolerance
// intervals, and the audit of a track against the wheels that are to run on it.
//
// It answers: do these wheels run through this track in the worst case that the
// tolerances or the readings allow; which pair of limits is the worst, and by
// how much; is a published column consistent in itself. It leaves out turnout
// geometry and what a curve asks of a vehicle, save the least gauge for a rigid
// wheelbase ([LeastGauge]).
//
// The letters are the trade's:
//
//	G  gauge, between the rail heads         B  back to back of the wheels
//	C  check gauge, from the running edge    T  flange width (thickness)
//	   at the crossing to the check rail     K  wheel check gauge, B + T
//	S  span over the check rails             D  flange depth
//	F  flangeway width                       N  wheel width over flange and tread
//	H  flangeway depth
//
// A pair obeys K max ≤ C min, B min ≥ S max, B max + 2 T max ≤ G min and, where
// the wheels are not to be carried on their flanges, D max ≤ H min. By geometry
// a flange must also pass its flangeway, T max ≤ F min, and a tread must reach
// the rail at the widest gauge, B min + T min + N min ≥ G max. Besides, a
// drawing has C = G - F, S = C - F and K = B + T; a column of tolerances is
// checked for whether it keeps to these.
//
// A figure that is not stated makes what depends on it "not stated", never
// passed, unless an identity gives a safe bound for it; the finding then says
// which. Nothing is repaired: a column that contradicts itself is reported as
// it is printed.
//
// Units: millimetres on the model. A margin is positive where the rule is kept,
// and is rounded to a millionth of a millimetre, so that decimal figures that
// meet exactly have a margin of exactly 0, which passes.
//
// Sources: NMRA S-3.2 (older issue) with S-4.2; Gauge One association,
// dimension tables. NMRA's issue of February 2010 gives targets that do not
// keep S = C - F exactly and misprints a check gauge in its fine column; its
// figures are not tabled here, nor is NEM 310, which has not been seen.
//
// Errors wrap measure.ErrInput, or measure.ErrLimit for text that is too long.
// Everything is immutable and safe for concurrent use.
package wheelset
