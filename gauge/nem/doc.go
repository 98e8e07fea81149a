// Package nem holds what three sheets of NEM (MOROP) ask of a line by its gauge
// alone: the smallest radius (NEM 111), the length of an easement (NEM 113) and
// the most cant (NEM 114).
//
// It answers by the sheet, not by geometry: the shift of a clothoid, the throw
// of a vehicle or the cant for a speed are computed where the line is. The
// nominal sizes of NEM 010 are in package gauge. NEM 310, on wheels and track,
// has not been seen and is not here.
//
// Units: millimetres on the model, save where a name or doc says full size; a
// radius is to the track centreline and positive. Values are the sheet's to the
// last figure; what is rounded says so.
//
// Sources: NEM 111 ed. 2016 (the multiples of the gauge from a page that quotes
// it), NEM 113 ed. 2016, NEM 114 ed. 2007.
//
// Errors wrap measure.ErrInput for a value that cannot be taken and
// measure.ErrNoAnswer where the sheet has no answer for good values; the text
// says what would have one. All functions are safe for concurrent use.
package nem
