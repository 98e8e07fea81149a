// Package expansion answers what heat does to rail: how wide a gap to leave
// today ([Joint.Gaps]), how long a panel may be at all ([Joint.Longest]), at
// which temperatures a given feeler is right ([Joint.LayingWindow]), as a card
// for the garden ([Joint.Card]). Each says which state of the climate governs,
// and what a unit of each input is worth ([Joint.Rates]).
//
// The rest of the subject is in its sub-packages:
//
//	climate   rail and base temperatures from air, sun, wind and sky
//	joints    where the joints of a line go, the cut list, what to order
//	movement  what then moves where between winter and summer
//	locked    rail that cannot slide: push, bow, shift of curves, buckling
//	gaplog    gaps read over the seasons against the prediction
//
// # What it leaves out
//
// It takes every free panel to slide without friction from one fixed point,
// steadily heated through. It does not know moisture, which moves timber more
// than heat does, nor the lag of a thick base: give the base temperatures that
// you mean.
//
// # Signs and units
//
// Lengths are in millimetres. A closing movement is positive: it makes a gap
// smaller. A [State] is the temperature of the rail and of the base under it
// at one time; a climate is a list of them. Rail and base do not peak
// together, so a climate of low and high temperatures must hold the four
// [Corners]. A base that expands more than the rail opens the gaps in heat
// and shuts them in winter; nothing here takes summer for the tight end.
//
// # The gap
//
// From laying to a state a joint closes by
//
//	m = Σ (α_rail ΔT_rail - α_base ΔT_base) · free length
//
// summed over the panels on its two sides, each from its own fixed point. The
// gap to leave lies between g_min + max m and g_max + min m over all states.
// g_max is the least of the widest gap that the wheels may cross and the reach
// of the joiner. Since max m - min m does not depend on the day, neither does
// the verdict "none".
//
// # Accuracy
//
// The formulas are exact for the model; rounding is below 1e-12 of the free
// length. What decides is the input: the coefficients of plastics differ by
// half between tables, so take yours from the maker.
//
// # Sources
//
// US Army TI 850-02 (2000), Table 9-2, and Vose, Handbook of Railroad
// Construction (1857), are met by the tests. Each row of the material tables
// names its own source.
//
// # Errors
//
// Values that cannot be taken wrap measure.ErrInput, all of a call together.
// A panel for which no gap suits all states is measure.ErrNoAnswer; the text
// says the longest panel and the least reach that would do.
//
// All values are immutable in use; everything is safe for concurrent use.
//
// # Caution
//
// Rail in the sun burns the hand. Clamp rail to cut it, wear goggles, deburr
// it; a grinder's disc can burst. Torch and solder want water at hand and air.
// Follow the maker's data sheets. Where rails carry current, a gap is a break
// in the circuit: bond the joint. For model lines that carry no people.
package expansion
