// Package order turns quantities into what to ask for at the counter: packs
// counted up, at least cost, and one merged list whose totals reconcile with
// its parts.
//
// What it answers: how many bags, loads, lengths or boxes cover a quantity;
// which mix of sizes costs least; one list of everything with quantity, unit,
// buying unit, count, cost and the ranges that each came from, as CSV and as
// text. It takes lines from anywhere: ballast, rails, joiners, fixings are
// all an item, a unit and a quantity.
//
// What it leaves out: delivery, discounts, tax, the market. Prices are the
// user's own, in whole minor units (pence, cents) of a currency that is only a
// text here; two currencies are never added and never converted.
//
// Rounding: quantities are merged first and counted up once, so that a bag is
// not lost in every range. A pack that falls short by less than one part in
// 1e9 counts as enough. A reserve is a part added on purpose; it is shown in
// its own column and is never hidden in a quantity.
//
// Errors wrap measure.ErrInput or measure.ErrLimit and name the item. All
// types are plain values and safe for concurrent use.
package order
