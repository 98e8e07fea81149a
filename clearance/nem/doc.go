// Package nem holds what two sheets of NEM (MOROP) print about the space beside
// the track: the opening on straight track (NEM 102) and what is added to it on
// a curve (NEM 103).
//
// A table informs and decides nothing: what each column of NEM 102 means was
// inferred from its heading, the sheet's drawing was not seen, and NEM 103's
// widening is 1.5 to 5.8 mm less than the throw of the bodies that it names,
// because the opening on straight track holds the rest. What a vehicle needs is
// package clearance's to say. What NEM asks of a line by its gauge alone is in
// package example.org/fourfoot/gauge/nem.
//
// Units: millimetres on the model; widths are over both sides together, a
// widening is on each side, a radius is to the track centreline. Nominal sizes
// are NEM 010's.
//
// Sources: NEM 102 ed. 2017, NEM 103 ed. 2016, to the last figure printed;
// between two radii of NEM 103 the value is taken straight.
//
// Errors wrap measure.ErrInput and hold a *measure.FieldError for every value at
// fault. Everything is safe for concurrent use.
package nem
