// Package check holds a line in plan to limits that its builder sets: smallest
// radius, kinks, sudden changes of curvature, length and quickness of easements,
// straights between reverse curves. [Line] returns every place where the line
// breaks one, with the value there and the limit beside it.
//
// It judges the plan alone. Gradients and cant are judged from package profile,
// what the line passes too close to by package clearance.
//
// Chainages and element numbers are those of the line, as package curve has
// them; so are units and signs. Values are exact but for rounding, and a limit
// counts as kept to within a part in 1e12. The limits are the builder's: where
// a field names a published rule its source stands beside it.
//
// A limit that is negative or not a number is refused, all at once, wrapping
// measure.ErrInput. Everything is safe for concurrent use.
package check
